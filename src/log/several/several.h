/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen in several tests, of one log or of all logs of a folder, put together (pooled.h).
 *
 * Invariant: logs are only read. A rehearsal, somebody's hair and the copy of a test that another log has
 * more of are never among them. Tests stand together only where strips and zones of one name are the same:
 * hair, dyes, mixes and what is done; and, unless that is asked for, where labels' times and lots are not
 * known to differ.
 */
#ifndef SLOWLIFT_LOG_SEVERAL_H
#define SLOWLIFT_LOG_SEVERAL_H

#include "document/document.h"
#include "document/table.h"
#include "log/shelf/shelf.h"
#include "slowlift/compare.h"
#include "slowlift/pooled.h"

typedef struct sl_several_asked {
    const char *place;       /* a log, or a folder of them */
    const char *const *test; /* [n_tests] how their ids begin; 0: every test */
    int n_tests;
    bool all, across; /* those of more than a year ago in a folder, too; whatever their labels and lots */
    const char *scene, *zone; /* only of this scene, by its file's name; this zone alone; NULL: all */
    double noise_floor;       /* -1: not asked */
} sl_several_asked;

/* Why a test does not stand with an earlier one. */
typedef enum sl_apart_kind {
    SL_APART_NOT,
    SL_APART_NOTHING, /* no strip and zone of one name */
    SL_APART_ZONE,    /* another hair or dye */
    SL_APART_STRIP,   /* another mix, or something else is done */
    SL_APART_LABEL,
    SL_APART_POWDER,
    SL_APART_DEVELOPER
} sl_apart_kind;
typedef struct sl_apart {
    sl_apart_kind kind;
    char what[SL_LOG_TITLE];                     /* title of the zone or strip */
    char lot[SL_LOG_TITLE], other[SL_LOG_TITLE]; /* of this one, of the earlier one */
    double label_min, other_min;                 /* 0: not entered */
} sl_apart;

typedef char sl_lots[SL_TUB_KINDS][SL_LOG_TITLE]; /* of a strip's bowls, each lot once; "": not said */

typedef struct sl_several_test {
    sl_compare *seen; /* without what the model says */
    char file[SL_SHELF_NAME];
    sl_lots *lots; /* [n_arms] */
    int group;
} sl_several_test;

/* Strip and zone of a group: where it is in the scene of the first test that has it. */
typedef struct sl_several_part {
    int test, index;
} sl_several_part;

/* Tests that stand together, by rising day. */
typedef struct sl_several_group {
    int n_tests, n_swatches, first, last; /* first, last: tests */
    int n_strips, n_zones;
    sl_several_part strip[SL_MAX_ARMS], zone[SL_MAX_ZONES];
    sl_apart apart;                /* from the nearest earlier group */
    sl_apart across;               /* what was put together because it was asked for */
    int n_lots_unsaid;             /* tests whose bowls say no lot */
    sl_pooled *pool[SL_MAX_ZONES]; /* NULL: nothing was seen there, or there is one test alone */
    bool graded[SL_MAX_ZONES], read[SL_MAX_ZONES]; /* by grades, by an instrument in any test */
    int *place;                                    /* [zone][strip]; 0: not seen */
    double *predicted;     /* [zone][strip] by the model, of the first test that has the strip */
    bool *before;          /* [zone][strip][strip] */
    bool *before_by_order; /* the same by the order of grades (graded.h) */
    double comparisons;
    double even_below;
} sl_several_group;

typedef struct sl_several {
    const sl_several_asked *asked; /* borrowed */
    bool folder;                   /* the place that was asked for is one */
    sl_several_test *test;         /* [n] by rising day */
    size_t n, room;
    sl_several_group *group; /* [n_groups] */
    int n_groups;
    int n_rehearsed, n_people, n_unseen, n_copies, n_older, n_unread;
    sl_error unread; /* of the first that could not be read */
} sl_several;

/* Fails: SL_ERR_USAGE, SL_ERR_MISSING_REFERENCE for what was asked for and is not there. */
bool sl_several_read(sl_several **several, const sl_several_asked *asked, sl_error *error);
void sl_several_free(sl_several *several); /* NULL is allowed */

/* On which cautions are owed, bits of sl_occasion. */
unsigned sl_several_occasions(const sl_several *several);

const char *sl_several_strip(const sl_several *several, const sl_several_group *group, int strip, bool title);
const char *sl_several_zone(const sl_several *several, const sl_several_group *group, int zone, bool title);
bool sl_several_shows(const sl_several *several, const sl_several_group *group, int zone);
/* Strips that were seen in the zone, best first; returns how many. */
int sl_several_order(const sl_several_group *group, int zone, int order[SL_MAX_ARMS]);
/* Half of the 95 % interval of a mean, with what grades lean by. */
double sl_several_half(const sl_several_group *group, int zone, int strip);

/* ---- for several_*.c alone ------------------------------------------------------------------------------
 */

/* Puts every test into a group (several_groups.c). */
bool sl_several_parted(sl_several *several, sl_error *error);
/* Fills what follows of a group (several_pool.c). */
bool sl_several_pool(const sl_several *several, sl_several_group *group, int number, sl_error *error);

/* Fills before_by_order (several_by_order.c). test: [n_zones][n_tests] by means; room as for those. */
bool sl_several_by_order(const sl_several *several, sl_several_group *group, int number,
                         const sl_blocks *test, sl_comparison *room, sl_error *error);
/* Pairs that means tell and the order of grades does not, and the other way round. */
sl_told_otherwise sl_several_otherwise(const sl_several_group *group, int zone);

/* ---- what is said of it (several_say.c, several_data.c) --------------------------------------------------
 */

sl_document_sayer sl_several_say; /* of a sl_several */
extern const sl_export sl_several_export;

#endif

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The one page on which a scene is answered: which mix, how long, what it costs the hair, how sure. Rows
 * stand in the order of the scene, as the strips hang. Invariant: a minute stands only where an answer holds
 * one (answer.h), and JSON has none that the page has not.
 */
#ifndef SLOWLIFT_REPORT_ANSWER_PAGE_H
#define SLOWLIFT_REPORT_ANSWER_PAGE_H

#include "document/document.h"
#include "document/table.h"
#include "slowlift/answer.h"
#include "slowlift/rinse.h"

typedef struct sl_answer_page {
    const sl_answers *answers;
    const sl_rinse *rinse;
    int zone;                 /* the sentence about one colour is about this one */
    int only;                 /* this arm alone; -1 = every arm */
    bool zone_asked;          /* by the user; else it is the one in which arms differ most */
    bool science;             /* what is behind it too */
    const char *currency;     /* NULL: no prices */
    double cost[SL_MAX_ARMS]; /* of one use; below 0: not known */
} sl_answer_page;

sl_document_sayer sl_answer_say;         /* of a sl_answer_page */
extern const sl_export sl_answer_export; /* JSON, of a sl_answer_page */

unsigned sl_answer_occasions(const sl_answers *answers); /* on which cautions are owed */

/* ---- what an arm is for (answer_rows.c) ---------------------------------------------------------- */

typedef enum sl_answer_role {
    SL_ROLE_STRIP,   /* its mix is asked about */
    SL_ROLE_HUNG,    /* nothing is put on */
    SL_ROLE_WASHED,  /* water alone */
    SL_ROLE_UNDYED,  /* a mix on hair without dye */
    SL_ROLE_OUTSIDE, /* a mix that the model says nothing of */
    SL_ROLES
} sl_answer_role;
sl_answer_role sl_answer_role_of(const sl_scene *scene, int arm);
const char *sl_answer_role_key(sl_answer_role role); /* for machines: "control: washing" */

/* Minutes from contact at which an arm is rinsed: the answer's, or, of a control and where no minute of the
 * model's is told, the scene's own; below 0: it is not. */
double sl_answer_rinse_min(const sl_answers *answers, int arm);
/* Of how many model runs the page is told in part; -1: of all that were asked for. */
long sl_answer_partial(const sl_answer_page *page);
/* What is read of the members of a spread for the page, by one thread; same_zone as there. */
sl_rinse_request sl_answer_rinse_request(const sl_answers *answers, int same_zone);
/* Whether it may be told what an arm's hair is like when it is rinsed: cut swatches, or a person's whose
 * strand was counted with it. */
bool sl_answer_tells(const sl_answer_page *page, int arm);
/* Whether any arm's answer holds minutes. */
bool sl_answer_has_minutes(const sl_answers *answers);
/* The zone whose colour an arm mostly holds longest when it is rinsed; -1: none is known. */
int sl_answer_holds_most(const sl_answer_page *page, int arm);
/* The zone in which the arms differ most. */
int sl_answer_telling_zone(const sl_answers *answers, const sl_rinse *rinse);
/* The zone whose base and stress are an arm's: of the hair under the colour that holds most. */
int sl_answer_base_zone(const sl_answers *answers, int arm);
/* The level that hair reads whose base moved by so much. */
double sl_answer_level(const sl_scene *scene, int zone, double moved);

void sl_answer_say_tables(sl_document *document, const sl_answer_page *page);
/* ---- the sentences (answer_says.c) --------------------------------------------------------------- */

void sl_answer_say_sentences(sl_document *document, const sl_answer_page *page);
/* Instead of them, where no minute is told: who takes out most, who moves the base least. */
void sl_answer_say_order(sl_document *document, const sl_answer_page *page);
/* A share left in steps of five, as an eye grades: "65", "under 5". */
void sl_left_in_fives(double left, char *text, size_t size);

#endif

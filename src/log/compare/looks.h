/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Looks at swatches, out of the log, and what the events say of each swatch. For compare.c alone.
 */
#ifndef SLOWLIFT_LOG_LOOKS_H
#define SLOWLIFT_LOG_LOOKS_H

#include "slowlift/blocks.h"
#include "slowlift/compare.h"

/* dE*ab of two groups that an instrument read. */
double sl_group_apart(const sl_seen_group *one, const sl_seen_group *two);
/* How a test's readings are asked for; together: in one go, as they lie in the file. */
enum { SL_LOOKS_ASKED = 480 };
void sl_looks_asked(bool together, char text[SL_LOOKS_ASKED]);
/* Fills groups, noise and judges from the readings that none replaces and that are not called
 * invalid (looks.c). */
bool sl_looks_read(sl_compare *compare, sl_log *log, sl_error *error);
/* A test's swatches, looks and what its zones are ranked by, without anything that the model says or that is
 * learned of who looked, and whoever's hair it is; freed with sl_compare_free(). */
bool sl_compare_read_looks(sl_compare **compare, sl_log *log, const sl_log_test *test, double noise_floor,
                           sl_error *error);
bool sl_odd_find(sl_compare *compare, sl_error *error);                    /* odd.c: after places */
bool sl_uncovered_read(sl_compare *compare, sl_log *log, sl_error *error); /* uncovered.c */
/* Where the groups of this zone of this swatch begin, or would. */
int sl_looks_first(const sl_compare *compare, int swatch, int zone);
/* The group of a moment, or NULL. */
const sl_seen_group *sl_looks_find(const sl_compare *compare, int swatch, int zone, double minute,
                                   double hours);

/* ---- judges (judges.c) ---- */

/* One row. */
typedef struct sl_one_look {
    int swatch, zone, grade, stretch, feel; /* SL_NOT_SAID */
    double minute, hours, L, a, b, level;
    char judge[SL_LOG_CODE];
    int64_t kept;
} sl_one_look;

typedef struct sl_look_rows {
    sl_one_look *look;
    size_t n, capacity;
} sl_look_rows;

/* While groups are read. */
typedef struct sl_judging {
    double squares; /* of looks that were repeated */
    int freedom;
    sl_judge_looks *looks; /* [n] of each judge at each group */
    size_t n, room, grades_room, pairs_room;
} sl_judging;

/* Groups of these looks, which are sorted, and of each judge what can be told. */
bool sl_looks_group(sl_compare *compare, sl_look_rows *looks, sl_error *error);
/* Lists who looked. */
bool sl_judges_begin(sl_compare *compare, const sl_look_rows *looks, sl_error *error);
/* The newest group is of these looks. */
bool sl_judges_add(sl_compare *compare, sl_judging *judging, const sl_look_rows *looks, size_t begin,
                   size_t end, sl_error *error);
/* Tells of each judge what can be told; frees what judging holds. */
bool sl_judges_end(sl_compare *compare, sl_judging *judging, bool good, sl_error *error);

/* ---- by the order of grades (by_order.c) ---- */

bool sl_compare_orders(sl_compare *compare, sl_comparison *room, sl_error *error);
/* Its first half: what grades tell of the arms, [n_zones] as sl_graded_of fills it; blocked: [n_zones]. */
bool sl_compare_orders_of(const sl_compare *compare, const bool *blocked, sl_blocks *zone,
                          sl_graded_scatter *scatter, sl_error *error);

/* ---- means (means.c) ---- */

/* Whether dye is ranked there; arm -1: no. */
bool sl_compare_ranks(const sl_compare *compare, int arm, int zone);
/* What was seen of a swatch at a minute, -1: at the end, and by how much its planned time differs;
 * SL_NOT_READ: nothing. */
double sl_swatch_left(const sl_compare *compare, int swatch, int zone, sl_basis basis, int at_min,
                      double *to_planned);
/* What is ranked of the swatches, by rising block: [SL_BENCH_MOST]; returns how many. */
int sl_compare_values(const sl_compare *compare, int zone, sl_basis basis, int at_min, bool planned,
                      sl_block_value *value);
/* Of every arm there, by strips and blocks; planned: as at the planned times. */
void sl_compare_means(const sl_compare *compare, int zone, sl_basis basis, int at_min, bool planned,
                      sl_blocks *blocks, sl_seen_mean mean[SL_MAX_ARMS]);

/* ---- before the end (on_the_way.c) ---- */

/* Into minutes[n], which stays rising, without repeats, and keeps the first `most`; returns the new n. */
int sl_minutes_put(int *minutes, int n, int most, int minute);
/* A look at the arm, on the zone's basis, before it was washed. */
bool sl_look_on_the_way(const sl_compare *compare, const sl_seen_group *group, int arm, int zone);
/* Whether a group is of that minute, or of the end (-1), at once. The end of a ladder is the piece of its
 * last minute. */
bool sl_look_is_of(const sl_compare *compare, const sl_seen_group *group, int at_min);
/* Mean of the looks at one zone of a swatch near a minute, or SL_NOT_READ. */
double sl_swatch_at(const sl_compare *compare, int swatch, int zone, sl_basis basis, int minute);
/* Colour left of an arm as it is planned, once it is washed and dry; zones and failure as below. */
bool sl_model_planned(const sl_scene *scene, int arm, double left[SL_MAX_ZONES], sl_error *error);
/* By the model, zone by zone, or SL_NOT_READ: hair that lay under the arm's first mix for so long, and then
 * was rinsed as the arm is. */
bool sl_model_rinsed_at(const sl_scene *scene, int arm, double minutes, double left[SL_MAX_ZONES],
                        sl_error *error);
/* Fills piece_to_planned of every swatch for the minute that is ranked. */
bool sl_pieces_to_planned(sl_compare *compare, sl_error *error);
/* What a look at that minute sees: a piece of a ladder rinsed, else hair under the mix. */
bool sl_model_seen_at(const sl_compare *compare, int arm, double minutes, double left[SL_MAX_ZONES],
                      sl_error *error);

/* ---- otherwise than planned (as_it_was.c, handling.c) ---- */

/* The first n applications of a swatch: how long each lay, how much older its mix was at contact than
 * planned, and how much longer than planned it waited for it. */
typedef struct sl_course_as {
    int n;
    double lies_s[SL_BENCH_ROUNDS], older_s[SL_BENCH_ROUNDS], longer_s[SL_BENCH_ROUNDS];
} sl_course_as;
sl_course_as sl_course_planned(const sl_bench_swatch *plan);
/* Model's share left, washed and dry, as planned over that as it was, zone by zone; 1 where nothing is told,
 * or as good as nothing left. A course ends with what follows its last application before the next. */
bool sl_course_ratio(const sl_scene *scene, int arm, const sl_course_as *had, const sl_course_as *planned,
                     sl_solver *solver, double ratio[SL_MAX_ZONES], sl_error *error);
/* That ratio of two readings. */
void sl_planned_over_had(const sl_scene *scene, const double planned[SL_MAX_ZONES],
                         const double had[SL_MAX_ZONES], double ratio[SL_MAX_ZONES]);
/* Fills to_planned of every swatch. */
bool sl_courses_to_planned(sl_compare *compare, sl_solver *solver, sl_error *error);
/* Fills bench and deviations. */
bool sl_handling_read(sl_compare *compare, sl_log *log, sl_error *error);
bool sl_deviation_add(sl_compare *compare, sl_deviation deviation, size_t *capacity, sl_error *error);

#endif

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Looks at swatches: those of one zone of one swatch at one moment are one group, whose mean is
 * what the swatch showed. Equation of the instrument's share: dE*ab(now, undyed now) / dE*ab(start,
 * undyed at the start), ISO/CIE 11664-4 for dE*ab.
 */
#include "log/compare/looks.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "log/store/rescue.h"
#include "log/store/rows.h"

/* Most looks are a grade alone; what else a row may hold is asked for as one first. */
static const char looks_asked[] =
    "SELECT r.kept, coalesce(r.hours_after, r.L, r.a, r.b, r.stretch, r.feel, r.level) IS NULL,"
    " r.swatch, r.zone, r.judge, r.grade, r.minute,"
    " r.hours_after, r.L, r.a, r.b, r.stretch, r.feel, r.level FROM reading r"
    " WHERE r.kept BETWEEN ?2 AND ?3 AND %sr.swatch IN (SELECT id FROM swatch WHERE test = ?1)"
    " AND r.outcome IS NOT 'invalid'"
    " AND NOT EXISTS (SELECT 1 FROM reading c WHERE c.replaces = r.id AND c.kept > r.kept)";

void sl_looks_asked(bool together, char text[SL_LOOKS_ASKED])
{
    snprintf(text, SL_LOOKS_ASKED, looks_asked, together ? "+" : "");
}

static int zone_of(const sl_scene *scene, const char *name, int near)
{
    return strcmp(scene->zones[near].name, name) == 0 ? near : sl_scene_zone(scene, name);
}

static int said_at(sl_statement *ask, int column, sl_said what)
{
    return sl_null_at(ask, column) ? SL_NOT_SAID : sl_said_of_word(what, sl_text_at(ask, column));
}

static double real_or_not(sl_statement *ask, int column)
{
    return sl_null_at(ask, column) ? SL_NOT_READ : sl_real_at(ask, column);
}

/* Columns of what is asked. */
enum {
    KEPT,
    GRADE_ALONE,
    SWATCH,
    ZONE,
    JUDGE,
    GRADE,
    MINUTE,
    HOURS,
    L_STAR,
    A_STAR,
    B_STAR,
    STRETCH,
    FEEL,
    LEVEL
};

/* Whether all that is used of the row is what this program keeps. */
static bool look_fits(sl_statement *ask, bool grade_alone)
{
    static const int columns[] = {SL_READING_JUDGE, SL_READING_GRADE, SL_READING_MINUTE, SL_READING_HOURS,
                                  SL_READING_L,     SL_READING_A,     SL_READING_B,      SL_READING_STRETCH,
                                  SL_READING_FEEL,  SL_READING_LEVEL};
    bool fits = !sl_null_at(ask, ZONE) && sl_row_number_fits(sl_int_at(ask, KEPT)) &&
                (grade_alone || (sl_null_at(ask, L_STAR) == sl_null_at(ask, A_STAR) &&
                                 sl_null_at(ask, A_STAR) == sl_null_at(ask, B_STAR)));
    for (int i = JUDGE; fits && i <= (grade_alone ? MINUTE : LEVEL); i++) {
        fits = sl_value_fits(ask, i, &sl_reading_columns[columns[i - JUDGE]]);
    }
    return fits;
}

/* near: the look before. */
static void look_at(sl_statement *ask, const sl_compare *compare, bool grade_alone, const sl_one_look *near,
                    sl_one_look *look)
{
    *look = (sl_one_look){.swatch = sl_log_swatch_of(compare->swatches, compare->n_swatches,
                                                     sl_text_at(ask, SWATCH), near->swatch),
                          .zone = zone_of(compare->scene, sl_text_at(ask, ZONE), near->zone),
                          .kept = sl_int_at(ask, KEPT),
                          .grade = sl_said_of_word(SL_SAID_GRADE, sl_text_at(ask, GRADE)),
                          .minute = real_or_not(ask, MINUTE),
                          .hours = SL_NOT_READ,
                          .L = SL_NOT_READ,
                          .a = SL_NOT_READ,
                          .b = SL_NOT_READ,
                          .stretch = SL_NOT_SAID,
                          .feel = SL_NOT_SAID,
                          .level = SL_NOT_READ};
    sl_copy_at(ask, JUDGE, look->judge, sizeof look->judge);
    if (!grade_alone) {
        look->hours = real_or_not(ask, HOURS);
        look->L = real_or_not(ask, L_STAR);
        look->a = real_or_not(ask, A_STAR);
        look->b = real_or_not(ask, B_STAR);
        look->stretch = said_at(ask, STRETCH, SL_SAID_STRETCH);
        look->feel = said_at(ask, FEEL, SL_SAID_FEEL);
        look->level = real_or_not(ask, LEVEL);
    }
}

static int compared(double one, double other)
{
    return (one > other) - (one < other);
}

/* Looks of one moment side by side, and in them those of one judge as they were kept. */
static int by_moment(const void *one, const void *other)
{
    const sl_one_look *const a = one, *const b = other;
    const int place = a->swatch != b->swatch ? compared(a->swatch, b->swatch) : compared(a->zone, b->zone);
    const int when =
        islessgreater(a->hours, b->hours) ? compared(a->hours, b->hours) : compared(a->minute, b->minute);
    const int who = place != 0 || when != 0 ? 0 : strcmp(a->judge, b->judge);
    return place != 0 ? place : when != 0 ? when : who != 0 ? who : (a->kept > b->kept) - (a->kept < b->kept);
}

/* Readings of a test mostly lie together in the file, and are read in one go; where others lie between them,
 * one swatch after another. */
static bool ask_looks(const sl_compare *compare, sl_log *log, sl_statement *looks, sl_error *error)
{
    enum { OTHERS = 8 };
    int64_t first = 0, last = 0, n = 0;
    char text[SL_LOOKS_ASKED];
    sl_statement ask = sl_sql(log,
                              "SELECT min(kept), max(kept), count(*) FROM reading"
                              " WHERE swatch IN (SELECT id FROM swatch WHERE test = ?1)",
                              error);
    sl_put_text(&ask, compare->test.id);
    if (sl_next_row(&ask)) {
        first = sl_int_at(&ask, 0);
        last = sl_int_at(&ask, 1);
        n = sl_int_at(&ask, 2);
    }
    const bool good = sl_sql_leave(&ask);
    if (good) {
        sl_looks_asked(last / OTHERS - first / OTHERS <= n, text);
        *looks = sl_sql(log, text, error);
        sl_put_text(looks, compare->test.id);
        sl_put_int(looks, first);
        sl_put_int(looks, last);
    }
    return good;
}

static bool read_looks(sl_compare *compare, sl_log *log, sl_look_rows *looks, sl_error *error)
{
    static const sl_one_look none = {.swatch = 0};
    bool room = true;
    sl_statement ask;
    looks->n = 0;
    if (!ask_looks(compare, log, &ask, error)) {
        return false;
    }
    while (room && sl_next_row(&ask)) {
        room = sl_grow(&looks->look, &looks->capacity, looks->n + 1, sizeof *looks->look, "reading the log",
                       error);
        if (!room) {
            break;
        }
        sl_one_look *const look = &looks->look[looks->n];
        const sl_one_look *const near = looks->n > 0 ? look - 1 : &none;
        const bool grade_alone = sl_int_at(&ask, GRADE_ALONE) == 1;
        if (!look_fits(&ask, grade_alone) ||
            (look_at(&ask, compare, grade_alone, near, look), look->zone < 0)) {
            room = sl_log_leave_out(log, sl_int_at(&ask, KEPT), error);
        } else {
            looks->n += look->swatch >= 0 ? 1 : 0;
        }
    }
    return sl_sql_leave(&ask) && room;
}

/* The moments come from the same column of the same row, so equality is exact. */
static bool same_moment(const sl_one_look *one, const sl_one_look *two)
{
    return one->swatch == two->swatch && one->zone == two->zone && !islessgreater(one->minute, two->minute) &&
           !islessgreater(one->hours, two->hours);
}

static size_t group_end(const sl_look_rows *looks, size_t begin)
{
    size_t end = begin + 1;
    while (end < looks->n && same_moment(&looks->look[begin], &looks->look[end])) {
        end++;
    }
    return end;
}

static void add_to_mean(double *mean, int *n, double value)
{
    if (value > SL_NOT_READ) {
        *mean = *n > 0 ? *mean + (value - *mean) / (*n + 1) : value;
        ++*n;
    }
}

static sl_seen_group group_of(const sl_look_rows *looks, size_t begin, size_t end)
{
    const sl_one_look *const first = &looks->look[begin];
    sl_seen_group group = {.swatch = first->swatch,
                           .zone = first->zone,
                           .minute = first->minute,
                           .hours = first->hours,
                           .left = {SL_NOT_READ, SL_NOT_READ},
                           .L = SL_NOT_READ,
                           .a = SL_NOT_READ,
                           .b = SL_NOT_READ,
                           .start = SL_NOT_READ,
                           .level = SL_NOT_READ,
                           .stretch = SL_NOT_READ,
                           .feel = SL_NOT_READ};
    double share = 0.0, L = 0.0, a = 0.0, b = 0.0;
    int n_level = 0, n_stretch = 0, n_feel = 0;
    for (size_t i = begin; i < end; i++) {
        const sl_one_look *const look = &looks->look[i];
        if (look->grade != SL_NOT_SAID) {
            share += sl_wipe_share((sl_wipe)look->grade);
            group.n[SL_BASIS_GRADE]++;
        }
        if (look->L > SL_NOT_READ) {
            L += look->L;
            a += look->a;
            b += look->b;
            group.n[SL_BASIS_COLOUR]++;
        }
        add_to_mean(&group.level, &n_level, look->level);
        add_to_mean(&group.stretch, &n_stretch, look->stretch == SL_NOT_SAID ? SL_NOT_READ : look->stretch);
        add_to_mean(&group.feel, &n_feel, look->feel == SL_NOT_SAID ? SL_NOT_READ : look->feel);
    }
    if (group.n[SL_BASIS_GRADE] > 0) {
        group.left[SL_BASIS_GRADE] = share / group.n[SL_BASIS_GRADE];
    }
    if (group.n[SL_BASIS_COLOUR] > 0) {
        group.L = L / group.n[SL_BASIS_COLOUR];
        group.a = a / group.n[SL_BASIS_COLOUR];
        group.b = b / group.n[SL_BASIS_COLOUR];
    }
    return group;
}

/* ---- shares by the instrument
 * ------------------------------------------------------------------------------- */

int sl_looks_first(const sl_compare *compare, int swatch, int zone)
{
    int low = 0, high = compare->n_groups;
    while (low < high) {
        const int middle = (low + high) / 2;
        const sl_seen_group *const at = &compare->groups[middle];
        if (at->swatch < swatch || (at->swatch == swatch && at->zone < zone)) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}

const sl_seen_group *sl_looks_find(const sl_compare *compare, int swatch, int zone, double minute,
                                   double hours)
{
    for (int i = sl_looks_first(compare, swatch, zone); i < compare->n_groups; i++) {
        const sl_seen_group *const group = &compare->groups[i];
        if (group->swatch != swatch || group->zone != zone) {
            return NULL;
        }
        if (fabs(group->minute - minute) < 1e-9 && fabs(group->hours - hours) < 1e-9) {
            return group;
        }
    }
    return NULL;
}

double sl_group_apart(const sl_seen_group *one, const sl_seen_group *two)
{
    const double L = one->L - two->L, a = one->a - two->a, b = one->b - two->b;
    return sqrt(L * L + a * a + b * b);
}

/* Below this dE*ab to undyed a start shows no colour that a share could be taken of (assumed). */
static const double LEAST_START = 2.0;

static void share_by_colour(const sl_compare *compare, sl_seen_group *group)
{
    const sl_seen_group *const start = sl_looks_find(compare, group->swatch, group->zone, 0.0, SL_NOT_READ);
    if (group->L <= SL_NOT_READ || !start || start->L <= SL_NOT_READ) {
        return;
    }
    for (int zone = 0; zone < compare->scene->n_zones; zone++) {
        const sl_seen_group *const bare =
            sl_looks_find(compare, group->swatch, zone, group->minute, group->hours);
        const sl_seen_group *const bare_start = sl_looks_find(compare, group->swatch, zone, 0.0, SL_NOT_READ);
        if (compare->scene->zones[zone].recipe.n_dyes > 0 || !bare || !bare_start || bare->L <= SL_NOT_READ ||
            bare_start->L <= SL_NOT_READ) {
            continue;
        }
        group->start = sl_group_apart(start, bare_start);
        if (group->start >= LEAST_START) {
            group->left[SL_BASIS_COLOUR] = sl_group_apart(group, bare) / group->start;
            return;
        }
    }
}

/* Once for each swatch, whatever the number of looks. */
static bool add_gummy(sl_compare *compare, int swatch, size_t *room, sl_error *error)
{
    for (int i = 0; i < compare->n_deviations; i++) {
        if (compare->deviations[i].kind == SL_DEVIATION_GUMMY && compare->deviations[i].swatch == swatch) {
            return true;
        }
    }
    return sl_deviation_add(
        compare, (sl_deviation){.kind = SL_DEVIATION_GUMMY, .swatch = swatch, .zone = -1, .factor = 1.0},
        room, error);
}

bool sl_looks_group(sl_compare *compare, sl_look_rows *looks, sl_error *error)
{
    sl_judging judging = {.looks = NULL};
    size_t capacity = 0;
    if (looks->n > 0) {
        qsort(looks->look, looks->n, sizeof *looks->look, by_moment);
    }
    bool good = sl_judges_begin(compare, looks, error);
    for (size_t begin = 0, end = 0; good && begin < looks->n; begin = end) {
        end = group_end(looks, begin);
        good = sl_grow(&compare->groups, &capacity, (size_t)compare->n_groups + 1, sizeof *compare->groups,
                       "comparing", error);
        if (good) {
            compare->groups[compare->n_groups++] = group_of(looks, begin, end);
            good = sl_judges_add(compare, &judging, looks, begin, end, error);
        }
    }
    return sl_judges_end(compare, &judging, good, error);
}

bool sl_looks_read(sl_compare *compare, sl_log *log, sl_error *error)
{
    sl_look_rows looks = {.look = NULL};
    size_t room = (size_t)compare->n_deviations;
    bool good = read_looks(compare, log, &looks, error) ||
                (sl_log_fall_back(log, error) && read_looks(compare, log, &looks, error));
    good = good && sl_looks_group(compare, &looks, error);
    const int breaks = sl_said_of_word(SL_SAID_STRETCH, "breaks");
    const int gummy = sl_said_of_word(SL_SAID_FEEL, "gummy");
    for (size_t i = 0; good && i < looks.n; i++) {
        const sl_one_look *const look = &looks.look[i];
        good = (look->stretch != breaks && look->feel != gummy) ||
               add_gummy(compare, look->swatch, &room, error);
    }
    for (int i = 0; good && i < compare->n_groups; i++) {
        share_by_colour(compare, &compare->groups[i]);
    }
    sl_free(looks.look);
    return good;
}

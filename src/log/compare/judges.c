/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Who looked: how far judges agree, what each one's own repeats tell of how it errs, and who sees more than
 * the others. See looks.h.
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "log/compare/looks.h"

static const char doing[] = "comparing judges";

static int judge_of(const sl_compare *compare, const char *code)
{
    for (int i = 0; i < compare->n_judges; i++) {
        if (strcmp(compare->judge[i].code, code) == 0) {
            return i;
        }
    }
    return -1;
}

static int by_code(const void *one, const void *other)
{
    return strcmp(((const sl_seen_judge *)one)->code, ((const sl_seen_judge *)other)->code);
}

bool sl_judges_begin(sl_compare *compare, const sl_look_rows *looks, sl_error *error)
{
    compare->judge = sl_new(SL_JUDGES_MOST, sizeof *compare->judge, doing, error);
    for (size_t i = 0; compare->judge && i < looks->n && compare->n_judges < SL_JUDGES_MOST; i++) {
        const sl_one_look *const look = &looks->look[i];
        const bool again = i > 0 && strcmp(look->judge, look[-1].judge) == 0;
        if (!again && look->judge[0] != '\0' && judge_of(compare, look->judge) < 0) {
            sl_seen_judge *const judge = &compare->judge[compare->n_judges++];
            memcpy(judge->code, look->judge, sizeof judge->code);
            judge->is.judge = SL_JUDGE_USUAL;
            judge->offset_half = -1.0;
        }
    }
    if (compare->judge) {
        qsort(compare->judge, (size_t)compare->n_judges, sizeof *compare->judge, by_code);
    }
    return compare->judge != NULL;
}

/* ---- a group --------------------------------------------------------------------------------------------
 */

/* Looks of one judge, begin to end. */
typedef struct sl_run {
    int judge, n, first; /* its grades, and the first of them */
    int grades[SL_WIPES];
} sl_run;

static sl_run run_of(const sl_compare *compare, const sl_look_rows *looks, size_t begin, size_t end)
{
    sl_run run = {.judge = judge_of(compare, looks->look[begin].judge)};
    for (size_t i = begin; i < end; i++) {
        const int grade = looks->look[i].grade;
        if (grade != SL_NOT_SAID) {
            run.first = run.n++ == 0 ? grade : run.first;
            run.grades[grade]++;
        }
    }
    return run;
}

/* How looks of a run scatter about their mean. */
static void add_within(const sl_run *run, sl_judging *judging)
{
    double sum = 0.0, squares = 0.0;
    for (int g = 0; g < SL_WIPES; g++) {
        const double share = sl_wipe_share((sl_wipe)g);
        sum += run->grades[g] * share;
        squares += run->grades[g] * share * share;
    }
    if (run->n > 1) {
        judging->squares += fmax(squares - sum * sum / run->n, 0.0);
        judging->freedom += run->n - 1;
    }
}

static bool keep_run(sl_compare *compare, sl_judging *judging, const sl_run *run, sl_error *error)
{
    sl_seen_group *const group = &compare->groups[compare->n_groups - 1];
    for (int g = 0; g < SL_WIPES; g++) {
        if (run->grades[g] == 0) {
            continue;
        }
        if (!sl_grow(&compare->grades, &judging->grades_room, (size_t)compare->n_grades + 1,
                     sizeof *compare->grades, doing, error)) {
            return false;
        }
        compare->grades[compare->n_grades++] = (sl_seen_grade){run->judge, (sl_wipe)g, run->grades[g]};
        group->n_grades++;
    }
    if (run->judge < 0) {
        return true;
    }
    if (!sl_grow(&judging->looks, &judging->room, judging->n + 1, sizeof *judging->looks, doing, error)) {
        return false;
    }
    sl_judge_looks *const looks = &judging->looks[judging->n++];
    *looks = (sl_judge_looks){compare->n_groups - 1, run->judge, {0}};
    memcpy(looks->grades, run->grades, sizeof looks->grades);
    compare->judge[run->judge].looks += run->n;
    compare->judge[run->judge].again += run->n - 1;
    return true;
}

static void agree(sl_agreement *judges, int one, int other)
{
    judges->pairs++;
    judges->equal += one == other ? 1 : 0;
    judges->table[one][other]++;
}

static bool add_pair(sl_compare *compare, sl_judging *judging, const sl_run *one, const sl_run *other,
                     sl_error *error)
{
    int at = 0;
    agree(&compare->judges, one->first, other->first);
    if (one->judge < 0 || other->judge < 0) {
        return true;
    }
    while (at < compare->n_pairs &&
           (compare->pairs[at].one != one->judge || compare->pairs[at].other != other->judge)) {
        at++;
    }
    if (at == compare->n_pairs) {
        if (!sl_grow(&compare->pairs, &judging->pairs_room, (size_t)at + 1, sizeof *compare->pairs, doing,
                     error)) {
            return false;
        }
        compare->pairs[compare->n_pairs++] = (sl_judge_pair){.one = one->judge, .other = other->judge};
    }
    agree(&compare->pairs[at].of, one->first, other->first);
    return true;
}

bool sl_judges_add(sl_compare *compare, sl_judging *judging, const sl_look_rows *looks, size_t begin,
                   size_t end, sl_error *error)
{
    enum { MOST = 32 }; /* judges of one moment that are paired */
    sl_run runs[MOST];
    int n = 0;
    compare->groups[compare->n_groups - 1].first = compare->n_grades;
    for (size_t from = begin, to = begin; from < end; from = to) {
        while (to < end && strcmp(looks->look[to].judge, looks->look[from].judge) == 0) {
            to++;
        }
        const sl_run run = run_of(compare, looks, from, to);
        if (run.n == 0) {
            continue;
        }
        add_within(&run, judging);
        if (!keep_run(compare, judging, &run, error)) {
            return false;
        }
        for (int i = 0; i < n; i++) {
            if (!add_pair(compare, judging, &runs[i], &run, error)) {
                return false;
            }
        }
        if (n < MOST) {
            runs[n++] = run;
        }
    }
    return true;
}

/* ---- all of them ----------------------------------------------------------------------------------------
 */

static void tell_kappa(sl_agreement *judges)
{
    double apart[SL_WIPES][SL_WIPES];
    for (int i = 0; i < SL_WIPES; i++) {
        for (int j = 0; j < SL_WIPES; j++) {
            apart[i][j] = i > j ? i - j : j - i;
        }
    }
    judges->known = sl_kappa(judges->table[0], apart[0], SL_WIPES, &judges->kappa, &judges->kappa_error);
}

static int looks_of(const sl_judge_looks *looks)
{
    int n = 0;
    for (int g = 0; g < SL_WIPES; g++) {
        n += looks->grades[g];
    }
    return n;
}

/* room: [n] */
static void learn(sl_compare *compare, const sl_judging *judging, sl_judge_looks *room)
{
    for (int j = 0; j < compare->n_judges; j++) {
        sl_seen_judge *const judge = &compare->judge[j];
        int n = 0;
        for (size_t i = 0; judge->again >= SL_REPEATS_LEAST && i < judging->n; i++) {
            if (judging->looks[i].judge == j && looks_of(&judging->looks[i]) > 1) {
                room[n++] = judging->looks[i];
            }
        }
        judge->learned = n > 0;
        if (judge->learned) {
            judge->is = sl_judge_learn(room, n);
        }
    }
}

/* Of judges that looked at the same as another; room: [n]. */
static void set_against(sl_compare *compare, const sl_judging *judging, sl_judge_looks *room)
{
    double offset[SL_JUDGES_MOST], error_of[SL_JUDGES_MOST];
    sl_judge known[SL_JUDGES_MOST];
    int at[SL_JUDGES_MOST] = {0}, of[SL_JUDGES_MOST], n_judges = 0, n = 0;
    for (int j = 0; j < compare->n_judges; j++) {
        at[j] = -1;
        for (int p = 0; p < compare->n_pairs && at[j] < 0; p++) {
            if (compare->pairs[p].one == j || compare->pairs[p].other == j) {
                known[n_judges] = compare->judge[j].is.judge;
                of[n_judges] = j;
                at[j] = n_judges++;
            }
        }
    }
    for (size_t i = 0; i < judging->n; i++) {
        if (at[judging->looks[i].judge] >= 0) {
            room[n] = judging->looks[i];
            room[n++].judge = at[judging->looks[i].judge];
        }
    }
    if (n_judges < 2) {
        return;
    }
    sl_judges_offsets(room, n, known, n_judges, offset, error_of);
    for (int j = 0; j < n_judges; j++) {
        compare->judge[of[j]].is.judge.offset = offset[j];
        compare->judge[of[j]].offset_half = SL_OFFSET_HALF * error_of[j];
    }
}

bool sl_judges_end(sl_compare *compare, sl_judging *judging, bool good, sl_error *error)
{
    sl_judge_looks *const room = good ? sl_new(judging->n + 1, sizeof *room, doing, error) : NULL;
    good = room != NULL;
    if (good) {
        tell_kappa(&compare->judges);
        for (int i = 0; i < compare->n_pairs; i++) {
            tell_kappa(&compare->pairs[i].of);
        }
        if (!compare->judges_usual) {
            learn(compare, judging, room);
            set_against(compare, judging, room);
        }
    }
    compare->repeats = judging->freedom;
    compare->repeat_sd =
        judging->freedom >= SL_REPEATS_LEAST ? sqrt(judging->squares / judging->freedom) : -1.0;
    sl_free(room);
    sl_free(judging->looks);
    return good;
}

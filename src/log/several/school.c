/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See school.h.
 */
#include "log/several/school.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/calendar.h"
#include "base/language.h"
#include "base/memory.h"
#include "base/save.h"
#include "log/compare/looks.h"
#include "log/day/due.h"
#include "log/day/tubs.h"
#include "log/store/sql.h"
#include "slowlift/spread.h"

enum { BLOCKS = 3, DAYS_APART = 28, HOUR = 9, DAY_S = 86400 };
/* Of the truth: standard deviations of the logarithm of a dye's rates, of what a test and what a strip in a
 * test has besides, and of swatches, where half of the colour is left; strength of the second lot. */
static const double DYES_DIFFER = 0.35, TEST_MOVES = 0.05, STRIP_MOVES = 0.03, SWATCHES_SCATTER = 0.05,
                    SECOND_LOT = 0.6;
/* Whoever looks: on the square root of what is left, before the test from which on one grades otherwise, and
 * since. */
enum { SHIFTED = 10 };
static const double LENIENT[SL_SCHOOL_JUDGES][2] = {{-0.02, -0.02}, {0.0, 0.1}, {0.02, 0.02}};
static const char *const looks[SL_SCHOOL_JUDGES] = {"judge-1", "judge-2", "judge-3"},
                         *const lots[SL_SCHOOL_LOTS] = {"MADE-UP-1", "MADE-UP-2"};

typedef struct sl_school {
    const sl_resolver *resolver;
    const char *path;
    sl_scene *scene;
    uint64_t seed;
    long drawn;
    sl_school_truth *truth;
    int today;
    sl_log *log;
    char test[SL_SCHOOL_TESTS][SL_UUID];
} sl_school;

static double draw(sl_school *school)
{
    return sl_draw(school->seed, school->drawn++, 0);
}

static double gaussian(sl_school *school, double sd)
{
    return sd * gsl_cdf_ugaussian_Pinv(draw(school));
}

/* ---- the truth ------------------------------------------------------------------------------------------
 */

static bool find_truth(sl_school *school, sl_error *error)
{
    sl_scene *const kept = sl_scene_copy(school->scene, error);
    bool good = kept != NULL;
    for (int d = 0; good && d < kept->n_dyes; d++) {
        const double factor = exp(gaussian(school, DYES_DIFFER));
        for (int c = 0; c < SL_CHANNELS; c++) {
            kept->dyes[d].rates.k[c].value *= factor;
        }
    }
    school->truth->n_arms = school->scene->n_arms;
    school->truth->n_zones = school->scene->n_zones;
    for (int i = 0; i < SL_SCHOOL_JUDGES * SL_SCHOOL_TESTS; i++) {
        const int judge = i / SL_SCHOOL_TESTS, month = i % SL_SCHOOL_TESTS;
        school->truth->lenient[judge][month] = LENIENT[judge][month >= SHIFTED];
    }
    for (int lot = 0; good && lot < SL_SCHOOL_LOTS; lot++) {
        for (int m = 0; m < kept->n_mixes; m++) {
            kept->mixes[m].activity *= lot > 0 ? SECOND_LOT : 1.0;
        }
        for (int a = 0; good && a < kept->n_arms; a++) {
            double *const left = school->truth->left[lot][a];
            good = sl_model_planned(kept, a, left, error);
            for (int z = 0; z < kept->n_zones; z++) {
                left[z] = kept->arms[a].undyed || kept->zones[z].recipe.n_dyes == 0 ? SL_NOT_READ : left[z];
            }
        }
    }
    sl_scene_free(kept);
    return good;
}

static bool write_truth(const sl_school *school, const char *path, sl_error *error)
{
    sl_save save;
    if (!sl_save_open(&save, path, error)) {
        return false;
    }
    fputs("origin,powder_lot,zone,arm,left,judge,test,offset_of_root\n", save.stream);
    for (int i = 0; i < SL_SCHOOL_LOTS * school->truth->n_zones * school->truth->n_arms; i++) {
        const int arm = i % school->truth->n_arms, zone = i / school->truth->n_arms % school->truth->n_zones;
        const int lot = i / school->truth->n_arms / school->truth->n_zones;
        if (school->truth->left[lot][arm][zone] > SL_NOT_READ) {
            fprintf(save.stream, "made up,%s,%s,%s,%.4f,,,\n", lots[lot], school->scene->zones[zone].name,
                    school->scene->arms[arm].name, school->truth->left[lot][arm][zone]);
        }
    }
    for (int i = 0; i < SL_SCHOOL_JUDGES * SL_SCHOOL_TESTS; i++) {
        const int judge = i / SL_SCHOOL_TESTS, month = i % SL_SCHOOL_TESTS;
        fprintf(save.stream, "made up,,,,,%s,%d,%.2f\n", looks[judge], month + 1,
                school->truth->lenient[judge][month]);
    }
    return sl_save_commit(&save, error);
}

/* ---- as planned -----------------------------------------------------------------------------------------
 */

static int64_t morning_ns(const sl_school *school, int month)
{
    const int day = school->today - DAYS_APART * (SL_SCHOOL_TESTS - month);
    return ((int64_t)day * DAY_S + HOUR * 3600) * 1000000000;
}

static bool plan_test(sl_school *school, int month, sl_error *error)
{
    char title[SL_LOG_TITLE];
    sl_plan_request request = sl_plan_request_default();
    sl_plan *plan = NULL;
    request.blocks = BLOCKS;
    request.seed = school->seed + (uint64_t)month;
    snprintf(title, sizeof title, _("A made-up year: test %d of %d"), month + 1, SL_SCHOOL_TESTS);
    school->log->made_ns = morning_ns(school, month);
    const bool good = sl_plan_make(&plan, school->scene, &request, error) &&
                      sl_log_begin(school->log, school->path, school->resolver, plan, title, "made-up",
                                   school->test[month], error);
    sl_plan_free(plan);
    return good;
}

/* ---- as it went -----------------------------------------------------------------------------------------
 */

typedef struct sl_school_day {
    sl_school *school;
    int month, n;
    sl_log_swatch *swatches;
    sl_log_reading row[SL_SCHOOL_JUDGES * SL_MAX_ZONES];
} sl_school_day;

static bool put(const sl_school_day *day, sl_event_kind kind, int swatch, int second, const char *note,
                sl_error *error)
{
    const int64_t ns = (int64_t)second * 1000000000;
    sl_event event = {
        .kind = kind,
        .swatch = swatch,
        .at = {.boot_ns = ns, .wall_ns = morning_ns(day->school, day->month) + ns, .boot_id = "made-up"}};
    return sl_log_append(day->school->log, day->school->test[day->month], day->swatches, day->n, &event, note,
                         error);
}

static int lot_of(int month)
{
    return month * SL_SCHOOL_LOTS / SL_SCHOOL_TESTS;
}

static bool put_events(const sl_school_day *day, sl_error *error)
{
    sl_tubs tubs = {.check = false};
    char note[SL_TUBS_NOTE];
    snprintf(tubs.of[SL_TUB_POWDER].lot, sizeof tubs.of[SL_TUB_POWDER].lot, "%s", lots[lot_of(day->month)]);
    sl_tubs_note(&tubs, note);
    bool good =
        put(day, SL_EVENT_STARTED, -1, 0, NULL, error) && put(day, SL_EVENT_NOTED, -1, 0, note, error);
    for (int i = 0; good && i < day->n; i++) {
        const sl_bench_swatch *const bench = &day->swatches[i].bench;
        good = bench->contact_s < 0 ||
               (put(day, SL_EVENT_MIXED, i, bench->contact_s - bench->mix_age_s, NULL, error) &&
                put(day, SL_EVENT_APPLIED, i, bench->contact_s, NULL, error) &&
                put(day, SL_EVENT_RINSED, i, bench->contact_s + bench->dwell_s, NULL, error));
    }
    return good;
}

static int graded(sl_school_day *day, int judge, double left)
{
    const sl_judge of = {day->school->truth->lenient[judge][day->month], SL_JUDGE_USUAL.spread,
                         SL_JUDGE_USUAL.lapse};
    return (int)sl_wipe_drawn(&of, left, draw(day->school));
}

static bool put_looks(sl_school_day *day, int swatch, const double *moved, sl_error *error)
{
    sl_school *const school = day->school;
    const int arm = sl_scene_arm(school->scene, day->swatches[swatch].arm);
    int n = 0;
    for (int z = 0; z < school->scene->n_zones; z++) {
        const double truth = school->truth->left[lot_of(day->month)][arm][z],
                     room = 4.0 * truth * (1.0 - truth);
        if (truth <= SL_NOT_READ) {
            continue;
        }
        const double left =
            truth + room * (moved[arm * SL_MAX_ZONES + z] + gaussian(school, SWATCHES_SCATTER));
        for (int judge = 0; judge < SL_SCHOOL_JUDGES; judge++) {
            sl_log_reading *const row = &day->row[n++];
            *row = sl_log_reading_begin();
            memcpy(row->swatch, day->swatches[swatch].id, sizeof row->swatch);
            snprintf(row->zone, sizeof row->zone, "%s", school->scene->zones[z].name);
            snprintf(row->judge, sizeof row->judge, "%s", looks[judge]);
            row->blind = 1;
            row->said[SL_SAID_GRADE] = graded(day, judge, fmin(fmax(left, 0.0), 1.0));
        }
    }
    return n == 0 || sl_log_add(school->log, day->row, n, error);
}

static bool do_test(sl_school *school, int month, sl_error *error)
{
    sl_school_day *const day = sl_new(1, sizeof *day, "making an example", error);
    double *const moved =
        sl_new((size_t)SL_MAX_ARMS * SL_MAX_ZONES, sizeof *moved, "making an example", error);
    bool good = day && moved;
    if (good) {
        day->school = school;
        day->month = month;
        for (int z = 0; z < school->scene->n_zones; z++) {
            const double together = gaussian(school, TEST_MOVES);
            for (int a = 0; a < school->scene->n_arms; a++) {
                moved[a * SL_MAX_ZONES + z] = together + gaussian(school, STRIP_MOVES);
            }
        }
        good = sl_log_swatches(school->log, school->test[month], &day->swatches, &day->n, error) &&
               put_events(day, error);
    }
    for (int i = 0; good && i < day->n; i++) {
        good = put_looks(day, i, moved, error);
    }
    if (day) {
        sl_free(day->swatches);
    }
    sl_free(day);
    sl_free(moved);
    return good;
}

bool sl_log_school(const char *folder, const char *scene, const sl_resolver *resolver, uint64_t seed,
                   sl_school_truth *truth, sl_error *error)
{
    char before[SL_LOG_PATH], after[SL_LOG_PATH], kept[SL_LOG_PATH];
    sl_school school = {.resolver = resolver, .path = scene, .seed = seed, .truth = truth};
    snprintf(before, sizeof before, "%s/%s", folder, SL_SCHOOL_BEFORE);
    snprintf(after, sizeof after, "%s/%s", folder, SL_SCHOOL_AFTER);
    snprintf(kept, sizeof kept, "%s/%s", folder, SL_SCHOOL_TRUTH);
    school.scene = sl_scene_load(scene, resolver, error);
    bool good = school.scene && sl_today(&school.today, error) && find_truth(&school, error) &&
                write_truth(&school, kept, error) && sl_log_open(&school.log, before, SL_LOG_MAKE, error);
    for (int month = 0; good && month < SL_SCHOOL_TESTS; month++) {
        good = plan_test(&school, month, error);
    }
    sl_log_close(school.log);
    school.log = NULL;
    good = good && sl_log_backup(before, after, &(long long){0}, error) &&
           sl_log_open(&school.log, after, SL_LOG_WRITE, error);
    for (int month = 0; good && month < SL_SCHOOL_TESTS; month++) {
        good = do_test(&school, month, error);
    }
    sl_log_close(school.log);
    sl_scene_free(school.scene);
    return good;
}

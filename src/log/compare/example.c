/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A made-up day of strand tests: our own invention, for trying things out and for the guide. What
 * was "seen" is what the model says, scattered from swatch to swatch and from judge to judge by
 * seeded draws, and a few things go wrong. It says nothing about real hair.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "slowlift/compare.h"
#include "slowlift/spread.h"

enum { SEED = 7, BLOCKS = 3, LATE_BLOCK = 1, LATE_S = 240, DRIP_SWATCH = 5 };
static const char late_arm[] = "powder + 6 %";
/* 2026-11-25T09:00:00Z. */
static const int64_t MORNING_NS = INT64_C(1795597200) * 1000000000;

typedef struct sl_made_up {
    sl_log *log;
    char test[SL_UUID];
    sl_scene *scene;
    sl_timeline *timeline;
    sl_log_swatch *swatches;
    int n;
    long drawn, drawn_of_hair;
} sl_made_up;

static double draw(sl_made_up *day)
{
    return sl_draw(SEED, day->drawn++, 0);
}

static double draw_of_hair(sl_made_up *day)
{
    return sl_draw(SEED, day->drawn_of_hair++, 1);
}

static bool put_event(sl_made_up *day, sl_event_kind kind, int swatch, int second, const char *note,
                      sl_error *error)
{
    const int64_t ns = (int64_t)second * 1000000000;
    sl_event event = {.kind = kind,
                      .swatch = swatch,
                      .at = {.boot_ns = ns, .wall_ns = MORNING_NS + ns, .boot_id = "made-up"}};
    return sl_log_append(day->log, day->test, day->swatches, day->n, &event, note, error);
}

static int late_s(const sl_made_up *day, int swatch)
{
    return day->swatches[swatch].block == LATE_BLOCK && strcmp(day->swatches[swatch].arm, late_arm) == 0
               ? LATE_S
               : 0;
}

static bool put_events(sl_made_up *day, sl_error *error)
{
    bool good = put_event(day, SL_EVENT_STARTED, -1, 0, NULL, error);
    for (int i = 0; good && i < day->n; i++) {
        const sl_bench_swatch *const bench = &day->swatches[i].bench;
        const struct {
            sl_event_kind kind;
            int second;
            const char *note;
        } all[] = {{SL_EVENT_MIXED, bench->contact_s - bench->mix_age_s, NULL},
                   {SL_EVENT_APPLIED, bench->contact_s, NULL},
                   {SL_EVENT_NOTED, bench->contact_s + 60, "drip from green onto blue"},
                   {SL_EVENT_RINSED, bench->contact_s + bench->dwell_s + late_s(day, i), NULL}};
        for (size_t k = 0; good && bench->contact_s >= 0 && k < sizeof all / sizeof all[0]; k++) {
            good = (all[k].kind == SL_EVENT_NOTED && i != DRIP_SWATCH) ||
                   put_event(day, all[k].kind, i, all[k].second, all[k].note, error);
        }
    }
    return good;
}

static double left_at(const sl_made_up *day, int arm, int zone, double minute)
{
    return sl_left_at(day->timeline, arm, zone, day->scene->arms[arm].contact_min + minute);
}

/* Share left of one swatch: the model's, to a power of its own, since swatches take and lose dye
 * unequally; longer on the hair goes on at the last minutes' pace. */
static double left_of(const sl_made_up *day, int swatch, int arm, int zone, double minute, double power)
{
    const double late = minute > 0.0 ? 0.0 : late_s(day, swatch) / 60.0;
    const double dwell = day->swatches[swatch].bench.dwell_s / 60.0;
    double left = left_at(day, arm, zone, minute > 0.0 ? minute : day->scene->until_min);
    if (late > 0.0) {
        left *= left_at(day, arm, zone, dwell) / left_at(day, arm, zone, dwell - late);
    }
    return pow(left, power);
}

static int nearest(double left)
{
    int grade = 0;
    for (int i = 1; i < SL_WIPES; i++) {
        const double nearer = fabs(left - sl_wipe_share((sl_wipe)i));
        grade = nearer < fabs(left - sl_wipe_share((sl_wipe)grade)) ? i : grade;
    }
    return grade;
}

/* A judge is a step off now and then. */
static int judged(sl_made_up *day, double left)
{
    const double u = draw(day);
    const int grade = nearest(left) + (u < 0.08 ? -1 : u > 0.92 ? 1 : 0);
    return grade < 0 ? 0 : grade >= SL_WIPES ? SL_WIPES - 1 : grade;
}

enum { MOST_LOOKS = 6 }; /* at one zone of one swatch */

typedef struct sl_form {
    sl_log_reading row[MOST_LOOKS * SL_MAX_ZONES];
    int n;
} sl_form;

static sl_log_reading *row_of(const sl_made_up *day, sl_form *form, int swatch, int zone, const char *judge,
                              double minute, double hours)
{
    sl_log_reading *const row = &form->row[form->n++];
    *row = sl_log_reading_begin();
    memcpy(row->swatch, day->swatches[swatch].id, sizeof row->swatch);
    snprintf(row->zone, sizeof row->zone, "%s", day->scene->zones[zone].name);
    snprintf(row->judge, sizeof row->judge, "%s", judge);
    row->minute = minute > 0.0 ? minute : SL_NOT_READ;
    row->hours_after = hours > 0.0 ? hours : SL_NOT_READ;
    row->blind = 1;
    return row;
}

static void look(sl_made_up *day, sl_form *form, int swatch, int zone, const char *judge, double minute,
                 double hours, double left)
{
    row_of(day, form, swatch, zone, judge, minute, hours)->said[SL_SAID_GRADE] = judged(day, left);
}

/* Two judges at the end, one of them twice in the first block and once more a day later. */
static void look_at_zone(sl_made_up *day, sl_form *form, int swatch, int arm, int zone)
{
    const double power = 0.85 + 0.3 * draw(day);
    const double end = left_of(day, swatch, arm, zone, 0.0, power);
    for (int i = 0; day->scene->arms[arm].n_steps > 0 && i < 2; i++) {
        const double minute = 10.0 * (i + 1);
        look(day, form, swatch, zone, "judge-1", minute, 0.0, left_of(day, swatch, arm, zone, minute, power));
    }
    look(day, form, swatch, zone, "judge-1", 0.0, 0.0, end);
    look(day, form, swatch, zone, "judge-2", 0.0, 0.0, end);
    if (day->swatches[swatch].block == 0) {
        look(day, form, swatch, zone, "judge-1", 0.0, 0.0, end);
    }
    look(day, form, swatch, zone, "judge-1", 0.0, 24.0, fmin(1.0, end + 0.04));
}

/* A word further for each share of cystine lost that is reached (our own invention); a step off now and then.
 */
static int worn(sl_made_up *day, double lost, const double *from, int n)
{
    const double u = draw_of_hair(day);
    int word = 0;
    for (int i = 0; i < n; i++) {
        word += lost >= from[i] ? 1 : 0;
    }
    word += u < 0.08 ? -1 : u > 0.92 ? 1 : 0;
    return word < 0 ? 0 : word > n ? n : word;
}

/* Undyed hair before contact, twice under the mix and at the end, by half levels. */
static void look_at_hair(sl_made_up *day, sl_form *form, int swatch, int arm, int zone)
{
    static const double slow[] = {0.03, 0.08}, dry[] = {0.01, 0.04, 0.08};
    for (int minute = 0; minute <= 30; minute += day->scene->arms[arm].n_steps > 0 ? 10 : 30) {
        const bool end = minute == 30;
        sl_log_reading *const row = row_of(day, form, swatch, zone, "judge-1", 0.0, 0.0);
        sl_cell cell;
        sl_timeline_at(day->timeline, arm, zone,
                       end ? day->scene->until_min : day->scene->arms[arm].contact_min + minute, NULL, &cell);
        row->minute = end ? SL_NOT_READ : minute;
        row->level = 0.5 * round(2.0 * (cell.level + 0.5 * (draw_of_hair(day) - 0.5)));
        row->said[SL_SAID_STRETCH] = worn(day, cell.cystine_lost, slow, 2);
        row->said[SL_SAID_FEEL] = worn(day, cell.cystine_lost, dry, 3);
    }
}

static int arm_named(const sl_scene *scene, const char *name)
{
    int arm = 0;
    while (arm < scene->n_arms - 1 && strcmp(scene->arms[arm].name, name) != 0) {
        arm++;
    }
    return arm;
}

static bool put_readings(sl_made_up *day, sl_error *error)
{
    sl_form *const form = sl_new(1, sizeof *form, "making an example", error);
    bool good = form != NULL;
    for (int i = 0; good && i < day->n; i++) {
        const int arm = arm_named(day->scene, day->swatches[i].arm);
        form->n = 0;
        for (int z = 0; z < day->scene->n_zones; z++) {
            if (day->scene->zones[z].recipe.n_dyes == 0) {
                look_at_hair(day, form, i, arm, z);
            } else if (!day->scene->arms[arm].undyed) {
                look_at_zone(day, form, i, arm, z);
            }
        }
        good = form->n == 0 || sl_log_add(day->log, form->row, form->n, error);
    }
    sl_free(form);
    return good;
}

static bool begin(sl_made_up *day, const char *path, const char *scene, const sl_resolver *resolver,
                  sl_error *error)
{
    sl_plan_request request = sl_plan_request_default();
    sl_plan *plan = NULL;
    request.blocks = BLOCKS;
    request.seed = SEED;
    const bool good = sl_plan_make(&plan, day->scene, &request, error) &&
                      sl_log_open(&day->log, path, SL_LOG_MAKE, error) &&
                      sl_log_begin(day->log, scene, resolver, plan, _("A made-up day: which mix takes what"),
                                   "made-up", day->test, error) &&
                      sl_log_swatches(day->log, day->test, &day->swatches, &day->n, error);
    sl_plan_free(plan);
    return good;
}

bool sl_log_example(const char *path, const char *scene, const sl_resolver *resolver, sl_error *error)
{
    sl_made_up day = {.scene = sl_scene_load(scene, resolver, error)};
    sl_solver *const solver = day.scene ? sl_solver_new(error) : NULL;
    const bool good = solver && sl_timeline_solve(&day.timeline, day.scene, NULL, 0, solver, NULL, error) &&
                      begin(&day, path, scene, resolver, error) && put_events(&day, error) &&
                      put_readings(&day, error);
    sl_log_close(day.log);
    sl_free(day.swatches);
    sl_timeline_free(day.timeline);
    sl_solver_free(solver);
    sl_scene_free(day.scene);
    return good;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Ten thousand random (scene, door, person) cases: where the hair lies, how warm it is, whose it is,
 * what the form, the aims and the strand say, and by which function minutes are asked for. The
 * conditions are restated here from docs/science.md ("Leave"), apart from the gate; a minute that
 * they do not allow fails, and so does one that a page of cut swatches lacks.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "document/renderers.h"
#include "report/limits/limits.h"
#include "report/run/pair.h"
#include "slowlift/map.h"
#include "slowlift/rank.h"
#include "slowlift/report.h"
#include "slowlift/spread.h"
#include "unit/small_scene.h"
#include "unit/suite.h"

enum { CASES = 10000, MEMBERS = 112, ROOM_FOR_TEXT = 1 << 20 };

typedef enum door {
    DOOR_ANSWER,
    DOOR_LIMITS_TEXT,
    DOOR_LIMITS_CSV,
    DOOR_LIMITS_JSON,
    DOOR_TABLE,
    DOOR_CSV,
    DOOR_JSON,
    DOOR_PAIR_TEXT,
    DOOR_PAIR_CSV,
    DOOR_PAIR_JSON,
    DOOR_MAP,
    DOOR_RANK,
    DOOR_SEARCH,
    DOORS
} door;

static long draws;
static double uniform(void)
{
    return sl_draw(91, draws++, 5);
}
static int below(int n)
{
    return (int)(uniform() * n);
}
static bool rarely(void)
{
    return uniform() < 0.06;
}

/* All that is solved once: the central values and an ensemble weighed by a strand of ARM_6. */
typedef struct kept {
    small_scene small;
    sl_solver *solver;
    sl_optics *optics;
    sl_timeline *timeline;
    sl_spread *spread;
    sl_limits limits[SMALL_ARMS];
    sl_outcome outcome;
    char text[ROOM_FOR_TEXT];
} kept;

static kept k;

static sl_observation showed(void)
{
    return (sl_observation){
        .arm = ARM_6, .zone = ZONE_VIOLET, .minute = 4.0, .wipe = SL_WIPE_SLIGHT, .strand = true};
}

static void solve_once(void)
{
    static const double times[] = {5.0, 20.0};
    const sl_observations observations = {1, {showed()}};
    const sl_spread_request request = {
        .members = MEMBERS, .seed = 3, .threads = 1, .observations = &observations};
    small_scene_fill(&k.small);
    k.small.scene.title.in[SL_ENGLISH] = "Small";
    k.small.scene.room_c = 24.0;
    k.small.scene.aims =
        (sl_aims){.colour_left = 0.6, .base_moved = {0.5, true}, .cystine_lost = {0.2, true}};
    k.solver = sl_solver_new(NULL);
    k.optics = sl_optics_new(&k.small.scene, NULL);
    ck_assert(sl_timeline_solve(&k.timeline, &k.small.scene, times, 2, k.solver, k.optics, NULL));
    ck_assert(sl_limits_prepare(k.timeline, k.solver, NULL));
    ck_assert(sl_spread_run(&k.spread, &k.small.scene, &request, NULL));
    for (int arm = 0; arm < SMALL_ARMS; arm++) {
        k.limits[arm] = sl_limits_of(k.timeline, arm, k.optics);
    }
    sl_timeline *one = NULL;
    sl_variant variant;
    sl_variant_make(&variant, &k.small.scene, ARM_6, NULL);
    ck_assert(sl_outcome_of(&k.outcome, &variant.scene, 0, &one, k.solver, NULL));
    ck_assert(sl_outcome_find_limits(&k.outcome, 0, one, k.solver, NULL));
    sl_timeline_free(one);
}

/* ---- a random case ---------------------------------------------------------------------------- */

typedef struct trial {
    sl_intake form;
    sl_person person;
    bool somebody; /* the person is asked about; else cut swatches */
    double warmer; /* what-if: added to the scene's own shift; 0: nothing is */
} trial;

static const sl_reply passes[SL_INTAKE_REPLIES] = {
    [SL_INTAKE_REACTED] = SL_REPLY_NO,      [SL_INTAKE_ASTHMA] = SL_REPLY_NO,
    [SL_INTAKE_SULFITE] = SL_REPLY_NO,      [SL_INTAKE_DOCTOR] = SL_REPLY_NO,
    [SL_INTAKE_ALERT] = SL_REPLY_YES,       [SL_INTAKE_SCALP] = SL_REPLY_NO,
    [SL_INTAKE_METALLIC] = SL_REPLY_NO,     [SL_INTAKE_HENNA] = SL_REPLY_NO,
    [SL_INTAKE_UNKNOWN_PAST] = SL_REPLY_NO, [SL_INTAKE_TREATED] = SL_REPLY_NO,
    [SL_INTAKE_LIQUIDS] = SL_REPLY_YES,     [SL_INTAKE_HEAT] = SL_REPLY_NO,
    [SL_INTAKE_DOER] = SL_REPLY_NO,         [SL_INTAKE_STRAND] = SL_REPLY_YES,
    [SL_INTAKE_SINCE] = SL_REPLY_NO};

static void random_place(sl_scene *scene)
{
    static const double rooms[] = {18.0, 22.0, 24.0, 29.5, 31.0, 36.0},
                        shifts[] = {0.0, 0.0, 0.0, -6.0, 5.0, 9.0};
    scene->place = uniform() < 0.4 ? SL_PLACE_BENCH : uniform() < 0.7 ? SL_PLACE_HEAD : SL_PLACE_WRAPPED;
    scene->room_c = rooms[uniform() < 0.7 ? below(3) : below(6)];
    scene->shift_k = shifts[uniform() < 0.8 ? 0 : below(6)];
    scene->n_points = uniform() < 0.15 ? 2 : 0;
    for (int i = 0; i < scene->n_points; i++) {
        scene->points[i] = (sl_course_point){10.0 * i, 20.0 + 3.0 * below(8)};
    }
    scene->person = rarely() ? "K12" : NULL;
}

static void random_person(trial *t)
{
    t->form = (sl_intake){.age_years = rarely() ? below(18) : 18 + below(50),
                          .label_min = rarely() ? 0.0 : 6.0 + below(40),
                          .lightened = rarely() ? (sl_reply)below(SL_REPLIES) : SL_REPLY_NO,
                          .showed = {rarely() ? 0 : 1, {showed()}}};
    for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
        t->form.reply[q] = uniform() < 0.01 ? (sl_reply)below(SL_REPLIES) : passes[q];
    }
    snprintf(t->form.person, sizeof t->form.person, "%s", rarely() ? "" : "K12");
    snprintf(t->form.qualified, sizeof t->form.qualified, "%s", rarely() ? "" : "op-1");
    t->form.part = rarely() ? SL_HAIR_NOWHERE : SL_HAIR_AT_BACK;
    t->form.packet_day = rarely() ? 0 : 20773;
    t->form.practice = rarely();
    t->person = (sl_person){.form = rarely() ? NULL : &t->form};
    t->person.strand[ARM_6] =
        (sl_strand){.worth = rarely() ? (sl_strand_worth)below(SL_STRAND_WORTHS) : SL_STRAND_COUNTED,
                    .looks = rarely() ? below(2) : 2 + below(4),
                    .watched_min = rarely() ? 0.0 : 4.0 + below(30)};
}

static void random_aims(sl_aims *aims)
{
    *aims = (sl_aims){.colour_left = 0.6, .base_moved = {0.5, !rarely()}, .cystine_lost = {0.2, !rarely()}};
    aims->left_by_next = rarely();
}

/* ---- the conditions, restated -------------------------------------------------------------------- */

static void temperatures(const sl_scene *scene, double extra_k, double *low, double *high)
{
    double all[8];
    int n = 0;
    if (scene->n_points > 0) {
        for (int i = 0; i < scene->n_points; i++) {
            all[n++] = scene->points[i].temperature_c;
        }
    } else if (scene->place == SL_PLACE_BENCH) {
        all[n++] = scene->room_c;
    } else {
        all[n++] = 32.0; /* chemistry of the small scene */
        if (scene->place == SL_PLACE_WRAPPED) {
            all[n++] = 32.0 + scene->chemistry.wrapped_rise_k.value;
        }
    }
    *low = *high = all[0];
    for (int i = 1; i < n; i++) {
        *low = all[i] < *low ? all[i] : *low;
        *high = all[i] > *high ? all[i] : *high;
    }
    *low += scene->shift_k + extra_k;
    *high += scene->shift_k + extra_k;
}

static bool is_a_head(const sl_scene *scene, double extra_k)
{
    double low = 0.0, high = 0.0;
    temperatures(scene, extra_k, &low, &high);
    return scene->place != SL_PLACE_BENCH || scene->person || high >= 30.0 ||
           scene->room_c + scene->shift_k + extra_k >= 30.0;
}

static bool form_is_clear(const sl_intake *form)
{
    bool clear = form->age_years >= 18 && form->label_min > 0.0 && form->person[0] && form->qualified[0] &&
                 form->part != SL_HAIR_NOWHERE && form->packet_day > 0 &&
                 (form->lightened == SL_REPLY_NO || form->lightened == SL_REPLY_YES);
    for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
        clear = clear && form->reply[q] == passes[q];
    }
    /* what a strand showed must have weighed the members */
    return clear && form->showed.n > 0 && form->showed.observation[0].minute <= form->label_min;
}

static bool person_may(const trial *t, const sl_scene *scene)
{
    const sl_strand *const strand = &t->person.strand[ARM_6];
    double low = 0.0, high = 0.0;
    temperatures(scene, 0.0, &low, &high);
    return t->person.form && form_is_clear(t->person.form) && !t->form.practice &&
           scene->place != SL_PLACE_BENCH && low >= 30.0 && high <= 37.0 && !scene->aims.left_by_next &&
           scene->aims.base_moved.set && scene->aims.cystine_lost.set && strand->worth == SL_STRAND_COUNTED &&
           strand->looks >= 2 && strand->watched_min > 0.0;
}

static bool may(const trial *t, const sl_scene *scene)
{
    return t->somebody ? person_may(t, scene) : !is_a_head(scene, 0.0);
}

/* ---- the doors -------------------------------------------------------------------------------------- */

typedef bool write_function(FILE *out);

static const sl_limits_page *limits_page;
static const sl_pair *pair_page;
static bool limits_text(FILE *out)
{
    sl_document document;
    sl_limits_say(&document, limits_page, NULL);
    return sl_document_print(out, &document, NULL);
}
static bool limits_csv(FILE *out)
{
    return sl_export_csv(out, &sl_limits_export, limits_page);
}
static bool limits_json(FILE *out)
{
    return sl_export_json(out, &sl_limits_export, limits_page);
}
static bool table(FILE *out)
{
    const sl_report_options options = sl_report_options_default();
    return sl_report_table(out, k.timeline, k.optics, &options);
}
static bool csv(FILE *out)
{
    const sl_report_options options = sl_report_options_default();
    return sl_report_csv(out, k.timeline, k.optics, &options);
}
static bool json(FILE *out)
{
    const sl_report_options options = sl_report_options_default();
    return sl_report_json(out, k.timeline, k.optics, &options);
}
static bool pair_text(FILE *out)
{
    sl_document document;
    sl_pair_say(&document, pair_page, NULL);
    return sl_document_print(out, &document, NULL);
}
static bool pair_csv(FILE *out)
{
    return sl_export_csv(out, &sl_pair_export, pair_page);
}
static bool pair_json(FILE *out)
{
    return sl_export_json(out, &sl_pair_export, pair_page);
}

static void write_to_text(write_function *write)
{
    FILE *const out = fmemopen(k.text, sizeof k.text - 1, "w");
    ck_assert_ptr_nonnull(out);
    memset(k.text, 0, 8);
    (void)write(out);
    ck_assert_int_eq(fclose(out), 0);
}

/* What only a minute of the model brings into each form; seen, planned and label times are no such thing. */
static bool has(const char *words)
{
    return strstr(k.text, words) != NULL;
}

static bool limits_told(const trial *t, door d)
{
    static sl_answers answers;
    const sl_person *const person = t->somebody ? &t->person : NULL;
    answers = (sl_answers){.scene = &k.small.scene,
                           .timeline = k.timeline,
                           .spread = k.spread,
                           .person = person && person->form ? person : NULL,
                           .n = SMALL_ARMS};
    answers.limits[ARM_6] = k.limits[ARM_6];
    answers.arm[ARM_6] = sl_answer_of(&k.small.scene, k.spread, ARM_6, person);
    const sl_limits_page page = {.answers = &answers, .only = ARM_6};
    limits_page = &page;
    if (d == DOOR_ANSWER) {
        const sl_answer *const a = &answers.arm[ARM_6];
        return a->minutes || a->early.p10 >= 0.0 || a->late.p10 >= 0.0 || a->n_checks > 0 || a->n_looks > 0 ||
               a->odds >= 0.0;
    }
    write_to_text(d == DOOR_LIMITS_TEXT ? limits_text : d == DOOR_LIMITS_CSV ? limits_csv : limits_json);
    return d == DOOR_LIMITS_TEXT
               ? has("   goal: ") || has("   stop: ") || has("   check: ") || has("   look: ")
           : d == DOOR_LIMITS_CSV ? has("_min,")
                                  : has("goal_min") || has("stop_min") || has("checks_min");
}

static bool timeline_told(door d)
{
    write_to_text(d == DOOR_TABLE ? table : d == DOOR_CSV ? csv : json);
    return d == DOOR_TABLE ? has("at 5 min") || has("minute  ") || has("goal after") || has("min (\"")
                           : k.text[0] != '\0';
}

static bool pair_told(const trial *t, door d)
{
    sl_changes changes = {.set = {false}};
    if (fabs(t->warmer) > 0.0) {
        ck_assert(sl_changes_set(&changes, &k.small.scene, ARM_6, SL_SETTING_WARMER, t->warmer, NULL));
    }
    const sl_pair pair = {
        .scene = &k.small.scene, .arm = ARM_6, .changes = &changes, .before = k.outcome, .after = k.outcome};
    pair_page = &pair;
    write_to_text(d == DOOR_PAIR_TEXT ? pair_text : d == DOOR_PAIR_CSV ? pair_csv : pair_json);
    return d == DOOR_PAIR_TEXT  ? has("goal, minutes")
           : d == DOOR_PAIR_CSV ? has("goal_min") || has("colour_left")
                                : !has("\"goal_min\": null") || !has("\"value\": null");
}

static bool computed(door d)
{
    const sl_axis strength = {.setting = SL_SETTING_STRENGTH, .from = 1.0, .to = 6.0, .n = 2};
    const sl_axis warmer = {.setting = SL_SETTING_WARMER, .from = 0.0, .to = 1.0, .n = 2};
    const sl_rank_request request = {.minute = 5.0, .share = 0.5, .members = 16, .seed = 1, .threads = 1};
    sl_map *map = NULL;
    sl_rank *rank = NULL;
    sl_search search;
    const bool told = d == DOOR_MAP    ? sl_map_make(&map, &k.small.scene, ARM_6, ZONE_RED, strength, warmer,
                                                     NULL, k.solver, NULL)
                      : d == DOOR_RANK ? sl_rank_run(&rank, &k.small.scene, &request, NULL)
                                       : sl_search_run(&search, &k.small.scene, k.solver, NULL);
    sl_map_free(map);
    sl_rank_free(rank);
    return told;
}

/* ---- trials ------------------------------------------------------------------------------------------ */

/* Whether this door may tell; what-if and map look at the warmer scene, search at the cool one. */
static bool should_tell(const trial *t, door d)
{
    const sl_scene *const scene = &k.small.scene;
    switch (d) {
    case DOOR_ANSWER:
    case DOOR_LIMITS_TEXT:
    case DOOR_LIMITS_CSV:
    case DOOR_LIMITS_JSON:
        return may(t, scene);
    case DOOR_PAIR_TEXT:
    case DOOR_PAIR_CSV:
    case DOOR_PAIR_JSON:
        return !is_a_head(scene, 0.0) &&
               (fabs(t->warmer) <= 0.0 || !is_a_head(scene, t->warmer - scene->shift_k));
    case DOOR_MAP: /* its warmer side is 1 K above the file's own */
        return !is_a_head(scene, 1.0 - scene->shift_k) && !is_a_head(scene, -scene->shift_k);
    case DOOR_SEARCH:
        return !is_a_head(scene, scene->shift_k > 0.0 ? -scene->shift_k : 0.0);
    case DOOR_TABLE:
    case DOOR_CSV:
    case DOOR_JSON:
    case DOOR_RANK:
    case DOORS:
        break;
    }
    return !is_a_head(scene, 0.0);
}

static bool is_told(const trial *t, door d)
{
    return d <= DOOR_LIMITS_JSON ? limits_told(t, d)
           : d <= DOOR_JSON      ? timeline_told(d)
           : d <= DOOR_PAIR_JSON ? pair_told(t, d)
                                 : computed(d);
}

START_TEST(ten_thousand_random_cases_tell_a_minute_only_with_leave)
{
    long told[DOORS] = {0}, kept_back[DOORS] = {0}, people = 0;
    solve_once();
    for (int i = 0; i < CASES; i++) {
        trial t = {.somebody = uniform() < 0.6, .warmer = uniform() < 0.3 ? 1.0 + below(12) : 0.0};
        const door d = (door)below(DOORS);
        random_place(&k.small.scene);
        random_aims(&k.small.scene.aims);
        random_person(&t);
        const bool should = should_tell(&t, d);
        if (should && d >= DOOR_MAP && told[d] >= 3) {
            continue; /* solving is slow, and refusing is what is tried */
        }
        const bool is = is_told(&t, d);
        if (is != should) {
            ck_abort_msg("case %d, door %d: told %d, should be %d (place %d, person %d)", i, (int)d, is,
                         should, (int)k.small.scene.place, t.somebody);
        }
        told[d] += is ? 1 : 0;
        kept_back[d] += is ? 0 : 1;
        people += is && t.somebody && d <= DOOR_LIMITS_JSON ? 1 : 0;
    }
    for (int d = 0; d < DOORS; d++) { /* both sides of every door were met */
        ck_assert_msg(told[d] > 0 && kept_back[d] > 100, "door %d: %ld, %ld", d, told[d], kept_back[d]);
    }
    ck_assert_int_gt(people, 50);
    sl_spread_free(k.spread);
    sl_timeline_free(k.timeline);
    sl_optics_free(k.optics);
    sl_solver_free(k.solver);
}
END_TEST

START_SUITE("random leave")
ADD(ten_thousand_random_cases_tell_a_minute_only_with_leave)
END_SUITE

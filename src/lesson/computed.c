/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Numbers that come out of a lesson's scenes. What each word means, with its unit and formula:
 * docs/file-format.md, "Lesson", in the order of the table below.
 */
#include <math.h>

#include "lesson/reading.h"
#include "slowlift/limits.h"
#include "slowlift/plan.h"
#include "slowlift/rank.h"
#include "slowlift/what_if.h"

enum {
    NEEDS_ARM = 1,
    NEEDS_ZONE = 2,
    NEEDS_AT = 4,
    NEEDS_SHARE = 8,
    NEEDS_OTHER = 16,
    NEEDS_ENERGY = 32,
    NEEDS_SAMPLE = 64
};
enum { MEMBERS = 400, SEED = 1 };

/* Everything that a number can depend on. */
typedef struct sl_asked {
    const sl_figures *figures;
    const sl_node *node; /* its `what`, for refusals */
    const sl_scene *scene;
    const sl_timeline *timeline;
    int arm, zone, other;
    double at, share, energy, from, to, difference, swatches;
} sl_asked;

static bool refuse(const sl_asked *asked, const char *found, const char *wanted)
{
    return sl_node_refuse(asked->node, SL_ERR_INCONSISTENT, found, wanted, asked->figures->reading->error);
}

static sl_cell cell_at(const sl_asked *asked, double at)
{
    sl_cell cell;
    const double clock = asked->scene->arms[asked->arm].contact_min + at;
    sl_timeline_at(asked->timeline, asked->arm, asked->zone, clock, NULL, &cell);
    return cell;
}

/* ---- what is left and what has moved ------------------------------------------------------------ */

static bool colour_left(const sl_asked *asked, double *value)
{
    *value = cell_at(asked, asked->at).colour_left;
    return *value >= 0.0 || refuse(asked, "a zone without a dye", "colour left is read in a dyed zone");
}

static bool base_moved(const sl_asked *asked, double *value)
{
    *value = cell_at(asked, asked->at).base_moved;
    return true;
}

static bool hair_stress(const sl_asked *asked, double *value)
{
    *value = cell_at(asked, asked->at).cystine_lost;
    return true;
}

static bool levels_lifted(const sl_asked *asked, double *value)
{
    *value = cell_at(asked, asked->at).levels_lifted;
    return true;
}

static bool first_time(const sl_asked *asked, sl_quantity quantity, double share, double *value)
{
    double clock = 0.0;
    if (!sl_first_time(asked->timeline, asked->arm, asked->zone, quantity, share, &clock)) {
        return refuse(asked, "a moment that does not come in this scene",
                      "ask for another share, or let the scene go on for longer");
    }
    *value = clock - asked->scene->arms[asked->arm].contact_min;
    return true;
}

static bool time_to(const sl_asked *asked, double *value)
{
    return first_time(asked, SL_COLOUR_LEFT, asked->share, value);
}

static bool time_to_base(const sl_asked *asked, double *value)
{
    return first_time(asked, SL_BASE_MOVED, asked->share, value);
}

static bool time_to_stress(const sl_asked *asked, double *value)
{
    return first_time(asked, SL_CYSTINE_LOST, asked->share, value);
}

static bool half_time(const sl_asked *asked, double *value)
{
    double left = 0.0, then = 0.0;
    if (!colour_left(asked, &left) || !first_time(asked, SL_COLOUR_LEFT, 0.5 * left, &then)) {
        return false;
    }
    *value = then - asked->at;
    return true;
}

/* 1 - exp(-k), with k the slope of -ln(colour left) over a tenth of a minute around the moment. */
static bool pace(const sl_asked *asked, double *value)
{
    const double half_step = 0.05;
    const double before = cell_at(asked, asked->at - half_step).colour_left;
    const double after = cell_at(asked, asked->at + half_step).colour_left;
    if (before <= 0.0 || after <= 0.0) {
        return refuse(asked, "a zone without colour", "pace is read where there is colour left");
    }
    *value = -expm1(-log(before / after) / (2.0 * half_step));
    return true;
}

static bool end_left(const sl_asked *asked, double *value)
{
    sl_asked end = *asked;
    end.at = sl_arm_done_min(&asked->scene->arms[asked->arm]) - asked->scene->arms[asked->arm].contact_min;
    return colour_left(&end, value);
}

/* ---- what the arm is ------------------------------------------------------------------------------ */

static const sl_step *application(const sl_asked *asked)
{
    const sl_arm *const arm = &asked->scene->arms[asked->arm];
    for (int i = 0; i < arm->n_steps; i++) {
        if (arm->steps[i].kind == SL_STEP_APPLY) {
            return &arm->steps[i];
        }
    }
    return NULL;
}

static const sl_mix *mix_of(const sl_asked *asked)
{
    const sl_step *const step = application(asked);
    return step ? &asked->scene->mixes[step->mix] : NULL;
}

static sl_weighing weighing(const sl_asked *asked)
{
    return sl_weigh(mix_of(asked), &asked->scene->chemistry, asked->scene->hair_g,
                    application(asked)->mix_g_per_g, 0.0);
}

static bool strength(const sl_asked *asked, double *value)
{
    *value = mix_of(asked)->developer_pct;
    return true;
}

static bool in_liquid(const sl_asked *asked, double *value)
{
    *value = weighing(asked).liquid_pct;
    return true;
}

static bool in_paste(const sl_asked *asked, double *value)
{
    *value = weighing(asked).on_hair_pct;
    return true;
}

static bool water_parts(const sl_asked *asked, double *value)
{
    *value = mix_of(asked)->water_parts;
    return true;
}

static bool ratio(const sl_asked *asked, double *value)
{
    const sl_mix *const mix = mix_of(asked);
    if (!(mix->powder_parts > 0.0)) {
        return refuse(asked, "a mix without powder", "a ratio is parts of liquid for one of powder");
    }
    *value = (mix->developer_parts + mix->water_parts) / mix->powder_parts;
    return true;
}

static bool activity(const sl_asked *asked, double *value)
{
    *value = mix_of(asked)->activity;
    return true;
}

static bool dwell(const sl_asked *asked, double *value)
{
    *value = application(asked)->duration_min;
    return true;
}

static bool mix_age(const sl_asked *asked, double *value)
{
    *value = application(asked)->mix_age_min;
    return true;
}

static bool contact(const sl_asked *asked, double *value)
{
    *value = asked->scene->arms[asked->arm].contact_min;
    return true;
}

static bool done(const sl_asked *asked, double *value)
{
    const sl_arm *const arm = &asked->scene->arms[asked->arm];
    *value = sl_arm_done_min(arm) - arm->contact_min;
    return true;
}

static bool warmth(const sl_asked *asked, double *value)
{
    *value = sl_scene_temperature_k(asked->scene, asked->scene->arms[asked->arm].contact_min, 0.0) - 273.15;
    return true;
}

static bool grams_powder(const sl_asked *asked, double *value)
{
    *value = weighing(asked).powder_g;
    return true;
}

static bool grams_developer(const sl_asked *asked, double *value)
{
    *value = weighing(asked).developer_g;
    return true;
}

static bool grams_water(const sl_asked *asked, double *value)
{
    *value = weighing(asked).water_g;
    return true;
}

static bool grams_mix(const sl_asked *asked, double *value)
{
    *value = weighing(asked).total_g;
    return true;
}

/* How many settings of two arms differ (what_if.h), and one more when the powders do. */
static bool differences(const sl_asked *asked, double *value)
{
    sl_asked two = *asked;
    two.arm = asked->other;
    int n = 0;
    for (int s = 0; s < SL_SETTINGS; s++) {
        const double one = sl_setting_value(asked->scene, asked->arm, (sl_setting)s);
        const double other = sl_setting_value(asked->scene, asked->other, (sl_setting)s);
        n += s != SL_SETTING_WARMER && fabs(one - other) > 1e-9 ? 1 : 0;
    }
    const sl_mix *const a = mix_of(asked);
    const sl_mix *const b = mix_of(&two);
    if (!b) {
        return refuse(asked, "an arm without a mix", "two arms with a mix are compared");
    }
    n += fabs(a->potassium_persulfate - b->potassium_persulfate) > 1e-9 ||
                 fabs(a->ammonium_persulfate - b->ammonium_persulfate) > 1e-9 ||
                 fabs(a->sodium_persulfate - b->sodium_persulfate) > 1e-9 ||
                 fabs(a->percarbonate - b->percarbonate) > 1e-9
             ? 1
             : 0;
    *value = n;
    return true;
}

/* ---- limits, odds, verdict -------------------------------------------------------------------- */

static bool aims_set(const sl_asked *asked, double aim, double *value)
{
    *value = aim;
    return aim > 0.0 || refuse(asked, "an aim that the scene does not set", "write it under `aims`");
}

static bool goal(const sl_asked *asked, double *value)
{
    return aims_set(asked, asked->scene->aims.colour_left, value);
}

static bool base_limit(const sl_asked *asked, double *value)
{
    return aims_set(asked, asked->scene->aims.base_moved, value);
}

static bool stress_limit(const sl_asked *asked, double *value)
{
    return aims_set(asked, asked->scene->aims.cystine_lost, value);
}

static bool longest(const sl_asked *asked, double *value)
{
    return aims_set(asked, asked->scene->aims.longest_min, value);
}

static bool goal_time(const sl_asked *asked, double *value)
{
    const sl_limits limits = sl_limits_of(asked->timeline, asked->arm, NULL);
    *value = limits.early_min;
    return (limits.asked && limits.early_reached) ||
           refuse(asked, "a goal that is not reached here", "set aims, or let the scene go on for longer");
}

static bool stop_time(const sl_asked *asked, double *value)
{
    const sl_limits limits = sl_limits_of(asked->timeline, asked->arm, NULL);
    *value = limits.asked ? limits.stop_min[limits.stop] : 0.0;
    return (limits.asked && limits.stop_reached[limits.stop]) ||
           refuse(asked, "no limit stops this arm", "set limits under `aims`");
}

static bool spent_time(const sl_asked *asked, double *value)
{
    const sl_limits limits = sl_limits_of(asked->timeline, asked->arm, NULL);
    *value = limits.spent_min;
    return (limits.asked && limits.spent) ||
           refuse(asked, "a mix that is not spent in this scene", "set aims, or let it lie for longer");
}

static bool answer(const sl_asked *asked, sl_answer *found)
{
    sl_spread *spread = NULL;
    const sl_spread_request request = {.members = MEMBERS, .seed = SEED, .threads = 1};
    const bool good = sl_spread_run(&spread, asked->scene, &request, asked->figures->reading->error);
    if (good) {
        *found = sl_answer_of(asked->scene, spread, asked->arm, NULL);
    }
    sl_spread_free(spread);
    return good;
}

static bool odds(const sl_asked *asked, double *value)
{
    sl_answer found;
    if (!answer(asked, &found)) {
        return false;
    }
    *value = (double)found.dots / SL_DOTS;
    return found.odds >= 0.0 || refuse(asked, "odds that are not known", "set aims and limits");
}

static bool verdict(const sl_asked *asked, double *value)
{
    sl_answer found;
    if (!answer(asked, &found)) {
        return false;
    }
    *value = found.verdict;
    return true;
}

static bool checks(const sl_asked *asked, double *value)
{
    sl_answer found;
    if (!answer(asked, &found)) {
        return false;
    }
    *value = found.n_checks;
    return true;
}

static bool first_check(const sl_asked *asked, double *value)
{
    sl_answer found;
    if (!answer(asked, &found)) {
        return false;
    }
    *value = found.check[0];
    return found.n_checks > 0 || refuse(asked, "no check at all", "this arm has no moment to look at");
}

/* ---- without an arm ------------------------------------------------------------------------------- */

/* Chance that the mean of n swatches puts two equal-spread mixes in the wrong order when they
 * differ by d standard deviations: the normal distribution at -d sqrt(n/2). */
static bool wrong_winner(const sl_asked *asked, double *value)
{
    *value = 0.5 * erfc(asked->difference * sqrt(asked->swatches) / 2.0);
    return true;
}

static bool speed_up(const sl_asked *asked, double *value)
{
    *value =
        sl_arrhenius(asked->energy, asked->to + 273.15) / sl_arrhenius(asked->energy, asked->from + 273.15);
    return true;
}

/* The largest factor over the ways to be oxidised that this mix has. */
static bool bench_to_head(const sl_asked *asked, double *value)
{
    double factor[SL_CHANNELS];
    sl_place_factors(asked->scene, mix_of(asked), SL_PLACE_BENCH, SL_PLACE_HEAD, factor);
    *value = 0.0;
    for (int c = 0; c < SL_CHANNELS; c++) {
        *value = fmax(*value, factor[c]);
    }
    return true;
}

/* ---- the table -------------------------------------------------------------------------------------- */

typedef struct sl_what {
    const char *word;
    sl_measured measured;
    unsigned needs;
    bool exact; /* the scene's own setting: written as it is, not as a range */
    bool (*compute)(const sl_asked *asked, double *value);
} sl_what;

static const sl_what whats[] = {
    {"colour left", SL_AS_SHARE, NEEDS_ARM | NEEDS_ZONE | NEEDS_AT, false, colour_left},
    {"end left", SL_AS_SHARE, NEEDS_ARM | NEEDS_ZONE, false, end_left},
    {"base moved", SL_AS_SHARE, NEEDS_ARM | NEEDS_ZONE | NEEDS_AT, false, base_moved},
    {"hair stress", SL_AS_SHARE, NEEDS_ARM | NEEDS_ZONE | NEEDS_AT, false, hair_stress},
    {"levels lifted", SL_AS_LEVELS, NEEDS_ARM | NEEDS_ZONE | NEEDS_AT, false, levels_lifted},
    {"time to", SL_AS_MINUTES, NEEDS_ARM | NEEDS_ZONE | NEEDS_SHARE, false, time_to},
    {"time to base", SL_AS_MINUTES, NEEDS_ARM | NEEDS_ZONE | NEEDS_SHARE, false, time_to_base},
    {"time to stress", SL_AS_MINUTES, NEEDS_ARM | NEEDS_ZONE | NEEDS_SHARE, false, time_to_stress},
    {"half time", SL_AS_MINUTES, NEEDS_ARM | NEEDS_ZONE | NEEDS_AT, false, half_time},
    {"pace", SL_AS_PACE, NEEDS_ARM | NEEDS_ZONE | NEEDS_AT, false, pace},
    {"strength", SL_AS_STRENGTH, NEEDS_ARM, true, strength},
    {"in liquid", SL_AS_STRENGTH, NEEDS_ARM, true, in_liquid},
    {"in paste", SL_AS_STRENGTH, NEEDS_ARM, true, in_paste},
    {"water parts", SL_AS_COUNT, NEEDS_ARM, true, water_parts},
    {"ratio", SL_AS_COUNT, NEEDS_ARM, true, ratio},
    {"activity", SL_AS_SHARE, NEEDS_ARM, true, activity},
    {"dwell", SL_AS_MINUTES, NEEDS_ARM, true, dwell},
    {"contact", SL_AS_MINUTES, NEEDS_ARM, true, contact},
    {"mix age", SL_AS_MINUTES, NEEDS_ARM, true, mix_age},
    {"done", SL_AS_MINUTES, NEEDS_ARM, true, done},
    {"warmth", SL_AS_CELSIUS, NEEDS_ARM, true, warmth},
    {"grams powder", SL_AS_GRAMS, NEEDS_ARM, true, grams_powder},
    {"grams developer", SL_AS_GRAMS, NEEDS_ARM, true, grams_developer},
    {"grams water", SL_AS_GRAMS, NEEDS_ARM, true, grams_water},
    {"grams mix", SL_AS_GRAMS, NEEDS_ARM, true, grams_mix},
    {"differences", SL_AS_COUNT, NEEDS_ARM | NEEDS_OTHER, true, differences},
    {"goal", SL_AS_SHARE, 0, true, goal},
    {"base limit", SL_AS_SHARE, 0, true, base_limit},
    {"stress limit", SL_AS_SHARE, 0, true, stress_limit},
    {"longest", SL_AS_MINUTES, 0, true, longest},
    {"goal time", SL_AS_MINUTES, NEEDS_ARM, false, goal_time},
    {"stop time", SL_AS_MINUTES, NEEDS_ARM, false, stop_time},
    {"spent time", SL_AS_MINUTES, NEEDS_ARM, false, spent_time},
    {"odds", SL_AS_ODDS, NEEDS_ARM, false, odds},
    {"verdict", SL_AS_WORD, NEEDS_ARM, false, verdict},
    {"checks", SL_AS_COUNT, NEEDS_ARM, false, checks},
    {"first check", SL_AS_MINUTES, NEEDS_ARM, true, first_check},
    {"bench to head", SL_AS_TIMES, NEEDS_ARM, false, bench_to_head},
    {"speed-up", SL_AS_TIMES, NEEDS_ENERGY, false, speed_up},
    {"wrong winner", SL_AS_SHARE, NEEDS_SAMPLE, false, wrong_winner},
};
enum { WHATS = sizeof whats / sizeof whats[0] };

static bool what_read(const sl_figures *figures, const sl_node *node, const sl_what **what)
{
    const char *words[WHATS];
    for (int i = 0; i < WHATS; i++) {
        words[i] = whats[i].word;
    }
    const sl_words known = {words, WHATS};
    int index = 0;
    const sl_node *const word = sl_needed_child(figures->reading, node, "what",
                                                "or `given`, `divide`, `multiply`, `add`, `subtract`");
    if (!word || !sl_word_read(word, &known, &index, figures->reading->error)) {
        return false;
    }
    *what = &whats[index];
    return true;
}

/* A key that this `what` needs, or may not have. */
static bool keys_fit(const sl_figures *figures, const sl_node *node, const sl_what *what)
{
    static const struct {
        const char *key;
        unsigned needs;
    } keys[] = {{"arm", NEEDS_ARM},        {"zone", NEEDS_ZONE},   {"at", NEEDS_AT},
                {"share", NEEDS_SHARE},    {"other", NEEDS_OTHER}, {"energy", NEEDS_ENERGY},
                {"from", NEEDS_ENERGY},    {"to", NEEDS_ENERGY},   {"difference", NEEDS_SAMPLE},
                {"swatches", NEEDS_SAMPLE}};
    enum { KEYS = sizeof keys / sizeof keys[0] };
    const char *known[KEYS + 3] = {"name", "what"};
    int n = 2;
    if ((what->needs & (NEEDS_ENERGY | NEEDS_SAMPLE)) == 0) {
        known[n++] = "scene";
    }
    for (int i = 0; i < KEYS; i++) {
        if ((keys[i].needs & what->needs) != 0) {
            known[n++] = keys[i].key;
        }
    }
    const sl_words words = {known, n};
    if (!sl_node_keys_known(node, &words, figures->reading->error)) {
        return false;
    }
    for (int i = 2; i < n; i++) {
        if (!sl_needed_child(figures->reading, node, known[i], "this number needs it")) {
            return false;
        }
    }
    return true;
}

static bool value_of(sl_figures *figures, const sl_node *node, const char *key, sl_measured measured,
                     double *value)
{
    const sl_node *const name = sl_node_child(node, key);
    int index = 0;
    if (!name) {
        return true;
    }
    if (!sl_number_named(figures, name, measured, &index)) {
        return false;
    }
    *value = figures->number[index].value;
    return true;
}

static bool places_read(sl_figures *figures, const sl_node *node, sl_asked *asked)
{
    const sl_node *const scene = sl_node_child(node, "scene");
    const sl_node *const arm = sl_node_child(node, "arm");
    const sl_node *const other = sl_node_child(node, "other");
    const sl_node *const zone = sl_node_child(node, "zone");
    int index = 0;
    if (!scene) {
        return true;
    }
    if (!sl_scene_named(figures, scene, &index)) {
        return false;
    }
    asked->scene = figures->scene[index].scene;
    asked->timeline = figures->scene[index].timeline;
    return (!arm || sl_arm_named(figures, index, arm, &asked->arm)) &&
           (!other || sl_arm_named(figures, index, other, &asked->other)) &&
           (!zone || sl_zone_named(figures, index, zone, &asked->zone));
}

/* An arm that is read needs a mix, and one inside the model. */
static bool arm_fits(const sl_asked *asked, const sl_what *what)
{
    if ((what->needs & NEEDS_ARM) == 0) {
        return true;
    }
    if ((what->needs & NEEDS_ZONE) == 0 && !application(asked)) {
        return refuse(asked, "an arm without a mix", "this is asked of an arm with a mix");
    }
    return what->exact || sl_timeline_predicted(asked->timeline, asked->arm) ||
           refuse(asked, "an arm that is outside the model", "nothing is computed for it");
}

bool sl_number_compute(sl_figures *figures, const sl_node *node, sl_number *number)
{
    const sl_what *what = NULL;
    if (!what_read(figures, node, &what) || !keys_fit(figures, node, what)) {
        return false;
    }
    sl_asked asked = {.figures = figures, .node = sl_node_child(node, "what")};
    if (!places_read(figures, node, &asked) || !value_of(figures, node, "at", SL_AS_MINUTES, &asked.at) ||
        !value_of(figures, node, "share", SL_AS_SHARE, &asked.share) ||
        !value_of(figures, node, "energy", SL_AS_ENERGY, &asked.energy) ||
        !value_of(figures, node, "from", SL_AS_CELSIUS, &asked.from) ||
        !value_of(figures, node, "to", SL_AS_CELSIUS, &asked.to) ||
        !value_of(figures, node, "difference", SL_AS_COUNT, &asked.difference) ||
        !value_of(figures, node, "swatches", SL_AS_COUNT, &asked.swatches) || !arm_fits(&asked, what) ||
        !what->compute(&asked, &number->value)) {
        return false;
    }
    number->measured = what->measured;
    number->given = what->exact;
    return true;
}

/* ---- scenes, arms, zones by name ------------------------------------------------------------------ */

bool sl_scene_named(const sl_figures *figures, const sl_node *node, int *index)
{
    const char *names[SL_MOST_LESSON_SCENES];
    for (int i = 0; i < figures->n_scenes; i++) {
        names[i] = figures->scene[i].name;
    }
    const sl_words words = {names, figures->n_scenes};
    return sl_word_read(node, &words, index, figures->reading->error);
}

bool sl_arm_named(const sl_figures *figures, int scene, const sl_node *node, int *index)
{
    const char *names[SL_MAX_ARMS];
    const sl_scene *const in = figures->scene[scene].scene;
    for (int i = 0; i < in->n_arms; i++) {
        names[i] = in->arms[i].name;
    }
    const sl_words words = {names, in->n_arms};
    return sl_word_read(node, &words, index, figures->reading->error);
}

bool sl_zone_named(const sl_figures *figures, int scene, const sl_node *node, int *index)
{
    const char *names[SL_MAX_ZONES];
    const sl_scene *const in = figures->scene[scene].scene;
    for (int i = 0; i < in->n_zones; i++) {
        names[i] = in->zones[i].name;
    }
    const sl_words words = {names, in->n_zones};
    return sl_word_read(node, &words, index, figures->reading->error);
}

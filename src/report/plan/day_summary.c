/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How the day went against its plan, read from its events alone.
 */
#include <math.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "document/text.h"
#include "report/plan/day.h"
#include "slowlift/plan.h"

enum { SPAN = 24, LIST = 200 };

/* Age of the mix at contact, in seconds; false: nobody wrote down when it was mixed. */
static bool mix_age(const sl_bench_state *state, double *age_s)
{
    if (state->stage == SL_STAGE_WAITING || !state->mixed) {
        return false;
    }
    *age_s = sl_elapsed_between(&state->mixed_at, &state->contact).seconds;
    return true;
}

static void say_contact(sl_document *document, const sl_bench *bench, int swatch)
{
    const sl_bench_state *const state = &bench->state[swatch];
    const sl_bench_round plan = sl_bench_round_of(&bench->swatch[swatch], state->round);
    const int planned_s =
        bench->swatch[swatch].contact_s + sl_bench_round_from_s(&bench->swatch[swatch], state->round);
    char off[2 * SPAN], age[SPAN], planned[SPAN];
    double age_s = 0.0;
    if (!bench->started) {
        return;
    }
    sl_day_off(sl_elapsed_between(&bench->start, &state->contact).seconds - planned_s, off, sizeof off);
    if (mix_age(state, &age_s)) {
        sl_day_span(age_s, age, sizeof age);
        sl_day_span(plan.mix_age_s, planned, sizeof planned);
        sl_document_say(document, _("Contact %s; mix %s old, planned %s"), off, age, planned);
    } else {
        sl_document_say(document, _("Contact %s; nobody wrote down when it was mixed"), off);
    }
}

/* Time under each mix that was rinsed, in turn. */
static double lain_s(const sl_bench_state *state)
{
    double sum = 0.0;
    for (int i = 0; i < state->n_lain; i++) {
        sum += state->lain_s[i];
    }
    return sum;
}

static void say_rounds(sl_document *document, const sl_bench *bench, int swatch)
{
    const sl_bench_state *const state = &bench->state[swatch];
    char spans[LIST] = "";
    for (int i = 0; i < state->n_lain; i++) {
        char span[SPAN];
        sl_day_span(state->lain_s[i], span, sizeof span);
        sl_append_item(spans, sizeof spans, " ", "%s", span);
    }
    if (bench->swatch[swatch].n_more > 0 && state->n_lain > 0) {
        sl_document_say(document, _("Under its mixes, one after the other: %s"), spans);
    }
}

static void say_looks(sl_document *document, const sl_bench *bench, int swatch)
{
    const int planned = bench->swatch[swatch].n_looks, done = bench->state[swatch].n_looks;
    if (done != planned && bench->swatch[swatch].ladder) {
        sl_document_say(document, _("Pieces cut off on the way: %d of %d planned"), done, planned);
    } else if (done != planned) {
        sl_document_say(document, _("Looks: %d of %d planned"), done, planned);
    }
    if (bench->state[swatch].n_felt == 0) {
        sl_document_say(document, "%s", _("Skin, heat and stretch: never felt"));
    }
}

/* ---- what was measured ------------------------------------------------------------------------------ */

double sl_day_planned_g(const sl_day_record *record, int swatch, int round)
{
    const sl_scene *const scene = record->scene;
    const sl_step *const step = sl_day_application(scene, record->arm[swatch], round);
    return step && record->swatch[swatch].leaves_mix
               ? sl_weigh(&scene->mixes[step->mix], &scene->chemistry, scene->hair_g, step->mix_g_per_g,
                          sl_plan_request_default().waste)
                     .total_g
               : 0.0;
}

static bool undone(const sl_day_record *record, const sl_event *event)
{
    for (int i = 0; i < record->n_events; i++) {
        if (record->event[i].kind == SL_EVENT_UNDONE && strcmp(record->event[i].about, event->id) == 0) {
            return true;
        }
    }
    return false;
}

void sl_day_each_weighed(const sl_day_record *record, int swatch, sl_day_weighed *tell, void *self)
{
    int round = 0;
    for (int i = 0; i < record->n_events; i++) {
        const sl_event *const event = &record->event[i];
        if (event->swatch != swatch || undone(record, event)) {
            continue;
        }
        round += event->kind == SL_EVENT_RINSED ? 1 : 0;
        if (event->remark == SL_REMARK_GRAMS) {
            tell(self, swatch, round, event->value);
        }
    }
}

typedef struct sl_saying {
    sl_document *document;
    const sl_day_record *record;
} sl_saying;

static void say_weighed(void *self, int swatch, int round, double grams)
{
    const sl_saying *const saying = self;
    const double planned_g = sl_day_planned_g(saying->record, swatch, round);
    char weighed[SPAN], planned[SPAN];
    sl_short_number(grams, 2, weighed, sizeof weighed);
    sl_short_number(planned_g, 1, planned, sizeof planned);
    if (planned_g > 0.0) {
        sl_document_say(saying->document, _("Weighed: %s g, planned %s g"), weighed, planned);
    } else {
        sl_document_say(saying->document, _("Weighed: %s g"), weighed);
    }
}

/* Of each block of the plan. */
static void say_room(sl_document *document, const sl_day_record *record)
{
    for (int i = 0; i < record->n_events; i++) {
        const sl_event *const event = &record->event[i];
        if (event->remark != SL_REMARK_ROOM || event->swatch < 0 || event->swatch >= record->n ||
            undone(record, event)) {
            continue;
        }
        char read[SPAN], planned[SPAN];
        sl_short_number(event->value, 2, read, sizeof read);
        sl_short_number(record->scene ? record->scene->room_c : 0.0, 1, planned, sizeof planned);
        if (record->scene) {
            sl_document_say(document, _("The room beside %s: %s °C, planned %s °C"),
                            record->swatch[event->swatch].code, read, planned);
        } else {
            sl_document_say(document, _("The room beside %s: %s °C"), record->swatch[event->swatch].code,
                            read);
        }
    }
}

/* ---- out of which tubs ------------------------------------------------------------------------------ */

/* Those of one bowl. */
static void say_tubs(sl_document *document, const sl_day_went *went, int swatch)
{
    bool is[SL_BENCH_MOST] = {false};
    is[swatch] = true;
    sl_day_each_tub(&went->record, is, sl_document_take_sentence, document);
    if (went->record.tubs && went->record.tubs[swatch].check) {
        sl_document_say(document, "%s", _("A check swatch: done alike each time, to see the tub age."));
    }
}

/* ---- each swatch, and all of them -------------------------------------------------------------------- */

static void say_swatch(sl_document *document, const sl_day_went *went, int swatch)
{
    const sl_bench *const bench = went->bench;
    char text[SL_DAY_WORDS];
    sl_on_the_hair on;
    sl_day_state(bench, swatch, went->now, text, sizeof text);
    if (went->blind) {
        sl_document_part(document, "%s", text);
    } else {
        sl_document_part(document, "%s (%s)", text,
                         sl_title_of_arm(went->record.scene, went->record.arm[swatch]));
    }
    sl_day_each_weighed(&went->record, swatch, say_weighed, &(sl_saying){document, &went->record});
    if (!went->blind) {
        say_tubs(document, went, swatch);
    }
    say_rounds(document, bench, swatch);
    if (!sl_bench_on_hair(bench, swatch, went->now, &on)) {
        return;
    }
    say_contact(document, bench, swatch);
    say_looks(document, bench, swatch);
    if (on.has_label && on.label_left_s < -0.5) {
        sl_day_span(on.label_left_s, text, sizeof text);
        sl_document_say(document, _("Longer than the label allows, by %s"), text);
    } else if (bench->state[swatch].over_label) {
        sl_document_say(document, "%s", _("A mix lay longer than its label allows."));
    }
    if (on.since.clocks != SL_CLOCKS_AGREE) {
        sl_document_say(document, "%s", sl_day_clocks(on.since.clocks));
    }
}

/* Shortest and longest time from contact to water of the swatches that `like` stands for. */
static int dwells(const sl_bench *bench, const char *const *arm, int like, double *least, double *most)
{
    int n = 0;
    for (int i = 0; i < bench->n; i++) {
        const sl_bench_state *const state = &bench->state[i];
        if (state->stage != SL_STAGE_RINSED || strcmp(arm[i], arm[like]) != 0) {
            continue;
        }
        const double lain = lain_s(state);
        *least = n == 0 ? lain : fmin(*least, lain);
        *most = n == 0 ? lain : fmax(*most, lain);
        n++;
    }
    return n;
}

static bool seen_before(const char *const *arm, int swatch)
{
    for (int i = 0; i < swatch; i++) {
        if (strcmp(arm[i], arm[swatch]) == 0) {
            return true;
        }
    }
    return false;
}

static void say_unequal(sl_document *document, const sl_day_went *went)
{
    bool any = false;
    sl_document_part(document, "%s", _("Unequal time on hair within a strip"));
    for (int i = 0; i < went->bench->n; i++) {
        double least = 0.0, most = 0.0;
        char least_words[SPAN], most_words[SPAN];
        if (seen_before(went->record.arm, i) || dwells(went->bench, went->record.arm, i, &least, &most) < 2 ||
            most - least < SL_DAY_ON_TIME_S) {
            continue;
        }
        sl_day_span(least, least_words, sizeof least_words);
        sl_day_span(most, most_words, sizeof most_words);
        sl_document_say(document, _("%s: %s to %s"), sl_title_of_arm(went->record.scene, went->record.arm[i]),
                        least_words, most_words);
        any = true;
    }
    if (!any) {
        sl_document_say(document, "%s", _("None of five seconds or more"));
    }
}

/* What is ticked of the end of the day, or (false) what is not; "" for nothing. */
static void ticks(const sl_bench *bench, bool ticked, char *text, size_t size)
{
    text[0] = '\0';
    for (int i = 0; i < SL_DAY_TICKS; i++) {
        if (bench->ticked[i] == ticked) {
            sl_append_item(text, size, "; ", "%s", sl_day_remark((sl_remark)(SL_REMARK_END_LEFTOVERS + i)));
        }
    }
}

void sl_day_say_ticks(sl_document *document, const sl_bench *bench)
{
    char text[SL_DAY_WORDS];
    ticks(bench, true, text, sizeof text);
    if (text[0] != '\0') {
        sl_document_say(document, _("Ticked at the end of the day: %s."), text);
    }
    ticks(bench, false, text, sizeof text);
    if (text[0] != '\0') {
        sl_document_say(document, _("Not ticked at the end of the day: %s."), text);
    }
}

void sl_day_begin_document(sl_document *document, const sl_day_went *went, sl_error *error)
{
    char title[SL_DAY_WORDS];
    snprintf(title, sizeof title, "%s: %s", went->title, went->scene_name);
    sl_document_begin(document, "day", title, error);
    if (went->rehearsed) {
        sl_document_lies(document, _("*** A REHEARSAL: ITS CLOCK RAN FAST. NO HAIR LAY SO LONG. ***"));
    }
}

void sl_day_say_went(sl_document *document, const void *of, sl_error *error)
{
    const sl_day_went *const went = of;
    const sl_bench *const bench = went->bench;
    sl_day_begin_document(document, went, error);
    if (!bench->started) {
        sl_document_say(document, "%s", _("The day has not begun."));
    }
    for (int i = 0; bench->started && i < bench->n; i++) {
        say_swatch(document, went, i);
    }
    if (bench->started && !went->blind) {
        say_unequal(document, went);
    }
    sl_document_apart(document);
    say_room(document, &went->record);
    if (bench->started && !sl_bench_any_on_hair(bench)) {
        sl_day_say_ticks(document, bench);
        for (int i = 0; i < went->n_due; i++) {
            sl_document_say(document, "%s", went->due[i]);
        }
    }
    if (bench->started && bench->sound_tried && !bench->sound_heard) {
        sl_document_say(document, "%s", _("The bell was not heard that day; alarms were seen only."));
    }
    sl_document_end(document, SL_ON_SWATCHES);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See says.h.
 */
#include "day/says.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/plain_text.h"
#include "document/renderers.h"
#include "document/text.h"
#include "log/day/due.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

enum { NEXT_SAID = 3 };

typedef struct saying {
    const sl_day_desk *desk;
    const sl_day *day;
    sl_day_setter *set;
    void *self;
} saying;

static void put(const saying *to, sl_day_line_kind kind, const char *words)
{
    const sl_day_line line = {.kind = kind, .words = words};
    to->set(to->self, &line);
}

static void say(const saying *to, const char *format, ...) __attribute__((format(printf, 2, 3)));
static void say(const saying *to, const char *format, ...)
{
    char text[SL_DAY_LINE];
    va_list words;
    va_start(words, format);
    vsnprintf(text, sizeof text, format, words);
    va_end(words);
    put(to, SL_LINE_SAY, text);
}

static void put_caution(const saying *to, sl_caution_id id, const char *words)
{
    const sl_day_line line = {
        .kind = SL_LINE_CAUTION, .lead = _(sl_caution_text(id)->signal), .words = words};
    to->set(to->self, &line);
}

static void put_choice(const saying *to, int number, const char *words, bool given)
{
    const sl_day_line line = {.kind = SL_LINE_CHOICE, .words = words, .number = number, .given = given};
    to->set(to->self, &line);
}

/* What goes on from a page; a window has buttons. */
static void put_keys(const saying *to, const sl_day_act act[], int n)
{
    for (int i = 0; i < n && to->day->medium == SL_ON_TERMINAL; i++) {
        const sl_day_act_row *const row = sl_day_act_row_of(act[i]);
        const sl_day_line line = {.kind = SL_LINE_KEYS, .lead = _(row->keys), .words = _(row->help)};
        to->set(to->self, &line);
    }
}

const char *sl_day_rest_words(const sl_day *day)
{
    return day->dyed_today && !day->bench.started
               ? _("Dyed today: let the swatches rest first, overnight at least.")
               : NULL;
}

/* ---- the bench -------------------------------------------------------------------------------------- */

static void say_next(const saying *to)
{
    const sl_day *const day = to->day;
    char text[SL_DAY_WORDS];
    if (sl_bench_eye(&day->bench)) {
        put(to, SL_LINE_SAY, _("Water runs on an eye. All else waits."));
        if (sl_day_also(&day->bench, text, sizeof text)) {
            put(to, SL_LINE_SAY, text);
        }
        return;
    }
    if (!day->bench.started) {
        put(to, SL_LINE_SAY, _("The day has not begun: G begins it."));
        if (sl_day_rest_words(day)) {
            put(to, SL_LINE_SAY, sl_day_rest_words(day));
        }
    }
    for (int i = 0; i < day->n_due && i < NEXT_SAID; i++) {
        sl_day_due_words(day, &day->due[i], text, sizeof text);
        say(to, i == 0 ? _("Next: %s.") : _("Then: %s."), text);
    }
    if (day->n_due == 0 && day->bench.started) {
        put(to, SL_LINE_SAY, _("Next: nothing is due any more. J tells how the day went."));
        if (!sl_day_why_not(day, SL_ACT_END) && sl_bench_unticked(&day->bench) > 0) {
            put(to, SL_LINE_SAY, _("Not all of the end of the day is ticked: Z."));
        }
    }
}

static void say_list(const saying *to)
{
    const sl_day *const day = to->day;
    char state[SL_DAY_WORDS], label[SL_DAY_WORDS];
    for (int i = 0; i < day->n; i++) {
        sl_day_state(&day->bench, i, &day->now, state, sizeof state);
        sl_day_label(&day->bench, i, &day->now, label, sizeof label);
        if (sl_day_blind(day)) {
            say(to, "%d  %s; %s.", i + 1, state, label);
        } else {
            say(to, "%d  %s; %s (%s).", i + 1, state, label, sl_title_of_arm(day->scene, day->arm[i]));
        }
    }
    put(to, SL_LINE_SAY, sl_day_stop_signs());
    say_next(to);
}

static void say_model(const saying *to, int swatch)
{
    const sl_day *const day = to->day;
    char left[SL_DAY_WORDS], hair[SL_DAY_WORDS];
    const char *const code = day->plan[swatch].code;
    if (sl_day_covers(day, swatch) || sl_bench_course_s(&day->bench, swatch, &day->now) < 0.0) {
        return;
    }
    if (sl_day_desk_model(to->desk, swatch, left, hair, sizeof left)) {
        say(to, _("%s by the model, a classroom example: %s; %s."), code, left, hair);
    } else {
        say(to, _("%s by the model, a classroom example: %s."), code, left);
    }
}

/* ---- pages over it ---------------------------------------------------------------------------------- */

static void tell_bowl(void *self, const char *sentence)
{
    put(self, SL_LINE_SAY, sentence);
}

static void say_contents(const saying *to, const sl_event *stop)
{
    const sl_day_record record = sl_day_record_of(to->day);
    saying inner = *to;
    if (stop && !sl_day_bowls(&record, stop, tell_bowl, &inner)) {
        put(to, SL_LINE_SAY, _("Out of memory: show the packets."));
    }
}

static void say_stopped(const saying *to)
{
    const sl_day *const day = to->day;
    const sl_event *const stop = sl_day_last_stop(day->event, day->n_events);
    static const sl_caution_id at_once[] = {SL_CAUTION_EYES, SL_CAUTION_SCALP};
    enum { AT_ONCE = sizeof at_once / sizeof at_once[0] };
    const char *original[AT_ONCE];
    char text[SL_DAY_WORDS], own[SL_DAY_LINE];
    snprintf(text, sizeof text, _("STOP AND RINSE: %s. Lukewarm water, now, and plenty of it."),
             stop && stop->swatch >= 0 ? day->plan[stop->swatch].code : _("all"));
    put(to, SL_LINE_TITLE, text);
    if (sl_bench_eye(&day->bench) && sl_day_also(&day->bench, text, sizeof text)) {
        put(to, SL_LINE_SAY, text);
    }
    for (int i = 0; i < AT_ONCE; i++) { /* in the reader's words alone: somebody must act now */
        original[i] = sl_caution_own(at_once[i], own, sizeof own);
        put_caution(to, at_once[i], own);
    }
    say_contents(to, stop);
    put(to, SL_LINE_ASK, _("Why? One key, while the water runs:"));
    for (int i = 0; i < SL_DAY_REASONS; i++) {
        const char *words = "";
        const bool given = sl_day_reason(i, &words) == day->bench.stop_reason;
        put_choice(to, i + 1, words, given);
    }
    put_keys(to, (const sl_day_act[]){SL_ACT_WATER, SL_ACT_BOWLS, SL_ACT_CLOSE}, 3);
    for (int i = 0; i < AT_ONCE; i++) { /* that its translation is nobody's of the trade, and the English */
        if (original[i][0] != '\0') {
            put(to, SL_LINE_ORIGINAL, original[i]);
        }
    }
}

static void say_bowls(const saying *to)
{
    const sl_day *const day = to->day;
    const sl_event *const stop = sl_day_last_stop(day->event, day->n_events);
    put(to, SL_LINE_TITLE, _("For a doctor: what was in the bowl"));
    say_contents(to, stop);
    put(to, SL_LINE_SAY, _("Take the packets along. slowlift day LOG --stops makes a sheet of it."));
    put(to, SL_LINE_ASK, _("Who was told? One key:"));
    for (int i = 0; i < SL_DAY_TOLD; i++) {
        put_choice(to, i + 1, sl_day_remark(sl_day_told(i)), false);
    }
    put_keys(to, (const sl_day_act[]){SL_ACT_WATER, SL_ACT_CLOSE}, 2);
}

static void say_notes(const saying *to)
{
    char text[SL_DAY_WORDS];
    snprintf(text, sizeof text, _("Note for %s"), to->day->plan[to->day->chosen].code);
    put(to, SL_LINE_TITLE, text);
    put(to, SL_LINE_ASK, _("Which note? One key; Esc leaves it."));
    for (int i = 0; i < SL_DAY_NOTES; i++) {
        put_choice(to, i + 1, sl_day_remark(sl_day_note(i)), false);
    }
}

static void say_end(const saying *to)
{
    put(to, SL_LINE_TITLE, _("The end of the day"));
    put(to, SL_LINE_ASK, _("What is done? One key each; Esc leaves it."));
    for (int i = 0; i < SL_DAY_TICKS; i++) {
        put_choice(to, i + 1, sl_day_remark((sl_remark)(SL_REMARK_END_LEFTOVERS + i)),
                   to->day->bench.ticked[i]);
    }
}

static void say_sound(const saying *to)
{
    put(to, SL_LINE_TITLE, _("Sound test"));
    put(to, SL_LINE_SAY,
        to->day->plays
            ? _("It has just sounded. Turn it up until it is heard at the basin, with the water on. "
                "Alarms are always seen too.")
            : _("There is no sound here: alarms are seen only, and flash more. Put the screen where "
                "someone always sees it, or have a second clock beside it."));
    put(to, SL_LINE_SAY, sl_day_stop_signs());
    put(to, SL_LINE_ASK, _("Was the sound heard? y or n; v sounds again."));
}

static void say_help(const saying *to)
{
    for (int i = 0; i < SL_DAY_ACT_ROWS; i++) {
        const sl_day_act_row *const row = &sl_day_acts[i];
        if (row->help && (row->media == 0 || row->media == (unsigned)to->day->medium)) {
            const sl_day_line line = {.kind = SL_LINE_KEYS, .lead = _(row->keys), .words = _(row->help)};
            to->set(to->self, &line);
        }
    }
}

static void say_cautions(const saying *to)
{
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        put_caution(to, (sl_caution_id)id, _(sl_caution_text((sl_caution_id)id)->text));
    }
}

void sl_day_says(const sl_day_desk *desk, sl_day_view view, int swatch, sl_day_setter *set, void *self)
{
    const saying to = {desk, &desk->day, set, self};
    switch (view) {
    case SL_DAY_SOUND_TEST:
        say_sound(&to);
        return;
    case SL_DAY_STOPPED:
        say_stopped(&to);
        return;
    case SL_DAY_BOWLS:
        say_bowls(&to);
        return;
    case SL_DAY_END_PAGE:
        say_end(&to);
        return;
    case SL_DAY_NOTE_PAGE:
        say_notes(&to);
        return;
    case SL_DAY_CAUTIONS:
        say_cautions(&to);
        return;
    case SL_DAY_HELP:
        say_help(&to);
        return;
    case SL_DAY_LIST:
        say_list(&to);
        return;
    case SL_DAY_MODEL:
        say_model(&to, swatch);
        return;
    case SL_DAY_BENCH:
    case SL_DAY_NEXT:
        say_next(&to);
        return;
    case SL_DAY_WENT: /* a document */
        return;
    }
}

sl_day_went sl_day_went_of(const sl_day_desk *desk)
{
    const sl_day *const day = &desk->day;
    sl_day_went went = {.title = desk->test.title,
                        .scene_name = desk->test.scene_name,
                        .bench = &day->bench,
                        .record = sl_day_record_of(day),
                        .now = &day->now,
                        .blind = sl_day_blind(day),
                        .rehearsed = desk->rehearsed > 0.0};
    sl_log_due_after(&went, desk->swatches, desk->readings, desk->n_readings);
    return went;
}

/* ---- one line --------------------------------------------------------------------------------------- */

bool sl_day_water_words(const sl_day *day, char *text, size_t size)
{
    double runs_s = 0.0, least_s = 0.0;
    char runs[24], left[24];
    if (!sl_bench_stop_water(&day->bench, &day->now, &runs_s, &least_s)) {
        return false;
    }
    sl_day_span(runs_s, runs, sizeof runs);
    sl_day_span(least_s - runs_s, left, sizeof left);
    if (least_s > runs_s) {
        snprintf(text, size, _("WATER ON THE EYE %s, %s to go"), runs, left);
    } else if (least_s > 0.0) {
        snprintf(text, size, _("WATER ON THE EYE %s: 15 minutes are over. Medical help?"), runs);
    } else if (day->bench.stop_reason == SL_REASON_UNSAID) {
        snprintf(text, size, _("WATER RUNS %s. Why? One key, 1 to 9"), runs);
    } else {
        snprintf(text, size, _("WATER RUNS %s, until it runs clear"), runs);
    }
    return true;
}

bool sl_day_first_words(const sl_day *day, bool brief, char *text, size_t size)
{
    char due[SL_DAY_WORDS];
    if (sl_day_asks_words(day, text, size) || sl_day_water_words(day, text, size)) {
        return true;
    }
    if (day->n_due == 0) {
        snprintf(text, size, "%s",
                 day->bench.started ? _("Nothing is due") : _("The day has not begun: G begins it"));
        return false;
    }
    if (brief) {
        sl_day_when(day->due[0].in_s, due, sizeof due);
        snprintf(text, size, _("NEXT %s %s"), day->plan[day->due[0].swatch].code, due);
    } else {
        sl_day_due_words(day, &day->due[0], due, sizeof due);
        snprintf(text, size, _("NEXT %s"), due);
    }
    return day->due[0].in_s < 0.5 && sl_bench_calls(&day->bench, &day->due[0], &day->now);
}

bool sl_day_typed_words(const sl_day *day, char *text, size_t size)
{
    char typed[4 * SL_DAY_TYPED], planned[24];
    sl_text_show(day->typed, strlen(day->typed), SL_TEXT_LINE, typed, sizeof typed);
    sl_short_number(day->asks.planned, 1, planned, sizeof planned);
    if (day->typing == SL_TYPES_MEASURE) {
        snprintf(text, size,
                 day->asks.remark == SL_REMARK_GRAMS
                     ? _("Grams weighed for %s? Enter: %s as planned; or type them: %s_")
                     : _("Degrees of the room, beside %s? Enter: %s as planned; or type them: %s_"),
                 day->plan[day->asks.swatch].code, planned, typed);
    } else if (day->typing != SL_TYPES_NOTHING) {
        snprintf(text, size, _("typed, Enter ends, Tab STOPS: %s_"), typed);
    }
    return day->typing != SL_TYPES_NOTHING;
}

/* Of what is mixed or put on; NULL: of nothing, or nobody is to know. */
static const char *mix_named(const sl_day *day, const sl_due *due)
{
    const bool of_mix = due->kind == SL_EVENT_MIXED || due->kind == SL_EVENT_APPLIED;
    const sl_step *const step =
        of_mix && !sl_day_blind(day)
            ? sl_day_application(day->scene, day->arm[due->swatch], day->bench.state[due->swatch].round)
            : NULL;
    return step ? sl_mix_title(&day->scene->mixes[step->mix]) : NULL;
}

void sl_day_head_words(const sl_day *day, const sl_due *due, const char *verb, char *text, size_t size)
{
    const char *const mix = mix_named(day, due);
    snprintf(text, size, mix ? "%s (%s): %s" : "%s%s: %s", day->plan[due->swatch].code, mix ? mix : "", verb);
}

void sl_day_due_words(const sl_day *day, const sl_due *due, char *text, size_t size)
{
    char when[48], verb[SL_DAY_WORDS / 2], head[SL_DAY_WORDS];
    sl_day_when(due->in_s, when, sizeof when);
    sl_day_verb(&day->bench, due, false, verb, sizeof verb);
    sl_day_head_words(day, due, verb, head, sizeof head);
    snprintf(text, size, "%s, %s", head, when);
}

const char *sl_day_mark_of(const sl_day_desk *desk)
{
    return sl_day_mark(desk->rehearsed > 0.0);
}

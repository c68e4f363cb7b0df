/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the day says: plain lines from top to bottom that a screen reader can follow, and on a
 * terminal some lines at the foot, drawn over each second: what is next, the swatch that the keys are
 * about with its label, the signs that stop everything, and what the model says of that swatch now.
 */
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "base/language.h"
#include "base/plain_text.h"
#include "command/day/day.h"
#include "document/text.h"
#include "report/plan/day.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

enum { WIDTH = 78, STATUS_LINES = 5, LINE = 2 * SL_DAY_WORDS + 16, NEXT_SAID = 3 };

/* ---- lines --------------------------------------------------------------------------------------- */

void sl_terminal_clear_status(sl_terminal_day *day)
{
    if (day->drawn > 0) {
        fputs("\r\033[J", stdout);
        day->drawn = 0;
    }
}

void sl_terminal_say(sl_terminal_day *day, const char *format, ...)
{
    char text[4 * SL_DAY_WORDS];
    va_list words;
    va_start(words, format);
    vsnprintf(text, sizeof text, format, words);
    va_end(words);
    sl_terminal_clear_status(day);
    sl_put_marked(stdout, sl_day_mark(day->rehearsed > 0.0), text, WIDTH);
    fflush(stdout);
}

void sl_terminal_say_choice(sl_terminal_day *day, int key, const char *words)
{
    char lead[64];
    snprintf(lead, sizeof lead, "%s  %d  ", sl_day_mark(day->rehearsed > 0.0), key);
    sl_terminal_clear_status(day);
    sl_put_paragraph(stdout, lead, words, WIDTH);
    fflush(stdout);
}

void sl_terminal_bell(const sl_terminal_day *day)
{
    if (day->terminal) {
        fputc('\a', stdout);
        fflush(stdout);
    }
}

/* ---- what is next, every swatch ------------------------------------------------------------------ */

void sl_terminal_say_due(sl_terminal_day *day)
{
    char text[SL_DAY_WORDS];
    if (sl_bench_eye(&day->bench)) {
        sl_terminal_say(day, "%s", _("Water runs on an eye. All else waits."));
        if (sl_day_also(&day->bench, text, sizeof text)) {
            sl_terminal_say(day, "%s", text);
        }
        return;
    }
    if (day->n_due == 0) {
        sl_terminal_say(day, "%s", _("Next: nothing is due any more."));
        return;
    }
    for (int i = 0; i < day->n_due && i < NEXT_SAID; i++) {
        sl_day_due(&day->bench, &day->due[i], text, sizeof text);
        sl_terminal_say(day, i == 0 ? _("Next: %s.") : _("Then: %s."), text);
    }
}

void sl_terminal_say_model(sl_terminal_day *day, int swatch)
{
    char left[SL_DAY_WORDS], hair[SL_DAY_WORDS];
    const double course_s = swatch < 0 ? -1.0 : sl_bench_course_s(&day->bench, swatch, &day->now);
    if (day->blind || course_s < 0.0) {
        return;
    }
    const bool predicted =
        sl_terminal_model_words(&day->model, day->arm_at[swatch], course_s, left, hair, sizeof left);
    sl_terminal_say(day, _("%s by the model, a classroom example: %s%s%s."), day->plan[swatch].code, left,
                    predicted ? "; " : "", hair);
}

static void say_swatch(sl_terminal_day *day, int swatch)
{
    char state[SL_DAY_WORDS], label[SL_DAY_WORDS];
    sl_day_state(&day->bench, swatch, &day->now, state, sizeof state);
    sl_day_label(&day->bench, swatch, &day->now, label, sizeof label);
    if (day->blind) {
        sl_terminal_say(day, "%d  %s; %s.", swatch + 1, state, label);
    } else {
        sl_terminal_say(day, "%d  %s; %s (%s).", swatch + 1, state, label,
                        sl_title_of_arm(day->scene, day->arm[swatch]));
    }
}

void sl_terminal_say_all(sl_terminal_day *day)
{
    for (int i = 0; i < day->n; i++) {
        say_swatch(day, i);
    }
    sl_terminal_say(day, "%s", sl_day_stop_signs());
    sl_terminal_say_due(day);
}

/* After the log was read again: how long each has lain, and why where that is not plain. */
void sl_terminal_say_clocks(sl_terminal_day *day)
{
    char text[SL_DAY_WORDS];
    for (int i = 0; i < day->n; i++) {
        sl_on_the_hair on;
        if (day->bench.state[i].stage != SL_STAGE_ON_HAIR ||
            !sl_bench_on_hair(&day->bench, i, &day->now, &on)) {
            continue;
        }
        sl_day_state(&day->bench, i, &day->now, text, sizeof text);
        sl_terminal_say(day, "%s. %s", text, sl_day_clocks(on.since.clocks));
    }
}

/* ---- help ------------------------------------------------------------------------------------------ */

void sl_terminal_say_help(sl_terminal_day *day)
{
    static const char *const lines[] = {
        N_("space or s  STOP AND RINSE, all that is on hair; nothing is asked first"),
        N_("x  stop and rinse the chosen swatch alone"),
        N_("m  its bowl is mixed      a  applied: the mix touches the hair now"),
        N_("w  wiped and looked       f  felt: skin, heat, and one hair stretched"),
        N_("on a time ladder w is: the piece was cut off and rinsed"),
        N_("r  rinsed: first water    o  water off after a stop"),
        N_("n  note (one more key)    t  note in your own words, Enter ends it"),
        N_("u  undo the last key that can be undone; a stop cannot"),
        N_("1 2 3 ...  choose a swatch by its number    c  by its code    Enter  what is next"),
        N_("l  every swatch           p  what the model says of this one"),
        N_("d  for a doctor: what was in the bowls, and who was told"),
        N_("b  test the bell again    ?  this help"),
        N_("q  leave; the clock goes on, and slowlift day takes it up again"),
        N_("Tab stops too, also while you type. Without a terminal: one key and Enter, and a code may "
           "follow, "
           "such as: a EK9"),
    };
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        sl_terminal_say(day, "%s", _(lines[i]));
    }
}

/* ---- the stop ---------------------------------------------------------------------------------------- */

static void say_caution(sl_terminal_day *day, sl_caution_id id)
{
    const sl_caution *const caution = sl_caution_text(id);
    sl_terminal_say(day, "%s: %s", _(caution->signal), _(caution->text));
    sl_terminal_say(day, "%s", "");
}

void sl_terminal_say_stopped(sl_terminal_day *day)
{
    sl_terminal_clear_status(day);
    if (day->status) {
        fputs("\033[2J\033[H", stdout); /* the whole screen is for this */
    }
    sl_terminal_say(day, "%s", "");
    sl_terminal_say(day, "%s", _("STOP AND RINSE. Lukewarm water, now, and plenty of it."));
    sl_terminal_say(day, "%s", "");
    say_caution(day, SL_CAUTION_EYES);
    say_caution(day, SL_CAUTION_SCALP);
    sl_terminal_say(day, "%s",
                    _("While the water runs, say why, with one key (d tells what was in the bowls):"));
    for (int i = 0; i < SL_DAY_REASONS; i++) {
        const char *words = NULL;
        sl_day_reason(i, &words);
        sl_terminal_say_choice(day, i + 1, words);
    }
}

static void tell_bowl(void *self, const char *sentence)
{
    sl_terminal_say(self, "%s", sentence);
}

void sl_terminal_say_bowls(sl_terminal_day *day, const sl_event *stop)
{
    const sl_day_record record = sl_terminal_record_of(day);
    sl_terminal_say(day, "%s", _("For a doctor, what was in the bowl:"));
    if (!sl_day_bowls(&record, stop, tell_bowl, day)) {
        sl_terminal_say(day, "%s", _("Out of memory: show the packets."));
    }
    sl_terminal_say(day, "%s", _("Take the packets along. slowlift day LOG --stops makes a sheet of it."));
}

void sl_terminal_ask_told(sl_terminal_day *day)
{
    day->typing = SL_TERMINAL_PICKS_TOLD;
    sl_terminal_say(day, "%s", _("Who was told? One key; any other key leaves it, d asks again."));
    for (int i = 0; i < SL_DAY_TOLD; i++) {
        sl_terminal_say_choice(day, i + 1, sl_day_remark(sl_day_told(i)));
    }
}

/* ---- the foot of the screen --------------------------------------------------------------------------- */

static int columns(void)
{
    struct winsize size;
    return ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 20 ? size.ws_col : 80;
}

/* The clock of the water comes before all else, then what is late, then what is next. */
static bool first_line(const sl_terminal_day *day, char *text, size_t size)
{
    double runs_s = 0.0, least_s = 0.0;
    char runs[24], left[24], due[SL_DAY_WORDS];
    if (sl_bench_stop_water(&day->bench, &day->now, &runs_s, &least_s)) {
        sl_day_span(runs_s, runs, sizeof runs);
        sl_day_span(least_s - runs_s, left, sizeof left);
        if (least_s > runs_s) {
            snprintf(text, size, _("WATER RUNS %s, EYES: %s to go. o = water off"), runs, left);
        } else if (least_s > 0.0) {
            snprintf(text, size, _("WATER RUNS %s: the eyes had 15 minutes. Medical help? o = water off"),
                     runs);
        } else if (day->asks_reason) {
            snprintf(text, size, _("WATER RUNS %s. Why? One key, 1 to 9"), runs);
        } else {
            snprintf(text, size, _("WATER RUNS %s, until it runs clear. o = water off"), runs);
        }
        return true;
    }
    if (day->n_due == 0) {
        snprintf(text, size, "%s", _("Nothing is due"));
        return false;
    }
    sl_day_due(&day->bench, &day->due[0], due, sizeof due);
    snprintf(text, size, _("NEXT %s"), due);
    return day->due[0].in_s < 0.5;
}

static void second_line(const sl_terminal_day *day, char *text, size_t size)
{
    char state[SL_DAY_WORDS], label[SL_DAY_WORDS];
    const int aim = sl_terminal_aim(day);
    if (aim < 0) {
        snprintf(text, size, "%s", _("No swatch is left to do"));
        return;
    }
    sl_day_state(&day->bench, aim, &day->now, state, sizeof state);
    sl_day_label(&day->bench, aim, &day->now, label, sizeof label);
    snprintf(text, size, "%s; %s", state, label);
}

/* Two lines, or none. */
static int model_lines(const sl_terminal_day *day, char (*line)[LINE])
{
    const int aim = sl_terminal_aim(day);
    char left[SL_DAY_WORDS], hair[SL_DAY_WORDS];
    const double course_s = aim < 0 ? -1.0 : sl_bench_course_s(&day->bench, aim, &day->now);
    if (day->blind || course_s < 0.0) {
        return 0;
    }
    if (!sl_terminal_model_words(&day->model, day->arm_at[aim], course_s, left, hair, sizeof left)) {
        return 0;
    }
    snprintf(line[0], LINE, _("%s by the model, a classroom example: %s"), day->plan[aim].code, hair);
    snprintf(line[1], LINE, "%s", left);
    return 2;
}

/* While water runs on an eye: whose hair it also lies on, or no line. */
static int also_line(const sl_terminal_day *day, char *text)
{
    return sl_day_also(&day->bench, text, LINE) ? 1 : 0;
}

static void last_line(const sl_terminal_day *day, char *text, size_t size)
{
    if (day->typing == SL_TERMINAL_TYPES_CODE || day->typing == SL_TERMINAL_TYPES_NOTE) {
        char typed[4 * sizeof day->typed];
        sl_text_show(day->typed, strlen(day->typed), SL_TEXT_LINE, typed, sizeof typed);
        snprintf(text, size, "%s %s_", _("typed, Enter ends, Tab STOPS:"), typed);
    } else {
        snprintf(text, size, "%s", sl_day_stop_signs_line());
    }
}

/* The only place where something flashes: once a second, and only what is late or running. */
void sl_terminal_status(sl_terminal_day *day)
{
    char line[STATUS_LINES][LINE];
    if (!day->status) {
        return;
    }
    day->flash = first_line(day, line[0], LINE) && !day->flash;
    int n = 1;
    if (sl_bench_eye(&day->bench)) {
        n += also_line(day, line[1]);
    } else {
        second_line(day, line[1], LINE);
        n = 2 + model_lines(day, &line[2]);
    }
    last_line(day, line[n++], LINE);
    const char *const mark = sl_day_mark(day->rehearsed > 0.0);
    const int width = columns() - 1 - sl_text_width(mark);
    fputs("\r\033[J", stdout);
    for (int i = 0; i < n; i++) {
        fputs(mark, stdout);
        fputs(i == 0 && day->flash ? "\033[7m" : i == 0 ? "\033[1m" : "", stdout);
        sl_put_left(stdout, line[i], width);
        fputs(i == 0 ? "\033[0m\n" : i + 1 < n ? "\n" : "", stdout);
    }
    printf("\033[%dA\r", n - 1);
    day->drawn = n;
    fflush(stdout);
}

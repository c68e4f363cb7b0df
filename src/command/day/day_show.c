/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the day says, set on a terminal: lines, and at the foot what is next, the swatch that keys are for
 * with its label, what the model says of it now, the signs that stop everything, and the keys that work.
 */
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "base/append.h"
#include "base/language.h"
#include "command/day/day.h"
#include "document/text.h"

enum { WIDTH = SL_DAY_COLUMNS, FOOT = 2048 };

/* ---- lines --------------------------------------------------------------------------------------- */

static const char *mark(const sl_terminal_day *terminal)
{
    return sl_day_mark_of(terminal->desk);
}

void sl_terminal_clear_status(sl_terminal_day *terminal)
{
    if (terminal->drawn > 0) {
        fputs("\r\033[J", stdout);
        terminal->drawn = 0;
    }
}

static void window_size(int *columns, int *rows)
{
    struct winsize size;
    const bool known = ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0;
    *columns = known && size.ws_col > 20 ? size.ws_col : 80;
    *rows = known && size.ws_row > 8 ? size.ws_row : 24;
}

static int width_now(const sl_terminal_day *terminal)
{
    int columns = WIDTH + 1, rows = 0;
    if (terminal->terminal) {
        window_size(&columns, &rows);
    }
    return (columns <= WIDTH ? columns - 1 : WIDTH) - sl_text_width(mark(terminal));
}

/* The mark of a rehearsal stands before each line, those below a lead too. */
static void say_words(sl_terminal_day *terminal, const char *lead, const char *words)
{
    char text[8 * SL_DAY_WORDS] = "";
    FILE *const out = fmemopen(text, sizeof text - 1, "w");
    if (!out) {
        return;
    }
    sl_put_paragraph(out, lead, words, width_now(terminal));
    fclose(out);
    sl_terminal_clear_status(terminal);
    for (char *line = text, *end = NULL; (end = strchr(line, '\n')) != NULL; line = end + 1) {
        *end = '\0';
        printf("%s%s\n", mark(terminal), line);
    }
    fflush(stdout);
}

void sl_terminal_say(sl_terminal_day *terminal, const char *format, ...)
{
    char text[4 * SL_DAY_WORDS];
    va_list words;
    va_start(words, format);
    vsnprintf(text, sizeof text, format, words);
    va_end(words);
    say_words(terminal, "", text);
}

static void bell(const sl_terminal_day *terminal)
{
    if (terminal->terminal) {
        fputc('\a', stdout);
        fflush(stdout);
    }
}

/* ---- pages ------------------------------------------------------------------------------------------ */

static void set_line(void *self, const sl_day_line *line)
{
    sl_terminal_day *const terminal = self;
    char lead[32];
    switch (line->kind) {
    case SL_LINE_CAUTION:
        sl_terminal_say(terminal, "%s: %s", line->lead, line->words);
        sl_terminal_say(terminal, "%s", "");
        return;
    case SL_LINE_CHOICE:
        snprintf(lead, sizeof lead, "  %d  ", line->number);
        say_words(terminal, lead, line->words);
        return;
    case SL_LINE_KEYS:
        snprintf(lead, sizeof lead, "%s%*s", line->lead, 9 - sl_text_width(line->lead), "");
        say_words(terminal, lead, line->words);
        return;
    case SL_LINE_TITLE:
    case SL_LINE_SAY:
    case SL_LINE_ORIGINAL:
    case SL_LINE_ASK:
        say_words(terminal, "", line->words);
        return;
    }
}

void sl_terminal_show(sl_terminal_day *terminal, sl_day_view view, int swatch)
{
    sl_terminal_clear_status(terminal);
    if (view == SL_DAY_STOPPED) {
        if (terminal->status) {
            fputs("\033[2J\033[H", stdout); /* the whole screen is for this */
        }
        sl_terminal_say(terminal, "%s", "");
    }
    if (view == SL_DAY_WENT) {
        sl_document document;
        sl_error error = {.code = SL_OK};
        const sl_day_went went = sl_day_went_of(terminal->desk);
        sl_day_say_went(&document, &went, &error);
        sl_document_print(
            stdout, &document,
            &(sl_terminal){.width = width_now(terminal), .depth = SL_SCIENCE, .mark = mark(terminal)});
        return;
    }
    sl_day_says(terminal->desk, view, swatch, set_line, terminal);
}

/* After the log was read again: how long each has lain, and why where that is not plain. */
void sl_terminal_say_clocks(sl_terminal_day *terminal)
{
    const sl_day *const day = &terminal->desk->day;
    char text[SL_DAY_WORDS];
    for (int i = 0; i < day->n; i++) {
        sl_on_the_hair on;
        if (day->bench.state[i].stage == SL_STAGE_ON_HAIR &&
            sl_bench_on_hair(&day->bench, i, &day->now, &on)) {
            sl_day_state(&day->bench, i, &day->now, text, sizeof text);
            sl_terminal_say(terminal, "%s. %s", text, sl_day_clocks(on.since.clocks));
        }
    }
}

/* ---- effects ---------------------------------------------------------------------------------------- */

void sl_terminal_do(sl_terminal_day *terminal)
{
    const sl_day_effects *const effects = &terminal->desk->effects;
    for (int i = 0; i < effects->n; i++) {
        const sl_day_effect *const effect = &effects->effect[i];
        switch (effect->kind) {
        case SL_DAY_SAY:
        case SL_DAY_REFUSE:
        case SL_DAY_FAULT:
        case SL_DAY_CALL:
            sl_terminal_say(terminal, "%s", effect->text);
            break;
        case SL_DAY_SHOW:
            sl_terminal_show(terminal, (sl_day_view)effect->number, effect->swatch);
            break;
        case SL_DAY_SOUND:
            if (!effect->again) { /* a bell every other second drowns who reads lines aloud */
                bell(terminal);
            }
            break;
        case SL_DAY_LEAVE:
            terminal->leave = true;
            break;
        case SL_DAY_KEEP: /* by the desk */
            break;
        }
    }
}

/* ---- the foot of the screen --------------------------------------------------------------------------- */

/* In fewer words where it would not stand in one line: the countdown stays. */
static void put_first(sl_terminal_day *terminal, FILE *out, int width)
{
    char text[SL_DAY_LINE];
    bool late = sl_day_first_words(&terminal->desk->day, false, text, sizeof text);
    if (sl_text_width(text) + sl_text_width(mark(terminal)) > width) {
        late = sl_day_first_words(&terminal->desk->day, true, text, sizeof text);
    }
    terminal->flash = late && !terminal->flash;
    fputs(terminal->flash ? "\033[7m" : "\033[1m", out);
    sl_put_marked(out, mark(terminal), text, width);
    fputs("\033[0m", out);
}

/* The swatch that keys are for; while water runs on an eye whose hair it also lies on. */
static void put_second(const sl_terminal_day *terminal, FILE *out, int width)
{
    const sl_day *const day = &terminal->desk->day;
    char text[SL_DAY_LINE], state[SL_DAY_WORDS], label[SL_DAY_WORDS];
    if (sl_bench_eye(&day->bench)) {
        if (sl_day_also(&day->bench, text, sizeof text)) {
            sl_put_marked(out, mark(terminal), text, width);
        }
        return;
    }
    sl_day_state(&day->bench, day->chosen, &day->now, state, sizeof state);
    sl_day_label(&day->bench, day->chosen, &day->now, label, sizeof label);
    snprintf(text, sizeof text, "%s; %s", state, label);
    sl_put_marked(out, mark(terminal), text, width);
}

static void put_model(const sl_terminal_day *terminal, FILE *out, int width)
{
    const sl_day *const day = &terminal->desk->day;
    char left[SL_DAY_WORDS], hair[SL_DAY_WORDS], text[SL_DAY_LINE];
    if (sl_bench_eye(&day->bench) ||
        !sl_day_desk_model(terminal->desk, day->chosen, left, hair, sizeof left)) {
        return;
    }
    snprintf(text, sizeof text, _("%s by the model, a classroom example: %s"), day->plan[day->chosen].code,
             hair);
    sl_put_marked(out, mark(terminal), text, width);
    sl_put_marked(out, mark(terminal), left, width);
}

/* Those that work now. */
static void put_keys(const sl_terminal_day *terminal, FILE *out, int width)
{
    const sl_day *const day = &terminal->desk->day;
    char text[SL_DAY_LINE] = "";
    for (int i = 0; i < SL_DAY_ACT_ROWS; i++) {
        const sl_day_act_row *const row = &sl_day_acts[i];
        if (row->brief && sl_day_act_on(row, day->page, SL_ON_TERMINAL) && !sl_day_why_not(day, row->act) &&
            row->act != SL_ACT_BACK && row->act != SL_ACT_ON) {
            sl_append_item(text, sizeof text, " · ", "%s %s", _(row->keys), _(row->brief));
        }
    }
    sl_put_marked(out, mark(terminal), text, width);
}

static void put_last(const sl_terminal_day *terminal, FILE *out, int width, bool keys)
{
    char text[SL_DAY_LINE];
    if (sl_day_typed_words(&terminal->desk->day, text, sizeof text)) {
        sl_put_marked(out, mark(terminal), text, width);
        return;
    }
    sl_put_marked(out, mark(terminal), sl_day_stop_signs_line(), width);
    if (keys) {
        put_keys(terminal, out, width);
    }
}

/* How many lines `text` takes, each of which ends. */
static int lines_of(const char *text)
{
    int n = 0;
    for (; *text != '\0'; text++) {
        n += *text == '\n' ? 1 : 0;
    }
    return n;
}

/* What matters least goes where there is no room: the keys, then the model. */
static int lay_foot(sl_terminal_day *terminal, char text[FOOT], int columns, int rows)
{
    const bool flash = terminal->flash;
    int n = 0;
    for (int left_out = 0; left_out < 3; left_out++) {
        FILE *const out = fmemopen(text, FOOT, "w");
        if (!out) {
            return 0;
        }
        terminal->flash = flash;
        put_first(terminal, out, columns);
        put_second(terminal, out, columns);
        if (left_out < 2) {
            put_model(terminal, out, columns);
        }
        put_last(terminal, out, columns, left_out < 1);
        fputc('\0', out);
        fclose(out);
        text[FOOT - 1] = '\0';
        n = lines_of(text);
        if (n <= rows * 2 / 3) {
            break;
        }
    }
    return n;
}

/* The only place where something flashes: once a second, and only what is late or running. */
void sl_terminal_status(sl_terminal_day *terminal)
{
    char text[FOOT] = "";
    int columns = 0, rows = 0;
    if (!terminal->status) {
        return;
    }
    window_size(&columns, &rows);
    const int n = lay_foot(terminal, text, columns - 1, rows);
    if (n == 0) {
        return;
    }
    text[strlen(text) - 1] = '\0';
    printf("\r\033[J%s", text);
    if (n > 1) {
        printf("\033[%dA", n - 1);
    }
    fputs("\r", stdout);
    terminal->drawn = n;
    fflush(stdout);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Keys of the day: one key does one thing, and a stop is taken from every one of its pages.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/plain_text.h"
#include "command/day/day.h"
#include "report/plan/day.h"

/* ---- undo, sound, notes, choosing
 * ---------------------------------------------------------------------------- */

static void undo(sl_terminal_day *day)
{
    const sl_event *const last = sl_bench_to_undo(day->event, day->n_events);
    if (!last) {
        sl_terminal_say(day, "%s",
                        _("Nothing to undo. A stop is never undone, nor what another program did."));
        return;
    }
    const sl_event undone = *last;
    sl_event event = {.kind = SL_EVENT_UNDONE, .swatch = undone.swatch, .at = day->now};
    memcpy(event.about, undone.id, sizeof event.about);
    event.reason = SL_REASON_UNSAID;
    if (!sl_terminal_takes(day, &event)) {
        return;
    }
    sl_terminal_keep_event(day, &event, "");
    char done[SL_DAY_WORDS / 2];
    sl_day_deed(&day->bench, undone.swatch, undone.kind, done, sizeof done);
    sl_terminal_say(day, _("Undone: %s %s."), undone.swatch >= 0 ? day->plan[undone.swatch].code : "", done);
    sl_terminal_say_due(day);
}

static void begin_day(sl_terminal_day *day)
{
    if (!day->bench.started) {
        sl_terminal_put(day, SL_EVENT_STARTED, -1);
        sl_terminal_say_due(day);
    }
}

void sl_terminal_sound_test(sl_terminal_day *day)
{
    if (!day->terminal) {
        sl_terminal_put(day, SL_EVENT_SOUND_NOT_HEARD, -1);
        sl_terminal_say(day, "%s",
                        _("This is no terminal, so there is no bell: alarms are lines alone. Read them."));
        begin_day(day);
        return;
    }
    sl_terminal_bell(day);
    day->asks_sound = true;
    sl_terminal_say(day, "%s",
                    _("Sound test: the bell has just rung. Did you hear it? y or n (b rings again)."));
}

static void sound_answer(sl_terminal_day *day, bool heard)
{
    day->asks_sound = false;
    sl_terminal_put(day, heard ? SL_EVENT_SOUND_HEARD : SL_EVENT_SOUND_NOT_HEARD, -1);
    if (!heard) {
        sl_terminal_say(
            day, "%s",
            _("Then the flashing line and the lines that begin with ALARM are the only alarm: keep "
              "them in sight, and set a kitchen timer too."));
    }
    begin_day(day);
}

static void ask_note(sl_terminal_day *day)
{
    day->typing = SL_TERMINAL_PICKS_NOTE;
    sl_terminal_say(day, "%s", _("Which note? One key; any other key leaves it."));
    for (int i = 0; i < SL_DAY_NOTES; i++) {
        sl_terminal_say_choice(day, i + 1, sl_day_remark(sl_day_note(i)));
    }
}

static void choose(sl_terminal_day *day, int swatch)
{
    char state[SL_DAY_WORDS];
    day->chosen = swatch;
    sl_day_state(&day->bench, swatch, &day->now, state, sizeof state);
    sl_terminal_say(day, _("Chosen: %s."), state);
}

static int small(int key)
{
    return key >= 'A' && key <= 'Z' ? key - 'A' + 'a' : key;
}

static bool same_code(const char *one, const char *other)
{
    while (*one != '\0' && small(*one) == small(*other)) {
        one++;
        other++;
    }
    return *one == *other;
}

/* By code, whatever its case, or by number. */
static bool choose_named(sl_terminal_day *day, const char *name)
{
    int number = 0, end = 0;
    const bool is_number = sscanf(name, "%4d%n", &number, &end) == 1 && name[end] == '\0';
    for (int i = 0; i < day->n; i++) {
        if (is_number ? number == i + 1 : same_code(name, day->plan[i].code)) {
            choose(day, i);
            return true;
        }
    }
    sl_terminal_say(day, _("No swatch is called \"%.20s\"."), name);
    return false;
}

/* ---- typing
 * ----------------------------------------------------------------------------------------------------- */

static void typed_all(sl_terminal_day *day)
{
    const sl_terminal_typing typing = day->typing;
    day->typing = SL_TERMINAL_KEYS;
    if (day->typed[0] == '\0') {
        return;
    }
    if (typing == SL_TERMINAL_TYPES_CODE) {
        choose_named(day, day->typed);
        return;
    }
    sl_error error = {.code = SL_OK};
    if (!sl_text_accept(day->typed, strlen(day->typed), SL_TEXT_LINE, &error)) {
        sl_terminal_say(day, _("Not noted: %s; %s."), _(error.found), _(error.wanted));
    } else {
        sl_terminal_put_note(day, day->chosen, SL_REMARK_NONE, day->typed);
    }
}

static void type(sl_terminal_day *day, int key)
{
    const size_t n = strlen(day->typed);
    if (key == '\r' || key == '\n') {
        typed_all(day);
    } else if (key == 27) {
        day->typing = SL_TERMINAL_KEYS;
    } else if (key == 127 || key == 8) {
        size_t last = n > 0 ? n - 1 : 0;
        while (last > 0 &&
               ((unsigned char)day->typed[last] & 0xC0U) == 0x80U) { /* a letter of several bytes */
            last--;
        }
        day->typed[last] = '\0';
    } else if (key >= ' ' && n + 1 < sizeof day->typed) {
        day->typed[n] = (char)key;
        day->typed[n + 1] = '\0';
    }
    /* As soon as no other number can be meant, Enter is not needed. */
    if (day->typing == SL_TERMINAL_TYPES_CODE && key >= '0' && key <= '9') {
        int number = 0, end = 0;
        if (sscanf(day->typed, "%4d%n", &number, &end) == 1 && day->typed[end] == '\0' &&
            number * 10 > day->n) {
            typed_all(day);
        }
    }
}

static void begin_typing(sl_terminal_day *day, sl_terminal_typing what, int first)
{
    day->typing = what;
    day->typed[0] = '\0';
    if (first != 0) {
        type(day, first);
    }
}

/* ---- keys
 * ---------------------------------------------------------------------------------------------------------
 */

static void letter(sl_terminal_day *day, int key)
{
    switch (key) {
    case 'm':
        sl_terminal_act(day, SL_EVENT_MIXED);
        return;
    case 'a':
        sl_terminal_act(day, SL_EVENT_APPLIED);
        return;
    case 'w':
        sl_terminal_act(day, SL_EVENT_LOOKED);
        return;
    case 'f':
        sl_terminal_act(day, SL_EVENT_FELT);
        return;
    case 'r':
        sl_terminal_act(day, SL_EVENT_RINSED);
        return;
    case 'o':
        sl_terminal_water_off(day);
        return;
    case 'n':
        ask_note(day);
        return;
    case 'u':
        undo(day);
        return;
    case 'l':
        sl_terminal_say_all(day);
        return;
    case 'p':
        sl_terminal_say_model(day, sl_terminal_aim(day));
        return;
    case 'd':
        sl_terminal_tell_bowls(day);
        return;
    case 'b':
        sl_terminal_sound_test(day);
        return;
    case '?':
        sl_terminal_say_help(day);
        return;
    case 'q':
    case 3: /* Ctrl-C */
    case 4: /* Ctrl-D */
        day->leave = true;
        return;
    default:
        sl_terminal_say(day, "%s", _("That key does nothing here; ? shows the keys."));
    }
}

/* Keys that are about what is asked just now; false: it is some other key. */
static bool answers(sl_terminal_day *day, int key)
{
    if (day->typing == SL_TERMINAL_PICKS_NOTE) {
        day->typing = SL_TERMINAL_KEYS;
        if (key >= '1' && key < '1' + SL_DAY_NOTES) {
            sl_terminal_put_note(day, sl_terminal_aim(day), sl_day_note(key - '1'), "");
        }
        return true;
    }
    if (day->typing == SL_TERMINAL_PICKS_TOLD) {
        day->typing = SL_TERMINAL_KEYS;
        if (key >= '1' && key < '1' + SL_DAY_TOLD) {
            sl_terminal_was_told(day, key - '1');
            return true;
        } /* any other key is not held up by the question */
    }
    if (day->asks_reason && key >= '1' && key < '1' + SL_DAY_REASONS) {
        sl_terminal_give_reason(day, key - '1');
        return true;
    }
    if (day->asks_sound && (key == 'y' || key == 'n')) {
        sound_answer(day, key == 'y');
        return true;
    }
    return false;
}

void sl_terminal_key(sl_terminal_day *day, int key)
{
    const bool typing = day->typing == SL_TERMINAL_TYPES_CODE || day->typing == SL_TERMINAL_TYPES_NOTE;
    if (key == '\t' || (!typing && (key == ' ' || key == 's' || key == 'S'))) {
        sl_terminal_stop_now(day, -1);
        return;
    }
    if (typing) {
        type(day, key);
        return;
    }
    if (answers(day, key)) {
        return;
    }
    const int low = small(key);
    if (low == 'x') {
        const int aim = sl_terminal_aim(day);
        sl_terminal_stop_now(day, aim);
    } else if (key >= '0' && key <= '9') {
        begin_typing(day, SL_TERMINAL_TYPES_CODE, key);
    } else if (low == 'c' || low == 't') {
        begin_typing(day, low == 'c' ? SL_TERMINAL_TYPES_CODE : SL_TERMINAL_TYPES_NOTE, 0);
    } else if (key == '\r' || key == '\n') {
        day->chosen = -1;
        sl_terminal_say_due(day);
    } else {
        letter(day, low);
    }
}

/* "a", "a EK9", "EK9", "12", "t words of a note", "" for what is next; "stop" stops. */
void sl_terminal_line(sl_terminal_day *day, const char *line)
{
    char key[8] = "";
    int end = 0;
    if (line[0] == ' ' || sscanf(line, "%7s %n", key, &end) < 1) {
        sl_terminal_key(day, line[0] == ' ' ? ' ' : '\r');
        return;
    }
    const char *const rest = line + end;
    if (strcmp(key, "stop") == 0 || strcmp(key, "STOP") == 0) {
        sl_terminal_stop_now(day, -1);
    } else if (key[1] != '\0' ||
               (key[0] >= '0' && key[0] <= '9' && !day->asks_reason &&
                day->typing != SL_TERMINAL_PICKS_NOTE && day->typing != SL_TERMINAL_PICKS_TOLD)) {
        choose_named(day, key);
    } else if (key[0] == 't') {
        sl_terminal_put_note(day, day->chosen, SL_REMARK_NONE, rest);
    } else if (rest[0] == '\0' || choose_named(day, rest)) {
        sl_terminal_key(day, key[0] == 'c' ? '\r' : key[0]);
    }
}

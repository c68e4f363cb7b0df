/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which key does what, by the rows of acts.c; and what is typed letter by letter.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/plain_text.h"
#include "day/deeds.h"

/* ---- names of swatches ------------------------------------------------------------------------------ */

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

/* 0: it is no number. */
static int number_of(const char *text)
{
    int number = 0, end = 0;
    return sscanf(text, "%4d%n", &number, &end) == 1 && text[end] == '\0' ? number : 0;
}

bool sl_day_choose_named(sl_day *day, const char *name, sl_day_effects *effects)
{
    const int number = number_of(name);
    for (int i = 0; i < day->n; i++) {
        if (number > 0 ? number == i + 1 : same_code(name, day->plan[i].code)) {
            sl_day_choose(day, i, effects);
            return true;
        }
    }
    sl_effect_tell(effects, SL_DAY_REFUSE, _("No swatch is called \"%.20s\"."), name);
    return false;
}

static void note_in_words(sl_day *day, const char *words, sl_day_effects *effects)
{
    sl_error error = {.code = SL_OK};
    if (!sl_text_accept(words, strlen(words), SL_TEXT_LINE, &error)) {
        sl_effect_tell(effects, SL_DAY_REFUSE, _("Not noted: %s; %s."), _(error.found), _(error.wanted));
    } else {
        sl_day_put_note(day, SL_REMARK_NONE, words, effects);
    }
}

/* ---- typing ----------------------------------------------------------------------------------------- */

static void begin_typing(sl_day *day, sl_day_typing what)
{
    day->typing = what;
    day->typed[0] = '\0';
    day->is_sure = false;
}

static void end_typing(sl_day *day, sl_day_effects *effects)
{
    const sl_day_typing typing = day->typing;
    day->typing = SL_TYPES_NOTHING;
    if (typing == SL_TYPES_MEASURE) {
        sl_day_put_measured(day, effects);
        return;
    }
    if (day->typed[0] == '\0') {
        return;
    }
    if (typing == SL_TYPES_NOTE) {
        note_in_words(day, day->typed, effects);
    } else {
        sl_day_choose_named(day, day->typed, effects);
    }
}

static void take_back(char *typed)
{
    size_t last = strlen(typed);
    last -= last > 0 ? 1 : 0;
    while (last > 0 && ((unsigned char)typed[last] & 0xC0U) == 0x80U) { /* a letter of several bytes */
        last--;
    }
    typed[last] = '\0';
}

static void add_typed(sl_day *day, int key)
{
    const size_t n = strlen(day->typed);
    if (key >= ' ' && key < SL_KEY_UP && key != 127 && n + 1 < sizeof day->typed) {
        day->typed[n] = (char)key;
        day->typed[n + 1] = '\0';
    }
}

static bool is_digit(int key)
{
    return key >= '0' && key <= '9';
}

/* False: the key is not about what is typed. */
static bool types(sl_day *day, int key, sl_day_effects *effects)
{
    if (day->typing == SL_TYPES_NOTHING || key == SL_KEY_TAB || key == SL_KEY_LEAVE) {
        return false;
    }
    if (key == SL_KEY_ENTER || key == '\n') {
        end_typing(day, effects);
    } else if (key == SL_KEY_ESCAPE) {
        day->typing = SL_TYPES_NOTHING;
    } else if (key == SL_KEY_BACKSPACE || key == 127) {
        take_back(day->typed);
    } else if (day->typing == SL_TYPES_NUMBER && !is_digit(key)) {
        end_typing(day, effects);
        return false;
    } else if (day->typing == SL_TYPES_MEASURE && !is_digit(key) && key != '.' && key != ',') {
        day->typing = SL_TYPES_NOTHING;
        return false;
    } else {
        add_typed(day, key);
    }
    /* As soon as no other number can be meant, Enter is not needed. */
    if (day->typing == SL_TYPES_NUMBER && number_of(day->typed) * 10 > day->n) {
        end_typing(day, effects);
    }
    return true;
}

/* ---- acts ------------------------------------------------------------------------------------------- */

static void answer(sl_day *day, int number, sl_day_effects *effects)
{
    if (day->page == SL_DAY_BOWLS) {
        sl_day_was_told(day, number, effects);
    } else if (day->page == SL_DAY_STOPPED) {
        sl_day_give_reason(day, number, effects);
    } else if (day->page == SL_DAY_END_PAGE) {
        sl_day_tick(day, number, effects);
    } else if (day->page == SL_DAY_NOTE_PAGE && number >= 0 && number < SL_DAY_NOTES) {
        day->page = SL_DAY_BENCH;
        sl_day_put_note(day, sl_day_note(number), "", effects);
    }
}

/* From the bowls back to the water. */
static void close_page(sl_day *day, sl_day_effects *effects)
{
    day->page = day->page == SL_DAY_BOWLS && day->bench.stopping ? SL_DAY_STOPPED : SL_DAY_BENCH;
    sl_effect_show(effects, SL_DAY_NEXT, -1);
}

static void leave(sl_day *day, sl_day_effects *effects)
{
    if ((sl_day_on_hair(day) || day->waiting > 0) && sl_day_asks_again(day, SL_ACT_LEAVE)) {
        sl_effect_tell(effects, SL_DAY_REFUSE, "%s",
                       day->waiting > 0
                           ? _("Something is not written yet. The same key again leaves and prints it.")
                           : _("Mix is on the hair. The same key again leaves; time goes on, and so does the "
                               "log."));
        return;
    }
    sl_effect_leave(effects);
}

static void go(sl_day *day, sl_day_effects *effects)
{
    if (day->page == SL_DAY_SOUND_TEST) {
        sl_effect_sound(effects, SL_DAY_LATE_BEEPS, false);
    } else if (day->page != SL_DAY_BENCH) {
        close_page(day, effects);
    } else {
        sl_day_choose_next(day);
        sl_effect_show(effects, SL_DAY_NEXT, -1);
    }
}

static void cover(sl_day *day, sl_day_effects *effects)
{
    day->covered = !day->covered;
    sl_effect_tell(effects, SL_DAY_SAY, "%s",
                   day->covered ? _("The strips' names are covered; B shows them.")
                                : _("The strips' names are shown; what the model says is covered until the "
                                    "grade is in the log."));
}

/* What is only shown, or asked on a page of its own; false: something else. */
static bool do_show(sl_day *day, sl_day_act act, sl_day_effects *effects)
{
    static const struct {
        sl_day_act act;
        sl_day_view view;
        bool is_page;
    } views[] = {{SL_ACT_NOTE, SL_DAY_NOTE_PAGE, true},    {SL_ACT_END, SL_DAY_END_PAGE, true},
                 {SL_ACT_STOP_PAGE, SL_DAY_STOPPED, true}, {SL_ACT_CAUTIONS, SL_DAY_CAUTIONS, false},
                 {SL_ACT_HELP, SL_DAY_HELP, false},        {SL_ACT_LIST, SL_DAY_LIST, false},
                 {SL_ACT_MODEL, SL_DAY_MODEL, false},      {SL_ACT_WENT, SL_DAY_WENT, false}};
    for (size_t i = 0; i < sizeof views / sizeof views[0]; i++) {
        if (views[i].act == act) {
            if (act == SL_ACT_MODEL && !sl_day_shown(day, day->chosen)) {
                sl_event shown = {.kind = SL_EVENT_NOTED, .swatch = day->chosen, .remark = SL_REMARK_SHOWN};
                sl_day_keep(day, &shown, "", effects);
            }
            if (views[i].is_page) {
                day->page = views[i].view;
            }
            sl_effect_show(effects, (int)views[i].view, day->chosen);
            return true;
        }
    }
    return false;
}

/* Which swatch is meant. */
static void do_choose(sl_day *day, sl_day_act act, int number, sl_day_effects *effects)
{
    if (act == SL_ACT_BACK || act == SL_ACT_ON) {
        sl_day_choose(day, day->chosen + (act == SL_ACT_ON ? 1 : -1), effects);
    } else if (act == SL_ACT_ROW) {
        sl_day_choose(day, number, effects);
    } else if (act == SL_ACT_CODE || act == SL_ACT_WORDS) {
        begin_typing(day, act == SL_ACT_CODE ? SL_TYPES_CODE : SL_TYPES_NOTE);
    }
}

static void start(sl_day *day, sl_day_effects *effects)
{
    sl_day_start(day, effects);
    sl_day_choose_next(day);
    sl_effect_show(effects, SL_DAY_NEXT, -1);
}

static void leftover(sl_day *day, sl_day_effects *effects)
{
    sl_day_put_note(day, sl_bench_leftover(&day->bench, day->chosen), "", effects);
    sl_day_choose_next(day);
    sl_effect_show(effects, SL_DAY_NEXT, -1);
}

/* What needs no number; false: something else. */
static bool do_plain(sl_day *day, sl_day_act act, sl_day_effects *effects)
{
    static void (*const does[SL_ACT_NONE])(sl_day *, sl_day_effects *) = {[SL_ACT_START] = start,
                                                                          [SL_ACT_ASK_STOP] = sl_day_ask_stop,
                                                                          [SL_ACT_UNDO] = sl_day_undo,
                                                                          [SL_ACT_GO] = go,
                                                                          [SL_ACT_CLOSE] = close_page,
                                                                          [SL_ACT_SOUND] = sl_day_test_sound,
                                                                          [SL_ACT_WATER] = sl_day_water_off,
                                                                          [SL_ACT_BOWLS] = sl_day_tell_bowls,
                                                                          [SL_ACT_COVER] = cover,
                                                                          [SL_ACT_LEAVE] = leave,
                                                                          [SL_ACT_LEFTOVER] = leftover,
                                                                          [SL_ACT_CLEAN] = sl_day_say_clean};
    if (!does[act]) {
        return false;
    }
    does[act](day, effects);
    return true;
}

void sl_day_do(sl_day *day, sl_day_act act, int number, sl_day_effects *effects)
{
    act = act == SL_ACT_GO && day->page == SL_DAY_STOPPED ? SL_ACT_WATER : act;
    day->is_sure = day->is_sure && day->sure == act;
    const char *const why_not = act > SL_ACT_RINSED ? sl_day_why_not(day, act) : NULL;
    if (why_not) {
        sl_effect_tell(effects, SL_DAY_REFUSE, "%s", why_not);
    } else if (act <= SL_ACT_RINSED) {
        sl_day_do_deed(day, act, effects);
    } else if (act == SL_ACT_STOP_ALL || act == SL_ACT_STOP_ONE) {
        sl_day_stop(day, act == SL_ACT_STOP_ALL ? -1 : day->chosen, effects);
    } else if (act == SL_ACT_CHOICE) {
        answer(day, number, effects);
    } else if (act == SL_ACT_HEARD || act == SL_ACT_NOT_HEARD) {
        sl_day_heard(day, act == SL_ACT_HEARD, effects);
    } else if (!do_plain(day, act, effects) && !do_show(day, act, effects)) {
        do_choose(day, act, number, effects);
    }
}

/* ---- keys ------------------------------------------------------------------------------------------- */

static void refuse_key(const sl_day *day, sl_day_effects *effects)
{
    sl_effect_tell(effects, SL_DAY_REFUSE, "%s",
                   day->page == SL_DAY_SOUND_TEST ? _("Was the sound heard? y or n; v sounds again.")
                   : day->page == SL_DAY_BENCH
                       ? _("That key does nothing here; ? shows the keys.")
                       : _("That key does nothing here: a number, or Esc for the bench."));
}

static void take_with_words(sl_day *day, int key, const char *typed, sl_day_effects *effects)
{
    if (key == 't') {
        note_in_words(day, typed, effects);
    } else if (sl_day_choose_named(day, typed, effects) && key != 'c') {
        sl_day_take(day, key, NULL, effects);
    }
}

void sl_day_take(sl_day *day, int key, const char *typed, sl_day_effects *effects)
{
    key = day->typing == SL_TYPES_NOTE || day->typing == SL_TYPES_CODE ? key : small(key);
    if (typed && typed[0] != '\0') {
        take_with_words(day, key, typed, effects);
        return;
    }
    if (types(day, key, effects)) {
        return;
    }
    if (key == SL_KEY_TAB) {
        sl_day_do(day, SL_ACT_STOP_ALL, 0, effects);
    } else if (is_digit(key) && day->page == SL_DAY_BENCH) {
        begin_typing(day, SL_TYPES_NUMBER);
        types(day, key, effects);
    } else if (is_digit(key) && day->page != SL_DAY_SOUND_TEST) {
        sl_day_do(day, SL_ACT_CHOICE, key - '1', effects);
    } else {
        const sl_day_act act = sl_day_act_of(key, day->page, day->medium);
        if (act == SL_ACT_NONE) {
            day->is_sure = false;
            refuse_key(day, effects);
        } else {
            sl_day_do(day, act, 0, effects);
        }
    }
}

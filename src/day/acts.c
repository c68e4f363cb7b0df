/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See acts.h.
 */
#include "day/acts.h"

#include <stddef.h>

#include "base/language.h"
#include "day/day.h"

#define ON(page) (1U << SL_DAY_##page)

enum {
    EVERYWHERE = 0xFFFF,
    WATER = ON(BENCH) | ON(STOPPED) | ON(BOWLS),
};

/* ---- what is possible ------------------------------------------------------------------------------- */

static const char *no_deed(const sl_day *day, sl_event_kind kind)
{
    const sl_event next = {.kind = kind, .swatch = day->chosen};
    const sl_swatch_stage stage = day->bench.state[day->chosen].stage;
    if (sl_bench_takes(&day->bench, NULL, &next)) {
        return NULL;
    }
    return day->plan[day->chosen].contact_s < 0 ? _("nothing is put on it")
           : stage == SL_STAGE_WAITING          ? _("no mix is on it yet")
           : stage == SL_STAGE_ON_HAIR          ? _("its mix is on the hair already")
                                                : _("it is rinsed already");
}

static const char *not_mixed(const sl_day *day)
{
    return no_deed(day, SL_EVENT_MIXED);
}

static const char *not_applied(const sl_day *day)
{
    return no_deed(day, SL_EVENT_APPLIED);
}

static const char *not_on_hair(const sl_day *day)
{
    return no_deed(day, SL_EVENT_RINSED);
}

static const char *begun(const sl_day *day)
{
    return day->bench.started ? _("The day has begun already.") : NULL;
}

static const char *nothing_done(const sl_day *day)
{
    return sl_bench_to_undo(day->event, day->n_events)
               ? NULL
               : _("Nothing to undo. A stop is never undone, nor what another program did.");
}

static const char *no_leftover(const sl_day *day)
{
    return sl_bench_leftover(&day->bench, day->chosen) != SL_REMARK_NONE
               ? NULL
               : _("No leftover of this one waits.");
}

static const char *not_doubted(const sl_day *day)
{
    return day->bench.state[day->chosen].doubted ? NULL : _("No contact of this one was undone.");
}

static const char *not_at_its_end(const sl_day *day)
{
    return !day->bench.started   ? _("The day has not begun: G begins it.")
           : sl_day_on_hair(day) ? _("Mix is still on the hair.")
                                 : NULL;
}

static const char *no_water(const sl_day *day)
{
    return day->bench.stopping ? NULL : _("No water runs after a stop.");
}

static const char *no_stop(const sl_day *day)
{
    return sl_day_last_stop(day->event, day->n_events) ? NULL : _("Nothing was stopped yet.");
}

static const char *blind_for_good(const sl_day *day)
{
    return day->blind ? _("This day was opened blind; it stays so.") : NULL;
}

static const char *covered(const sl_day *day)
{
    return sl_day_blind(day)                   ? _("This day is judged blind: the model is covered.")
           : sl_day_may_show(day, day->chosen) ? NULL
                                               : sl_day_cover_words();
}

/* ---- the rows --------------------------------------------------------------------------------------- */

/* In the order of the page of keys. */
const sl_day_act_row sl_day_acts[SL_DAY_ACT_ROWS] = {
    {SL_ACT_STOP_ALL, .key = {'s'}, .pages = EVERYWHERE, .keys = "S", .label = N_("STOP AND RINSE all"),
     .help = N_(
         "STOP AND RINSE all that is on hair: kept first, asked afterwards, never undone. Tab too, while you "
         "type")},
    {SL_ACT_STOP_ONE, .key = {'x'}, .pages = EVERYWHERE, .keys = "X",
     .help = N_("STOP AND RINSE the chosen swatch alone")},
    {SL_ACT_ASK_STOP, .key = {' '}, .pages = EVERYWHERE, .keys = N_("Space"),
     .help = N_("asks whether to STOP AND RINSE all; again within ten seconds it does")},
    {SL_ACT_START, .key = {'g'}, .keys = "G", .label = N_("Begin the day"), .brief = N_("begin"),
     .help = N_("the day begins: its clock runs"), .why_not = begun},
    {SL_ACT_MIXED, .key = {'m'}, .keys = "M", .label = N_("Mixed"), .brief = N_("mixed"),
     .help = N_("its bowl is mixed"), .why_not = not_mixed},
    {SL_ACT_APPLIED, .key = {'a'}, .keys = "A", .label = N_("Applied"), .brief = N_("applied"),
     .help = N_("applied: the mix touches the hair now, its clock begins"), .why_not = not_applied},
    {SL_ACT_LOOKED, .key = {'w'}, .keys = "W", .label = N_("Wiped, looked"), .brief = N_("looked"),
     .help = N_("wiped and looked; on a time ladder: the piece was cut off and rinsed"),
     .why_not = not_on_hair},
    {SL_ACT_FELT, .key = {'f'}, .keys = "F", .label = N_("Skin, stretch"), .brief = N_("felt"),
     .help = N_("felt: skin, heat, and one hair stretched; after 2 minutes, then at most 5 apart"),
     .why_not = not_on_hair},
    {SL_ACT_RINSED, .key = {'r'}, .keys = "R", .label = N_("Rinsed"), .brief = N_("rinsed"),
     .help = N_("rinsed: first water"), .why_not = not_on_hair},
    {SL_ACT_LEFTOVER, .key = {'e'}, .keys = "E", .label = N_("Leftover"), .brief = N_("leftover"),
     .help = N_("its leftover: left open, no lid; later, once it is quiet, emptied"), .why_not = no_leftover},
    {SL_ACT_END, .key = {'z'}, .keys = "Z", .label = N_("End of day"), .brief = N_("end"),
     .help = N_("the end of the day: five ticks, kept"), .why_not = not_at_its_end},
    {SL_ACT_NOTE, .key = {'n'}, .keys = "N", .label = N_("Note"), .brief = N_("note"),
     .help = N_("a note, by one more key")},
    {SL_ACT_WORDS, .key = {'t'}, .media = SL_ON_TERMINAL, .keys = "T",
     .help = N_("a note in your own words, Enter ends it")},
    {SL_ACT_UNDO, .key = {'u'}, .keys = "U", .label = N_("Undo"), .brief = N_("undo"),
     .help = N_("undo the last of these; it stays in the log as undone, and a stop cannot be"),
     .why_not = nothing_done},
    {SL_ACT_CLEAN, .key = {'y'}, .keys = "Y", .label = N_("Hair clean"), .brief = N_("clean"),
     .help = N_("the hair is clean: of a contact that was undone, whose clock runs until then"),
     .why_not = not_doubted},
    {SL_ACT_GO, .key = {SL_KEY_ENTER, '\n'}, .pages = EVERYWHERE, .keys = N_("Enter"),
     .help = N_("the swatch of what is next")},
    {SL_ACT_BACK, .key = {SL_KEY_UP, SL_KEY_LEFT}, .keys = "↑ ↓", .label = N_("Swatch ▲"), .brief = "▲",
     .help = N_("another swatch; the choice moves only after a key")},
    {SL_ACT_ON, .key = {SL_KEY_DOWN, SL_KEY_RIGHT}, .label = N_("Swatch ▼"), .brief = "▼"},
    {SL_ACT_ROW, .keys = "1 2 3", .help = N_("a swatch by its number")},
    {SL_ACT_CODE, .key = {'c'}, .media = SL_ON_TERMINAL, .keys = "C", .help = N_("a swatch by its code")},
    {SL_ACT_WATER, .key = {'o'}, .pages = WATER, .keys = "O", .label = N_("The water is off"),
     .brief = N_("water off"), .help = N_("water off, after a stop"), .why_not = no_water},
    {SL_ACT_BOWLS, .key = {'i'}, .pages = ON(BENCH) | ON(STOPPED), .keys = "I",
     .label = N_("What was in the bowl"),
     .help = N_("for a doctor, after a stop: what was in the bowl, and who was told"), .why_not = no_stop},
    {SL_ACT_STOP_PAGE, .media = SL_IN_WINDOW, .why_not = no_water},
    {SL_ACT_COVER, .key = {'b'}, .keys = "B", .help = N_("cover the strips' names from whoever judges blind"),
     .why_not = blind_for_good},
    {SL_ACT_LIST, .key = {'l'}, .pages = WATER, .media = SL_ON_TERMINAL, .keys = "L",
     .help = N_("every swatch")},
    {SL_ACT_MODEL, .key = {'p'}, .pages = WATER, .keys = "P",
     .help =
         N_("what the model says of the chosen one, once its grade is in the log, which keeps that it was "
            "shown"),
     .why_not = covered},
    {SL_ACT_WENT, .key = {'j'}, .keys = "J",
     .help = N_("how the day went so far: late, early, unequal; what was weighed, how warm the room was")},
    {SL_ACT_SOUND, .key = {'v'}, .pages = ON(BENCH) | ON(SOUND_TEST), .keys = "V", .label = N_("Beep again"),
     .help = N_("test the sound")},
    {SL_ACT_HEARD, .key = {'y'}, .pages = ON(SOUND_TEST), .keys = "Y", .label = N_("Heard")},
    {SL_ACT_NOT_HEARD, .key = {'n'}, .pages = ON(SOUND_TEST), .keys = "N", .label = N_("Not heard")},
    {SL_ACT_CHOICE, .pages = ON(STOPPED) | ON(BOWLS) | ON(END_PAGE) | ON(NOTE_PAGE)},
    {SL_ACT_CLOSE, .key = {SL_KEY_ESCAPE}, .pages = ON(STOPPED) | ON(BOWLS) | ON(END_PAGE) | ON(NOTE_PAGE),
     .keys = "Esc", .label = N_("Back"), .brief = N_("bench"),
     .help = N_("back to the bench; after a stop with the water on")},
    {SL_ACT_CAUTIONS, .key = {'k'}, .pages = WATER, .keys = "K", .help = N_("all cautions")},
    {SL_ACT_HELP, .key = {'h', SL_KEY_F1}, .pages = WATER, .keys = N_("H ?"), .brief = N_("keys"),
     .help = N_("this page")},
    {SL_ACT_HELP, .key = {'?'}, .pages = EVERYWHERE},
    {SL_ACT_LEAVE, .key = {SL_KEY_LEAVE}, .pages = EVERYWHERE, .media = SL_IN_WINDOW, .keys = "Ctrl Q",
     .help = N_("leave; time goes on in the log, and the day is taken up again from it")},
    {SL_ACT_LEAVE, .key = {'q', SL_KEY_LEAVE}, .pages = EVERYWHERE, .media = SL_ON_TERMINAL, .keys = "Q",
     .brief = N_("leave"),
     .help = N_("leave; time goes on in the log, and the day is taken up again from it")},
};

bool sl_day_act_on(const sl_day_act_row *row, sl_day_view page, sl_medium medium)
{
    const unsigned pages = row->pages != 0 ? row->pages : ON(BENCH);
    return (pages & (1U << page)) != 0 && (row->media == 0 || row->media == (unsigned)medium);
}

sl_day_act sl_day_act_of(int key, sl_day_view page, sl_medium medium)
{
    for (int i = 0; i < SL_DAY_ACT_ROWS; i++) {
        const sl_day_act_row *const row = &sl_day_acts[i];
        if (key > 0 && (row->key[0] == key || row->key[1] == key) && sl_day_act_on(row, page, medium)) {
            return row->act;
        }
    }
    return SL_ACT_NONE;
}

const sl_day_act_row *sl_day_act_row_of(sl_day_act act)
{
    int i = 0;
    while (i < SL_DAY_ACT_ROWS - 1 && sl_day_acts[i].act != act) {
        i++;
    }
    return &sl_day_acts[i];
}

const char *sl_day_why_not(const sl_day *day, sl_day_act act)
{
    const sl_day_act_row *const row = sl_day_act_row_of(act);
    return row->act == act && row->why_not ? row->why_not(day) : NULL;
}

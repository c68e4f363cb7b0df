/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Answers of the form and what keys do to them.
 */
#include "view/form.h"

#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/minute.h"

static const int MOST_AGE = 120, MOST_MIN = 240;

bool sl_form_is_number(int row)
{
    return row == SL_FORM_AGE || row == SL_FORM_LABEL || row == SL_FORM_STRAND_MIN;
}

const char *sl_form_words(int row)
{
    switch (row) {
    case SL_FORM_AGE:
        return sl_intake_words(SL_INTAKE_AGE);
    case SL_FORM_LABEL:
        return sl_intake_words(SL_INTAKE_LABEL);
    case SL_FORM_LIGHTENED:
        return sl_intake_words(SL_INTAKE_LIGHTENED);
    case SL_FORM_STRAND_MIN:
        return _("minute at which that strand was looked at");
    case SL_FORM_STRAND_WIPE:
        return _("what the strand showed then, all its colours together");
    default:
        return sl_intake_words(row);
    }
}

static int number_of(const sl_stage *stage, int row)
{
    return row == SL_FORM_AGE     ? stage->person.age_years
           : row == SL_FORM_LABEL ? (int)stage->person.label_min
                                  : stage->strand_min;
}

void sl_form_put(const sl_stage *stage, int row, char *text, size_t size)
{
    static const char *const replies[SL_REPLIES] = {[SL_REPLY_NONE] = "–",
                                                    [SL_REPLY_NO] = "no",
                                                    [SL_REPLY_YES] = N_("yes"),
                                                    [SL_REPLY_UNSURE] = N_("unsure")};
    if (sl_form_is_number(row)) {
        const int number = number_of(stage, row);
        if (number > 0 && row != SL_FORM_AGE) {
            sl_minute_words(SL_MINUTE_PLANNED, text, size, _("%d min"), number);
            return;
        }
        snprintf(text, size, number <= 0 ? "–" : _("%d years"), number);
    } else if (row == SL_FORM_STRAND_WIPE) {
        snprintf(text, size, "%s",
                 stage->strand_wipe > 0 ? _(sl_wipe_word((sl_wipe)(stage->strand_wipe - 1))) : "–");
    } else {
        const sl_reply reply = row == SL_FORM_LIGHTENED ? stage->person.lightened : stage->person.reply[row];
        snprintf(text, size, "%s", replies[reply]);
    }
}

/* The strand is of the mix on the strip that is chosen when it is entered. */
static void settle(sl_stage *stage)
{
    sl_saws *showed = &stage->person.showed;
    memset(showed, 0, sizeof *showed);
    if (stage->strand_min > 0 && stage->strand_wipe > 0) {
        showed->n = 1;
        showed->saw[0].arm = stage->arm;
        showed->saw[0].zone = SL_SAW_ALL_ZONES;
        showed->saw[0].minute = stage->strand_min;
        showed->saw[0].wipe = (sl_wipe)(stage->strand_wipe - 1);
        showed->saw[0].strand = true;
    }
    stage->of_person = true;
    stage->dirty = true;
}

static void set_number(sl_stage *stage, int row, int number)
{
    const int kept = SDL_clamp(number, 0, row == SL_FORM_AGE ? MOST_AGE : MOST_MIN);
    if (row == SL_FORM_AGE) {
        stage->person.age_years = kept;
    } else if (row == SL_FORM_LABEL) {
        stage->person.label_min = kept;
    } else {
        stage->strand_min = kept;
    }
}

void sl_form_turn(sl_stage *stage, int row, int by)
{
    if (sl_form_is_number(row)) {
        set_number(stage, row, number_of(stage, row) + by);
    } else if (row == SL_FORM_STRAND_WIPE) {
        stage->strand_wipe = (stage->strand_wipe + by + SL_WIPES + 1) % (SL_WIPES + 1);
    } else {
        sl_reply *reply = row == SL_FORM_LIGHTENED ? &stage->person.lightened : &stage->person.reply[row];
        *reply = (sl_reply)(((int)*reply + by + SL_REPLIES) % SL_REPLIES);
    }
    settle(stage);
}

void sl_form_type(sl_stage *stage, int row, int figure)
{
    if (!sl_form_is_number(row)) {
        return;
    }
    const int now = number_of(stage, row);
    set_number(stage, row, figure < 0 ? now / 10 : 10 * now + figure);
    settle(stage);
}

void sl_form_clear(sl_stage *stage)
{
    memset(&stage->person, 0, sizeof stage->person);
    stage->strand_min = stage->strand_wipe = 0;
    stage->of_person = false;
    stage->dirty = true;
}

/* ---- keys ---------------------------------------------------------------------------------- */

static void choose_row(sl_stage *stage, int row)
{
    stage->form_row = SDL_clamp(row, 0, SL_FORM_ROWS - 1);
    stage->form_follow = true;
    stage->dirty = true;
}

void sl_stage_take_key_form(sl_stage *stage, SDL_Keycode key)
{
    switch (key) {
    case SDLK_UP:
    case SDLK_DOWN:
        choose_row(stage, stage->form_row + (key == SDLK_DOWN ? 1 : -1));
        break;
    case SDLK_HOME:
        choose_row(stage, 0);
        break;
    case SDLK_END:
        choose_row(stage, SL_FORM_ROWS - 1);
        break;
    case SDLK_LEFT:
    case SDLK_MINUS:
        sl_form_turn(stage, stage->form_row, -1);
        break;
    case SDLK_RIGHT:
    case SDLK_PLUS:
    case SDLK_EQUALS:
    case SDLK_SPACE:
        sl_form_turn(stage, stage->form_row, 1);
        break;
    case SDLK_BACKSPACE:
        sl_form_type(stage, stage->form_row, -1);
        break;
    case SDLK_DELETE:
        sl_form_clear(stage);
        break;
    case SDLK_ESCAPE:
        sl_stage_press(stage, (sl_spot){.kind = SL_SPOT_CLOSE});
        break;
    default:
        if (key >= SDLK_0 && key <= SDLK_9) {
            sl_form_type(stage, stage->form_row, (int)(key - SDLK_0));
        }
        break;
    }
}

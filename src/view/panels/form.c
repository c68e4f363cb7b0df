/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Answers of the form and what keys do to them.
 */
#include "view/panels/form.h"

#include <stdio.h>
#include <string.h>

#include "base/calendar.h"
#include "base/language.h"
#include "base/minute.h"
#include "slowlift/part.h"

static const int MOST_AGE = 120;

/* The last rows are asked in the window alone. */
static sl_ask ask_of(int row)
{
    return row < SL_INTAKE_SHOWED ? sl_intake_ask_of(row) : SL_ASK_MINUTES;
}

static bool is_number(int row)
{
    const bool of_strand = row == SL_FORM_STRAND_MIN;
    return of_strand ||
           (row < SL_INTAKE_SHOWED && (ask_of(row) == SL_ASK_YEARS || ask_of(row) == SL_ASK_MINUTES));
}

const char *sl_form_words(int row)
{
    switch (row) {
    case SL_FORM_LOGGED:
        return _("strand of the log (person and swatch)");
    case SL_FORM_STRAND_MIN:
        return _("minute at which that strand was looked at");
    case SL_FORM_STRAND_WIPE:
        return _("what the strand showed then, all its colours together");
    case SL_FORM_PRACTICE:
        return _("a person made up for a class");
    default:
        return _(sl_intake_words(row));
    }
}

static int number_of(const sl_stage *stage, int row)
{
    return row == SL_INTAKE_AGE     ? stage->entered.person.age_years
           : row == SL_INTAKE_LABEL ? (int)stage->entered.person.label_min
                                    : stage->entered.strand_min;
}

static sl_reply *reply_of(sl_intake *person, int row)
{
    return row == SL_INTAKE_LIGHTENED ? &person->lightened : &person->reply[row];
}

static char *code_of(sl_intake *person, int row)
{
    return row == SL_INTAKE_PERSON ? person->person : person->qualified;
}

static void put_reply(const sl_stage *stage, int row, char *text, size_t size)
{
    static const char *const replies[SL_REPLIES] = {[SL_REPLY_NONE] = "–",
                                                    [SL_REPLY_NO] = N_("no"),
                                                    [SL_REPLY_YES] = N_("yes"),
                                                    [SL_REPLY_UNSURE] = N_("unsure")};
    snprintf(text, size, "%s", _(replies[sl_form_replied(stage, row)]));
}

static void put_day(int day, char *text, size_t size)
{
    char words[SL_DAY_TEXT];
    sl_day_words(day, words);
    snprintf(text, size, "%s", words);
}

void sl_form_put(const sl_stage *stage, int row, char *text, size_t size)
{
    const sl_intake *const person = &stage->entered.person;
    snprintf(text, size, "–");
    if (row == SL_FORM_LOGGED) {
        if (stage->entered.strand > 0) {
            const sl_strand_record *const record = &stage->logs.strands[stage->entered.strand - 1];
            snprintf(text, size, "%s %s", record->person[0] != '\0' ? record->person : "?", record->code);
        }
    } else if (row == SL_FORM_PRACTICE) {
        snprintf(text, size, "%s", person->practice ? _("yes") : "–");
    } else if (row == SL_FORM_STRAND_WIPE) {
        if (stage->entered.strand_wipe > 0) {
            snprintf(text, size, "%s", _(sl_wipe_word((sl_wipe)(stage->entered.strand_wipe - 1))));
        }
    } else if (is_number(row)) {
        if (number_of(stage, row) > 0) {
            if (row == SL_INTAKE_AGE) {
                snprintf(text, size, _("%d years"), number_of(stage, row));
            } else {
                sl_minute_words(SL_MINUTE_PLANNED, text, size, _("%d min"), number_of(stage, row));
            }
        }
    } else if (ask_of(row) == SL_ASK_CODE) {
        const char *const code = row == SL_INTAKE_PERSON ? person->person : person->qualified;
        snprintf(text, size, "%s", code[0] != '\0' ? code : "–");
    } else if (ask_of(row) == SL_ASK_PART) {
        const char *const word = sl_hair_part_word(person->part);
        snprintf(text, size, "%s", word ? _(word) : "–");
    } else if (ask_of(row) == SL_ASK_DAY) {
        if (person->packet_day > 0) {
            put_day(person->packet_day, text, size);
        }
    } else {
        put_reply(stage, row, text, size);
    }
}

/* What the log's strand showed inside the label's time, and whose it is. */
static void settle_logged(sl_stage *stage, const sl_strand_record *record)
{
    sl_observations *showed = &stage->entered.person.showed;
    for (int i = 0; i < record->showed.n; i++) {
        if (record->showed.observation[i].minute <= stage->entered.person.label_min) {
            showed->observation[showed->n] = record->showed.observation[i];
            showed->observation[showed->n++].arm = stage->chosen.arm;
        }
    }
    memcpy(stage->entered.person.person, record->person, sizeof stage->entered.person.person);
}

/* A strand that is typed is of the mix on the strip that is chosen when it is entered. */
static void settle(sl_stage *stage)
{
    sl_observations *showed = &stage->entered.person.showed;
    memset(showed, 0, sizeof *showed);
    if (stage->entered.strand > 0) {
        settle_logged(stage, &stage->logs.strands[stage->entered.strand - 1]);
    } else if (stage->entered.strand_min > 0 && stage->entered.strand_wipe > 0) {
        showed->n = 1;
        showed->observation[0].arm = stage->chosen.arm;
        showed->observation[0].zone = SL_OBSERVED_ALL_ZONES;
        showed->observation[0].minute = stage->entered.strand_min;
        showed->observation[0].wipe = (sl_wipe)(stage->entered.strand_wipe - 1);
        showed->observation[0].strand = true;
    }
    stage->entered.of_person = true;
    stage->dirty = true;
}

static void set_number(sl_stage *stage, int row, int number)
{
    const int kept = SDL_clamp(number, 0, row == SL_INTAKE_AGE ? MOST_AGE : SL_LABEL_MOST_MIN);
    if (row == SL_INTAKE_AGE) {
        stage->entered.person.age_years = kept;
    } else if (row == SL_INTAKE_LABEL) {
        stage->entered.person.label_min = kept;
    } else {
        stage->entered.strand_min = kept;
    }
}

/* No day later than today's is one on which something was opened. */
static void turn_day(sl_stage *stage, int by)
{
    const int next =
        stage->entered.person.packet_day > 0 ? stage->entered.person.packet_day + by : stage->entered.today;
    stage->entered.person.packet_day = SDL_clamp(next, 0, stage->entered.today);
}

void sl_form_turn(sl_stage *stage, int row, int by)
{
    sl_intake *const person = &stage->entered.person;
    if (is_number(row)) {
        set_number(stage, row, number_of(stage, row) + by);
    } else if (row == SL_FORM_LOGGED) {
        stage->entered.strand =
            (stage->entered.strand + by + stage->logs.n_strands + 1) % (stage->logs.n_strands + 1);
    } else if (row == SL_FORM_STRAND_WIPE) {
        stage->entered.strand_wipe = (stage->entered.strand_wipe + by + SL_WIPES + 1) % (SL_WIPES + 1);
    } else if (row == SL_FORM_PRACTICE) {
        person->practice = !person->practice;
    } else if (ask_of(row) == SL_ASK_PART) {
        person->part = (sl_hair_part)(((int)person->part + by + SL_HAIR_PARTS) % SL_HAIR_PARTS);
    } else if (ask_of(row) == SL_ASK_DAY) {
        turn_day(stage, by);
    } else if (ask_of(row) != SL_ASK_CODE) {
        sl_reply *const reply = reply_of(person, row);
        *reply = (sl_reply)(((int)*reply + by + SL_REPLIES) % SL_REPLIES);
    }
    settle(stage);
}

bool sl_form_replies(int row)
{
    return row < SL_INTAKE_SHOWED && (ask_of(row) == SL_ASK_REPLY || ask_of(row) == SL_ASK_EITHER);
}

sl_reply sl_form_replied(const sl_stage *stage, int row)
{
    const sl_intake *const person = &stage->entered.person;
    return row == SL_INTAKE_LIGHTENED ? person->lightened : person->reply[row];
}

void sl_form_reply(sl_stage *stage, int row, sl_reply reply)
{
    if (sl_form_replies(row)) {
        *reply_of(&stage->entered.person, row) = sl_form_replied(stage, row) == reply ? SL_REPLY_NONE : reply;
        settle(stage);
    }
}

static void type_code(char code[SL_CODE], int figure)
{
    const size_t length = strlen(code);
    if (figure >= 0 && length + 1 < SL_CODE) {
        snprintf(code + length, SL_CODE - length, "%d", figure);
    } else if (figure < 0 && length > 0) {
        code[length - 1] = '\0';
    }
}

void sl_form_type(sl_stage *stage, int row, int figure)
{
    if (is_number(row)) {
        const int now = number_of(stage, row);
        set_number(stage, row, figure < 0 ? now / 10 : 10 * now + figure);
    } else if (row < SL_INTAKE_SHOWED && ask_of(row) == SL_ASK_CODE) {
        type_code(code_of(&stage->entered.person, row), figure);
    } else if (row < SL_INTAKE_SHOWED && ask_of(row) == SL_ASK_DAY && figure < 0) {
        stage->entered.person.packet_day = 0;
    } else {
        return;
    }
    settle(stage);
}

void sl_form_clear(sl_stage *stage)
{
    memset(&stage->entered.person, 0, sizeof stage->entered.person);
    stage->entered.strand_min = stage->entered.strand_wipe = stage->entered.strand = 0;
    stage->entered.of_person = false;
    stage->dirty = true;
}

sl_strand sl_form_strand(const sl_stage *stage, const sl_scene *scene, int arm)
{
    if (stage->entered.strand == 0 || !sl_arm_application(&scene->arms[arm])) {
        return (sl_strand){.worth = stage->entered.person.showed.n > 0 ? SL_STRAND_TYPED : SL_STRAND_NONE};
    }
    return sl_strand_judge(&stage->logs.strands[stage->entered.strand - 1], &stage->entered.person,
                           sl_arm_fingerprint(scene, arm), stage->entered.today);
}

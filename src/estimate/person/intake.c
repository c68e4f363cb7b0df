/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The person's form judged. See intake.h: an unsure reply stops like the wrong one.
 */
#include "slowlift/intake.h"
#include "base/code.h"
#include "base/language.h"

#include <assert.h>
#include <string.h>

typedef struct asked_row {
    sl_ask ask;
    sl_reply pass; /* of SL_ASK_REPLY */
    const char *caution, *words, *first, *key;
} asked_row;

#define AS_REPLY(name, pass, caution, words, first, key) {SL_ASK_REPLY, pass, caution, words, first, key},
#define AS_MORE(name, ask, caution, words, first, key) {ask, SL_REPLY_NONE, caution, words, first, key},
static const asked_row rows[SL_INTAKE_ASKED] = {SL_INTAKE_REPLY_LIST(AS_REPLY) SL_INTAKE_MORE_LIST(AS_MORE)};
#undef AS_REPLY
#undef AS_MORE

static void put(sl_intake_result *result, int asked, bool missing, bool stopped)
{
    result->missing[asked] = missing;
    result->stopped[asked] = stopped && !missing;
    result->n_missing += result->missing[asked] ? 1 : 0;
    result->n_stopped += result->stopped[asked] ? 1 : 0;
}

static bool is_label(double minutes)
{
    return minutes > 0.0 && minutes <= SL_LABEL_MOST_MIN;
}

/* Whether every entry can be what a strand showed inside the label's time. */
static bool showed_is_good(const sl_intake *intake)
{
    if (intake->showed.n < 0 || intake->showed.n > SL_MOST_OBSERVATIONS) {
        return false;
    }
    for (int i = 0; i < intake->showed.n; i++) {
        const sl_observation *const observation = &intake->showed.observation[i];
        const bool timed = observation->minute > 0.0 && observation->minute <= intake->label_min;
        if (!timed || observation->wipe >= SL_WIPES || observation->arm < 0 ||
            observation->zone < SL_OBSERVED_ALL_ZONES) {
            return false;
        }
    }
    return true;
}

static bool is_no_code(const char code[SL_CODE])
{
    return memchr(code, '\0', SL_CODE) == NULL || !sl_code_characters(code);
}

sl_intake_result sl_intake_judge(const sl_intake *intake)
{
    sl_intake_result result = {0};
    for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
        const sl_reply reply = intake->reply[q];
        put(&result, q, reply == SL_REPLY_NONE, reply != rows[q].pass);
    }
    put(&result, SL_INTAKE_AGE, intake->age_years <= 0, intake->age_years < SL_INTAKE_LEAST_AGE);
    put(&result, SL_INTAKE_LABEL, !is_label(intake->label_min), false);
    put(&result, SL_INTAKE_LIGHTENED, intake->lightened == SL_REPLY_NONE,
        intake->lightened != SL_REPLY_NO && intake->lightened != SL_REPLY_YES);
    put(&result, SL_INTAKE_PERSON, intake->person[0] == '\0', is_no_code(intake->person));
    put(&result, SL_INTAKE_QUALIFIED, intake->qualified[0] == '\0', is_no_code(intake->qualified));
    put(&result, SL_INTAKE_PART, intake->part == SL_HAIR_NOWHERE, intake->part >= SL_HAIR_PARTS);
    put(&result, SL_INTAKE_PACKET, intake->packet_day <= 0, false);
    put(&result, SL_INTAKE_SHOWED, false, !showed_is_good(intake));
    result.minutes = result.n_missing == 0 && result.n_stopped == 0;
    return result;
}

/* ---- the table ----------------------------------------------------------------------------- */

static const asked_row *row_of(int asked)
{
    assert(asked >= 0 && asked < SL_INTAKE_ASKED);
    return &rows[asked];
}

sl_ask sl_intake_ask_of(int asked)
{
    return row_of(asked)->ask;
}

sl_reply sl_intake_pass(int asked)
{
    return row_of(asked)->pass;
}

const char *sl_intake_key(int asked)
{
    return row_of(asked)->key;
}

const char *sl_intake_words(int asked)
{
    return row_of(asked)->words;
}

const char *sl_intake_first(int asked)
{
    return row_of(asked)->first;
}

const char *sl_intake_caution(int asked)
{
    return row_of(asked)->caution;
}

const char *sl_practice_words(void)
{
    return N_("made up, for practice");
}

/* ---- parts of the hair ------------------------------------------------------------------------ */

const char *const *sl_hair_part_words(void)
{
#define AS_WORD(name, word) word,
    static const char *const words[SL_HAIR_PARTS - 1] = {SL_HAIR_PART_LIST(AS_WORD)};
#undef AS_WORD
    return words;
}

const char *sl_hair_part_word(sl_hair_part part)
{
    return part > SL_HAIR_NOWHERE && part < SL_HAIR_PARTS ? sl_hair_part_words()[part - 1] : NULL;
}

sl_hair_part sl_hair_part_of_word(const char *word)
{
    int part = SL_HAIR_PARTS - 1;
    while (part > 0 && strcmp(sl_hair_part_word((sl_hair_part)part), word) != 0) {
        part--;
    }
    return (sl_hair_part)part;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A note about a strand as text and back; see strand_log.h.
 */
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/calendar.h"
#include "base/code.h"
#include "log/strand/pairs.h"
#include "slowlift/strand_log.h"

static const char LEAD[] = "strand:";

static const struct {
    const char *key;
    size_t offset; /* of its bool in the note */
} marks[] = {
    {"cut", offsetof(sl_strand_note, cut)},     {"washed_and_dried", offsetof(sl_strand_note, washed)},
    {"warm", offsetof(sl_strand_note, warm)},   {"fizzed", offsetof(sl_strand_note, fizzed)},
    {"smelt", offsetof(sl_strand_note, smelt)}, {"practice", offsetof(sl_strand_note, practice)}};
enum { MARKS = (int)(sizeof marks / sizeof marks[0]) };

void sl_strand_note_words(const sl_strand_note *note, char text[SL_STRAND_NOTE_TEXT])
{
    const char *const part = sl_hair_part_word(note->part);
    char day[SL_DAY_TEXT];
    snprintf(text, SL_STRAND_NOTE_TEXT, "%s", LEAD);
    if (note->person[0] != '\0') {
        sl_append(text, SL_STRAND_NOTE_TEXT, " person=%s", note->person);
    }
    if (part) {
        sl_append(text, SL_STRAND_NOTE_TEXT, " part=%s", part);
    }
    if (note->packet_day > 0) {
        sl_day_words(note->packet_day, day);
        sl_append(text, SL_STRAND_NOTE_TEXT, " packet_opened=%s", day);
    }
    for (int i = 0; i < MARKS; i++) {
        if (*(const bool *)((const char *)note + marks[i].offset)) {
            sl_append(text, SL_STRAND_NOTE_TEXT, " %s=yes", marks[i].key);
        }
    }
}

static void take(void *self, const char *key, const char *value)
{
    sl_strand_note *const note = self;
    if (strcmp(key, "person") == 0 && value[0] != '\0' && strlen(value) < SL_CODE &&
        sl_code_characters(value)) {
        memcpy(note->person, value, strlen(value) + 1);
    } else if (strcmp(key, "part") == 0) {
        note->part = sl_hair_part_of_word(value);
    } else if (strcmp(key, "packet_opened") == 0 && !sl_day_read(value, &note->packet_day)) {
        note->packet_day = 0;
    }
    for (int i = 0; i < MARKS; i++) {
        if (strcmp(key, marks[i].key) == 0 && strcmp(value, "yes") == 0) {
            *(bool *)((char *)note + marks[i].offset) = true;
        }
    }
}

bool sl_strand_note_read(const char *text, sl_strand_note *note)
{
    return sl_pairs_read(text, LEAD, take, note);
}

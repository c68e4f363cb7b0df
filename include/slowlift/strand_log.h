/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strands of people's hair in a log of strand tests: what is noted of a swatch that is one, and which of
 * them count for a form. No table of their own: a note of a closed form, beside the events and readings
 * that every swatch has.
 *
 * Invariant: what machines read is keys and words of files, never a language's.
 */
#ifndef SLOWLIFT_STRAND_LOG_H
#define SLOWLIFT_STRAND_LOG_H

#include "slowlift/log.h"
#include "slowlift/strand.h"

#pragma GCC visibility push(default)

/* What a note about a strand can say. What is not said leaves what an earlier note said; that it grew warm,
 * fizzed or smelt is never taken back. */
typedef struct sl_strand_note {
    char person[SL_CODE]; /* "" = not said */
    sl_hair_part part;
    int packet_day;
    bool cut;
    bool washed;              /* washed and dried */
    bool warm, fizzed, smelt; /* while the mix lay on it */
    bool practice;            /* made up for a class */
} sl_strand_note;             /* start with {0} */

enum { SL_STRAND_NOTE_TEXT = 160 };
/* As it stands in the log: "strand: person=K12 part=nape cut=yes packet_opened=2026-11-20". */
void sl_strand_note_words(const sl_strand_note *note, char text[SL_STRAND_NOTE_TEXT]);
/* Adds what the text says to *note. False: it is no note about a strand. */
bool sl_strand_note_read(const char *text, sl_strand_note *note);

/* All strands that the log holds, those of people first in the order of their tests; a zone that is not in
 * `scene`, or has no direct dye there, is left out of what they showed. Fails with SL_ERR_DAMAGED when a part
 * of the log cannot be read. Freed with sl_free() of base/memory.h. */
bool sl_log_strands(sl_log *log, const sl_scene *scene, sl_strand_record **records, int *n, sl_error *error);

/* Fills the person for this form: of each arm the strand that counts (the newest), else the one that lacks
 * least, of this test and swatch (NULL: any). What the form's owner typed of a strand goes, but for what lay
 * longer than the label, which stops; what the counted strands showed stands in its place. today: days since
 * 1970-01-01. */
bool sl_log_person(sl_log *log, const char *test, const char *code, const sl_scene *scene, int today,
                   sl_intake *form, sl_person *person, sl_error *error);
/* The same from "LOG", "LOG:TEST" or "LOG:TEST:SWATCH", by today's date. */
bool sl_strand_of_place(const char *place, const sl_scene *scene, sl_intake *form, sl_person *person,
                        sl_error *error);

#pragma GCC visibility pop

#endif

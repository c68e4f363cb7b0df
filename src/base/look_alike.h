/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Letters that are taken for others. Not a door of its own: see plain_text.h.
 */
#ifndef SLOWLIFT_BASE_LOOK_ALIKE_H
#define SLOWLIFT_BASE_LOOK_ALIKE_H

#include <stdbool.h>
#include <stdint.h>

/* The letters of the blocks Latin-1 Supplement and Latin Extended-A, which write the languages of western and
 * central Europe: told from their numbers, so that a word such as "años" asks for no table of the library. */
static inline bool sl_letter_is_european(uint32_t point)
{
    return point >= 0xC0U && point <= 0x17FU && point != 0xD7U /* times */ && point != 0xF7U /* divided by */;
}

bool sl_letter_is_latin(uint32_t point);
/* A letter that is not Latin and, among Latin ones, is read as one. Every Cyrillic letter counts:
 * its alphabet is drawn so like the Latin one that a word of both is no word of either. */
bool sl_letter_passes_for_latin(uint32_t point);

#endif

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See plain_text.h. What a character is comes from libunistring, which is made from the Unicode
 * Character Database: own tables would be old by the next version, and ICU brings 30 MB of data
 * for the same few questions. The rules:
 *
 * - UTF-8 as in table 3-7 of the Unicode Standard (no overlong form, surrogate, or more than
 *   U+10FFFF).
 * - No control character (general category Cc: C0, DEL, C1), but for line ends and tabs where the
 *   kind has them; no other line end (U+2028, U+2029), which would make two counts of lines.
 * - No format character (Cf) and none that is ignorable by default: a reader does not see them, and
 *   some turn the direction of writing (UAX #9, UTS #55). Joiners (U+200C, U+200D) and variation
 *   selectors are among them: scripts of India and Iran, and emoji, do need them, and the two
 *   languages of this program do not; two names that differ by one alone could not be told apart.
 * - No noncharacter and no private use: they have no look that two machines agree on. Unassigned
 *   characters are not tested: a newer Unicode than this library's may know them.
 * - At most four marks on one letter (UTS #39, section 5.4), since a tower of them covers the lines
 *   above; a line does not begin with one, since it would sit on what stands before it.
 * - A name has plain spaces only, none at its ends, no letters that are written from right to left
 *   (numbers beside it would change places), and no word of Latin letters with letters of another
 *   script that look like them (UTS #39, section 5.1).
 */
#include "base/plain_text.h"

#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <unictype.h>
#include <unistr.h>

#include "base/language.h"
#include "base/look_alike.h"

enum { MOST_MARKS = 4 };

static bool is_plain_ascii(ucs4_t point)
{
    return point >= 0x20U && point < 0x7FU;
}

/* Visible, and no mark, whatever the kind of text: ASCII, and what the blocks Latin-1 Supplement and Latin
 * Extended-A have of letters and signs, without the blank and the soft hyphen. These are most characters of
 * most texts, and asking the library about one would bring some 200 KiB of its tables into memory. */
static bool is_plain(ucs4_t point)
{
    return is_plain_ascii(point) || (point > 0xA0U && point != 0xADU && point <= 0x17FU);
}

static bool is_letter(ucs4_t point)
{
    return sl_letter_is_european(point) || uc_is_general_category(point, UC_LETTER);
}

static bool is_mark(ucs4_t point)
{
    return !is_plain(point) && uc_is_general_category(point, UC_MARK);
}

static bool is_direction(ucs4_t point)
{
    return point == 0x061CU || point == 0x200EU || point == 0x200FU ||
           (point >= 0x202AU && point <= 0x202EU) || (point >= 0x2066U && point <= 0x2069U);
}

static bool is_line_or_tab(ucs4_t point, sl_text_kind kind)
{
    return (point == '\n' && kind >= SL_TEXT_LINES) ||
           ((point == '\t' || point == '\r') && kind == SL_TEXT_FILE);
}

/* Blank to the eye, and not the space of a keyboard. U+2800 is a pattern of Braille without dots. */
static bool is_odd_blank(ucs4_t point)
{
    return point == 0x2800U || (point != ' ' && uc_is_general_category(point, UC_SPACE_SEPARATOR));
}

static bool is_right_to_left(ucs4_t point)
{
    const int direction = uc_bidi_category(point);
    return direction == UC_BIDI_R || direction == UC_BIDI_AL || direction == UC_BIDI_AN;
}

/* What is wrong with one character wherever it stands; NULL: nothing. */
static const char *fault_of(ucs4_t point, sl_text_kind kind)
{
    if (is_plain(point) || is_line_or_tab(point, kind)) {
        return NULL;
    }
    if (point == '\n' || point == '\r' || point == 0x2028U || point == 0x2029U || point == 0x85U) {
        return N_("a line end");
    }
    if (point == '\t') {
        return N_("a tab");
    }
    if (uc_is_general_category(point, UC_CONTROL)) {
        return N_("a control character");
    }
    if (is_direction(point)) {
        return N_("a character that turns the direction of writing");
    }
    if (uc_is_property_not_a_character(point) || uc_is_general_category(point, UC_PRIVATE_USE)) {
        return N_("a character without a look of its own");
    }
    if (uc_is_property_default_ignorable_code_point(point) || uc_is_general_category(point, UC_FORMAT)) {
        return N_("an invisible character");
    }
    if (kind == SL_TEXT_NAME && is_odd_blank(point)) {
        return N_("a blank that is no plain space");
    }
    if (kind == SL_TEXT_NAME && is_right_to_left(point)) {
        return N_("a letter that is written from right to left");
    }
    return NULL;
}

static const char *wish_of(ucs4_t point, sl_text_kind kind)
{
    if (point == '\n' || point == '\r' || point == 0x2028U || point == 0x2029U || point == 0x85U) {
        return kind >= SL_TEXT_LINES ? N_("end a line as every editor does") : N_("write it in one line");
    }
    if (point == '\t' || (kind == SL_TEXT_NAME && is_odd_blank(point))) {
        return N_("write a plain space");
    }
    if (kind == SL_TEXT_NAME && is_right_to_left(point)) {
        return N_("numbers beside it would change places: write the name from left to right");
    }
    return N_("take it out");
}

static bool refuse(const char *what, ucs4_t point, const char *wish, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, "%s (U+%04lX)", _(what), (unsigned long)point);
    return sl_fail(error, SL_ERR_BAD_TEXT, found, wish);
}

static bool refuse_byte(char byte, sl_text_kind kind, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("the byte 0x%02X"), (unsigned)(unsigned char)byte);
    return sl_fail(error, SL_ERR_NOT_UTF8, found,
                   kind == SL_TEXT_FILE ? N_("save the file as UTF-8") : N_("write it in UTF-8"));
}

/* What one text has shown so far. */
typedef struct sl_walk {
    int marks;          /* on the letter before */
    bool latin, other;  /* letters of this word */
    ucs4_t other_point; /* the first that looks Latin and is not */
} sl_walk;

static bool scripts_are_one(sl_walk *walk, ucs4_t point, sl_error *error)
{
    if (!is_letter(point)) {
        if (!is_mark(point)) {
            *walk = (sl_walk){.marks = walk->marks};
        }
        return true;
    }
    if (sl_letter_is_latin(point)) {
        walk->latin = true;
    } else if (!walk->other && sl_letter_passes_for_latin(point)) {
        walk->other = true;
        walk->other_point = point;
    }
    return !(walk->latin && walk->other) ||
           refuse(N_("a letter of another script in a Latin word"), walk->other_point,
                  N_("write the word in one script"), error);
}

static bool character_fits(sl_walk *walk, ucs4_t point, bool first, sl_text_kind kind, sl_error *error)
{
    const char *const fault = fault_of(point, kind);
    if (fault) {
        return refuse(fault, point, wish_of(point, kind), error);
    }
    const bool mark = is_mark(point);
    walk->marks = mark ? walk->marks + 1 : 0;
    if (mark && (first || walk->marks > MOST_MARKS)) {
        return refuse(first ? N_("a mark without a letter") : N_("one more mark on a letter that has four"),
                      point, N_("take it out"), error);
    }
    return kind != SL_TEXT_NAME || scripts_are_one(walk, point, error);
}

static void set_place(sl_error *error, int line, int column)
{
    if (error) {
        error->line = line;
        error->column = column;
    }
}

static bool ends_fit(const char *text, size_t length, sl_error *error)
{
    if (length == 0 || (text[0] != ' ' && text[length - 1] != ' ')) {
        return true;
    }
    set_place(error, 1, text[0] == ' ' ? 1 : (int)u8_mbsnlen((const uint8_t *)text, length));
    return sl_fail(error, SL_ERR_BAD_TEXT, "a space at an end of a name", "take it out");
}

/* How many characters of plain ASCII the text begins with. */
static size_t plain_run(const char *text, size_t length)
{
    size_t n = 0;
    while (n < length && is_plain_ascii((unsigned char)text[n])) {
        n++;
    }
    return n;
}

bool sl_text_accept(const char *text, size_t length, sl_text_kind kind, sl_error *error)
{
    sl_walk walk = {0};
    int line = 1, column = 1;
    for (size_t at = 0; at < length;) {
        const size_t plain = kind == SL_TEXT_NAME ? 0 : plain_run(text + at, length - at);
        if (plain > 0) { /* most of most files */
            walk.marks = 0;
            at += plain;
            column += (int)plain;
            continue;
        }
        ucs4_t point = 0;
        const int bytes = u8_mbtoucr(&point, (const uint8_t *)text + at, length - at);
        if (bytes <= 0) {
            set_place(error, line, column);
            return refuse_byte(text[at], kind, error);
        }
        if (!character_fits(&walk, point, column == 1, kind, error)) {
            set_place(error, line, column);
            return false;
        }
        const bool before_line_feed = point == '\r' && at + 1 < length && text[at + 1] == '\n';
        at += (size_t)bytes;
        column++;
        if (point == '\n' || (point == '\r' && !before_line_feed)) {
            line++;
            column = 1;
        }
    }
    return kind != SL_TEXT_NAME || ends_fit(text, length, error);
}

/* The first character, or byte that is none, of `left` bytes as it is shown; *taken: how many of them. */
static size_t show_piece(const char *text, size_t left, sl_text_kind kind, char piece[16], size_t *taken)
{
    ucs4_t point = 0;
    const int bytes = u8_mbtoucr(&point, (const uint8_t *)text, left);
    *taken = bytes > 0 ? (size_t)bytes : 1;
    if (bytes <= 0) {
        return (size_t)snprintf(piece, 16, "\\x{%02X}", (unsigned)(unsigned char)text[0]);
    }
    if (fault_of(point, kind)) {
        return (size_t)snprintf(piece, 16, "\\u{%lX}", (unsigned long)point);
    }
    memcpy(piece, text, *taken);
    return *taken;
}

size_t sl_text_show(const char *text, size_t length, sl_text_kind kind, char *shown, size_t size)
{
    size_t whole = 0, used = 0, taken = 0;
    for (size_t at = 0; at < length; at += taken) {
        char piece[16];
        const size_t n = show_piece(text + at, length - at, kind, piece, &taken);
        if (used == whole && used + n < size) {
            memcpy(shown + used, piece, n);
            used += n;
        }
        whole += n;
    }
    if (size > 0) {
        shown[used] = '\0';
    }
    return whole;
}

void sl_text_put(FILE *out, const char *text)
{
    const size_t length = strlen(text);
    size_t taken = 0;
    for (size_t at = 0; at < length; at += taken) {
        char piece[16] = "";
        const size_t shown = show_piece(text + at, length - at, SL_TEXT_LINE, piece, &taken);
        fwrite(piece, 1, shown, out);
    }
}

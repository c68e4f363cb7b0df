/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two names look alike when their skeletons are the same (UTS #39, section 4). A skeleton here: every
 * character decomposed as far as Unicode does (compatibility forms too: "ﬁ" is "fi", "３" is "3"),
 * marks of one letter in order, what looks like a character of ASCII written as that one, and
 * several blanks as one. The table holds those of Unicode's confusables that are letters of Greek,
 * Cyrillic and Armenian, dashes and quotation marks: what a keyboard or a word processor writes.
 * Rarer scripts are left out: their letters look odd to whoever reads Spanish or English, and that is
 * warning enough.
 */
#include "base/look_alike.h"

#include <string.h>
#include <unictype.h>
#include <uninorm.h>
#include <unistr.h>

#include "base/plain_text.h"

/* Enough for a name of 64 bytes, each of which becomes 18 characters at the most (U+FDFA). */
enum { NAME_BYTES = 64, MOST_POINTS = NAME_BYTES * 18 };

typedef struct sl_alike {
    uint16_t point;
    char like[3];
} sl_alike;

/* Rising. From confusables.txt of Unicode 15.0, through the skeletons of ICU 72; the dashes U+2014 and
 * U+2015 are added. */
static const sl_alike looks[] = {
    {'"', "''"},    {'0', "O"},     {'1', "l"},     {'I', "l"},     {'`', "'"},     {'m', "rn"},
    {'|', "l"},     {0x00D7, "x"},  {0x0131, "i"},  {0x01C0, "l"},  {0x0251, "a"},  {0x0261, "g"},
    {0x02B9, "'"},  {0x02BC, "'"},  {0x02C8, "'"},  {0x02D7, "-"},  {0x037F, "J"},  {0x0391, "A"},
    {0x0392, "B"},  {0x0395, "E"},  {0x0396, "Z"},  {0x0397, "H"},  {0x0399, "l"},  {0x039A, "K"},
    {0x039C, "M"},  {0x039D, "N"},  {0x039F, "O"},  {0x03A1, "P"},  {0x03A4, "T"},  {0x03A5, "Y"},
    {0x03A7, "X"},  {0x03B1, "a"},  {0x03B3, "y"},  {0x03B9, "i"},  {0x03BD, "v"},  {0x03BF, "o"},
    {0x03C1, "p"},  {0x03C3, "o"},  {0x03C5, "u"},  {0x03DC, "F"},  {0x03F3, "j"},  {0x03FA, "M"},
    {0x0405, "S"},  {0x0406, "l"},  {0x0408, "J"},  {0x0410, "A"},  {0x0412, "B"},  {0x0415, "E"},
    {0x0417, "3"},  {0x041A, "K"},  {0x041C, "M"},  {0x041D, "H"},  {0x041E, "O"},  {0x0420, "P"},
    {0x0421, "C"},  {0x0422, "T"},  {0x0423, "Y"},  {0x0425, "X"},  {0x042B, "bl"}, {0x042C, "b"},
    {0x042E, "lO"}, {0x0430, "a"},  {0x0431, "6"},  {0x0433, "r"},  {0x0435, "e"},  {0x043E, "o"},
    {0x0440, "p"},  {0x0441, "c"},  {0x0443, "y"},  {0x0445, "x"},  {0x0455, "s"},  {0x0456, "i"},
    {0x0458, "j"},  {0x0461, "w"},  {0x0474, "V"},  {0x0475, "v"},  {0x04AE, "Y"},  {0x04AF, "y"},
    {0x04BB, "h"},  {0x04BD, "e"},  {0x04C0, "l"},  {0x04CF, "i"},  {0x04D4, "AE"}, {0x04D5, "ae"},
    {0x04E0, "3"},  {0x0501, "d"},  {0x050C, "G"},  {0x051B, "q"},  {0x051C, "W"},  {0x051D, "w"},
    {0x054D, "U"},  {0x054F, "S"},  {0x0555, "O"},  {0x0561, "w"},  {0x0563, "q"},  {0x0566, "q"},
    {0x0570, "h"},  {0x0578, "n"},  {0x057C, "n"},  {0x057D, "u"},  {0x0581, "g"},  {0x0584, "f"},
    {0x0585, "o"},  {0x0589, ":"},  {0x1D26, "r"},  {0x2010, "-"},  {0x2012, "-"},  {0x2013, "-"},
    {0x2014, "-"},  {0x2015, "-"},  {0x2016, "ll"}, {0x2018, "'"},  {0x2019, "'"},  {0x201A, ","},
    {0x201B, "'"},  {0x201C, "''"}, {0x201D, "''"}, {0x201F, "''"}, {0x2032, "'"},  {0x2035, "'"},
    {0x2039, "<"},  {0x203A, ">"},  {0x2043, "-"},  {0x2044, "/"},  {0x2212, "-"},  {0x2215, "/"},
    {0x2217, "*"},  {0x2223, "l"},  {0x2236, ":"},  {0x223C, "~"},  {0xA644, "2"},  {0xA647, "i"},
    {0xA698, "OO"}, {0xA699, "oo"}};

static int compare_look(uint32_t point, const sl_alike *look)
{
    return point < look->point ? -1 : point > look->point;
}

static const char *look_of(uint32_t point)
{
    size_t low = 0, high = sizeof looks / sizeof looks[0];
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        const int order = compare_look(point, &looks[middle]);
        if (order == 0) {
            return looks[middle].like;
        }
        if (order < 0) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    return NULL;
}

bool sl_letter_is_latin(uint32_t point)
{
    const bool ascii = (point >= 'a' && point <= 'z') || (point >= 'A' && point <= 'Z');
    return ascii || sl_letter_is_european(point) ||
           (point >= 0x80U && uc_is_script(point, uc_script_byname("Latin")));
}

bool sl_letter_passes_for_latin(uint32_t point)
{
    return point >= 0x80U && !sl_letter_is_latin(point) &&
           (look_of(point) || uc_is_script(point, uc_script_byname("Cyrillic")));
}

typedef struct sl_skeleton {
    uint32_t point[MOST_POINTS];
    size_t n;
} sl_skeleton;

/* A mark goes before those of the same letter that have a higher number, so that their order as
 * typed does not count. */
static void put(sl_skeleton *skeleton, uint32_t point)
{
    const bool blank = point == ' ' && skeleton->n > 0 && skeleton->point[skeleton->n - 1] == ' ';
    if (skeleton->n == MOST_POINTS || blank) {
        return;
    }
    size_t at = skeleton->n++;
    if (point >= 0x80U && uc_is_general_category(point, UC_MARK)) {
        while (at > 0 && skeleton->point[at - 1] > point &&
               uc_is_general_category(skeleton->point[at - 1], UC_MARK)) {
            skeleton->point[at] = skeleton->point[at - 1];
            at--;
        }
    }
    skeleton->point[at] = point;
}

static void put_like(sl_skeleton *skeleton, uint32_t point)
{
    const char *const like = look_of(point);
    if (!like) {
        put(skeleton, point);
    }
    for (const char *at = like; at && *at != '\0'; at++) {
        put(skeleton, (unsigned char)*at);
    }
}

/* Decompositions are given one step at a time, and none of Unicode's is deeper than a few. */
static void put_decomposed(sl_skeleton *skeleton, uint32_t point)
{
    ucs4_t parts[UC_DECOMPOSITION_MAX_LENGTH];
    int tag = 0;
    const int n = point < 0x80U ? -1 : uc_decomposition(point, &tag, parts);
    if (n < 0) {
        put_like(skeleton, point);
    }
    for (int i = 0; i < n; i++) {
        put_decomposed(skeleton, parts[i]);
    }
}

static void make_skeleton(const char *text, sl_skeleton *skeleton)
{
    skeleton->n = 0;
    const size_t length = strlen(text);
    for (size_t at = 0; at < length;) {
        ucs4_t point = 0;
        const int bytes = u8_mbtoucr(&point, (const uint8_t *)text + at, length - at);
        put_decomposed(skeleton, bytes > 0 ? point : 0xFFFDU);
        at += bytes > 0 ? (size_t)bytes : 1;
    }
}

/* The first character of the skeleton of a letter of ASCII; 0: a blank, which may go into one before it, no
 * letter of ASCII, or the end. */
static uint32_t look_of_ascii(char letter)
{
    const bool ascii = letter > ' ' && letter <= '~';
    const char *const like = ascii ? look_of((unsigned char)letter) : NULL;
    return like ? (unsigned char)like[0] : ascii ? (unsigned char)letter : 0;
}

/* Whether they part where both have a letter of ASCII, and these look different: most names do, and no
 * skeletons need to be made of them. */
static bool part_at_a_look(const char *one, const char *other)
{
    int same = 0;
    while (same < NAME_BYTES && one[same] != '\0' && one[same] == other[same]) {
        same++;
    }
    const uint32_t first = look_of_ascii(one[same]), second = look_of_ascii(other[same]);
    return same < NAME_BYTES && first != 0 && second != 0 && first != second;
}

bool sl_text_alike(const char *one, const char *other)
{
    if (part_at_a_look(one, other)) {
        return false;
    }
    sl_skeleton first, second;
    make_skeleton(one, &first);
    make_skeleton(other, &second);
    return first.n == second.n && memcmp(first.point, second.point, first.n * sizeof first.point[0]) == 0;
}

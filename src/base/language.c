/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A catalogue in memory and the search in it. The format is that of GNU gettext's manual,
 * "The Format of GNU MO Files": a header, two tables of (length, offset), texts that end in a
 * zero byte; originals sorted by strcmp. Invariant: every entry was checked when the file was
 * read, so that a search never leaves the block. The language is the one thing of the process
 * that is no argument: it is set once, before there are threads.
 */
#include "base/language.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "base/plain_file.h"

enum { HEADER = 28, MOST_BYTES = 4 << 20 };

typedef struct catalogue {
    char letters[3];
    unsigned char *block; /* the whole file, and a zero byte */
    size_t size;
    uint32_t n, originals, translations; /* entries; where the two tables begin */
} catalogue;

static catalogue in_use = {.letters = "en"};

#define AS_LETTERS(name, letters) letters,
const char *const sl_language_letters[SL_LANGUAGES] = {SL_LANGUAGE_LIST(AS_LETTERS)};
#undef AS_LETTERS

sl_language_id sl_language_of(const char *letters)
{
    for (int i = 0; letters && i < SL_LANGUAGES; i++) {
        if (strcmp(letters, sl_language_letters[i]) == 0) {
            return (sl_language_id)i;
        }
    }
    return SL_ENGLISH;
}

bool sl_language_is_known(const char *letters)
{
    return letters && strcmp(letters, sl_language_letters[sl_language_of(letters)]) == 0;
}

static uint32_t word_at(const catalogue *from, size_t at)
{
    uint32_t word;
    memcpy(&word, from->block + at, sizeof word);
    return word;
}

static const char *entry(const catalogue *from, uint32_t table, uint32_t i)
{
    return (const char *)from->block + word_at(from, table + 8 * (size_t)i + 4);
}

static bool table_is_whole(const catalogue *from, uint32_t table)
{
    if (table > from->size || (from->size - table) / 8 < from->n) {
        return false;
    }
    for (uint32_t i = 0; i < from->n; i++) {
        const uint32_t length = word_at(from, table + 8 * (size_t)i);
        const uint32_t at = word_at(from, table + 8 * (size_t)i + 4);
        if (at >= from->size || length >= from->size - at || from->block[at + length] != '\0') {
            return false;
        }
    }
    return true;
}

static bool is_catalogue(catalogue *from)
{
    const uint32_t magic = 0x950412de;
    if (from->size < HEADER || word_at(from, 0) != magic) {
        return false;
    }
    from->n = word_at(from, 8);
    from->originals = word_at(from, 12);
    from->translations = word_at(from, 16);
    return table_is_whole(from, from->originals) && table_is_whole(from, from->translations);
}

static bool read_whole(const char *path, catalogue *into, sl_error *error)
{
    static const sl_file_most most = {MOST_BYTES, ""};
    FILE *file = sl_plain_file_open(path, N_("the catalogue of a language"), most, NULL, error);
    if (file == NULL) {
        return false;
    }
    const bool sought = fseek(file, 0, SEEK_END) == 0;
    const long size = sought ? ftell(file) : -1;
    bool whole = size > 0 && size <= MOST_BYTES && fseek(file, 0, SEEK_SET) == 0;
    if (whole) {
        into->size = (size_t)size;
        into->block = sl_new(into->size + 1, 1, "reading words of another language", error);
        whole = into->block != NULL && fread(into->block, 1, into->size, file) == into->size;
    }
    fclose(file);
    return whole;
}

bool sl_language_use(const char *letters, const char *folder, sl_error *error)
{
    sl_language_stop();
    if (strcmp(letters, "en") == 0) {
        return true;
    }
    char path[SL_ERROR_FILE_SIZE];
    const int length = snprintf(path, sizeof path, "%s/%.2s/LC_MESSAGES/slowlift.mo", folder, letters);
    catalogue found = {.n = 0};
    snprintf(found.letters, sizeof found.letters, "%s", letters);
    sl_error why = {.code = SL_OK};
    if (length <= 0 || length >= (int)sizeof path || !read_whole(path, &found, &why) ||
        !is_catalogue(&found)) {
        sl_free(found.block);
        if (why.code == SL_ERR_NO_MEMORY) {
            return sl_fail(error, why.code, why.found, why.wanted);
        }
        return sl_fail(error, SL_ERR_MISSING_PART, "the catalogue of that language",
                       "build slowlift with gettext's msgfmt present, or leave --language out");
    }
    in_use = found;
    return true;
}

void sl_language_stop(void)
{
    sl_free(in_use.block);
    in_use = (catalogue){.letters = "en"};
}

const char *sl_language(void)
{
    return in_use.letters;
}

sl_language_id sl_language_in_use(void)
{
    return sl_language_of(in_use.letters);
}

/* "es", "es_MX", "es_ES.UTF-8", "es:en"; English for what is not known. */
static sl_language_id wished_by(const char *said)
{
    for (int i = 0; i < SL_LANGUAGES; i++) {
        const size_t length = strlen(sl_language_letters[i]);
        if (strncmp(said, sl_language_letters[i], length) == 0 && strchr("_.:@", said[length]) != NULL) {
            return (sl_language_id)i; /* strchr finds the end of the text too */
        }
    }
    return SL_ENGLISH;
}

const char *sl_language_wished(void)
{
    static const char *const names[] = {"SLOWLIFT_LANGUAGE", "LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const char *const said = getenv(names[i]);
        if (said != NULL && said[0] != '\0') {
            return sl_language_letters[wished_by(said)];
        }
    }
    return "en";
}

const char *sl_in_language(const char *text)
{
    if (in_use.n == 0 || text == NULL || text[0] == '\0') {
        return text;
    }
    uint32_t low = 0, high = in_use.n;
    while (low < high) {
        const uint32_t middle = low + (high - low) / 2;
        const int order = strcmp(text, entry(&in_use, in_use.originals, middle));
        if (order == 0) {
            return entry(&in_use, in_use.translations, middle);
        }
        if (order < 0) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    return text;
}

const char *sl_plural(const char *one, const char *many, long count)
{
    const char *const first = sl_in_language(one); /* the original is "one\0many" and found by "one" */
    if (first == one) {
        return count == 1 ? one : many;
    }
    return count == 1 ? first : first + strlen(first) + 1;
}

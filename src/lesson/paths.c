/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files beside a file, and a translation held against its original.
 */
#include "lesson/paths.h"

#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "scene/yaml/file.h"

enum { PATH_SIZE = 4096 };

static const char *base_of(const char *path)
{
    const char *const slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

bool sl_beside(const char *path, const char *name, char *beside, size_t size, sl_error *error)
{
    const int folder = (int)(base_of(path) - path);
    const int length = snprintf(beside, size, "%.*s%s", folder, path, name);
    return (length >= 0 && (size_t)length < size) ||
           sl_fail(error, SL_ERR_TOO_LARGE, "a path is too long", "4095 bytes");
}

bool sl_taught_file_read(const char *path, char **text, size_t *length, sl_error *error)
{
    return sl_file_read(path, N_("a lesson's file that is read"), text, length, NULL, error);
}

bool sl_yaml_load(sl_yaml *document, const char *path, sl_error *error)
{
    char *text = NULL;
    size_t length = 0;
    if (!sl_taught_file_read(path, &text, &length, error)) {
        return false;
    }
    const bool good = sl_yaml_parse(document, text, length, path, error);
    sl_free(text);
    return good;
}

/* The xx of NAME.xx.yaml, or NULL; *stem: bytes of NAME. */
static const char *language_of(const char *base, size_t *stem)
{
    static const char end[] = ".yaml";
    const size_t length = strlen(base), tail = sizeof end - 1;
    if (length < tail + 4 || strcmp(base + length - tail, end) != 0 || base[length - tail - 3] != '.') {
        return NULL;
    }
    *stem = length - tail - 3;
    return base + length - tail - 2;
}

bool sl_original_check(const sl_reading *reading, const sl_node *root, const char *path, int language)
{
    const char *const base = base_of(path);
    const char *const word = sl_language_words.word[language];
    size_t stem = 0;
    const char *const named = language_of(base, &stem);
    if (named && strncmp(named, word, 2) != 0) {
        return sl_node_refuse(root, SL_ERR_INCONSISTENT, "a file name that says another language", word,
                              reading->error);
    }
    if (!named) {
        return language == 0 ||
               sl_node_refuse(root, SL_ERR_INCONSISTENT,
                              "a file that is not in English without its language in its name",
                              "call it NAME.es.yaml, beside NAME.yaml", reading->error);
    }
    char name[256], original[PATH_SIZE];
    snprintf(name, sizeof name, "%.*s.yaml", stem < 200 ? (int)stem : 200, base);
    sl_yaml document = {0};
    if (!sl_beside(path, name, original, sizeof original, reading->error) ||
        !sl_yaml_load(&document, original, reading->error)) {
        return false;
    }
    const bool good = sl_translation_check(reading, root, document.root);
    sl_yaml_free(&document);
    return good;
}

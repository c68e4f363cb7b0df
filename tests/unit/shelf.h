/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A resolver over texts, for files that are not shipped, then the shipped models.
 */
#ifndef SLOWLIFT_TESTS_SHELF_H
#define SLOWLIFT_TESTS_SHELF_H

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/scene.h"

static const char *const shipped[] = {SLOWLIFT_MODELS};

static inline sl_resolver shipped_resolver(void)
{
    static sl_folders folders = {shipped, 1};
    return sl_resolver_of_folders(&folders);
}

typedef struct shelf_file {
    const char *kind, *name, *text;
} shelf_file;

typedef struct shelf {
    const shelf_file *files; /* ends with a kind of NULL; then the shipped models */
    int fetches, releases;
} shelf;

static inline bool fetch_from_shelf(void *self, const char *kind, const char *name, char **text,
                                    size_t *length, char *path, size_t path_size, sl_error *error)
{
    shelf *const from = self;
    for (const shelf_file *file = from->files; file->kind; file++) {
        if (strcmp(file->kind, kind) == 0 && strcmp(file->name, name) == 0) {
            *length = strlen(file->text);
            *text = malloc(*length + 1);
            ck_assert_ptr_nonnull(*text);
            memcpy(*text, file->text, *length + 1);
            snprintf(path, path_size, "shelf/%s", name);
            from->fetches++;
            return true;
        }
    }
    sl_folders folders = {shipped, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    const bool found = resolver.fetch(resolver.self, kind, name, text, length, path, path_size, error);
    from->fetches += found ? 1 : 0;
    return found;
}

static inline void release_to_shelf(void *self, char *text)
{
    ((shelf *)self)->releases++;
    free(text);
}

#define HEAD(kind) "kind: " kind "\nversion: 1\ntitle: T\norigin: test\n"

#endif

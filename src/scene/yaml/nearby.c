/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See nearby.h.
 */
#include "scene/yaml/nearby.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/plain_text.h"

static bool ends_in(const char *name, const char *ending)
{
    const size_t length = strlen(name), tail = strlen(ending);
    return length > tail && strcmp(name + length - tail, ending) == 0;
}

/* Without what begins at its last point. */
static bool stem_of(const char *name, char stem[SL_NEARBY_LETTERS + 1])
{
    const char *const point = strrchr(name, '.');
    const size_t length = point && point != name ? (size_t)(point - name) : strlen(name);
    const bool fits = length <= SL_NEARBY_LETTERS;
    snprintf(stem, SL_NEARBY_LETTERS + 1, "%.*s", fits ? (int)length : 0, name);
    return fits && length > 0;
}

sl_nearby sl_nearby_begin(const char *path)
{
    sl_nearby nearby = {.n = 0};
    const char *const slash = strrchr(path, '/');
    const int folder = slash ? (int)(slash - path + 1) : 0;
    stem_of(path + folder, nearby.stem);
    if (folder < SL_NEARBY_NAME) {
        snprintf(nearby.folder, sizeof nearby.folder, "%.*s", folder, path);
    }
    return nearby;
}

/* Who types the beginning of a name means it. */
static int slips_to(const char *typed, const char *stem)
{
    const size_t some = 3, length = strlen(typed);
    const bool begins = length >= some && length < strlen(stem) && strncmp(typed, stem, length) == 0;
    return begins ? 1 : sl_slips(typed, stem);
}

/* A name that two folders have is offered once. */
static void keep(sl_nearby *nearby, int slips, const char *name)
{
    int at = 0;
    while (at < nearby->n && (nearby->best[at].slips < slips ||
                              (nearby->best[at].slips == slips && strcmp(nearby->best[at].name, name) < 0))) {
        at++;
    }
    if (at == SL_NEARBY_MOST || (at < nearby->n && strcmp(nearby->best[at].name, name) == 0)) {
        return;
    }
    const int n = nearby->n < SL_NEARBY_MOST ? nearby->n + 1 : nearby->n;
    for (int i = n - 1; i > at; i--) {
        nearby->best[i] = nearby->best[i - 1];
    }
    nearby->n = n;
    nearby->best[at].slips = slips;
    snprintf(nearby->best[at].name, SL_NEARBY_NAME, "%s", name);
}

void sl_nearby_look(sl_nearby *nearby, const char *folder, const char *ending, const char *before, bool bare)
{
    DIR *const open = nearby->stem[0] != '\0' ? opendir(folder[0] != '\0' ? folder : ".") : NULL;
    const struct dirent *entry = NULL;
    while (open && (entry = readdir(open)) != NULL) {
        const char *const name = entry->d_name;
        char stem[SL_NEARBY_LETTERS + 1], shown[SL_NEARBY_NAME];
        if (name[0] == '.' || !ends_in(name, ending) || !stem_of(name, stem)) {
            continue;
        }
        const int slips = slips_to(nearby->stem, stem);
        const int length = snprintf(shown, sizeof shown, "%s%.*s", before,
                                    (int)(strlen(name) - (bare ? strlen(ending) : 0)), name);
        if (length > 0 && length < SL_NEARBY_NAME && sl_slips_few(nearby->stem, slips)) {
            keep(nearby, slips, shown);
        }
    }
    if (open) {
        closedir(open);
    }
}

void sl_nearby_say(const sl_nearby *nearby, const char *hint, char *text, size_t size)
{
    char names[SL_NEARBY_MOST * (SL_NEARBY_NAME + 4)] = "";
    for (int i = 0; i < nearby->n; i++) {
        char shown[SL_NEARBY_NAME];
        const char *const name = nearby->best[i].name;
        sl_text_show(name, strlen(name), SL_TEXT_LINE, shown, sizeof shown);
        sl_append_item(names, sizeof names, ", ", "\"%s\"", shown);
    }
    if (nearby->n == 0) {
        snprintf(text, size, "%s", hint);
    } else if (hint[0] == '\0') {
        snprintf(text, size, _("near it: %s"), names);
    } else {
        snprintf(text, size, _("near it: %s; %s"), names, hint);
    }
}

bool sl_nearby_refuse(const sl_nearby *nearby, const char *path, int reason, const char *hint,
                      sl_error *error)
{
    char wanted[SL_ERROR_TEXT_SIZE];
    sl_nearby_say(nearby, hint, wanted, sizeof wanted);
    return sl_fail_at(error, SL_ERR_CANNOT_READ, path, 0, 0, strerror(reason), wanted);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The resolver over model folders: the first folder that has <kind folder>/<name>.yaml
 * wins. A name is checked again here, so that no reference can leave the folders.
 */
#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "scene/yaml/file.h"
#include "scene/yaml/value.h"

static const char *kind_folder(const char *kind)
{
    static const char *const folder[SL_KIND_COUNT] = {
        [SL_KIND_SCENE] = "scenes", [SL_KIND_HAIR] = "hair",           [SL_KIND_DYES] = "dyes",
        [SL_KIND_MIX] = "mixes",    [SL_KIND_CHEMISTRY] = "chemistry", [SL_KIND_CHART] = "charts",
    };
    const int index = sl_words_find(&sl_kind_words, kind);
    return index < 0 ? NULL : folder[index];
}

static bool refuse_missing(const sl_folders *folders, const char *kind, const char *name, sl_error *error)
{
    sl_phrase found = {0}, wanted = {0};
    sl_phrase_quote(&found, name);
    sl_phrase_add(&wanted, _("looked for "));
    sl_phrase_add(&wanted, kind_folder(kind));
    sl_phrase_add(&wanted, "/");
    sl_phrase_add(&wanted, name);
    sl_phrase_add(&wanted, ".yaml in ");
    for (int i = 0; i < folders->n_folders; i++) {
        sl_phrase_add(&wanted, i == 0 ? "" : ", ");
        sl_phrase_add(&wanted, folders->folders[i]);
    }
    sl_phrase_add(&wanted, folders->n_folders == 0 ? _("no folder at all") : "");
    return sl_fail(error, SL_ERR_MISSING_REFERENCE, found.text, wanted.text);
}

static bool fetch_from_folders(void *self, const char *kind, const char *name, char **text, size_t *length,
                               char *path, size_t path_size, sl_error *error)
{
    const sl_folders *const folders = self;
    const char *const folder = kind_folder(kind);
    if (!folder || !sl_name_is_good(name)) {
        return sl_fail(error, SL_ERR_MISSING_REFERENCE, "a name that no model can have",
                       "a name is made of a-z, 0-9 and hyphens");
    }
    for (int i = 0; i < folders->n_folders; i++) {
        const int needed = snprintf(path, path_size, "%s/%s/%s.yaml", folders->folders[i], folder, name);
        if (needed < 0 || (size_t)needed >= path_size) {
            continue; /* a path longer than messages can name is never opened */
        }
        bool absent = false;
        if (sl_file_read(path, N_("a model file that is read"), text, length, &absent, error)) {
            sl_error_clear(error); /* of the folders that did not have it */
            return true;
        }
        if (!absent) {
            return false;
        }
    }
    sl_error_clear(error);
    return refuse_missing(folders, kind, name, error);
}

static void release_text(void *self, char *text)
{
    (void)self;
    sl_free(text);
}

sl_resolver sl_resolver_of_folders(sl_folders *folders)
{
    assert(folders);
    return (sl_resolver){.self = folders, .fetch = fetch_from_folders, .release = release_text};
}

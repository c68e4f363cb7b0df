/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift list`: what the model folders hold, and the lessons beside them. Invariant: a name that stands in
 * two folders is listed once, from the folder where it would be found.
 */
#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "base/plain_text.h"
#include "command/command.h"
#include "document/renderers.h"
#include "document/text.h"
#include "front/lessons.h"
#include "front/places.h"
#include "slowlift/lesson.h"

const sl_command_line sl_list_typed = {
    .name = "list",
    .line = N_("list the model files there are"),
    .usage = {N_("[OPTIONS]")},
    .about =
        N_("Lists the model files that would be found, by kind, with the titles that they give themselves. "
           "A file that does not read is listed with \"slowlift check\" to ask why."),
    .set = {SL_OPTION_SET_OWN(sl_models_options)},
    .example = {{N_("what is there?"), {"slowlift list"}}},
};
static const char *const kind_folders[] = {N_("scenes"), N_("hair"),      N_("dyes"),
                                           N_("mixes"),  N_("chemistry"), N_("charts")};

enum { NAME_SIZE = 256 };

typedef struct sl_found_file {
    char name[NAME_SIZE]; /* without .yaml */
    int folder;           /* index into places->folder */
} sl_found_file;

typedef struct sl_found_files {
    sl_found_file *entry; /* [n] */
    size_t n, capacity;
} sl_found_files;

static bool is_listed(const sl_found_files *entries, const char *name)
{
    for (size_t i = 0; i < entries->n; i++) {
        if (strcmp(entries->entry[i].name, name) == 0) {
            return true;
        }
    }
    return false;
}

static bool add_entry(sl_found_files *entries, const char *file, int folder, sl_error *error)
{
    static const char end[] = ".yaml";
    const size_t length = strlen(file), tail = sizeof end - 1;
    if (length <= tail || length - tail >= NAME_SIZE || strcmp(file + length - tail, end) != 0) {
        return true;
    }
    char name[NAME_SIZE];
    memcpy(name, file, length - tail);
    name[length - tail] = '\0';
    if (is_listed(entries, name)) {
        return true;
    }
    if (!sl_grow(&entries->entry, &entries->capacity, entries->n + 1, sizeof entries->entry[0],
                 "listing model files", error)) {
        return false;
    }
    sl_found_file *entry = &entries->entry[entries->n++];
    memcpy(entry->name, name, sizeof name);
    entry->folder = folder;
    return true;
}

/* *folder NULL: none that may be read, which is no error. */
static bool open_folder(const char *path, DIR **folder, sl_error *error)
{
    *folder = opendir(path);
    return *folder || errno != ENOMEM || sl_fail(error, SL_ERR_NO_MEMORY, "listing model files", "");
}

static bool gather(const sl_places *places, const char *kind, sl_found_files *entries, sl_error *error)
{
    bool good = true;
    for (int i = 0; i < places->n_folders && good; i++) {
        char path[SL_PLACES_PATH + 16];
        snprintf(path, sizeof path, "%s/%s", places->folder[i], kind);
        DIR *folder = NULL;
        good = open_folder(path, &folder, error);
        if (folder == NULL) {
            continue;
        }
        const struct dirent *file = NULL;
        while (good && (file = readdir(folder)) != NULL) {
            good = file->d_name[0] == '.' || add_entry(entries, file->d_name, i, error);
        }
        closedir(folder);
    }
    return good;
}

/* Names in the order in which people count: natural-2 before natural-10. */
static int by_name(const void *one, const void *two)
{
    return strverscmp(((const sl_found_file *)one)->name, ((const sl_found_file *)two)->name);
}

/* What a folder holds may be called anything. */
static void say_name(sl_document *document, const char *name)
{
    char shown[8 * NAME_SIZE];
    sl_text_show(name, strlen(name), SL_TEXT_LINE, shown, sizeof shown);
    sl_document_cell(document, "%s", shown);
}

static const sl_text_column columns[] = {{"", 1.0, SL_OWN | SL_NAME}, {"", 3.0, SL_OWN}};

/* False: memory ran out, which says nothing of the files. */
static bool say_files(sl_document *document, const sl_places *places, const char *kind,
                      const sl_found_files *files, struct sl_library *library, sl_error *error)
{
    sl_folders folders = {.folders = places->folders, .n_folders = places->n_folders};
    sl_resolver resolver = sl_resolver_of_folders(&folders);
    resolver.library = library;
    sl_document_heading(document, _(kind));
    sl_document_table(document, "", 2, columns, 0.0);
    for (size_t i = 0; i < files->n; i++) {
        const sl_found_file *file = &files->entry[i];
        char path[SL_PLACES_PATH + NAME_SIZE + 32], title[256];
        snprintf(path, sizeof path, "%s/%s/%s.yaml", places->folder[file->folder], kind, file->name);
        say_name(document, file->name);
        if (sl_file_check(path, &resolver, NULL, title, sizeof title, error)) {
            sl_document_cell(document, "%s", title);
        } else if (error->code == SL_ERR_NO_MEMORY) {
            return false;
        } else {
            char shown[sizeof path], word[2 * sizeof path];
            sl_text_show(path, strlen(path), SL_TEXT_LINE, shown, sizeof shown);
            sl_shell_word(shown, word, sizeof word);
            sl_document_cell(document, _("does not read; ask: slowlift check %s"), word);
        }
    }
    return true;
}

/* ---- lessons: a folder each, beside the model folders --------------------------------------- */

static bool say_lessons(sl_document *document, const sl_places *places, sl_error *error)
{
    sl_lesson_entry lessons[SL_MOST_LESSONS];
    int n = 0;
    if (!sl_lessons_list(places, lessons, &n, error)) {
        return false;
    }
    if (n > 0) {
        sl_document_heading(document, _("lessons"));
        sl_document_table(document, "", 2, columns, 0.0);
    }
    for (int l = 0; l < n; l++) {
        say_name(document, lessons[l].name);
        sl_document_cell(document, "%s", lessons[l].title);
    }
    return true;
}

/* What cannot be read is not offered. */
void sl_list_offer(const char *kind, const char *typed, sl_list_offered *offer)
{
    sl_places places;
    sl_lesson_entry lessons[SL_MOST_LESSONS];
    sl_found_files files = {0};
    sl_error error = {.code = SL_OK};
    int n = 0;
    const bool of_lessons = strcmp(kind, "lessons") == 0;
    if (sl_places_find(&places, NULL, NULL, &error) &&
        (of_lessons ? sl_lessons_list(&places, lessons, &n, &error)
                    : gather(&places, kind, &files, &error))) {
        for (int i = 0; i < n; i++) {
            offer(typed, "", lessons[i].name, lessons[i].title);
        }
        if (files.n > 0) {
            qsort(files.entry, files.n, sizeof files.entry[0], by_name);
        }
        for (size_t i = 0; i < files.n; i++) {
            offer(typed, "", files.entry[i].name, "");
        }
    }
    sl_free(files.entry);
}

static bool say_kind(sl_document *document, const sl_places *places, const char *kind,
                     struct sl_library *library, sl_error *error)
{
    sl_found_files files = {0};
    bool good = gather(places, kind, &files, error);
    if (good && files.n > 0) {
        qsort(files.entry, files.n, sizeof files.entry[0], by_name);
        good = say_files(document, places, kind, &files, library, error);
    }
    sl_free(files.entry);
    return good;
}

static void say_folders(sl_document *document, const sl_places *places)
{
    sl_document_apart(document);
    for (int i = 0; i < places->n_folders; i++) {
        char shown[SL_PLACES_PATH];
        sl_text_show(places->folder[i], strlen(places->folder[i]), SL_TEXT_LINE, shown, sizeof shown);
        sl_document_say(document, i == 0 ? _("from %s") : _("then %s"), shown);
    }
}

static sl_exit list_all(const sl_places *places)
{
    sl_error error = {.code = SL_OK};
    sl_document document;
    if (places->n_folders == 0) {
        sl_fail(&error, SL_ERR_MISSING_PART, "no model folder was found",
                "give one with --models or $SLOWLIFT_MODELS");
        return sl_complain(&error);
    }
    sl_document_begin(&document, "list", NULL, &error);
    struct sl_library *const library = sl_library_new(&error);
    bool good = library != NULL;
    for (size_t kind = 0; good && kind < sizeof kind_folders / sizeof kind_folders[0]; kind++) {
        good = say_kind(&document, places, kind_folders[kind], library, &error);
    }
    sl_library_free(library);
    if (!good || !say_lessons(&document, places, &error) || document.failed) {
        sl_document_free(&document);
        return sl_complain(&error);
    }
    say_folders(&document, places);
    sl_document_end(&document, SL_ON_NOTHING);
    return sl_finish_output(sl_document_print(stdout, &document, NULL));
}

sl_exit sl_command_list(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    const char *models = NULL;
    if (!sl_options_read(&sl_list_typed, argc, argv, &models, &error)) {
        return sl_complain(&error);
    }
    if (optind < argc) {
        sl_fail(&error, SL_ERR_USAGE, "list takes no file", "name a folder with --models FOLDER");
        return sl_complain(&error);
    }
    sl_places places;
    if (!sl_places_find(&places, models, NULL, &error)) {
        return sl_complain(&error);
    }
    return list_all(&places);
}

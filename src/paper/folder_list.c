/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See folder_list.h.
 */
#include "paper/folder_list.h"

#include <dirent.h>
#include <errno.h>
#include <sys/types.h> /* before sha2.h, which does not include what it uses */

#include <sha2.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "base/save.h"

enum {
    PATH_SIZE = SL_TEMPORARY_PATH + NAME_MAX + 2,
    LINE = SL_LISTED_SUM + NAME_MAX + 8,
    MOST_FILES = 20000
};

static void path_in(const char *folder, const char *name, char path[PATH_SIZE])
{
    snprintf(path, PATH_SIZE, "%s/%s", folder, name);
}

static bool refuse(const char *path, const char *reason, sl_error *error)
{
    char quoted[SL_ERROR_TEXT_SIZE];
    snprintf(quoted, sizeof quoted, "\"%.200s\"", path);
    return sl_fail(error, SL_ERR_CANNOT_WRITE, quoted, reason);
}

static int by_name(const void *one, const void *other)
{
    const sl_listed *const a = one, *const b = other;
    return strcmp(a->name, b->name);
}

static void sort(sl_folder_list *list)
{
    if (list->n > 0) {
        qsort(list->file, list->n, sizeof *list->file, by_name);
    }
}

/* "<64 hexadecimal digits>  name"; a name of this folder, neither hidden nor the list itself. */
static bool entry_of(const char *line, sl_listed *listed)
{
    if (strspn(line, "0123456789abcdef") != SL_LISTED_SUM || strncmp(line + SL_LISTED_SUM, "  ", 2) != 0) {
        return false;
    }
    const char *const name = line + SL_LISTED_SUM + 2;
    const size_t length = strlen(name);
    if (length == 0 || length > NAME_MAX || name[0] == '.' || strchr(name, '/') != NULL ||
        strcmp(name, SL_FOLDER_LIST) == 0) {
        return false;
    }
    memcpy(listed->sum, line, SL_LISTED_SUM);
    listed->sum[SL_LISTED_SUM] = '\0';
    memcpy(listed->name, name, length + 1);
    return true;
}

static bool read_lines(sl_folder_list *list, FILE *file, const char *path, sl_error *error)
{
    char line[LINE];
    while (fgets(line, sizeof line, file) != NULL) {
        line[strcspn(line, "\n")] = '\0';
        if (line[0] == '#') {
            continue;
        }
        if (!sl_grow(&list->file, &list->room, list->n + 1, sizeof *list->file, "reading a list of files",
                     error)) {
            return false;
        }
        if (!sl_grow(&list->file, &list->room, list->n + 1, sizeof *list->file, "reading a list of files",
                     error)) {
            return false;
        }
        if (list->n == MOST_FILES || !entry_of(line, &list->file[list->n])) {
            return refuse(path, N_("it does not read; name a new folder"), error);
        }
        list->n++;
    }
    return ferror(file) == 0 || refuse(path, strerror(errno), error);
}

bool sl_folder_list_read(sl_folder_list *list, const char *folder, sl_error *error)
{
    char path[PATH_SIZE];
    *list = (sl_folder_list){.n = 0};
    path_in(folder, SL_FOLDER_LIST, path);
    FILE *const file = fopen(path, "rb");
    if (file == NULL) {
        return errno == ENOENT || refuse(path, strerror(errno), error);
    }
    list->is_there = true;
    const bool good = read_lines(list, file, path, error);
    fclose(file);
    sort(list);
    if (!good) {
        sl_folder_list_free(list);
    }
    return good;
}

bool sl_folder_list_make(sl_folder_list *list, const char *folder, sl_error *error)
{
    *list = (sl_folder_list){.is_there = true};
    DIR *const open = opendir(folder);
    const struct dirent *entry = NULL;
    bool good = open != NULL || refuse(folder, strerror(errno), error);
    while (good && (entry = readdir(open)) != NULL) {
        char path[PATH_SIZE];
        if (entry->d_name[0] == '.') {
            continue;
        }
        path_in(folder, entry->d_name, path);
        good = sl_grow(&list->file, &list->room, list->n + 1, sizeof *list->file, "listing files", error);
        if (good) {
            sl_listed *const listed = &list->file[list->n++];
            snprintf(listed->name, sizeof listed->name, "%s", entry->d_name);
            good = SHA256File(path, listed->sum) != NULL || refuse(path, strerror(errno), error);
        }
    }
    if (open != NULL) {
        closedir(open);
    }
    sort(list);
    return good;
}

bool sl_folder_list_write(const sl_folder_list *list, const char *folder, sl_error *error)
{
    char path[PATH_SIZE];
    sl_save save;
    path_in(folder, SL_FOLDER_LIST, path);
    if (!sl_save_open(&save, path, error)) {
        return false;
    }
    fputs("# slowlift wrote these files; it replaces these alone, and only as they are here\n", save.stream);
    for (size_t i = 0; i < list->n; i++) {
        fprintf(save.stream, "%s  %s\n", list->file[i].sum, list->file[i].name);
    }
    return sl_save_commit(&save, error);
}

const sl_listed *sl_folder_list_find(const sl_folder_list *list, const char *name)
{
    sl_listed wanted = {.sum = ""};
    snprintf(wanted.name, sizeof wanted.name, "%s", name);
    return list->n > 0 ? bsearch(&wanted, list->file, list->n, sizeof wanted, by_name) : NULL;
}

bool sl_listed_is_unchanged(const sl_listed *listed, const char *folder)
{
    char path[PATH_SIZE], sum[SL_LISTED_SUM + 1];
    path_in(folder, listed->name, path);
    return SHA256File(path, sum) != NULL && strcmp(sum, listed->sum) == 0;
}

void sl_folder_list_free(sl_folder_list *list)
{
    sl_free(list->file);
    *list = (sl_folder_list){.n = 0};
}

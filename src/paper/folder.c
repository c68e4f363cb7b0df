/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See folder.h. Two folders change places in one step (renameat2(2), RENAME_EXCHANGE), so that a death
 * at any moment leaves the old or the new one there, whole.
 */
#include "paper/folder.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/hold.h"
#include "base/language.h"
#include "paper/folder_list.h"

static bool refuse(const char *path, const char *reason, sl_error *error)
{
    char quoted[SL_ERROR_TEXT_SIZE];
    sl_error_clear(error);
    snprintf(quoted, sizeof quoted, "\"%.200s\"", path);
    return sl_fail(error, SL_ERR_CANNOT_WRITE, quoted, reason);
}

/* ---- whose files lie there -------------------------------------------------------------------- */

static bool refuse_entry(const char *folder, const char *name, const sl_folder_list *list, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    if (!list->is_there) {
        snprintf(found, sizeof found,
                 _("the folder \"%.80s\" holds \"%.40s\", and no list of what slowlift wrote"), folder, name);
        return sl_fail(
            error, SL_ERR_USAGE, found,
            N_("name a new folder or an empty one; an old pack without a list is yours to delete"));
    }
    snprintf(found, sizeof found,
             sl_folder_list_find(list, name)
                 ? _("in the folder \"%.80s\" \"%.40s\" was changed since it was written")
                 : _("the folder \"%.80s\" holds \"%.40s\", which slowlift did not write"),
             folder, name);
    return sl_fail(error, SL_ERR_USAGE, found, N_("name a new folder, or keep that file elsewhere"));
}

static bool is_dots(const char *name)
{
    return strcmp(name, ".") == 0 || strcmp(name, "..") == 0;
}

static bool entries_are_ours(DIR *open, const char *folder, const sl_folder_list *list, sl_error *error)
{
    const struct dirent *entry = NULL;
    while ((entry = readdir(open)) != NULL) {
        const char *const name = entry->d_name;
        if (is_dots(name) || (list->is_there && strcmp(name, SL_FOLDER_LIST) == 0)) {
            continue;
        }
        const sl_listed *const listed = sl_folder_list_find(list, name);
        if (listed == NULL || !sl_listed_is_unchanged(listed, folder)) {
            return refuse_entry(folder, name, list, error);
        }
    }
    return true;
}

/* A folder that is not there is free too; one with nothing in it is empty. */
static bool is_free(const char *folder, sl_error *error)
{
    sl_folder_list list;
    DIR *const open = opendir(folder);
    if (open == NULL) {
        return errno == ENOENT || refuse(folder, strerror(errno), error);
    }
    bool good = sl_folder_list_read(&list, folder, error);
    if (good) {
        good = entries_are_ours(open, folder, &list, error);
        sl_folder_list_free(&list);
    }
    closedir(open);
    return good;
}

/* Without the slashes at its end, and through links. */
static bool settle(sl_folder *folder, const char *path, sl_error *error)
{
    char *const real = realpath(path, NULL);
    struct stat found;
    int length = snprintf(folder->path, sizeof folder->path, "%s", real != NULL ? real : path);
    free(real);
    if (length <= 0 || (size_t)length >= sizeof folder->path) {
        return refuse(path, strerror(length == 0 ? ENOENT : ENAMETOOLONG), error);
    }
    while (length > 1 && folder->path[length - 1] == '/') {
        folder->path[--length] = '\0';
    }
    folder->exists = stat(folder->path, &found) == 0;
    folder->mode = folder->exists ? found.st_mode & 07777 : sl_usual_mode(true);
    return true;
}

bool sl_folder_check(const char *path, sl_error *error)
{
    sl_folder folder = {.exists = false};
    return settle(&folder, path, error) && is_free(folder.path, error);
}

/* ---- writing and putting in place --------------------------------------------------------------- */

bool sl_folder_open(sl_folder *folder, const char *path, sl_error *error)
{
    *folder = (sl_folder){.exists = false};
    if (!settle(folder, path, error) || !is_free(folder->path, error)) {
        return false;
    }
    return sl_temporary_folder(&folder->beside, folder->path) || refuse(path, strerror(errno), error);
}

static bool write_list(const sl_folder *folder, sl_error *error)
{
    sl_folder_list list;
    const bool good = sl_folder_list_make(&list, folder->beside.path, error) &&
                      sl_folder_list_write(&list, folder->beside.path, error);
    sl_folder_list_free(&list);
    return good;
}

/* The older one is looked at again: computing took its time. Locked while it goes, so that nobody else puts
 * another in its place meanwhile. */
static bool swap(sl_folder *folder, sl_error *error)
{
    const int old = open(folder->path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (old < 0) {
        return refuse(folder->path, strerror(errno), error);
    }
    bool good =
        flock(old, LOCK_EX | LOCK_NB) == 0 ||
        refuse(folder->path,
               errno == EWOULDBLOCK ? N_("another slowlift writes there; try again") : strerror(errno),
               error);
    good = good && is_free(folder->path, error);
    if (good && renameat2(AT_FDCWD, folder->beside.path, AT_FDCWD, folder->path, RENAME_EXCHANGE) != 0) {
        good = refuse(
            folder->path,
            errno == EINVAL || errno == ENOSYS
                ? N_("this disk cannot put one folder in another's place in one step: name a new folder")
                : strerror(errno),
            error);
    }
    if (good) {
        sl_temporary_remove(&folder->beside); /* the older one has that name now */
    }
    close(old);
    return good;
}

/* An empty folder is replaced as one that is not there: rename(2). */
static bool put_in_place(sl_folder *folder, sl_error *error)
{
    if (rename(folder->beside.path, folder->path) == 0) {
        sl_temporary_forget(&folder->beside);
        return true;
    }
    return errno == ENOTEMPTY || errno == EEXIST ? swap(folder, error)
                                                 : refuse(folder->path, strerror(errno), error);
}

bool sl_folder_commit(sl_folder *folder, sl_error *error)
{
    bool good = write_list(folder, error) && (chmod(folder->beside.path, folder->mode) == 0 ||
                                              refuse(folder->path, strerror(errno), error));
    if (good) {
        sl_signals_hold();
        good = put_in_place(folder, error);
        sl_signals_release();
    }
    if (!good) {
        sl_folder_abandon(folder, error);
    }
    return good;
}

void sl_folder_abandon(sl_folder *folder, sl_error *error)
{
    sl_temporary_rename_in(&folder->beside, folder->path, error);
    sl_temporary_remove(&folder->beside);
}

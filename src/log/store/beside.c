/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See beside.h.
 */
#include "log/store/beside.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/language.h"

static bool refuse_there(const char *to, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("there is a file \"%.160s\" already"), to);
    return sl_fail(error, SL_ERR_USAGE, found,
                   _("name a new one: a copy is never written over another file"));
}

static bool sync_path(const char *path)
{
    const int file = open(path, O_RDONLY | O_CLOEXEC);
    const bool good = file >= 0 && fsync(file) == 0;
    if (file >= 0) {
        close(file);
    }
    return good;
}

/* What is there already stays, unless it is to be replaced. */
static bool give_name(const char *beside, const char *to, bool replaces, sl_error *error)
{
    char folder[SL_LOG_PATH];
    sl_log_folder(to, folder);
    if (sync_path(beside)) {
        if (replaces ? rename(beside, to) == 0 : sl_name_new(beside, to)) {
            if (sync_path(folder) || replaces) {
                return true; /* what was there has gone: it is the new one now, whatever the disk says */
            }
        } else if (!replaces && errno == EEXIST) {
            return refuse_there(to, error);
        }
    }
    return sl_fail(error, SL_ERR_CANNOT_WRITE, to, strerror(errno));
}

bool sl_beside_free(const char *to, sl_error *error)
{
    return access(to, F_OK) != 0 || refuse_there(to, error);
}

bool sl_beside_make(const char *to, sl_log_beside *beside, sl_error *error)
{
    sl_temporary_sweep(to);
    if (!sl_temporary_folder(&beside->folder, to)) {
        return sl_fail(error, SL_ERR_CANNOT_WRITE, to, strerror(errno));
    }
    const char *const slash = strrchr(to, '/');
    const size_t length = (size_t)snprintf(beside->path, sizeof beside->path, "%s/%s", beside->folder.path,
                                           slash ? slash + 1 : to);
    if (length >= sizeof beside->path) {
        sl_temporary_remove(&beside->folder);
        return sl_fail(error, SL_ERR_CANNOT_WRITE, to, strerror(ENAMETOOLONG));
    }
    return true;
}

bool sl_beside_end(sl_log_beside *beside, const char *to, bool replaces, bool good, sl_error *error)
{
    good = good && give_name(beside->path, to, replaces, error);
    if (!good) {
        char folder[SL_LOG_PATH];
        sl_log_folder(to, folder);
        char *const slash = strrchr(folder + 1, '/'); /* not the one that is all of it */
        if (slash) {
            *slash = '\0';
        }
        sl_temporary_rename_in(&beside->folder, folder, error);
    }
    sl_temporary_remove(&beside->folder);
    return good;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Writing a file beside the old one and renaming it (rename is atomic: POSIX.1-2008,
 * rename()).
 */
#include "base/save.h"

#include <errno.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool refuse(const char *path, int reason, sl_error *error)
{
    sl_error_clear(error);
    char quoted[SL_ERROR_TEXT_SIZE];
    snprintf(quoted, sizeof quoted, "\"%.200s\"", path);
    return sl_fail(error, SL_ERR_CANNOT_WRITE, quoted, strerror(reason));
}

/* Follow links, so that the file is replaced and not the link to it. */
static bool settle_path(sl_save *save, const char *path, struct stat *old, bool *exists)
{
    *exists = stat(path, old) == 0;
    char resolved[PATH_MAX];
    const char *real = *exists && realpath(path, resolved) != NULL ? resolved : path;
    const int length = snprintf(save->path, sizeof save->path, "%s", real);
    if (length < 0 || (size_t)length >= sizeof save->path) {
        errno = ENAMETOOLONG;
        return false;
    }
    return true;
}

static mode_t usual_mode(void)
{
    const mode_t mask = umask(0);
    umask(mask);
    return 0666 & ~mask;
}

bool sl_save_open(sl_save *save, const char *path, sl_error *error)
{
    *save = (sl_save){0};
    struct stat old;
    bool exists = false;
    if (!settle_path(save, path, &old, &exists)) {
        return refuse(path, errno, error);
    }
    if (exists && S_ISDIR(old.st_mode)) {
        return refuse(path, EISDIR, error);
    }
    save->direct = exists && !S_ISREG(old.st_mode);
    if (save->direct) {
        save->stream = fopen(save->path, "wb");
        return save->stream != NULL || refuse(path, errno, error);
    }
    if (exists && access(save->path, W_OK) != 0) {
        return refuse(path, errno, error);
    }
    snprintf(save->beside, sizeof save->beside, "%s.XXXXXX", save->path);
    const int file = mkstemp(save->beside);
    if (file < 0) {
        return refuse(path, errno, error);
    }
    save->stream = fdopen(file, "wb");
    if (save->stream == NULL || fchmod(file, exists ? old.st_mode & 07777 : usual_mode()) != 0) {
        const int reason = errno;
        if (save->stream == NULL) {
            close(file);
        }
        sl_save_abandon(save);
        return refuse(path, reason, error);
    }
    return true;
}

bool sl_save_commit(sl_save *save, sl_error *error)
{
    errno = 0;
    bool good = fflush(save->stream) == 0 && ferror(save->stream) == 0;
    if (good && !save->direct) {
        good = fsync(fileno(save->stream)) == 0;
    }
    int reason = save->reason != 0 ? save->reason : errno;
    if (fclose(save->stream) != 0 && good) {
        good = false;
        reason = errno;
    }
    save->stream = NULL;
    if (good && !save->direct && rename(save->beside, save->path) != 0) {
        good = false;
        reason = errno;
    }
    if (!good) {
        sl_save_abandon(save);
        return refuse(save->path, reason != 0 ? reason : EIO, error);
    }
    return true;
}

void sl_save_abandon(sl_save *save)
{
    if (save->stream != NULL) {
        fclose(save->stream);
        save->stream = NULL;
    }
    if (!save->direct && save->beside[0] != '\0') {
        unlink(save->beside);
        save->beside[0] = '\0';
    }
}

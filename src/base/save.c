/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Writing a file beside the old one and renaming it (rename is atomic: POSIX.1-2008,
 * rename()).
 */
#include "base/save.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/inputs.h"
#include "base/memory.h"

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

/* ---- a stream that keeps the reason ------------------------------------------------------------ */

/* A stream remembers that writing failed, and forgets why. */
struct sl_save_disk {
    int file, reason;
};

static ssize_t write_kept(void *cookie, const char *bytes, size_t size)
{
    struct sl_save_disk *const disk = cookie;
    const int reason = sl_write_all(disk->file, bytes, size);
    disk->reason = disk->reason != 0 ? disk->reason : reason;
    errno = reason != 0 ? reason : errno;
    return reason != 0 ? 0 : (ssize_t)size; /* stdio takes 0 for a failure: fopencookie(3) */
}

/* The stream closes `file` itself. */
static bool open_stream(sl_save *save, int file, sl_error *error)
{
    save->disk = sl_new(1, sizeof *save->disk, "opening a file to write", error);
    if (save->disk == NULL) {
        return false;
    }
    save->disk->file = file;
    save->stream = fopencookie(save->disk, "wb", (cookie_io_functions_t){.write = write_kept});
    return save->stream != NULL || refuse(save->named, ENOMEM, error);
}

static int close_stream(sl_save *save)
{
    int reason = 0;
    if (save->stream != NULL) {
        fclose(save->stream);
        save->stream = NULL;
    }
    if (save->disk != NULL) {
        reason = save->disk->reason;
        if (close(save->disk->file) != 0 && reason == 0) {
            reason = errno; /* some file systems say only then that the disk was full */
        }
        sl_free(save->disk);
        save->disk = NULL;
    }
    return reason;
}

/* ---- opening ------------------------------------------------------------------------------------ */

/* A device or a pipe, or standard output by its name in /dev: it is written to as it is. */
static bool open_direct(sl_save *save, sl_error *error)
{
    save->direct = true;
    const int file = sl_is_stdout(save->named) ? dup(STDOUT_FILENO) : open(save->named, O_WRONLY | O_CLOEXEC);
    if (file < 0) {
        return refuse(save->named, errno, error);
    }
    if (!open_stream(save, file, error)) {
        if (save->disk == NULL) {
            close(file);
        }
        close_stream(save);
        return false;
    }
    return true;
}

static bool open_beside(sl_save *save, mode_t mode, sl_error *error)
{
    if (!sl_temporary_file(&save->beside, save->path)) {
        return refuse(save->named, errno, error);
    }
    /* A descriptor of its own for the stream: the lock lasts until the file has its name. */
    const int file = dup(save->beside.file);
    if (file < 0 || fchmod(file, mode) != 0) {
        const int reason = errno;
        if (file >= 0) {
            close(file);
        }
        sl_save_abandon(save);
        return refuse(save->named, reason, error);
    }
    if (!open_stream(save, file, error)) {
        if (save->disk == NULL) {
            close(file);
        }
        sl_save_abandon(save);
        return false;
    }
    return true;
}

bool sl_save_open(sl_save *save, const char *path, sl_error *error)
{
    *save = (sl_save){.named = path};
    struct stat old;
    bool exists = false;
    if (!sl_output_allowed(path, error)) {
        return false;
    }
    if (!settle_path(save, path, &old, &exists)) {
        return refuse(path, errno, error);
    }
    if (exists && S_ISDIR(old.st_mode)) {
        return refuse(path, EISDIR, error);
    }
    if (exists && (!S_ISREG(old.st_mode) || sl_is_stdout(path))) {
        return open_direct(save, error);
    }
    if (exists && access(save->path, W_OK) != 0) {
        return refuse(path, errno, error);
    }
    return open_beside(save, exists ? old.st_mode & 07777 : sl_usual_mode(false), error);
}

bool sl_save_commit(sl_save *save, sl_error *error)
{
    errno = 0;
    int reason = 0;
    const bool flushed = fflush(save->stream) == 0 && ferror(save->stream) == 0;
    if (flushed && !save->direct && fsync(save->disk->file) != 0) {
        reason = errno;
    }
    const int wrote = close_stream(save);
    reason = wrote != 0 ? wrote : reason != 0 ? reason : flushed ? 0 : EIO;
    if (reason == 0 && !save->direct && rename(save->beside.path, save->path) != 0) {
        reason = errno;
    }
    if (reason != 0) {
        sl_save_abandon(save);
        return refuse(save->named, reason, error);
    }
    sl_temporary_forget(&save->beside);
    return true;
}

void sl_save_abandon(sl_save *save)
{
    close_stream(save);
    sl_temporary_remove(&save->beside);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Looked at before it is opened, since to open a device can already do something; opened without
 * waiting, since it may have become a pipe between; looked at again, since only what is open counts.
 */
#include "base/plain_file.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/inputs.h"
#include "base/memory.h"

static bool refuse(const char *path, int reason, bool *absent, sl_error *error)
{
    if (absent) {
        *absent = reason == ENOENT || reason == ENOTDIR;
    }
    return sl_fail_at(error, SL_ERR_CANNOT_READ, path, 0, 0, strerror(reason), "");
}

bool sl_file_fits(long long bytes, sl_file_most most, const char *path, sl_error *error)
{
    return bytes <= most.bytes ||
           sl_fail_at(error, SL_ERR_TOO_LARGE, path, 0, 0, "this file is too large", most.words);
}

static bool has_an_end(const struct stat *found, sl_file_most most, const char *path, sl_error *error)
{
    if (S_ISDIR(found->st_mode)) {
        return sl_fail_at(error, SL_ERR_CANNOT_READ, path, 0, 0, "it is a folder", "");
    }
    if (!S_ISREG(found->st_mode)) {
        return sl_fail_at(error, SL_ERR_CANNOT_READ, path, 0, 0,
                          "it is a pipe, a terminal or a device, which need not end; save it as a file", "");
    }
    return sl_file_fits(found->st_size, most, path, error);
}

FILE *sl_plain_file_open(const char *path, const char *what, sl_file_most most, bool *absent, sl_error *error)
{
    struct stat found;
    if (stat(path, &found) != 0) {
        refuse(path, errno, absent, error);
        return NULL;
    }
    if (absent) {
        *absent = false;
    }
    if (!has_an_end(&found, most, path, error)) {
        return NULL;
    }
    const int file = open(path, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    if (file < 0) {
        refuse(path, errno, absent, error);
        return NULL;
    }
    FILE *stream = NULL;
    if (fstat(file, &found) != 0) {
        refuse(path, errno, absent, error);
    } else if (has_an_end(&found, most, path, error) && sl_input_opened(file, path, what, error)) {
        stream = fdopen(file, "rb");
        if (!stream) {
            sl_fail(error, SL_ERR_NO_MEMORY, "opening a file", "");
        }
    }
    if (!stream) {
        close(file);
    }
    return stream;
}

/* One byte more than may be is asked for. */
static bool read_all(FILE *file, const char *path, sl_file_most most, char **text, size_t *length,
                     sl_error *error)
{
    size_t room = 0, got = 1;
    while (got > 0 && (long long)*length <= most.bytes) {
        if (!sl_grow(text, &room, *length + 4096, 1, "reading a file", error)) {
            return false;
        }
        got = fread(*text + *length, 1, room - *length - 1, file);
        *length += got;
        (*text)[*length] = '\0';
    }
    if (ferror(file)) {
        return sl_fail_at(error, SL_ERR_CANNOT_READ, path, 0, 0, strerror(errno), "");
    }
    return sl_file_fits((long long)*length, most, path, error);
}

bool sl_plain_file_read(const char *path, const char *what, sl_file_most most, char **text, size_t *length,
                        bool *absent, sl_error *error)
{
    FILE *const file = sl_plain_file_open(path, what, most, absent, error);
    if (!file) {
        return false;
    }
    *text = NULL;
    *length = 0;
    const bool good = read_all(file, path, most, text, length, error);
    fclose(file);
    if (!good) {
        sl_free(*text);
        *text = NULL;
    }
    return good;
}

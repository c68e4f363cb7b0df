/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What lies beside a log that forgets: photographs, and other files that hold the same code.
 */
#include <ctype.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/memory.h"
#include "base/plain_file.h"
#include "log/shelf/forget.h"

static bool of_a_code(char letter)
{
    return isalnum((unsigned char)letter) || letter == '-' || letter == '_';
}

const char *sl_code_in(const char *text, size_t length, const char *code)
{
    const size_t n = strlen(code);
    for (size_t i = 0; i + n <= length; i++) {
        if (memcmp(text + i, code, n) == 0 && (i == 0 || !of_a_code(text[i - 1])) &&
            (i + n == length || !of_a_code(text[i + n]))) {
            return text + i;
        }
    }
    return NULL;
}

/* ---- other files ------------------------------------------------------------------------------------- */

typedef struct sl_looking_for {
    const char *log, *code;
    sl_forgotten *forgotten;
} sl_looking_for;

static bool log_names_it(const char *path, const char *code, bool *names)
{
    sl_log *log = NULL;
    const bool read =
        sl_log_open(&log, path, SL_LOG_READ, NULL) && sl_log_names(log, code, names, NULL) && !log->copied;
    sl_log_close(log);
    return read;
}

static bool is_log(const char *path)
{
    const int file = open(path, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    const bool log = file >= 0 && sl_log_headed(file);
    if (file >= 0) {
        close(file);
    }
    return log;
}

/* What SQLite keeps beside a log is read with the log. */
static bool is_part(const char *path)
{
    static const char *const ends[] = {"-wal", "-shm", "-journal"};
    char whole[SL_LOG_PATH];
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++) {
        const size_t length = strlen(path), tail = strlen(ends[i]);
        if (length > tail && strcmp(path + length - tail, ends[i]) == 0) {
            snprintf(whole, sizeof whole, "%.*s", (int)(length - tail), path);
            return is_log(whole);
        }
    }
    return false;
}

/* What cannot be read may hold it. */
static bool may_hold(const char *path, const char *code)
{
    static const sl_file_most most = {64LL << 20, "64 MiB"};
    char *text = NULL;
    size_t length = 0;
    bool names = false;
    if (is_log(path)) {
        return !log_names_it(path, code, &names) || names;
    }
    const bool read = sl_plain_file_read(path, "", most, &text, &length, NULL, NULL);
    names = read && sl_code_in(text, length, code) != NULL;
    sl_free(text);
    return !read || names;
}

static bool same_file(const char *one, const char *other)
{
    struct stat a, b;
    return stat(one, &a) == 0 && stat(other, &b) == 0 && a.st_dev == b.st_dev && a.st_ino == b.st_ino;
}

static bool look_into(void *self, const char *path, const char *name, sl_error *error)
{
    const sl_looking_for *const looking = self;
    sl_forgotten *const forgotten = looking->forgotten;
    bool goes = same_file(path, looking->log) || is_part(path);
    for (size_t i = 0; !goes && i < forgotten->n_photos; i++) {
        goes = same_file(path, forgotten->photo[i]);
    }
    if (goes || (!sl_code_in(name, strlen(name), looking->code) && !may_hold(path, looking->code))) {
        return true;
    }
    if (!sl_grow(&forgotten->elsewhere, &forgotten->room, forgotten->n_elsewhere + 1,
                 sizeof *forgotten->elsewhere, "looking for copies", error)) {
        return false;
    }
    const char *const in_it = sl_code_in(name, strlen(name), looking->code);
    const int before = (int)(in_it ? in_it - name : 0); /* nothing tells the code */
    snprintf(forgotten->elsewhere[forgotten->n_elsewhere++], SL_SHELF_NAME, "%.*s%s%s", before, name,
             in_it ? "\xe2\x80\xa6" : "", in_it ? in_it + strlen(looking->code) : name);
    return true;
}

bool sl_forget_elsewhere(const char *path, const char *code, sl_forgotten *forgotten, sl_error *error)
{
    char folder[SL_LOG_PATH];
    sl_looking_for looking = {path, code, forgotten};
    sl_log_folder(path, folder);
    return sl_shelf_each_file(folder, false, look_into, &looking, error);
}

void sl_forgotten_free(sl_forgotten *forgotten)
{
    sl_free(forgotten->elsewhere);
    sl_free(forgotten->photo);
    *forgotten = (sl_forgotten){.tests = 0};
}

/* ---- photographs --------------------------------------------------------------------------------------- */

static bool real_path(const char *path, char real[SL_LOG_PATH])
{
    char *const found = realpath(path, NULL);
    const bool fits = found && (size_t)snprintf(real, SL_LOG_PATH, "%s", found) < SL_LOG_PATH;
    free(found);
    return fits;
}

bool sl_photo_beside(const char *log, const char *photo, const char *hash, char real[SL_LOG_PATH])
{
    char folder[SL_LOG_PATH], at[SL_LOG_PATH], within[SL_LOG_PATH], now[SL_SHA256_TEXT];
    sl_log_folder(log, folder);
    const int length = photo[0] == '/' ? snprintf(at, sizeof at, "%s", photo)
                                       : snprintf(at, sizeof at, "%s/%s", folder, photo);
    return length > 0 && (size_t)length < sizeof at && real_path(folder, within) && real_path(at, real) &&
           strncmp(real, within, strlen(within)) == 0 && real[strlen(within)] == '/' &&
           sl_photo_hash(real, now, NULL) && strcmp(now, hash) == 0;
}

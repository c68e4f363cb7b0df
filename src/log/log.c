/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Opening and closing a log. Write-ahead log with a full flush at each commit: what was
 * acknowledged survives the death of program and system; readers never wait for a writer.
 * Its shared memory does not reach across machines, so network folders are refused
 * (https://sqlite.org/wal.html, section 1).
 */
#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/vfs.h>
#include <unistd.h>
#include <uuid/uuid.h>

#include "base/hold.h"
#include "base/inputs.h"
#include "base/language.h"
#include "base/memory.h"
#include "log/sql.h"
#include "log/tables.h"

void sl_uuid_make(char id[SL_UUID])
{
    uuid_t made;
    uuid_generate_random(made);
    uuid_unparse_lower(made, id);
}

/* f_type of statfs(2): linux/magic.h and the manual page. */
static bool lies_on_another_machine(const char *folder)
{
    static const unsigned long remote[] = {
        0x6969 /* NFS */,       0x517b /* SMB */,     0xff534d42 /* CIFS */,
        0xfe534d42 /* SMB 2 */, 0x01021997 /* 9P */,  0x65735546 /* FUSE */,
        0x73757245 /* Coda */,  0x5346414f /* AFS */, 0x00c36400 /* Ceph */};
    struct statfs on;
    if (statfs(folder, &on) != 0) {
        return false; /* opening will say what is wrong */
    }
    for (size_t i = 0; i < sizeof remote / sizeof remote[0]; i++) {
        if (((unsigned long)on.f_type & 0xffffffffUL) == remote[i]) {
            return true;
        }
    }
    return false;
}

static void folder_of(const char *path, char folder[SL_LOG_PATH])
{
    const char *const slash = strrchr(path, '/');
    snprintf(folder, SL_LOG_PATH, "%.*s", slash ? (int)(slash - path + 1) : 1, slash ? path : ".");
}

static bool folder_check(const char *path, sl_error *error)
{
    char folder[SL_LOG_PATH];
    folder_of(path, folder);
    return !lies_on_another_machine(folder) ||
           sl_fail(error, SL_ERR_NOT_ALLOWED, "a folder on another machine (or behind FUSE)",
                   "keep the log on a disk of this computer, and send copies or merge logs");
}

/* A missing file is told apart from one that cannot be read, and a folder that may not be written is
 * told before SQLite stumbles over it. */
static bool file_check(const char *path, sl_log_how how, sl_error *error)
{
    struct stat found;
    char folder[SL_LOG_PATH];
    folder_of(path, folder);
    const bool there = stat(path, &found) == 0;
    if (!there && (how != SL_LOG_MAKE || errno != ENOENT || access(folder, F_OK) != 0)) {
        return sl_fail_at(error, SL_ERR_CANNOT_READ, path, 0, 0, strerror(errno), "");
    }
    if (there && !S_ISREG(found.st_mode)) {
        return sl_fail_at(error, SL_ERR_NO_LOG, path, 0, 0, _("no plain file"),
                          _("name one, such as strands.db"));
    }
    if (how != SL_LOG_READ && ((there && access(path, W_OK) != 0) || access(folder, W_OK) != 0)) {
        return sl_fail(error, SL_ERR_CANNOT_WRITE, path, strerror(errno));
    }
    return true;
}

/* The log, and the files that SQLite keeps beside it (https://sqlite.org/tempfiles.html). */
static bool name_files(const char *path, sl_error *error)
{
    static const char *const ends[] = {"-wal", "-shm", "-journal"};
    char beside[SL_LOG_PATH + 16];
    bool good = sl_input_named(path, N_("the log that is used"), error);
    for (size_t i = 0; good && i < sizeof ends / sizeof ends[0]; i++) {
        snprintf(beside, sizeof beside, "%s%s", path, ends[i]);
        good = sl_input_named(beside, N_("a part of the log that is used"), error);
    }
    return good;
}

/* A log that was closed in good order, where nothing can be written beside it: SQLite would want its
 * shared memory there even to read, unless it is told that nobody writes. */
static bool lies_still(const char *path)
{
    char folder[SL_LOG_PATH], beside[SL_LOG_PATH + 8];
    folder_of(path, folder);
    snprintf(beside, sizeof beside, "%s-wal", path);
    return access(folder, W_OK) != 0 && access(beside, F_OK) != 0;
}

/* file:...?immutable=1 (https://sqlite.org/uri.html). */
static void still_uri(const char *path, char uri[3 * SL_LOG_PATH + 32])
{
    size_t used = (size_t)snprintf(uri, 8, "file:");
    for (const char *at = path; *at != '\0'; at++) {
        used += (size_t)snprintf(uri + used, 4, strchr("%?# ", *at) ? "%%%02X" : "%c", (unsigned)*at & 0xffU);
    }
    snprintf(uri + used, 16, "?immutable=1");
}

static int open_file(sl_log *log, sl_log_how how)
{
    char uri[3 * SL_LOG_PATH + 32];
    if (how == SL_LOG_READ && lies_still(log->path)) {
        still_uri(log->path, uri);
        return sqlite3_open_v2(uri, &log->base, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, NULL);
    }
    /* Who only may read leaves SQLite's two files beside the log; who could write clears them away. */
    const int flags = how == SL_LOG_READ && access(log->path, W_OK) != 0 ? SQLITE_OPEN_READONLY
                      : how == SL_LOG_MAKE ? SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE
                                           : SQLITE_OPEN_READWRITE;
    return sqlite3_open_v2(log->path, &log->base, flags, NULL);
}

/* What takes long ends early, as if the disk had failed, where a signal waits for it (base/hold.h). */
static int is_unwanted(void *nothing)
{
    (void)nothing;
    return sl_signal_waits() ? 1 : 0;
}

static bool settle(sl_log *log, sl_log_how how, sl_error *error)
{
    static const char usual[] = "PRAGMA foreign_keys = ON; PRAGMA trusted_schema = OFF;";
    static const char writing[] = "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;";
    const int steps = 10000; /* some milliseconds of SQLite's machine */
    sqlite3_busy_timeout(log->base, SL_LOG_WAIT_MS);
    sqlite3_progress_handler(log->base, steps, is_unwanted, NULL);
    if (!sl_sql_run(log, usual, error) || !sl_tables_check(log, &log->version, error)) {
        return false;
    }
    if (how == SL_LOG_READ) {
        return sl_sql_run(log, "PRAGMA query_only = ON", error) &&
               (log->version > 0 || sl_fail_at(error, SL_ERR_NO_LOG, log->path, 0, 0, _("without tables"),
                                               _("open it once for writing to make them")));
    }
    return sl_sql_run(log, writing, error) && (log->version == SL_LOG_VERSION || sl_tables_make(log, error));
}

bool sl_log_open(sl_log **log, const char *path, sl_log_how how, sl_error *error)
{
    if (strlen(path) >= SL_LOG_PATH) {
        return sl_fail(error, SL_ERR_CANNOT_READ, "its path is too long", "");
    }
    if (!folder_check(path, error) || !file_check(path, how, error) || !name_files(path, error)) {
        return false;
    }
    sl_log *const opened = sl_new(1, sizeof *opened, "opening the log", error);
    if (!opened) {
        return false;
    }
    snprintf(opened->path, sizeof opened->path, "%s", path);
    opened->writes = how != SL_LOG_READ;
    const bool good =
        open_file(opened, how) == SQLITE_OK ? settle(opened, how, error) : sl_sql_refuse(opened, error);
    if (!good) {
        sl_log_close(opened);
        return false;
    }
    *log = opened;
    return true;
}

void sl_log_close(sl_log *log)
{
    if (log) {
        sqlite3_close(log->base);
        sl_free(log);
    }
}

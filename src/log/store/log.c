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

#include "base/append.h"
#include "base/inputs.h"
#include "base/language.h"
#include "base/memory.h"
#include "log/store/known.h"
#include "log/store/rescue.h"
#include "log/store/sql.h"
#include "log/store/tables.h"
#include "scene/yaml/nearby.h"

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

void sl_log_folder(const char *path, char folder[SL_LOG_PATH])
{
    const char *const slash = strrchr(path, '/');
    snprintf(folder, SL_LOG_PATH, "%.*s", slash ? (int)(slash - path + 1) : 1, slash ? path : ".");
}

static bool folder_check(const char *path, sl_error *error)
{
    char folder[SL_LOG_PATH];
    sl_log_folder(path, folder);
    if (!lies_on_another_machine(folder)) {
        return true;
    }
    return sl_fail(error, SL_ERR_NOT_ALLOWED, "a folder on another machine (or behind FUSE)",
                   "keep the log on a disk of this computer, and send copies or merge logs");
}

/* A missing file is told apart from one that cannot be read, and a folder that may not be written is
 * told before SQLite stumbles over it. */
static bool file_check(const char *path, sl_log_how how, sl_error *error)
{
    struct stat found;
    char folder[SL_LOG_PATH];
    sl_log_folder(path, folder);
    const bool there = stat(path, &found) == 0;
    if (!there && (how != SL_LOG_MAKE || errno != ENOENT || access(folder, F_OK) != 0)) {
        const int reason = errno;
        sl_nearby nearby = sl_nearby_begin(path);
        sl_nearby_look(&nearby, nearby.folder, ".db", nearby.folder, false);
        return sl_nearby_refuse(&nearby, path, reason, _("\"slowlift log new\" begins a log"), error);
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
    sl_log_folder(path, folder);
    snprintf(beside, sizeof beside, "%s-wal", path);
    return access(folder, W_OK) != 0 && access(beside, F_OK) != 0;
}

enum { STILL_URI = 3 * SL_LOG_PATH + 32 };

/* file:...?immutable=1 (https://sqlite.org/uri.html). */
static void still_uri(const char *path, char uri[STILL_URI])
{
    snprintf(uri, STILL_URI, "file:");
    for (const char *at = path; *at != '\0'; at++) {
        sl_append(uri, STILL_URI, strchr("%?# ", *at) ? "%%%02X" : "%c", (unsigned)*at & 0xffU);
    }
    sl_append(uri, STILL_URI, "?immutable=1");
}

static int open_file(sl_log *log, sl_log_how how)
{
    char uri[STILL_URI];
    if (how == SL_LOG_READ && lies_still(log->path)) {
        still_uri(log->path, uri);
        return sqlite3_open_v2(uri, &log->base, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, NULL);
    }
    /* Who only may read leaves SQLite's two files beside the log; who could write clears them away. */
    const int flags = how == SL_LOG_READ && access(log->path, W_OK) != 0 ? SQLITE_OPEN_READONLY
                      : how == SL_LOG_MAKE ? SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE
                                           : SQLITE_OPEN_READWRITE;
    /* One thread at a time uses a log: SQLite need not lock each value that is read. */
    return sqlite3_open_v2(log->path, &log->base, how == SL_LOG_READ ? flags | SQLITE_OPEN_NOMUTEX : flags,
                           NULL);
}

/* SQLite's shared memory found no room beside the log. */
static bool lacks_room(const sl_log *log)
{
    const int code = sqlite3_extended_errcode(log->base);
    return code == SQLITE_IOERR_SHMSIZE || code == SQLITE_IOERR_SHMMAP || code == SQLITE_IOERR_SHMOPEN;
}

/* Locked against everybody before anything is read, the log needs no shared memory
 * (https://sqlite.org/wal.html, section 8): on a full disk it can still be read, with what was written last,
 * and nobody writes meanwhile. Whoever uses it already has that memory, so that nobody comes here. */
static int open_alone(sl_log *log)
{
    sqlite3_close(log->base);
    log->base = NULL;
    const int code = sqlite3_open_v2(log->path, &log->base, SQLITE_OPEN_READWRITE, NULL);
    return code == SQLITE_OK ? sqlite3_exec(log->base, "PRAGMA locking_mode = EXCLUSIVE", NULL, NULL, NULL)
                             : code;
}

static int64_t size_of(const char *path)
{
    struct stat file;
    return stat(path, &file) == 0 ? (int64_t)file.st_size : 0;
}

/* With what was written last and is not in the file itself yet. */
static int64_t bytes_of(const char *path)
{
    char beside[SL_LOG_PATH + 8];
    snprintf(beside, sizeof beside, "%s-wal", path);
    return size_of(path) + size_of(beside);
}

/* Only rows of ours are read: out of the file where it holds nothing else, else out of a copy of them. */
static bool settle_reading(sl_log *log, sl_error *error)
{
    char what[SL_STRANGE] = "";
    bool known = false, fit = false;
    if (log->version == 0) {
        return sl_fail_at(error, SL_ERR_NO_LOG, log->path, 0, 0, _("without tables"),
                          _("open it once for writing to make them"));
    }
    if (!sl_sql_run(log, "PRAGMA query_only = ON", error) ||
        !sl_known_compare(log, "main", log->version, &known, what, error)) {
        return false;
    }
    const bool looked = known && sl_rescue_small_fit(log, &fit, log->tally.why, error);
    if (looked && fit) {
        return true;
    }
    if (known && !looked && !log->broken) {
        return false; /* no fault of the file */
    }
    sl_error_clear(error);
    return sl_rescue_into_copy(log, error);
}

/* Written to is what is known to the letter and holds only what was kept by this program. */
static bool settle_writing(sl_log *log, sl_error *error)
{
    static const char writing[] = "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;";
    bool fit = true;
    if (log->version > 0 && (!sl_known_refuse_strange(log, log->version, error) ||
                             !sl_rescue_small_fit(log, &fit, log->tally.why, error))) {
        return false;
    }
    if (!fit) {
        return sl_fail_at(error, SL_ERR_DAMAGED, log->path, 0, 0, log->tally.why,
                          _("nothing is written to it; slowlift log rescue copies its rows into a new log"));
    }
    return sl_sql_run(log, writing, error) &&
           (log->version == SL_LOG_VERSION ||
            (sl_tables_make(log, error) && sl_known_refuse_strange(log, SL_LOG_VERSION, error)));
}

static bool settle(sl_log *log, sl_error *error)
{
    sqlite3_busy_timeout(log->base, SL_LOG_WAIT_MS);
    sl_sql_limit_steps(log, bytes_of(log->path));
    return sl_known_settle(log, error) && sl_tables_check(log, &log->version, error);
}

/* A file of ours by its head; what is in it has not been looked at. */
static bool open_unseen(sl_log **log, const char *path, sl_log_how how, sl_error *error)
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
    opened->schema = -1;
    bool good = open_file(opened, how) == SQLITE_OK ? settle(opened, error) : sl_sql_refuse(opened, error);
    if (!good && how == SL_LOG_READ && lacks_room(opened) && open_alone(opened) == SQLITE_OK) {
        sl_error_clear(error);
        good = settle(opened, error);
    }
    if (!good) {
        sl_log_close(opened);
        return false;
    }
    *log = opened;
    return true;
}

bool sl_log_open(sl_log **log, const char *path, sl_log_how how, sl_error *error)
{
    sl_log *opened = NULL;
    if (!open_unseen(&opened, path, how, error)) {
        return false;
    }
    if (!(how == SL_LOG_READ ? settle_reading(opened, error) : settle_writing(opened, error))) {
        sl_log_close(opened);
        return false;
    }
    *log = opened;
    return true;
}

bool sl_log_open_raw(sl_log **log, const char *path, sl_error *error)
{
    sl_log *opened = NULL;
    if (!open_unseen(&opened, path, SL_LOG_READ, error)) {
        return false;
    }
    if (opened->version == 0) {
        sl_log_close(opened);
        return sl_fail_at(error, SL_ERR_NO_LOG, path, 0, 0, _("without tables"),
                          _("name one, such as strands.db"));
    }
    if (!sl_sql_run(opened, "PRAGMA query_only = ON", error)) {
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
        sl_free(log->left_out);
        sl_free(log);
    }
}

void sl_log_on_kept(sl_log *log, sl_log_receipt *receipt, void *self)
{
    log->receipt = receipt;
    log->receipt_self = self;
}

static bool refuse_part(const char *path, const char *found, sl_error *error)
{
    return sl_fail_at(
        error, SL_ERR_DAMAGED, path, 0, 0, found,
        _("slowlift log check tells more; slowlift log rescue copies those rows into a new log"));
}

bool sl_log_tally_whole(const sl_log_tally *tally, const char *path, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    const long long rows = tally->read + tally->left_out + tally->missing;
    if (tally->missing + tally->left_out > 0) {
        snprintf(found, sizeof found,
                 tally->more_missing ? _("%lld of at least %lld rows could be read (%s)")
                                     : _("%lld of %lld rows could be read (%s)"),
                 tally->read, rows, tally->why);
    } else if (tally->more_missing) {
        snprintf(found, sizeof found,
                 _("%lld rows could be read, and how many are missing is not known (%s)"), tally->read,
                 tally->why);
    } else {
        return true;
    }
    return refuse_part(path, found, error);
}

bool sl_log_whole(const sl_log *log, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    if (log->copied || log->n_left_out == 0) {
        return !log->copied || sl_log_tally_whole(&log->tally, log->path, error);
    }
    snprintf(found, sizeof found, _("%zu readings hold what slowlift does not keep, and were left out"),
             log->n_left_out);
    return refuse_part(log->path, found, error);
}

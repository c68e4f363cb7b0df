/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The input is a log: the bytes of an SQLite file, opened from memory through the log's own door. All that it
 * holds is read, compared and exported; then it is opened for writing and an event is kept. The linker puts
 * the functions named __wrap_... before those of SQLite and the system.
 */
#include "frame.h"

#include <sqlite3.h>
#include <sys/stat.h>
#include <sys/vfs.h>
#include <unistd.h>

#include "base/memory.h"
#include "slowlift/compare.h"
#include "slowlift/log.h"

static const uint8_t *input_bytes;
static size_t input_size;
static const char path[] = "/fuzz/input.db";

__typeof__(sqlite3_open_v2) __wrap_sqlite3_open_v2, __real_sqlite3_open_v2;
__typeof__(stat) __wrap_stat, __real_stat;
__typeof__(access) __wrap_access, __real_access;
__typeof__(statfs) __wrap_statfs, __real_statfs;

/* The log, what SQLite lays beside it, and its folder; all else is the system's, the fuzzer's own files too.
 */
static bool is_input(const char *name)
{
    return strncmp(name, "/fuzz/", 6) == 0;
}

/* Work that an input may ask for, in steps of SQLite's machine. */
static int enough(void *self)
{
    int *const left = self;
    return --*left < 0;
}

int __wrap_sqlite3_open_v2(const char *name, sqlite3 **base, int flags, const char *vfs)
{
    static int left;
    if (!strstr(name, path)) { /* another file, such as a copy in memory of the rows that could be read */
        return __real_sqlite3_open_v2(name, base, flags, vfs);
    }
    const int opened = __real_sqlite3_open_v2(":memory:", base, SQLITE_OPEN_READWRITE, vfs);
    unsigned char *const copy = opened == SQLITE_OK ? sqlite3_malloc64(input_size + 1) : NULL;
    if (!copy) {
        return opened == SQLITE_OK ? SQLITE_NOMEM : opened;
    }
    memcpy(copy, input_bytes, input_size);
    if (input_size > 19) { /* a log in memory has no write-ahead file */
        copy[18] = copy[19] = 1;
    }
    left = 200;
    sqlite3_progress_handler(*base, 1000, enough, &left);
    return sqlite3_deserialize(*base, "main", copy, (sqlite3_int64)input_size, (sqlite3_int64)input_size,
                               SQLITE_DESERIALIZE_FREEONCLOSE | SQLITE_DESERIALIZE_RESIZEABLE);
}

int __wrap_stat(const char *name, struct stat *found)
{
    if (!is_input(name)) {
        return __real_stat(name, found);
    }
    memset(found, 0, sizeof *found);
    found->st_mode = S_IFREG | S_IRUSR | S_IWUSR;
    found->st_size = (off_t)input_size;
    return 0;
}

int __wrap_access(const char *name, int how)
{
    if (!is_input(name)) {
        return __real_access(name, how);
    }
    (void)how;
    return 0;
}

int __wrap_statfs(const char *name, struct statfs *on)
{
    if (!is_input(name)) {
        return __real_statfs(name, on);
    }
    memset(on, 0, sizeof *on);
    return 0;
}

static bool count(void *self, const sl_log_reading *reading, const sl_log_swatch *swatch, const char *test,
                  sl_error *error)
{
    (void)swatch;
    (void)test;
    (void)error;
    *(size_t *)self += strlen(reading->zone) + strlen(reading->note);
    return true;
}

static void compare(sl_log *log, const sl_log_test *test)
{
    sl_error error = {.code = SL_OK};
    sl_compare *found = NULL;
    if (!sl_compare_read(&found, log, test, 0.05, &error)) {
        frame_refused(&error);
    }
    sl_compare_free(found);
}

static void read_test(sl_log *log, const sl_log_test *test)
{
    sl_error error = {.code = SL_OK};
    sl_log_swatch *swatches = NULL;
    sl_event *events = NULL;
    sl_log_mean *means = NULL;
    size_t bytes = 0;
    int n = 0, n_events = 0, n_means = 0;
    if (sl_log_swatches(log, test->id, &swatches, &n, &error)) {
        sl_log_events(log, test->id, swatches, n, &events, &n_events, &error);
    }
    sl_log_each_reading(log, test->id, count, &bytes, &error);
    sl_log_means(log, test->id, &means, &n_means, &error);
    compare(log, test);
    sl_free(swatches);
    sl_free(events);
    sl_free(means);
}

static void read_all(void)
{
    sl_error error = {.code = SL_OK};
    sl_log *log = NULL;
    sl_log_test *tests = NULL;
    char *text = NULL;
    size_t length = 0;
    int n = 0;
    if (!sl_log_open(&log, path, SL_LOG_READ, &error)) {
        frame_refused(&error);
        return;
    }
    if (sl_log_tests(log, &tests, &n, &error)) {
        for (int i = 0; i < n && i < 4; i++) {
            read_test(log, &tests[i]);
        }
    }
    FILE *const out = open_memstream(&text, &length);
    if (out) {
        sl_log_export_csv(log, NULL, out, &error);
        sl_log_export_json(log, NULL, out, &error);
        fclose(out);
    }
    free(text);
    sl_free(tests);
    sl_log_close(log);
}

static void write_one(void)
{
    sl_error error = {.code = SL_OK};
    sl_log *log = NULL;
    sl_log_test test;
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = -1, .at = {.wall_ns = 1}};
    if (!sl_log_open(&log, path, SL_LOG_WRITE, &error)) {
        frame_refused(&error);
        return;
    }
    if (sl_log_find(log, NULL, &test, &error) &&
        !sl_log_append(log, test.id, NULL, 0, &event, "by the fuzzer", &error)) {
        frame_refused(&error);
    }
    sl_log_close(log);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    input_bytes = bytes;
    input_size = size;
    read_all();
    write_one();
    return 0;
}

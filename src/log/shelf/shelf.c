/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See shelf.h.
 */
#include "log/shelf/shelf.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/calendar.h"
#include "base/hold.h"
#include "base/language.h"
#include "base/memory.h"
#include "base/plain_text.h"
#include "log/store/tables.h"

static const char doing[] = "listing tests";

/* ---- the files ------------------------------------------------------------------------------------- */

/* SQLite's head, and in it our number (https://sqlite.org/fileformat2.html, section 1.3). */
bool sl_log_headed(int file)
{
    enum { HEAD = 72, NUMBER = 68 };
    unsigned char head[HEAD] = "";
    uint32_t number = 0;
    if (pread(file, head, HEAD, 0) != HEAD || memcmp(head, "SQLite format 3", 16) != 0) {
        return false;
    }
    for (int i = NUMBER; i < HEAD; i++) {
        number = number << 8 | head[i];
    }
    return number == SL_LOG_APPLICATION;
}

/* Nothing waits for a pipe. */
static bool is_meant(int folder, const char *name, bool only_logs)
{
    const char *const end = strrchr(name, '.');
    struct stat found;
    const int file = name[0] == '.' ? -1 : openat(folder, name, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    if (name[0] == '.' || (file < 0 && errno != EACCES)) {
        return false;
    }
    const bool plain = fstatat(folder, name, &found, 0) == 0 && S_ISREG(found.st_mode);
    const bool log = (end && strcmp(end, ".db") == 0) || (file >= 0 && sl_log_headed(file));
    if (file >= 0) {
        close(file);
    }
    return plain && (log || !only_logs);
}

static int by_name(const void *one, const void *other)
{
    return strcmp(one, other);
}

typedef struct sl_names {
    char (*name)[SL_SHELF_NAME];
    size_t n, room;
} sl_names;

static bool gather(DIR *folder, bool only_logs, sl_names *names, sl_error *error)
{
    const struct dirent *entry = NULL;
    while ((entry = readdir(folder)) != NULL) {
        if (!is_meant(dirfd(folder), entry->d_name, only_logs)) {
            continue;
        }
        if (!sl_grow(&names->name, &names->room, names->n + 1, sizeof *names->name, doing, error)) {
            return false;
        }
        snprintf(names->name[names->n++], SL_SHELF_NAME, "%s", entry->d_name);
    }
    if (names->n > 0) {
        qsort(names->name, names->n, sizeof *names->name, by_name);
    }
    return true;
}

bool sl_shelf_each_file(const char *folder, bool only_logs, sl_shelf_visit *visit, void *self,
                        sl_error *error)
{
    char path[SL_LOG_PATH];
    sl_names names = {.name = NULL};
    DIR *const opened = opendir(folder);
    if (!opened) {
        const int reason = errno;
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("the folder \"%.120s\" cannot be opened (%s)"), folder,
                 strerror(reason));
        return sl_fail(error, reason == ENOMEM ? SL_ERR_NO_MEMORY : SL_ERR_USAGE, found,
                       _("name the folder in which logs are kept, here or by $SLOWLIFT_TESTS"));
    }
    bool good = gather(opened, only_logs, &names, error);
    closedir(opened);
    for (size_t i = 0; good && i < names.n; i++) {
        good = (size_t)snprintf(path, sizeof path, "%s/%s", folder, names.name[i]) < sizeof path
                   ? visit(self, path, names.name[i], error)
                   : sl_fail(error, SL_ERR_TOO_LARGE, "a path is too long", "4095 bytes");
        if (good && sl_signal_waits()) { /* what was not read is not told as if there were nothing */
            good = sl_fail_at(error, SL_ERR_CANNOT_READ, folder, 0, 0, _("it was broken off"), "");
        }
    }
    sl_free(names.name);
    return good;
}

/* ---- the tests ------------------------------------------------------------------------------------- */

static sl_shelf_row *add_row(sl_log_shelf *shelf, const char *name, sl_error *error)
{
    if (!sl_grow(&shelf->row, &shelf->room, shelf->n + 1, sizeof *shelf->row, doing, error)) {
        return NULL;
    }
    sl_shelf_row *const row = &shelf->row[shelf->n++];
    *row = (sl_shelf_row){.why = {.code = SL_OK}};
    snprintf(row->file, sizeof row->file, "%s", name);
    return row;
}

static bool add_unread(sl_log_shelf *shelf, const char *name, const sl_error *why, sl_error *error)
{
    sl_shelf_row *const row = why->code == SL_ERR_NO_MEMORY ? NULL : add_row(shelf, name, error);
    if (!row) {
        return sl_fail(error, SL_ERR_NO_MEMORY, doing, "");
    }
    row->why = *why;
    shelf->n_unread++;
    return true;
}

static sl_shelf_tub *tub_of(sl_log_shelf *shelf, const char *lot, sl_error *error)
{
    for (size_t i = 0; i < shelf->n_tubs; i++) {
        if (strcmp(shelf->tub[i].lot, lot) == 0) {
            return &shelf->tub[i];
        }
    }
    if (!sl_grow(&shelf->tub, &shelf->tub_room, shelf->n_tubs + 1, sizeof *shelf->tub, doing, error)) {
        return NULL;
    }
    sl_shelf_tub *const tub = &shelf->tub[shelf->n_tubs++];
    *tub = (sl_shelf_tub){.opened = 0};
    memcpy(tub->lot, lot, strlen(lot) + 1);
    return tub;
}

/* Of bowls whose mix was put on. */
static bool add_tubs(sl_log_shelf *shelf, const sl_kept_test *kept, sl_error *error)
{
    for (int i = 0; i < kept->n && !kept->went.rehearsed; i++) {
        const sl_tub *const powder = &kept->tubs[i].of[SL_TUB_POWDER];
        const sl_bench_state *const state = &kept->folded->state[i];
        if (powder->lot[0] == '\0' || state->stage == SL_STAGE_WAITING ||
            !sl_day_bowl_holds(kept->scene, kept->arm[i], SL_TUB_POWDER)) {
            continue;
        }
        sl_shelf_tub *const tub = tub_of(shelf, powder->lot, error);
        if (!tub) {
            return false;
        }
        const int day = sl_day_of_instant(&state->contact);
        tub->opened = powder->opened > tub->opened ? powder->opened : tub->opened;
        tub->used = day > tub->used ? day : tub->used;
        tub->checked = kept->tubs[i].check && day > tub->checked ? day : tub->checked;
    }
    return true;
}

bool sl_shelf_tub_due(const sl_shelf_tub *tub, int today)
{
    const int since = tub->checked > tub->opened ? tub->checked : tub->opened;
    return since > 0 && today - since >= SL_TUB_CHECK_DAYS && today - tub->used < SL_TUB_USE_DAYS;
}

static bool keep_test(sl_log_shelf *shelf, const sl_kept_test *kept, const char *name, int day,
                      sl_log_due *due, int n_due, sl_error *error)
{
    sl_shelf_row *const row = add_tubs(shelf, kept, error) ? add_row(shelf, name, error) : NULL;
    if (!row) {
        sl_free(due);
        return false;
    }
    row->test = kept->test;
    row->day = day;
    row->n_strips = kept->scene->n_arms;
    row->state = sl_kept_test_state(kept);
    row->rehearsed = kept->went.rehearsed;
    row->due = due;
    row->n_due = n_due;
    return true;
}

static bool add_test(sl_log_shelf *shelf, sl_log *log, const char *name, const sl_log_test *test,
                     sl_error *error)
{
    char made[11];
    int day = 0, n_due = 0;
    snprintf(made, sizeof made, "%.10s", test->made);
    const bool known = sl_day_read(made, &day);
    if (known && shelf->keep_months > 0 && day < shelf->today - shelf->keep_months * SL_SHELF_DAYS / 12) {
        shelf->n_past++;
    }
    if (known && day < shelf->today - SL_SHELF_DAYS && !shelf->all) {
        shelf->n_older++;
        return true;
    }
    sl_kept_test kept = {.log = NULL};
    sl_log_due *due = NULL;
    sl_error why = {.code = SL_OK};
    const bool read = sl_kept_test_read(&kept, log, test, &why) &&
                      sl_log_due_of(kept.folded, kept.swatches, kept.went.rehearsed ? 0 : kept.n,
                                    kept.readings, kept.n_readings, shelf->today, &due, &n_due, &why);
    const bool good = read ? keep_test(shelf, &kept, name, day, due, n_due, error) &&
                                 (!shelf->visit || shelf->visit(shelf->visitor, &kept, error))
                           : add_unread(shelf, name, &why, error);
    kept.log = NULL; /* it was borrowed */
    sl_kept_test_close(&kept);
    return good;
}

static bool add_log(void *self, const char *path, const char *name, sl_error *error)
{
    sl_log_shelf *const shelf = self;
    sl_log *log = NULL;
    sl_log_test *tests = NULL;
    int n = 0;
    sl_error why = {.code = SL_OK};
    const bool read = sl_log_open(&log, path, SL_LOG_READ, &why) && sl_log_tests(log, &tests, &n, &why) &&
                      (n > 0 || sl_log_whole(log, &why));
    bool good = read || add_unread(shelf, name, &why, error);
    for (int i = 0; good && read && i < n; i++) {
        good = add_test(shelf, log, name, &tests[i], error);
    }
    sl_free(tests);
    sl_log_close(log);
    return good;
}

/* Of one test in several logs, as a copy on a stick is, a real one counts before its rehearsals, and then the
 * fullest; of equals the one whose name comes first, and so stands first. */
static bool counts_before(const sl_shelf_row *one, const sl_shelf_row *other)
{
    const int n_one = one->test.n_events + one->test.n_readings;
    const int n_other = other->test.n_events + other->test.n_readings;
    return one->rehearsed != other->rehearsed ? other->rehearsed
           : n_one != n_other                 ? n_one > n_other
                                              : one < other;
}

static void find_copies(sl_log_shelf *shelf)
{
    for (size_t i = 0; i < shelf->n; i++) {
        sl_shelf_row *const row = &shelf->row[i];
        for (size_t k = 0; k < shelf->n && row->test.id[0] != '\0' && !row->copy; k++) {
            row->copy =
                strcmp(row->test.id, shelf->row[k].test.id) == 0 && counts_before(&shelf->row[k], row);
        }
    }
}

/* The newest first; what could not be read last, as it came. */
static int by_day(const void *one, const void *other)
{
    const sl_shelf_row *const a = one, *const b = other;
    const bool a_unread = a->why.code != SL_OK, b_unread = b->why.code != SL_OK;
    const int days = strcmp(b->test.made, a->test.made);
    return a_unread != b_unread    ? a_unread - b_unread
           : a_unread || days == 0 ? strcmp(a->file, b->file)
                                   : days;
}

bool sl_shelf_read(sl_log_shelf *shelf, const char *folder, bool all, int keep_months, sl_error *error)
{
    *shelf = (sl_log_shelf){.folder = folder,
                            .all = all,
                            .keep_months = keep_months,
                            .visit = shelf->visit,
                            .visitor = shelf->visitor};
    if (!sl_today(&shelf->today, error) || !sl_shelf_each_file(folder, true, add_log, shelf, error)) {
        return false;
    }
    find_copies(shelf);
    if (shelf->n > 0) {
        qsort(shelf->row, shelf->n, sizeof *shelf->row, by_day);
    }
    return true;
}

bool sl_shelf_bare(sl_error *error)
{
    return sl_fail(error, SL_ERR_USAGE, "no log of this folder holds a test",
                   "begin one with slowlift log new");
}

const char *sl_shelf_shown(const char *name, char text[SL_SHELF_SHOWN])
{
    sl_text_show(name, strlen(name), SL_TEXT_LINE, text, SL_SHELF_SHOWN);
    return text;
}

void sl_shelf_free(sl_log_shelf *shelf)
{
    for (size_t i = 0; i < shelf->n; i++) {
        sl_free(shelf->row[i].due);
    }
    sl_free(shelf->row);
    sl_free(shelf->tub);
    *shelf = (sl_log_shelf){.folder = NULL};
}

bool sl_shelf_whole(const sl_log_shelf *shelf, sl_error *error)
{
    if (shelf->n_unread > 0) {
        *error = shelf->row[shelf->n - (size_t)shelf->n_unread].why;
    }
    return shelf->n_unread == 0;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files until they are whole: what is written, what is left when a call of the system fails, what a dead
 * process left, and what is read. The linker sends the system's calls through here, so that one of them can
 * fail.
 */
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/hold.h"
#include "base/inputs.h"
#include "base/language.h"
#include "base/memory.h"
#include "base/plain_file.h"
#include "base/program.h"
#include "base/save.h"
#include "failing_calls.h"
#include "suite.h"

/* ---- calls that fail ------------------------------------------------------------------------------ */

enum {
    CALLOC = NO_CALL + 1,
    REALLOC,
    OPEN,
    OPENAT,
    FSTAT,
    FLOCK,
    FSYNC,
    RENAME,
    DUP,
    FCHMOD,
    FDOPEN,
    FDOPENDIR,
    COOKIE,
    WRITE,
    CLOSE,
    ACCESS,
    FREAD,
    FTELL
};

WRAPPED(void *, calloc, (size_t n, size_t size), (n, size), CALLOC, NULL)
WRAPPED(void *, realloc, (void *old, size_t size), (old, size), REALLOC, NULL)
WRAPPED(int, access, (const char *name, int how), (name, how), ACCESS, -1)
WRAPPED(DIR *, fdopendir, (int file), (file), FDOPENDIR, NULL)
static const char *grows; /* the file that somebody writes to before it is read */
static bool unreadable;   /* what is open gives no bytes */
static void put(const char *name, const char *text);
int __real_open(const char *path, int flags, ...);

size_t __real_fread(void *into, size_t size, size_t n, FILE *file);
size_t __wrap_fread(void *into, size_t size, size_t n, FILE *file);
size_t __wrap_fread(void *into, size_t size, size_t n, FILE *file)
{
    if (grows) {
        put(grows, "eleven byte");
        grows = NULL;
    }
    if (unreadable) { /* like a folder */
        const int other = __real_open("/", O_RDONLY);
        ck_assert(other >= 0 && dup2(other, fileno(file)) >= 0 && close(other) == 0);
        unreadable = false;
    }
    return fails(FREAD) ? 0 : __real_fread(into, size, n, file);
}
WRAPPED(long, ftell, (FILE * file), (file), FTELL, -1)
WRAPPED(int, fstat, (int file, struct stat *found), (file, found), FSTAT, -1)
WRAPPED(int, flock, (int file, int how), (file, how), FLOCK, -1)
WRAPPED(int, fsync, (int file), (file), FSYNC, -1)
WRAPPED(int, rename, (const char *from, const char *to), (from, to), RENAME, -1)
WRAPPED(int, dup, (int file), (file), DUP, -1)
WRAPPED(int, fchmod, (int file, mode_t mode), (file, mode), FCHMOD, -1)
WRAPPED(FILE *, fdopen, (int file, const char *how), (file, how), FDOPEN, NULL)
WRAPPED(FILE *, fopencookie, (void *self, const char *how, cookie_io_functions_t io), (self, how, io), COOKIE,
        NULL)

int __real_openat(int among, const char *path, int flags, ...);
int __wrap_openat(int among, const char *path, int flags, ...);
int __wrap_openat(int among, const char *path, int flags, ...)
{
    return fails(OPENAT) ? -1 : __real_openat(among, path, flags);
}

int __wrap_open(const char *path, int flags, ...);
int __real_close(int file);
int __wrap_close(int file);
ssize_t __real_write(int file, const void *bytes, size_t n);
ssize_t __wrap_write(int file, const void *bytes, size_t n);

int __wrap_open(const char *path, int flags, ...)
{
    mode_t mode = 0;
    if ((flags & O_CREAT) != 0) {
        va_list rest;
        va_start(rest, flags);
        mode = va_arg(rest, mode_t);
        va_end(rest);
    }
    return fails(OPEN) ? -1 : __real_open(path, flags, mode);
}

/* A file is closed all the same: close(2). */
int __wrap_close(int file)
{
    const int done = __real_close(file);
    return fails(CLOSE) ? -1 : done;
}

/* with == 0: not an error, and nothing or a part is written. */
ssize_t __wrap_write(int file, const void *bytes, size_t n)
{
    if (fails(WRITE)) {
        return fault.with != 0 ? -1 : fault.at == 0 ? 0 : __real_write(file, bytes, n / 2);
    }
    return __real_write(file, bytes, n);
}

/* ---- a folder of its own ----------------------------------------------------------------------------- */

static char folder[64], path[128], other[128];

static void set_up(void)
{
    snprintf(folder, sizeof folder, "/tmp/slowlift-save-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/kept.txt", folder);
    snprintf(other, sizeof other, "%s/other.txt", folder);
}

static void tear_down(void)
{
    disarm();
    char command[128];
    snprintf(command, sizeof command, "rm -rf %s", folder);
    ck_assert_int_eq(system(command), 0);
}

static int entries(void)
{
    int n = 0;
    DIR *const open_folder = opendir(folder);
    ck_assert_ptr_nonnull(open_folder);
    while (readdir(open_folder)) {
        n++;
    }
    closedir(open_folder);
    return n - 2; /* . and .. */
}

static void put(const char *name, const char *text)
{
    FILE *const file = fopen(name, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_int_ge(fputs(text, file), 0);
    ck_assert_int_eq(fclose(file), 0);
}

static void holds(const char *name, const char *text)
{
    char found[100] = "";
    FILE *const file = fopen(name, "rb");
    ck_assert_ptr_nonnull(file);
    found[fread(found, 1, sizeof found - 1, file)] = '\0';
    fclose(file);
    ck_assert_str_eq(found, text);
}

static bool save_text(const char *to, const char *text, sl_error *error)
{
    sl_save save;
    if (!sl_save_open(&save, to, error)) {
        return false;
    }
    fputs(text, save.stream);
    return sl_save_commit(&save, error);
}

/* ---- saving ---------------------------------------------------------------------------------------------
 */

START_TEST(a_file_is_written_as_the_user_s_files_are_and_an_old_one_keeps_its_rights)
{
    struct stat found;
    const mode_t mask = umask(027);
    ck_assert(save_text(path, "one", NULL));
    ck_assert_int_eq(stat(path, &found), 0);
    ck_assert_uint_eq(found.st_mode & 07777, 0640);
    ck_assert_int_eq(chmod(path, 0604), 0);
    ck_assert_int_eq(symlink(path, other), 0);
    ck_assert(save_text(other, "two", NULL)); /* through the link */
    ck_assert_int_eq(lstat(other, &found), 0);
    ck_assert(S_ISLNK(found.st_mode));
    holds(path, "two");
    ck_assert_int_eq(stat(path, &found), 0);
    ck_assert_uint_eq(found.st_mode & 07777, 0604);
    umask(mask);
    ck_assert_int_eq(entries(), 2);
}
END_TEST

START_TEST(whatever_fails_while_a_file_is_saved_leaves_the_old_one_and_no_litter)
{
    static const struct {
        int what;
        int at, with;
        const char *told;
    } rows[] = {{DUP, 1, EMFILE, NULL},   {FCHMOD, 1, EPERM, NULL}, {WRITE, 1, ENOSPC, NULL},
                {WRITE, 2, EDQUOT, NULL}, {WRITE, 0, 0, NULL},      {FSYNC, 1, EIO, NULL},
                {CLOSE, 0, ENOSPC, NULL}, {RENAME, 1, EXDEV, NULL}, {COOKIE, 1, ENOMEM, NULL},
                {FLOCK, 0, EAGAIN, NULL}, {CALLOC, 1, ENOMEM, ""}};
    char text[20000];
    memset(text, 'x', sizeof text - 1);
    text[sizeof text - 1] = '\0';
    put(path, "old");
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char quoted[160];
        sl_error error = {.code = SL_OK};
        snprintf(quoted, sizeof quoted, "\"%s\"", path);
        arm(rows[i].what, rows[i].at, rows[i].with);
        const bool saved = save_text(path, text, &error);
        disarm();
        ck_assert_msg(!saved, "row %zu", i);
        holds(path, "old");
        ck_assert_msg(entries() == 1, "row %zu leaves litter", i);
        if (rows[i].told) {
            ck_assert_int_eq(error.code, SL_ERR_NO_MEMORY);
        } else {
            ck_assert_int_eq(error.code, SL_ERR_CANNOT_WRITE);
            ck_assert_str_eq(error.found, quoted);
            ck_assert_str_eq(error.wanted, strerror(rows[i].with != 0 ? rows[i].with : EIO));
        }
    }
    ck_assert(save_text(path, "new", NULL));
    holds(path, "new");
}
END_TEST

START_TEST(a_write_that_was_broken_off_or_wrote_a_part_goes_on)
{
    arm(WRITE, 1, EINTR);
    ck_assert(save_text(path, "all of it", NULL));
    holds(path, "all of it");
    arm(WRITE, 1, 0); /* half of it */
    ck_assert(save_text(path, "all of it again", NULL));
    holds(path, "all of it again");
}
END_TEST

START_TEST(what_was_begun_and_given_up_leaves_nothing)
{
    sl_save save;
    put(path, "old");
    ck_assert(sl_save_open(&save, path, NULL));
    fputs("half", save.stream);
    ck_assert_int_eq(entries(), 2);
    sl_save_abandon(&save);
    ck_assert_int_eq(entries(), 1);
    holds(path, "old");
    sl_save_abandon(&save); /* and once more: nothing is left to do */
}
END_TEST

START_TEST(a_folder_a_missing_folder_and_an_endless_name_are_refused)
{
    sl_error error = {.code = SL_OK};
    ck_assert(!save_text(folder, "x", &error));
    ck_assert_str_eq(error.wanted, strerror(EISDIR));
    ck_assert(!save_text("/tmp/slowlift-not-there/x", "x", &error));
    ck_assert_str_eq(error.wanted, strerror(ENOENT));
    char *const endless = malloc(6000);
    ck_assert_ptr_nonnull(endless);
    memset(endless, 'a', 5999);
    endless[5999] = '\0';
    ck_assert(!save_text(endless, "x", &error));
    ck_assert_str_eq(error.wanted, strerror(ENAMETOOLONG));
    memcpy(endless, "/tmp/", 5);
    endless[4094] = '\0'; /* fits, and has no room beside it */
    ck_assert(!save_text(endless, "x", &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_WRITE);
    free(endless);
    char name[300];
    memset(name, 'b', sizeof name - 1);
    name[sizeof name - 1] = '\0';
    ck_assert(!sl_temporary_file(&(sl_temporary){.path = ""}, "/tmp/slowlift-not-there/x"));
    ck_assert_int_eq(errno, ENOENT);
}
END_TEST

START_TEST(a_device_is_written_to_as_it_is)
{
    sl_error error = {.code = SL_OK};
    ck_assert(save_text("/dev/null", "x", NULL));
    ck_assert(!save_text("/dev/full", "x", &error));
    ck_assert_str_eq(error.wanted, strerror(ENOSPC));
    const int calls[] = {OPEN, COOKIE, CALLOC};
    for (int i = 0; i < 3; i++) {
        arm(calls[i], 1, i == 0 ? EACCES : ENOMEM);
        ck_assert(!save_text("/dev/null", "x", &error));
        disarm();
        ck_assert_int_eq(error.code, i == 2 ? SL_ERR_NO_MEMORY : SL_ERR_CANNOT_WRITE);
    }
    struct stat found;
    ck_assert_int_eq(stat("/dev/null", &found), 0);
    ck_assert(S_ISCHR(found.st_mode));
}
END_TEST

START_TEST(a_file_that_may_not_be_written_is_refused_before_anything_is_written_beside_it)
{
    sl_error error = {.code = SL_OK};
    put(path, "old");
    arm(ACCESS, 1, EACCES);
    ck_assert(!save_text(path, "new", &error));
    disarm();
    ck_assert_str_eq(error.wanted, strerror(EACCES));
    sl_inputs_watch();
    ck_assert(sl_input_named(path, "the scene that is read", NULL));
    ck_assert(!save_text(path, "new", &error)); /* it is read */
    ck_assert_ptr_nonnull(strstr(error.found, "would be lost"));
    holds(path, "old");
    ck_assert_int_eq(entries(), 1);
}
END_TEST

/* Where standard output is a file, its name in /dev is that file, and nothing is put in its place. */
START_TEST(standard_output_by_its_name_is_written_to_and_not_replaced)
{
    struct stat before, after;
    const int kept = dup(STDOUT_FILENO);
    const int file = open(path, O_RDWR | O_CREAT, 0644);
    ck_assert_int_ge(file, 0);
    ck_assert_int_eq(dup2(file, STDOUT_FILENO), STDOUT_FILENO);
    const bool is = sl_is_stdout("/dev/stdout") && sl_is_stdout("/proc/self/fd/1");
    const bool other_is = sl_is_stdout("/dev/null") || sl_is_stdout(path) || sl_is_stdout("/dev/not-there");
    ck_assert_int_eq(fstat(file, &before), 0);
    const bool saved = save_text("/dev/stdout", "printed", NULL);
    arm(DUP, 1, EMFILE);
    const bool saved_again = save_text("/dev/stdout", "not printed", NULL);
    disarm();
    arm(FSTAT, 1, EBADF);
    const bool still = sl_is_stdout("/dev/stdout");
    disarm();
    ck_assert_int_eq(dup2(kept, STDOUT_FILENO), STDOUT_FILENO);
    close(kept);
    ck_assert(is && !other_is && saved && !saved_again && !still);
    ck_assert_int_eq(stat(path, &after), 0);
    ck_assert_uint_eq(before.st_ino, after.st_ino);
    holds(path, "printed");
    close(file);
}
END_TEST

/* ---- until they are whole ----------------------------------------------------------------------------- */

static void name_in_folder(char name[160], const char *what)
{
    snprintf(name, 160, "%s/%s", folder, what);
}

START_TEST(what_dead_processes_left_is_cleared_away_and_nothing_else)
{
    static const char *const ours[] = {".slowlift-new-Ab3dEf", ".slowlift-new-000000"};
    static const char *const others[] = {".slowlift-new-Ab3dE", ".slowlift-new-Ab3dEfg",
                                         ".slowlift-new-Ab-dEf", "slowlift-new-Ab3dEf",
                                         ".slowlift-old-Ab3dEf"};
    char name[160], inside[200];
    for (int i = 0; i < 2; i++) {
        name_in_folder(name, ours[i]);
        put(name, "left");
    }
    for (int i = 0; i < 5; i++) {
        name_in_folder(name, others[i]);
        put(name, "somebody's");
    }
    name_in_folder(name, ".slowlift-new-folder"); /* six letters: f o l d e r */
    ck_assert_int_eq(mkdir(name, 0755), 0);
    snprintf(inside, sizeof inside, "%s/page.svg", name);
    put(inside, "half");
    name_in_folder(name, ".slowlift-new-people"); /* of a process that lives: it is locked */
    put(name, "whole soon");
    const int alive = open(name, O_RDONLY);
    ck_assert_int_eq(flock(alive, LOCK_EX), 0);
    name_in_folder(name, ".slowlift-new-linked"); /* a link is nobody's file */
    ck_assert_int_eq(symlink(path, name), 0);
    name_in_folder(name, ".slowlift-new-fifoXX");
    ck_assert_int_eq(mkfifo(name, 0600), 0);
    sl_temporary_sweep(path);
    ck_assert_int_eq(entries(), 5 + 3);
    close(alive);
    sl_temporary_sweep(path);
    ck_assert_int_eq(entries(), 5 + 2);
    sl_temporary_sweep("/tmp/slowlift-not-there/x"); /* nothing to do, and no harm */
}
END_TEST

START_TEST(of_a_folder_with_a_list_only_what_is_listed_goes)
{
    sl_temporary temporary;
    char name[4400], list[400] = "# what slowlift wrote\n";
    ck_assert(sl_temporary_folder(&temporary, path));
    const char *const names[] = {"page.svg", "plan.pdf", "mine.txt", ".hidden", "in/side"};
    for (int i = 0; i < 5; i++) {
        if (i != 2) {
            char line[200];
            snprintf(line, sizeof line, "%064d  %s\n", i, names[i]);
            strncat(list, line, sizeof list - strlen(list) - 1);
        }
        if (i != 4) {
            snprintf(name, sizeof name, "%.200s/%s", temporary.path, names[i]);
            put(name, "x");
        }
    }
    strncat(list, "short\n", sizeof list - strlen(list) - 1);
    snprintf(name, sizeof name, "%s/" SL_FOLDER_LIST, temporary.path);
    put(name, list);
    char kept[4400];
    snprintf(kept, sizeof kept, "%.200s", temporary.path);
    sl_temporary_remove(&temporary);
    ck_assert_str_eq(temporary.path, "");
    const char *const stay[] = {"mine.txt", ".hidden", SL_FOLDER_LIST}; /* the list goes last */
    for (int i = 0; i < 3; i++) {
        snprintf(name, sizeof name, "%.200s/%s", kept, stay[i]);
        ck_assert_msg(access(name, F_OK) == 0, "%s", stay[i]);
    }
    for (int i = 0; i < 2; i++) {
        snprintf(name, sizeof name, "%.200s/%s", kept, names[i]);
        ck_assert_msg(access(name, F_OK) != 0, "%s", names[i]);
    }
    /* and once that is all there is, list and folder go too */
    for (int i = 0; i < 2; i++) {
        snprintf(name, sizeof name, "%.200s/%s", kept, stay[i]);
        ck_assert_int_eq(unlink(name), 0);
    }
    ck_assert_int_eq(strncmp(strrchr(kept, '/') + 1, ".slowlift-new-", 14), 0);
    sl_temporary_sweep(path);
    ck_assert_int_ne(access(kept, F_OK), 0);
}
END_TEST

START_TEST(a_folder_whose_list_cannot_be_read_is_left_alone)
{
    sl_temporary temporary;
    char name[4400], list[4400];
    ck_assert(sl_temporary_folder(&temporary, path));
    snprintf(name, sizeof name, "%s/mine.txt", temporary.path);
    put(name, "x");
    snprintf(list, sizeof list, "%s/" SL_FOLDER_LIST, temporary.path);
    put(list, "");
    arm(FDOPEN, 1, ENOMEM);
    sl_temporary_remove(&temporary);
    disarm();
    ck_assert_int_eq(access(name, F_OK), 0);
    ck_assert_int_eq(access(list, F_OK), 0);
}
END_TEST

START_TEST(a_folder_that_cannot_be_looked_into_keeps_its_list)
{
    const int calls[] = {FDOPENDIR, OPENAT};
    for (int i = 0; i < 2; i++) {
        sl_temporary temporary;
        char list[4400];
        ck_assert(sl_temporary_folder(&temporary, path));
        snprintf(list, sizeof list, "%s/" SL_FOLDER_LIST, temporary.path);
        put(list, "");
        arm(calls[i], i == 0 ? 1 : 3, EMFILE); /* the folder, its list, and the folder once more */
        sl_temporary_remove(&temporary);
        disarm();
        ck_assert_int_eq(access(list, F_OK), 0);
    }
    sl_temporary_sweep(path);
    ck_assert_int_eq(entries(), 0);
}
END_TEST

START_TEST(what_somebody_else_removed_is_no_fault)
{
    sl_temporary one, two;
    ck_assert(sl_temporary_folder(&one, path) && sl_temporary_file(&two, path));
    ck_assert_int_eq(rmdir(one.path), 0);
    ck_assert_int_eq(unlink(two.path), 0);
    sl_temporary_remove(&one);
    sl_temporary_remove(&two);
    ck_assert_int_eq(entries(), 0);
}
END_TEST

START_TEST(a_path_longer_than_any_is_refused_and_swept_by_nobody)
{
    sl_temporary temporary;
    char *const endless = malloc(6000);
    ck_assert_ptr_nonnull(endless);
    memset(endless, 'a', 5999);
    endless[0] = endless[5990] = '/';
    endless[5999] = '\0';
    ck_assert(!sl_temporary_file(&temporary, endless));
    ck_assert_int_eq(errno, ENAMETOOLONG);
    ck_assert_str_eq(temporary.path, "");
    free(endless);
}
END_TEST

START_TEST(a_name_without_a_folder_lies_in_this_one)
{
    sl_temporary temporary;
    ck_assert_int_eq(chdir(folder), 0);
    ck_assert(sl_temporary_file(&temporary, "kept.txt"));
    ck_assert_ptr_null(strchr(temporary.path, '/'));
    ck_assert_int_eq(entries(), 1);
    sl_temporary_remove(&temporary);
    sl_inputs_watch();
    ck_assert(sl_output_named("kept.txt", NULL));
    ck_assert(!sl_output_named(path, NULL)); /* the same by its whole path */
    ck_assert_int_eq(chdir("/"), 0);
}
END_TEST

START_TEST(nothing_is_given_that_could_not_be_locked)
{
    sl_temporary temporary;
    arm(FLOCK, 0, EAGAIN);
    ck_assert(!sl_temporary_file(&temporary, path));
    ck_assert_int_eq(errno, EAGAIN);
    ck_assert_str_eq(temporary.path, "");
    arm(FSTAT, 0, EIO);
    ck_assert(!sl_temporary_folder(&temporary, path));
    disarm();
    ck_assert_int_eq(entries(), 0);
    arm(FLOCK, 1, EAGAIN); /* once: another one is made */
    ck_assert(sl_temporary_file(&temporary, path));
    disarm();
    ck_assert_int_eq(entries(), 1);
    sl_temporary_remove(&temporary);
    sl_temporary_remove(&temporary); /* of nothing */
    sl_temporary_forget(&temporary);
    ck_assert_int_eq(entries(), 0);
}
END_TEST

START_TEST(an_error_speaks_of_the_name_that_was_given)
{
    sl_temporary temporary;
    sl_error error = {.code = SL_ERR_CANNOT_WRITE};
    ck_assert(sl_temporary_folder(&temporary, path));
    snprintf(error.file, sizeof error.file, "%.100s/two.db", temporary.path);
    snprintf(error.found, sizeof error.found, "no room in %.100s, it is full", temporary.path);
    sl_temporary_rename_in(&temporary, "pack", &error);
    ck_assert_str_eq(error.file, "pack/two.db");
    ck_assert_str_eq(error.found, "no room in pack, it is full");
    sl_temporary_rename_in(&temporary, "pack", NULL);
    sl_temporary_remove(&temporary);
    sl_temporary_rename_in(&temporary, "pack", &error); /* there is none any more */
    ck_assert_str_eq(error.file, "pack/two.db");
}
END_TEST

/* More than are noted for a signal are given all the same. A process that ends by itself takes its own with
 * it; a child that was forked takes none of its parent's. */
START_TEST(a_process_that_ends_takes_its_own_unfinished_files_with_it)
{
    enum { MANY = 10 };
    sl_temporary mine[MANY];
    fflush(NULL);
    const pid_t child = fork();
    if (child == 0) {
        char inside[4400];
        for (int i = 0; i < MANY - 2; i++) {
            if (!(i % 2 ? sl_temporary_file(&mine[i], path) : sl_temporary_folder(&mine[i], path))) {
                exit(2);
            }
        }
        snprintf(inside, sizeof inside, "%s/page.svg", mine[0].path);
        FILE *const page = fopen(inside, "wb");
        exit(page && fclose(page) == 0 && entries() == MANY - 2 ? 0 : 3);
    }
    int status = 0;
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert_int_eq(status, 0);
    ck_assert_int_eq(entries(), 0);
    for (int i = 0; i < MANY; i++) {
        ck_assert(sl_temporary_file(&mine[i], path));
        ck_assert_int_eq(mine[i].place >= 0, i < 8);
    }
    const pid_t second = fork();
    if (second == 0) {
        exit(0);
    }
    ck_assert_int_eq(waitpid(second, &status, 0), second);
    ck_assert_int_eq(entries(), MANY);
    for (int i = 0; i < MANY; i++) {
        sl_temporary_remove(&mine[i]);
    }
    ck_assert_int_eq(entries(), 0);
}
END_TEST

/* ---- signals ------------------------------------------------------------------------------------------- */

static int undone[2];
static volatile sig_atomic_t came;

static void undo_one(void)
{
    undone[0]++;
}

static void undo_other(void)
{
    undone[1]++;
}

static void comes(int number)
{
    came = number;
}

START_TEST(what_was_promised_is_put_back_before_whoever_caught_the_signal_first_gets_it)
{
    sl_program_start();
    signal(SIGUSR1, comes);
    signal(SIGHUP, SIG_IGN); /* as nohup does it */
    sl_undo_put(undo_one);
    sl_undo_put(undo_other);
    raise(SIGHUP);
    ck_assert_int_eq(undone[0] + undone[1], 0);
    raise(SIGUSR1);
    ck_assert(undone[0] == 1 && undone[1] == 1);
    ck_assert_int_eq(came, SIGUSR1);
    sl_undo_drop(undo_one);
    sl_undo_drop(undo_one); /* not there any more */
    sl_undo_drop(undo_other);
    came = 0;
    raise(SIGUSR1);
    ck_assert(undone[0] == 1 && undone[1] == 1);
    ck_assert_int_eq(came, SIGUSR1);
}
END_TEST

START_TEST(who_can_end_in_good_order_is_told_and_ends_then)
{
    undone[0] = 0;
    came = 0;
    signal(SIGTERM, comes);
    signal(SIGFPE, comes);
    sl_undo_put(undo_one);
    sl_signal_obey(); /* nothing came */
    sl_signals_wait();
    ck_assert_int_eq(sl_signal_waiting(), 0);
    raise(SIGTERM);
    ck_assert_int_eq(sl_signal_waiting(), SIGTERM);
    ck_assert_int_eq(undone[0], 1);
    ck_assert_int_eq(came, 0); /* it waits */
    raise(SIGFPE);             /* no request: a fault, which does not wait */
    ck_assert_int_eq(came, SIGFPE);
    came = 0;
    sl_signal_obey();
    ck_assert_int_eq(came, SIGTERM);
    sl_undo_drop(undo_one);
}
END_TEST

START_TEST(a_signal_that_is_held_waits_until_the_last_release)
{
    came = 0;
    signal(SIGTERM, comes);
    ck_assert(!sl_signal_waits());
    sl_signals_hold();
    sl_signals_hold();
    ck_assert(!sl_signal_waits());
    raise(SIGTERM);
    ck_assert(sl_signal_waits());
    sl_signals_release();
    ck_assert_int_eq(came, 0);
    sl_signals_release();
    ck_assert_int_eq(came, SIGTERM);
    ck_assert(!sl_signal_waits());
}
END_TEST

/* ---- reading --------------------------------------------------------------------------------------------
 */

static const sl_file_most most = {10, "10 bytes"};

static void is_refused(const char *name, sl_code code, const char *found, bool absent_then)
{
    bool absent = !absent_then;
    sl_error error = {.code = SL_OK};
    ck_assert_ptr_null(sl_plain_file_open(name, "a file", most, &absent, &error));
    ck_assert_int_eq(error.code, code);
    ck_assert_msg(strstr(error.found, found) != NULL, "%s", error.found);
    ck_assert_int_eq(absent, absent_then);
    ck_assert_ptr_null(sl_plain_file_open(name, "a file", most, NULL, NULL)); /* nobody asks why */
}

START_TEST(only_a_file_with_an_end_is_read)
{
    char name[160];
    put(path, "ten bytes!");
    bool absent = true;
    FILE *const file = sl_plain_file_open(path, "a file", most, &absent, NULL);
    ck_assert_ptr_nonnull(file);
    ck_assert(!absent);
    fclose(file);
    put(path, "ten bytes!!");
    is_refused(path, SL_ERR_TOO_LARGE, "too large", false);
    is_refused(other, SL_ERR_CANNOT_READ, strerror(ENOENT), true);
    snprintf(name, sizeof name, "%s/inside", path);
    is_refused(name, SL_ERR_CANNOT_READ, strerror(ENOTDIR), true);
    is_refused(folder, SL_ERR_CANNOT_READ, "it is a folder", false);
    ck_assert_int_eq(mkfifo(other, 0600), 0);
    is_refused(other, SL_ERR_CANNOT_READ, "a pipe", false);
}
END_TEST

START_TEST(a_file_that_changes_or_goes_between_two_looks_is_refused_too)
{
    const int calls[] = {OPEN, FSTAT, FDOPEN};
    put(path, "short");
    for (int i = 0; i < 3; i++) {
        sl_error error = {.code = SL_OK};
        bool absent = true;
        arm(calls[i], 1, EACCES);
        FILE *const file = sl_plain_file_open(path, "a file", most, &absent, &error);
        disarm();
        ck_assert_ptr_null(file);
        ck_assert(!absent);
        ck_assert_int_eq(error.code, i < 2 ? SL_ERR_CANNOT_READ : SL_ERR_NO_MEMORY);
    }
}
END_TEST

START_TEST(a_file_is_read_whole_or_not_at_all)
{
    char *text = NULL;
    size_t length = 0;
    sl_error error = {.code = SL_OK};
    put(path, "ten bytes!");
    ck_assert(sl_plain_file_read(path, "a file", most, &text, &length, NULL, NULL));
    ck_assert_uint_eq(length, 10);
    ck_assert_mem_eq(text, "ten bytes!", 10);
    sl_free(text);
    grows = path;
    ck_assert(!sl_plain_file_read(path, "a file", most, &text, &length, NULL, &error));
    ck_assert_int_eq(error.code, SL_ERR_TOO_LARGE);
    ck_assert_str_eq(error.file, path);
    ck_assert_str_eq(error.wanted, "10 bytes");
    ck_assert_ptr_null(text);
    put(path, "ten bytes!");
    arm(REALLOC, 1, 0);
    ck_assert(!sl_plain_file_read(path, "a file", most, &text, &length, NULL, &error));
    disarm();
    ck_assert_int_eq(error.code, SL_ERR_NO_MEMORY);
    ck_assert_ptr_null(text);
}
END_TEST

START_TEST(a_disk_that_gives_no_bytes_is_told)
{
    char *text = NULL;
    size_t length = 0;
    sl_error error = {.code = SL_OK};
    put(path, "ten bytes!");
    unreadable = true;
    ck_assert(!sl_plain_file_read(path, "a file", most, &text, &length, NULL, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
    ck_assert_str_eq(error.found, strerror(EISDIR));
    ck_assert_ptr_null(text);
}
END_TEST

/* ---- what is read is not written over -------------------------------------------------------------------
 */

START_TEST(an_output_is_no_input_and_no_two_outputs_are_one_file)
{
    char third[160], linked[160];
    sl_error error = {.code = SL_OK};
    name_in_folder(third, "third.txt");
    name_in_folder(linked, "linked.txt");
    put(path, "read");
    ck_assert_int_eq(link(path, linked), 0);
    ck_assert(sl_input_named(path, "the scene that is read", NULL)); /* nobody watches yet */
    ck_assert(sl_output_named(path, NULL) && sl_output_allowed(path, NULL));
    sl_inputs_watch();
    ck_assert(sl_output_named(NULL, NULL));
    ck_assert(sl_input_named(path, "the scene that is read", NULL));
    ck_assert(sl_input_named(path, "the scene that is read", NULL)); /* again, and once is enough */
    ck_assert(!sl_output_named(linked, &error));                     /* another name of the same file */
    ck_assert_ptr_nonnull(strstr(error.found, "is the scene that is read, and would be lost"));
    ck_assert(!sl_output_allowed(linked, NULL));
    ck_assert(sl_output_named(other, NULL)); /* not there yet: known by its place */
    ck_assert(!sl_output_named(other, &error));
    ck_assert_ptr_nonnull(strstr(error.found, "is named for two results"));
    ck_assert(!sl_input_named(other, "a log", &error));
    ck_assert_ptr_nonnull(strstr(error.found, "is a log, and would be lost"));
    ck_assert(!sl_output_allowed(other, &error)); /* whoever goes on without it does not write over it */
    ck_assert_ptr_nonnull(strstr(error.found, "is a log, and would be lost"));
    put(other, "there now");
    ck_assert(!sl_output_named(other, NULL)); /* and is the same when it is there */
    char fourth[160];
    name_in_folder(fourth, "fourth.txt");
    put(fourth, "old");
    ck_assert(sl_output_named(fourth, NULL));
    const int file = open(fourth, O_RDONLY);
    ck_assert(!sl_input_opened(file, fourth, "a log", NULL));
    close(file);
    ck_assert(!sl_output_allowed(fourth, NULL));
    ck_assert(sl_output_allowed(third, NULL));
    ck_assert(sl_input_replaced(third, "answers", NULL));
    ck_assert(sl_input_replaced(third, "answers", NULL));
    ck_assert(sl_output_allowed(third, NULL)); /* they are read and replaced */
    ck_assert(!sl_input_replaced(other, "answers", &error));
    ck_assert_ptr_nonnull(strstr(error.found, "is answers, and would be lost"));
    ck_assert(!sl_input_replaced(path, "answers", &error));
    ck_assert_ptr_nonnull(strstr(error.found, "is the scene that is read"));
    ck_assert(sl_output_named("/dev/null", NULL));
    ck_assert(sl_output_named("/dev/null", NULL));                 /* a device loses nothing */
    ck_assert(sl_output_named("/tmp/slowlift-not-there/x", NULL)); /* its writing will say what is wrong */
}
END_TEST

START_TEST(what_standard_input_reads_is_an_input_and_what_cannot_be_noted_is_refused)
{
    sl_error error = {.code = SL_OK};
    put(path, "read");
    const int kept = dup(STDIN_FILENO), file = open(path, O_RDONLY);
    ck_assert_int_eq(dup2(file, STDIN_FILENO), STDIN_FILENO);
    ck_assert(sl_input_replaced(other, "answers", NULL)); /* nobody watches yet */
    sl_inputs_watch();
    ck_assert_int_eq(dup2(kept, STDIN_FILENO), STDIN_FILENO);
    ck_assert(!sl_output_named(path, &error));
    ck_assert_ptr_nonnull(strstr(error.found, "is what standard input reads"));
    int ends[2];
    ck_assert_int_eq(pipe(ends), 0);
    ck_assert(sl_input_opened(ends[0], "a pipe", "a pipe", NULL)); /* loses nothing */
    arm(REALLOC, 0, ENOMEM);
    for (int i = 0; i < 40; i++) {
        char name[160];
        snprintf(name, sizeof name, "%s/%d", folder, i);
        if (!sl_output_named(name, &error)) {
            break; /* no room is left that was asked for before */
        }
        ck_assert_int_lt(i, 39);
    }
    ck_assert(!sl_input_named(other, "a log", NULL));
    disarm();
    ck_assert_int_eq(error.code, SL_ERR_NO_MEMORY);
    ck_assert(sl_input_named(other, "a log", NULL));
    close(ends[0]);
    close(ends[1]);
}
END_TEST

/* English stays, and why it does is told apart. */
START_TEST(a_catalogue_that_cannot_be_read_leaves_english)
{
    char name[160], many[600];
    sl_error error = {.code = SL_OK};
    name_in_folder(name, "es");
    ck_assert_int_eq(mkdir(name, 0755), 0);
    name_in_folder(name, "es/LC_MESSAGES");
    ck_assert_int_eq(mkdir(name, 0755), 0);
    ck_assert(!sl_language_use("es", folder, &error)); /* no file */
    ck_assert_int_eq(error.code, SL_ERR_MISSING_PART);
    name_in_folder(name, "es/LC_MESSAGES/slowlift.mo");
    put(name, "no catalogue, and long enough to be looked at");
    const int calls[] = {FREAD, FTELL, CALLOC};
    for (int i = 0; i < 3; i++) {
        arm(calls[i], 1, ENOMEM);
        ck_assert(!sl_language_use("es", folder, &error));
        disarm();
        ck_assert_int_eq(error.code, i < 2 ? SL_ERR_MISSING_PART : SL_ERR_NO_MEMORY);
        ck_assert_str_eq(sl_language(), "en");
    }
    memset(many, 'f', sizeof many - 1);
    many[sizeof many - 1] = '\0';
    ck_assert(!sl_language_use("es", many, &error));
    ck_assert_int_eq(error.code, SL_ERR_MISSING_PART);
}
END_TEST

START_TEST(of_a_long_name_its_end_is_told_from_a_whole_letter_on)
{
    char name[400], told[100] = "";
    sl_error error = {.code = SL_OK};
    size_t used = (size_t)snprintf(name, sizeof name, "%s/", folder);
    while (used < 240) {
        used += (size_t)snprintf(name + used, sizeof name - used, "\xc3\xb1"); /* two bytes each */
    }
    snprintf(name + used, sizeof name - used, "o.txt");
    sl_inputs_watch();
    ck_assert(sl_output_named(name, NULL));
    ck_assert(!sl_output_named(name, &error));
    ck_assert_int_eq(sscanf(error.found, "\"%99[^\"]\"", told), 1);
    ck_assert_str_eq(told + strlen(told) - 5, "o.txt");
    ck_assert_int_eq((unsigned char)told[0], 0xc3); /* not the middle of a letter */
    memset(name + strlen(folder) + 1, 'c', 300);    /* no file can be called so: there is nothing to keep */
    name[399] = '\0';
    ck_assert(sl_output_named(name, NULL));
    ck_assert(sl_output_named(name, NULL));
}
END_TEST

/* ---- memory ----------------------------------------------------------------------------------------------
 */

START_TEST(more_than_there_can_be_is_no_memory_and_loses_nothing)
{
    sl_error error = {.code = SL_OK};
    size_t room = 0;
    int *numbers = NULL;
    ck_assert(sl_grow(&numbers, &room, 3, sizeof *numbers, "counting", NULL));
    numbers[2] = 7;
    ck_assert(!sl_grow(&numbers, &room, SIZE_MAX / 2, sizeof *numbers, "counting", &error));
    ck_assert_int_eq(error.code, SL_ERR_NO_MEMORY);
    ck_assert(room == 3 && numbers[2] == 7);
    sl_free(numbers);
    sl_arena arena = {0};
    ck_assert_ptr_null(sl_arena_new(&arena, SIZE_MAX / 2, 4, "keeping", &error));
    ck_assert_ptr_null(arena.newest);
    ck_assert_ptr_nonnull(sl_arena_new(&arena, 0, 4, "keeping", NULL));
    ck_assert_ptr_nonnull(sl_arena_new(&arena, 4, 0, "keeping", NULL));
    sl_arena_free(&arena);
    char *const nothing = sl_new(0, 0, "making", NULL);
    ck_assert_ptr_nonnull(nothing);
    sl_free(nothing);
    ck_assert_ptr_null(sl_new(SIZE_MAX, 2, "making", &error));
    ck_assert_str_eq(error.found, "making");
}
END_TEST

START_SUITE("saving")
FIXTURE(set_up, tear_down)
ADD(a_file_is_written_as_the_user_s_files_are_and_an_old_one_keeps_its_rights)
ADD(whatever_fails_while_a_file_is_saved_leaves_the_old_one_and_no_litter)
ADD(a_write_that_was_broken_off_or_wrote_a_part_goes_on)
ADD(what_was_begun_and_given_up_leaves_nothing)
ADD(a_folder_a_missing_folder_and_an_endless_name_are_refused)
ADD(a_device_is_written_to_as_it_is)
ADD(a_file_that_may_not_be_written_is_refused_before_anything_is_written_beside_it)
ADD(standard_output_by_its_name_is_written_to_and_not_replaced)
CASE("until they are whole")
FIXTURE(set_up, tear_down)
ADD(what_dead_processes_left_is_cleared_away_and_nothing_else)
ADD(of_a_folder_with_a_list_only_what_is_listed_goes)
ADD(a_folder_whose_list_cannot_be_read_is_left_alone)
ADD(a_folder_that_cannot_be_looked_into_keeps_its_list)
ADD(what_somebody_else_removed_is_no_fault)
ADD(a_path_longer_than_any_is_refused_and_swept_by_nobody)
ADD(a_name_without_a_folder_lies_in_this_one)
ADD(nothing_is_given_that_could_not_be_locked)
ADD(an_error_speaks_of_the_name_that_was_given)
ADD(a_process_that_ends_takes_its_own_unfinished_files_with_it)
CASE("signals")
ADD(what_was_promised_is_put_back_before_whoever_caught_the_signal_first_gets_it)
ADD(who_can_end_in_good_order_is_told_and_ends_then)
ADD(a_signal_that_is_held_waits_until_the_last_release)
CASE("reading")
FIXTURE(set_up, tear_down)
ADD(only_a_file_with_an_end_is_read)
ADD(a_file_that_changes_or_goes_between_two_looks_is_refused_too)
ADD(a_file_is_read_whole_or_not_at_all)
ADD(a_disk_that_gives_no_bytes_is_told)
CASE("written over")
FIXTURE(set_up, tear_down)
ADD(an_output_is_no_input_and_no_two_outputs_are_one_file)
ADD(what_standard_input_reads_is_an_input_and_what_cannot_be_noted_is_refused)
ADD(a_catalogue_that_cannot_be_read_leaves_english)
ADD(of_a_long_name_its_end_is_told_from_a_whole_letter_on)
CASE("memory")
ADD(more_than_there_can_be_is_no_memory_and_loses_nothing)
END_SUITE

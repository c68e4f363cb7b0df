/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See temporary.h. What a signal handler does here is open, read of a folder by system call, unlink
 * and rmdir: all safe in a handler (signal-safety(7); getdents64 is a bare system call).
 */
#include "base/temporary.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdalign.h>
#include <stdatomic.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#include "base/hold.h"
#include "base/program.h"

static const char BEGINS[] = ".slowlift-new-";
enum { CHANCE = 6 /* letters that mkstemp() chooses */, MOST = 8, MOST_TRIES = 100 };

/* ---- what the process has open, for its end -------------------------------------------------- */

enum { FREE, FILLED, LIVE };
typedef struct sl_at_end {
    atomic_int state;
    bool is_folder;
    char path[SL_TEMPORARY_PATH];
} sl_at_end;

static sl_at_end at_end[MOST];
static int n_live;
static pid_t owner; /* a child that was forked clears away nothing */

/* Of getdents64(2); the C library's own is not for handlers. */
typedef struct sl_entry64 {
    uint64_t inode;
    int64_t next;
    unsigned short length;
    unsigned char type;
    char name[];
} sl_entry64;

/* Files only; what else somebody put there stays, and the folder with it. */
static void empty_folder(int folder)
{
    alignas(sl_entry64) char bytes[4096];
    long n = 0;
    while ((n = syscall(SYS_getdents64, folder, bytes, sizeof bytes)) > 0) {
        for (long at = 0; at < n;) {
            const sl_entry64 *const entry = (const void *)(bytes + at);
            at += entry->length;
            unlinkat(folder, entry->name, 0); /* fails for . and .. and folders */
        }
    }
}

/* In a signal handler, so never one whose place another folder has taken: those are swapped while
 * signals wait. */
static void remove_half(const char *path)
{
    const int folder = open(path, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (folder >= 0) {
        empty_folder(folder);
        close(folder);
    }
    rmdir(path);
}

static void clear_all(void)
{
    if (owner != getpid()) {
        return;
    }
    for (int i = 0; i < MOST; i++) {
        if (atomic_load(&at_end[i].state) == LIVE) {
            if (at_end[i].is_folder) {
                remove_half(at_end[i].path);
            } else {
                unlink(at_end[i].path);
            }
        }
    }
}

/* Signals that end the process, and its own end. */
static void watch_the_end(void)
{
    if (owner != getpid()) {
        owner = getpid();
        atexit(clear_all);
    }
    if (n_live++ == 0) {
        sl_undo_put(clear_all);
    }
}

static int note(const char *path, bool is_folder)
{
    for (int i = 0; i < MOST; i++) {
        int expected = FREE;
        if (atomic_compare_exchange_strong(&at_end[i].state, &expected, FILLED)) {
            at_end[i].is_folder = is_folder;
            snprintf(at_end[i].path, sizeof at_end[i].path, "%s", path);
            atomic_store(&at_end[i].state, LIVE);
            watch_the_end();
            return i;
        }
    }
    return -1; /* then the next run clears it away */
}

/* ---- folders that have a list of their own files ------------------------------------------------ */

/* Files that the list names, then the list. What else lies there is somebody's own. */
static void remove_listed(int folder, FILE *list)
{
    char line[600];
    while (fgets(line, sizeof line, list) != NULL) {
        line[strcspn(line, "\n")] = '\0';
        const char *const name = strlen(line) > SL_LIST_NAME_AT ? line + SL_LIST_NAME_AT : "";
        if (line[0] != '#' && name[0] != '.' && strchr(name, '/') == NULL) {
            unlinkat(folder, name, 0);
        }
    }
}

static bool holds_only_the_list(int folder)
{
    bool alone = true;
    const int again = openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    DIR *const entries = again >= 0 ? fdopendir(again) : NULL;
    const struct dirent *entry = NULL;
    while (entries != NULL && (entry = readdir(entries)) != NULL) {
        const char *const name = entry->d_name;
        alone =
            alone && (strcmp(name, ".") == 0 || strcmp(name, "..") == 0 || strcmp(name, SL_FOLDER_LIST) == 0);
    }
    if (entries != NULL) {
        closedir(entries);
    } else if (again >= 0) {
        close(again);
    }
    return alone && entries != NULL;
}

/* The list goes last, so that a folder that is half removed still says what is whose. */
static void remove_folder(int among, const char *name)
{
    const int folder = openat(among, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (folder < 0) {
        return;
    }
    const int file = openat(folder, SL_FOLDER_LIST, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    FILE *const list = file >= 0 ? fdopen(file, "rb") : NULL;
    if (list != NULL) {
        remove_listed(folder, list);
        fclose(list);
        if (holds_only_the_list(folder)) {
            unlinkat(folder, SL_FOLDER_LIST, 0);
        }
    } else if (file < 0 && errno == ENOENT) {
        empty_folder(folder);
    } else if (file >= 0) {
        close(file);
    }
    close(folder);
    unlinkat(among, name, AT_REMOVEDIR);
}

/* ---- making and removing ---------------------------------------------------------------------- */

static size_t folder_length(const char *path)
{
    const char *const slash = strrchr(path, '/');
    return slash ? (size_t)(slash - path + 1) : 0;
}

static bool set_name(sl_temporary *temporary, const char *path)
{
    const int length = snprintf(temporary->path, sizeof temporary->path, "%.*s%sXXXXXX",
                                (int)folder_length(path), path, BEGINS);
    if (length < 0 || (size_t)length >= sizeof temporary->path) {
        errno = ENAMETOOLONG;
        return false;
    }
    return true;
}

/* False when another process cleared it away between its making and its locking. */
static bool lock(int file)
{
    struct stat found;
    return flock(file, LOCK_EX | LOCK_NB) == 0 && fstat(file, &found) == 0 && found.st_nlink > 0;
}

static int make(sl_temporary *temporary, bool is_folder)
{
    if (!is_folder) {
        const int file = mkstemp(temporary->path);
        if (file >= 0) {
            fcntl(file, F_SETFD, FD_CLOEXEC);
        }
        return file;
    }
    return mkdtemp(temporary->path) ? open(temporary->path, O_RDONLY | O_DIRECTORY | O_CLOEXEC) : -1;
}

static bool begin(sl_temporary *temporary, const char *path, bool is_folder)
{
    sl_temporary_sweep(path);
    for (int i = 0; i < MOST_TRIES; i++) {
        *temporary = (sl_temporary){.file = -1, .place = -1, .is_folder = is_folder};
        if (!set_name(temporary, path)) {
            break;
        }
        sl_signals_hold();
        temporary->file = make(temporary, is_folder);
        temporary->place = temporary->file >= 0 ? note(temporary->path, is_folder) : -1;
        sl_signals_release();
        if (temporary->file < 0) {
            break;
        }
        if (lock(temporary->file)) {
            return true;
        }
        sl_temporary_remove(temporary);
        errno = EAGAIN;
    }
    temporary->path[0] = '\0';
    return false;
}

bool sl_temporary_file(sl_temporary *temporary, const char *path)
{
    return begin(temporary, path, false);
}

bool sl_temporary_folder(sl_temporary *temporary, const char *path)
{
    return begin(temporary, path, true);
}

void sl_temporary_forget(sl_temporary *temporary)
{
    if (temporary->path[0] == '\0') {
        return;
    }
    if (temporary->place >= 0) {
        atomic_store(&at_end[temporary->place].state, FREE);
        if (--n_live == 0) {
            sl_undo_drop(clear_all);
        }
    }
    if (temporary->file >= 0) {
        close(temporary->file);
    }
    temporary->path[0] = '\0';
}

void sl_temporary_remove(sl_temporary *temporary)
{
    if (temporary->path[0] != '\0') {
        if (temporary->is_folder) {
            remove_folder(AT_FDCWD, temporary->path);
        } else {
            unlink(temporary->path);
        }
        sl_temporary_forget(temporary);
    }
}

static void replace(char *text, size_t size, const char *was, const char *named)
{
    char rest[SL_ERROR_FILE_SIZE];
    char *const there = strstr(text, was);
    if (there != NULL) {
        snprintf(rest, sizeof rest, "%s", there + strlen(was));
        snprintf(there, size - (size_t)(there - text), "%s%s", named, rest);
    }
}

void sl_temporary_rename_in(const sl_temporary *temporary, const char *named, sl_error *error)
{
    if (temporary->path[0] != '\0' && error != NULL) {
        replace(error->file, sizeof error->file, temporary->path, named);
        replace(error->found, sizeof error->found, temporary->path, named);
    }
}

/* ---- writing and naming ---------------------------------------------------------------------------- */

int sl_write_all(int file, const void *bytes, size_t size)
{
    for (size_t done = 0; done < size;) {
        const ssize_t part = write(file, (const char *)bytes + done, size - done);
        if (part == 0 || (part < 0 && errno != EINTR)) {
            return part < 0 ? errno : EIO;
        }
        done += part > 0 ? (size_t)part : 0;
    }
    return 0;
}

mode_t sl_usual_mode(bool folder)
{
    const mode_t mask = umask(0);
    umask(mask);
    return (folder ? 0777 : 0666) & ~mask;
}

bool sl_name_new(const char *made, const char *path)
{
    if (link(made, path) == 0) {
        return true;
    }
    if (errno != EPERM && errno != EOPNOTSUPP) {
        return false;
    }
    if (access(path, F_OK) == 0) {
        errno = EEXIST;
        return false;
    }
    return rename(made, path) == 0;
}

/* ---- what dead processes left -------------------------------------------------------------------- */

static bool is_ours(const char *name)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";
    const size_t begins = sizeof BEGINS - 1;
    return strncmp(name, BEGINS, begins) == 0 && strlen(name) == begins + CHANCE &&
           strspn(name + begins, letters) == CHANCE;
}

static void sweep_one(int among, const char *name)
{
    struct stat found;
    const int file = openat(among, name, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    if (file < 0) {
        return;
    }
    const bool dead = fstat(file, &found) == 0 && found.st_uid == geteuid() &&
                      (S_ISREG(found.st_mode) || S_ISDIR(found.st_mode)) &&
                      flock(file, LOCK_EX | LOCK_NB) == 0;
    if (dead && S_ISREG(found.st_mode)) {
        unlinkat(among, name, 0);
    } else if (dead) {
        remove_folder(among, name);
    }
    close(file);
}

void sl_temporary_sweep(const char *path)
{
    char folder[SL_TEMPORARY_PATH];
    const size_t length = folder_length(path);
    if (length >= sizeof folder) {
        return;
    }
    snprintf(folder, sizeof folder, "%.*s", length > 0 ? (int)length : 1, length > 0 ? path : ".");
    DIR *const open_folder = opendir(folder);
    const struct dirent *entry = NULL;
    while (open_folder && (entry = readdir(open_folder)) != NULL) {
        if (is_ours(entry->d_name)) {
            sweep_one(dirfd(open_folder), entry->d_name);
        }
    }
    if (open_folder) {
        closedir(open_folder);
    }
}

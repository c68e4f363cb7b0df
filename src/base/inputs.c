/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See inputs.h. A file that is not there yet is known by its folder's device and inode and its name.
 */
#include "base/inputs.h"

#include <limits.h>
#include <pthread.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/language.h"
#include "base/memory.h"

enum { SAID_SIZE = 101 };

typedef enum sl_input_use { SL_USE_READ, SL_USE_REPLACED, SL_USE_WRITTEN } sl_input_use;

/* A file: as it is now, and where it lies; either may be unknown. */
typedef struct sl_identity {
    bool is_there, has_place;
    dev_t device, folder_device;
    ino_t inode, folder_inode;
    char name[NAME_MAX + 1];
} sl_identity;

typedef struct sl_used {
    sl_identity file;
    sl_input_use use;
    const char *what;       /* NULL for an output */
    char called[SAID_SIZE]; /* an output as the command line names it; "" for standard output */
} sl_used;

static pthread_mutex_t turn = PTHREAD_MUTEX_INITIALIZER; /* the window reads in a thread of its own */
static bool watching;
static sl_used *used;
static size_t n_used, room;

/* ---- telling files apart -------------------------------------------------------------------- */

static void identify(sl_identity *file, const struct stat *found)
{
    /* Devices and pipes lose nothing by being written to. */
    if (S_ISREG(found->st_mode)) {
        file->is_there = true;
        file->device = found->st_dev;
        file->inode = found->st_ino;
    }
}

static void place(sl_identity *file, const char *path)
{
    char folder[PATH_MAX];
    struct stat found;
    const char *const slash = strrchr(path, '/');
    const char *const name = slash ? slash + 1 : path;
    const int length =
        snprintf(folder, sizeof folder, "%.*s", slash ? (int)(slash - path + 1) : 1, slash ? path : ".");
    if (length < 0 || (size_t)length >= sizeof folder || strlen(name) > NAME_MAX ||
        stat(folder, &found) != 0) {
        return;
    }
    file->has_place = true;
    file->folder_device = found.st_dev;
    file->folder_inode = found.st_ino;
    snprintf(file->name, sizeof file->name, "%s", name);
}

static sl_identity identity_of(const char *path)
{
    sl_identity file = {.is_there = false};
    struct stat found;
    if (stat(path, &found) == 0) {
        identify(&file, &found);
        if (!file.is_there) {
            return file;
        }
    }
    place(&file, path);
    return file;
}

static bool is_same(const sl_identity *one, const sl_identity *two)
{
    if (one->is_there && two->is_there) {
        return one->device == two->device && one->inode == two->inode;
    }
    return one->has_place && two->has_place && one->folder_device == two->folder_device &&
           one->folder_inode == two->folder_inode && strcmp(one->name, two->name) == 0;
}

/* /dev/stdout and its other names are standard output, whatever file that is. */
bool sl_is_stdout(const char *path)
{
    struct stat named, out;
    return (strncmp(path, "/dev/", 5) == 0 || strncmp(path, "/proc/", 6) == 0) && stat(path, &named) == 0 &&
           fstat(STDOUT_FILENO, &out) == 0 && named.st_dev == out.st_dev && named.st_ino == out.st_ino;
}

static const sl_used *find(const sl_identity *file, bool among_outputs, bool among_inputs)
{
    for (size_t i = 0; i < n_used; i++) {
        const bool asked = used[i].use == SL_USE_WRITTEN ? among_outputs : among_inputs;
        if (asked && is_same(&used[i].file, file)) {
            return &used[i];
        }
    }
    return NULL;
}

/* ---- what is said ----------------------------------------------------------------------------- */

/* The end of a long path tells more than its beginning. */
static const char *tail_of(const char *path)
{
    const size_t most = SAID_SIZE - 1, length = strlen(path);
    const char *tail = length > most ? path + length - most : path;
    while (((unsigned char)*tail & 0xC0U) == 0x80U) {
        tail++;
    }
    return tail;
}

/* `called`: the output's name; "" for standard output. */
static bool refuse_input(const char *called, const char *path, const char *what, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    sl_error_clear(error);
    if (called[0] == '\0') {
        snprintf(found, sizeof found, _("what is printed goes into \"%s\", which is %s"), tail_of(path),
                 _(what));
        return sl_fail(error, SL_ERR_USAGE, found, N_("send it to another file"));
    }
    snprintf(found, sizeof found, _("\"%s\" is %s, and would be lost"), tail_of(called), _(what));
    return sl_fail(error, SL_ERR_USAGE, found, N_("name another file for what is written"));
}

static bool refuse_twin(const char *path, const sl_used *other, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    sl_error_clear(error);
    snprintf(found, sizeof found,
             other->called[0] == '\0' ? _("\"%s\" is the file that standard output goes into")
                                      : _("\"%s\" is named for two results, and one would be lost"),
             tail_of(path));
    return sl_fail(error, SL_ERR_USAGE, found, N_("give each a file of its own"));
}

/* ---- keeping ------------------------------------------------------------------------------------ */

static bool keep(const sl_identity *file, sl_input_use use, const char *what, sl_error *error)
{
    if (!sl_grow(&used, &room, n_used + 1, sizeof *used, "noting which files are used", error)) {
        return false;
    }
    used[n_used++] = (sl_used){.file = *file, .use = use, .what = what, .called = ""};
    return true;
}

/* One entry for a file that is read again and again. */
static bool keep_once(const sl_identity *file, sl_input_use use, const char *what, sl_error *error)
{
    return find(file, false, true) != NULL || keep(file, use, what, error);
}

/* What is refused is kept too: some go on without it, and write later. Keeping it may move what was found. */
static bool take_input(const sl_identity *file, const char *path, const char *what, sl_error *error)
{
    const sl_used *const output = find(file, true, false);
    if (!output) {
        return keep_once(file, SL_USE_READ, what, error);
    }
    refuse_input(output->called, path, what, error);
    keep_once(file, SL_USE_READ, what, NULL);
    return false;
}

void sl_inputs_watch(void)
{
    struct stat found;
    pthread_mutex_lock(&turn);
    watching = true;
    if (fstat(STDOUT_FILENO, &found) == 0 && S_ISREG(found.st_mode)) {
        sl_identity file = {.is_there = false};
        identify(&file, &found);
        keep(&file, SL_USE_WRITTEN, NULL, NULL);
    }
    if (fstat(STDIN_FILENO, &found) == 0 && S_ISREG(found.st_mode)) {
        sl_identity file = {.is_there = false};
        identify(&file, &found);
        keep(&file, SL_USE_READ, N_("what standard input reads"), NULL);
    }
    pthread_mutex_unlock(&turn);
}

bool sl_input_opened(int file, const char *path, const char *what, sl_error *error)
{
    sl_identity opened = {.is_there = false};
    struct stat found;
    bool good = true;
    pthread_mutex_lock(&turn);
    if (watching && fstat(file, &found) == 0 && S_ISREG(found.st_mode)) {
        identify(&opened, &found);
        good = take_input(&opened, path, what, error);
    }
    pthread_mutex_unlock(&turn);
    return good;
}

bool sl_input_named(const char *path, const char *what, sl_error *error)
{
    bool good = true;
    pthread_mutex_lock(&turn);
    if (watching) {
        const sl_identity file = identity_of(path);
        good = take_input(&file, path, what, error);
    }
    pthread_mutex_unlock(&turn);
    return good;
}

bool sl_input_replaced(const char *path, const char *what, sl_error *error)
{
    bool good = true;
    pthread_mutex_lock(&turn);
    if (watching) {
        const sl_identity file = identity_of(path);
        const sl_used *const other = find(&file, true, true);
        if (!other) {
            good = keep(&file, SL_USE_REPLACED, what, error);
        } else if (other->use != SL_USE_REPLACED) {
            const bool is_output = other->use == SL_USE_WRITTEN;
            good =
                refuse_input(is_output ? other->called : path, path, is_output ? what : other->what, error);
        }
    }
    pthread_mutex_unlock(&turn);
    return good;
}

static bool take_output(const char *path, sl_error *error)
{
    const sl_identity file = identity_of(path);
    const sl_used *const other = find(&file, true, true);
    if (other) {
        return other->use == SL_USE_WRITTEN ? refuse_twin(path, other, error)
                                            : refuse_input(path, path, other->what, error);
    }
    if (!keep(&file, SL_USE_WRITTEN, NULL, error)) {
        return false;
    }
    snprintf(used[n_used - 1].called, SAID_SIZE, "%s", tail_of(path));
    return true;
}

bool sl_output_named(const char *path, sl_error *error)
{
    bool good = true;
    pthread_mutex_lock(&turn);
    if (watching && path && !sl_is_stdout(path)) {
        good = take_output(path, error);
    }
    pthread_mutex_unlock(&turn);
    return good;
}

bool sl_output_allowed(const char *path, sl_error *error)
{
    bool good = true;
    pthread_mutex_lock(&turn);
    if (watching) {
        const sl_identity file = identity_of(path);
        const sl_used *const input = find(&file, false, true);
        good = !input || input->use == SL_USE_REPLACED || refuse_input(path, path, input->what, error);
    }
    pthread_mutex_unlock(&turn);
    return good;
}

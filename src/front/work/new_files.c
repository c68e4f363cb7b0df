/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See new_files.h.
 */
#include "front/work/new_files.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/program.h"
#include "base/temporary.h"

enum { PATH = SL_ASK_PATH + SL_MADE_NAME + 2 };

typedef struct sl_placing {
    char path[PATH], folder[PATH];
    bool folder_made, placed;
    sl_temporary beside;
} sl_placing;

static bool refuse(const char *path, int reason, sl_error *error)
{
    char quoted[SL_ERROR_TEXT_SIZE];
    snprintf(quoted, sizeof quoted, "\"%.200s\"", path);
    return sl_fail(error, SL_ERR_CANNOT_WRITE, quoted, strerror(reason));
}

/* Where it goes, and the folder that it lies in: "" for one that is there for the scene. */
static void place(sl_placing *placing, const sl_made *made, const sl_made_file *file)
{
    const char *const slash = strrchr(made->asked.file, '/');
    const int folder = slash ? (int)(slash - made->asked.file) + 1 : 0;
    const char *const inner = strchr(file->name, '/');
    if (file->name[0] == '\0') {
        snprintf(placing->path, sizeof placing->path, "%s", made->asked.file);
        return;
    }
    snprintf(placing->path, sizeof placing->path, "%.*s%s", folder, made->asked.file, file->name);
    snprintf(placing->folder, sizeof placing->folder, "%.*s%.*s", folder, made->asked.file,
             inner ? (int)(inner - file->name) : 0, file->name);
}

/* The whole text under a name of its own, in the scene's folder. */
static bool write_beside(sl_placing *placing, const char *scene, const char *text, sl_error *error)
{
    if (!sl_temporary_file(&placing->beside, scene)) {
        return refuse(scene, errno, error);
    }
    const int file = placing->beside.file;
    int reason = fchmod(file, sl_usual_mode(false)) == 0 ? 0 : errno;
    reason = reason == 0 ? sl_write_all(file, text, strlen(text)) : reason;
    reason = reason == 0 && fsync(file) != 0 ? errno : reason;
    return reason == 0 || refuse(placing->path, reason, error);
}

/* Whether the very same lies there: of a call that was killed on its way. */
static bool is_there(const sl_placing *placing, const char *text)
{
    char there[SL_MADE_BYTES];
    FILE *const file = fopen(placing->path, "rb");
    const size_t length = file ? fread(there, 1, sizeof there, file) : 0;
    if (file) {
        fclose(file);
    }
    return file && length == strlen(text) && memcmp(there, text, length) == 0;
}

static bool give_name(sl_placing *placing, const char *text, sl_error *error)
{
    if (placing->folder[0] != '\0') {
        placing->folder_made = mkdir(placing->folder, 0777) == 0;
        if (!placing->folder_made && errno != EEXIST) {
            return refuse(placing->folder, errno, error);
        }
    }
    placing->placed = sl_name_new(placing->beside.path, placing->path);
    const int reason = errno;
    return placing->placed || (reason == EEXIST && placing->folder[0] != '\0' && is_there(placing, text)) ||
           refuse(placing->path, reason, error);
}

bool sl_new_files_write(const sl_made *made, sl_error *error)
{
    sl_placing *const all = sl_new(SL_MADE_FILES, sizeof *all, "writing the files", error);
    bool good = all != NULL;
    sl_signals_wait();
    for (int i = 0; good && i < made->n; i++) {
        place(&all[i], made, &made->file[i]);
        good = write_beside(&all[i], made->asked.file, made->file[i].text, error);
    }
    for (int i = 0; good && i < made->n; i++) {
        good = give_name(&all[i], made->file[i].text, error);
    }
    for (int i = made->n - 1; all && i >= 0; i--) {
        if (!good && all[i].placed) {
            unlink(all[i].path);
        }
        if (!good && all[i].folder_made) {
            rmdir(all[i].folder);
        }
        sl_temporary_remove(&all[i].beside);
    }
    sl_free(all);
    sl_signal_obey();
    return good;
}

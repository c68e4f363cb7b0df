/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The linker puts the functions named __wrap_... here before the product's (CMakeLists.txt, "fuzzing"):
 * bytes from disk come from memory, and a file of models/ is parsed when it is first wanted and kept.
 * Nothing in the product knows of it.
 */
#include "frame.h"

#include <dirent.h>
#include <errno.h>

#include "base/memory.h"
#include "scene/yaml/file.h"
#include "scene/yaml/node.h"

enum { MOST_KEPT = 512, PATH = 512 };

typedef struct kept_file {
    char path[PATH];
    char *text;
    size_t length;
    bool parsed;
    sl_yaml document;
    sl_scene *scene;
} kept_file;

static kept_file kept[MOST_KEPT];
static int n_kept;
static const char *input_path = "input";
static const char *input_text;
static size_t input_length;

/* Of the product's own types: where those change, this no longer compiles. */
__typeof__(sl_file_read) __wrap_sl_file_read, __real_sl_file_read;
__typeof__(sl_yaml_parse) __wrap_sl_yaml_parse, __real_sl_yaml_parse;

/* ---- once ------------------------------------------------------------------------------------------------
 */

static void keep(const char *path)
{
    kept_file *const file = &kept[n_kept];
    sl_error error = {.code = SL_OK};
    if (n_kept == MOST_KEPT || strlen(path) >= PATH ||
        !__real_sl_file_read(path, "a file to keep", &file->text, &file->length, NULL, &error)) {
        fprintf(stderr, "cannot keep %s: %s\n", path, error.found);
        exit(EXIT_FAILURE);
    }
    snprintf(file->path, sizeof file->path, "%s", path);
    n_kept++;
}

static void keep_folder(const char *folder, int deep)
{
    struct dirent **names = NULL;
    const int n = scandir(folder, &names, NULL, alphasort);
    for (int i = 0; i < n; i++) {
        char path[PATH];
        snprintf(path, sizeof path, "%s/%s", folder, names[i]->d_name);
        const size_t length = strlen(path);
        if (length > 5 && strcmp(path + length - 5, ".yaml") == 0) {
            keep(path);
        } else if (deep > 0 && names[i]->d_name[0] != '.') {
            keep_folder(path, deep - 1);
        }
        free(names[i]);
    }
    free(names);
}

int LLVMFuzzerInitialize(int *argc, char ***argv)
{
    sl_start();
    keep_folder(SLOWLIFT_SOURCE "/models", 1);
    keep_folder(SLOWLIFT_SOURCE "/lessons", 1);
    if (*argc == 3 && strcmp((*argv)[1], "--seeds") == 0 && fuzz_seeds) {
        fuzz_seeds((*argv)[2]);
        exit(EXIT_SUCCESS);
    }
    return 0;
}

/* ---- bytes -----------------------------------------------------------------------------------------------
 */

static kept_file *find(const char *path)
{
    for (int i = 0; i < n_kept; i++) {
        if (strcmp(kept[i].path, path) == 0) {
            return &kept[i];
        }
    }
    return NULL;
}

void frame_input(const char *path, const uint8_t *bytes, size_t size)
{
    input_path = path;
    input_text = (const char *)bytes;
    input_length = size;
}

bool __wrap_sl_file_read(const char *path, const char *what, char **text, size_t *length, bool *absent,
                         sl_error *error)
{
    (void)what;
    const kept_file *const file = strcmp(path, input_path) == 0 ? NULL : find(path);
    const bool there = file || strcmp(path, input_path) == 0;
    if (absent) {
        *absent = !there;
    }
    if (!there) {
        return sl_fail_at(error, SL_ERR_CANNOT_READ, path, 0, 0, strerror(ENOENT), "");
    }
    *length = file ? file->length : input_length;
    *text = sl_new(*length + 1, 1, "fuzzing", error);
    if (*text && *length > 0) {
        memcpy(*text, file ? file->text : input_text, *length);
    }
    return *text != NULL;
}

/* A kept file's nodes are not freed: the document that is given has no memory of its own. */
bool __wrap_sl_yaml_parse(sl_yaml *document, const char *text, size_t length, const char *file,
                              sl_error *error)
{
    for (int i = 0; i < n_kept; i++) {
        const bool same = kept[i].length == length && memcmp(kept[i].text, text, length) == 0;
        if (same && strcmp(kept[i].path, file) == 0) {
            kept[i].parsed =
                kept[i].parsed || __real_sl_yaml_parse(&kept[i].document, text, length, file, error);
            *document = (sl_yaml){.root = kept[i].document.root};
            return kept[i].parsed;
        }
    }
    return __real_sl_yaml_parse(document, text, length, file, error);
}

/* ---- models ----------------------------------------------------------------------------------------------
 */

static bool fetch(void *self, const char *kind, const char *name, char **text, size_t *length, char *path,
                  size_t path_size, sl_error *error)
{
    (void)self;
    if (strcmp(name, "input") == 0) {
        snprintf(path, path_size, "input/%s", kind);
        *text = (char *)(uintptr_t)input_text;
        *length = input_length;
        return true;
    }
    static const struct {
        const char *kind, *folder;
    } folders[] = {{"hair", "hair"},
                   {"dyes", "dyes"},
                   {"mix", "mixes"},
                   {"chemistry", "chemistry"},
                   {"chart", "charts"}};
    for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++) {
        snprintf(path, path_size, "%s/models/%s/%s.yaml", SLOWLIFT_SOURCE, folders[i].folder, name);
        kept_file *const file = strcmp(folders[i].kind, kind) == 0 ? find(path) : NULL;
        if (file) {
            *text = file->text;
            *length = file->length;
            return true;
        }
    }
    path[0] = '\0';
    return sl_fail(error, SL_ERR_MISSING_REFERENCE, name, "a file of models/");
}

static void release(void *self, char *text)
{
    (void)self;
    (void)text;
}

sl_resolver frame_resolver(void)
{
    return (sl_resolver){.fetch = fetch, .release = release};
}

const sl_scene *frame_scene(const char *name)
{
    char path[PATH];
    sl_error error = {.code = SL_OK};
    const sl_resolver resolver = frame_resolver();
    snprintf(path, sizeof path, "%s/models/scenes/%s.yaml", SLOWLIFT_SOURCE, name);
    kept_file *const file = find(path);
    if (file && !file->scene) {
        file->scene = sl_scene_load(path, &resolver, &error);
    }
    if (!file || !file->scene) {
        fprintf(stderr, "no scene %s: %s\n", name, error.found);
        exit(EXIT_FAILURE);
    }
    return file->scene;
}

const char *frame_lesson(const uint8_t *bytes, size_t size)
{
    static char path[PATH];
    const char *const text = (const char *)bytes;
    const char *const end = size > 2 ? memchr(text, '\n', size < 80 ? size : 80) : NULL;
    if (end && text[0] == '#' && text[1] == ' ') {
        snprintf(path, sizeof path, "%s/lessons/%.*s/lesson.yaml", SLOWLIFT_SOURCE, (int)(end - text - 2),
                 text + 2);
        if (!memchr(text, '\0', (size_t)(end - text)) && find(path)) {
            return path;
        }
    }
    snprintf(path, sizeof path, "%s/lessons/half-life/lesson.yaml", SLOWLIFT_SOURCE);
    return path;
}

void frame_refused(const sl_error *error)
{
    if (error->code == SL_OK) {
        fprintf(stderr, "refused without a reason\n");
        abort();
    }
}

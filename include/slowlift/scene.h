/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Model files (YAML subset, docs/file-format.md) -> a scene. Strict: the first thing
 * that is wrong is reported with file, line and column, and nothing half-read is kept; a check tells all.
 */
#ifndef SLOWLIFT_SCENE_H
#define SLOWLIFT_SCENE_H

#include <stdbool.h>
#include <stddef.h>

#include "slowlift/cost.h"
#include "slowlift/error.h"
#include "slowlift/intake.h"
#include "slowlift/model.h"

#pragma GCC visibility push(default)

enum { SL_FORMAT_VERSION = 1 };

/* Where named things come from. The loader opens no file behind the caller's back: it
 * asks this. kind is "hair", "dyes", "mix", "chemistry" or "chart". On success *text is a buffer
 * of *length bytes that `release` gets back, and `path` (of path_size bytes) names it in
 * messages. On failure *error is set (SL_ERR_MISSING_REFERENCE or a reading error). */
typedef struct sl_resolver {
    void *self;
    bool (*fetch)(void *self, const char *kind, const char *name, char **text, size_t *length, char *path,
                  size_t path_size, sl_error *error);
    void (*release)(void *self, char *text);
    struct sl_library *library; /* of files that were found before; NULL: each load keeps its own */
    struct sl_faults *faults;   /* of a check: it goes on behind a fault; NULL: the first one ends it */
} sl_resolver;

/* What a check found, each once, as it was met. */
enum { SL_MOST_FAULTS = 32 };
typedef struct sl_faults {
    int n;
    sl_error fault[SL_MOST_FAULTS];
} sl_faults;

/* Files that were found, parsed: many loads that follow each other, as of a list, parse each of them once. A
 * file that changes meanwhile is not seen. NULL with *error set when memory is short. */
struct sl_library *sl_library_new(sl_error *error);
void sl_library_free(struct sl_library *library); /* NULL is allowed */

/* A resolver over a list of model folders, searched in order: <folder>/<kind folder>/
 * <name>.yaml with the kind folders hair, dyes, mixes, chemistry, charts. `folders` is borrowed:
 * n_folders paths that must outlive it. */
typedef struct sl_folders {
    const char *const *folders;
    int n_folders;
} sl_folders;
sl_resolver sl_resolver_of_folders(sl_folders *folders);

/* Parse a scene held in memory. `name` stands in messages. NULL with *error set. */
sl_scene *sl_scene_parse(const char *text, size_t length, const char *name, const sl_resolver *resolver,
                         sl_error *error);
/* Read and parse a scene file. */
sl_scene *sl_scene_load(const char *path, const sl_resolver *resolver, sl_error *error);
void sl_scene_free(sl_scene *scene); /* NULL is allowed */

/* A copy with memory of its own, to be changed by a what-if. */
sl_scene *sl_scene_copy(const sl_scene *scene, sl_error *error);

/* A form about a person (kind intake). `scene` gives the arms and zones that a strand was seen
 * with. On failure *intake is left as it was. */
bool sl_intake_load(const char *path, const sl_scene *scene, sl_intake *intake, sl_error *error);

/* A shelf's prices (kind prices). On failure *prices is left as it was. */
bool sl_prices_load(const char *path, sl_prices *prices, sl_error *error);

/* What somebody settled once and for all (kind settings). */
enum { SL_SETTLED_PATH = 4096 };
typedef struct sl_settled {
    char tests[SL_SETTLED_PATH]; /* the folder in which logs are kept: a whole path; "": not settled */
    int keep_months;             /* how long tests are kept; 0: not settled */
} sl_settled;
/* *absent: there is no such file, which is no failure: nothing is settled. On failure *settled is left as it
 * was. */
bool sl_settled_load(const char *path, sl_settled *settled, bool *absent, sl_error *error);

typedef enum sl_file_kind {
    SL_KIND_SCENE,
    SL_KIND_HAIR,
    SL_KIND_DYES,
    SL_KIND_MIX,
    SL_KIND_CHEMISTRY,
    SL_KIND_CHART,
    SL_KIND_INTAKE,
    SL_KIND_PRICES,
    SL_KIND_SETTINGS,
    SL_KIND_COUNT
} sl_file_kind;
const char *sl_file_kind_word(sl_file_kind kind);

/* Check a model file of any kind, references included. kind and title (of title_size
 * bytes) may be NULL; they are what the file says of itself. Where the resolver gathers faults, what could
 * not be read is passed over, with what hangs on it; *error is then of SL_OK, or of what ended the check. */
bool sl_file_check(const char *path, const sl_resolver *resolver, sl_file_kind *kind, char *title,
                   size_t title_size, sl_error *error);

#pragma GCC visibility pop

#endif

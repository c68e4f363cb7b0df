/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzzes the reader: the input is a scene, and also, served by the resolver, the hair, dyes,
 * mix, chemistry and chart named "input" that it may refer to; every other name comes from the
 * shipped models. Built with -DSLOWLIFT_FUZZ=ON and Clang; see docs/file-format.md, "Fuzzing".
 */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/scene.h"

typedef struct input {
    const char *text;
    size_t length;
} input;

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

static bool fetch(void *self, const char *kind, const char *name, char **text, size_t *length, char *path,
                  size_t path_size, sl_error *error)
{
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver shipped = sl_resolver_of_folders(&folders);
    const input *const in = self;
    if (strcmp(name, "input") != 0) {
        return shipped.fetch(shipped.self, kind, name, text, length, path, path_size, error);
    }
    *text = malloc(in->length + 1); /* released with free, as the shipped resolver's texts are */
    if (!*text) {
        return sl_fail(error, SL_ERR_NO_MEMORY, "fuzzing", "");
    }
    memcpy(*text, in->text, in->length);
    *length = in->length;
    snprintf(path, path_size, "input/%s", kind);
    return true;
}

static void release(void *self, char *text)
{
    (void)self;
    free(text);
}

/* A scene that refers to the input as each kind in turn. */
static const char *const around[] = {
    NULL,
#define HEAD                                                                                                 \
    "kind: scene\nversion: 1\ntitle: T\norigin: o\nlies: bench\nroom: 24 C\nuntil: 1 h\nhair_mass: 2 g\n"
    HEAD "chemistry: input\nzones: [{name: u, hair: natural-5}]\narms: [{name: a}]\n",
    HEAD "zones: [{name: u, hair: input}]\narms: [{name: a}]\n",
    HEAD "chart: input\nzones: [{name: u, hair: natural-5}]\narms: [{name: a}]\n",
    HEAD "dyes: input\nzones: [{name: u, hair: natural-5}, {name: d, hair: natural-5, dye: {red: 4}}]\n"
         "arms: [{name: a}]\n",
    HEAD "zones: [{name: u, hair: natural-5}]\n"
         "arms: [{name: a, steps: [{apply: input, dwell: 9 min, mix_per_hair: 4 g/g}]}]\n",
};

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    input in = {(const char *)bytes, size};
    const sl_resolver resolver = {&in, fetch, release};
    for (size_t i = 0; i < sizeof around / sizeof around[0]; i++) {
        const char *const text = around[i] ? around[i] : in.text;
        const size_t length = around[i] ? strlen(around[i]) : in.length;
        sl_error error;
        sl_scene *const scene = sl_scene_parse(text, length, "fuzz.yaml", &resolver, &error);
        if (!scene && error.code == SL_OK) {
            abort(); /* refused without a reason */
        }
        if (scene) {
            sl_scene_free(sl_scene_copy(scene, &error));
        }
        sl_scene_free(scene);
    }
    return 0;
}

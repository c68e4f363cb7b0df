/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The input is a part of the library: hair, dyes, mix or chemistry. It is checked alone, and then read by a
 * scene that refers to it as what it says it is. A check that passes is a file that a scene can read.
 */
#include "frame.h"

#define HEAD                                                                                                 \
    "kind: scene\nversion: 1\ntitle: T\norigin: o\nlies: bench\nroom: 24 C\nuntil: 1 h\nhair_mass: 2 g\n"

static const struct {
    const char *kind, *scene;
} around[] = {
    {"chemistry", HEAD "chemistry: input\nzones: [{name: u, hair: natural-5}]\narms: [{name: a}]\n"},
    {"hair", HEAD "zones: [{name: u, hair: input}]\narms: [{name: a}]\n"},
    {"dyes",
     HEAD "dyes: input\nzones: [{name: u, hair: natural-5}, {name: d, hair: natural-5, dye: {red: 4}}]\n"
          "arms: [{name: a}]\n"},
    {"mix", HEAD "zones: [{name: u, hair: natural-5}]\n"
                 "arms: [{name: a, steps: [{apply: input, dwell: 9 min, mix_per_hair: 4 g/g}]}]\n"},
};

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    sl_error error = {.code = SL_OK};
    sl_file_kind kind = SL_KIND_COUNT;
    char title[128];
    const sl_resolver resolver = frame_resolver();
    frame_input("input.yaml", bytes, size);
    if (!sl_file_check("input.yaml", &resolver, &kind, title, sizeof title, &error)) {
        frame_refused(&error);
        return 0;
    }
    for (size_t i = 0; i < sizeof around / sizeof around[0]; i++) {
        if (strcmp(around[i].kind, sl_file_kind_word(kind)) == 0) {
            sl_scene *const scene =
                sl_scene_parse(around[i].scene, strlen(around[i].scene), "around.yaml", &resolver, &error);
            if (!scene) {
                frame_refused(&error);
            }
            sl_scene_free(scene);
        }
    }
    return 0;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The input is a chart, read by a scene; every colour then has a word by it.
 */
#include "frame.h"

#include "slowlift/optics.h"

static const char around[] =
    "kind: scene\nversion: 1\ntitle: T\norigin: o\nlies: bench\nroom: 24 C\nuntil: 1 h\nhair_mass: 2 g\n"
    "chart: input\nzones: [{name: u, hair: natural-5}]\narms: [{name: a}]\n";

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    sl_error error = {.code = SL_OK};
    const sl_resolver resolver = frame_resolver();
    sl_file_kind kind = SL_KIND_COUNT;
    frame_input("input.yaml", bytes, size);
    if (!sl_file_check("input.yaml", &resolver, &kind, NULL, 0, &error)) {
        frame_refused(&error);
        return 0;
    }
    if (kind != SL_KIND_CHART) {
        return 0;
    }
    sl_scene *const scene = sl_scene_parse(around, sizeof around - 1, "around.yaml", &resolver, &error);
    if (!scene) {
        frame_refused(&error);
        return 0;
    }
    for (int i = 0; i < 64; i++) {
        const sl_lab lab = {5.0 + 1.5 * i, 10.0 * (i % 8) - 35.0, 12.0 * (i / 8) - 20.0};
        const sl_reading_words words = sl_chart_read(&scene->chart, lab);
        if (!(words.level >= 1.0 && words.level <= 10.0) || !words.tone || !words.warmth) {
            abort();
        }
    }
    sl_scene_free(scene);
    return 0;
}

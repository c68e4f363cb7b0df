/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The input is a scene. What was read can be copied, and the copy has the same fingerprint.
 */
#include "frame.h"

#include "slowlift/part.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    sl_error error = {.code = SL_OK};
    const sl_resolver resolver = frame_resolver();
    frame_input("input.yaml", bytes, size);
    sl_scene *const scene = sl_scene_load("input.yaml", &resolver, &error);
    if (!scene) {
        frame_refused(&error);
        return 0;
    }
    sl_scene *const copy = sl_scene_copy(scene, &error);
    if (!copy || sl_scene_fingerprint(copy) != sl_scene_fingerprint(scene)) {
        abort();
    }
    sl_scene_free(copy);
    sl_scene_free(scene);
    return 0;
}

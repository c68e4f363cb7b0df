/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See stage_made.h.
 */
#include "stage_made.h"

#include <check.h>

#include "slowlift/scene.h"

sl_stage *stage_made(const sl_scene *scene)
{
    sl_error error = {.code = SL_OK};
    sl_story story = {0};
    const sl_eyes eyes = {0};
    SDL_setenv("SDL_VIDEODRIVER", "dummy", 1);
    SDL_SetHint(SDL_HINT_FRAMEBUFFER_ACCELERATION, "0");
    ck_assert_int_eq(SDL_Init(SDL_INIT_VIDEO), 0);
    SDL_Window *const window = SDL_CreateWindow("test", 0, 0, 1280, 800, 0);
    ck_assert_ptr_nonnull(window);
    story.scene = sl_scene_copy(scene, &error);
    ck_assert_ptr_nonnull(story.scene);
    ck_assert(sl_story_solve(&story, &error));
    sl_stage *const stage = sl_stage_new(&story, &eyes, window, 1.0, &error);
    ck_assert_msg(stage != NULL, "%s: %s", error.found, error.wanted);
    return stage;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See stage_made.h.
 */
#include "stage_made.h"

#include <check.h>
#include <stdio.h>

#include "slowlift/estimate.h"
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

sl_stage *stage_of(const char *file)
{
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    char path[512];
    sl_error error;
    snprintf(path, sizeof path, SLOWLIFT_MODELS "/scenes/%s", file);
    sl_scene *const scene = sl_scene_load(path, &resolver, &error);
    ck_assert_msg(scene != NULL, "%s", error.found);
    sl_aims_assume(scene);
    sl_stage *const stage = stage_made(scene);
    sl_scene_free(scene);
    return stage;
}

void stage_drawn(sl_stage *stage)
{
    sl_error error = {.code = SL_OK};
    stage->dirty = true;
    sl_stage_advance(stage);
    sl_stage_resolve(stage);
    ck_assert_msg(sl_stage_draw(stage, &error), "%s: %s", error.found, error.wanted);
}

void stage_pressed(sl_stage *stage, SDL_Keycode key)
{
    SDL_Event event = {.type = SDL_KEYDOWN};
    event.key.keysym.sym = key;
    sl_stage_take(stage, &event);
    stage_drawn(stage);
}

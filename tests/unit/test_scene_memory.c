/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every allocation that reading and copying a scene makes is made to fail, once and from then
 * on. Built with the linker's --wrap, so that the library's own calls come here first.
 */
#include <stdio.h>
#include <string.h>

#include "slowlift/scene.h"
#include "suite.h"

void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *memory, size_t size);
void __real_free(void *memory);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *memory, size_t size);
void __wrap_free(void *memory);

static long calls, fails_at; /* fails_at 0: none fails */
static bool fails_from_then_on;
static long alive;

static bool fails(void)
{
    calls++;
    return fails_at > 0 && (calls == fails_at || (fails_from_then_on && calls > fails_at));
}

static void *born(void *memory)
{
    alive += memory ? 1 : 0;
    return memory;
}

void *__wrap_malloc(size_t size)
{
    return fails() ? NULL : born(__real_malloc(size));
}

void *__wrap_calloc(size_t count, size_t size)
{
    return fails() ? NULL : born(__real_calloc(count, size));
}

void *__wrap_realloc(void *memory, size_t size)
{
    if (fails()) {
        return NULL;
    }
    void *const moved = __real_realloc(memory, size);
    alive += moved && !memory ? 1 : 0;
    return moved;
}

void __wrap_free(void *memory)
{
    alive -= memory ? 1 : 0;
    __real_free(memory);
}

/* check's own calls come here too, so blocks are counted around ours alone. */
static sl_scene *load_and_copy(sl_error *error)
{
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_scene *const scene = sl_scene_load(SLOWLIFT_MODELS "/scenes/eight-arms.yaml", &resolver, error);
    if (!scene) {
        return NULL;
    }
    sl_scene *const copy = sl_scene_copy(scene, error);
    sl_scene_free(scene);
    return copy;
}

static void each_failure_is_reported(bool from_then_on)
{
    sl_error error;
    long alive_before = alive;
    fails_at = 0;
    calls = 0;
    sl_scene_free(load_and_copy(&error));
    const long needed = calls, left = alive - alive_before;
    ck_assert_int_eq(left, 0);
    ck_assert_int_gt(needed, 20);
    for (long i = 1; i <= needed; i++) {
        alive_before = alive;
        calls = 0;
        fails_at = i;
        fails_from_then_on = from_then_on;
        sl_scene *const scene = load_and_copy(&error);
        fails_at = 0;
        const long leaked = alive - alive_before;
        ck_assert_msg(scene == NULL, "allocation %ld of %ld failed unseen", i, needed);
        ck_assert_msg(error.code == SL_ERR_NO_MEMORY, "allocation %ld: %s", i, sl_code_name(error.code));
        ck_assert_msg(leaked == 0, "allocation %ld: %ld blocks leak", i, leaked);
    }
}

START_TEST(an_allocation_that_fails_once_is_reported_and_leaks_nothing)
{
    each_failure_is_reported(false);
}
END_TEST

START_TEST(memory_that_is_gone_is_reported_and_leaks_nothing)
{
    each_failure_is_reported(true);
}
END_TEST

START_TEST(a_check_without_memory_is_reported)
{
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    static const char *const files[] = {"/dyes/bright-one.yaml", "/hair/prelight-9.yaml",
                                        "/mixes/powder-6.yaml", "/chemistry/reversed.yaml",
                                        "/forms/nothing-stops.yaml"};
    for (size_t f = 0; f < sizeof files / sizeof files[0]; f++) {
        char path[512];
        sl_error error;
        snprintf(path, sizeof path, SLOWLIFT_MODELS "%s", files[f]);
        bool good = false;
        for (long i = 1; !good && i < 1000; i++) {
            const long alive_before = alive;
            calls = 0;
            fails_at = i;
            fails_from_then_on = false;
            good = sl_file_check(path, &resolver, NULL, NULL, 0, &error);
            fails_at = 0;
            const long leaked = alive - alive_before;
            ck_assert_msg(good || error.code == SL_ERR_NO_MEMORY, "%s", sl_code_name(error.code));
            ck_assert_int_eq(leaked, 0);
        }
        ck_assert(good); /* once no allocation is left to fail */
    }
}
END_TEST

START_SUITE("scene memory")
ADD(an_allocation_that_fails_once_is_reported_and_leaks_nothing)
ADD(memory_that_is_gone_is_reported_and_leaks_nothing)
ADD(a_check_without_memory_is_reported)
END_SUITE

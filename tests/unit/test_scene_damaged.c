/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene of which one file, the scene's own or one that it refers to, is damaged in bytes.
 */
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "slowlift/scene.h"
#include "suite.h"

static const char *const shipped[] = {SLOWLIFT_MODELS};

/* Gives every file as it is shipped, except that one of them is damaged. */
typedef struct damage {
    uint64_t state;
    int countdown; /* the file to damage, counted in fetches */
} damage;

static uint64_t drawn(damage *by, uint64_t below)
{
    by->state = by->state * 6364136223846793005U + 1442695040888963407U;
    return (by->state >> 33) % below;
}

static void damage_text(damage *by, char *text, size_t *length)
{
    static const char pieces[] = "{}[]:,-#&*!|>'\"%@`\n\t .0159eEnN\x00\x07\xC3\xFF";
    if (*length == 0) {
        return;
    }
    if (drawn(by, 3) == 0) {
        *length = drawn(by, *length);
        return;
    }
    const int flips = 1 + (int)drawn(by, 3);
    for (int i = 0; i < flips; i++) {
        const size_t at = drawn(by, *length);
        text[at] = drawn(by, 2) == 0 ? pieces[drawn(by, sizeof pieces - 1)]
                                     : (char)((unsigned char)text[at] ^ (1U << drawn(by, 8)));
    }
}

static bool fetch_damaged(void *self, const char *kind, const char *name, char **text, size_t *length,
                          char *path, size_t path_size, sl_error *error)
{
    damage *const by = self;
    sl_folders folders = {shipped, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    if (!resolver.fetch(resolver.self, kind, name, text, length, path, path_size, error)) {
        return false;
    }
    if (by->countdown-- == 0) {
        damage_text(by, *text, length);
    }
    return true;
}

static void release_damaged(void *self, char *text)
{
    (void)self;
    sl_folders folders = {shipped, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    resolver.release(resolver.self, text);
}

static size_t slurp(const char *path, char *text, size_t size)
{
    FILE *const file = fopen(path, "rb");
    ck_assert_ptr_nonnull(file);
    const size_t length = fread(text, 1, size, file);
    fclose(file);
    ck_assert_uint_lt(length, size);
    return length;
}

/* 4,000 damaged readings: each is refused with a code and a message, or gives a scene that
 * can be copied and freed. */
START_TEST(a_damaged_file_is_refused_or_read_and_never_crashes)
{
    static char good[65536], bad[65536];
    const size_t length = slurp(SLOWLIFT_MODELS "/scenes/eight-arms.yaml", good, sizeof good);
    int refused = 0;
    for (uint64_t seed = 1; seed <= 4000; seed++) {
        damage by = {.state = seed * 0x9E3779B97F4A7C15U, .countdown = (int)(seed % 14U) - 1};
        const sl_resolver resolver = {.self = &by, .fetch = fetch_damaged, .release = release_damaged};
        size_t bad_length = length;
        memcpy(bad, good, length);
        if (by.countdown < 0) { /* the scene itself */
            damage_text(&by, bad, &bad_length);
        }
        sl_error error;
        sl_scene *const scene = sl_scene_parse(bad, bad_length, "damaged.yaml", &resolver, &error);
        if (scene) {
            sl_scene *const copy = sl_scene_copy(scene, &error);
            ck_assert_ptr_nonnull(copy);
            sl_scene_free(copy);
        } else {
            refused++;
            ck_assert_int_ne(error.code, SL_OK);
            ck_assert_int_ne(error.code, SL_ERR_NO_MEMORY);
            ck_assert_int_ge(error.line, 0);
            ck_assert_uint_gt(strlen(error.found), 0);
        }
        sl_scene_free(scene);
    }
    ck_assert_int_gt(refused, 1000);
}
END_TEST

START_SUITE("damaged files")
ADD(a_damaged_file_is_refused_or_read_and_never_crashes)
END_SUITE

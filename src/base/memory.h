/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every allocation of the library goes through here, so that tests can make each one
 * fail. An arena is a list of blocks freed in one call. Invariant: sizes are products
 * checked for overflow; memory from sl_new and arenas is zeroed.
 */
#ifndef SLOWLIFT_BASE_MEMORY_H
#define SLOWLIFT_BASE_MEMORY_H

#include <stdbool.h>
#include <stddef.h>

#include "slowlift/error.h"

/* count × size zeroed bytes, or NULL with *error set ("out of memory while <doing>"). */
void *sl_new(size_t count, size_t size, const char *doing, sl_error *error);

/* Grow *array (of `size` bytes each) so that it holds at least `wanted` elements;
 * *capacity is updated. On failure the array keeps its old contents. New elements are
 * not initialised. `array` is the address of a pointer variable. */
bool sl_grow(void *array, size_t *capacity, size_t wanted, size_t size, const char *doing, sl_error *error);

void sl_free(void *memory);

typedef struct sl_arena {
    struct sl_arena_block *newest; /* NULL when empty; start with {0} */
} sl_arena;

void *sl_arena_new(sl_arena *arena, size_t count, size_t size, const char *doing, sl_error *error);
/* A NUL-terminated copy of the `length` bytes at text. */
char *sl_arena_text(sl_arena *arena, const char *text, size_t length, sl_error *error);
/* All that `from` holds is freed with `to` from now on; `from` is empty. */
void sl_arena_join(sl_arena *to, sl_arena *from);
void sl_arena_free(sl_arena *arena);

#endif

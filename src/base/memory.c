/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The only place that allocates. See memory.h for the invariant.
 */
#include "base/memory.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

struct sl_arena_block {
    struct sl_arena_block *older;
    size_t used, size; /* bytes of the room that follows */
    max_align_t room[];
};

/* A mix's or a dye's file fits into one; of larger ones many stay half empty where a whole library is read.
 */
enum { BLOCK_BYTES = 4 * 1024 };

/* Whether so many of that size are no more than `most` bytes. */
static bool fits(size_t count, size_t size, size_t most)
{
    return size == 0 || count <= most / size;
}

void *sl_new(size_t count, size_t size, const char *doing, sl_error *error)
{
    void *const memory =
        fits(count, size, SIZE_MAX) ? calloc(count > 0 ? count : 1, size > 0 ? size : 1) : NULL;
    if (!memory) {
        sl_fail(error, SL_ERR_NO_MEMORY, doing, "");
    }
    return memory;
}

bool sl_grow(void *array, size_t *capacity, size_t wanted, size_t size, const char *doing, sl_error *error)
{
    if (wanted <= *capacity) {
        return true;
    }
    const size_t half_more = *capacity + *capacity / 2;
    const size_t room = wanted > half_more ? wanted : half_more;
    if (!fits(room, size, SIZE_MAX)) {
        return sl_fail(error, SL_ERR_NO_MEMORY, doing, "");
    }
    void *old = NULL;
    memcpy(&old, array, sizeof old);
    void *const grown = realloc(old, room * size);
    if (!grown) {
        return sl_fail(error, SL_ERR_NO_MEMORY, doing, "");
    }
    memcpy(array, &grown, sizeof grown);
    *capacity = room;
    // cppcheck-suppress memleak ; *array owns it now, through memcpy
    return true;
}

void sl_free(void *memory)
{
    free(memory);
}

/* Texts are most of what is kept, and stand anywhere; all else as if it might be of any type. */
static size_t aligned(size_t used, size_t size)
{
    const size_t unit = size == 1 ? 1 : _Alignof(max_align_t);
    return (used + unit - 1) / unit * unit;
}

void *sl_arena_new(sl_arena *arena, size_t count, size_t size, const char *doing, sl_error *error)
{
    if (!fits(count, size, SIZE_MAX - sizeof(struct sl_arena_block) - sizeof(max_align_t))) {
        sl_fail(error, SL_ERR_NO_MEMORY, doing, "");
        return NULL;
    }
    const size_t bytes = count * size > 0 ? count * size : 1;
    struct sl_arena_block *block = arena->newest;
    size_t begin = block ? aligned(block->used, size) : 0;
    if (!block || begin > block->size || block->size - begin < bytes) {
        const size_t room = bytes > BLOCK_BYTES ? bytes : BLOCK_BYTES;
        block = calloc(1, sizeof *block + room);
        if (!block) {
            sl_fail(error, SL_ERR_NO_MEMORY, doing, "");
            return NULL;
        }
        block->size = room;
        block->older = arena->newest;
        arena->newest = block;
        begin = 0;
    }
    block->used = begin + bytes;
    return (char *)block->room + begin;
}

char *sl_arena_text(sl_arena *arena, const char *text, size_t length, sl_error *error)
{
    char *const copy = sl_arena_new(arena, length + 1, 1, "keeping a text", error);
    if (copy) {
        memcpy(copy, text, length);
    }
    return copy;
}

void sl_arena_join(sl_arena *to, sl_arena *from)
{
    struct sl_arena_block **oldest = &to->newest;
    while (*oldest) {
        oldest = &(*oldest)->older;
    }
    *oldest = from->newest;
    from->newest = NULL;
}

void sl_arena_free(sl_arena *arena)
{
    while (arena->newest) {
        struct sl_arena_block *const older = arena->newest->older;
        free(arena->newest);
        arena->newest = older;
    }
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Members of an ensemble shared out among threads, sixteen at a time: whoever reads members (limits, ranks)
 * walks over them by this. Private to src/estimate.
 *
 * Invariant: a block goes to one reader, whole, and blocks begin at whole sixteens whatever part of an
 * ensemble is asked for: the steps of a block depend a little on who is in it. What readers count is theirs
 * alone.
 */
#ifndef SLOWLIFT_ESTIMATE_WALK_H
#define SLOWLIFT_ESTIMATE_WALK_H

#include <stdbool.h>
#include <stddef.h>

/* Sixteen members from `first`, of which those in lanes from..to-1 are asked for. */
typedef struct member_block {
    long first;
    int from, to;
} member_block;

typedef struct member_walk {
    long first_member, members; /* asked for */
    /* Called after each block, from one thread; false stops all. NULL: nobody wants to know. */
    bool (*go_on)(void *self, long done, long all);
    void *self;
} member_walk;

/* Reads a block; false ends this reader's walk, and is found in `failed`. */
typedef bool member_reader(void *reader, const member_block *block);

enum { MOST_WALKERS = 64 };

/* readers: [n] of `size` bytes, 1 <= n <= MOST_WALKERS, each for one thread; failed[n]. Where no thread is to
 * be had its blocks are read by the caller. */
void members_walk(const member_walk *walk, member_reader *read, void *readers, size_t size, int n,
                  bool failed[]);

#endif

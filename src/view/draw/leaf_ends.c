/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the blocks of a leaf end and begin, once it is laid (leaf.h).
 */
#include "view/draw/leaf.h"

int sl_leaf_height(const sl_leaf *leaf)
{
    return leaf->width > 0 ? leaf->height : 0;
}

int sl_leaf_whole(const sl_leaf *leaf, int most)
{
    int whole = 0;
    for (size_t i = 0; leaf->width > 0 && i < leaf->document.n; i++) {
        const int end = leaf->place[i].y + leaf->place[i].h;
        whole = whole == 0 || end <= most ? SDL_max(end, whole) : whole;
    }
    return whole;
}

int sl_leaf_whole_from(const sl_leaf *leaf, int from, int most)
{
    int whole = 0;
    for (size_t i = 0; leaf->width > 0 && i < leaf->document.n; i++) {
        const int end = leaf->place[i].y + leaf->place[i].h - from;
        whole = leaf->place[i].h > 0 && end <= most ? SDL_max(end, whole) : whole;
    }
    return whole > most / 2 ? whole : most;
}

int sl_leaf_top(const sl_leaf *leaf, sl_depth depth)
{
    size_t i = 0, n = leaf->width > 0 ? leaf->document.n : 0;
    while (i < n && (leaf->document.blocks[i].depth != depth || leaf->place[i].h == 0)) {
        i++;
    }
    return i < n ? leaf->place[i].y : -1;
}

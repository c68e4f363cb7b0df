/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A document in the window: built when what it says has changed, laid out when its width, the size of the
 * letters or its depth has, and drawn in every frame, the part of it that is in sight. Invariant: drawing
 * neither builds nor measures; what is measured is what is drawn, because one function does both. A wide leaf
 * has its charts in a column beside its text, a narrow one below what they follow.
 */
#ifndef SLOWLIFT_VIEW_LEAF_H
#define SLOWLIFT_VIEW_LEAF_H

#include <stdint.h>

#include "document/document.h"
#include "view/draw/pen.h"

typedef struct sl_leaf {
    sl_document document;
    uint64_t says;   /* number of what it was built from; 0: nothing was */
    SDL_Rect *place; /* [document.n] from its top left corner; not as high as anything: not shown */
    size_t room;
    int height; /* of all of it */
    int width;  /* that it was laid for, with `unit` and `depth`; 0: for none */
    double unit;
    sl_depth depth;
    sl_error error; /* why it is empty */
} sl_leaf;

/* A number of bytes that a document is built from, going on from the number of others (0 at first). */
uint64_t sl_leaf_number(uint64_t so_far, const void *bytes, size_t size);

/* The document to build anew when it was built from something else, with &leaf->error; else NULL. */
sl_document *sl_leaf_renew(sl_leaf *leaf, uint64_t says);
/* Settle where its blocks stand. Cheap when nothing has changed. False: out of memory; nothing is drawn. */
bool sl_leaf_lay(sl_leaf *leaf, const sl_pen *pen, int width, sl_depth depth);
int sl_leaf_height(const sl_leaf *leaf);
/* As high as whole blocks of its top, the first at least, and no more than `most` together. */
int sl_leaf_whole(const sl_leaf *leaf, int most);
/* The same from so far down: to the end of the last block that ends within `most`; all of it where none does.
 */
int sl_leaf_whole_from(const sl_leaf *leaf, int from, int most);
/* How far down the first block stands that is so deep; -1: none is shown. */
int sl_leaf_top(const sl_leaf *leaf, sl_depth depth);
/* With its top left corner at (x, y), what of it lies within the clip of the pen's sheet. */
void sl_leaf_draw(const sl_leaf *leaf, const sl_pen *pen, int x, int y);
void sl_leaf_free(sl_leaf *leaf); /* empties it */

#endif

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A strip as it hangs, kept as a picture of its own of which only the zones are drawn anew whose colour has
 * moved. Invariant: what is kept is no further from what was asked for than `most_off`, once as
 * many pictures were drawn as it needs by `most_move` each.
 */
#ifndef SLOWLIFT_VIEW_HUNG_H
#define SLOWLIFT_VIEW_HUNG_H

#include "view/strips/strip.h"

typedef struct sl_hung sl_hung;

/* What hangs side by side in one picture: before a change or all of it, after a change, the lock of minute 0.
 */
typedef enum sl_hung_part { SL_HUNG_BEFORE, SL_HUNG_AFTER, SL_HUNG_LOCK } sl_hung_part;
enum { SL_HUNG_PARTS = SL_HUNG_LOCK + 1 };

typedef struct sl_hung_wish {
    sl_strip *strip; /* as large as it is laid */
    const sl_light_table *light;
    sl_srgb8 ground;
    int x;        /* of the strip's first column in the picture */
    int from, to; /* columns of the strip */
    int n_zones;
    double most_off;  /* steps of 255 by which a zone may be behind before it is drawn anew; 0: none */
    double most_move; /* steps of 255 by which a colour comes nearer at once; 0: all the way */
    const sl_strip_look *look;
} sl_hung_wish;

/* *hung is made where it points to NULL, and emptied where its size or format is another. False: no memory.
 */
bool sl_hung_size(sl_hung **hung, int width, int height, const SDL_Surface *like, sl_srgb8 ground,
                  sl_error *error);
/* Draws what differs; returns how many pixels that are. */
long sl_hung_draw(sl_hung *hung, sl_hung_part part, const sl_hung_wish *wish);
void sl_hung_show(const sl_hung *hung, SDL_Surface *sheet, int x, int y);
void sl_hung_free(sl_hung *hung); /* NULL is allowed */

#endif

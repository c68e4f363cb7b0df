/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lines of equal value by marching squares: a square whose corners lie on both sides of the
 * level is crossed by straight pieces between points found by straight interpolation along its
 * sides (Lorensen & Cline 1987 in two dimensions). A saddle is cut as its mean says.
 */
#include "slowlift/map.h"

typedef struct spot {
    double x, y;
} spot;

/* Corners and sides counted round the square from its lower left. */
static const int CORNER_X[4] = {0, 1, 1, 0}, CORNER_Y[4] = {0, 0, 1, 1};

static spot crossing(const double corner[4], int side, double level)
{
    const int next = (side + 1) % 4;
    const double share = (level - corner[side]) / (corner[next] - corner[side]);
    return (spot){CORNER_X[side] + share * (CORNER_X[next] - CORNER_X[side]),
                  CORNER_Y[side] + share * (CORNER_Y[next] - CORNER_Y[side])};
}

static void put_piece(sl_contour_piece *piece, int x, int y, spot from, spot to)
{
    *piece = (sl_contour_piece){x + from.x, y + from.y, x + to.x, y + to.y};
}

static int cut_square(const double corner[4], int x, int y, double level, sl_contour_piece *pieces)
{
    spot cut[4];
    int n = 0;
    for (int side = 0; side < 4; side++) {
        if ((corner[side] >= level) != (corner[(side + 1) % 4] >= level)) {
            cut[n++] = crossing(corner, side, level);
        }
    }
    if (n == 2) {
        put_piece(&pieces[0], x, y, cut[0], cut[1]);
        return 1;
    }
    if (n == 0) {
        return 0;
    }
    /* All four sides are crossed. When the middle lies on the side of corner 0, the corners 1
     * and 3 are cut off; else 0 and 2. */
    const double middle = 0.25 * (corner[0] + corner[1] + corner[2] + corner[3]);
    const int first = (middle >= level) == (corner[0] >= level) ? 0 : 3;
    put_piece(&pieces[0], x, y, cut[first], cut[(first + 1) % 4]);
    put_piece(&pieces[1], x, y, cut[(first + 2) % 4], cut[(first + 3) % 4]);
    return 2;
}

int sl_contour(const double *value, int nx, int ny, double level, sl_contour_piece *pieces)
{
    int n = 0;
    for (int y = 0; y + 1 < ny; y++) {
        for (int x = 0; x + 1 < nx; x++) {
            double corner[4];
            for (int c = 0; c < 4; c++) {
                corner[c] = value[(y + CORNER_Y[c]) * nx + x + CORNER_X[c]];
            }
            n += cut_square(corner, x, y, level, &pieces[n]);
        }
    }
    return n;
}

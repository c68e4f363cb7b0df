/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An arm before and after a change, as a document, CSV and JSON. Invariant: no minute, and no share that goes
 * with a planned one, is written where either scene counts as a head (leave.h): directions, and what
 * base and hair have paid at the goal, stay.
 */
#ifndef SLOWLIFT_REPORT_PAIR_H
#define SLOWLIFT_REPORT_PAIR_H

#include <stdio.h>

#include "document/document.h"
#include "document/table.h"
#include "slowlift/what_if.h"

typedef struct sl_pair {
    const sl_scene *scene;
    int arm;
    const sl_changes *changes; /* none with rounds */
    int rounds;                /* 0: `after` is with the changes; else it is so many fresh rounds */
    double round_min;          /*   of this, and `before` is one of as long as all of them */
    sl_outcome before, after;
} sl_pair;

sl_document_sayer sl_pair_say;         /* of a sl_pair */
extern const sl_export sl_pair_export; /* of an sl_pair */

#endif

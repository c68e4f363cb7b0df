/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * By how much mixes warm themselves, in words: for every command that tells what a scene comes to.
 */
#ifndef SLOWLIFT_REPORT_WARMING_H
#define SLOWLIFT_REPORT_WARMING_H

#include <stddef.h>

#include "document/document.h"
#include "slowlift/timeline.h"

/* Told in halves of a kelvin, from half a kelvin on. */
static const double SL_WARMING_TOLD_K = 0.5;

/* The most that a mix of this arm warms itself by on the hair, in halves of a kelvin; 0: nothing to tell.
 * False: *error says why it could not be found. */
bool sl_warming_of(const sl_scene *scene, int arm, double *kelvin, sl_error *error);
/* A row about every arm (only: -1) or about one: by its number, or (titles) by its title; nothing where
 * nothing is to be told. */
void sl_say_warming(sl_document *document, const sl_timeline *timeline, int only, bool titles);

#endif

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How hair is looked at, and at which two zones, as words of a command line. Shared by the
 * programs of the house.
 */
#ifndef SLOWLIFT_FRONT_VIEWING_H
#define SLOWLIFT_FRONT_VIEWING_H

#include "slowlift/report.h"

/* daylight, lamp or led; 2 or 10; dry or wet. False with SL_ERR_USAGE. */
bool sl_light_read(const char *word, sl_viewing *viewing, sl_error *error);
bool sl_observer_read(const char *word, sl_viewing *viewing, sl_error *error);
bool sl_look_read(const char *word, sl_viewing *viewing, sl_error *error);

/* Those of the window and of pictures: also mix, as hair lies at its moment; whose eyes. */
bool sl_lying_look_read(const char *word, sl_viewing *viewing, sl_error *error);
bool sl_vision_read(const char *word, sl_vision *vision, sl_error *error); /* full, protan .. grey */

/* "ARM/ZONE" of a scene; names may hold a stroke themselves. False with SL_ERR_USAGE. */
bool sl_spot_read(const char *word, const sl_scene *scene, sl_spot_of *spot, sl_error *error);

#endif

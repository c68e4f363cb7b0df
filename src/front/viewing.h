/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How hair is looked at, and at which two zones, as words of a command line. Shared by the
 * programs of the house.
 */
#ifndef SLOWLIFT_FRONT_VIEWING_H
#define SLOWLIFT_FRONT_VIEWING_H

#include "front/option.h"
#include "slowlift/report.h"

extern const sl_word_list sl_looks;          /* of rinsed hair: dry or wet */
extern const sl_option sl_light_options[2];  /* sl_viewing: --light and --observer */
extern const sl_option sl_lying_options[1];  /* sl_viewing: --look, of hair as it lies too */
extern const sl_option sl_vision_options[1]; /* sl_vision: --vision */

/* "STRIP/ZONE" of a scene; names may hold a stroke themselves. False with SL_ERR_USAGE. */
bool sl_spot_read(const char *word, const sl_scene *scene, sl_spot_of *spot, sl_error *error);

#endif

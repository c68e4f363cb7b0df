/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How the window is looked at: its theme, whose eyes, in which light, and how the hair
 * looks. Invariant: none of it changes what is computed; level and tone are always read
 * from dry hair in daylight.
 */
#ifndef SLOWLIFT_VIEW_EYES_H
#define SLOWLIFT_VIEW_EYES_H

#include <stdbool.h>
#include <stddef.h>

#include "slowlift/timeline.h"
#include "view/draw/theme.h"

/* look: dry and wet hold for all strips; under the mix shows every strip as it lies at its
 * moment: wet under its mix, wet while water runs, else dry. */
typedef struct sl_eyes {
    sl_theme_number theme;
    sl_vision vision;
    sl_viewing viewing;
    bool wiped; /* the mix is wiped aside, as a stylist does to look; only under the mix */
} sl_eyes;

/* Basis spectra by observer, light and dry or wet; made when first needed. */
typedef struct sl_lenses {
    sl_optics *made[SL_OBSERVER_COUNT][SL_LIGHT_COUNT][2];
} sl_lenses;
bool sl_lenses_fit(sl_lenses *lenses, const sl_scene *scene, sl_viewing viewing, sl_error *error);
void sl_lenses_free(sl_lenses *lenses);
/* Of a viewing that was fitted; hair under the mix is wet. */
const sl_optics *sl_lenses_for(const sl_lenses *lenses, sl_viewing viewing);

/* The look of a strip at a moment: dry, or wet, or under the mix where one lies on it. */
sl_look sl_eyes_look(const sl_eyes *eyes, const sl_arm *arm, double clock_min);
/* The mix to be drawn on it; NULL where none is to be seen. */
const sl_mix *sl_eyes_mix(const sl_eyes *eyes, const sl_scene *scene, const sl_arm *arm, double clock_min);

/* The next of each, round and round. */
void sl_eyes_next_theme(sl_eyes *eyes);
void sl_eyes_next_vision(sl_eyes *eyes);
void sl_eyes_next_light(sl_eyes *eyes);
void sl_eyes_next_look(sl_eyes *eyes);
void sl_eyes_next_observer(sl_eyes *eyes);
/* Lay the mixes on the hair, or wipe them aside. */
void sl_eyes_wipe(sl_eyes *eyes);

bool sl_eyes_usual(const sl_eyes *eyes); /* whatever the theme */
/* "dry, daylight (D65)": look and light; the observer too where it is not the usual. */
void sl_eyes_words(const sl_eyes *eyes, char *text, size_t size);
/* "dry", "wet", "as it lies now", "as it lies now, mix wiped aside". */
const char *sl_eyes_look_word(const sl_eyes *eyes);

#endif

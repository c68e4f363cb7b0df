/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What somebody types: what the cotton showed, and the form about a person question by
 * question. Invariant: what is not answered stays unanswered.
 */
#ifndef SLOWLIFT_FRONT_SEEN_READ_H
#define SLOWLIFT_FRONT_SEEN_READ_H

#include <stdio.h>

#include "slowlift/intake.h"

/* "10 about half", "10 min ghost only violet": a minute since contact, a grade in words and,
 * where one is written, a zone. Adds it to *observations. False with SL_ERR_USAGE. */
bool sl_observation_read(const char *text, const sl_scene *scene, int arm, bool strand,
                         sl_observations *observations, sl_error *error);

/* The form, one question to a line: questions to `prompts`, answers from `in`. A reply that is
 * none is asked again; the end of `in` leaves the rest unanswered. `arm`: whose mix the strand
 * was tried with; there is one. */
void sl_intake_ask(FILE *in, FILE *prompts, const sl_scene *scene, int arm, sl_intake *intake);

#endif

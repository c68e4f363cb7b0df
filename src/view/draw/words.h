/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figures in words for the window. Our own words: no standard grades hair by eye alone.
 */
#ifndef SLOWLIFT_VIEW_WORDS_H
#define SLOWLIFT_VIEW_WORDS_H

#include <stdbool.h>
#include <stddef.h>

#include "slowlift/model.h"

/* "none" (0 %), "barely any" (<1 %), "very slight", "slight", "clear", "strong", "very strong" for cystine
 * lost. */
const char *sl_stress_word(double share);
/* "before contact", "on the hair", "rinsing" and so on at a moment of the scene's clock;
 * *minutes is the time in that phase. */
const char *sl_phase_word(const sl_arm *arm, double clock_min, double *minutes);

/* A clause as a sentence: capital at its head, full stop at its end. */
void sl_put_sentence(const char *clause, char *text, size_t size);
void sl_put_share(double share, char *text, size_t size);                 /* "37 %" */
void sl_put_shares(double before, double after, char *text, size_t size); /* "37 → 21 %" */
void sl_put_clock(double minutes, char *text, size_t size);               /* "12:24" */
void sl_put_between(double minutes, char *text, size_t size);             /* "17–18 min" */
void sl_put_strength(double pct, char *text, size_t size);                /* "6 % (20 vol)" */
void sl_put_warmth(double celsius, char *text, size_t size);              /* "24 °C (75 °F)" */
void sl_put_warmer(double kelvin, char *text, size_t size);               /* "+5 °C (+9 °F)" */
void sl_put_weight(double grams, char *text, size_t size);                /* "2.0 g (0.07 oz)" */

#endif

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a person turns about an arm: options of what-if, axes of maps and the window's panel read it here. A
 * new one is a row here and two functions in src/model/knobs.c: how it is read and set.
 *
 * Invariant: a knob is set on a copy of a scene, never on the file's.
 */
#ifndef SLOWLIFT_KNOB_H
#define SLOWLIFT_KNOB_H

#include "slowlift/model.h"

#pragma GCC visibility push(default)

/* Where it can be turned, besides the command line. */
enum { SL_KNOB_AXIS = 1, SL_KNOB_PANEL = 2, SL_KNOB_OF_SCENE = 4 /* of all arms alike */ };

/* One row each: name; its word in options and files; unit ("" none); from and to what it may be asked; to
 * what a panel's track goes, and its step; where; its option's value and help; as an axis; on a panel (NULL:
 * it is on none). */
#define SL_KNOB_LIST(X)                                                                                      \
    X(STRENGTH, strength, "%", 0.0, SL_LEGAL_PCT, SL_LEGAL_PCT, 0.5, SL_KNOB_AXIS | SL_KNOB_PANEL,           \
      N_("STRENGTH"), N_("developer, such as 3% or 10vol; at most 12 %"), N_("developer strength (%)"),      \
      N_("Developer"))                                                                                       \
    X(WATER, water, "parts", 0.0, 20.0, 8.0, 0.5, SL_KNOB_AXIS | SL_KNOB_PANEL, N_("PARTS"),                 \
      N_("parts of water, such as 2"), N_("water (parts by weight)"), N_("Water"))                           \
    X(RATIO, ratio, "parts", 0.5, 20.0, 20.0, 0.5, SL_KNOB_AXIS, N_("PARTS"),                                \
      N_("parts of liquid for one of powder, such as 3"),                                                    \
      N_("liquid for one part of powder (parts by weight)"), NULL)                                           \
    X(WARMER, warmer, "K", -15.0, 15.0, 15.0, 1.0, SL_KNOB_AXIS | SL_KNOB_PANEL | SL_KNOB_OF_SCENE,          \
      "KELVIN", N_("warmer or cooler, such as -4K"), N_("warmer than the scene (K)"),                        \
      N_("Warmer or cooler"))                                                                                \
    X(DWELL, time, "min", 1.0, 120.0, 120.0, 1.0, SL_KNOB_AXIS | SL_KNOB_PANEL, N_("TIME"),                  \
      N_("the first application's time on hair, such as 20min"), N_("time on hair (min)"),                   \
      N_("Time on hair"))                                                                                    \
    X(AGE, age, "min", 0.0, 120.0, 120.0, 1.0, SL_KNOB_AXIS, N_("TIME"),                                     \
      N_("from mixing to contact, such as 10min"), N_("age of the mix at contact (min)"), NULL)              \
    X(GRAMS, grams, "g/g", 0.5, 20.0, 20.0, 0.5, SL_KNOB_AXIS, "N",                                          \
      N_("grams of mix for one of hair, such as 4"), N_("mix for each gram of hair (g)"), NULL)              \
    X(COVERED, covered, "", 0.0, 1.0, 1.0, 1.0, 0, N_("WORD"), N_("yes, or no: left open to dry"),           \
      N_("covered"), NULL)

#define SL_SETTING_OF_KNOB(NAME, ...) SL_SETTING_##NAME,
typedef enum sl_setting { SL_KNOB_LIST(SL_SETTING_OF_KNOB) SL_SETTINGS } sl_setting;
#undef SL_SETTING_OF_KNOB

typedef struct sl_knob {
    const char *word, *unit;
    double least, most, track_most, step;
    unsigned where;
    const char *axis, *panel; /* msgids */
    /* of the first application */
    double (*get)(const sl_scene *scene, const sl_mix *mix, const sl_step *step);
    /* In each application of the first mix: `mix` is that arm's own. */
    void (*set)(sl_mix *mix, sl_step *step, double value);
} sl_knob;

extern const sl_knob sl_knobs[SL_SETTINGS];

#pragma GCC visibility pop

#endif

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * "35 min", "6 %", "20 vol", "32 °C": a decimal number and its unit, to the unit that the
 * model counts in. Invariant: no locale matters, and a value is the double nearest to
 * what is written.
 */
#ifndef SLOWLIFT_SCENE_QUANTITY_H
#define SLOWLIFT_SCENE_QUANTITY_H

#include <stdbool.h>

#include "base/language.h"
#include "scene/yaml/node.h"

/* What a value measures; beside it the unit that the model counts in, and the form that
 * a refusal shows. */
#define SL_MEASURE_LIST(ROW)                                                                                 \
    ROW(SL_MEASURE_NUMBER, "", N_("a number without a unit, such as 0.5"))                                   \
    ROW(SL_MEASURE_SHARE, "", N_("a share, such as 25 % or 0.25"))                                           \
    ROW(SL_MEASURE_STRENGTH, " %", N_("a strength with its unit, such as 6 % or 20 vol"))                    \
    ROW(SL_MEASURE_TIME, " min", N_("a time with its unit, such as 35 min, 90 s or 1 h"))                    \
    ROW(SL_MEASURE_TEMPERATURE, " °C", N_("a temperature with its unit, such as 32 °C or 90 °F"))            \
    ROW(SL_MEASURE_KELVIN, " K", N_("a difference of temperature in kelvin, such as 3 K"))                   \
    ROW(SL_MEASURE_MASS, " g", N_("a mass with its unit, such as 2 g"))                                      \
    ROW(SL_MEASURE_MASS_RATIO, " g/g", N_("grams for each gram of hair, such as 4 g/g"))                     \
    ROW(SL_MEASURE_RATE, " /min", N_("a rate with its unit, such as 1.5e-3 /min"))                           \
    ROW(SL_MEASURE_RATE_2, " L/(mol min)", N_("a rate constant with its unit, such as 0.15 L/(mol min)"))    \
    ROW(SL_MEASURE_RATE_3, " L2/(mol2 min)", N_("a rate constant with its unit, such as 2.4 L2/(mol2 min)")) \
    ROW(SL_MEASURE_ENERGY, " kJ/mol", N_("an energy with its unit, such as 65 kJ/mol"))                      \
    ROW(SL_MEASURE_MICROMETRE, " um", N_("a length with its unit, such as 35 um"))                           \
    ROW(SL_MEASURE_NANOMETRE, " nm", N_("a wavelength with its unit, such as 550 nm"))                       \
    ROW(SL_MEASURE_DIFFUSION, " cm2/s", N_("a diffusion coefficient with its unit, such as 5e-9 cm2/s"))     \
    ROW(SL_MEASURE_MOLAR, " mol/L", N_("an amount in solution with its unit, such as 0.15 mol/L"))           \
    ROW(SL_MEASURE_HEAT, " J/(g K)", N_("a heat capacity with its unit, such as 3.7 J/(g K)"))               \
    ROW(SL_MEASURE_HEAT_LOSS, " W/(m2 K)", N_("a heat transfer coefficient, such as 10 W/(m2 K)"))           \
    ROW(SL_MEASURE_AREA, " cm2/g", N_("an area for each gram, such as 20 cm2/g"))                            \
    ROW(SL_MEASURE_WATER, " mL/g", N_("millilitres for each gram, such as 0.35 mL/g"))                       \
    ROW(SL_MEASURE_LEVELS, " levels", N_("a number of levels, such as 1 level or 1.5 levels"))               \
    ROW(SL_MEASURE_ANGLE, " °", N_("a hue angle with its unit, such as 45 °"))

#define SL_AS_ENUM(name, unit, form) name,
typedef enum sl_measure { SL_MEASURE_LIST(SL_AS_ENUM) SL_MEASURE_COUNT } sl_measure;
#undef SL_AS_ENUM

/* A measure with the limits that a value must keep, in the model's unit, both allowed. */
typedef struct sl_range {
    sl_measure measure;
    double least, most;
} sl_range;

/* Convert the node's text. On failure *value is left as it was. */
bool sl_quantity_read(const sl_node *node, const sl_range *range, double *value, sl_error *error);

/* The number at the start of `text`: digits, perhaps a point with digits, perhaps an
 * exponent. NULL when there is none or it has more digits than a double holds for sure
 * (15 significant, powers of ten within 22: then one exact multiplication or division
 * gives the nearest double). Returns the first byte after it. */
const char *sl_decimal_read(const char *text, double *value);

/* Per cent by weight of "20 vol": the four names of the trade mean 3, 6, 9 and 12 %. */
double sl_strength_of_volume(double volume);

#endif

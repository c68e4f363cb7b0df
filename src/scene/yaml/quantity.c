/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Quantities. Conversions: 1 °F = 5/9 K from 32 °F; volume strength by the ideal gas law
 * (sl_pct_of_volume_strength), except the four names of the trade, which mean 3, 6, 9 and
 * 12 %: Annex III entry 12 of Regulation (EC) 1223/2009, as replaced by Regulation (EU)
 * 2019/831, itself pairs 12 % with "40 volumes".
 */
#include "scene/yaml/quantity.h"

#include <assert.h>
#include <string.h>

#include "base/language.h"
#include "slowlift/model.h"

typedef struct sl_unit {
    sl_measure measure;
    const char *written;
    double shift, times, over; /* model's value = (written value + shift) * times / over */
} sl_unit;

static const sl_unit units[] = {
    {SL_MEASURE_NUMBER, "", 0, 1, 1},
    {SL_MEASURE_SHARE, "", 0, 1, 1},
    {SL_MEASURE_SHARE, "%", 0, 1, 100},
    {SL_MEASURE_STRENGTH, "%", 0, 1, 1},
    {SL_MEASURE_STRENGTH, "vol", 0, 1, 1}, /* see sl_strength_of_volume */
    {SL_MEASURE_TIME, "s", 0, 1, 60},
    {SL_MEASURE_TIME, "min", 0, 1, 1},
    {SL_MEASURE_TIME, "h", 0, 60, 1},
    {SL_MEASURE_TEMPERATURE, "°C", 0, 1, 1},
    {SL_MEASURE_TEMPERATURE, "C", 0, 1, 1},
    {SL_MEASURE_TEMPERATURE, "°F", -32, 5, 9},
    {SL_MEASURE_TEMPERATURE, "F", -32, 5, 9},
    {SL_MEASURE_KELVIN, "K", 0, 1, 1},
    {SL_MEASURE_MASS, "g", 0, 1, 1},
    {SL_MEASURE_MASS_RATIO, "g/g", 0, 1, 1},
    {SL_MEASURE_RATE, "/min", 0, 1, 1},
    {SL_MEASURE_RATE, "1/min", 0, 1, 1},
    {SL_MEASURE_RATE, "/s", 0, 60, 1},
    {SL_MEASURE_RATE, "/h", 0, 1, 60},
    {SL_MEASURE_RATE_2, "L/(mol min)", 0, 1, 1},
    {SL_MEASURE_RATE_2, "L/(mol s)", 0, 60, 1},
    {SL_MEASURE_RATE_3, "L2/(mol2 min)", 0, 1, 1},
    {SL_MEASURE_RATE_3, "L²/(mol² min)", 0, 1, 1},
    {SL_MEASURE_RATE_3, "L2/(mol2 s)", 0, 60, 1},
    {SL_MEASURE_ENERGY, "kJ/mol", 0, 1, 1},
    {SL_MEASURE_MICROMETRE, "um", 0, 1, 1},
    {SL_MEASURE_MICROMETRE, "\xC2\xB5m", 0, 1, 1}, /* micro sign */
    {SL_MEASURE_MICROMETRE, "\xCE\xBCm", 0, 1, 1}, /* Greek mu */
    {SL_MEASURE_NANOMETRE, "nm", 0, 1, 1},
    {SL_MEASURE_DIFFUSION, "cm2/s", 0, 1, 1},
    {SL_MEASURE_DIFFUSION, "cm²/s", 0, 1, 1},
    {SL_MEASURE_DIFFUSION, "m2/s", 0, 10000, 1},
    {SL_MEASURE_MOLAR, "mol/L", 0, 1, 1},
    {SL_MEASURE_MOLAR, "mmol/L", 0, 1, 1000},
    {SL_MEASURE_HEAT, "J/(g K)", 0, 1, 1},
    {SL_MEASURE_HEAT_LOSS, "W/(m2 K)", 0, 1, 1},
    {SL_MEASURE_HEAT_LOSS, "W/(m² K)", 0, 1, 1},
    {SL_MEASURE_AREA, "cm2/g", 0, 1, 1},
    {SL_MEASURE_AREA, "cm²/g", 0, 1, 1},
    {SL_MEASURE_WATER, "mL/g", 0, 1, 1},
    {SL_MEASURE_LEVELS, "level", 0, 1, 1},
    {SL_MEASURE_LEVELS, "levels", 0, 1, 1},
    {SL_MEASURE_ANGLE, "°", 0, 1, 1},
    {SL_MEASURE_ANGLE, "deg", 0, 1, 1},
};

#define AS_UNIT(name, unit, form) unit,
static const char *const model_unit[] = {SL_MEASURE_LIST(AS_UNIT)};
#undef AS_UNIT
#define AS_FORM(name, unit, form) form,
static const char *const model_form[] = {SL_MEASURE_LIST(AS_FORM)};
#undef AS_FORM

enum { SIGNIFICANT_DIGITS = 15, EXACT_POWERS = 22 };

/* Powers of ten that a double holds exactly (10^22 = 2^22 5^22, and 5^22 < 2^53). */
static const double power_of_ten[EXACT_POWERS + 1] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                      1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                                      1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

static bool is_digit(char byte)
{
    return byte >= '0' && byte <= '9';
}

typedef struct sl_decimal {
    double digits;  /* the significant digits as a whole number, < 10^15 */
    int n_digits;   /* leading zeros not counted */
    int power;      /* of ten */
    int held_zeros; /* zeros seen last, not yet multiplied in: 1.5000000000000000000 is fine */
} sl_decimal;

static bool take_digit(sl_decimal *decimal, char digit, bool after_point)
{
    if (after_point) {
        decimal->power--;
    }
    if (digit == '0') {
        decimal->held_zeros += decimal->n_digits > 0 ? 1 : 0;
        return decimal->held_zeros < 64;
    }
    for (; decimal->held_zeros > 0; decimal->held_zeros--) {
        decimal->digits *= 10.0;
        decimal->n_digits++;
    }
    decimal->digits = decimal->digits * 10.0 + (digit - '0');
    return ++decimal->n_digits <= SIGNIFICANT_DIGITS;
}

static const char *take_exponent(sl_decimal *decimal, const char *at)
{
    if (*at != 'e' && *at != 'E') {
        return at;
    }
    at++;
    const int sign = *at == '-' ? -1 : 1;
    at += *at == '-' || *at == '+' ? 1 : 0;
    if (!is_digit(*at)) {
        return NULL;
    }
    int exponent = 0;
    for (; is_digit(*at); at++) {
        exponent = exponent * 10 + (*at - '0');
        if (exponent > 999) {
            return NULL;
        }
    }
    decimal->power += sign * exponent;
    return at;
}

const char *sl_decimal_read(const char *text, double *value)
{
    const char *at = text;
    const bool negative = *at == '-';
    at += *at == '-' || *at == '+' ? 1 : 0;
    sl_decimal decimal = {0};
    if (!is_digit(*at)) {
        return NULL;
    }
    for (; is_digit(*at); at++) {
        if (!take_digit(&decimal, *at, false)) {
            return NULL;
        }
    }
    if (*at == '.' && !is_digit(at[1])) {
        return NULL;
    }
    if (*at == '.') {
        for (at++; is_digit(*at); at++) {
            if (!take_digit(&decimal, *at, true)) {
                return NULL;
            }
        }
    }
    at = take_exponent(&decimal, at);
    const int power = decimal.n_digits > 0 ? decimal.power + decimal.held_zeros : 0;
    if (!at || power > EXACT_POWERS || power < -EXACT_POWERS) {
        return NULL;
    }
    const double size =
        power < 0 ? decimal.digits / power_of_ten[-power] : decimal.digits * power_of_ten[power];
    *value = negative ? -size : size;
    return at;
}

/* The trade's four names mean round strengths; anything else follows the gas law. */
double sl_strength_of_volume(double volume)
{
    const bool trade_name = volume == 10.0 || volume == 20.0 || volume == 30.0 || volume == 40.0;
    return trade_name ? volume / 10.0 * 3.0 : sl_pct_of_volume_strength(volume);
}

static double converted(const sl_unit *unit, double written)
{
    if (unit->measure == SL_MEASURE_STRENGTH && strcmp(unit->written, "vol") == 0) {
        return sl_strength_of_volume(written);
    }
    return (written + unit->shift) * unit->times / unit->over;
}

static const sl_unit *find_unit(sl_measure measure, const char *written)
{
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (units[i].measure == measure && strcmp(units[i].written, written) == 0) {
            return &units[i];
        }
    }
    return NULL;
}

/* Refuse what has not the measure's form; `hint` comes before the form. */
static bool refuse_form(const sl_node *node, sl_code code, sl_measure measure, const char *hint,
                        sl_error *error)
{
    sl_phrase wanted = {0};
    sl_phrase_add(&wanted, hint);
    sl_phrase_add(&wanted, _("wanted is "));
    sl_phrase_add(&wanted, _(model_form[measure]));
    return sl_node_refuse_text(node, code, wanted.text, error);
}

static bool refuse_range(const sl_node *node, const sl_range *range, sl_error *error)
{
    sl_phrase wanted = {0};
    sl_phrase_add(&wanted, _("wanted is "));
    sl_phrase_number(&wanted, range->least);
    sl_phrase_add(&wanted, _(" to "));
    sl_phrase_number(&wanted, range->most);
    sl_phrase_add(&wanted, model_unit[range->measure]);
    if (range->measure == SL_MEASURE_SHARE && range->most <= 1.0) {
        sl_phrase_add(&wanted, _(" (1 is 100 %)"));
    }
    return sl_node_refuse_text(node, SL_ERR_OUT_OF_RANGE, wanted.text, error);
}

bool sl_quantity_read(const sl_node *node, const sl_range *range, double *value, sl_error *error)
{
    if (node->kind != SL_NODE_TEXT) {
        return refuse_form(node, SL_ERR_WRONG_TYPE, range->measure, "", error);
    }
    double written = 0.0;
    const char *rest = sl_decimal_read(node->text, &written);
    if (!rest) {
        return refuse_form(node, SL_ERR_BAD_NUMBER, range->measure, "", error);
    }
    if (*rest == ',') {
        return refuse_form(node, SL_ERR_BAD_NUMBER, range->measure, _("the decimal sign is a point; "),
                           error);
    }
    if (*rest != '\0' && strchr("._'xX", *rest)) {
        return refuse_form(node, SL_ERR_BAD_NUMBER, range->measure, "", error);
    }
    rest += strspn(rest, " ");
    const sl_unit *const unit = find_unit(range->measure, rest);
    if (!unit) {
        return refuse_form(node, SL_ERR_BAD_UNIT, range->measure, "", error);
    }
    const double model_value = converted(unit, written);
    if (!(model_value >= range->least && model_value <= range->most)) {
        return refuse_range(node, range, error);
    }
    *value = model_value;
    return true;
}

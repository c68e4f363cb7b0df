/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The named numbers of a lesson: given by its author, made of others, or computed. How each is
 * written: docs/file-format.md, "Lesson". No locale matters: whole numbers are put together by
 * hand and a decimal is two whole numbers.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/minute.h"
#include "lesson/reading.h"
#include "slowlift/answer.h"

/* ---- how a number is written ----------------------------------------------------------- */

/* "3" or "2.6": `digits` decimals, with a point in every locale. */
static void decimal(char *text, size_t size, double value, int digits)
{
    const long scale = digits == 0 ? 1 : 10;
    const long whole = lround(fabs(value) * (double)scale);
    const char *const sign = value < 0.0 && whole > 0 ? "-" : "";
    if (digits == 0) {
        snprintf(text, size, "%s%ld", sign, whole);
    } else {
        snprintf(text, size, "%s%ld.%ld", sign, whole / scale, whole % scale);
    }
}

static bool is_whole(double value)
{
    return fabs(value - nearbyint(value)) < 1e-6;
}

/* A moment that the author chose as it is; one that was computed between two whole minutes. From four hours
 * on in hours. */
static void write_minutes(sl_number *number, bool spanish)
{
    static const double HOURS_FROM_MIN = 240.0;
    const double value = number->value, hours = value / 60.0;
    const sl_minute_kind kind = number->given ? SL_MINUTE_PLANNED : SL_MINUTE_MODEL;
    if (number->given && value >= HOURS_FROM_MIN && is_whole(hours)) {
        sl_minute_words(SL_MINUTE_PLANNED, number->text, sizeof number->text, "%ld h", lround(hours));
    } else if (number->given && is_whole(value)) {
        sl_minute_words(SL_MINUTE_PLANNED, number->text, sizeof number->text, "%ld min", lround(value));
    } else if (number->given && value < 2.0 && is_whole(60.0 * value)) {
        sl_minute_words(SL_MINUTE_PLANNED, number->text, sizeof number->text, "%ld s", lround(60.0 * value));
    } else {
        const long low = (long)floor(value + 1e-6);
        sl_minute_words(kind, number->text, sizeof number->text, "%ld %s %ld min", low, spanish ? "a" : "to",
                        low + 1);
    }
}

static const char *verdict_word(int verdict, bool spanish)
{
    static const char *const words[SL_VERDICTS] = {[SL_VERDICT_ROOMY] = "holgado",
                                                   [SL_VERDICT_TIGHT] = "justo",
                                                   [SL_VERDICT_DOUBTFUL] = "dudoso",
                                                   [SL_VERDICT_LATE] = "no llega",
                                                   [SL_VERDICT_UNKNOWN] = "no se sabe"};
    return spanish ? words[verdict] : sl_verdict_word((sl_verdict)verdict);
}

/* What a number measures: its name, the range of its bounds, and how it is written: times `scale`, with so
 * many decimals (AS_NEEDED: one where it is no whole number), and its unit in both languages. */
enum { AS_NEEDED = -1 };
static const struct {
    const char *word;
    sl_range bound;
    double scale;
    int decimals;
    const char *unit, *unidad;
} kinds[SL_AS_COUNT_OF] = {
    [SL_AS_SHARE] = {"a share", {SL_MEASURE_SHARE, 0.0, 1.0}, 100.0, 0, " %", " %"},
    [SL_AS_MINUTES] = {"a time", {SL_MEASURE_TIME, 0.0, SL_LONGEST_CLOCK_MIN}, 1.0, 0, " min", " min"},
    [SL_AS_TIMES] = {"a ratio", {SL_MEASURE_NUMBER, 0.0, 10000.0}, 1.0, 1, " times", " veces"},
    [SL_AS_COUNT] = {"a count", {SL_MEASURE_NUMBER, 0.0, 10000.0}, 1.0, AS_NEEDED, "", ""},
    [SL_AS_STRENGTH] = {"a strength", {SL_MEASURE_STRENGTH, 0.0, 40.0}, 1.0, AS_NEEDED, " %", " %"},
    [SL_AS_GRAMS] = {"a mass", {SL_MEASURE_MASS, 0.0, 10000.0}, 1.0, AS_NEEDED, " g", " g"},
    [SL_AS_CELSIUS] = {"a temperature", {SL_MEASURE_TEMPERATURE, 0.0, 100.0}, 1.0, 0, " °C", " °C"},
    [SL_AS_KELVIN] = {"a difference in kelvin", {SL_MEASURE_KELVIN, -100.0, 100.0}, 1.0, 0, " °C", " °C"},
    [SL_AS_LEVELS] = {"levels", {SL_MEASURE_NUMBER, 0.0, 10000.0}, 1.0, 1, " levels", " niveles"},
    [SL_AS_PACE] = {"a pace", {SL_MEASURE_SHARE, 0.0, 1.0}, 100.0, 0, " % per minute", " % por minuto"},
    [SL_AS_ODDS] = {"odds", {SL_MEASURE_SHARE, 0.0, 1.0}, SL_DOTS, 0, "of", "de"},
    [SL_AS_ENERGY] = {"an energy", {SL_MEASURE_ENERGY, 0.0, 200.0}, 1.0, 0, " kJ/mol", " kJ/mol"},
    [SL_AS_WORD] = {"a word", {SL_MEASURE_NUMBER, 0.0, 10000.0}, 1.0, 0, "", ""}};

sl_range sl_measured_range(sl_measured measured)
{
    return kinds[measured].bound;
}

void sl_number_write(sl_number *number, bool spanish)
{
    const double value = kinds[number->measured].scale * number->value;
    const char *const unit = spanish ? kinds[number->measured].unidad : kinds[number->measured].unit;
    int decimals = kinds[number->measured].decimals;
    char text[24];
    if (number->of_head) { /* no text uses it, no list tells it */
        snprintf(number->text, sizeof number->text, "%s", spanish ? "no se dice" : "not told");
    } else if (number->measured == SL_AS_MINUTES) {
        write_minutes(number, spanish);
    } else if (number->measured == SL_AS_WORD) {
        snprintf(number->text, sizeof number->text, "%s", verdict_word((int)value, spanish));
    } else if (number->measured == SL_AS_ODDS) {
        snprintf(number->text, sizeof number->text, "%ld %s %d", lround(value), unit, (int)SL_DOTS);
    } else {
        decimals = decimals == AS_NEEDED                                    ? (is_whole(value) ? 0 : 1)
                   : number->measured == SL_AS_TIMES && fabs(value) >= 9.95 ? 0 /* two figures */
                                                                            : decimals;
        decimal(text, sizeof text, value, decimals);
        snprintf(number->text, sizeof number->text, "%s%s", text, unit);
    }
}

/* ---- names ---------------------------------------------------------------------------------- */

static const char name_form[] = "a name here is made of a-z, 0-9 and _, a letter first, at most 32";

bool sl_figure_name_check(const sl_reading *reading, const sl_node *node)
{
    if (!sl_node_is(node, SL_NODE_TEXT, name_form, reading->error)) {
        return false;
    }
    const size_t length = strlen(node->text);
    const bool good = length > 0 && length <= 32 && node->text[0] >= 'a' && node->text[0] <= 'z' &&
                      strspn(node->text, "abcdefghijklmnopqrstuvwxyz0123456789_") == length;
    return good || sl_node_refuse_text(node, SL_ERR_WRONG_TYPE, name_form, reading->error);
}

bool sl_number_named(sl_figures *figures, const sl_node *node, sl_measured measured, int *index)
{
    const char *names[SL_MOST_NUMBERS];
    for (int i = 0; i < figures->n; i++) {
        names[i] = figures->number[i].name;
    }
    const sl_words words = {names, figures->n};
    int found = 0;
    if (figures->n == 0) {
        return sl_node_refuse_text(node, SL_ERR_UNKNOWN_WORD, "no number stands before this one",
                                   figures->reading->error);
    }
    if (!sl_word_read(node, &words, &found, figures->reading->error)) {
        return false;
    }
    if (measured != SL_AS_COUNT_OF && figures->number[found].measured != measured) {
        sl_phrase wanted = {0};
        sl_phrase_add(&wanted, "wanted here is the name of ");
        sl_phrase_add(&wanted, kinds[measured].word);
        return sl_node_refuse_text(node, SL_ERR_BAD_UNIT, wanted.text, figures->reading->error);
    }
    figures->used[found] = true;
    *index = found;
    return true;
}

/* ---- given ------------------------------------------------------------------------------------ */

static bool given_read(const sl_reading *reading, const sl_node *node, sl_number *number)
{
    static const struct {
        const char *unit;
        sl_measured measured;
        sl_range range;
    } units[] = {
        {"min", SL_AS_MINUTES, {SL_MEASURE_TIME, 0.0, SL_LONGEST_CLOCK_MIN}},
        {"s", SL_AS_MINUTES, {SL_MEASURE_TIME, 0.0, SL_LONGEST_CLOCK_MIN}},
        {"h", SL_AS_MINUTES, {SL_MEASURE_TIME, 0.0, SL_LONGEST_CLOCK_MIN}},
        {"%", SL_AS_SHARE, {SL_MEASURE_SHARE, 0.0, 1.0}},
        {"g", SL_AS_GRAMS, {SL_MEASURE_MASS, 0.0, 1000.0}},
        {"°C", SL_AS_CELSIUS, {SL_MEASURE_TEMPERATURE, 0.0, 100.0}},
        {"K", SL_AS_KELVIN, {SL_MEASURE_KELVIN, -50.0, 50.0}},
        {"kJ/mol", SL_AS_ENERGY, {SL_MEASURE_ENERGY, 0.0, 200.0}},
        {"", SL_AS_COUNT, {SL_MEASURE_NUMBER, 0.0, 10000.0}},
    };
    static const char form[] = "a number with its unit (min, s, h, %, g, °C, K, kJ/mol), or a count";
    if (!sl_node_is(node, SL_NODE_TEXT, form, reading->error)) {
        return false;
    }
    double unread = 0.0;
    const char *const sign = node->text + (node->text[0] == '-' ? 1 : 0);
    const char *rest = sl_decimal_read(sign, &unread);
    rest = rest ? rest + strspn(rest, " ") : NULL;
    for (size_t i = 0; rest && i < sizeof units / sizeof units[0]; i++) {
        if (strcmp(rest, units[i].unit) == 0) {
            number->given = true;
            number->measured = units[i].measured;
            return sl_quantity_read(node, &units[i].range, &number->value, reading->error);
        }
    }
    return sl_node_refuse_text(node, SL_ERR_BAD_UNIT, form, reading->error);
}

/* ---- made of others ---------------------------------------------------------------------------- */

typedef enum sl_making { SL_DIVIDE, SL_MULTIPLY, SL_ADD, SL_SUBTRACT, SL_WHOLE_TIMES, SL_MAKINGS } sl_making;
static const char *const making_words[SL_MAKINGS] = {"divide", "multiply", "add", "subtract", "whole_times"};

static bool plain(sl_measured measured)
{
    return measured == SL_AS_TIMES || measured == SL_AS_COUNT || measured == SL_AS_SHARE;
}

static bool make(const sl_reading *reading, const sl_node *node, sl_making making, const sl_number *one,
                 const sl_number *two, sl_number *number)
{
    const bool same = one->measured == two->measured;
    const bool scaled = making == SL_MULTIPLY && (plain(one->measured) || plain(two->measured));
    if (!same && !scaled && !(making == SL_DIVIDE && plain(two->measured))) {
        return sl_node_refuse_key(node, SL_ERR_BAD_UNIT, "two numbers of different kinds",
                                  "add, subtract and divide what measures the same; multiply by a ratio, a "
                                  "count or a share",
                                  reading->error);
    }
    if ((making == SL_DIVIDE || making == SL_WHOLE_TIMES) && !(fabs(two->value) > 0.0)) {
        return sl_node_refuse_key(node, SL_ERR_OUT_OF_RANGE, "a division by nothing",
                                  "the second number must not be zero", reading->error);
    }
    switch (making) {
    case SL_DIVIDE:
        number->measured = same ? SL_AS_TIMES : one->measured;
        number->value = one->value / two->value;
        break;
    case SL_MULTIPLY:
        number->measured = plain(two->measured) ? one->measured : two->measured;
        number->measured =
            one->measured == SL_AS_COUNT && two->measured == SL_AS_SHARE ? SL_AS_SHARE : number->measured;
        number->value = one->value * two->value;
        break;
    case SL_ADD:
    case SL_SUBTRACT:
        number->measured = one->measured;
        number->value = making == SL_ADD ? one->value + two->value : one->value - two->value;
        break;
    case SL_WHOLE_TIMES:
        number->measured = SL_AS_COUNT;
        number->value = floor(one->value / two->value + 1e-9);
        break;
    case SL_MAKINGS:
        break;
    }
    /* what is made of moments that the author chose is as exact as they are */
    number->given = one->given && two->given;
    /* A factor between two times of the model tells no time; against a time that somebody chose it would. */
    const bool factor = making == SL_DIVIDE && same && !one->given && !two->given;
    number->of_head = (one->of_head || two->of_head) && !factor;
    return true;
}

static bool made_read(sl_figures *figures, const sl_node *pair, sl_making making, sl_number *number)
{
    int one = 0, two = 0;
    static const char form[] = "two names of numbers belong here, such as [left_a, left_b]";
    if (!sl_node_is(pair, SL_NODE_LIST, form, figures->reading->error)) {
        return false;
    }
    if (pair->n != 2) {
        return sl_node_refuse_key(pair, SL_ERR_OUT_OF_RANGE, "not two numbers", form,
                                  figures->reading->error);
    }
    return sl_number_named(figures, pair->first, SL_AS_COUNT_OF, &one) &&
           sl_number_named(figures, pair->last, SL_AS_COUNT_OF, &two) &&
           make(figures->reading, pair, making, &figures->number[one], &figures->number[two], number);
}

/* ---- all of them --------------------------------------------------------------------------------- */

static bool number_value(sl_figures *figures, const sl_node *node, sl_number *number)
{
    const sl_node *const given = sl_node_child(node, "given");
    if (given) {
        static const char *const keys[] = {"name", "given"};
        static const sl_words known = {keys, 2};
        return sl_node_keys_known(node, &known, figures->reading->error) &&
               given_read(figures->reading, given, number);
    }
    for (int i = 0; i < SL_MAKINGS; i++) {
        const sl_node *const pair = sl_node_child(node, making_words[i]);
        const char *const keys[] = {"name", making_words[i]};
        const sl_words known = {keys, 2};
        if (pair) {
            return sl_node_keys_known(node, &known, figures->reading->error) &&
                   made_read(figures, pair, (sl_making)i, number);
        }
    }
    return sl_number_compute(figures, node, number);
}

static bool number_read(sl_figures *figures, const sl_node *node)
{
    const sl_reading *const reading = figures->reading;
    if (!sl_node_is(node, SL_NODE_MAPPING, "write {name: ..., what: ...} or {name: ..., given: ...}",
                    reading->error)) {
        return false;
    }
    const sl_node *const name = sl_needed_child(reading, node, "name", "texts use a number by its name");
    sl_number number = {.name = NULL};
    if (!name || !sl_figure_name_check(reading, name) ||
        !sl_text_read(reading, name, SL_TEXT_NAME, 32, &number.name)) {
        return false;
    }
    for (int i = 0; i < figures->n; i++) {
        if (strcmp(figures->number[i].name, number.name) == 0) {
            return sl_node_refuse_text(name, SL_ERR_DUPLICATE_KEY, "every number has a name of its own",
                                       reading->error);
        }
    }
    if (!number_value(figures, node, &number)) {
        return false;
    }
    sl_number_write(&number, figures->spanish);
    figures->number[figures->n++] = number;
    return true;
}

bool sl_numbers_read(sl_figures *figures, const sl_node *list)
{
    for (const sl_node *node = list->first; node; node = node->next) {
        if (!number_read(figures, node)) {
            return false;
        }
    }
    return true;
}

bool sl_numbers_all_used(const sl_figures *figures, const sl_node *list)
{
    int i = 0;
    for (const sl_node *node = list->first; node; node = node->next, i++) {
        if (figures->number[i].given && sl_node_child(node, "given") && !figures->used[i]) {
            return sl_node_refuse_text(
                sl_node_child(node, "name"), SL_ERR_INCONSISTENT,
                "a number that is given must be used by another, by a claim or a moment",
                figures->reading->error);
        }
    }
    return true;
}

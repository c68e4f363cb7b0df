/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Claims: what a lesson says of its numbers. One that should hold must hold; one marked
 * "holds: no" is what a wrong answer rests on, and must not.
 */
#include <string.h>

#include "base/minute.h"
#include "lesson/reading.h"
#include "slowlift/answer.h"

/* least, most: the number's value lies between. */
static bool bounds_hold(const sl_figures *figures, const sl_node *node, const sl_number *number, bool *holds)
{
    const sl_node *const least = sl_node_child(node, "least");
    const sl_node *const most = sl_node_child(node, "most");
    const sl_range range = sl_measured_range(number->measured);
    double low = number->value, high = number->value;
    if ((least && !sl_quantity_read(least, &range, &low, figures->reading->error)) ||
        (most && !sl_quantity_read(most, &range, &high, figures->reading->error))) {
        return false;
    }
    *holds = *holds && number->value >= low && number->value <= high;
    return true;
}

static bool order_holds(sl_figures *figures, const sl_node *node, const sl_number *number, bool *holds)
{
    const sl_node *const below = sl_node_child(node, "below");
    const sl_node *const above = sl_node_child(node, "above");
    int index = 0;
    if (below) {
        if (!sl_number_named(figures, below, number->measured, &index)) {
            return false;
        }
        *holds = *holds && number->value < figures->number[index].value;
    }
    if (above) {
        if (!sl_number_named(figures, above, number->measured, &index)) {
            return false;
        }
        *holds = *holds && number->value > figures->number[index].value;
    }
    return true;
}

static bool word_holds(const sl_figures *figures, const sl_node *node, const sl_number *number, bool *holds)
{
    const sl_node *const is = sl_node_child(node, "is");
    const char *words[SL_VERDICTS];
    int index = 0;
    if (!is) {
        return true;
    }
    if (number->measured != SL_AS_WORD) {
        return sl_node_refuse_key(is, SL_ERR_BAD_UNIT, "\"is\"",
                                  "only a verdict is a word; use least and most", figures->reading->error);
    }
    for (int i = 0; i < SL_VERDICTS; i++) {
        words[i] = sl_verdict_key((sl_verdict)i);
    }
    const sl_words known = {words, SL_VERDICTS};
    if (!sl_word_read(is, &known, &index, figures->reading->error)) {
        return false;
    }
    *holds = *holds && index == (int)number->value;
    return true;
}

/* What the scene says instead; a range of minutes hides how near it was, so those come as they
 * are. */
static bool refuse_claim(const sl_figures *figures, const sl_node *name, const sl_number *number, bool should)
{
    sl_phrase found = {0}, wanted = {0};
    sl_phrase_add(&found, "the claim ");
    sl_phrase_quote(&found, name->text);
    sl_phrase_add(&found, should ? " is not borne out" : " holds after all");
    sl_phrase_add(&wanted, number->name);
    sl_phrase_add(&wanted, " is ");
    if (number->of_head) {
        sl_phrase_add(&wanted, number->text);
    } else if (number->measured == SL_AS_MINUTES) {
        sl_phrase value = {0};
        char minutes[sizeof value.text];
        sl_phrase_number(&value, number->value);
        sl_minute_words(number->given ? SL_MINUTE_PLANNED : SL_MINUTE_MODEL, minutes, sizeof minutes,
                        "%s min", value.text);
        sl_phrase_add(&wanted, minutes);
    } else if (number->measured == SL_AS_SHARE) {
        sl_phrase_number(&wanted, 100.0 * number->value);
        sl_phrase_add(&wanted, " %");
    } else {
        sl_phrase_add(&wanted, number->text);
    }
    return sl_node_refuse(name, SL_ERR_INCONSISTENT, found.text, wanted.text, figures->reading->error);
}

static bool claim_holds(sl_figures *figures, const sl_node *node, const sl_number *number, bool *holds)
{
    *holds = true;
    return bounds_hold(figures, node, number, holds) && order_holds(figures, node, number, holds) &&
           word_holds(figures, node, number, holds);
}

static bool says_something(const sl_reading *reading, const sl_node *node)
{
    static const char *const bounds[] = {"least", "most", "below", "above", "is"};
    for (size_t i = 0; i < sizeof bounds / sizeof bounds[0]; i++) {
        if (sl_node_child(node, bounds[i])) {
            return true;
        }
    }
    return sl_node_refuse_missing(node, "least", "a claim has one of least, most, below, above, is",
                                  reading->error);
}

static bool claim_read(sl_figures *figures, const sl_node *node)
{
    static const char *const keys[] = {"name", "number", "least", "most", "below", "above", "is", "holds"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    const sl_reading *const reading = figures->reading;
    if (!sl_node_keys_known(node, &known, reading->error)) {
        return false;
    }
    const sl_node *const name =
        sl_needed_child(reading, node, "name", "answers refer to a claim by its name");
    const sl_node *const number =
        name ? sl_needed_child(reading, node, "number", "the number it is about") : NULL;
    const sl_node *const should = sl_node_child(node, "holds");
    sl_claim claim = {.holds = true};
    bool holds = true;
    if (!number || !sl_figure_name_check(reading, name) ||
        !sl_text_read(reading, name, SL_TEXT_NAME, 32, &claim.name) ||
        !sl_number_named(figures, number, SL_AS_COUNT_OF, &claim.number) || !says_something(reading, node) ||
        (should && !sl_yes_read(should, &claim.holds, reading->error)) ||
        !claim_holds(figures, node, &figures->number[claim.number], &holds)) {
        return false;
    }
    for (int i = 0; i < figures->n_claims; i++) {
        if (strcmp(figures->claim[i].name, claim.name) == 0) {
            return sl_node_refuse_text(name, SL_ERR_DUPLICATE_KEY, "every claim has a name of its own",
                                       reading->error);
        }
    }
    if (holds != claim.holds) {
        return refuse_claim(figures, name, &figures->number[claim.number], claim.holds);
    }
    figures->claim[figures->n_claims++] = claim;
    return true;
}

bool sl_claims_read(sl_figures *figures, const sl_node *list)
{
    for (const sl_node *node = list->first; node; node = node->next) {
        if (!claim_read(figures, node)) {
            return false;
        }
    }
    return true;
}

bool sl_claim_named(const sl_figures *figures, const sl_node *node, int *index)
{
    const char *names[SL_MOST_CLAIMS];
    for (int i = 0; i < figures->n_claims; i++) {
        names[i] = figures->claim[i].name;
    }
    const sl_words words = {names, figures->n_claims};
    return sl_word_read(node, &words, index, figures->reading->error);
}

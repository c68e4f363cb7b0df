/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values under keys. Grades: the words of SL_GRADE_LIST; a number without a grade is
 * assumed, the weakest, so that forgetting can only understate trust.
 */
#include "scene/yaml/value.h"

#include <assert.h>
#include <string.h>

#include "base/language.h"

#define AS_WORD(name, word) word,
static const char *const grades[] = {SL_GRADE_LIST(AS_WORD)};
static const char *const dye_classes[] = {SL_DYE_CLASS_LIST(AS_WORD)};
static const char *const mix_classes[] = {SL_MIX_CLASS_LIST(AS_WORD)};
static const char *const mechanisms[] = {SL_MECHANISM_LIST(AS_WORD)};
static const char *const places[] = {SL_PLACE_LIST(AS_WORD)};
#undef AS_WORD
#define AS_KEY(NAME, key, ...) key,
static const char *const reductants[] = {SL_REDUCTANT_LIST(AS_KEY)};
#undef AS_KEY
static const char *const kinds[] = {"scene", "hair",   "dyes",   "mix",     "chemistry",
                                    "chart", "intake", "prices", "settings"};
static_assert(sizeof kinds / sizeof kinds[0] == SL_KIND_COUNT, "a word for every kind of file");

const sl_words sl_grade_words = {grades, SL_GRADE_COUNT};
const sl_words sl_dye_class_words = {dye_classes, SL_DYE_CLASS_COUNT};
const sl_words sl_mix_class_words = {mix_classes, SL_MIX_CLASS_COUNT};
const sl_words sl_mechanism_words = {mechanisms, SL_MECHANISM_COUNT};
const sl_words sl_reductant_words = {reductants, SL_REDUCTANTS};
const sl_words sl_place_words = {places, SL_PLACE_COUNT};
const sl_words sl_kind_words = {kinds, SL_KIND_COUNT};

static bool same_fault(const sl_error *one, const sl_error *other)
{
    return one->code == other->code && one->line == other->line && one->column == other->column &&
           strcmp(one->file, other->file) == 0;
}

bool sl_pass_over(const sl_reading *reading)
{
    sl_faults *const faults = reading->faults;
    sl_error *const error = reading->error;
    if (!faults || error->code == SL_ERR_NO_MEMORY) {
        return false;
    }
    bool kept = error->code == SL_OK;
    for (int i = 0; i < faults->n && !kept; i++) {
        kept = same_fault(&faults->fault[i], error);
    }
    if (!kept && faults->n == SL_MOST_FAULTS) {
        return false;
    }
    if (!kept) {
        faults->fault[faults->n++] = *error;
    }
    sl_error_clear(error);
    return true;
}

/* The nearest word is looked for once it is known that none fits: that costs more than all else here. */
bool sl_word_read(const sl_node *node, const sl_words *words, int *index, sl_error *error)
{
    const bool is_text = node->kind == SL_NODE_TEXT;
    const int found = is_text ? sl_words_find(words, node->text) : -1;
    if (found >= 0) {
        *index = found;
        return true;
    }
    sl_phrase wanted = {0};
    sl_phrase_nearest(&wanted, words, is_text ? node->text : "");
    return sl_node_refuse_text(node, is_text ? SL_ERR_UNKNOWN_WORD : SL_ERR_WRONG_TYPE, wanted.text, error);
}

bool sl_yes_read(const sl_node *node, bool *yes, sl_error *error)
{
    static const char *const answers[] = {"no", "yes"};
    static const sl_words words = {answers, 2};
    int index = 0;
    if (!sl_word_read(node, &words, &index, error)) {
        return false;
    }
    *yes = index == 1;
    return true;
}

/* A block (|, >) ends with a line end that nobody meant. */
static size_t length_as_meant(const char *text, sl_text_kind kind)
{
    const size_t length = strlen(text);
    return kind == SL_TEXT_LINE && length > 0 && text[length - 1] == '\n' ? length - 1 : length;
}

bool sl_text_check(const sl_node *node, sl_text_kind kind, sl_error *error)
{
    sl_error fault; /* filled where something is wrong */
    return sl_text_accept(node->text, length_as_meant(node->text, kind), kind, &fault) ||
           sl_node_refuse(node, fault.code, fault.found, fault.wanted, error);
}

bool sl_name_is_new(const sl_node *name, const char *other, const char *twin, const char *likeness,
                    sl_error *error)
{
    if (strcmp(name->text, other) == 0) {
        return sl_node_refuse_text(name, SL_ERR_INCONSISTENT, twin, error);
    }
    return !sl_text_alike(name->text, other) ||
           sl_node_refuse_text(name, SL_ERR_INCONSISTENT, likeness, error);
}

bool sl_text_read(const sl_reading *reading, const sl_node *node, sl_text_kind kind, size_t most,
                  const char **text)
{
    if (!sl_node_is(node, SL_NODE_TEXT, "a text belongs here", reading->error)) {
        return false;
    }
    const size_t length = length_as_meant(node->text, kind);
    if (length == 0) {
        return sl_node_refuse_text(node, SL_ERR_WRONG_TYPE, "a text belongs here", reading->error);
    }
    if (length > most) {
        sl_phrase wanted = {0};
        sl_phrase_integer(&wanted, (long)most);
        sl_phrase_add(&wanted, _(" bytes"));
        return sl_node_refuse(node, SL_ERR_TOO_LARGE, "this text is too long", wanted.text, reading->error);
    }
    if (!sl_text_check(node, kind, reading->error)) {
        return false;
    }
    const char *const copy = sl_arena_text(reading->kept, node->text, length, reading->error);
    if (copy) {
        *text = copy;
    }
    return copy != NULL;
}

bool sl_whole_read(const sl_node *node, int least, int most, int *number, sl_error *error)
{
    const sl_range range = {SL_MEASURE_NUMBER, least, most};
    double value = 0.0;
    if (!sl_quantity_read(node, &range, &value, error)) {
        return false;
    }
    if (value != (double)(int)value) {
        return sl_node_refuse_text(node, SL_ERR_BAD_NUMBER, "wanted is a whole number", error);
    }
    *number = (int)value;
    return true;
}

const char sl_name_form[] = "a name is made of a-z, 0-9 and hyphens (no path, no file ending)";

bool sl_name_is_good(const char *name)
{
    const size_t length = strlen(name);
    return length > 0 && length <= SL_MAX_NAME &&
           strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789-") == length;
}

bool sl_name_check(const sl_node *node, const char *name, sl_error *error)
{
    if (sl_name_is_good(name)) {
        return true;
    }
    sl_phrase found = {0};
    sl_phrase_quote(&found, name);
    return sl_node_refuse(node, SL_ERR_WRONG_TYPE, found.text, sl_name_form, error);
}

bool sl_name_read(const sl_reading *reading, const sl_node *node, const char **name)
{
    return sl_node_is(node, SL_NODE_TEXT, "a name belongs here", reading->error) &&
           sl_name_check(node, node->text, reading->error) &&
           sl_text_read(reading, node, SL_TEXT_NAME, SL_MAX_NAME, name);
}

bool sl_grade_read(const sl_reading *reading, const sl_node *mapping, const char *grade_key,
                   const char *source_key, sl_param *param)
{
    const sl_node *const grade = sl_node_child(mapping, grade_key);
    const sl_node *const source = sl_node_child(mapping, source_key);
    int index = SL_GRADE_ASSUMED;
    param->source = NULL;
    if (grade && !sl_word_read(grade, &sl_grade_words, &index, reading->error)) {
        return false;
    }
    param->grade = (sl_grade)index;
    if (source) {
        return sl_text_read(reading, source, SL_TEXT_LINE, SL_MAX_TEXT, &param->source);
    }
    if (param->grade == SL_GRADE_PUBLISHED || param->grade == SL_GRADE_COMPUTED) {
        sl_phrase wanted = {0};
        sl_phrase_add(&wanted, _("a number that is "));
        sl_phrase_add(&wanted, grades[index]);
        sl_phrase_add(&wanted, _(" says from what"));
        return sl_node_refuse_missing(mapping, source_key, wanted.text, reading->error);
    }
    return true;
}

/* {value, grade, source}, and "activation" where `activation` is not NULL. */
static bool graded_read(const sl_reading *reading, const sl_node *node, const sl_range *range,
                        sl_param *param, const sl_node **activation)
{
    static const char *const keys[] = {"value", "grade", "source", "activation"};
    const sl_words known = {keys, activation ? 4 : 3};
    if (!sl_node_keys_known(node, &known, reading->error)) {
        return false;
    }
    const sl_node *const value = sl_node_child(node, "value");
    if (!value) {
        return sl_node_refuse_missing(node, "value", "write {value: ..., grade: ..., source: ...}",
                                      reading->error);
    }
    if (activation) {
        *activation = sl_node_child(node, "activation");
    }
    sl_param read = {0};
    if (!sl_quantity_read(value, range, &read.value, reading->error) ||
        !sl_grade_read(reading, node, "grade", "source", &read)) {
        return false;
    }
    *param = read;
    return true;
}

bool sl_param_read(const sl_reading *reading, const sl_node *node, const sl_range *range, sl_param *param)
{
    if (node->kind == SL_NODE_MAPPING) {
        return graded_read(reading, node, range, param, NULL);
    }
    sl_param read = {.grade = SL_GRADE_ASSUMED};
    if (!sl_quantity_read(node, range, &read.value, reading->error)) {
        return false;
    }
    *param = read;
    return true;
}

const char *sl_channel_key(int channel)
{
#define KEY(NAME, name, key, ...) key,
    static const char *const keys[SL_CHANNELS] = {SL_CHANNEL_LIST(KEY)};
#undef KEY
    assert(channel >= 0 && channel < SL_CHANNELS);
    return keys[channel];
}

bool sl_channel_required(int channel)
{
#define REQUIRED(NAME, name, key, required, ...) required,
    static const bool is_required[SL_CHANNELS] = {SL_CHANNEL_LIST(REQUIRED)};
#undef REQUIRED
    assert(channel >= 0 && channel < SL_CHANNELS);
    return is_required[channel];
}

bool sl_rate_read(const sl_reading *reading, const sl_node *node, int channel, sl_rates *rates)
{
#define RANGE(NAME, name, key, required, order, ...) {SL_MEASURE_RATE_##order, 0.0, 1000.0},
    static const sl_range ranges[SL_CHANNELS] = {SL_CHANNEL_LIST(RANGE)};
#undef RANGE
    static const sl_range energy = {SL_MEASURE_ENERGY, 0.0, 200.0};
    const sl_range *const range = &ranges[channel];
    const sl_node *activation = NULL;
    if (node->kind == SL_NODE_MAPPING) {
        if (!graded_read(reading, node, range, &rates->k[channel], &activation)) {
            return false;
        }
    } else if (!sl_param_read(reading, node, range, &rates->k[channel])) {
        return false;
    }
    rates->own_activation[channel] = activation != NULL;
    return !activation ||
           sl_quantity_read(activation, &energy, &rates->activation_kj_mol[channel], reading->error);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The words for every closed list of the model, made from the lists themselves.
 */
#include <assert.h>

#include "slowlift/model.h"

#define AS_WORD(name, word) word,
static const char *const grade_words[] = {SL_GRADE_LIST(AS_WORD)};
static const char *const dye_class_words[] = {SL_DYE_CLASS_LIST(AS_WORD)};
static const char *const mix_class_words[] = {SL_MIX_CLASS_LIST(AS_WORD)};
static const char *const mechanism_words[] = {SL_MECHANISM_LIST(AS_WORD)};
static const char *const place_words[] = {SL_PLACE_LIST(AS_WORD)};
#undef AS_WORD

const char *sl_grade_word(sl_grade grade)
{
    assert(grade < SL_GRADE_COUNT);
    return grade_words[grade];
}

const char *sl_dye_class_word(sl_dye_class class_)
{
    assert(class_ < SL_DYE_CLASS_COUNT);
    return dye_class_words[class_];
}

const char *sl_mix_class_word(sl_mix_class class_)
{
    assert(class_ < SL_MIX_CLASS_COUNT);
    return mix_class_words[class_];
}

const char *sl_mechanism_word(sl_mechanism mechanism)
{
    assert(mechanism < SL_MECHANISM_COUNT);
    return mechanism_words[mechanism];
}

const char *sl_place_word(sl_place place)
{
    assert(place < SL_PLACE_COUNT);
    return place_words[place];
}

const char *sl_reductant_word(sl_reductant_id reductant)
{
#define AS_KEY(NAME, key, ...) key,
    static const char *const words[] = {SL_REDUCTANT_LIST(AS_KEY)};
#undef AS_KEY
    assert(reductant < SL_REDUCTANTS);
    return words[reductant];
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The few words that the lesson engine itself says, in the languages of the lessons.
 */
#include "lesson/words.h"

#include "base/language.h"
#include "lesson/reading.h"

const sl_words sl_language_words = {sl_language_letters, SL_LANGUAGES};

static const char *const pages[SL_PAGE_KINDS][SL_LANGUAGES] = {
    [SL_PAGE_OBJECTIVE] = {"What this lesson is for", "Para qué es esta lección"},
    [SL_PAGE_RECALL] = {"Do you remember?", "¿Te acuerdas?"},
    [SL_PAGE_CASES] = {"Look and compare", "Mira y compara"},
    [SL_PAGE_PREDICTION] = {"Your prediction", "Tu predicción"},
    [SL_PAGE_REASON] = {"Your reason", "Tu razón"},
    [SL_PAGE_RUN] = {"The run", "El cálculo"},
    [SL_PAGE_SAW] = {"What did you see?", "¿Qué viste?"},
    [SL_PAGE_EXPLAIN] = {"Why it is so", "Por qué es así"},
    [SL_PAGE_TRANSFER] = {"Somewhere else", "En otro caso"},
    [SL_PAGE_SWATCH] = {"With a real swatch", "Con una muestra de verdad"},
    [SL_PAGE_EXIT] = {"Before you go", "Antes de salir"},
    [SL_PAGE_END] = {"The end", "Fin"},
};

static const char *const said[SL_SAID_COUNT][SL_LANGUAGES] = {
#define SL_AS_PAIR(name, english, spanish) [name] = {english, spanish},
    SL_SAID_LIST(SL_AS_PAIR)
#undef SL_AS_PAIR
};

static sl_language_id column(const char *language)
{
    return sl_language_of(language);
}

const char *sl_page_word(sl_page_kind kind, const char *language)
{
    return pages[kind][column(language)];
}

const char *sl_lesson_said(sl_said_what what, const char *language)
{
    return said[what][column(language)];
}

const char *sl_said_quantity(sl_quantity quantity, const char *language)
{
    static const sl_said_what named[] = {[SL_COLOUR_LEFT] = SL_SAID_COLOUR_LEFT,
                                         [SL_BASE_MOVED] = SL_SAID_BASE_MOVED,
                                         [SL_CYSTINE_LOST] = SL_SAID_HAIR_STRESS};
    return sl_lesson_said(named[quantity], language);
}

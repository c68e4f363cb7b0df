/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The weakest grade among the numbers that a scene's results rest on: the rows that are graded, and enter
 * this scene (the head's temperature does not on a bench). Where several are equally weak the first in this
 * order is named: mixes (pH moves results most), dyes, hair, chemistry, chart.
 */
#include <stdio.h>

#include "base/language.h"
#include "scene/files/scene_file.h"

typedef struct sl_weakest {
    const sl_scene *scene;
    sl_grade grade;
    sl_phrase what;
    bool any;
} sl_weakest;

static void consider(sl_weakest *weakest, sl_grade grade, const char *number, const char *of,
                     const char *name)
{
    if (weakest->any && grade >= weakest->grade) {
        return;
    }
    weakest->any = true;
    weakest->grade = grade;
    weakest->what = (sl_phrase){0};
    sl_phrase_add(&weakest->what, _(number));
    sl_phrase_add(&weakest->what, _(of));
    sl_phrase_add(&weakest->what, name);
}

static void consider_rates(sl_weakest *weakest, const sl_rates *rates, const char *of, const char *name)
{
#define RATE(NAME, name, key, required, order, dose, rate, ...) rate,
    static const char *const words[SL_CHANNELS] = {SL_CHANNEL_LIST(RATE)};
#undef RATE
    for (int channel = 0; channel < SL_CHANNELS; channel++) {
        if (rates->k[channel].value > 0.0) { /* no result rests on one of 0 */
            consider(weakest, rates->k[channel].grade, words[channel], of, name);
        }
    }
}

static void consider_member(sl_weakest *weakest, const sl_field *field, const char *of, const char *name,
                            const void *record)
{
    const void *const at = sl_field_in(field, record);
    if (field->enters && !field->enters(weakest->scene, record)) {
        return;
    }
    if (field->kind == SL_FIELD_RATES) {
        consider_rates(weakest, at, of, name);
        return;
    }
    /* A number's own grade, or the grade of all numbers that a record was made of. */
    const sl_grade grade =
        field->kind == SL_FIELD_PARAM ? ((const sl_param *)at)->grade : *(const sl_grade *)at;
    consider(weakest, grade, field->words, of, name);
}

static void consider_turns(sl_weakest *weakest, const sl_fields *rows, unsigned use, const char *name,
                           const void *record)
{
    for (int turn = SL_FIRST_TURN; turn <= SL_LAST_TURN; turn++) {
        for (int i = 0; i < rows->n; i++) {
            const sl_field *const field = &rows->field[i];
            if (field->turn == turn && (field->use & use)) {
                consider_member(weakest, field, field->of ? field->of : rows->of, name, record);
            }
        }
    }
}

static void consider_record(sl_weakest *weakest, const sl_fields *rows, const char *name, const void *record)
{
    consider_turns(weakest, rows, SL_GRADED_FIRST, name, record);
    consider_turns(weakest, rows, SL_GRADED, name, record);
}

enum { TITLE = 200 };

/* In English a file's name is words that people read, and what machines are told; in another language its
 * title there stands in its place, in quotes. */
static const char *shown(const char *name, const sl_wording *title, char text[TITLE])
{
    const sl_language_id language = sl_language_in_use();
    if (language == SL_ENGLISH || title->in[language] == NULL) {
        return name;
    }
    snprintf(text, TITLE, "\"%s\"", title->in[language]);
    return text;
}

bool sl_weakest_find(const sl_reading *reading, sl_scene *scene)
{
    sl_weakest weakest = {.scene = scene, .grade = SL_GRADE_MEASURED_HERE};
    char text[TITLE];
    for (int i = 0; i < scene->n_mixes; i++) {
        const sl_mix *const mix = &scene->mixes[i];
        consider_record(&weakest, &sl_mix_fields, shown(mix->name, &mix->title, text), mix);
    }
    for (int i = 0; i < scene->n_dyes; i++) {
        consider_record(&weakest, &sl_dye_fields, sl_dye_title(&scene->dyes[i]), &scene->dyes[i]);
    }
    for (int i = 0; i < scene->n_hairs; i++) {
        const sl_hair *const hair = &scene->hairs[i];
        consider_record(&weakest, &sl_hair_fields, shown(hair->name, &hair->title, text), hair);
    }
    const sl_chemistry *const chemistry = &scene->chemistry;
    consider_record(&weakest, &sl_chemistry_fields, shown(chemistry->name, &chemistry->title, text),
                    chemistry);
    const sl_chart *const chart = &scene->chart;
    consider_record(&weakest, &sl_chart_fields, shown(chart->name, &chart->title, text), chart);
    scene->weakest = weakest.grade;
    scene->weakest_what =
        sl_arena_text(reading->kept, weakest.what.text, weakest.what.length, reading->error);
    return scene->weakest_what != NULL;
}

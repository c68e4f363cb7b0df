/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind chart: which L* people call which level, and which hue, chroma and L* they
 * call by which word. Invariant: levels rise, so that an L* between two of them reads as
 * one level only.
 */
#include "base/language.h"
#include "scene/records.h"

enum { WORD_BYTES = 30 };

static const sl_range lightness = {SL_MEASURE_NUMBER, 0.0, 100.0};

/* "from" and "to": both of them or, in a tone, neither. */
static bool hues_check(const sl_reading *reading, const sl_node *mapping, bool needed)
{
    const bool has_from = sl_node_child(mapping, "from"), has_to = sl_node_child(mapping, "to");
    if (has_from != has_to || (needed && !has_from)) {
        return sl_node_refuse_missing(
            mapping, has_from ? "to" : "from",
            "hues go from one angle to another, through 0 ° when the first is larger", reading->error);
    }
    return true;
}

/* ---- a tone ------------------------------------------------------------------------------- */

static bool tone_check(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                       const sl_node *node, void *record)
{
    const sl_tone *const tone = record;
    (void)field;
    (void)node;
    if (!hues_check(reading, mapping, false)) {
        return false;
    }
    return tone->least_L <= tone->most_L ||
           sl_node_refuse(mapping, SL_ERR_INCONSISTENT, "a tone whose least_L is above its most_L",
                          "nothing could be called by it", reading->error);
}

#define LIMIT(place, word, ...) SL_FIELD(sl_tone, place, .key = (word), .range = {__VA_ARGS__})
#define HUE(type, place, ...) SL_FIELD(type, place, .range = {SL_MEASURE_ANGLE, 0.0, 360.0}, __VA_ARGS__)
static const sl_field tone_fields[] = {
    SL_FIELD(sl_tone, word, .key = "word", .use = SL_REQUIRED, .text = SL_TEXT_NAME, .most = WORD_BYTES,
             .wanted = N_("a tone has a word, such as \"pale yellow\"")),
    SL_FIELD(sl_tone, title, .key = "title", .text = SL_TEXT_NAME, .most = WORD_BYTES),
    HUE(sl_tone, from_deg, .key = "from"),
    HUE(sl_tone, to_deg, .key = "to"),
    LIMIT(least_chroma, "least_chroma", SL_MEASURE_NUMBER, 0.0, 200.0),
    LIMIT(least_L, "least_L", SL_MEASURE_NUMBER, 0.0, 100.0),
    LIMIT(most_L, "most_L", SL_MEASURE_NUMBER, 0.0, 100.0),
    SL_FIELD_KEY(.read = tone_check),
};
const sl_fields sl_tone_fields = SL_FIELDS(sl_tone, tone_fields, .of = NULL);

/* ---- a chart ------------------------------------------------------------------------------ */

static bool levels_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                        const sl_node *levels, void *record)
{
    double *next = ((sl_chart *)record)->level_L;
    (void)field;
    (void)mapping;
    if (!levels) {
        return true;
    }
    if (!sl_node_is(levels, SL_NODE_LIST, "a list of ten L* belongs here, level 1 first", reading->error)) {
        return false;
    }
    if (levels->n != SL_LEVELS) {
        return sl_node_refuse_key(levels, SL_ERR_OUT_OF_RANGE, "the number of levels",
                                  "ten L* belong here, level 1 first", reading->error);
    }
    for (const sl_node *node = levels->first; node; node = node->next, next++) {
        if (!sl_quantity_read(node, &lightness, next, reading->error)) {
            return false;
        }
        if (node != levels->first && next[0] <= next[-1]) {
            return sl_node_refuse_text(node, SL_ERR_INCONSISTENT, "each level is lighter than the one before",
                                       reading->error);
        }
    }
    return true;
}

static bool tones_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                       const sl_node *tones, void *record)
{
    sl_chart *const chart = record;
    (void)field;
    (void)mapping;
    if (!tones) {
        return true;
    }
    if (!sl_node_is(tones, SL_NODE_LIST, "a list of tones belongs here; the first that fits is the word",
                    reading->error)) {
        return false;
    }
    if (tones->n < 1 || tones->n > SL_MAX_TONES) {
        return sl_node_refuse_key(tones, SL_ERR_OUT_OF_RANGE, "the number of tones", "1 to 24 belong here",
                                  reading->error);
    }
    chart->n_tones = 0;
    for (const sl_node *node = tones->first; node; node = node->next) {
        sl_tone *const tone = &chart->tones[chart->n_tones];
        *tone = (sl_tone){.to_deg = 360.0, .most_L = 100.0};
        if (!sl_fields_read(reading, node, &sl_tone_fields, NULL, true, tone)) {
            return false;
        }
        chart->n_tones++;
    }
    return true;
}

static bool warm_check(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                       const sl_node *node, void *record)
{
    (void)field;
    (void)node;
    (void)record;
    return hues_check(reading, mapping, true);
}

#define PARTS N_("a chart has levels, tones, warm and neutral_chroma")
static const sl_field chart_fields[] = {
    SL_FIELD(sl_chart, name, .use = 0),
    SL_FIELD(sl_chart, title, .use = 0),
    SL_FIELD(sl_chart, level_L, .key = "levels", .use = SL_REQUIRED, .wanted = PARTS, .read = levels_read),
    SL_FIELD_KEY(.key = "levels_grade"),
    SL_FIELD_KEY(.key = "levels_source"),
    SL_FIELD(sl_chart, n_tones, .use = 0),
    SL_FIELD_LIST(sl_chart, tones, n_tones, sl_tone_fields, .key = "tones", .use = SL_REQUIRED,
                  .wanted = PARTS, .read = tones_read),
    HUE(sl_chart, warm_from_deg, .section = "warm", .key = "from"),
    HUE(sl_chart, warm_to_deg, .section = "warm", .key = "to"),
    SL_FIELD_KEY(.section = "warm", .read = warm_check),
    SL_FIELD_KEY(.key = "tones_grade"),
    SL_FIELD_KEY(.key = "tones_source"),
    SL_FIELD(sl_chart, neutral_chroma, .key = "neutral_chroma", .use = SL_REQUIRED, .wanted = PARTS,
             .range = {SL_MEASURE_NUMBER, 0.0, 200.0}),
    SL_FIELD(sl_chart, grade, .words = N_("a number"), .use = SL_GRADED),
};
const sl_fields sl_chart_fields =
    SL_FIELDS(sl_chart, chart_fields, .of = N_(" of the chart "), .lacks = PARTS);
#undef LIMIT
#undef HUE
#undef PARTS

/* A chart is as good as the weaker of its two parts; one that changes a number of the
 * chart it is like does not inherit that one's good name. */
static bool grades_read(const sl_reading *reading, const sl_node *root, bool complete, sl_chart *chart)
{
    sl_param levels = {.value = 0.0}, tones = {.value = 0.0};
    if (!sl_grade_read(reading, root, "levels_grade", "levels_source", &levels) ||
        !sl_grade_read(reading, root, "tones_grade", "tones_source", &tones)) {
        return false;
    }
    const sl_grade own = levels.grade < tones.grade ? levels.grade : tones.grade;
    chart->grade = complete || own < chart->grade ? own : chart->grade;
    return true;
}

bool sl_chart_file_read(const sl_reading *reading, const sl_chain *chain, const sl_node *root, bool complete,
                        void *record)
{
    (void)chain;
    return sl_fields_read(reading, root, &sl_chart_fields, &sl_head_keys, complete, record) &&
           grades_read(reading, root, complete, record);
}

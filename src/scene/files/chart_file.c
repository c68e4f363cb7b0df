/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind chart: which L* people call which level, and which hue, chroma and L* they
 * call by which word. Invariant: levels rise, so that an L* between two of them reads as
 * one level only.
 */
#include "base/language.h"
#include "scene/records.h"

static const sl_range lightness = {SL_MEASURE_NUMBER, 0.0, 100.0};
static const sl_range chroma = {SL_MEASURE_NUMBER, 0.0, 200.0};
static const sl_range angle = {SL_MEASURE_ANGLE, 0.0, 360.0};

static bool levels_read(const sl_reading *reading, const sl_node *levels, double L[SL_LEVELS])
{
    if (!sl_node_is(levels, SL_NODE_LIST, "a list of ten L* belongs here, level 1 first", reading->error)) {
        return false;
    }
    if (levels->n != SL_LEVELS) {
        return sl_node_refuse_key(levels, SL_ERR_OUT_OF_RANGE, "the number of levels",
                                  "ten L* belong here, level 1 first", reading->error);
    }
    double *next = L;
    for (const sl_node *node = levels->first; node; node = node->next, next++) {
        if (!sl_quantity_read(node, &lightness, next, reading->error)) {
            return false;
        }
        if (next > L && next[0] <= next[-1]) {
            return sl_node_refuse_text(node, SL_ERR_INCONSISTENT, "each level is lighter than the one before",
                                       reading->error);
        }
    }
    return true;
}

static bool maybe(const sl_node *mapping, const char *key, const sl_range *range, double *value,
                  sl_error *error)
{
    const sl_node *const node = sl_node_child(mapping, key);
    return !node || sl_quantity_read(node, range, value, error);
}

/* "from" and "to", both of them or, where that is allowed, neither. */
static bool hues_read(const sl_reading *reading, const sl_node *mapping, bool needed, double *from,
                      double *to)
{
    const bool has_from = sl_node_child(mapping, "from"), has_to = sl_node_child(mapping, "to");
    if (has_from != has_to || (needed && !has_from)) {
        return sl_node_refuse_missing(
            mapping, has_from ? "to" : "from",
            "hues go from one angle to another, through 0 ° when the first is larger", reading->error);
    }
    return maybe(mapping, "from", &angle, from, reading->error) &&
           maybe(mapping, "to", &angle, to, reading->error);
}

static bool tone_read(const sl_reading *reading, const sl_node *node, sl_tone *tone)
{
    static const char *const keys[] = {"word", "from", "to", "least_chroma", "least_L", "most_L"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    if (!sl_node_keys_known(node, &known, reading->error)) {
        return false;
    }
    const sl_node *const word = sl_node_child(node, "word");
    if (!word) {
        return sl_node_refuse_missing(node, "word", "a tone has a word, such as \"pale yellow\"",
                                      reading->error);
    }
    *tone = (sl_tone){.to_deg = 360.0, .most_L = 100.0};
    if (!sl_text_read(reading, word, SL_TEXT_NAME, 30, &tone->word) ||
        !hues_read(reading, node, false, &tone->from_deg, &tone->to_deg) ||
        !maybe(node, "least_chroma", &chroma, &tone->least_chroma, reading->error) ||
        !maybe(node, "least_L", &lightness, &tone->least_L, reading->error) ||
        !maybe(node, "most_L", &lightness, &tone->most_L, reading->error)) {
        return false;
    }
    return tone->least_L <= tone->most_L ||
           sl_node_refuse(node, SL_ERR_INCONSISTENT, "a tone whose least_L is above its most_L",
                          "nothing could be called by it", reading->error);
}

static bool tones_read(const sl_reading *reading, const sl_node *tones, sl_chart *chart)
{
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
        if (!tone_read(reading, node, &chart->tones[chart->n_tones])) {
            return false;
        }
        chart->n_tones++;
    }
    return true;
}

static bool warm_read(const sl_reading *reading, const sl_node *warm, sl_chart *chart)
{
    static const char *const keys[] = {"from", "to"};
    static const sl_words known = {keys, 2};
    return sl_node_keys_known(warm, &known, reading->error) &&
           hues_read(reading, warm, true, &chart->warm_from_deg, &chart->warm_to_deg);
}

static bool complete_check(const sl_reading *reading, const sl_node *root)
{
    static const char *const needed[] = {"levels", "tones", "warm", "neutral_chroma"};
    for (int i = 0; i < 4; i++) {
        if (!sl_node_child(root, needed[i])) {
            return sl_node_refuse_missing(
                root, needed[i], "a chart has levels, tones, warm and neutral_chroma", reading->error);
        }
    }
    return true;
}

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

static const sl_field tone_fields[] = {
    SL_FIELD(sl_tone, word, .use = 0),    SL_FIELD(sl_tone, from_deg, .use = 0),
    SL_FIELD(sl_tone, to_deg, .use = 0),  SL_FIELD(sl_tone, least_chroma, .use = 0),
    SL_FIELD(sl_tone, least_L, .use = 0), SL_FIELD(sl_tone, most_L, .use = 0),
};
const sl_fields sl_tone_fields = SL_FIELDS(sl_tone, tone_fields, .of = NULL);

static const sl_field chart_fields[] = {
    SL_FIELD(sl_chart, name, .use = 0),
    SL_FIELD(sl_chart, title, .use = 0),
    SL_FIELD(sl_chart, level_L, .use = 0),
    SL_FIELD(sl_chart, n_tones, .use = 0),
    SL_FIELD_LIST(sl_chart, tones, n_tones, sl_tone_fields, .use = 0),
    SL_FIELD(sl_chart, warm_from_deg, .use = 0),
    SL_FIELD(sl_chart, warm_to_deg, .use = 0),
    SL_FIELD(sl_chart, neutral_chroma, .use = 0),
    SL_FIELD(sl_chart, grade, .words = N_("a number"), .use = SL_GRADED),
};
const sl_fields sl_chart_fields = SL_FIELDS(sl_chart, chart_fields, .of = N_(" of the chart "));

bool sl_chart_file_read(const sl_reading *reading, const sl_chain *chain, const sl_node *root, bool complete,
                        void *record)
{
    static const char *const keys[] = {"kind",        "version",      "title",         "origin", "like",
                                       "levels",      "levels_grade", "levels_source", "tones",  "warm",
                                       "tones_grade", "tones_source", "neutral_chroma"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    sl_chart *const chart = record;
    (void)chain;
    if (!sl_node_keys_known(root, &known, reading->error) || (complete && !complete_check(reading, root))) {
        return false;
    }
    const sl_node *const levels = sl_node_child(root, "levels");
    const sl_node *const tones = sl_node_child(root, "tones");
    const sl_node *const warm = sl_node_child(root, "warm");
    return (!levels || levels_read(reading, levels, chart->level_L)) &&
           (!tones || tones_read(reading, tones, chart)) && (!warm || warm_read(reading, warm, chart)) &&
           maybe(root, "neutral_chroma", &chroma, &chart->neutral_chroma, reading->error) &&
           grades_read(reading, root, complete, chart);
}

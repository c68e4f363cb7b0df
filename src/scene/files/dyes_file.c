/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind dyes: numbers for each dye class, and dyes that take their class's numbers
 * unless they give their own. Invariant: a dye's colour word is never looked at.
 */
#include <assert.h>
#include <string.h>

#include "base/language.h"
#include "scene/records.h"

enum { COLOUR_BYTES = 40 };

/* ---- bands -------------------------------------------------------------------------------- */

#define BAND(place, word, ...)                                                                               \
    SL_FIELD(sl_band, place, .key = (word), .use = SL_DRAWN_FROM | SL_REQUIRED,                              \
             .wanted = N_("a band has centre, width and height"), .range = {__VA_ARGS__})
static const sl_field band_fields[] = {
    BAND(centre_nm, "centre", SL_MEASURE_NANOMETRE, 300.0, 900.0),
    BAND(width_nm, "width", SL_MEASURE_NANOMETRE, 5.0, 400.0),
    BAND(height, "height", SL_MEASURE_SHARE, 0.0, 1.0),
};
const sl_fields sl_band_fields = SL_FIELDS(sl_band, band_fields, .of = NULL);
#undef BAND

static bool bands_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                       const sl_node *bands, void *record)
{
    sl_dye *const dye = record;
    (void)field;
    (void)mapping;
    if (!bands) {
        return true;
    }
    if (!sl_node_is(bands, SL_NODE_LIST, "a list of {centre, width, height} belongs here", reading->error)) {
        return false;
    }
    if (bands->n < 1 || bands->n > SL_MAX_BANDS) {
        return sl_node_refuse_key(bands, SL_ERR_OUT_OF_RANGE, "the number of bands", "1 to 4 belong here",
                                  reading->error);
    }
    dye->n_bands = 0;
    double highest = 0.0;
    for (const sl_node *node = bands->first; node; node = node->next) {
        sl_band *const band = &dye->bands[dye->n_bands++];
        if (!sl_fields_read(reading, node, &sl_band_fields, NULL, true, band)) {
            return false;
        }
        highest = band->height > highest ? band->height : highest;
    }
    if (highest != 1.0) {
        return sl_node_refuse_key(bands, SL_ERR_INCONSISTENT, "no band has height 1",
                                  "heights are relative to the highest band, which is 1", reading->error);
    }
    return true;
}

/* How good the bands are: theirs, wherever they are given or graded. */
static bool quality_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                         const sl_node *node, void *record)
{
    sl_dye *const dye = record;
    (void)field;
    const bool graded = node || sl_node_child(mapping, "bands") || sl_node_child(mapping, "bands_source");
    return !graded || sl_grade_read(reading, mapping, "bands_grade", "bands_source", &dye->band_quality);
}

/* ---- the rows -------------------------------------------------------------------------------- */

static bool loosely_held(const sl_scene *scene, const void *record)
{
    (void)scene;
    return ((const sl_dye *)record)->loose_share.value > 0.0;
}

/* Said of few dyes, and later than fingerprints were kept of the others. */
static void loose_drawn(uint64_t *hash, const void *record)
{
    const sl_dye *const dye = record;
    if (loosely_held(NULL, dye)) {
        sl_draw_number(hash, dye->loose_share.value);
        sl_draw_whole(hash, (int)dye->loose_share.grade);
        sl_draw_number(hash, dye->loose_loss.value);
        sl_draw_whole(hash, (int)dye->loose_loss.grade);
    }
}

static bool stains(const sl_scene *scene, const void *record)
{
    (void)scene;
    return ((const sl_dye *)record)->stain_share.value > 0.0;
}

/* Whether a mix of the scene holds this agent; of no scene, whether the dye has a number of it. */
static bool is_reduced(const sl_scene *scene, const sl_dye *dye, sl_reductant_id agent)
{
    return (scene == NULL || sl_scene_holds_agent(scene, agent)) && dye->reduced[agent].value > 0.0;
}

#define BY_AGENT(NAME, ...)                                                                                  \
    static bool reduced_by_##NAME(const sl_scene *scene, const void *record)                                 \
    {                                                                                                        \
        return is_reduced(scene, record, SL_REDUCTANT_##NAME);                                               \
    }
SL_REDUCTANT_LIST(BY_AGENT)
#undef BY_AGENT

static bool comes_back(const sl_scene *scene, const void *record)
{
    bool reduced = false;
    for (int agent = 0; agent < SL_REDUCTANTS; agent++) {
        reduced = reduced || is_reduced(scene, record, (sl_reductant_id)agent);
    }
    return reduced && ((const sl_dye *)record)->leuco_share.value > 0.0;
}

/* What a class says for its dyes, and a dye for itself. */
#define BANDS                                                                                                \
    SL_FIELD(sl_dye, n_bands, .turn = 1, .use = SL_DRAWN_FROM),                                              \
        SL_FIELD_LIST(sl_dye, bands, n_bands, sl_band_fields, .key = "bands", .turn = 1,                     \
                      .use = SL_DRAWN_FROM, .read = bands_read), /* weigh the dyes of one zone */            \
        SL_FIELD(sl_dye, band_quality, .key = "bands_grade", .words = N_("absorption"), .turn = 2,           \
                 .use = SL_GRADED, .read = quality_read),                                                    \
        SL_FIELD_KEY(.key = "bands_source")
#define NUMBER(place, word, its_words, ...)                                                                  \
    SL_FIELD(sl_dye, place, .key = (word), .words = (its_words), .use = SL_DRAWN_FROM | SL_GRADED | SL_OWED, \
             .range = {__VA_ARGS__})
#define LOOSE                                                                                                \
    SL_FIELD(sl_dye, loose_share, .key = "loose_share", .words = N_("loosely held share"), .turn = 2,        \
             .use = SL_DRAWN_FROM | SL_GRADED, .range = {SL_MEASURE_SHARE, 0.0, 1.0},                        \
             .enters = loosely_held, .draw = loose_drawn),                                                   \
        SL_FIELD(sl_dye, loose_loss, .key = "loose_shampoo",                                                 \
                 .words = N_("loss of the loosely held share per shampoo"), .turn = 2,                       \
                 .use = SL_DRAWN_FROM | SL_GRADED | SL_OWED, .range = {SL_MEASURE_NUMBER, 0.0, 10.0},        \
                 .enters = loosely_held, .draw = sl_drawn_before)
#define NUMBERS                                                                                              \
    NUMBER(rim_share, "rim_share", N_("rim share"), SL_MEASURE_SHARE, 0.0, 1.0),                             \
        SL_FIELD(sl_dye, rates, .turn = -1, .use = SL_DRAWN_FROM | SL_GRADED | SL_OWED),                     \
        NUMBER(leach_per_min, "leach", N_("leaching"), SL_MEASURE_RATE, 0.0, 1.0),                           \
        NUMBER(shampoo_loss, "shampoo", N_("loss per shampoo"), SL_MEASURE_NUMBER, 0.0, 10.0), LOOSE,        \
        SL_FIELD(sl_dye, stain_share, .key = "stain", .words = N_("share that stains neighbours"),           \
                 .use = SL_GRADED, .range = {SL_MEASURE_SHARE, 0.0, 0.5}, /* two neighbours share it */      \
                 .enters = stains)
#define REDUCTION                                                                                            \
    SL_REDUCTANT_LIST(REDUCED)                                                                               \
    COLOURLESS(leuco_share, "share", N_("share that keeps a colourless form"), SL_MEASURE_SHARE, 1.0),       \
        COLOURLESS(air_return_per_min, "air", N_("return of colour in air"), SL_MEASURE_RATE, 10.0),         \
        COLOURLESS(oxidant_return_l_mol_min, "oxidant", N_("return of colour by an oxidant"),                \
                   SL_MEASURE_RATE_2, 1000.0)
#define REDUCED(NAME, word, ...)                                                                             \
    SL_FIELD(sl_dye, reduced[SL_REDUCTANT_##NAME], .section = "reduced_by", .key = (word),                   \
             .words = N_("rate with a reducing agent"), .use = SL_GRADED | SL_DRAWN_REDUCING,                \
             .range = {SL_MEASURE_RATE_2, 0.0, 1000.0}, .enters = reduced_by_##NAME),
#define COLOURLESS(place, word, its_words, measure, most)                                                    \
    SL_FIELD(sl_dye, place, .section = "colourless", .key = (word), .words = (its_words),                    \
             .use = SL_GRADED | SL_DRAWN_REDUCING, .range = {measure, 0.0, most}, .enters = comes_back)
#define SHAPE N_("a dye needs colour and class")

static const sl_field dye_fields[] = {
    SL_FIELD(sl_dye, name, .told = "name", .turn = -2, .use = SL_DRAWN_FROM),
    SL_FIELD(sl_dye, title, .key = "title", .text = SL_TEXT_NAME, .most = COLOUR_BYTES),
    SL_FIELD(sl_dye, colour, .key = "colour", .use = SL_REQUIRED, .text = SL_TEXT_NAME, .most = COLOUR_BYTES,
             .wanted = SHAPE),
    SL_FIELD(sl_dye, class_, .key = "class", .told = "class", .turn = -2, .use = SL_DRAWN_FROM | SL_REQUIRED,
             .list = &sl_dye_class_words, .wanted = SHAPE),
    BANDS,
    NUMBERS,
    REDUCTION,
};
const sl_fields sl_dye_fields = SL_FIELDS(sl_dye, dye_fields, .of = N_(" of the dye "));
static const sl_field class_rows[] = {NUMBERS, REDUCTION, BANDS};
static const sl_fields class_fields = SL_FIELDS(sl_dye, class_rows, .of = NULL);

#undef BANDS
#undef NUMBER
#undef LOOSE
#undef NUMBERS
#undef REDUCTION
#undef REDUCED
#undef COLOURLESS
#undef SHAPE

static_assert(sizeof dye_fields / sizeof dye_fields[0] <= SL_MOST_DYE_ROWS, "a place for each row of a dye");

/* ---- what a class or a dye says -------------------------------------------------------------- */

/* Whether a row is a number that a dye takes from its class where it does not say it itself. */
static bool is_number(const sl_field *field)
{
    return field->kind == SL_FIELD_RATES || (field->kind == SL_FIELD_PARAM && !field->read);
}

/* Which numbers stand here: a bit for each channel of a rate, one for each other. By the rows of a dye. */
static void note_said(const sl_node *mapping, sl_dye_said *said)
{
    for (int i = 0; i < sl_dye_fields.n; i++) {
        const sl_field *const field = &sl_dye_fields.field[i];
        const bool rates = field->kind == SL_FIELD_RATES;
        const sl_node *const here = field->section ? sl_node_child(mapping, field->section) : mapping;
        for (int bit = 0; here && is_number(field) && bit < (rates ? SL_CHANNELS : 1); bit++) {
            const char *const key = rates ? sl_channel_key(bit) : field->key;
            said->says[i] |= sl_node_child(here, key) ? 1U << bit : 0U;
        }
    }
}

static bool classes_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                         const sl_node *classes, void *record)
{
    sl_dyes_record *const set = record;
    (void)field;
    (void)mapping;
    if (!classes) {
        return true;
    }
    if (!sl_node_keys_known(classes, &sl_dye_class_words, reading->error)) {
        return false;
    }
    for (const sl_node *node = classes->first; node; node = node->next) {
        sl_dye_said *const said = &set->of_class[sl_words_find(&sl_dye_class_words, node->key)];
        if (!sl_fields_read(reading, node, &class_fields, NULL, false, &said->dye)) {
            return false;
        }
        note_said(node, said);
    }
    return true;
}

/* The entry of that name: the one of a set that this is like, or a new one. NULL: the set is full, or memory
 * has run out. */
static sl_dye_entry *entry_named(const sl_reading *reading, const sl_node *node, sl_dyes_record *record)
{
    for (int i = 0; i < record->n_dyes; i++) {
        if (strcmp(record->dyes[i].said.dye.name, node->key) == 0) {
            return &record->dyes[i];
        }
    }
    if (record->n_dyes == SL_MAX_DYES_PER_SET) {
        sl_node_refuse_key(node, SL_ERR_TOO_LARGE, "this set holds too many dyes", "64", reading->error);
        return NULL;
    }
    sl_dye_entry *const entry = &record->dyes[record->n_dyes];
    entry->said.dye.name = sl_arena_text(reading->kept, node->key, strlen(node->key), reading->error);
    record->n_dyes += entry->said.dye.name ? 1 : 0;
    return entry->said.dye.name ? entry : NULL;
}

static bool dye_read(const sl_reading *reading, const sl_node *node, sl_dyes_record *record)
{
    if (!sl_name_is_good(node->key)) {
        sl_phrase found = {0};
        sl_phrase_quote(&found, node->key);
        return sl_node_refuse_key(node, SL_ERR_WRONG_TYPE, found.text, sl_name_form, reading->error);
    }
    const int n_before = record->n_dyes;
    sl_dye_entry *const entry = entry_named(reading, node, record);
    if (!entry) {
        return false;
    }
    sl_fail_at(&entry->place, SL_OK, node->file, node->key_line, node->key_column, "", "");
    if (!sl_fields_read(reading, node, &sl_dye_fields, NULL, record->n_dyes > n_before, &entry->said.dye)) {
        return false;
    }
    note_said(node, &entry->said);
    return true;
}

static bool dyes_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                      const sl_node *dyes, void *record)
{
    (void)field;
    (void)mapping;
    if (dyes && !sl_node_is(dyes, SL_NODE_MAPPING, "dyes by name belong here", reading->error)) {
        return false;
    }
    for (const sl_node *node = dyes ? dyes->first : NULL; node; node = node->next) {
        if (!dye_read(reading, node, record)) {
            return false;
        }
    }
    return true;
}

static const sl_field set_rows[] = {
    SL_FIELD_KEY(.key = "classes", .use = SL_REQUIRED, .read = classes_read,
                 .wanted = N_("give the classes' numbers, or write \"like: classes\"")),
    SL_FIELD_KEY(.key = "dyes", .read = dyes_read),
};
static const sl_fields set_fields = SL_FIELDS(sl_dyes_record, set_rows, .of = NULL);

bool sl_dyes_read(const sl_reading *reading, const sl_chain *chain, const sl_node *root, bool complete,
                  void *record)
{
    (void)chain;
    return sl_fields_read(reading, root, &set_fields, &sl_head_keys, complete, record);
}

const sl_dye_entry *sl_dyes_find(const sl_dyes_record *record, const char *name)
{
    for (int i = 0; i < record->n_dyes; i++) {
        if (strcmp(record->dyes[i].said.dye.name, name) == 0) {
            return &record->dyes[i];
        }
    }
    return NULL;
}

static bool refuse_lacking(const sl_reading *reading, const sl_dye_entry *entry, const char *key)
{
    sl_phrase found = {0}, wanted = {0};
    sl_phrase_quote(&found, key);
    sl_phrase_add(&wanted, _("neither this dye nor its class "));
    sl_phrase_add(&wanted, sl_dye_class_words.word[entry->said.dye.class_]);
    sl_phrase_add(&wanted, _(" has it"));
    const sl_error *const place = &entry->place;
    return sl_fail_at(reading->error, SL_ERR_MISSING_KEY, place->file, place->line, place->column, found.text,
                      wanted.text);
}

/* One number of a dye, its own or its class's. */
static bool number_make(const sl_reading *reading, const sl_dye_entry *entry, const sl_dye_said *of_class,
                        int row, sl_dye *made)
{
    const sl_field *const field = &sl_dye_fields.field[row];
    const unsigned own = entry->said.says[row], whose = own | of_class->says[row];
    const bool rates = field->kind == SL_FIELD_RATES;
    for (int bit = 0; bit < (rates ? SL_CHANNELS : 1); bit++) {
        const bool is_own = own >> bit & 1U;
        const sl_dye *const giver = is_own ? &entry->said.dye : &of_class->dye;
        const bool entered = !field->enters || field->enters(NULL, made); /* by what stands before it */
        const bool owed = (field->use & SL_OWED) && entered && (!rates || sl_channel_required(bit));
        if (!(whose >> bit & 1U) && owed) {
            return refuse_lacking(reading, entry, rates ? sl_channel_key(bit) : field->key);
        }
        if (rates) {
            made->rates.k[bit] = giver->rates.k[bit];
            made->rates.own_activation[bit] = giver->rates.own_activation[bit];
            made->rates.activation_kj_mol[bit] = giver->rates.activation_kj_mol[bit];
        } else {
            *(sl_param *)sl_field_at(field, made) = *(const sl_param *)sl_field_in(field, giver);
        }
    }
    return true;
}

bool sl_dye_make(const sl_reading *reading, const sl_dyes_record *record, const sl_dye_entry *entry,
                 sl_dye *dye)
{
    sl_dye made = entry->said.dye;
    const sl_dye_said *const of_class = &record->of_class[made.class_];
    for (int i = 0; i < sl_dye_fields.n; i++) {
        if (is_number(&sl_dye_fields.field[i]) && !number_make(reading, entry, of_class, i, &made)) {
            return false;
        }
    }
    if (made.n_bands == 0 && of_class->dye.n_bands == 0) {
        return refuse_lacking(reading, entry, "bands");
    }
    if (made.n_bands == 0) {
        memcpy(made.bands, of_class->dye.bands, sizeof made.bands);
        made.n_bands = of_class->dye.n_bands;
        made.band_quality = of_class->dye.band_quality;
    }
    *dye = made;
    return true;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind dyes: numbers for each dye class, and dyes that take their class's numbers
 * unless they give their own. Invariant: a dye's colour word is never looked at.
 */
#include <string.h>

#include "base/language.h"
#include "scene/records.h"

static const sl_range rim = {SL_MEASURE_SHARE, 0.0, 1.0};
static const sl_range leach_rate = {SL_MEASURE_RATE, 0.0, 1.0};
static const sl_range shampoo_exponent = {SL_MEASURE_NUMBER, 0.0, 10.0};
static const sl_range stain_range = {SL_MEASURE_SHARE, 0.0, 0.5}; /* two neighbours share it */
static const sl_range band_centre = {SL_MEASURE_NANOMETRE, 300.0, 900.0};
static const sl_range band_width = {SL_MEASURE_NANOMETRE, 5.0, 400.0};
static const sl_range band_height = {SL_MEASURE_SHARE, 0.0, 1.0};

static const sl_field band_fields[] = {
    SL_FIELD(sl_band, centre_nm, .use = SL_DRAWN_FROM),
    SL_FIELD(sl_band, width_nm, .use = SL_DRAWN_FROM),
    SL_FIELD(sl_band, height, .use = SL_DRAWN_FROM),
};
const sl_fields sl_band_fields = SL_FIELDS(sl_band, band_fields, .of = NULL);

static bool stains(const sl_scene *scene, const void *record)
{
    (void)scene;
    return ((const sl_dye *)record)->stain_share.value > 0.0;
}

static const sl_field dye_fields[] = {
    SL_FIELD(sl_dye, name, .told = "name", .turn = -2, .use = SL_DRAWN_FROM),
    SL_FIELD(sl_dye, colour, .use = 0),
    SL_FIELD(sl_dye, class_, .told = "class", .turn = -2, .use = SL_DRAWN_FROM, .list = &sl_dye_class_words),
    SL_FIELD(sl_dye, n_bands, .turn = 1, .use = SL_DRAWN_FROM),
    SL_FIELD_LIST(sl_dye, bands, n_bands, sl_band_fields, .turn = 1,
                  .use = SL_DRAWN_FROM), /* weigh the dyes of one zone */
    SL_FIELD(sl_dye, band_quality, .words = N_("absorption"), .turn = 2, .use = SL_GRADED),
    SL_FIELD(sl_dye, rim_share, .words = N_("rim share"), .use = SL_DRAWN_FROM | SL_GRADED),
    SL_FIELD(sl_dye, rates, .turn = -1, .use = SL_DRAWN_FROM | SL_GRADED),
    SL_FIELD(sl_dye, leach_per_min, .words = N_("leaching"), .use = SL_DRAWN_FROM | SL_GRADED),
    SL_FIELD(sl_dye, shampoo_loss, .words = N_("loss per shampoo"), .use = SL_DRAWN_FROM | SL_GRADED),
    SL_FIELD(sl_dye, stain_share, .words = N_("share that stains neighbours"), .use = SL_GRADED,
             .enters = stains),
};
const sl_fields sl_dye_fields = SL_FIELDS(sl_dye, dye_fields, .of = " of the dye ");

/* The numbers that stand in a class or a dye. */
static bool numbers_read(const sl_reading *reading, const sl_node *mapping, sl_dye_numbers *numbers)
{
    const sl_node *const rim_share = sl_node_child(mapping, "rim_share");
    const sl_node *const leach = sl_node_child(mapping, "leach");
    const sl_node *const shampoo = sl_node_child(mapping, "shampoo");
    const sl_node *const stain = sl_node_child(mapping, "stain");
    for (int channel = 0; channel < SL_CHANNELS; channel++) {
        const sl_node *const rate = sl_node_child(mapping, sl_channel_key(channel));
        if (rate && !sl_rate_read(reading, rate, channel, &numbers->rates)) {
            return false;
        }
        numbers->has_rate[channel] = numbers->has_rate[channel] || rate;
    }
    numbers->has_rim_share = numbers->has_rim_share || rim_share;
    numbers->has_leach = numbers->has_leach || leach;
    numbers->has_shampoo = numbers->has_shampoo || shampoo;
    numbers->has_stain = numbers->has_stain || stain;
    return (!rim_share || sl_param_read(reading, rim_share, &rim, &numbers->rim_share)) &&
           (!leach || sl_param_read(reading, leach, &leach_rate, &numbers->leach_per_min)) &&
           (!shampoo || sl_param_read(reading, shampoo, &shampoo_exponent, &numbers->shampoo_loss)) &&
           (!stain || sl_param_read(reading, stain, &stain_range, &numbers->stain_share));
}

static bool band_read(const sl_reading *reading, const sl_node *node, sl_band *band)
{
    static const char *const keys[] = {"centre", "width", "height"};
    static const sl_words known = {keys, 3};
    static const sl_range *const ranges[] = {&band_centre, &band_width, &band_height};
    double *const values[] = {&band->centre_nm, &band->width_nm, &band->height};
    if (!sl_node_keys_known(node, &known, reading->error)) {
        return false;
    }
    for (int i = 0; i < known.n; i++) {
        const sl_node *const value = sl_node_child(node, keys[i]);
        if (!value) {
            return sl_node_refuse_missing(node, keys[i], "a band has centre, width and height",
                                          reading->error);
        }
        if (!sl_quantity_read(value, ranges[i], values[i], reading->error)) {
            return false;
        }
    }
    return true;
}

static bool bands_read(const sl_reading *reading, const sl_node *bands, sl_dye *dye)
{
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
        if (!band_read(reading, node, band)) {
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

/* "bands" with their grade and source, of a dye or of a class. */
static bool graded_bands_read(const sl_reading *reading, const sl_node *node, sl_dye *dye)
{
    const sl_node *const bands = sl_node_child(node, "bands");
    if (bands && !bands_read(reading, bands, dye)) {
        return false;
    }
    const bool graded = bands || sl_node_child(node, "bands_grade") || sl_node_child(node, "bands_source");
    return !graded || sl_grade_read(reading, node, "bands_grade", "bands_source", &dye->band_quality);
}

static bool classes_read(const sl_reading *reading, const sl_node *classes, sl_dyes_record *record)
{
    static const char *const keys[] = {"rim_share", "peroxide", "persulfate", "radical",     "leach",
                                       "shampoo",   "stain",    "bands",      "bands_grade", "bands_source"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    if (!sl_node_keys_known(classes, &sl_dye_class_words, reading->error)) {
        return false;
    }
    for (const sl_node *node = classes->first; node; node = node->next) {
        const int index = sl_words_find(&sl_dye_class_words, node->key);
        if (!sl_node_keys_known(node, &known, reading->error) ||
            !numbers_read(reading, node, &record->of_class[index]) ||
            !graded_bands_read(reading, node, &record->bands_of_class[index])) {
            return false;
        }
    }
    return true;
}

static bool description_read(const sl_reading *reading, const sl_node *node, bool is_new, sl_dye *dye)
{
    static const char *const needed[] = {"colour", "class"};
    for (int i = 0; is_new && i < 2; i++) {
        if (!sl_node_child(node, needed[i])) {
            return sl_node_refuse_missing(node, needed[i], "a dye needs colour and class", reading->error);
        }
    }
    const sl_node *const colour = sl_node_child(node, "colour");
    const sl_node *const class_ = sl_node_child(node, "class");
    int index = (int)dye->class_;
    if ((colour && !sl_text_read(reading, colour, SL_TEXT_NAME, 40, &dye->colour)) ||
        (class_ && !sl_word_read(class_, &sl_dye_class_words, &index, reading->error)) ||
        !graded_bands_read(reading, node, dye)) {
        return false;
    }
    dye->class_ = (sl_dye_class)index;
    return true;
}

static bool dye_read(const sl_reading *reading, const sl_node *node, sl_dyes_record *record)
{
    static const char *const keys[] = {"colour",       "class",     "bands",    "bands_grade",
                                       "bands_source", "rim_share", "peroxide", "persulfate",
                                       "radical",      "leach",     "shampoo",  "stain"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    if (!sl_name_is_good(node->key)) {
        sl_phrase found = {0};
        sl_phrase_quote(&found, node->key);
        return sl_node_refuse_key(node, SL_ERR_WRONG_TYPE, found.text, sl_name_form, reading->error);
    }
    if (!sl_node_keys_known(node, &known, reading->error)) {
        return false;
    }
    sl_dye_entry *entry = NULL;
    for (int i = 0; i < record->n_dyes; i++) {
        entry = strcmp(record->dyes[i].dye.name, node->key) == 0 ? &record->dyes[i] : entry;
    }
    const bool is_new = entry == NULL;
    if (is_new && record->n_dyes == SL_MAX_DYES_PER_SET) {
        return sl_node_refuse_key(node, SL_ERR_TOO_LARGE, "this set holds too many dyes", "64",
                                  reading->error);
    }
    if (is_new) {
        entry = &record->dyes[record->n_dyes];
        *entry = (sl_dye_entry){0};
        entry->dye.name = sl_arena_text(reading->kept, node->key, strlen(node->key), reading->error);
        if (!entry->dye.name) {
            return false;
        }
        record->n_dyes++;
    }
    sl_fail_at(&entry->place, SL_OK, node->file, node->key_line, node->key_column, "", "");
    return description_read(reading, node, is_new, &entry->dye) && numbers_read(reading, node, &entry->own);
}

bool sl_dyes_read(const sl_reading *reading, const sl_chain *chain, const sl_node *root, bool complete,
                  void *record)
{
    static const char *const keys[] = {"kind", "version", "title", "origin", "like", "classes", "dyes"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    (void)chain;
    if (!sl_node_keys_known(root, &known, reading->error)) {
        return false;
    }
    const sl_node *const classes = sl_node_child(root, "classes");
    const sl_node *const dyes = sl_node_child(root, "dyes");
    if (complete && !classes) {
        return sl_node_refuse_missing(
            root, "classes", "give the classes' numbers, or write \"like: classes\"", reading->error);
    }
    if (classes && !classes_read(reading, classes, record)) {
        return false;
    }
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

const sl_dye_entry *sl_dyes_find(const sl_dyes_record *record, const char *name)
{
    for (int i = 0; i < record->n_dyes; i++) {
        if (strcmp(record->dyes[i].dye.name, name) == 0) {
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
    sl_phrase_add(&wanted, sl_dye_class_words.word[entry->dye.class_]);
    sl_phrase_add(&wanted, _(" has it"));
    const sl_error *const place = &entry->place;
    return sl_fail_at(reading->error, SL_ERR_MISSING_KEY, place->file, place->line, place->column, found.text,
                      wanted.text);
}

bool sl_dye_make(const sl_reading *reading, const sl_dyes_record *record, const sl_dye_entry *entry,
                 sl_dye *dye)
{
    const sl_dye_numbers *const own = &entry->own;
    const sl_dye_numbers *const of_class = &record->of_class[entry->dye.class_];
    if (!own->has_rim_share && !of_class->has_rim_share) {
        return refuse_lacking(reading, entry, "rim_share");
    }
    if (!own->has_leach && !of_class->has_leach) {
        return refuse_lacking(reading, entry, "leach");
    }
    if (!own->has_shampoo && !of_class->has_shampoo) {
        return refuse_lacking(reading, entry, "shampoo");
    }
    sl_dye made = entry->dye;
    const sl_dye *const bands = &record->bands_of_class[made.class_];
    if (made.n_bands == 0 && bands->n_bands == 0) {
        return refuse_lacking(reading, entry, "bands");
    }
    if (made.n_bands == 0) {
        memcpy(made.bands, bands->bands, sizeof made.bands);
        made.n_bands = bands->n_bands;
        made.band_quality = bands->band_quality;
    }
    made.rim_share = own->has_rim_share ? own->rim_share : of_class->rim_share;
    made.leach_per_min = own->has_leach ? own->leach_per_min : of_class->leach_per_min;
    made.shampoo_loss = own->has_shampoo ? own->shampoo_loss : of_class->shampoo_loss;
    made.stain_share = own->has_stain ? own->stain_share : of_class->stain_share;
    for (int channel = 0; channel < SL_CHANNELS; channel++) {
        const sl_dye_numbers *const giver = own->has_rate[channel] ? own : of_class;
        if (!giver->has_rate[channel]) {
            return refuse_lacking(reading, entry, sl_channel_key(channel));
        }
        made.rates.k[channel] = giver->rates.k[channel];
        made.rates.own_activation[channel] = giver->rates.own_activation[channel];
        made.rates.activation_kj_mol[channel] = giver->rates.activation_kj_mol[channel];
    }
    *dye = made;
    return true;
}

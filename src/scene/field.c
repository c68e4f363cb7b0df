/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See field.h. A mapping is gone through twice: first each key is given to its row, or refused; then the rows
 * are read in their order, so that of several faults the first row's is named.
 */
#include "scene/field.h"

#include <assert.h>
#include <string.h>

void *sl_field_at(const sl_field *field, void *record)
{
    return (char *)record + field->offset;
}

const void *sl_field_in(const sl_field *field, const void *record)
{
    return (const char *)record + field->offset;
}

bool sl_field_is_pointer(const sl_field *field)
{
    return field->size == sizeof(void *); /* no record is that small */
}

int sl_field_count(const sl_field *field, const void *record)
{
    int n = 0;
    memcpy(&n, (const char *)record + field->count, sizeof n);
    return n;
}

const void *sl_field_first(const sl_field *field, const void *record)
{
    const void *const at = sl_field_in(field, record);
    const void *first = at;
    if (sl_field_is_pointer(field)) {
        memcpy(&first, at, sizeof first);
    }
    return first;
}

/* ---- keys ------------------------------------------------------------------------------- */

static bool same(const char *one, const char *other)
{
    return one == other || (one && other && sl_words_same(one, other));
}

/* Rows [from, to) of one mapping: all of a section, or what is not in one. */
typedef struct sl_rows {
    const sl_fields *record;
    const sl_words *head;
    int from, to;
    bool within; /* a section */
} sl_rows;

/* The row behind the last of the section that row `from` stands in. */
static int section_end(const sl_fields *record, int from)
{
    int to = from + 1;
    while (to < record->n && same(record->field[to].section, record->field[from].section)) {
        to++;
    }
    return to;
}

/* What key i of these rows is called here: its own, or, at a section's first row, the section's. NULL: none.
 */
static const char *key_here(const sl_rows *rows, int i)
{
    const sl_field *const field = &rows->record->field[i];
    if (rows->within || !field->section) {
        return field->key;
    }
    return i > rows->from && same(field->section, field[-1].section) ? NULL : field->section;
}

/* Looked for from row `next` on and around: most files have their keys in the order of the rows. */
static int row_of_key(const sl_rows *rows, const char *key, int next)
{
    for (int tried = rows->from, i = next; tried < rows->to; tried++, i++) {
        i = i < rows->to ? i : rows->from;
        const char *const here = key_here(rows, i);
        if (here && sl_words_same(here, key)) {
            return i;
        }
    }
    return -1;
}

/* Whether row i stands here under the keys of the channels. */
static bool rates_here(const sl_rows *rows, int i)
{
    const sl_field *const field = &rows->record->field[i];
    return field->kind == SL_FIELD_RATES && (rows->within || !field->section);
}

static bool is_channel(const sl_rows *rows, const char *key)
{
    bool rates = false, channel = false;
    for (int i = rows->from; i < rows->to; i++) {
        rates = rates || rates_here(rows, i);
    }
    for (int c = 0; rates && c < SL_CHANNELS; c++) {
        channel = channel || sl_words_same(sl_channel_key(c), key);
    }
    return channel;
}

static bool refuse_key(const sl_reading *reading, const sl_rows *rows, const sl_node *child)
{
    const char *word[SL_MOST_FIELDS];
    sl_words known = {word, 0};
    for (int i = 0; rows->head && i < rows->head->n; i++) {
        word[known.n++] = rows->head->word[i];
    }
    for (int i = rows->from; i < rows->to; i++) {
        const char *const here = key_here(rows, i);
        if (here) {
            word[known.n++] = here;
        }
        for (int c = 0; rates_here(rows, i) && c < SL_CHANNELS; c++) {
            word[known.n++] = sl_channel_key(c);
        }
    }
    assert(known.n <= SL_MOST_FIELDS);
    return sl_node_refuse_unknown(child, &known, reading->error);
}

/* The keys of a record that could not be read. */
typedef struct sl_missed {
    int n;
    const char *key[SL_MOST_FIELDS];
    bool unknown; /* a key that is none may be a required one */
} sl_missed;

/* Gives each key's node to its row. */
static bool keys_find(const sl_reading *reading, const sl_node *mapping, const sl_rows *rows,
                      const sl_node *found[SL_MOST_FIELDS], sl_missed *missed)
{
    const char *const form = rows->within ? rows->record->form : NULL;
    if (form ? !sl_node_is(mapping, SL_NODE_MAPPING, form, reading->error)
             : !sl_node_is_mapping(mapping, reading->error)) {
        return false;
    }
    int next = rows->from;
    for (const sl_node *child = mapping->first; child; child = child->next) {
        if (rows->head && sl_words_find(rows->head, child->key) >= 0) {
            continue;
        }
        const int i = row_of_key(rows, child->key, next);
        if (i >= 0) {
            found[i] = child;
            next = i + 1;
        } else if (!is_channel(rows, child->key)) {
            refuse_key(reading, rows, child);
            if (!sl_pass_over(reading)) {
                return false;
            }
            missed->unknown = true;
        }
    }
    return true;
}

/* ---- values ------------------------------------------------------------------------------ */

static bool word_read(const sl_field *field, const sl_node *node, unsigned *word, sl_error *error)
{
    int index = 0;
    if (!sl_word_read(node, field->list, &index, error)) {
        return false;
    }
    *word = (unsigned)index;
    return true;
}

static bool yes_read(const sl_field *field, const sl_node *node, bool *yes, sl_error *error)
{
    unsigned index = 0;
    if (!field->list) {
        return sl_yes_read(node, yes, error);
    }
    if (!word_read(field, node, &index, error)) {
        return false;
    }
    *yes = index == 1;
    return true;
}

/* A limit that stands in the file is set, whatever its value. */
static bool bound_read(const sl_field *field, const sl_node *node, sl_bound *bound, sl_error *error)
{
    bound->set = true;
    return sl_quantity_read(node, &field->range, &bound->most, error);
}

bool sl_field_read(const sl_reading *reading, const sl_field *field, const sl_node *node, void *record)
{
    void *const at = sl_field_at(field, record);
    switch (field->kind) {
    case SL_FIELD_PARAM:
        return sl_param_read(reading, node, &field->range, at);
    case SL_FIELD_NUMBER:
        return sl_quantity_read(node, &field->range, at, reading->error);
    case SL_FIELD_WHOLE:
        return sl_whole_read(node, (int)field->range.least, (int)field->range.most, at, reading->error);
    case SL_FIELD_YES:
        return yes_read(field, node, at, reading->error);
    case SL_FIELD_WORD:
        return word_read(field, node, at, reading->error);
    case SL_FIELD_TEXT:
        return sl_text_read(reading, node, field->text, field->most, at);
    case SL_FIELD_WORDING:
        return sl_wording_read(reading, node, field->text, field->most, at);
    case SL_FIELD_BOUND:
        return bound_read(field, node, at, reading->error);
    case SL_FIELD_NUMBERS:
    case SL_FIELD_RATES:
    case SL_FIELD_WITHIN:
    case SL_FIELD_LIST:
    case SL_FIELD_OWN:
        break;
    }
    assert(false); /* a row that is read has a reader, or a kind that says how */
    return false;
}

static bool rates_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping, bool whole,
                       void *record)
{
    for (int channel = 0; channel < SL_CHANNELS; channel++) {
        const char *const key = sl_channel_key(channel);
        const sl_node *const node = sl_node_child(mapping, key);
        if (!node && whole && (field->use & SL_REQUIRED) && sl_channel_required(channel)) {
            return sl_node_refuse_missing(mapping, key, field->wanted, reading->error);
        }
        if (node && !sl_rate_read(reading, node, channel, sl_field_at(field, record))) {
            return false;
        }
    }
    return true;
}

static bool refuse_lacking(const sl_reading *reading, const sl_field *field, const sl_node *mapping)
{
    sl_phrase list = {0};
    if (!field->wanted) {
        sl_phrase_nearest(&list, field->list, "");
    }
    return sl_node_refuse_missing(mapping, field->key, field->wanted ? field->wanted : list.text,
                                  reading->error);
}

static bool row_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                     const sl_node *node, bool whole, void *record)
{
    if (field->kind == SL_FIELD_RATES) {
        return rates_read(reading, field, mapping, whole, record);
    }
    if (!node && whole && (field->use & SL_REQUIRED)) {
        return refuse_lacking(reading, field, mapping);
    }
    if (field->read) {
        return field->read(reading, field, mapping, node, record);
    }
    /* A key without a reader is looked at by another row's. */
    return !node || field->kind == SL_FIELD_OWN || sl_field_read(reading, field, node, record);
}

/* ---- the whole ----------------------------------------------------------------------------- */

/* Whether a word stands among words parted by spaces. */
static bool stands_in(const char *words, const char *word)
{
    const size_t length = strlen(word);
    for (const char *at = strstr(words, word); at; at = strstr(at + 1, word)) {
        if ((at == words || at[-1] == ' ') && (at[length] == ' ' || at[length] == '\0')) {
            return true;
        }
    }
    return false;
}

/* Whether what could not be read leaves a row to be read. */
static bool reads_on(const sl_field *field, const sl_missed *missed)
{
    if (!field->read || (missed->n == 0 && !missed->unknown)) {
        return true;
    }
    for (int i = 0; field->needs && i < missed->n; i++) {
        if (stands_in(field->needs, missed->key[i])) {
            return false;
        }
    }
    return field->needs != NULL;
}

/* False where the reading ends. */
static bool row_or_on(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                      const sl_node *node, bool whole, void *record, sl_missed *missed)
{
    const bool lacks = !node && whole && missed->unknown && (field->use & SL_REQUIRED);
    if (!lacks && reads_on(field, missed) && row_read(reading, field, mapping, node, whole, record)) {
        return true;
    }
    if (!sl_pass_over(reading)) {
        return false;
    }
    missed->key[missed->n++] = field->key ? field->key : "";
    return true;
}

static bool section_read(const sl_reading *reading, const sl_node *section, const sl_rows *rows, bool whole,
                         void *record)
{
    const sl_node *found[SL_MOST_FIELDS] = {NULL};
    sl_missed missed = {.n = 0};
    if (!keys_find(reading, section, rows, found, &missed)) {
        return false;
    }
    for (int i = rows->from; i < rows->to; i++) {
        const sl_field *const field = &rows->record->field[i];
        if (!row_or_on(reading, field, section, found[i], whole, record, &missed)) {
            return false;
        }
    }
    return missed.n == 0 && !missed.unknown;
}

bool sl_fields_read(const sl_reading *reading, const sl_node *mapping, const sl_fields *fields,
                    const sl_words *head, bool whole, void *record)
{
    const sl_rows top = {.record = fields, .head = head, .to = fields->n};
    const sl_node *found[SL_MOST_FIELDS] = {NULL};
    sl_missed missed = {.n = 0};
    if (!keys_find(reading, mapping, &top, found, &missed)) {
        return false;
    }
    for (int i = 0; i < fields->n;) {
        const sl_field *const field = &fields->field[i];
        if (!field->section) {
            if (!row_or_on(reading, field, mapping, found[i], whole, record, &missed)) {
                return false;
            }
            i++;
            continue;
        }
        const sl_rows rows = {.record = fields, .from = i, .to = section_end(fields, i), .within = true};
        const bool lacks = !found[i] && whole && fields->lacks && (field->use & SL_REQUIRED);
        if (lacks) {
            sl_node_refuse_missing(mapping, field->section, fields->lacks, reading->error);
        }
        if (lacks || (found[i] && !section_read(reading, found[i], &rows, whole, record))) {
            if (!sl_pass_over(reading)) {
                return false;
            }
            missed.key[missed.n++] = field->section;
        }
        i = rows.to;
    }
    return missed.n == 0 && !missed.unknown;
}

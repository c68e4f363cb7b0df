/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * libyaml's events -> a tree of nodes. The parser is stopped at the first event that
 * these files may not hold, so a hostile file costs no more than its first bad line.
 */
#include "scene/yaml/node.h"

#include <assert.h>
#include <string.h>
#include <yaml.h>

#include "base/language.h"
#include "base/plain_text.h"

typedef struct sl_growing {
    yaml_parser_t parser;
    sl_arena *arena;
    const char *file;
    const char *text; /* the whole file, after a byte order mark; no NUL ends it */
    size_t length;
    size_t given; /* how much of it the parser has, when it is given piece by piece */
    int nodes;
    bool head_only, head_ended; /* before the first list or mapping */
    sl_error *error;
} sl_growing;

static const char building[] = "reading a file";

bool sl_node_refuse(const sl_node *node, sl_code code, const char *found, const char *wanted, sl_error *error)
{
    return sl_fail_at(error, code, node->file, node->line, node->column, found, wanted);
}

bool sl_node_refuse_key(const sl_node *node, sl_code code, const char *found, const char *wanted,
                        sl_error *error)
{
    assert(node->key);
    return sl_fail_at(error, code, node->file, node->key_line, node->key_column, found, wanted);
}

bool sl_node_refuse_missing(const sl_node *mapping, const char *key, const char *wanted, sl_error *error)
{
    sl_phrase found = {0};
    sl_phrase_quote(&found, key);
    return sl_node_refuse(mapping, SL_ERR_MISSING_KEY, found.text, wanted, error);
}

bool sl_node_refuse_text(const sl_node *node, sl_code code, const char *wanted, sl_error *error)
{
    sl_phrase found = {0};
    if (node->text && node->text[0] == '\0') {
        sl_phrase_add(&found, _("an empty value"));
    } else if (node->text) {
        sl_phrase_quote(&found, node->text);
    } else {
        sl_phrase_add(&found, node->kind == SL_NODE_LIST ? _("a list") : _("a mapping"));
    }
    return sl_node_refuse(node, code, found.text, wanted, error);
}

bool sl_node_is(const sl_node *node, sl_node_kind kind, const char *wanted, sl_error *error)
{
    return node->kind == kind || sl_node_refuse_text(node, SL_ERR_WRONG_TYPE, wanted, error);
}

const sl_node *sl_node_child(const sl_node *mapping, const char *key)
{
    assert(mapping->kind == SL_NODE_MAPPING);
    for (const sl_node *child = mapping->first; child; child = child->next) {
        if (sl_words_same(child->key, key)) {
            return child;
        }
    }
    return NULL;
}

bool sl_node_is_mapping(const sl_node *node, sl_error *error)
{
    return sl_node_is(node, SL_NODE_MAPPING, "keys with their values belong here, one \"key: value\" a line",
                      error);
}

bool sl_node_refuse_unknown(const sl_node *child, const sl_words *keys, sl_error *error)
{
    sl_phrase found = {0}, wanted = {0};
    sl_phrase_quote(&found, child->key);
    sl_phrase_nearest(&wanted, keys, child->key);
    return sl_node_refuse_key(child, SL_ERR_UNKNOWN_KEY, found.text, wanted.text, error);
}

bool sl_node_keys_known(const sl_node *mapping, const sl_words *keys, sl_error *error)
{
    if (!sl_node_is_mapping(mapping, error)) {
        return false;
    }
    for (const sl_node *child = mapping->first; child; child = child->next) {
        if (sl_words_find(keys, child->key) < 0) {
            return sl_node_refuse_unknown(child, keys, error);
        }
    }
    return true;
}

/* ---- from events to nodes --------------------------------------------------------- */

static bool refuse_at(const sl_growing *growing, yaml_mark_t mark, sl_code code, const char *found,
                      const char *wanted)
{
    return sl_fail_at(growing->error, code, growing->file, (int)mark.line + 1, (int)mark.column + 1, found,
                      wanted);
}

/* Whether a line of the text, counted from 0, holds a tab. */
static bool line_has_tab(const sl_growing *growing, size_t line)
{
    const char *at = growing->text;
    const char *const end = at + growing->length;
    for (size_t n = 0; at < end && n <= line; at++) {
        if (*at == '\t' && n == line) {
            return true;
        }
        const bool before_line_feed = *at == '\r' && at + 1 < end && at[1] == '\n';
        n += *at == '\n' || (*at == '\r' && !before_line_feed) ? 1 : 0;
    }
    return false;
}

/* libyaml's complaint as our own. Two causes are by far the commonest, and its words for them
 * ("cannot start any token") help nobody. */
static bool refuse_syntax(const sl_growing *growing)
{
    const yaml_parser_t *const parser = &growing->parser;
    if (parser->error == YAML_MEMORY_ERROR) {
        return sl_fail(growing->error, SL_ERR_NO_MEMORY, building, "");
    }
    const yaml_mark_t mark = parser->problem_mark;
    if (line_has_tab(growing, mark.line)) {
        return refuse_at(growing, mark, SL_ERR_SYNTAX, "a tab", "indent with spaces");
    }
    if (parser->problem && strstr(parser->problem, "mapping values are not allowed")) {
        return refuse_at(growing, mark, SL_ERR_SYNTAX, "a colon where no key ends",
                         "put a text that holds \": \" in quotation marks, or check the indentation");
    }
    sl_phrase found = {0}, wanted = {0};
    sl_phrase_add(&found, parser->problem ? parser->problem : _("the text"));
    sl_phrase_add(&wanted, _("look at this line and the one before it"));
    if (parser->context) {
        sl_phrase_add(&wanted, " (");
        sl_phrase_add(&wanted, parser->context);
        sl_phrase_add(&wanted, ")");
    }
    return refuse_at(growing, mark, SL_ERR_SYNTAX, found.text, wanted.text);
}

static bool next_event(sl_growing *growing, yaml_event_t *event)
{
    return yaml_parser_parse(&growing->parser, event) == 1 || refuse_syntax(growing);
}

static bool refuse_extras(const sl_growing *growing, const yaml_event_t *event, const yaml_char_t *anchor,
                          const yaml_char_t *tag)
{
    if (anchor) {
        return refuse_at(growing, event->start_mark, SL_ERR_NOT_ALLOWED, "an anchor (&)",
                         "write the value out, or put a text that begins with & in quotation marks");
    }
    if (tag) {
        return refuse_at(growing, event->start_mark, SL_ERR_NOT_ALLOWED, "a tag (!)",
                         "leave it out, or put a text that begins with ! in quotation marks");
    }
    return true;
}

static sl_node node_of(const sl_growing *growing, const yaml_event_t *event, sl_node_kind kind)
{
    return (sl_node){.kind = kind,
                     .file = growing->file,
                     .line = (int)event->start_mark.line + 1,
                     .column = (int)event->start_mark.column + 1};
}

static bool is_one_too_many(sl_growing *growing, const yaml_event_t *event)
{
    if (++growing->nodes <= SL_MAX_NODES) {
        return false;
    }
    sl_phrase wanted = {0};
    sl_phrase_integer(&wanted, SL_MAX_NODES);
    refuse_at(growing, event->start_mark, SL_ERR_TOO_LARGE, "this file holds too many values", wanted.text);
    return true;
}

static sl_node *kept(const sl_growing *growing, sl_node node)
{
    sl_node *const place = sl_arena_new(growing->arena, 1, sizeof *place, building, growing->error);
    if (place) {
        *place = node;
    }
    return place;
}

/* Escapes such as "\0" can bring in what has been kept out of the bytes. */
static bool text_is_clean(const sl_growing *growing, const yaml_event_t *event)
{
    const char *const text = (const char *)event->data.scalar.value;
    const size_t length = event->data.scalar.length;
    if (length > SL_MAX_TEXT) {
        sl_phrase wanted = {0};
        sl_phrase_integer(&wanted, SL_MAX_TEXT);
        sl_phrase_add(&wanted, _(" bytes"));
        return refuse_at(growing, event->start_mark, SL_ERR_TOO_LARGE, "this text is too long", wanted.text);
    }
    sl_error fault; /* filled where something is wrong */
    return sl_text_accept(text, length, SL_TEXT_FILE, &fault) ||
           refuse_at(growing, event->start_mark, fault.code, fault.found, fault.wanted);
}

static bool grow_text(sl_growing *growing, const yaml_event_t *event, sl_node *node)
{
    if (event->type == YAML_ALIAS_EVENT) {
        return refuse_at(growing, event->start_mark, SL_ERR_NOT_ALLOWED, "an alias (*)",
                         "write the value out, or put a text that begins with * in quotation marks");
    }
    if (!refuse_extras(growing, event, event->data.scalar.anchor, event->data.scalar.tag) ||
        !text_is_clean(growing, event) || is_one_too_many(growing, event)) {
        return false;
    }
    *node = node_of(growing, event, SL_NODE_TEXT);
    node->text = sl_arena_text(growing->arena, (const char *)event->data.scalar.value,
                               event->data.scalar.length, growing->error);
    return node->text != NULL;
}

static void append(sl_node *parent, sl_node *child)
{
    if (parent->last) {
        parent->last->next = child;
    } else {
        parent->first = child;
    }
    parent->last = child;
    parent->n++;
}

static sl_node *grow(sl_growing *growing, yaml_event_t *event, int depth);

/* The key has been read into `key`; what follows is its value. */
static bool grow_pair(sl_growing *growing, sl_node *mapping, const sl_node *key, int depth)
{
    const sl_node *const twin = sl_node_child(mapping, key->text);
    if (twin) {
        sl_phrase found = {0}, wanted = {0};
        sl_phrase_quote(&found, key->text);
        sl_phrase_add(&wanted, _("the first is in line "));
        sl_phrase_integer(&wanted, twin->key_line);
        return sl_node_refuse(key, SL_ERR_DUPLICATE_KEY, found.text, wanted.text, growing->error);
    }
    if (strcmp(key->text, "<<") == 0) {
        return sl_node_refuse(key, SL_ERR_NOT_ALLOWED, "a merge key (<<)",
                              "write the values out, or use \"like: NAME\" where the kind has it",
                              growing->error);
    }
    if (mapping->n >= SL_MAX_KEYS) {
        sl_phrase wanted = {0};
        sl_phrase_integer(&wanted, SL_MAX_KEYS);
        return sl_node_refuse(key, SL_ERR_TOO_LARGE, "this mapping holds too many keys", wanted.text,
                              growing->error);
    }
    yaml_event_t event;
    if (!next_event(growing, &event)) {
        return false;
    }
    if (growing->head_only && event.type != YAML_SCALAR_EVENT) {
        growing->head_ended = true;
        yaml_event_delete(&event);
        return true;
    }
    sl_node *const value = grow(growing, &event, depth);
    if (!value) {
        return false;
    }
    value->key = key->text;
    value->key_line = key->line;
    value->key_column = key->column;
    append(mapping, value);
    return true;
}

static bool grow_mapping(sl_growing *growing, sl_node *mapping, int depth)
{
    for (;;) {
        yaml_event_t event;
        if (!next_event(growing, &event)) {
            return false;
        }
        if (event.type == YAML_MAPPING_END_EVENT) {
            yaml_event_delete(&event);
            return true;
        }
        if (event.type != YAML_SCALAR_EVENT && event.type != YAML_ALIAS_EVENT) {
            refuse_at(growing, event.start_mark, SL_ERR_NOT_ALLOWED, "a list or mapping as a key",
                      "a key is one word");
            yaml_event_delete(&event);
            return false;
        }
        sl_node key = {0};
        const bool read = grow_text(growing, &event, &key);
        yaml_event_delete(&event);
        if (!read || !grow_pair(growing, mapping, &key, depth)) {
            return false;
        }
        if (growing->head_ended) {
            return true;
        }
    }
}

static bool grow_list(sl_growing *growing, sl_node *list, int depth)
{
    for (;;) {
        yaml_event_t event;
        if (!next_event(growing, &event)) {
            return false;
        }
        if (event.type == YAML_SEQUENCE_END_EVENT) {
            yaml_event_delete(&event);
            return true;
        }
        sl_node *const child = grow(growing, &event, depth);
        if (!child) {
            return false;
        }
        append(list, child);
    }
}

static bool grow_branch(sl_growing *growing, const yaml_event_t *event, int depth, sl_node *node)
{
    const bool is_list = event->type == YAML_SEQUENCE_START_EVENT;
    const yaml_char_t *const anchor =
        is_list ? event->data.sequence_start.anchor : event->data.mapping_start.anchor;
    const yaml_char_t *const tag = is_list ? event->data.sequence_start.tag : event->data.mapping_start.tag;
    if (!refuse_extras(growing, event, anchor, tag)) {
        return false;
    }
    if (depth >= SL_MAX_DEPTH) {
        sl_phrase wanted = {0};
        sl_phrase_integer(&wanted, SL_MAX_DEPTH);
        return refuse_at(growing, event->start_mark, SL_ERR_TOO_LARGE,
                         "lists and mappings stand too deep in each other", wanted.text);
    }
    *node = node_of(growing, event, is_list ? SL_NODE_LIST : SL_NODE_MAPPING);
    return !is_one_too_many(growing, event);
}

/* The value that begins with `event`, which is freed here. NULL with the error set. */
static sl_node *grow(sl_growing *growing, yaml_event_t *event, int depth)
{
    sl_node read = {0};
    const bool is_text = event->type == YAML_SCALAR_EVENT || event->type == YAML_ALIAS_EVENT;
    const bool good = is_text ? grow_text(growing, event, &read) : grow_branch(growing, event, depth, &read);
    yaml_event_delete(event);
    sl_node *const node = good ? kept(growing, read) : NULL;
    if (!node || node->kind == SL_NODE_TEXT) {
        return node;
    }
    const bool grown = node->kind == SL_NODE_LIST ? grow_list(growing, node, depth + 1)
                                                  : grow_mapping(growing, node, depth + 1);
    return grown ? node : NULL;
}

/* ---- the document ------------------------------------------------------------------- */

static bool begin_document(sl_growing *growing)
{
    yaml_event_t event;
    if (!next_event(growing, &event)) { /* the stream's own start */
        return false;
    }
    yaml_event_delete(&event);
    if (!next_event(growing, &event)) {
        return false;
    }
    bool good = true;
    if (event.type != YAML_DOCUMENT_START_EVENT) {
        good = sl_fail_at(growing->error, SL_ERR_SYNTAX, growing->file, 1, 1, "the file is empty",
                          "it begins with \"kind:\" and \"version:\"");
    } else if (event.data.document_start.version_directive ||
               event.data.document_start.tag_directives.start !=
                   event.data.document_start.tag_directives.end) {
        good = refuse_at(growing, event.start_mark, SL_ERR_NOT_ALLOWED, "a directive (%)", "leave it out");
    }
    yaml_event_delete(&event);
    return good;
}

static bool end_document(sl_growing *growing)
{
    yaml_event_t event;
    if (!next_event(growing, &event)) { /* the document's own end */
        return false;
    }
    yaml_event_delete(&event);
    if (!next_event(growing, &event)) {
        return false;
    }
    bool good = true;
    if (event.type != YAML_STREAM_END_EVENT) {
        good = refuse_at(growing, event.start_mark, SL_ERR_NOT_ALLOWED, "a second document (---)",
                         "put it in a file of its own");
    }
    yaml_event_delete(&event);
    return good;
}

static const sl_node *grow_document(sl_growing *growing)
{
    yaml_event_t event;
    if (!begin_document(growing) || !next_event(growing, &event)) {
        return NULL;
    }
    const sl_node *const root = grow(growing, &event, 0);
    return root && (growing->head_ended || end_document(growing)) ? root : NULL;
}

/* The next piece of the text. libyaml decodes all that it is given before it looks at any, and a head is
 * short. */
static int give_piece(void *self, unsigned char *piece, size_t room, size_t *given)
{
    enum { PIECE_BYTES = 512 };
    sl_growing *const growing = self;
    const size_t left = growing->length - growing->given;
    *given = left < PIECE_BYTES ? left : PIECE_BYTES;
    *given = *given < room ? *given : room;
    memcpy(piece, growing->text + growing->given, *given);
    growing->given += *given;
    return 1;
}

static bool parse(sl_yaml *document, sl_growing *growing)
{
    if (yaml_parser_initialize(&growing->parser) != 1) {
        return sl_fail(growing->error, SL_ERR_NO_MEMORY, building, "");
    }
    yaml_parser_set_encoding(&growing->parser, YAML_UTF8_ENCODING);
    if (growing->head_only) {
        yaml_parser_set_input(&growing->parser, give_piece, growing);
    } else {
        yaml_parser_set_input_string(&growing->parser, (const unsigned char *)growing->text, growing->length);
    }
    document->root = grow_document(growing);
    yaml_parser_delete(&growing->parser);
    return document->root != NULL;
}

static bool parse_file(sl_yaml *document, const char *text, size_t length, const char *file, bool head_only,
                       sl_error *error)
{
    if (!sl_file_fits((long long)length, SL_YAML_MOST, file, error)) {
        return false;
    }
    if (length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) { /* a byte order mark is harmless */
        text += 3;
        length -= 3;
    }
    sl_error fault = {.code = SL_OK};
    if (!sl_text_accept(text, length, SL_TEXT_FILE, &fault)) {
        return sl_fail_at(error, fault.code, file, fault.line, fault.column, fault.found, fault.wanted);
    }
    sl_growing growing = {
        .arena = &document->arena, .text = text, .length = length, .head_only = head_only, .error = error};
    growing.file = sl_arena_text(&document->arena, file, strlen(file), error);
    if (!growing.file || !parse(document, &growing)) {
        sl_yaml_free(document);
        return false;
    }
    return true;
}

bool sl_yaml_parse(sl_yaml *document, const char *text, size_t length, const char *file, sl_error *error)
{
    return parse_file(document, text, length, file, false, error);
}

bool sl_yaml_head(sl_yaml *document, const char *text, size_t length, const char *file, sl_error *error)
{
    return parse_file(document, text, length, file, true, error);
}

void sl_yaml_free(sl_yaml *document)
{
    sl_arena_free(&document->arena);
    document->root = NULL;
}

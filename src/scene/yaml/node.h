/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A file as a tree of texts, lists and mappings, each knowing where it stands. Every
 * scalar is text; what it means is decided by the key it stands under.
 *
 * Invariant: a tree holds only what these files may hold: no anchor, alias, tag, merge
 * key, directive or second document, no key twice in a mapping, no control character.
 */
#ifndef SLOWLIFT_SCENE_NODE_H
#define SLOWLIFT_SCENE_NODE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/memory.h"
#include "base/plain_file.h"
#include "scene/yaml/phrase.h"
#include "slowlift/error.h"

enum {
    SL_MAX_FILE_BYTES = 1024 * 1024,
    SL_MAX_DEPTH = 16, /* mappings and lists inside each other */
    SL_MAX_NODES = 20000,
    SL_MAX_KEYS = 256, /* in one mapping */
    SL_MAX_TEXT = 2000 /* bytes of one text */
};

static const sl_file_most SL_YAML_MOST = {SL_MAX_FILE_BYTES, "1 MiB"};

typedef enum sl_node_kind { SL_NODE_TEXT, SL_NODE_LIST, SL_NODE_MAPPING } sl_node_kind;

typedef struct sl_node {
    sl_node_kind kind;
    const char *file; /* as messages name it */
    int line, column; /* 1-based, column in characters */
    const char *text; /* SL_NODE_TEXT: NUL-terminated UTF-8; else NULL */
    const char *key;  /* in a mapping: the key; else NULL */
    int key_line, key_column;
    struct sl_node *first, *last; /* list, mapping: its children in the order of the file */
    struct sl_node *next;         /* the next child of the same parent */
    int n;                        /* number of children */
} sl_node;

typedef struct sl_yaml {
    sl_arena arena; /* start with {0} */
    const sl_node *root;
} sl_yaml;

/* Check and parse text; `file` stands in messages. On failure nothing is kept. */
bool sl_yaml_parse(sl_yaml *document, const char *text, size_t length, const char *file, sl_error *error);
/* The same of a file's head alone: its keys before the first that holds a list or a mapping. What follows may
 * hold anything. */
bool sl_yaml_head(sl_yaml *document, const char *text, size_t length, const char *file, sl_error *error);
void sl_yaml_free(sl_yaml *document);

/* The child under `key`, or NULL. */
const sl_node *sl_node_child(const sl_node *mapping, const char *key);

/* Refuse what stands at the node, at its key, or (for a missing key) where its mapping
 * begins. All return false. */
bool sl_node_refuse(const sl_node *node, sl_code code, const char *found, const char *wanted,
                    sl_error *error);
bool sl_node_refuse_key(const sl_node *node, sl_code code, const char *found, const char *wanted,
                        sl_error *error);
bool sl_node_refuse_missing(const sl_node *mapping, const char *key, const char *wanted, sl_error *error);
/* Refuse the node's text as `code`, quoting it. */
bool sl_node_refuse_text(const sl_node *node, sl_code code, const char *wanted, sl_error *error);

/* The node must be of this kind; `wanted` says what should stand there. */
bool sl_node_is(const sl_node *node, sl_node_kind kind, const char *wanted, sl_error *error);
bool sl_node_is_mapping(const sl_node *node, sl_error *error);
/* Refuse a child whose key is none of these. */
bool sl_node_refuse_unknown(const sl_node *child, const sl_words *keys, sl_error *error);
/* The node must be a mapping with no other keys than these. */
bool sl_node_keys_known(const sl_node *mapping, const sl_words *keys, sl_error *error);

#endif

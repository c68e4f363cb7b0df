/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files that name each other. A record (chemistry, hair, dyes, mix, chart) is read from its file;
 * "like: NAME" first reads the named file of the same kind into the record, and then what
 * the file itself says on top.
 *
 * Invariants: a file that is being read is never entered again (that is a cycle); a library holds a file of
 * one kind and name once, parsed, and whole.
 */
#ifndef SLOWLIFT_SCENE_LIBRARY_H
#define SLOWLIFT_SCENE_LIBRARY_H

#include "scene/yaml/value.h"
#include "scene/yaml/wording.h"

/* The files that are being read, newest first. */
typedef struct sl_chain {
    sl_file_kind kind;
    const char *name;
    const struct sl_chain *older;
} sl_chain;

/* The files that were found so far, parsed. */
typedef struct sl_library {
    struct sl_shelved *newest; /* NULL when empty; start with {0} */
} sl_library;

void sl_library_clear(sl_library *library);
/* The tree of the file that was found at this path, or NULL. */
const sl_node *sl_library_parsed(const sl_library *library, const char *path);

/* What every file says of itself. */
typedef struct sl_header {
    sl_file_kind kind;
    sl_wording title;    /* kept */
    const char *origin;  /* kept */
    const sl_node *like; /* or NULL; a node of the file's tree */
} sl_header;

/* The keys of that, for files that may be like another, and for those that stand on their own. */
extern const sl_words sl_head_keys, sl_own_head_keys;

bool sl_header_read(const sl_reading *reading, const sl_node *root, sl_header *header);
/* As above, and the file must be of this kind. */
bool sl_header_expect(const sl_reading *reading, const sl_node *root, sl_file_kind kind, sl_header *header);

/* Reads what a file says itself into `record`. `complete`: nothing was there before, so
 * what is required must be present. Files that this one refers to are read with `chain`. */
typedef bool sl_record_reader(const sl_reading *reading, const sl_chain *chain, const sl_node *root,
                              bool complete, void *record);

/* The file named by the text of node `reference`, into `record`; its title is kept in
 * *title. chain: the files on the way to here, or NULL. */
bool sl_library_read(const sl_reading *reading, sl_file_kind kind, const sl_node *reference, const char *name,
                     const sl_chain *chain, sl_record_reader *reader, void *record, sl_wording *title);
/* The same from a tree that is already there and stands first in `chain`. */
bool sl_library_read_root(const sl_reading *reading, const sl_chain *chain, const sl_node *root,
                          sl_record_reader *reader, void *record, sl_wording *title);

#endif

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * References between files. The caller's resolver finds them; a cycle is found by name
 * before the file is opened again.
 */
#include "scene/library.h"

#include <assert.h>
#include <string.h>

#include "base/language.h"

enum { SL_MAX_CHAIN = 16 };

static const char *const head_keys[] = {"kind", "version", "title", "origin", "like"};
const sl_words sl_head_keys = {head_keys, 5};
const sl_words sl_own_head_keys = {head_keys, 4};

static bool version_read(const sl_reading *reading, const sl_node *node)
{
    int version = 0;
    if (!sl_whole_read(node, 1, 999, &version, reading->error)) {
        return false;
    }
    if (version > SL_FORMAT_VERSION) {
        sl_phrase wanted = {0};
        sl_phrase_add(&wanted, _("this program reads version "));
        sl_phrase_integer(&wanted, SL_FORMAT_VERSION);
        sl_phrase_add(&wanted, _("; use a newer slowlift for this file"));
        return sl_node_refuse_text(node, SL_ERR_NEWER_VERSION, wanted.text, reading->error);
    }
    return true;
}

bool sl_header_read(const sl_reading *reading, const sl_node *root, sl_header *header)
{
    if (!sl_node_is(root, SL_NODE_MAPPING, "a file holds keys with their values, beginning with \"kind:\"",
                    reading->error)) {
        return false;
    }
    const sl_node *const kind = sl_node_child(root, "kind");
    const sl_node *const version = sl_node_child(root, "version");
    const sl_node *const title = sl_node_child(root, "title");
    const sl_node *const origin = sl_node_child(root, "origin");
    int index = 0;
    if (!kind) {
        sl_phrase wanted = {0};
        sl_phrase_nearest(&wanted, &sl_kind_words, "");
        return sl_node_refuse_missing(root, "kind", wanted.text, reading->error);
    }
    if (!sl_word_read(kind, &sl_kind_words, &index, reading->error)) {
        return false;
    }
    if (!version) {
        return sl_node_refuse_missing(root, "version", "write \"version: 1\"", reading->error);
    }
    if (!version_read(reading, version)) {
        return false;
    }
    if (!title) {
        return sl_node_refuse_missing(root, "title", "one line that says what this is", reading->error);
    }
    if (!origin) {
        return sl_node_refuse_missing(
            root, "origin", "say where this comes from, such as \"our own invention\"", reading->error);
    }
    header->kind = (sl_file_kind)index;
    header->like = sl_node_child(root, "like");
    return sl_wording_read(reading, title, SL_TEXT_LINE, 200, &header->title) &&
           sl_text_read(reading, origin, SL_TEXT_LINES, SL_MAX_TEXT, &header->origin);
}

bool sl_header_expect(const sl_reading *reading, const sl_node *root, sl_file_kind kind, sl_header *header)
{
    if (!sl_header_read(reading, root, header)) {
        return false;
    }
    if (header->kind == kind) {
        return true;
    }
    sl_phrase wanted = {0};
    sl_phrase_add(&wanted, _("wanted here is "));
    sl_phrase_add(&wanted, sl_kind_words.word[kind]);
    return sl_node_refuse_text(sl_node_child(root, "kind"), SL_ERR_WRONG_KIND, wanted.text, reading->error);
}

bool sl_library_read_root(const sl_reading *reading, const sl_chain *chain, const sl_node *root,
                          sl_record_reader *reader, void *record, sl_wording *title)
{
    sl_header header = {0};
    sl_wording base_title = {{NULL}};
    if (!sl_header_expect(reading, root, chain->kind, &header)) {
        return false;
    }
    if (header.like) {
        if (!sl_node_is(header.like, SL_NODE_TEXT, "the name of a file of this kind belongs here",
                        reading->error) ||
            !sl_library_read(reading, chain->kind, header.like, header.like->text, chain, reader, record,
                             &base_title)) {
            return false;
        }
    }
    if (!reader(reading, chain, root, header.like == NULL, record)) {
        return false;
    }
    *title = header.title;
    return true;
}

/* Not found, or found and not readable: the sentence names the place of the reference
 * unless the resolver has named a file of its own. */
static bool refuse_fetch(const sl_reading *reading, const sl_node *reference, const char *name)
{
    sl_error *const error = reading->error;
    if (error->code == SL_OK || (error->code == SL_ERR_MISSING_REFERENCE && error->file[0] == '\0')) {
        sl_phrase found = {0}, wanted = {0};
        sl_phrase_quote(&found, name);
        sl_phrase_add(&wanted, error->code == SL_OK ? _("check the spelling") : error->wanted);
        return sl_node_refuse(reference, SL_ERR_MISSING_REFERENCE, found.text, wanted.text, error);
    }
    return false;
}

static bool refuse_cycle(const sl_reading *reading, const sl_node *reference, const char *name)
{
    sl_phrase found = {0};
    sl_phrase_quote(&found, name);
    return sl_node_refuse(reference, SL_ERR_CYCLE, found.text,
                          "one of the files on the way must stand on its own", reading->error);
}

static bool chain_allows(const sl_reading *reading, sl_file_kind kind, const sl_node *reference,
                         const char *name, const sl_chain *chain)
{
    int length = 0;
    for (const sl_chain *link = chain; link; link = link->older) {
        length++;
        if (link->kind == kind && link->name && strcmp(link->name, name) == 0) {
            return refuse_cycle(reading, reference, name);
        }
    }
    if (length >= SL_MAX_CHAIN) {
        return sl_node_refuse(reference, SL_ERR_TOO_LARGE, "too many files lean on each other", "16",
                              reading->error);
    }
    return true;
}

/* ---- the files that were found ------------------------------------------------------------------------- */

typedef struct sl_shelved {
    sl_file_kind kind;
    const char *name; /* in the document's arena */
    sl_yaml document;
    struct sl_shelved *older;
} sl_shelved;

sl_library *sl_library_new(sl_error *error)
{
    return sl_new(1, sizeof(sl_library), "reading the model files", error);
}

void sl_library_free(sl_library *library)
{
    if (library) {
        sl_library_clear(library);
        sl_free(library);
    }
}

void sl_library_clear(sl_library *library)
{
    while (library->newest) {
        sl_shelved *const file = library->newest;
        library->newest = file->older;
        sl_yaml_free(&file->document);
        sl_free(file);
    }
}

static const sl_node *shelved(const sl_library *library, sl_file_kind kind, const char *name)
{
    for (const sl_shelved *file = library->newest; file; file = file->older) {
        if (file->kind == kind && strcmp(file->name, name) == 0) {
            return file->document.root;
        }
    }
    return NULL;
}

const sl_node *sl_library_parsed(const sl_library *library, const char *path)
{
    for (const sl_shelved *file = library->newest; file; file = file->older) {
        if (strcmp(file->document.root->file, path) == 0) {
            return file->document.root;
        }
    }
    return NULL;
}

/* Fetched by the resolver, and parsed into `document`. */
static bool fetch(const sl_reading *reading, sl_file_kind kind, const sl_node *reference, const char *name,
                  sl_yaml *document)
{
    char *text = NULL;
    size_t length = 0;
    char path[SL_ERROR_FILE_SIZE] = "";
    const sl_resolver *const resolver = reading->resolver;
    sl_error_clear(reading->error);
    if (!resolver || !resolver->fetch(resolver->self, sl_kind_words.word[kind], name, &text, &length, path,
                                      sizeof path, reading->error)) {
        return refuse_fetch(reading, reference, name);
    }
    const bool parsed = sl_yaml_parse(document, text, length, path, reading->error);
    resolver->release(resolver->self, text);
    return parsed;
}

/* The tree of the file, put on the shelf when it is the first time. NULL with the error set. */
static const sl_node *find(const sl_reading *reading, sl_file_kind kind, const sl_node *reference,
                           const char *name)
{
    const sl_node *const root = shelved(reading->library, kind, name);
    if (root) {
        return root;
    }
    sl_shelved *const file = sl_new(1, sizeof *file, "reading the model files", reading->error);
    if (!file) {
        return NULL;
    }
    file->kind = kind;
    file->name = fetch(reading, kind, reference, name, &file->document)
                     ? sl_arena_text(&file->document.arena, name, strlen(name), reading->error)
                     : NULL;
    if (!file->name) {
        sl_yaml_free(&file->document);
        sl_free(file);
        return NULL;
    }
    file->older = reading->library->newest;
    reading->library->newest = file;
    return file->document.root;
}

bool sl_library_read(const sl_reading *reading, sl_file_kind kind, const sl_node *reference, const char *name,
                     const sl_chain *chain, sl_record_reader *reader, void *record, sl_wording *title)
{
    if (!sl_name_check(reference, name, reading->error) ||
        !chain_allows(reading, kind, reference, name, chain)) {
        return false;
    }
    const sl_node *const root = find(reading, kind, reference, name);
    if (!root) {
        return false;
    }
    const sl_chain link = {.kind = kind, .name = name, .older = chain};
    return sl_library_read_root(reading, &link, root, reader, record, title);
}

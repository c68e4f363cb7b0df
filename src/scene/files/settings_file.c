/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The file of kind settings: what somebody settled once and for all.
 */
#include <string.h>

#include "base/language.h"
#include "scene/records.h"
#include "scene/yaml/file.h"

/* From the root or from ~/ on: the file is read wherever the program is started. */
static bool folder_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                        const sl_node *node, void *record)
{
    sl_settled *const settled = record;
    (void)field;
    (void)mapping;
    if (!node) {
        return true;
    }
    if (!sl_node_is(node, SL_NODE_TEXT, "a folder belongs here, such as ~/tests", reading->error)) {
        return false;
    }
    const size_t length = strlen(node->text);
    if (length >= SL_SETTLED_PATH || (node->text[0] != '/' && strncmp(node->text, "~/", 2) != 0)) {
        return sl_node_refuse_text(node, SL_ERR_INCONSISTENT, "the whole path of a folder, such as ~/tests",
                                   reading->error);
    }
    memcpy(settled->tests, node->text, length + 1);
    return true;
}

static const sl_field fields[] = {
    SL_FIELD(sl_settled, tests, .key = "tests", .read = folder_read),
    SL_FIELD(sl_settled, keep_months, .key = "keep_months", .range = {SL_MEASURE_NUMBER, 1.0, 1200.0}),
};
const sl_fields sl_settled_fields = SL_FIELDS(sl_settled, fields, .of = NULL);

bool sl_settled_read(const sl_reading *reading, const sl_node *root, sl_settled *settled)
{
    sl_header header = {0};
    *settled = (sl_settled){.keep_months = 0};
    return sl_header_expect(reading, root, SL_KIND_SETTINGS, &header) &&
           sl_fields_read(reading, root, &sl_settled_fields, &sl_own_head_keys, true, settled);
}

bool sl_settled_load(const char *path, sl_settled *settled, bool *absent, sl_error *error)
{
    sl_error unheard = {.code = SL_OK};
    sl_arena kept = {0};
    const sl_reading reading = {.kept = &kept, .resolver = NULL, .error = error ? error : &unheard};
    sl_yaml document = {0};
    sl_settled read;
    char *text = NULL;
    size_t length = 0;
    *absent = false;
    bool good = sl_file_read(path, N_("the settings that are read"), &text, &length, absent, reading.error) &&
                sl_yaml_parse(&document, text, length, path, reading.error);
    if (good) {
        good = sl_settled_read(&reading, document.root, &read);
        sl_yaml_free(&document);
    }
    sl_free(text);
    sl_arena_free(&kept);
    if (good) {
        *settled = read;
    }
    if (*absent) {
        sl_error_clear(reading.error);
        *settled = (sl_settled){.keep_months = 0};
    }
    return good || *absent;
}

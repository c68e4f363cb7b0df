/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind prices: what a shelf costs. Prices are plain numbers in one currency.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "scene/records.h"
#include "scene/yaml/file.h"

/* "EUR": ISO 4217, alphabetic code. */
static bool currency_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                          const sl_node *node, void *record)
{
    sl_prices *const prices = record;
    (void)field;
    (void)mapping;
    if (!sl_node_is(node, SL_NODE_TEXT, "a currency's code belongs here, such as EUR", reading->error)) {
        return false;
    }
    if (strlen(node->text) != 3 || strspn(node->text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != 3) {
        return sl_node_refuse_text(node, SL_ERR_UNKNOWN_WORD,
                                   "a code of three letters (ISO 4217), such as EUR or MXN", reading->error);
    }
    memcpy(prices->currency, node->text, SL_CURRENCY);
    return true;
}

#define MONEY SL_MEASURE_NUMBER, 0.0, 1e6
#define OF_PACK(pack, place, word, what, ...)                                                                \
    SL_FIELD(sl_prices, place, .section = (pack), .key = (word), .use = SL_REQUIRED, .wanted = (what),       \
             .range = {__VA_ARGS__})
#define PACK(pack, grams, price)                                                                             \
    OF_PACK(pack, grams, "holds", N_("what it holds and costs"), SL_MEASURE_MASS, 0.1, 1e5),                 \
        OF_PACK(pack, price, "price", N_("what it holds and costs"), MONEY)

static const sl_field fields[] = {
    SL_FIELD(sl_prices, title, .use = 0),
    SL_FIELD(sl_prices, currency, .key = "currency", .use = SL_REQUIRED,
             .wanted = N_("its code, such as EUR"), .read = currency_read),
    PACK("packet", packet_g, packet_price),
    PACK("tub", tub_g, tub_price),
    OF_PACK("tub", tub_weeks, "serves_weeks", N_("how many weeks it serves once opened: your own guess"),
            SL_MEASURE_NUMBER, 0.1, 520.0),
    PACK("developer", developer_g, developer_price),
    SL_FIELD(sl_prices, other_price, .key = "other", .range = {MONEY}),
};
const sl_fields sl_prices_fields =
    SL_FIELDS(sl_prices, fields, .form = N_("write {holds: 25 g, price: 3.20}"));
#undef MONEY
#undef OF_PACK
#undef PACK

bool sl_prices_read(const sl_reading *reading, const sl_node *root, sl_prices *prices)
{
    sl_header header = {0};
    *prices = (sl_prices){.currency = ""};
    if (!sl_header_expect(reading, root, SL_KIND_PRICES, &header)) {
        return false;
    }
    for (int i = 0; i < SL_LANGUAGES; i++) {
        snprintf(prices->title[i], SL_PRICES_TITLE, "%s", header.title.in[i] ? header.title.in[i] : "");
    }
    return sl_fields_read(reading, root, &sl_prices_fields, &sl_own_head_keys, true, prices);
}

bool sl_prices_load(const char *path, sl_prices *prices, sl_error *error)
{
    sl_error unheard = {.code = SL_OK};
    sl_arena kept = {0};
    const sl_reading reading = {.kept = &kept, .resolver = NULL, .error = error ? error : &unheard};
    sl_yaml document = {0};
    sl_prices read;
    char *text = NULL;
    size_t length = 0;
    sl_error_clear(reading.error);
    bool good =
        sl_file_read(path, N_("the file of prices that is read"), &text, &length, NULL, reading.error) &&
        sl_yaml_parse(&document, text, length, path, reading.error);
    if (good) {
        good = sl_prices_read(&reading, document.root, &read);
        sl_yaml_free(&document);
    }
    sl_free(text);
    sl_arena_free(&kept);
    if (good) {
        *prices = read;
    }
    return good;
}

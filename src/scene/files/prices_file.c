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

/* ---- products ---------------------------------------------------------------------------- */

/* A copy of a text with room for `size` bytes. */
static bool put_text(const sl_node *node, const char *wanted, char *into, size_t size, sl_error *error)
{
    if (!sl_node_is(node, SL_NODE_TEXT, wanted, error)) {
        return false;
    }
    if (node->text[0] == '\0' || strlen(node->text) >= size) {
        return sl_node_refuse_text(node, SL_ERR_OUT_OF_RANGE, wanted, error);
    }
    memcpy(into, node->text, strlen(node->text) + 1);
    return true;
}

static bool product_name_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                              const sl_node *node, void *record)
{
    (void)field;
    (void)mapping;
    return put_text(node, N_("your own word for it, of up to 40 bytes"), ((sl_product *)record)->name,
                    SL_PRODUCT_NAME, reading->error);
}

static bool product_mixes_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                               const sl_node *node, void *record)
{
    static const char wanted[] = N_("a list of mixes belongs here, such as [powder-3, powder-6]");
    sl_product *const product = record;
    (void)field;
    (void)mapping;
    if (!sl_node_is(node, SL_NODE_LIST, wanted, reading->error)) {
        return false;
    }
    if (node->n < 1 || node->n > SL_PRODUCT_MIXES) {
        return sl_node_refuse_key(node, SL_ERR_OUT_OF_RANGE, "the number of mixes", "1 to 8 belong here",
                                  reading->error);
    }
    for (const sl_node *one = node->first; one; one = one->next) {
        if (!put_text(one, wanted, product->mix[product->n_mixes], SL_MIX_NAME, reading->error) ||
            !sl_name_check(one, one->text, reading->error)) {
            return false;
        }
        for (int i = 0; i < product->n_mixes; i++) {
            if (strcmp(product->mix[i], one->text) == 0) {
                return sl_node_refuse_text(one, SL_ERR_INCONSISTENT, "name each mix once", reading->error);
            }
        }
        product->n_mixes++;
    }
    return true;
}

static const char *const part_words[] = {"powder", "liquid"};
static const sl_words parts = {part_words, 2};
static const sl_field product_fields[] = {
    SL_FIELD(sl_product, name, .key = "name", .use = SL_REQUIRED, .wanted = N_("your own word for it"),
             .read = product_name_read),
    SL_FIELD(sl_product, liquid, .key = "part", .use = SL_REQUIRED, .wanted = N_("powder or liquid"),
             .list = &parts),
    SL_FIELD(sl_product, n_mixes, .use = 0),
    SL_FIELD(sl_product, mix, .key = "mixes", .use = SL_REQUIRED, .wanted = N_("the mixes that it is for"),
             .read = product_mixes_read),
    SL_FIELD(sl_product, holds_g, .key = "holds", .use = SL_REQUIRED, .wanted = N_("what it holds and costs"),
             .range = {SL_MEASURE_MASS, 0.1, 1e5}),
    SL_FIELD(sl_product, price, .key = "price", .use = SL_REQUIRED, .wanted = N_("what it holds and costs"),
             .range = {MONEY}),
    SL_FIELD(sl_product, once, .key = "once"),
    SL_FIELD(sl_product, have, .key = "have", .range = {SL_MEASURE_NUMBER, 0.0, 1000.0}),
    SL_FIELD(sl_product, open_g, .key = "open", .range = {SL_MEASURE_MASS, 0.0, 1e5}),
};
const sl_fields sl_product_fields = SL_FIELDS(sl_product, product_fields, .of = NULL);

/* A mix has one powder and one liquid. */
static bool products_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                          const sl_node *node, void *record)
{
    sl_prices *const prices = record;
    (void)field;
    (void)mapping;
    if (!node) {
        return true;
    }
    if (!sl_node_is(node, SL_NODE_LIST, N_("a list of products belongs here"), reading->error)) {
        return false;
    }
    if (node->n > SL_MOST_PRODUCTS) {
        return sl_node_refuse_key(node, SL_ERR_TOO_LARGE, "the number of products", "16 at most",
                                  reading->error);
    }
    for (const sl_node *one = node->first; one; one = one->next) {
        sl_product product = {.n_mixes = 0};
        if (!sl_fields_read(reading, one, &sl_product_fields, NULL, true, &product)) {
            return false;
        }
        for (int i = 0; i < product.n_mixes; i++) {
            if (sl_product_of(prices, product.mix[i], product.liquid)) {
                return sl_node_refuse_key(sl_node_child(one, "mixes"), SL_ERR_INCONSISTENT,
                                          "a mix whose powder or liquid is a product above already",
                                          "a mix has one powder and one liquid", reading->error);
            }
        }
        prices->products[prices->n_products++] = product;
    }
    return true;
}

/* ---- the file ---------------------------------------------------------------------------- */

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
    SL_FIELD(sl_prices, n_products, .use = 0),
    SL_FIELD_LIST(sl_prices, products, n_products, sl_product_fields, .key = "products",
                  .read = products_read),
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

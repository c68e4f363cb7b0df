/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind prices: what a shelf costs. Prices are plain numbers in one currency.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "scene/records.h"
#include "scene/yaml/file.h"

static const sl_range money = {SL_MEASURE_NUMBER, 0.0, 1e6};
static const sl_range mass = {SL_MEASURE_MASS, 0.1, 1e5};
static const sl_range weeks = {SL_MEASURE_NUMBER, 0.1, 520.0};

/* "EUR": ISO 4217, alphabetic code. */
static bool currency_read(const sl_node *node, char currency[SL_CURRENCY], sl_error *error)
{
    if (!sl_node_is(node, SL_NODE_TEXT, "a currency's code belongs here, such as EUR", error)) {
        return false;
    }
    if (strlen(node->text) != 3 || strspn(node->text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != 3) {
        return sl_node_refuse_text(node, SL_ERR_UNKNOWN_WORD,
                                   "a code of three letters (ISO 4217), such as EUR or MXN", error);
    }
    memcpy(currency, node->text, SL_CURRENCY);
    return true;
}

typedef struct sl_price_pack {
    double *grams, *price, *weeks; /* weeks NULL: it does not age */
} sl_price_pack;

static bool pack_read(const sl_node *root, const char *key, const sl_price_pack *pack, sl_error *error)
{
    static const char *const keys[] = {"holds", "price", "serves_weeks"};
    const sl_words known = {keys, pack->weeks ? 3 : 2};
    const sl_node *const node = sl_node_child(root, key);
    if (!node) {
        return true;
    }
    if (!sl_node_is(node, SL_NODE_MAPPING, "write {holds: 25 g, price: 3.20}", error) ||
        !sl_node_keys_known(node, &known, error)) {
        return false;
    }
    for (int i = 0; i < known.n; i++) {
        if (!sl_node_child(node, keys[i])) {
            return sl_node_refuse_missing(node, keys[i],
                                          i == 2 ? "how many weeks it serves once opened: your own guess"
                                                 : "what it holds and costs",
                                          error);
        }
    }
    return sl_quantity_read(sl_node_child(node, "holds"), &mass, pack->grams, error) &&
           sl_quantity_read(sl_node_child(node, "price"), &money, pack->price, error) &&
           (!pack->weeks ||
            sl_quantity_read(sl_node_child(node, "serves_weeks"), &weeks, pack->weeks, error));
}

bool sl_prices_read(const sl_reading *reading, const sl_node *root, sl_prices *prices)
{
    static const char *const keys[] = {"kind",   "version", "title",     "origin", "currency",
                                       "packet", "tub",     "developer", "other"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    sl_header header = {0};
    *prices = (sl_prices){.currency = ""};
    if (!sl_header_expect(reading, root, SL_KIND_PRICES, &header) ||
        !sl_node_keys_known(root, &known, reading->error)) {
        return false;
    }
    snprintf(prices->title, sizeof prices->title, "%s", header.title);
    const sl_node *const currency = sl_node_child(root, "currency");
    const sl_node *const other = sl_node_child(root, "other");
    const sl_price_pack packet = {&prices->packet_g, &prices->packet_price, NULL};
    const sl_price_pack tub = {&prices->tub_g, &prices->tub_price, &prices->tub_weeks};
    const sl_price_pack bottle = {&prices->developer_g, &prices->developer_price, NULL};
    if (!currency) {
        return sl_node_refuse_missing(root, "currency", "its code, such as EUR", reading->error);
    }
    return currency_read(currency, prices->currency, reading->error) &&
           pack_read(root, "packet", &packet, reading->error) &&
           pack_read(root, "tub", &tub, reading->error) &&
           pack_read(root, "developer", &bottle, reading->error) &&
           (!other || sl_quantity_read(other, &money, &prices->other_price, reading->error));
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

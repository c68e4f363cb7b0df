/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Money as the user's locale writes numbers, with the file's own currency beside it.
 */
#include "report/plan/cost.h"
#include "document/say.h"

#include <locale.h>
#include <math.h>
#include <string.h>

#include "base/language.h"
#include "document/text.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

/* On which the cautions of each are owed. */
static unsigned cost_occasions(const sl_cost_page *page)
{
    return SL_ON_KEEPING | (page->n_ages > 0 ? SL_ON_OUTCOME : 0U);
}

static unsigned mixing_occasions(const sl_mixing_page *page)
{
    const bool unlabelled = !page->mix->label_allows && page->mix->class_ != SL_MIX_WATER;
    return SL_ON_MIXING | (unlabelled ? SL_ON_UNLABELLED : 0U);
}

/* "EUR 12.40", with the point that LC_MONETARY uses. */
static void put_money(const sl_prices *prices, double amount, char *text, size_t size)
{
    const struct lconv *const locale = localeconv();
    const char *const point = locale->mon_decimal_point[0] != '\0' ? locale->mon_decimal_point : ".";
    const long cents = lround(100.0 * amount);
    snprintf(text, size, "%s %ld%s%02ld", prices->currency, cents / 100, point, cents % 100);
}

static void say_way(sl_document *document, const sl_prices *prices, const char *way, double powder,
                    const sl_cost *cost, double all)
{
    const double amount[] = {powder, cost->developer_cost, cost->other_cost, all};
    char money[32];
    sl_document_cell(document, "%s", way);
    for (int i = 0; i < 4; i++) {
        put_money(prices, amount[i], money, sizeof money);
        sl_document_cell(document, "%s", money);
    }
}

static void say_tub(sl_document *document, const sl_cost_page *page, const sl_cost_line *line)
{
    const sl_cost *const cost = &line->cost;
    char left[24], rate[24];
    sl_short_number(cost->tub_left_g, 0, left, sizeof left);
    sl_short_number(line->use.per_week, 1, rate, sizeof rate);
    sl_document_say(document,
                    _("At %s uses a week a tub gives %d real uses before it is empty or %.0f weeks old, and "
                      "%s g of it are thrown away."),
                    rate, cost->tub_uses, page->prices->tub_weeks, left);
    if (cost->has_packets && cost->break_even == 0) {
        sl_document_say(document, "%s", _("Packets stay cheaper however many uses a tub gives."));
    } else if (cost->has_packets) {
        sl_document_say(document, _("From %d real uses on, a tub is cheaper than packets; here it gives %d."),
                        cost->break_even, cost->tub_uses);
    }
}

static void say_line(sl_document *document, const sl_cost_page *page, const sl_cost_line *line)
{
    static const sl_text_column columns[] = {{"", 2.0, SL_OWN},
                                             {N_("powder"), 1.0, SL_RIGHT},
                                             {N_("developer"), 1.0, SL_RIGHT},
                                             {N_("the rest"), 1.0, SL_RIGHT},
                                             {N_("in all"), 1.0, SL_RIGHT}};
    const sl_cost *const cost = &line->cost;
    char powder[24], developer[24], heading[160];
    sl_short_number(line->use.powder_g, 1, powder, sizeof powder);
    sl_short_number(line->use.developer_g, 1, developer, sizeof developer);
    snprintf(heading, sizeof heading, _("%s: %s g powder, %s g developer"), line->what, powder, developer);
    sl_document_heading(document, heading);
    sl_document_table(document, "", 5, columns, 0.0);
    if (cost->has_packets) {
        say_way(document, page->prices, _("packets"), cost->packets_cost, cost, cost->with_packets);
    }
    if (cost->has_tub) {
        say_way(document, page->prices, _("tub"), cost->tub_cost, cost, cost->with_tub);
    }
    if (!cost->has_packets && !cost->has_tub) {
        say_way(document, page->prices, "", 0.0, cost, cost->developer_cost + cost->other_cost);
    }
    if (cost->has_tub && !line->share) {
        say_tub(document, page, line);
    }
}

/* By product: what is needed, opened and bought, and what it costs. */
static void say_products(sl_document *document, const sl_cost_page *page)
{
    static const sl_text_column columns[] = {
        {N_("product"), 3.0, SL_OWN},        {N_("needed, g"), 1.0, SL_RIGHT}, {N_("opened"), 1.0, SL_RIGHT},
        {N_("on the shelf"), 1.2, SL_RIGHT}, {N_("to buy"), 1.0, SL_RIGHT},    {N_("left, g"), 1.0, SL_RIGHT},
        {N_("costs"), 1.2, SL_RIGHT}};
    char money[32], rest[32], all[32];
    double bought = 0.0;
    if (page->prices->n_products == 0 || page->swatches == 0) {
        return;
    }
    sl_document_heading(document, _("The class, by product"));
    sl_document_table(document, "", 7, columns, 0.0);
    for (int i = 0; i < page->n_products; i++) {
        const sl_cost_product *const one = &page->product[i];
        put_money(page->prices, one->purchase.cost, money, sizeof money);
        sl_document_cell(document, "%s", one->product->name);
        sl_document_cell(document, "%.1f", one->grams);
        sl_document_cell(document, "%d", one->purchase.opened);
        sl_document_cell(document, "%d", one->product->have);
        sl_document_cell(document, "%d", one->purchase.bought);
        sl_document_cell(document, "%.0f", one->purchase.left_g);
        sl_document_cell(document, "%s", money);
        bought += one->purchase.bought_cost;
    }
    if (page->lacking[0] != '\0') {
        sl_document_say(document, _("Not priced, for no product of this file names them: %s."),
                        page->lacking);
    }
    put_money(page->prices, page->rest_cost, rest, sizeof rest);
    put_money(page->prices, page->products_cost + page->rest_cost, all, sizeof all);
    sl_document_row(document, _("In all"),
                    sl_plural("%s, of it %s for gloves and the rest, %d pair",
                              "%s, of it %s for gloves and the rest, %d pairs", page->gloves),
                    all, rest, page->gloves);
    put_money(page->prices, (page->products_cost + page->rest_cost) / page->swatches, money, sizeof money);
    sl_document_row(document, _("A swatch"), "%s", money);
    put_money(page->prices, bought, money, sizeof money);
    if (bought > 0.0) {
        sl_document_row(document, _("To buy"), _("for %s; the shelf has the rest"), money);
    }
}

static void say_freshness(sl_document *document, const sl_cost_page *page)
{
    char heading[256], fresh[16], stale[16], times[24];
    if (page->n_ages == 0) {
        return;
    }
    snprintf(heading, sizeof heading, _("Old powder, by the model: \"%s\" in \"%s\""), page->arm, page->zone);
    sl_document_heading(document, heading);
    for (int i = 0; i < page->n_ages; i++) {
        const sl_freshness *const one = &page->freshness[i];
        sl_percent(one->fresh_left, fresh, sizeof fresh);
        sl_percent(one->stale_left, stale, sizeof stale);
        sl_short_number(one->times, 1, times, sizeof times);
        if (one->reached) {
            sl_document_say(document,
                            _("%.0f %% of its oxidants left: %s %% of the colour stays instead of %s %%; "
                              "about %s times the time for the same"),
                            100.0 * page->activity[i], stale, fresh, times);
        } else {
            sl_document_say(document,
                            _("%.0f %% of its oxidants left: %s %% of the colour stays instead of %s %%, and "
                              "more time does not make up for it"),
                            100.0 * page->activity[i], stale, fresh);
        }
    }
    sl_document_say(document, "%s",
                    _("How much a tub has lost nobody can see: run a swatch with it beside one with a new "
                      "packet. More time is never more than the label's."));
}

void sl_cost_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_cost_page *const page = of;
    char title[256];
    snprintf(title, sizeof title, _("What a use costs: %s"),
             sl_prices_title(page->prices, sl_language_in_use()));
    sl_document_begin(document, "cost", title, error);
    for (int i = 0; i < page->n; i++) {
        say_line(document, page, &page->line[i]);
    }
    say_products(document, page);
    say_freshness(document, page);
    sl_document_end(document, cost_occasions(page));
}

/* ---- for machines ------------------------------------------------------------------------------------- */

#define LINE(SAY)                                                                                            \
    SAY(end, table->place == page->n)                                                                        \
    SAY(let, const sl_cost_line *const line = &page->line[table->place])                                     \
    SAY(let, const sl_cost *const cost = &line->cost)                                                        \
    SAY(text, "what", line->what)                                                                            \
    SAY(number, "powder_g", line->use.powder_g)                                                              \
    SAY(number, "developer_g", line->use.developer_g)                                                        \
    SAY(text, "currency", page->prices->currency)                                                            \
    SAY(cents, "powder_packets", sl_if_known(cost->has_packets, cost->packets_cost))                         \
    SAY(cents, "powder_tub", sl_if_known(cost->has_tub, cost->tub_cost))                                     \
    SAY(cents, "developer", cost->developer_cost)                                                            \
    SAY(cents, "other", cost->other_cost)                                                                    \
    SAY(cents, "with_packets", sl_if_known(cost->has_packets, cost->with_packets))                           \
    SAY(cents, "with_tub", sl_if_known(cost->has_tub, cost->with_tub))                                       \
    SAY(number, "tub_uses", sl_if_known(cost->has_tub, cost->tub_uses))                                      \
    SAY(number, "break_even", sl_if_known(cost->has_tub, cost->break_even))
SL_TABLE(cost_lines, LINE, sl_cost_page, page);

#define USE(SAY)                                                                                             \
    SAY(let, const sl_cost_line *const line = &page->line[table->place])                                     \
    SAY(text, "what", line->what)                                                                            \
    SAY(number, "powder_g", line->use.powder_g)                                                              \
    SAY(number, "developer_g", line->use.developer_g)                                                        \
    SAY(number, "with_packets", sl_if_known(line->cost.has_packets, line->cost.with_packets))                \
    SAY(number, "with_tub", sl_if_known(line->cost.has_tub, line->cost.with_tub))                            \
    SAY(number, "tub_uses", line->cost.tub_uses)                                                             \
    SAY(number, "break_even", line->cost.break_even)
SL_FLAT_TABLE(uses, USE, sl_cost_page, page);

#define PRODUCT(SAY)                                                                                         \
    SAY(let, const sl_cost_product *const one = &page->product[table->place])                                \
    SAY(text, "product", one->product->name)                                                                 \
    SAY(number, "needed_g", one->grams)                                                                      \
    SAY(number, "opened", one->purchase.opened)                                                              \
    SAY(number, "on_the_shelf", one->product->have)                                                          \
    SAY(number, "to_buy", one->purchase.bought)                                                              \
    SAY(number, "left_g", one->purchase.left_g)                                                              \
    SAY(number, "cost", one->purchase.cost)                                                                  \
    SAY(number, "to_buy_cost", one->purchase.bought_cost)
SL_FLAT_TABLE(products, PRODUCT, sl_cost_page, page);

#define AGE(SAY)                                                                                             \
    SAY(let, const sl_freshness *const one = &page->freshness[table->place])                                 \
    SAY(number, "activity", page->activity[table->place])                                                    \
    SAY(number, "fresh_left", one->fresh_left)                                                               \
    SAY(number, "stale_left", one->stale_left)                                                               \
    SAY(number, "times", sl_if_known(one->reached, one->times))
SL_FLAT_TABLE(ages, AGE, sl_cost_page, page);

#define COST(SAY)                                                                                            \
    SAY(text, "prices", sl_prices_title(page->prices, SL_ENGLISH))                                           \
    SAY(text, "currency", page->prices->currency)                                                            \
    SAY(rows, "uses", uses, page, 0, page->n)                                                                \
    SAY(rows, "products", products, page, 0, page->n_products)                                               \
    SAY(text, "not_priced", page->lacking[0] != '\0' ? page->lacking : NULL)                                 \
    SAY(rows, "old_powder", ages, page, 0, page->n_ages)                                                     \
    SAY(cautions, cost_occasions(page))
SL_TABLE(cost_record, COST, sl_cost_page, page);

const sl_export sl_cost_export = {"cost", 1, &cost_record, &cost_lines};

/* ---- a mix -------------------------------------------------------------------------------------------- */

static void say_parts(sl_document *document, const sl_mixing_page *page)
{
    static const sl_text_column columns[] = {{"", 2.0, SL_OWN}, {"", 1.0, SL_OWN | SL_RIGHT}};
    const struct {
        const char *part;
        double shown, exact;
    } row[] = {{_("powder"), page->shown.powder_g, page->exact.powder_g},
               {_("developer"), page->shown.developer_g, page->exact.developer_g},
               {_("water"), page->shown.water_g, page->exact.water_g},
               {_("in all"), page->shown.total_g, page->exact.total_g}};
    const int decimals = page->scale_g < 0.05 ? 2 : page->scale_g < 1.0 ? 1 : 0;
    sl_document_table(document, "", 2, columns, 0.0);
    for (int i = 0; i < 4; i++) {
        if (row[i].exact > 0.0) {
            sl_document_cell(document, "%s", row[i].part);
            sl_document_entry(
                document,
                (sl_entry){.kind = SL_ENTRY_FIXED, .value = row[i].shown, .decimals = decimals, .unit = "g"});
        }
    }
}

void sl_mixing_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_mixing_page *const page = of;
    const sl_mix *const mix = page->mix;
    char hair[24], per[24], liquid[24], vol[24], whole[24], scale[24], part[24];
    sl_short_number(page->hair_g, 1, hair, sizeof hair);
    sl_short_number(page->g_per_g, 1, per, sizeof per);
    sl_short_number(page->shown.liquid_pct, 1, liquid, sizeof liquid);
    sl_short_number(page->shown.liquid_vol, 0, vol, sizeof vol);
    sl_short_number(page->shown.on_hair_pct, 1, whole, sizeof whole);
    sl_short_number(page->scale_g, 3, scale, sizeof scale);
    sl_percent(sl_scale_error(page->shown, page->scale_g), part, sizeof part);
    sl_document_begin(document, "mix", sl_mix_title(mix), error);
    sl_document_say(
        document, _("for %s g of hair, %s g of mix for one of hair, %.0f %% more for what stays in the bowl"),
        hair, per, 100.0 * page->waste);
    say_parts(document, page);
    sl_document_say(document, _("Peroxide: %s %% (%s vol) in the liquid, %s %% in the whole mix."), liquid,
                    vol, whole);
    sl_document_say(document, _("A scale that shows steps of %s g can throw the smallest part off by %s %%."),
                    scale, part);
    sl_document_end(document, mixing_occasions(page));
}

#define MIXING(SAY)                                                                                          \
    SAY(text, "mix", page->mix->name)                                                                        \
    SAY(number, "hair_g", page->hair_g)                                                                      \
    SAY(number, "powder_g", page->shown.powder_g)                                                            \
    SAY(number, "developer_g", page->shown.developer_g)                                                      \
    SAY(number, "water_g", page->shown.water_g)                                                              \
    SAY(number, "total_g", page->shown.total_g)                                                              \
    SAY(number, "liquid_pct", page->shown.liquid_pct)                                                        \
    SAY(number, "paste_pct", page->shown.on_hair_pct)                                                        \
    SAY(number, "scale_error", sl_scale_error(page->shown, page->scale_g))                                   \
    SAY(yes, "label_allows", page->mix->label_allows)                                                        \
    SAY(cautions, mixing_occasions(page))
SL_TABLE(mixing_record, MIXING, sl_mixing_page, page);

const sl_export sl_mixing_export = {"mix", 1, &mixing_record, NULL};

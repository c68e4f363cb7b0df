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
    const bool reduces = page->mix->mechanism == SL_MECHANISM_REDUCTIVE;
    return SL_ON_MIXING | (unlabelled ? SL_ON_UNLABELLED : 0U) | (reduces ? SL_ON_REDUCING : 0U);
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
    snprintf(heading, sizeof heading, _("%s: %s g powder, %s g developer"), _(line->what), powder, developer);
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

static bool has_products(const sl_cost_page *page)
{
    return page->plan && page->prices->n_products > 0;
}

/* Grams of a mix's powder (2 * mix) or liquid (that + 1) that no product is named for; 0: none. */
static double lacking_g(const sl_cost_page *page, long i)
{
    const int mix = (int)(i / 2);
    const sl_weighing needs = sl_plan_needs(page->plan, mix);
    const bool named =
        sl_product_of(page->prices, page->plan->scene->mixes[mix].name, i % 2 == 1) || !has_products(page);
    return named ? 0.0 : i % 2 == 1 ? needs.developer_g : needs.powder_g;
}

/* By product: what is needed, opened and bought, and what it costs. */
static void say_products(sl_document *document, const sl_cost_page *page)
{
    static const sl_text_column columns[] = {
        {N_("product"), 3.0, 0},       {N_("needed, g"), 1.0, SL_RIGHT},
        {N_("opened"), 1.0, SL_RIGHT}, {N_("on the shelf"), 1.2, SL_RIGHT},
        {N_("to buy"), 1.0, SL_RIGHT}, {N_("left, g"), 1.0, SL_RIGHT},
        {N_("costs"), 1.2, SL_RIGHT}};
    char money[32], rest[32], all[32];
    if (!has_products(page)) {
        return;
    }
    const int gloves = sl_plan_gloves(page->plan);
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
    }
    for (int i = 0, n = 0; i < 2 * page->plan->scene->n_mixes; i++) {
        const double grams = lacking_g(page, i);
        if (grams > 0.0) {
            if (n++ == 0) {
                sl_document_say(document, "%s", _("Not priced, for no product of this file names them:"));
            }
            sl_document_item(
                document, i % 2 ? _("%.1f g of the liquid of \"%s\"") : _("%.1f g of the powder of \"%s\""),
                grams, sl_mix_title(&page->plan->scene->mixes[i / 2]));
        }
    }
    put_money(page->prices, page->rest_cost, rest, sizeof rest);
    put_money(page->prices, page->all_cost, all, sizeof all);
    sl_document_row(document, _("In all"),
                    sl_plural("%s, of it %s for gloves and the rest, %d pair",
                              "%s, of it %s for gloves and the rest, %d pairs", gloves),
                    all, rest, gloves);
    put_money(page->prices, page->all_cost / page->plan->n_swatches, money, sizeof money);
    sl_document_row(document, _("A swatch"), "%s", money);
    put_money(page->prices, page->bought_cost, money, sizeof money);
    if (page->bought_cost > 0.0) {
        sl_document_row(document, _("To buy"), _("for %s; the shelf has the rest"), money);
    }
}

static void say_freshness(sl_document *document, const sl_cost_page *page)
{
    char heading[256], fresh[16], stale[16], times[24];
    if (page->n_ages == 0) {
        return;
    }
    snprintf(heading, sizeof heading, _("Old powder, by the model: \"%s\" in \"%s\""),
             sl_arm_title(&page->plan->scene->arms[page->arm]),
             sl_zone_title(&page->plan->scene->zones[page->zone]));
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

/* ---- for machines -------------------------------------------------------------------------------------
 */

#define USE(SAY)                                                                                             \
    SAY(text, "what", line->what)                                                                            \
    SAY(number, "powder_g", line->use.powder_g)                                                              \
    SAY(number, "developer_g", line->use.developer_g)                                                        \
    SAY(text, "currency", page->prices->currency)                                                            \
    SAY(cents, "powder_packets", sl_if_known(line->cost.has_packets, line->cost.packets_cost))               \
    SAY(cents, "powder_tub", sl_if_known(line->cost.has_tub, line->cost.tub_cost))                           \
    SAY(cents, "developer", line->cost.developer_cost)                                                       \
    SAY(cents, "other", line->cost.other_cost)                                                               \
    SAY(cents, "with_packets", sl_if_known(line->cost.has_packets, line->cost.with_packets))                 \
    SAY(cents, "with_tub", sl_if_known(line->cost.has_tub, line->cost.with_tub))                             \
    SAY(number, "tub_uses", sl_if_known(line->cost.has_tub, line->cost.tub_uses))                            \
    SAY(number, "break_even", sl_if_known(line->cost.has_tub, line->cost.break_even))                        \
    SAY(number, "uses_a_week", line->use.per_week)                                                           \
    SAY(number, "tub_weeks", sl_if_known(line->cost.has_tub, page->prices->tub_weeks))                       \
    SAY(number, "tub_left_g", sl_if_known(line->cost.has_tub, line->cost.tub_left_g))
#define USE_ROW(SAY) SAY(let, const sl_cost_line *const line = &page->line[table->place]) USE(SAY)
SL_FLAT_TABLE(uses, USE_ROW, sl_cost_page, page);

#define PRODUCT(SAY)                                                                                         \
    SAY(number, "needed_g", one->grams)                                                                      \
    SAY(number, "opened", one->purchase.opened)                                                              \
    SAY(number, "on_the_shelf", one->product->have)                                                          \
    SAY(number, "to_buy", one->purchase.bought)                                                              \
    SAY(number, "left_g", one->purchase.left_g)                                                              \
    SAY(cents, "cost", one->purchase.cost)                                                                   \
    SAY(cents, "to_buy_cost", one->purchase.bought_cost)
#define PRODUCT_ROW(SAY)                                                                                     \
    SAY(let, const sl_cost_product *const one = &page->product[table->place])                                \
    SAY(text, "product", one->product->name)                                                                 \
    PRODUCT(SAY)
SL_FLAT_TABLE(products, PRODUCT_ROW, sl_cost_page, page);

#define LACKING(SAY)                                                                                         \
    SAY(text, "part", i % 2 == 1 ? "liquid" : "powder")                                                      \
    SAY(text, "mix", page->plan->scene->mixes[i / 2].name)
#define LACKING_ROW(SAY)                                                                                     \
    SAY(let, const long i = table->place)                                                                    \
    SAY(skip, lacking_g(page, i) <= 0.0)                                                                     \
    LACKING(SAY)                                                                                             \
    SAY(number, "needed_g", lacking_g(page, i))
SL_FLAT_TABLE(lacking, LACKING_ROW, sl_cost_page, page);

#define CLASS(SAY)                                                                                           \
    SAY(number, "swatches", page->plan->n_swatches)                                                          \
    SAY(number, "pairs_of_gloves", sl_plan_gloves(page->plan))
#define CLASS_ROW(SAY)                                                                                       \
    CLASS(SAY)                                                                                               \
    SAY(cents, "other", page->rest_cost)                                                                     \
    SAY(cents, "cost", page->all_cost)                                                                       \
    SAY(cents, "a_swatch", page->all_cost / page->plan->n_swatches)                                          \
    SAY(cents, "to_buy_cost", page->bought_cost)
SL_FLAT_TABLE(class_record, CLASS_ROW, sl_cost_page, page);

#define AGE(SAY)                                                                                             \
    SAY(text, "arm", page->plan->scene->arms[page->arm].name)                                                \
    SAY(text, "zone", page->plan->scene->zones[page->zone].name)                                             \
    SAY(number, "activity", page->activity[age])                                                             \
    SAY(number, "fresh_left", page->freshness[age].fresh_left)                                               \
    SAY(number, "stale_left", page->freshness[age].stale_left)                                               \
    SAY(number, "times", sl_if_known(page->freshness[age].reached, page->freshness[age].times))
#define AGE_ROW(SAY) SAY(let, const long age = table->place) AGE(SAY)
SL_FLAT_TABLE(ages, AGE_ROW, sl_cost_page, page);

#define COST(SAY)                                                                                            \
    SAY(let, const bool by_product = has_products(page))                                                     \
    SAY(text, "prices", sl_prices_title(page->prices, SL_ENGLISH))                                           \
    SAY(text, "currency", page->prices->currency)                                                            \
    SAY(rows, "uses", uses, page, 0, page->n)                                                                \
    SAY(rows, "products", products, page, 0, page->n_products)                                               \
    SAY(rows, "not_priced", lacking, page, 0, by_product ? 2 * page->plan->scene->n_mixes : 0)               \
    SAY(record, "class", class_record, by_product ? page : NULL, 0)                                          \
    SAY(rows, "old_powder", ages, page, 0, page->n_ages)                                                     \
    SAY(cautions, cost_occasions(page))
SL_TABLE(cost_record, COST, sl_cost_page, page);

/* A line for each of them all; a cell is empty where its line has nothing to say. */
static sl_told tell_line(sl_row *row, const sl_table *table)
{
    const sl_cost_page *const page = table->of;
    const bool by_product = has_products(page);
    const struct {
        const char *what; /* NULL: it says so itself */
        const sl_columns *columns;
        long n;
    } part[] = {{NULL, &uses, page->n},
                {"product", &products, page->n_products},
                {"not priced", &lacking, by_product ? 2 * page->plan->scene->n_mixes : 0},
                {"the class", &class_record, by_product ? 1 : 0},
                {"old powder", &ages, page->n_ages}};
    long at = table->place;
    for (size_t i = 0; i < sizeof part / sizeof part[0]; at -= part[i].n, i++) {
        if (at < part[i].n) {
            sl_row_text(row, "what", part[i].what);
            sl_row_text(row, "currency", page->prices->currency);
            return part[i].columns->tell(row, &(sl_table){part[i].columns, page, 0, at, part[i].n});
        }
    }
    return SL_NO_MORE;
}
#define COST_LINE(SAY)                                                                                       \
    USE(SAY)                                                                                                 \
    SAY(text, "product", NULL) PRODUCT(SAY) LACKING(SAY) CLASS(SAY) SAY(cents, "a_swatch", NAN) AGE(SAY)
static const sl_columns cost_lines = SL_COLUMNS(COST_LINE(SL_COLUMN), .tell = tell_line);

const sl_export sl_cost_export = {"cost", 2, &cost_record, &cost_lines};

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

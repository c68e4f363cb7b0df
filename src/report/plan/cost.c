/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Money as the user's locale writes numbers, with the file's own currency beside it.
 */
#include "report/plan/cost.h"

#include <locale.h>
#include <math.h>
#include <string.h>

#include "base/language.h"
#include "document/text.h"
#include "report/json_text.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

enum { TEXT = 512 };

/* "EUR 12.40", with the point that LC_MONETARY uses. */
static void put_money(const sl_prices *prices, double amount, char *text, size_t size)
{
    const struct lconv *const locale = localeconv();
    const char *const point = locale->mon_decimal_point[0] != '\0' ? locale->mon_decimal_point : ".";
    const long cents = lround(100.0 * amount);
    snprintf(text, size, "%s %ld%s%02ld", prices->currency, cents / 100, point, cents % 100);
}

static void put_way(FILE *out, const sl_prices *prices, const char *way, double powder, const sl_cost *cost,
                    double all)
{
    char one[32], two[32], three[32], four[32];
    put_money(prices, powder, one, sizeof one);
    put_money(prices, cost->developer_cost, two, sizeof two);
    put_money(prices, cost->other_cost, three, sizeof three);
    put_money(prices, all, four, sizeof four);
    fprintf(out, "    %-8s %12s %12s %12s %12s\n", way, one, two, three, four);
}

static void put_tub_words(FILE *out, const sl_cost_page *page, const sl_cost_line *line, int width)
{
    const sl_cost *const cost = &line->cost;
    char text[TEXT], left[24], rate[24];
    sl_short_number(cost->tub_left_g, 0, left, sizeof left);
    sl_short_number(line->use.per_week, 1, rate, sizeof rate);
    snprintf(text, sizeof text,
             _("At %s uses a week a tub gives %d real uses before it is empty or %.0f weeks old, and %s g of "
               "it are thrown "
               "away."),
             rate, cost->tub_uses, page->prices->tub_weeks, left);
    sl_put_paragraph(out, "    ", text, width);
    if (!cost->has_packets) {
        return;
    }
    if (cost->break_even == 0) {
        snprintf(text, sizeof text, _("Packets stay cheaper however many uses a tub gives."));
    } else {
        snprintf(text, sizeof text,
                 _("From %d real uses on, a tub is cheaper than packets; here it gives %d."),
                 cost->break_even, cost->tub_uses);
    }
    sl_put_paragraph(out, "    ", text, width);
}

static void put_line(FILE *out, const sl_cost_page *page, const sl_cost_line *line, int width)
{
    const sl_cost *const cost = &line->cost;
    char powder[24], developer[24];
    sl_short_number(line->use.powder_g, 1, powder, sizeof powder);
    sl_short_number(line->use.developer_g, 1, developer, sizeof developer);
    fprintf(out, _("\n  %s: %s g powder, %s g developer\n"), line->what, powder, developer);
    fprintf(out, "    %-8s %12s %12s %12s %12s\n", "", _("powder"), _("developer"), _("the rest"),
            _("in all"));
    if (cost->has_packets) {
        put_way(out, page->prices, _("packets"), cost->packets_cost, cost, cost->with_packets);
    }
    if (cost->has_tub) {
        put_way(out, page->prices, _("tub"), cost->tub_cost, cost, cost->with_tub);
        if (!line->share) {
            put_tub_words(out, page, line, width);
        }
    }
    if (!cost->has_packets && !cost->has_tub) {
        put_way(out, page->prices, "", 0.0, cost, cost->developer_cost + cost->other_cost);
    }
}

static void put_freshness(FILE *out, const sl_cost_page *page, int width)
{
    char text[TEXT], fresh[16], stale[16], times[24];
    if (page->n_ages == 0) {
        return;
    }
    fprintf(out, _("\n  Old powder, by the model: \"%s\" in \"%s\"\n"), page->arm, page->zone);
    for (int i = 0; i < page->n_ages; i++) {
        const sl_freshness *const one = &page->freshness[i];
        sl_percent(one->fresh_left, fresh, sizeof fresh);
        sl_percent(one->stale_left, stale, sizeof stale);
        sl_short_number(one->times, 1, times, sizeof times);
        if (one->reached) {
            snprintf(text, sizeof text,
                     _("%.0f %% of its oxidants left: %s %% of the colour stays instead of %s %%; about %s "
                       "times the time "
                       "for the same"),
                     100.0 * page->activity[i], stale, fresh, times);
        } else {
            snprintf(text, sizeof text,
                     _("%.0f %% of its oxidants left: %s %% of the colour stays instead of %s %%, and more "
                       "time does not "
                       "make up for it"),
                     100.0 * page->activity[i], stale, fresh);
        }
        sl_put_paragraph(out, "    ", text, width);
    }
    sl_put_paragraph(out, "    ",
                     _("How much a tub has lost nobody can see: run a swatch with it beside one with a new "
                       "packet. More time is "
                       "never more than the label's."),
                     width);
}

static void put_caution(FILE *out, sl_caution_id id, int width)
{
    const sl_caution *const caution = sl_caution_text(id);
    char lead[24];
    snprintf(lead, sizeof lead, "%-8s ", _(caution->signal));
    sl_put_paragraph(out, lead, _(caution->text), width);
}

bool sl_cost_text(FILE *out, const sl_cost_page *page, int width)
{
    fprintf(out, _("What a use costs: %s\n"), sl_prices_title(page->prices, sl_language_in_use()));
    for (int i = 0; i < page->n; i++) {
        put_line(out, page, &page->line[i], width);
    }
    put_freshness(out, page, width);
    fputc('\n', out);
    put_caution(out, SL_CAUTION_FRESHNESS, width);
    put_caution(out, SL_CAUTION_LABEL, width);
    return !ferror(out);
}

bool sl_cost_csv(FILE *out, const sl_cost_page *page)
{
    fputs("what,powder_g,developer_g,currency,powder_packets,powder_tub,developer,other,with_packets,with_"
          "tub,tub_uses,"
          "break_even\n",
          out);
    for (int i = 0; i < page->n; i++) {
        const sl_cost_line *const line = &page->line[i];
        const sl_cost *const cost = &line->cost;
        fprintf(out, "%s,%.9g,%.9g,%s,", line->what, line->use.powder_g, line->use.developer_g,
                page->prices->currency);
        if (cost->has_packets) {
            fprintf(out, "%.2f", cost->packets_cost);
        }
        fputc(',', out);
        if (cost->has_tub) {
            fprintf(out, "%.2f", cost->tub_cost);
        }
        fprintf(out, ",%.2f,%.2f,", cost->developer_cost, cost->other_cost);
        if (cost->has_packets) {
            fprintf(out, "%.2f", cost->with_packets);
        }
        fputc(',', out);
        if (cost->has_tub) {
            fprintf(out, "%.2f,%d,%d\n", cost->with_tub, cost->tub_uses, cost->break_even);
        } else {
            fputs(",,\n", out);
        }
    }
    return !ferror(out);
}

bool sl_cost_json(FILE *out, const sl_cost_page *page)
{
    sl_json json = {.out = out};
    sl_json_open(&json, NULL, '{');
    sl_json_text(&json, "prices", sl_prices_title(page->prices, SL_ENGLISH));
    sl_json_text(&json, "currency", page->prices->currency);
    sl_json_open(&json, "uses", '[');
    for (int i = 0; i < page->n; i++) {
        const sl_cost_line *const line = &page->line[i];
        sl_json_open_flat(&json, NULL, '{');
        sl_json_text(&json, "what", line->what);
        sl_json_number(&json, "powder_g", line->use.powder_g);
        sl_json_number(&json, "developer_g", line->use.developer_g);
        sl_json_number(&json, "with_packets",
                       line->cost.has_packets ? line->cost.with_packets : (double)INFINITY);
        sl_json_number(&json, "with_tub", line->cost.has_tub ? line->cost.with_tub : (double)INFINITY);
        sl_json_number(&json, "tub_uses", line->cost.tub_uses);
        sl_json_number(&json, "break_even", line->cost.break_even);
        sl_json_close(&json, '}');
    }
    sl_json_close(&json, ']');
    sl_json_open(&json, "old_powder", '[');
    for (int i = 0; i < page->n_ages; i++) {
        sl_json_open_flat(&json, NULL, '{');
        sl_json_number(&json, "activity", page->activity[i]);
        sl_json_number(&json, "fresh_left", page->freshness[i].fresh_left);
        sl_json_number(&json, "stale_left", page->freshness[i].stale_left);
        sl_json_number(&json, "times",
                       page->freshness[i].reached ? page->freshness[i].times : (double)INFINITY);
        sl_json_close(&json, '}');
    }
    sl_json_close(&json, ']');
    sl_json_cautions(&json, NULL, 0);
    sl_json_close(&json, '}');
    return !ferror(out);
}

/* ---- a mix -------------------------------------------------------------------------------------------- */

static void put_part(FILE *out, const char *part, double shown, double exact, int decimals)
{
    if (exact > 0.0) {
        fprintf(out, "  %-10s %8.*f g\n", part, decimals, shown);
    }
}

static const sl_caution_id mixing[] = {SL_CAUTION_LABEL, SL_CAUTION_DUST,   SL_CAUTION_MIXING,
                                       SL_CAUTION_METAL, SL_CAUTION_CLOSED, SL_CAUTION_REACTED,
                                       SL_CAUTION_EYES};

bool sl_mixing_text(FILE *out, const sl_mixing_page *page, int width)
{
    const sl_mix *const mix = page->mix;
    const int decimals = page->scale_g < 0.05 ? 2 : page->scale_g < 1.0 ? 1 : 0;
    char text[TEXT], hair[24], per[24], liquid[24], vol[24], whole[24], scale[24], part[24];
    sl_short_number(page->hair_g, 1, hair, sizeof hair);
    sl_short_number(page->g_per_g, 1, per, sizeof per);
    sl_short_number(page->shown.liquid_pct, 1, liquid, sizeof liquid);
    sl_short_number(page->shown.liquid_vol, 0, vol, sizeof vol);
    sl_short_number(page->shown.on_hair_pct, 1, whole, sizeof whole);
    sl_short_number(page->scale_g, 3, scale, sizeof scale);
    fprintf(out, "%s\n", sl_mix_title(mix));
    snprintf(text, sizeof text,
             _("for %s g of hair, %s g of mix for one of hair, %.0f %% more for what stays in the bowl"),
             hair, per, 100.0 * page->waste);
    sl_put_paragraph(out, "", text, width);
    fputc('\n', out);
    put_part(out, _("powder"), page->shown.powder_g, page->exact.powder_g, decimals);
    put_part(out, _("developer"), page->shown.developer_g, page->exact.developer_g, decimals);
    put_part(out, _("water"), page->shown.water_g, page->exact.water_g, decimals);
    put_part(out, _("in all"), page->shown.total_g, page->exact.total_g, decimals);
    fputc('\n', out);
    snprintf(text, sizeof text, _("Peroxide: %s %% (%s vol) in the liquid, %s %% in the whole mix."), liquid,
             vol, whole);
    sl_put_paragraph(out, "", text, width);
    sl_percent(sl_scale_error(page->shown, page->scale_g), part, sizeof part);
    snprintf(text, sizeof text,
             _("A scale that shows steps of %s g can throw the smallest part off by %s %%."), scale, part);
    sl_put_paragraph(out, "", text, width);
    if (!mix->label_allows && mix->class_ != SL_MIX_WATER) {
        put_caution(out, SL_CAUTION_SWATCH_ONLY, width);
    }
    fputc('\n', out);
    for (size_t i = 0; i < sizeof mixing / sizeof mixing[0]; i++) {
        put_caution(out, mixing[i], width);
    }
    return !ferror(out);
}

bool sl_mixing_json(FILE *out, const sl_mixing_page *page)
{
    sl_json json = {.out = out};
    sl_json_open(&json, NULL, '{');
    sl_json_text(&json, "mix", page->mix->name);
    sl_json_number(&json, "hair_g", page->hair_g);
    sl_json_number(&json, "powder_g", page->shown.powder_g);
    sl_json_number(&json, "developer_g", page->shown.developer_g);
    sl_json_number(&json, "water_g", page->shown.water_g);
    sl_json_number(&json, "total_g", page->shown.total_g);
    sl_json_number(&json, "liquid_pct", page->shown.liquid_pct);
    sl_json_number(&json, "paste_pct", page->shown.on_hair_pct);
    sl_json_number(&json, "scale_error", sl_scale_error(page->shown, page->scale_g));
    sl_json_bool(&json, "label_allows", page->mix->label_allows);
    sl_json_cautions(&json, mixing, sizeof mixing / sizeof mixing[0]);
    sl_json_close(&json, '}');
    return !ferror(out);
}

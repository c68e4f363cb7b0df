/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Check targets C1 to C8: what the mix does, cystine, diffusion, granules. Sources: docs/science.md.
 */
#include "check_bench.h"

#include <math.h>
#include <stdio.h>

/* ---- C1 to C3: the mix ---------------------------------------------------------------------- */

static double bath_pct(const check_bench *b, double minutes)
{
    sl_moment moment;
    sl_timeline_moment(b->timeline, 0, 0, minutes, &moment);
    return moment.peroxide_mol_l * 34.0147 / 10;
}

static double bound_left(const sl_cell *cell, const sl_hair *hair, bool and_opened)
{
    const double left = cell->amounts.pool[SL_EUMELANIN][SL_BOUND] +
                        (and_opened ? cell->amounts.pool[SL_EUMELANIN][SL_OPENED] : 0);
    return left / hair->pool[SL_EUMELANIN][SL_BOUND];
}

static void peroxide_baths(check_table *t, check_bench *b)
{
    check_try_mix(b, (check_trial){.mix = "bath", .pct = 6.08, .ph = 9.45, .celsius = 32.2, .minutes = 240});
    const double with[3] = {bath_pct(b, 60), bath_pct(b, 120), bath_pct(b, 180)};
    check_row *r = check_add(
        t, (check_row){.id = "C1",
                       .kind = CHECK_OUTSIDE,
                       .target = "6 % bath with EDTA, 32.2 °C: 5.60, 5.06, 4.67 % at 60, 120, 180 min",
                       .source = "J. Soc. Cosmet. Chem. 12(3):134 (page)",
                       .allowed = "±0.15 %",
                       .evidence = "kd1 was taken from the same data"});
    snprintf(r->computed, sizeof r->computed, "%.2f, %.2f, %.2f %%", with[0], with[1], with[2]);
    r->holds = fabs(with[0] - 5.60) <= 0.15 && fabs(with[1] - 5.06) <= 0.15 && fabs(with[2] - 4.67) <= 0.15;

    check_try_mix(b, (check_trial){.mix = "bath",
                                   .pct = 5.92,
                                   .ph = 9.45,
                                   .celsius = 32.2,
                                   .minutes = 240,
                                   .loss_l_mol_min = 4.2e-3});
    const double without[3] = {bath_pct(b, 120), bath_pct(b, 180), bath_pct(b, 240)};
    const double first_order = 5.92 * pow(3.12 / 5.92, 2); /* first order through 120 min, at 240 */
    r = check_add(
        t,
        (check_row){
            .id = "C2",
            .kind = CHECK_OUTSIDE,
            .target = "the same without EDTA: 3.12, 2.58, 2.15 % at 120, 180, 240 min; first order must fail",
            .source = "the same (page)",
            .allowed = "±0.15 %",
            .evidence = "kd2 was taken from the same data"});
    snprintf(r->computed, sizeof r->computed, "%.2f, %.2f, %.2f %%; first order %.2f %% at 240", without[0],
             without[1], without[2], first_order);
    r->holds = fabs(without[0] - 3.12) <= 0.15 && fabs(without[1] - 2.58) <= 0.15 &&
               fabs(without[2] - 2.15) <= 0.15 && fabs(first_order - 2.15) > 0.15;
}

static void mix_arithmetic(check_table *t, const check_bench *b)
{
    const sl_mix half = {.developer_parts = 1, .water_parts = 1, .developer_pct = 6, .activity = 1};
    const sl_mix paste = {.powder_parts = 1, .developer_parts = 2, .developer_pct = 6, .activity = 1};
    const sl_charge diluted = sl_mix_charge(&half, &b->loaded->chemistry, 4, 0);
    const sl_charge mixed = sl_mix_charge(&paste, &b->loaded->chemistry, 6, 0);
    const double vol[4] = {sl_volume_strength(3), sl_volume_strength(6), sl_volume_strength(9),
                           sl_volume_strength(12)};
    check_row *r = check_add(
        t, (check_row){.id = "C3",
                       .kind = "arithmetic",
                       .target = "3/6/9/12 % = 9.9/19.8/29.7/39.5 vol; 6 % = 1.764 mol/L; 6 % 1:1 with water "
                                 "3 %; 6 % 1:2 with powder 4 % on the hair",
                       .source = "ideal gas at 0 °C, molar mass, C1V1 = C2V2 (arithmetic)",
                       .allowed = "rounding",
                       .evidence = "arithmetic, says nothing about hair"});
    snprintf(r->computed, sizeof r->computed, "%.1f/%.1f/%.1f/%.1f vol; %.3f mol/L; %.1f %%; %.1f %%", vol[0],
             vol[1], vol[2], vol[3], sl_peroxide_mol_l(6), diluted.liquid_pct, mixed.on_hair_pct);
    r->holds = fabs(vol[0] - 9.9) < 0.05 && fabs(vol[1] - 19.8) < 0.05 && fabs(vol[2] - 29.7) < 0.05 &&
               fabs(vol[3] - 39.5) < 0.05 && fabs(sl_peroxide_mol_l(6) - 1.764) < 5e-4 &&
               fabs(diluted.liquid_pct - 3) < 1e-9 && fabs(mixed.on_hair_pct - 4) < 1e-9;
}

/* ---- C4 to C8: cystine, diffusion, granules --------------------------------------------------- */

static void cystine(check_table *t, check_bench *b)
{
    check_try_mix(b, (check_trial){.mix = "powder-6", .minutes = 45});
    const double at_30 = check_cell_at(b, "undyed", 30).cystine_lost;
    const double at_45 = check_cell_at(b, "undyed", 45).cystine_lost;
    check_row *r = check_add(
        t, (check_row){.id = "C4",
                       .kind = CHECK_OUTSIDE,
                       .target =
                           "ordinary bleaching oxidises 11 to 27 % of cystine (powder + 6 %, 30 to 45 min)",
                       .source = "J. Soc. Cosmet. Chem. 44(6):358 (page; percentages by arithmetic)",
                       .allowed = "the band",
                       .evidence = "20 % at 38 min was a fit point"});
    snprintf(r->computed, sizeof r->computed, "%.1f %% and %.1f %%", 100 * at_30, 100 * at_45);
    r->holds = at_30 >= 0.11 && at_45 <= 0.27;

    check_try_mix(b, (check_trial){.mix = "bath", .ph = 9.4, .minutes = 240});
    const double lost = check_cell_at(b, "undyed", 240).cystine_lost;
    r = check_add(t, (check_row){.id = "C5",
                                 .kind = CHECK_OUTSIDE,
                                 .target = "6 % at pH 9.4 for 4 h: at most 45 % of cystine",
                                 .source = "J. Cosmet. Sci. 72(5):540 after Edman & Marti (page)",
                                 .allowed = "at most 45 %"});
    snprintf(r->computed, sizeof r->computed, "%.1f %%", 100 * lost);
    r->holds = lost <= 0.45;
}

/* R2 of a straight line through cystine lost against x(t), t = 15 to 240 min. */
static double straightness(const check_bench *b, double power)
{
    double n = 0;
    double sx = 0;
    double sy = 0;
    double sxx = 0;
    double syy = 0;
    double sxy = 0;
    for (double t = 15; t <= 240; t += 15) {
        const double x = pow(t, power);
        const double y = check_cell_at(b, "undyed", t).cystine_lost;
        n += 1;
        sx += x;
        sy += y;
        sxx += x * x;
        syy += y * y;
        sxy += x * y;
    }
    const double covariance = n * sxy - sx * sy;
    return covariance * covariance / ((n * sxx - sx * sx) * (n * syy - sy * sy));
}

static void cystine_in_time(check_table *t, check_bench *b)
{
    check_try_mix(b, (check_trial){.mix = "bath", .ph = 9.4, .minutes = 240});
    const double root = straightness(b, 0.5);
    const double line = straightness(b, 1);
    check_row *r = check_add(
        t, (check_row){
               .id = "C6",
               .kind = CHECK_DIRECTION,
               .target = "cysteic acid straighter against the root of time than against time (15 to 240 min)",
               .source = "Suzuta et al. (second-hand)",
               .allowed = "R² larger",
               .evidence = "the product layer was put in for it"});
    snprintf(r->computed, sizeof r->computed, "R² %.3f against %.3f", root, line);
    r->holds = root > line;
}

/* How much faster exchange has become: 1 + m X/(X + Xd). */
static double opened_times(const check_bench *b, double minutes)
{
    const sl_chemistry *c = &b->loaded->chemistry;
    const double lost = check_cell_at(b, "undyed", minutes).cystine_lost;
    return 1 + c->damage_opens.value * lost / (lost + c->damage_half.value);
}

static void diffusivity(check_table *t, check_bench *b)
{
    static const char source[] = "J. Soc. Cosmet. Chem. 44(6):359, Table III, uranin (page)";
    check_try_mix(b, (check_trial){.mix = "bath", .ph = 9.4, .minutes = 240});
    const double one = opened_times(b, 60);
    const double four = opened_times(b, 240);
    check_try_mix(b, (check_trial){.mix = "powder-6", .minutes = 30});
    const double powder = opened_times(b, 30);
    const struct {
        const char *id, *target, *allowed;
        double value, low, high;
    } parts[] = {
        {"C7a", "dye diffuses 2.7 times as fast after 1 h of 6 %", "1.4 to 4.6 (95 % CI)", one, 1.4, 4.6},
        {"C7b", "and 2.9 times as fast after 4 h", "2.2 to 3.8 (95 % CI)", four, 2.2, 3.8},
        {"C7c", "4 h over 1 h: 1.05", "0.7 to 1.8 (95 % CI)", four / one, 0.7, 1.8},
        {"C7d", "12.6 times as fast after ½ h of bleaching cream (here powder + 6 %)", "3.9 to 25 (95 % CI)",
         powder, 3.9, 25},
    };
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        check_row *r = check_add(t, (check_row){.id = parts[i].id,
                                                .kind = CHECK_OUTSIDE,
                                                .target = parts[i].target,
                                                .source = source,
                                                .allowed = parts[i].allowed});
        snprintf(r->computed, sizeof r->computed, "%.2f", parts[i].value);
        r->holds = parts[i].value >= parts[i].low && parts[i].value <= parts[i].high;
    }
}

static void granules(check_table *t, check_bench *b)
{
    static const char source[] = "J. Cosmet. Sci. 51:114-115 (page)";
    const sl_hair *hair = &b->loaded->hairs[b->loaded->zones[check_zone_named(b->loaded, "undyed")].hair];
    check_try_mix(b, (check_trial){.mix = "bath", .ph = 9.4, .minutes = 240});
    const sl_cell one = check_cell_at(b, "undyed", 60);
    const sl_cell four = check_cell_at(b, "undyed", 240);
    for (int reading = 0; reading < 2; reading++) {
        const double early = bound_left(&one, hair, reading == 1);
        const double late = bound_left(&four, hair, reading == 1);
        check_row *r = check_add(
            t, (check_row){.id = reading == 0 ? "C8a" : "C8b",
                           .kind = CHECK_DIRECTION,
                           .target = reading == 0
                                         ? "granules mostly there at 1 h of 6 %, pH 9.4, mostly gone at "
                                           "4 h; read as bound melanin"
                                         : "the same, read as bound and opened melanin",
                           .source = source,
                           .allowed = "above ½ at 1 h, below ½ at 4 h",
                           .evidence = reading == 0 ? NULL : "this reading was chosen after C8a missed"});
        snprintf(r->computed, sizeof r->computed, "%.2f at 1 h, %.2f at 4 h", early, late);
        r->holds = early > 0.5 && late < 0.5;
    }
}

void check_mix_and_hair(check_table *t, check_bench *b)
{
    peroxide_baths(t, b);
    mix_arithmetic(t, b);
    cystine(t, b);
    cystine_in_time(t, b);
    diffusivity(t, b);
    granules(t, b);
}

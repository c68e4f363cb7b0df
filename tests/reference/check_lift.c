/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Check targets C9 to C22: lift, dyes, temperature, strength, mix age. Sources: docs/science.md.
 */
#include "check_bench.h"

#include <math.h>
#include <stdio.h>

/* ---- C9 to C16: lift ------------------------------------------------------------------------------- */

static void sessions(check_table *t, check_bench *b)
{
    check_try_mix(b, (check_trial){.mix = "powder-6", .pct = 9, .celsius = 25, .minutes = 30, .sessions = 3});
    const double nine = check_cell_at(b, "undyed dark", b->scene.until_min).levels_lifted;
    check_try_mix(b, (check_trial){.mix = "powder-6", .pct = 3, .celsius = 25, .minutes = 30, .sessions = 5});
    const double three = check_cell_at(b, "undyed dark", b->scene.until_min).levels_lifted;
    check_row *r = check_add(
        t, (check_row){.id = "C9",
                       .kind = CHECK_DIRECTION,
                       .target =
                           "three sessions at 9 % go about a level further than five at 3 % (30 min, 25 °C, "
                           "powder: minutes and powder of the study unknown)",
                       .source = "m.earticle.net A470066 (abstract)",
                       .allowed = "at least ½ level"});
    snprintf(r->computed, sizeof r->computed, "%.2f against %.2f levels: %+.2f", nine, three, nine - three);
    r->holds = nine - three >= 0.5;
}

static void damage_at_equal_lift(check_table *t, check_bench *b)
{
    double lost[3];
    static const double pct[3] = {3, 6, 12};
    for (int i = 0; i < 3; i++) {
        check_try_mix(b, (check_trial){.mix = "powder-6", .pct = pct[i], .minutes = 180});
        const double when = check_lift_time(b, 3.5);
        lost[i] = when < HUGE_VAL ? check_cell_at(b, "undyed", when).cystine_lost : HUGE_VAL;
    }
    check_row *r = check_add(
        t, (check_row){.id = "C10",
                       .kind = CHECK_DIRECTION,
                       .target = "at equal lift (+3.5 levels) the stronger developer has done more damage",
                       .source = "m.earticle.net A470066 (abstract; cuticle)",
                       .allowed = "rises from 3 to 6 to 12 %"});
    snprintf(r->computed, sizeof r->computed, "cystine lost %.1f, %.1f, %.1f %% for 3, 6, 12 %%",
             100 * lost[0], 100 * lost[1], 100 * lost[2]);
    r->holds = lost[0] < lost[1] && lost[1] < lost[2];
}

static void cream_lift(check_table *t, check_bench *b)
{
    static const struct {
        const char *id, *target, *allowed;
        double pct, low, high;
    } parts[] = {
        {"C11a", "10 vol cream 1:1, 45 min", "0 to 1 level", 3, 0, 1},
        {"C11b", "20 vol cream 1:1, 45 min", "1 to 2 levels", 6, 1, 2},
        {"C11c", "30 vol cream 1:1, 45 min", "2 to 3 levels", 9, 2, 3},
        {"C11d", "40 vol cream 1:1, 45 min", "3 to 4 levels", 12, 3, 4},
    };
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        check_try_mix(b, (check_trial){.mix = "peroxide-6-cream", .pct = parts[i].pct, .minutes = 45});
        const double lift = check_cell_at(b, "undyed", 45).levels_lifted;
        check_row *r =
            check_add(t, (check_row){.id = parts[i].id,
                                     .kind = CHECK_TRADE,
                                     .target = parts[i].target,
                                     .source = "none",
                                     .allowed = parts[i].allowed,
                                     .evidence = parts[i].pct > 5 && parts[i].pct < 7
                                                     ? "the 20 vol lift was a fit point (at another pH)"
                                                     : "a convention"});
        snprintf(r->computed, sizeof r->computed, "%.2f levels", lift);
        r->holds = lift >= parts[i].low && lift <= parts[i].high;
    }
}

static void powder_lift(check_table *t, check_bench *b)
{
    check_try_mix(b, (check_trial){.mix = "powder-6", .minutes = 90});
    const double when = check_lift_time(b, 3.5);
    check_row *r = check_add(t, (check_row){.id = "C12",
                                            .kind = CHECK_TRADE,
                                            .target = "powder + 6 % lifts 3.5 levels in 30 to 45 min",
                                            .source = "none",
                                            .allowed = "35 to 42 min",
                                            .evidence = "a fit point"});
    snprintf(r->computed, sizeof r->computed, "%.1f min", when);
    r->holds = when >= 35 && when <= 42;
}

static void dye_half_times(check_table *t, check_bench *b)
{
    static const char *const order[] = {"violet", "blue",   "pink", "green",
                                        "yellow", "orange", "red",  "resistant-blue"};
    double six[8];
    double water[8];
    for (int i = 0; i < 8; i++) {
        six[i] = check_half_time(b, (check_trial){.mix = "powder-6", .minutes = 240}, order[i]);
        water[i] = check_half_time(b, (check_trial){.mix = "powder-water", .minutes = 240}, order[i]);
    }
    double low = HUGE_VAL;
    double high = 0;
    for (int i = 0; i < 7; i++) {
        low = fmin(low, water[i] / six[i]);
        high = fmax(high, water[i] / six[i]);
    }
    check_row *r = check_add(
        t,
        (check_row){.id = "C13",
                    .kind = CHECK_TRADE,
                    .target = "half of a direct dye leaves 2 to 3.5 times as slowly with water as with 6 %",
                    .source = "none",
                    .allowed = "2 to 3.5",
                    .evidence = "the half-times were fit points"});
    snprintf(r->computed, sizeof r->computed, "%.1f to %.1f", low, high);
    r->holds = low >= 2 && high <= 3.5;

    r = check_add(
        t,
        (check_row){
            .id = "C14",
            .kind = CHECK_TRADE,
            .target = "half-times with 6 %: violet < blue, pink < green < yellow < orange < red, and a blue "
                      "that stays",
            .source = "none",
            .allowed = "the order",
            .evidence = "the order was put in"});
    snprintf(r->computed, sizeof r->computed, "%.1f < %.1f, %.1f < %.1f < %.1f < %.1f < %.1f; %.0f min",
             six[0], six[1], six[2], six[3], six[4], six[5], six[6], six[7]);
    r->holds = six[0] < six[1] && six[0] < six[2] && fmax(six[1], six[2]) < six[3] && six[3] < six[4] &&
               six[4] < six[5] && six[5] < six[6] && six[6] < six[7];
}

static void neutral_and_powder(check_table *t, check_bench *b)
{
    check_try_mix(b, (check_trial){.mix = "bath", .ph = 7, .minutes = 60});
    const double neutral = check_cell_at(b, "undyed", 60).levels_lifted;
    check_row *r =
        check_add(t, (check_row){.id = "C15",
                                 .kind = CHECK_DIRECTION,
                                 .target = "neutral 6 %, dark, 60 min: next to no lift",
                                 .source = "Korytowski & Sarna (1990), J. Biol. Chem. 265:12410 (abstract)",
                                 .allowed = "below 0.1 level"});
    snprintf(r->computed, sizeof r->computed, "%.4f levels", neutral);
    r->holds = neutral < 0.1;

    check_try_mix(b, (check_trial){.mix = "powder-6", .minutes = 45});
    const double powder = check_cell_at(b, "undyed", 45).levels_lifted;
    check_try_mix(b, (check_trial){.mix = "bath", .ph = 10.1, .minutes = 45});
    const double plain = check_cell_at(b, "undyed", 45).levels_lifted;
    r = check_add(
        t, (check_row){.id = "C16",
                       .kind = CHECK_DIRECTION,
                       .target =
                           "persulfate powder lightens more than peroxide alone at the same % and pH, 45 min",
                       .source = "Imai (2011), Okajimas Folia Anat. Jpn 88:1-9 (abstract and page)",
                       .allowed = "more"});
    snprintf(r->computed, sizeof r->computed, "%.2f against %.2f levels", powder, plain);
    r->holds = powder > plain;
}

/* ---- C17 to C22 ------------------------------------------------------------------------------------------
 */

static void temperature_and_strength(check_table *t, check_bench *b)
{
    const double cool =
        check_half_time(b, (check_trial){.mix = "powder-6", .celsius = 25, .minutes = 240}, "red");
    const double warm =
        check_half_time(b, (check_trial){.mix = "powder-6", .celsius = 35, .minutes = 240}, "red");
    check_row *r = check_add(
        t, (check_row){.id = "C17",
                       .kind = CHECK_OUTSIDE,
                       .target = "25 to 35 °C makes a dye leave 1.8 to 2.5 times as fast",
                       .source = "43 to 71 kJ/mol: Thompson et al. (1993), Menek et al. (2006) (abstract)",
                       .allowed = "1.8 to 2.5",
                       .evidence = "the activation energy was chosen inside that range"});
    snprintf(r->computed, sizeof r->computed, "%.2f (red, half-time)", cool / warm);
    r->holds = cool / warm >= 1.8 && cool / warm <= 2.5;

    const double six = check_half_time(b, (check_trial){.mix = "powder-6", .minutes = 240}, "red");
    const double twelve =
        check_half_time(b, (check_trial){.mix = "powder-6", .pct = 12, .minutes = 240}, "red");
    r = check_add(
        t, (check_row){.id = "C18",
                       .kind = CHECK_DIRECTION,
                       .target = "12 % is at most twice as fast as 6 % on dyes",
                       .source = "saturation: Salem & El-Maazawi (2001), Katafias et al. (2010) (abstract)",
                       .allowed = "at most 2"});
    snprintf(r->computed, sizeof r->computed, "%.2f (red, half-time)", six / twelve);
    r->holds = six / twelve <= 2;
}

static void dye_classes(check_table *t, const check_bench *b)
{
    double k[3] = {0, 0, 0};
    double slowest = HUGE_VAL;
    double resistant = HUGE_VAL;
    for (int i = 0; i < b->loaded->n_dyes; i++) {
        const sl_dye *dye = &b->loaded->dyes[i];
        const double persulfate = dye->rates.k[SL_PERSULFATE].value;
        static const sl_dye_class classes[3] = {SL_DYE_TRIARYLMETHANE, SL_DYE_XANTHENE, SL_DYE_CATIONIC_AZO};
        for (int j = 0; j < 3; j++) {
            k[j] = dye->class_ == classes[j] ? fmax(k[j], persulfate) : k[j];
        }
        if (dye->class_ == SL_DYE_HINDERED_TRIARYLMETHANE) {
            resistant = persulfate;
        } else {
            slowest = fmin(slowest, persulfate);
        }
    }
    check_row *r = check_add(
        t, (check_row){.id = "C19",
                       .kind = CHECK_DIRECTION,
                       .target = "persulfate alone: cationic ring dyes > xanthene > azo, 230 : 12 : 1",
                       .source = "Yang et al. (2021), Water Sci. Technol. 83(11):2744 (abstract)",
                       .allowed = "the order",
                       .evidence = "the order was put in; the spread is far too narrow"});
    snprintf(r->computed, sizeof r->computed, "%.3f > %.3f > %.3f L/(mol min): %.0f : %.0f : 1", k[0], k[1],
             k[2], k[0] / k[2], k[1] / k[2]);
    r->holds = k[0] > k[1] && k[1] > k[2];

    r = check_add(t, (check_row){.id = "C20",
                                 .kind = CHECK_DIRECTION,
                                 .target = "a dye known to survive bleach leaves slowest",
                                 .source = "book chapter 4 p. 145 (page)",
                                 .allowed = "slowest",
                                 .evidence = "put in"});
    snprintf(r->computed, sizeof r->computed, "%.3f, next %.3f L/(mol min) with persulfate", resistant,
             slowest);
    r->holds = resistant < slowest;
}

static double lift_rate(const check_bench *b, double minutes)
{
    return (check_cell_at(b, "undyed", minutes + 0.5).levels_lifted -
            check_cell_at(b, "undyed", minutes - 0.5).levels_lifted);
}

static void course_of_lift(check_table *t, check_bench *b)
{
    check_try_mix(b, (check_trial){.mix = "powder-6", .minutes = 61});
    double peak = 0;
    double when = 0;
    for (double m = 1; m <= 60; m += 0.25) {
        if (lift_rate(b, m) > peak) {
            peak = lift_rate(b, m);
            when = m;
        }
    }
    const double late = lift_rate(b, 59.5) / peak;
    check_row *r = check_add(t, (check_row){.id = "C21a",
                                            .kind = CHECK_TRADE,
                                            .target = "powder + 6 % lifts fastest at 20 to 30 min",
                                            .source = "none",
                                            .allowed = "15 to 30 min",
                                            .evidence = "a convention"});
    snprintf(r->computed, sizeof r->computed, "at %.0f min", when);
    r->holds = when >= 15 && when <= 30;
    r = check_add(t, (check_row){.id = "C21b",
                                 .kind = CHECK_TRADE,
                                 .target = "and slowly by 60 min",
                                 .source = "none",
                                 .allowed = "at most half of the fastest",
                                 .evidence = "a convention"});
    snprintf(r->computed, sizeof r->computed, "%.0f %% of the fastest", 100 * late);
    r->holds = late <= 0.5;
}

static void mix_age(check_table *t, check_bench *b)
{
    double left[3];
    static const double ages[3] = {0, 8, 30};
    for (int i = 0; i < 3; i++) {
        check_try_mix(b, (check_trial){.mix = "powder-6", .age_min = ages[i], .minutes = 30});
        left[i] = check_cell_at(b, "red", 30).colour_left;
    }
    check_row *r = check_add(t, (check_row){.id = "C22",
                                            .kind = CHECK_DIRECTION,
                                            .target = "same dwell, mix up to 30 min old: a small difference",
                                            .source = "none (no measurement found)",
                                            .allowed = "2 points",
                                            .evidence = "consistent, but there are no data"});
    snprintf(r->computed, sizeof r->computed, "red left %.1f, %.1f, %.1f %% at ages 0, 8, 30 min",
             100 * left[0], 100 * left[1], 100 * left[2]);
    r->holds = fabs(left[2] - left[0]) <= 0.02;
}

void check_lift_and_dyes(check_table *t, check_bench *b)
{
    sessions(t, b);
    damage_at_equal_lift(t, b);
    cream_lift(t, b);
    powder_lift(t, b);
    dye_half_times(t, b);
    neutral_and_powder(t, b);
    temperature_and_strength(t, b);
    dye_classes(t, b);
    course_of_lift(t, b);
    mix_age(t, b);
}

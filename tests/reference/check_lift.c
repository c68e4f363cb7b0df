/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Check targets C9 to C22 and L: lift, dyes, temperature, strength, mix age. Sources: docs/science.md.
 */
#include "check_bench.h"

static double lift_of(check_bench *b, check_trial t, const char *zone)
{
    check_try_mix(b, t);
    return check_cell_at(b, zone, b->scene.until_min).levels_lifted;
}

/* ---- C9 to C16: lift ------------------------------------------------------------------------------- */

static void sessions(check_bench *b, double *x)
{
    x[0] = lift_of(b, (check_trial){.mix = "powder-6", .pct = 9, .celsius = 25, .minutes = 30, .sessions = 3},
                   "undyed dark") /
           lift_of(b, (check_trial){.mix = "powder-6", .pct = 3, .celsius = 25, .minutes = 30, .sessions = 5},
                   "undyed dark");
}

static void damage_at_equal_lift(check_bench *b, double *x)
{
    double lost[2];
    for (int i = 0; i < 2; i++) {
        check_try_mix(b, (check_trial){.mix = "powder-6", .pct = 3 * (i + 1), .minutes = 240});
        lost[i] = check_cell_at(b, "undyed", check_lift_time(b, 3.5)).cystine_lost;
    }
    x[0] = lost[1] / lost[0];
}

static void stronger_powder(check_bench *b, double *x)
{
    x[0] = lift_of(b, (check_trial){.mix = "powder-6", .pct = 9, .minutes = 30}, "undyed") /
           lift_of(b, (check_trial){.mix = "powder-6", .minutes = 30}, "undyed");
}

static void cream_lift(check_bench *b, double *x)
{
    for (int i = 0; i < 4; i++) {
        x[i] =
            lift_of(b, (check_trial){.mix = "peroxide-6-cream", .pct = 3 * (i + 1), .minutes = 45}, "undyed");
    }
}

static void powder_lift(check_bench *b, double *x)
{
    check_try_mix(b, (check_trial){.mix = "powder-6", .minutes = 90});
    x[0] = check_lift_time(b, 3.5);
}

enum { DYES = 8 };
static const char *const ORDER[DYES] = {"violet", "blue",   "pink", "green",
                                        "yellow", "orange", "red",  "resistant-blue"};

static void with_water(check_bench *b, double *x)
{
    x[0] = HUGE_VAL;
    x[1] = 0;
    for (int i = 0; i < DYES - 1; i++) {
        const double six = check_half_time(b, (check_trial){.mix = "powder-6", .minutes = 240}, ORDER[i]);
        const double water =
            check_half_time(b, (check_trial){.mix = "powder-water", .minutes = 240}, ORDER[i]);
        x[0] = fmin(x[0], water / six);
        x[1] = fmax(x[1], water / six);
    }
}

static void order_of_dyes(check_bench *b, double *x)
{
    double half[DYES];
    for (int i = 0; i < DYES; i++) {
        half[i] = check_half_time(b, (check_trial){.mix = "powder-6", .minutes = 240}, ORDER[i]);
    }
    x[0] = fmin(half[1], half[2]) / half[0];
    x[1] = half[3] / fmax(half[1], half[2]);
    for (int i = 4; i < DYES; i++) {
        x[i - 2] = half[i] / half[i - 1];
    }
}

static void neutral(check_bench *b, double *x)
{
    x[0] = lift_of(b, (check_trial){.mix = "bath", .ph = 7, .minutes = 60}, "undyed");
}

static void powder_beside_cream(check_bench *b, double *x)
{
    x[0] = lift_of(b, (check_trial){.mix = "powder-6", .minutes = 45}, "undyed") /
           lift_of(b, (check_trial){.mix = "peroxide-6-cream", .minutes = 45}, "undyed");
}

static void persulfate_boosts(check_bench *b, double *x)
{
    x[0] = lift_of(b, (check_trial){.mix = "powder-6", .minutes = 45}, "undyed") /
           lift_of(b, (check_trial){.mix = "powder-6", .minutes = 45, .spent = true}, "undyed");
}

/* ---- C17 to C22 -----------------------------------------------------------------------------------------
 */

static void warmer(check_bench *b, double *x)
{
    x[0] = check_half_time(b, (check_trial){.mix = "powder-6", .celsius = 25, .minutes = 240}, "red") /
           check_half_time(b, (check_trial){.mix = "powder-6", .celsius = 35, .minutes = 240}, "red");
}

/* Minutes to a level lifted, or to so much cystine lost, of the solved trial. */
static double minutes_to(const check_bench *b, double cystine_lost)
{
    double low = 0;
    double high = b->scene.until_min;
    if (cystine_lost <= 0) {
        return check_lift_time(b, 1);
    }
    for (int i = 0; i < 60; i++) {
        const double middle = (low + high) / 2;
        if (check_cell_at(b, "undyed", middle).cystine_lost < cystine_lost) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return high;
}

static void warmer_lift_and_stress(check_bench *b, double *x)
{
    static const double lost[] = {0, 0.05};
    for (int i = 0; i < 2; i++) {
        check_try_mix(b, (check_trial){.mix = "powder-6", .celsius = 25, .minutes = 240});
        x[i] = minutes_to(b, lost[i]);
        check_try_mix(b, (check_trial){.mix = "powder-6", .celsius = 35, .minutes = 240});
        x[i] /= minutes_to(b, lost[i]);
    }
}

static void twice_as_strong(check_bench *b, double *x)
{
    x[0] = check_half_time(b, (check_trial){.mix = "powder-6", .minutes = 240}, "red") /
           check_half_time(b, (check_trial){.mix = "powder-6", .pct = 12, .minutes = 240}, "red");
}

/* The highest rate with persulfate of a class. */
static double by_persulfate(const check_bench *b, sl_dye_class class_)
{
    double k = 0;
    for (int i = 0; i < b->scene.n_dyes; i++) {
        k = b->dyes[i].class_ == class_ ? fmax(k, b->dyes[i].rates.k[SL_PERSULFATE].value) : k;
    }
    return k;
}

static void choosy(check_bench *b, double *x)
{
    x[0] = by_persulfate(b, SL_DYE_TRIARYLMETHANE) / by_persulfate(b, SL_DYE_XANTHENE);
}

static void survives(check_bench *b, double *x)
{
    double next = HUGE_VAL;
    for (int i = 0; i < b->scene.n_dyes; i++) {
        const sl_dye *dye = &b->dyes[i];
        next = dye->class_ != SL_DYE_HINDERED_TRIARYLMETHANE ? fmin(next, dye->rates.k[SL_PERSULFATE].value)
                                                             : next;
    }
    x[0] = next / by_persulfate(b, SL_DYE_HINDERED_TRIARYLMETHANE);
}

static double lift_rate(const check_bench *b, double minutes)
{
    return check_cell_at(b, "undyed", minutes + 0.5).levels_lifted -
           check_cell_at(b, "undyed", minutes - 0.5).levels_lifted;
}

static void course_of_lift(check_bench *b, double *x)
{
    check_try_mix(b, (check_trial){.mix = "powder-6", .minutes = 61});
    double peak = 0;
    for (double m = 1; m <= 60; m += 0.25) {
        if (lift_rate(b, m) > peak) {
            peak = lift_rate(b, m);
            x[0] = m;
        }
    }
    x[1] = 100 * lift_rate(b, 59.5) / peak;
}

static void fastest_at(check_bench *b, double *x)
{
    double both[2] = {0, 0};
    course_of_lift(b, both);
    x[0] = both[0];
}

static void late_share(check_bench *b, double *x)
{
    double both[2] = {0, 0};
    course_of_lift(b, both);
    x[0] = both[1];
}

static void mix_age(check_bench *b, double *x)
{
    double left[2];
    for (int i = 0; i < 2; i++) {
        check_try_mix(b, (check_trial){.mix = "powder-6", .age_min = 30 * i, .minutes = 30});
        left[i] = check_cell_at(b, "red", 30).colour_left;
    }
    x[0] = 100 * (left[1] - left[0]);
}

#define LADDER "m.earticle.net A470066 (abstract)"

static const check_row ROWS[] = {
    {.id = "C9",
     .kind = CHECK_DIRECTION,
     .source = LADDER,
     .unit = "",
     .decimals = 2,
     .n = 1,
     .target =
         "three sessions at 9 % end at step 19 of 20, five at 3 % at step 17: from black hair (step 4 to 6) "
         "1.15 to 1.18 times as far (here 30 min of powder, 25 °C, level 2; the study's are not said)",
     .range = {{1.05, 1.30}},
     .why = "one step of the chart to either side of the two between them",
     .null = &CHECK_NO_STRENGTH,
     .measure = sessions},
    {.id = "C10",
     .kind = CHECK_DIRECTION,
     .source = LADDER ", cuticle by microscope",
     .unit = "",
     .decimals = 3,
     .n = 1,
     .target =
         "at equal lightness 6 % has done more damage than 3 % (here cystine at 3.5 levels, 6 % over 3 %)",
     .range = {{1.05, CHECK_OPEN}},
     .why = "a direction; less than 5 % more is no difference to see (ours)",
     .evidence = "the rate of cystine with persulfate was chosen by it",
     .null = &CHECK_DAMAGE_BY_LIFT,
     .measure = damage_at_equal_lift},
    {.id = "C11",
     .kind = CHECK_TRADE,
     .source = "none",
     .unit = " levels",
     .decimals = 2,
     .n = 4,
     .target = "cream of 10, 20, 30, 40 vol, 1:1, 45 min",
     .range = {{0, 1}, {1, 2}, {2, 3}, {3, 4}},
     .why = "a level each",
     .evidence = "a convention, and the 20 vol lift was a fit point (at another pH)",
     .null = &CHECK_NO_STRENGTH,
     .measure = cream_lift},
    {.id = "C12",
     .kind = CHECK_TRADE,
     .source = "none",
     .unit = " min",
     .decimals = 1,
     .n = 1,
     .target = "powder + 6 % lifts 3.5 levels in 30 to 45 min",
     .range = {{35, 42}},
     .why = "inside the convention",
     .evidence = "a fit point",
     .null = &CHECK_NO_PEROXIDE,
     .measure = powder_lift},
    {.id = "C13",
     .kind = CHECK_TRADE,
     .source = "none",
     .unit = "",
     .decimals = 1,
     .n = 2,
     .target = "half of a direct dye leaves 2 to 3.5 times as slowly with water as with 6 % (least, most)",
     .range = {{2, 3.5}, {2, 3.5}},
     .why = "the convention",
     .evidence = "the half-times were fit points",
     .null = &CHECK_NO_PEROXIDE,
     .measure = with_water},
    {.id = "C14",
     .kind = CHECK_TRADE,
     .source = "none",
     .unit = "",
     .decimals = 2,
     .n = 6,
     .target =
         "half-times with 6 %: violet < blue, pink < green < yellow < orange < red < a blue that stays (each "
         "over the one before)",
     .range = {{1.01, CHECK_OPEN},
               {1.01, CHECK_OPEN},
               {1.01, CHECK_OPEN},
               {1.01, CHECK_OPEN},
               {1.01, CHECK_OPEN},
               {1.01, CHECK_OPEN}},
     .why = "an order",
     .evidence = "the order was put in",
     .null = &CHECK_DYES_ALIKE,
     .measure = order_of_dyes},
    {.id = "C15",
     .kind = CHECK_DIRECTION,
     .unit = " levels",
     .decimals = 4,
     .n = 1,
     .target = "melanin is very resistant to neutral peroxide in the dark (6 %, 60 min)",
     .source = "Korytowski & Sarna (1990), J. Biol. Chem. 265:12410 (abstract)",
     .range = {{0, 0.1}},
     .why = "a tenth of a level: less than an eye tells (ours); the source has no number",
     .null = &CHECK_NO_PH,
     .measure = neutral},
    {.id = "C16a",
     .kind = CHECK_DIRECTION,
     .unit = "",
     .decimals = 2,
     .n = 1,
     .target = "a powder bleach lightens more than a weak lightener (here cream of 6 %, 45 min)",
     .source = "Imai (2011), Okajimas Folia Anat. Jpn 88:1–9 (abstract and page)",
     .range = {{1.05, CHECK_OPEN}},
     .why = "a direction: strength and pH differ too",
     .null = &CHECK_NO_PERSULFATE,
     .measure = powder_beside_cream},
    {.id = "C16b",
     .kind = CHECK_DIRECTION,
     .unit = "",
     .decimals = 2,
     .n = 1,
     .target = "persulfate boosts peroxide to \"much more dramatic\" lightening (lift of powder + 6 % over "
               "the same "
               "with its oxidants spent, 45 min)",
     .source = "the chapter (4), p. 144 (page)",
     .range = {{1.5, CHECK_OPEN}},
     .why = "less than half as much again is nothing dramatic (ours)",
     .null = &CHECK_NO_PERSULFATE,
     .measure = persulfate_boosts},
    {.id = "C17",
     .kind = CHECK_OUTSIDE,
     .unit = "",
     .decimals = 2,
     .n = 1,
     .target = "25 to 35 °C makes a dye leave 1.8 to 2.5 times as fast (red, half-time)",
     .source = "43 to 71 kJ/mol: Thompson et al. (1993), Menek et al. (2006) (abstract)",
     .range = {{1.8, 2.5}},
     .why = "the band of the energies",
     .evidence = "the activation energy was chosen inside that range",
     .null = &CHECK_NO_TEMPERATURE,
     .measure = warmer},
    {.id = "C17b",
     .kind = CHECK_TRADE,
     .unit = "",
     .decimals = 2,
     .n = 2,
     .target = "and a level lifted and 5 % of cystine lost come as much sooner (powder + 6 %)",
     .source = "none",
     .range = {{1.8, 2.5}, {1.8, 2.5}},
     .why = "as C17: ten degrees twice as fast",
     .evidence = "a convention",
     .null = &CHECK_NO_TEMPERATURE,
     .measure = warmer_lift_and_stress},
    {.id = "C18",
     .kind = CHECK_DIRECTION,
     .unit = "",
     .decimals = 2,
     .n = 1,
     .target = "12 % is at most twice as fast as 6 % on dyes (red, half-time)",
     .source = "saturation: Salem & El-Maazawi (2001), Katafias et al. (2010) (abstract)",
     .range = {{1, 2}},
     .why = "twice is first order",
     .evidence = "true by construction: no channel is of more than first order",
     .null = &CHECK_NO_SATURATION,
     .measure = twice_as_strong},
    {.id = "C19",
     .kind = CHECK_OUTSIDE,
     .unit = "",
     .decimals = 1,
     .n = 1,
     .target = "persulfate alone, two cationic dyes: methylene blue 20 times as fast as rhodamine B (here a "
               "triarylmethane over a xanthene; the third dye, Orange II, is anionic and in no class here)",
     .source = "Yang et al. (2021), Water Sci. Technol. 83(11):2744 (abstract; ratio by arithmetic)",
     .range = {{6.7, 60}},
     .why = "a factor of three: other dyes of the same classes (ours)",
     .evidence = "the order was put in from this source",
     .null = &CHECK_DYES_ALIKE,
     .measure = choosy},
    {.id = "C20",
     .kind = CHECK_DIRECTION,
     .unit = "",
     .decimals = 1,
     .n = 1,
     .target = "a dye known to survive bleach leaves slowest (the next slowest over it, with persulfate)",
     .source = "the chapter (4), p. 145 (page)",
     .range = {{1.01, CHECK_OPEN}},
     .why = "an order",
     .evidence = "put in",
     .null = &CHECK_DYES_ALIKE,
     .measure = survives},
    {.id = "C21a",
     .kind = CHECK_TRADE,
     .source = "none",
     .unit = " min",
     .decimals = 0,
     .n = 1,
     .target = "powder + 6 % lifts fastest at 20 to 30 min",
     .range = {{15, 30}},
     .why = "the convention",
     .evidence = "a convention",
     .null = &CHECK_NO_SWELLING,
     .measure = fastest_at},
    {.id = "C21b",
     .kind = CHECK_TRADE,
     .source = "none",
     .unit = " %",
     .decimals = 0,
     .n = 1,
     .target = "and slowly by 60 min (share of the fastest)",
     .range = {{0, 50}},
     .why = "the convention",
     .evidence = "a convention",
     .null = &CHECK_NO_LOSS,
     .measure = late_share},
    {.id = "C22",
     .kind = CHECK_DIRECTION,
     .unit = " points",
     .decimals = 1,
     .n = 1,
     .target = "same dwell, mix up to 30 min old: a small difference (red left)",
     .source = "none (no measurement found)",
     .range = {{-2, 2}},
     .why = "2 points (ours)",
     .evidence = "consistent, but there are no data",
     .null = &CHECK_NO_LOSS,
     .measure = mix_age},
    {.id = "L03",
     .kind = CHECK_DIRECTION,
     .unit = "",
     .decimals = 2,
     .n = 1,
     .target = "ammonium persulfate 1:2 by weight is brighter with 9 % than with 6 % (lift at 30 min, 9 % "
               "over 6 %)",
     .source = "Jeong et al. (2010), J. Dermatol. 37(10) (abstract)",
     .range = {{1.05, CHECK_OPEN}},
     .why = "a direction; less than 5 % more is no difference to see (ours)",
     .null = &CHECK_NO_STRENGTH,
     .measure = stronger_powder},
};

void check_lift_and_dyes(check_table *t, check_bench *b)
{
    check_rows(t, b, ROWS, sizeof ROWS / sizeof ROWS[0]);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Check targets that were asked after model 2 had its constants: published numbers that had been read and not
 * used. Target, tolerance and null model were committed before the model was run on them. Sources:
 * docs/science.md, docs/decisions/outside-numbers.md.
 */
#include "check_bench.h"

#include "slowlift/solution.h"

static double rate(const check_bench *b, const char *zone, int channel)
{
    const int z = check_zone_named(&b->scene, zone);
    return b->dyes[b->scene.zones[z].recipe.dye[0]].rates.k[channel].value;
}

/* Of a dye that is all in solution: 8.0 g/L of sodium sulfite, 48 h, a room's temperature. */
static void azo_by_sulfite(check_bench *b, double *x)
{
    const double minutes = 48 * 60;
    check_try_mix(b, (check_trial){.mix = "",
                                   .ph = 9,
                                   .agent = SL_REDUCTANT_SULFITE,
                                   .agent_mol_l = 8.0 / 126.037,
                                   .celsius = 25,
                                   .minutes = minutes});
    x[0] = 100 * (1 - check_cell_at(b, "red", minutes).colour_left);
}

/* With two parts of water: the claim says "in water" alone. */
static double ph_of_claim(check_bench *b, double persulfate, double percarbonate)
{
    b->mix = (sl_mix){.mechanism = SL_MECHANISM_OXIDATIVE,
                      .activity = 1,
                      .ph_computed = true,
                      .powder_parts = 1,
                      .water_parts = 2,
                      .ammonium_persulfate = persulfate,
                      .percarbonate = percarbonate};
    sl_mix_settle(&b->mix, &b->scene.chemistry);
    check_prepare(b);
    return sl_mix_ph(&b->mix, SL_ZERO_C_K + 25);
}

static void ends_of_the_claim(check_bench *b, double *x)
{
    x[0] = ph_of_claim(b, 0.71, 0.25);
    x[1] = ph_of_claim(b, 0.25, 0.71);
}

/* Lost after the first and after the third of three bleachings. */
static void lipids_lost(check_bench *b, double *x)
{
    static const double minutes[] = {30, 3 * 33};
    check_try_mix(b, (check_trial){.mix = "powder-6", .minutes = 30, .sessions = 3});
    for (int i = 0; i < 2; i++) {
        sl_moment moment;
        sl_timeline_moment(b->timeline, 0, check_zone_named(&b->scene, "undyed"), minutes[i], &moment);
        x[i] = 100 * -expm1(-b->scene.chemistry.lipids_loss.value * moment.rim_dose[SL_RADICAL]);
    }
}

/* Over the middle, by logarithms, of 1e-2 to 1e-4 L/(mol s) in water. */
static void slower_than_in_water(check_bench *b, double *x)
{
    check_prepare(b);
    x[0] = rate(b, "red", SL_PERHYDROXYL) / CHECK_AZO_IN_WATER;
}

static void radicals_tell_dyes_apart(check_bench *b, double *x)
{
    check_prepare(b);
    x[0] = rate(b, "red", SL_RADICAL) / rate(b, "violet", SL_RADICAL);
}

static const check_row ROWS[] = {
    {.id = "A1",
     .kind = CHECK_OUTSIDE,
     .unit = " %",
     .decimals = 0,
     .n = 1,
     .target = "8.0 g/L of sodium sulfite, 48 h, dark: 25.6 % of Congo red lost, in solution (here the "
               "cationic azo class, whose rate is of methyl orange; 25 °C is assumed)",
     .source = "a study of the photoreductive decolorization of azo dyes by sulfite (authors and journal not "
               "seen) (abstract)",
     .range = {{9.4, 58.8}},
     .why = "a factor of three in the rate: one dye, as P14",
     .null = &CHECK_AGENTS_ALIKE,
     .measure = azo_by_sulfite},
    {.id = "E20",
     .kind = CHECK_OUTSIDE,
     .unit = "",
     .decimals = 1,
     .n = 2,
     .target =
         "powder of ammonium persulfate (25 % and more), percarbonate (25 % and more) and 4 % of silica: "
         "pH 8.5 to 11 in water by their ratio, here at its two ends",
     .source = "US patent 4,247,537 (1981), claim 1 (page)",
     .range = {{8.0, 9.0}, {10.5, 11.5}},
     .why = "0.5: the claim has halves, and neither how much water nor how warm",
     .null = &CHECK_NO_PERCARBONATE,
     .measure = ends_of_the_claim},
    {.id = "D22",
     .kind = CHECK_DIRECTION,
     .unit = " %",
     .decimals = 0,
     .n = 2,
     .target =
         "one bleaching took no lipids that could be measured, repeated ones did (here 30 min of powder + "
         "6 %, once and three times; share of the cuticle's lipids lost)",
     .source = "Exog. Dermatol. 3:273 (2004), authors not seen (abstract)",
     .range = {{0, 20}, {20, 100}},
     .why = "a fifth: what an analysis of swatches tells (ours)",
     .evidence = "in view when the loss of lipids was assumed, which does not follow it",
     .null = &CHECK_ONE_OPENING,
     .measure = lipids_lost},
    {.id = "P21",
     .kind = CHECK_OUTSIDE,
     .unit = "",
     .decimals = 3,
     .n = 1,
     .target =
         "a dye reacts about 100 times as slowly in a wet polymer as in water (here red with HO2⁻, over "
         "the middle of what azo dyes do in water, 0.06 L/(mol min))",
     .source = "Abbott et al. (2009), J. Phys. Chem. A 113:6091–6103 (abstract); Oakes & Gratton (1998), J. "
               "Chem. Soc. Perkin Trans. 2:2569–2576 (abstract)",
     .range = {{0.002, 0.05}},
     .why = "a factor of five: cellophane and a radical, one dye",
     .null = &CHECK_AS_IN_WATER,
     .measure = slower_than_in_water},
    {.id = "K17",
     .kind = CHECK_OUTSIDE,
     .unit = "",
     .decimals = 2,
     .n = 1,
     .target = "hydroxyl radicals take azo-naphthols 1.4 to 10 times as fast as triarylmethanes (1.0e10 to "
               "1.2e10 over 1.1e9 and 8.0e9 L/(mol s); here red over violet)",
     .source = "Sharma et al. (2002), J. Phys. Chem. A 106:2915 (page); Bhasikuttan et al. (1995), J. "
               "Photochem. Photobiol. A, 177–182 (abstract)",
     .range = {{1.16, 12.0}},
     .why = "from the least to the most of what the sources' errors allow",
     .evidence = "both numbers were in view when the radical's rates were assumed",
     .null = &CHECK_DYES_ALIKE,
     .measure = radicals_tell_dyes_apart},
};

void check_later(check_table *t, check_bench *b)
{
    check_rows(t, b, ROWS, sizeof ROWS / sizeof ROWS[0]);
}

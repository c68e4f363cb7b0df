/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a spot of hair holds -> its colour for one viewing. An sl_optics is the basis of one
 * scene: the spectrum of every pigment that can be in it, and what each band is worth in X, Y, Z.
 * A colour is summed over 41 bands of 10 nm; spectra that people see have all 81.
 * Invariant: an sl_optics is never written after sl_optics_new, so threads may share it.
 *
 *   q(l) = keratin(l) + oxidised * yellowed(l) + sum over melanin stages pool * spectrum(l)
 *        + sum over dyes of the recipe strength * left * spectrum(l) + sum over stains
 *   B(l) = exp(-sqrt(2 (q(l) + q0)))
 *   R(l) = k1 + (1 - k1) B(l)                             dry
 *   R(l) = k1w + (1 - k1w) (1 - p) B(l) / (1 - p B(l))    wet            docs/colour.md
 */
#include "optics/tress.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "optics/absorbers.h"
#include "optics/observer.h"

enum { YELLOWED = SL_MELANINS * SL_STAGES, FIRST_DYE };

struct sl_optics {
    int n_pigments;
    bool wide;     /* this processor has wide vectors */
    bool daylight; /* white is the screen's own: no adaptation */
    sl_look look;
    sl_xyz white;       /* of the viewing, Y = 1 */
    double adapt[3][3]; /* from that white to the screen's */
    sl_byte_steps bytes;
    double keratin[SL_BANDS];
    double (*pigment)[SL_BANDS];              /* [n_pigments][band]: melanin kind by stage, yellowed, dyes */
    double paint_weight[3][SL_PAINT_PADDED];  /* [X Y Z][band]: what a band is worth */
    double paint_keratin[SL_PAINT_PADDED];    /* with q0 */
    double (*paint_pigment)[SL_PAINT_PADDED]; /* [n_pigments][band] */
};

/* ---- the basis --------------------------------------------------------------------------- */

/* Every second band, then padding. */
static void thin(const double spectrum[SL_BANDS], double paint[SL_PAINT_PADDED])
{
    memset(paint, 0, SL_PAINT_PADDED * sizeof *paint);
    for (int band = 0; band < SL_PAINT_BANDS; band++) {
        paint[band] = spectrum[2 * band];
    }
}

/* Gives the weight of a band that is left out to the kept ones around it, as Lagrange's
 * interpolation of the reflectance does: four bands (-1 9 9 -1)/16, or three at either end
 * (3 6 -1)/8. The fine structure of a light is so kept whole. */
static void share_out(double weight, int after, double kept[SL_PAINT_PADDED])
{
    const int last = SL_PAINT_BANDS - 1;
    if (after == 0 || after == last - 1) {
        const int step = after == 0 ? 1 : -1;
        const int first = after == 0 ? 0 : last;
        kept[first] += 0.375 * weight;
        kept[first + step] += 0.75 * weight;
        kept[first + 2 * step] -= 0.125 * weight;
        return;
    }
    kept[after - 1] -= 0.0625 * weight;
    kept[after] += 0.5625 * weight;
    kept[after + 1] += 0.5625 * weight;
    kept[after + 2] -= 0.0625 * weight;
}

static void fill_weights(sl_optics *optics, sl_viewing viewing)
{
    double weight[3][SL_BANDS];
    sl_observer_weights(viewing.observer, viewing.light, weight);
    for (int axis = 0; axis < 3; axis++) {
        thin(weight[axis], optics->paint_weight[axis]);
        for (int band = 1; band < SL_BANDS; band += 2) {
            share_out(weight[axis][band], band / 2, optics->paint_weight[axis]);
        }
    }
}

static void fill_viewing(sl_optics *optics, sl_viewing viewing)
{
    optics->look = viewing.look;
    optics->daylight = viewing.observer == SL_OBSERVER_2_DEGREE && viewing.light == SL_LIGHT_D65;
    const sl_xyz screen = sl_white_d65();
    optics->white = optics->daylight ? screen : sl_white(viewing.observer, viewing.light);
    for (int axis = 0; axis < 3; axis++) {
        const sl_xyz unit = {axis == 0 ? 1.0 : 0.0, axis == 1 ? 1.0 : 0.0, axis == 2 ? 1.0 : 0.0};
        const sl_xyz moved = sl_adapt(unit, optics->white, screen);
        optics->adapt[0][axis] = moved.X;
        optics->adapt[1][axis] = moved.Y;
        optics->adapt[2][axis] = moved.Z;
    }
    sl_byte_steps_fill(&optics->bytes);
    fill_weights(optics, viewing);
}

static void fill_basis(sl_optics *optics, const sl_scene *scene)
{
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        for (int stage = 0; stage < SL_STAGES; stage++) {
            sl_melanin_spectrum(&scene->chemistry, kind, stage, optics->pigment[kind * SL_STAGES + stage]);
        }
    }
    sl_yellowed_spectrum(&scene->chemistry, optics->pigment[YELLOWED]);
    for (int dye = 0; dye < scene->n_dyes; dye++) {
        sl_dye_spectrum(&scene->dyes[dye], optics->pigment[FIRST_DYE + dye]);
    }
    for (int pigment = 0; pigment < optics->n_pigments; pigment++) {
        thin(optics->pigment[pigment], optics->paint_pigment[pigment]);
    }
    sl_keratin_spectrum(optics->keratin);
    double with_leak[SL_BANDS];
    for (int band = 0; band < SL_BANDS; band++) {
        with_leak[band] = optics->keratin[band] + SL_LEAK;
    }
    thin(with_leak, optics->paint_keratin);
}

sl_optics *sl_optics_new(const sl_scene *scene, sl_error *error)
{
    const sl_viewing plain = {SL_OBSERVER_2_DEGREE, SL_LIGHT_D65, SL_LOOK_DRY};
    return sl_optics_new_for(scene, plain, error);
}

sl_optics *sl_optics_new_for(const sl_scene *scene, sl_viewing viewing, sl_error *error)
{
    assert(scene != NULL && scene->n_dyes >= 0);
    sl_optics *optics = sl_new(1, sizeof *optics, "preparing colours", error);
    if (optics == NULL) {
        return NULL;
    }
    optics->n_pigments = FIRST_DYE + scene->n_dyes;
    optics->wide = sl_has_wide_vectors();
    const size_t n = (size_t)optics->n_pigments;
    optics->pigment = sl_new(n, sizeof *optics->pigment, "preparing colours", error);
    optics->paint_pigment = sl_new(n, sizeof *optics->paint_pigment, "preparing colours", error);
    if (optics->pigment == NULL || optics->paint_pigment == NULL) {
        sl_optics_free(optics);
        return NULL;
    }
    fill_basis(optics, scene);
    fill_viewing(optics, viewing);
    return optics;
}

void sl_optics_free(sl_optics *optics)
{
    if (optics == NULL) {
        return;
    }
    sl_free(optics->pigment);
    sl_free(optics->paint_pigment);
    sl_free(optics);
}

/* ---- what is there ------------------------------------------------------------------------ */

/* An amount that rounding has left a hair below zero counts as none. */
static void add_part(sl_parts *parts, int pigment, double amount)
{
    if (amount > 0.0) {
        assert(parts->n < SL_MOST_PARTS);
        parts->pigment[parts->n] = pigment;
        parts->amount[parts->n++] = amount;
    }
}

static void add_dye(sl_parts *parts, const sl_optics *optics, int dye, double amount)
{
    assert(dye >= 0 && FIRST_DYE + dye < optics->n_pigments);
    (void)optics; /* when nothing is asserted */
    add_part(parts, FIRST_DYE + dye, amount);
}

static void list_parts(const sl_optics *optics, const sl_amounts *amounts, sl_parts *parts)
{
    parts->n = 0;
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        for (int stage = 0; stage < SL_STAGES; stage++) {
            add_part(parts, kind * SL_STAGES + stage, amounts->pool[kind][stage]);
        }
    }
    add_part(parts, YELLOWED, amounts->oxidised);
    const sl_recipe *const recipe = amounts->recipe;
    for (int i = 0; recipe != NULL && i < recipe->n_dyes; i++) {
        add_dye(parts, optics, recipe->dye[i], recipe->strength[i] * amounts->dye_left[i]);
    }
    for (int i = 0; i < amounts->n_stains; i++) {
        add_dye(parts, optics, amounts->stain_dye[i], amounts->stain[i]);
    }
    for (int i = parts->n; i % SL_LANES != 0; i++) {
        parts->pigment[i] = 0;
        parts->amount[i] = 0.0;
    }
}

void sl_optics_absorption(const sl_optics *optics, const sl_amounts *amounts, double q[SL_BANDS])
{
    sl_parts parts;
    list_parts(optics, amounts, &parts);
    memcpy(q, optics->keratin, sizeof optics->keratin);
    for (int part = 0; part < parts.n; part++) {
        const double *const spectrum = optics->pigment[parts.pigment[part]];
        for (int band = 0; band < SL_BANDS; band++) {
            q[band] += parts.amount[part] * spectrum[band];
        }
    }
}

/* ---- what it sends back ------------------------------------------------------------------- */

/* Of light that the body would send back, what gets out through the film of water. */
static double through_film(double body)
{
    return (1.0 - SL_FILM_INNER) * body / (1.0 - SL_FILM_INNER * body);
}

static double surface_of(sl_look look)
{
    return look == SL_LOOK_DRY ? SL_SURFACE : SL_WET_SURFACE;
}

void sl_look_reflectance(sl_look look, const double q[SL_BANDS], double reflectance[SL_BANDS])
{
    double padded[SL_PADDED] = {0.0};
    double body[SL_PADDED];
    for (int band = 0; band < SL_BANDS; band++) {
        padded[band] = q[band] + SL_LEAK;
    }
    sl_fade(padded, body);
    const double surface = surface_of(look);
    for (int band = 0; band < SL_BANDS; band++) {
        const double out = look == SL_LOOK_DRY ? body[band] : through_film(body[band]);
        reflectance[band] = surface + (1.0 - surface) * out;
    }
}

void sl_optics_reflectance(const double q[SL_BANDS], double reflectance[SL_BANDS])
{
    sl_look_reflectance(SL_LOOK_DRY, q, reflectance);
}

static sl_xyz weigh(const sl_optics *optics, const double body[SL_PAINT_PADDED])
{
    const double surface = surface_of(optics->look);
    const sl_xyz white = optics->white;
    double sum[3];
    sl_paint_weigh(optics->paint_weight, body, sum, optics->wide);
    return (sl_xyz){
        surface * white.X + (1.0 - surface) * sum[0],
        surface * white.Y + (1.0 - surface) * sum[1],
        surface * white.Z + (1.0 - surface) * sum[2],
    };
}

static sl_xyz adapted(const sl_optics *optics, sl_xyz xyz)
{
    const double(*const m)[3] = optics->adapt;
    return (sl_xyz){
        m[0][0] * xyz.X + m[0][1] * xyz.Y + m[0][2] * xyz.Z,
        m[1][0] * xyz.X + m[1][1] * xyz.Y + m[1][2] * xyz.Z,
        m[2][0] * xyz.X + m[2][1] * xyz.Y + m[2][2] * xyz.Z,
    };
}

void sl_optics_paint(const sl_optics *optics, const sl_amounts *amounts, sl_colour *colour)
{
    sl_parts parts;
    double body[SL_PAINT_PADDED];
    list_parts(optics, amounts, &parts);
    sl_paint_body(&parts, (const double(*)[SL_PAINT_PADDED])optics->paint_pigment, optics->paint_keratin,
                  body, optics->wide);
    if (optics->look != SL_LOOK_DRY) {
        for (int band = 0; band < SL_PAINT_PADDED; band++) {
            body[band] = through_film(body[band]);
        }
    }
    const sl_xyz xyz = weigh(optics, body);
    colour->lab = sl_lab_relative(xyz, optics->white);
    const sl_xyz screen = optics->daylight ? xyz : adapted(optics, xyz);
    colour->srgb = sl_srgb8_by_steps(&optics->bytes, screen, &colour->clipped);
}

sl_lab sl_optics_untouched(const sl_optics *optics, const sl_hair *hair, const sl_recipe *recipe)
{
    sl_amounts amounts = {.recipe = recipe->n_dyes > 0 ? recipe : NULL,
                          .oxidised = fmin(fmax(1.0 - hair->cystine_intact, 0.0), 1.0)};
    for (int i = 0; i < recipe->n_dyes; i++) {
        amounts.dye_left[i] = 1.0;
    }
    memcpy(amounts.pool, hair->pool, sizeof amounts.pool);
    sl_colour colour;
    sl_optics_paint(optics, &amounts, &colour);
    return colour.lab;
}

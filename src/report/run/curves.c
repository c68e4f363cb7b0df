/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See curves.h.
 */
#include "report/run/curves.h"

#include "base/language.h"
#include "report/reading.h"
#include "slowlift/report.h"

enum { POINTS = 61 };
static const double FIRST_NM = 380.0, LAST_NM = 780.0;

const sl_graph *sl_graph_of_spectra(sl_arena *arena, const sl_spectrum *spectra, int n, sl_error *error)
{
    sl_graph *const graph = sl_graph_new(arena, error);
    if (graph == NULL) {
        return NULL;
    }
    graph->x = (sl_graph_axis){FIRST_NM, LAST_NM, _("wavelength (nm)")};
    graph->y = (sl_graph_axis){0.0, 100.0, _("reflectance (%)")};
    for (int k = 0; k < n; k++) {
        double absorbed[SL_BANDS], reflectance[SL_BANDS];
        sl_graph_series *const series = sl_graph_add(graph, SL_GRAPH_CURVE, SL_BANDS, false, false);
        sl_optics_absorption(spectra[k].optics, &spectra[k].amounts, absorbed);
        sl_look_reflectance(spectra[k].look, absorbed, reflectance);
        for (int i = 0; series != NULL && i < SL_BANDS; i++) {
            series->x[i] = FIRST_NM + (LAST_NM - FIRST_NM) * i / (SL_BANDS - 1);
            series->y[i] = 100.0 * reflectance[i];
        }
        if (series != NULL) {
            series->dash = k == 0 ? SL_GRAPH_UNBROKEN : SL_GRAPH_LONG;
            series->label = spectra[k].label;
        }
    }
    return sl_graph_made(graph);
}

bool sl_has_left_curve(const sl_timeline *timeline, int arm)
{
    const sl_arm *const of = &sl_timeline_scene(timeline)->arms[arm];
    return !of->undyed && of->n_steps > 0 && sl_timeline_predicted(timeline, arm);
}

const sl_graph *sl_graph_of_left(sl_arena *arena, const sl_timeline *timeline, int zone, sl_error *error)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    sl_graph *const graph = sl_graph_new(arena, error);
    if (graph == NULL) {
        return NULL;
    }
    graph->title = sl_zone_title(&scene->zones[zone]);
    graph->x = (sl_graph_axis){0.0, scene->until_min, _("time on the scene's clock (min)")};
    graph->y = (sl_graph_axis){0.0, 100.0, _("colour left (% of the start)")};
    for (int arm = 0; arm < scene->n_arms; arm++) {
        sl_graph_series *const series = sl_has_left_curve(timeline, arm)
                                            ? sl_graph_add(graph, SL_GRAPH_CURVE, POINTS, false, false)
                                            : NULL;
        for (int i = 0; series != NULL && i < POINTS; i++) {
            series->x[i] = scene->until_min * i / (POINTS - 1);
            series->y[i] = 100.0 * sl_left_at(timeline, arm, zone, series->x[i]);
        }
        if (series != NULL) {
            series->dash = (sl_graph_dash)((graph->n_series - 1) % SL_GRAPH_DASHES);
            series->label = sl_graph_say(graph, "%d", arm + 1);
        }
    }
    return sl_graph_made(graph);
}

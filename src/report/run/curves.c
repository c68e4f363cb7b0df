/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See curves.h.
 */
#include "report/run/curves.h"

#include <math.h>

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

/* ---- over time --------------------------------------------------------------------------------- */

static int direct_zones(const sl_scene *scene, int zones[SL_MAX_ZONES])
{
    int n = 0;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (sl_zone_direct(scene, zone)) {
            zones[n++] = zone;
        }
    }
    return n;
}

static double left_of(const sl_cell *cell)
{
    return cell->colour_left;
}

static const struct {
    const char *heading, *axis; /* msgids; the axis with its unit, per cent */
    double most;                /* of the axis; 0: as the values need */
    int (*zones)(const sl_scene *scene, int zones[SL_MAX_ZONES]);
    double (*share)(const sl_cell *cell);
} courses[SL_COURSES] = {
    [SL_COURSE_LEFT] = {N_("What the model expects: colour left over time"),
                        N_("colour left (% of the start)"), 100.0, direct_zones, left_of},
};

const char *sl_course_words(sl_course_of what)
{
    return _(courses[what].heading);
}

int sl_course_zones(const sl_scene *scene, sl_course_of what, int zones[SL_MAX_ZONES])
{
    return courses[what].zones(scene, zones);
}

bool sl_has_course(const sl_timeline *timeline, int arm)
{
    const sl_arm *const of = &sl_timeline_scene(timeline)->arms[arm];
    return !of->undyed && of->n_steps > 0 && sl_timeline_predicted(timeline, arm);
}

/* Returns its highest value. */
static double add_course(sl_graph *graph, const sl_timeline *timeline, sl_course_of what, int zone, int arm)
{
    sl_graph_series *const series = sl_graph_add(graph, SL_GRAPH_CURVE, POINTS, false, false);
    double most = 0.0;
    for (int i = 0; series != NULL && i < POINTS; i++) {
        sl_cell cell;
        series->x[i] = graph->x.to * i / (POINTS - 1);
        sl_timeline_at(timeline, arm, zone, series->x[i], NULL, &cell);
        series->y[i] = 100.0 * courses[what].share(&cell);
        most = fmax(most, series->y[i]);
    }
    if (series != NULL) {
        series->dash = (sl_graph_dash)((graph->n_series - 1) % SL_GRAPH_DASHES);
        series->label = sl_graph_say(graph, "%d", arm + 1);
    }
    return most;
}

const sl_graph *sl_graph_of_course(sl_arena *arena, const sl_timeline *timeline, sl_course_of what, int zone,
                                   sl_error *error)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    double most = courses[what].most;
    sl_graph *const graph = sl_graph_new(arena, error);
    if (graph == NULL) {
        return NULL;
    }
    graph->title = sl_zone_title(&scene->zones[zone]);
    graph->x = (sl_graph_axis){0.0, scene->until_min, _("time on the scene's clock (min)")};
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const double highest =
            sl_has_course(timeline, arm) ? add_course(graph, timeline, what, zone, arm) : 0.0;
        most = courses[what].most > 0.0 ? most : fmax(most, highest);
    }
    graph->y = sl_graph_axis_up_to(fmax(most, 1.0), _(courses[what].axis));
    return sl_graph_made(graph);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The grades of the cotton and the judge who gives them; see observation.h. A judge sees the square root
 * of the share left with a normal error and says the nearest grade: an ordered probit model
 * (McKelvey & Zavoina 1975), with a lapse now and then.
 */
#include "slowlift/observation.h"
#include "base/language.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "estimate/observation_members.h"

typedef struct wipe_row {
    const char *word;
    double share;
} wipe_row;

#define AS_ROW(name, word, share) {word, share},
static const wipe_row rows[SL_WIPES] = {SL_WIPE_LIST(AS_ROW)};

const char *sl_wipe_word(sl_wipe wipe)
{
    assert(wipe < SL_WIPES);
    return rows[wipe].word;
}

double sl_wipe_share(sl_wipe wipe)
{
    assert(wipe < SL_WIPES);
    return rows[wipe].share;
}

static double step_at(int wipe)
{
    const int more = wipe > 0 ? wipe - 1 : wipe, less = wipe < SL_WIPES - 1 ? wipe + 1 : wipe;
    return (sl_wipe_share((sl_wipe)more) - sl_wipe_share((sl_wipe)less)) / (less - more);
}

double sl_wipe_step(double left)
{
    int less = SL_WIPES - 1;
    while (less > 1 && left > sl_wipe_share((sl_wipe)(less - 1))) {
        less--;
    }
    const double low = sl_wipe_share((sl_wipe)less), high = sl_wipe_share((sl_wipe)(less - 1));
    const double part = fmin(fmax((left - low) / (high - low), 0.0), 1.0);
    return (1.0 - part) * step_at(less) + part * step_at(less - 1);
}

bool sl_wipe_of_word(const char *word, sl_wipe *wipe)
{
    for (int i = 0; i < SL_WIPES; i++) {
        if (strcmp(word, rows[i].word) == 0) {
            *wipe = (sl_wipe)i;
            return true;
        }
    }
    return false;
}

/* ---- the judge ----------------------------------------------------------------------------- */

double sl_wipe_edge(int wipe)
{
    static const double FAR_OFF = 1e3;
    return wipe == 0          ? FAR_OFF
           : wipe == SL_WIPES ? -FAR_OFF
                              : 0.5 * (sqrt(rows[wipe - 1].share) + sqrt(rows[wipe].share));
}

static double below(const sl_judge *judge, double edge, double at)
{
    return 0.5 * erfc((at + judge->offset - edge) / (judge->spread * sqrt(2.0)));
}

static double chance_at(const sl_judge *judge, int wipe, double at)
{
    const double seen = below(judge, sl_wipe_edge(wipe), at) - below(judge, sl_wipe_edge(wipe + 1), at);
    return (1.0 - judge->lapse) * seen + judge->lapse / SL_WIPES;
}

double sl_wipe_chance(const sl_judge *judge, sl_wipe wipe, double left)
{
    assert(wipe < SL_WIPES);
    return chance_at(judge, (int)wipe, sqrt(fmin(fmax(left, 0.0), 1.0)));
}

sl_wipe sl_wipe_drawn(const sl_judge *judge, double left, double draw)
{
    int i = 0;
    double rest = draw - sl_wipe_chance(judge, (sl_wipe)i, left);
    while (rest > 0.0 && i < SL_WIPES - 1) {
        rest -= sl_wipe_chance(judge, (sl_wipe)++i, left);
    }
    return (sl_wipe)i;
}

double sl_wipe_agreement(const sl_judge *judge, sl_wipe wipe, double left)
{
    /* a normal curve holds most in an interval when it stands in its middle; shares end at 0 and 1 */
    const double middle = 0.5 * (sl_wipe_edge((int)wipe) + sl_wipe_edge((int)wipe + 1)) - judge->offset;
    return sl_wipe_chance(judge, wipe, left) / chance_at(judge, (int)wipe, fmin(fmax(middle, 0.0), 1.0));
}

static double mean_grade(const sl_judge *judge, double left)
{
    double mean = 0.0;
    for (int i = 0; i < SL_WIPES; i++) {
        mean += sl_wipe_chance(judge, (sl_wipe)i, left) * sl_wipe_share((sl_wipe)i);
    }
    return mean;
}

double sl_wipe_lean(const sl_judge *judge, double mean)
{
    enum { HALVINGS = 40 };
    double low = 0.0, high = 1.0;
    for (int i = 0; i < HALVINGS; i++) {
        const double middle = 0.5 * (low + high);
        if (mean_grade(judge, middle) < mean) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return fabs(mean - 0.5 * (low + high));
}

/* ---- entries --------------------------------------------------------------------------------- */

static bool zone_can_be_asked(const sl_scene *scene, int zone)
{
    if (zone != SL_OBSERVED_ALL_ZONES) {
        return zone >= 0 && zone < scene->n_zones && sl_zone_direct(scene, zone);
    }
    for (int z = 0; z < scene->n_zones; z++) {
        if (sl_zone_direct(scene, z)) {
            return true;
        }
    }
    return false;
}

static bool refuse(sl_error *error, int number, const char *what, const char *wanted)
{
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("entry %d of what was seen: %s"), number + 1, what);
    return sl_fail(error, SL_ERR_INCONSISTENT, found, wanted);
}

bool sl_observations_check(const sl_observations *observations, const sl_scene *scene, sl_error *error)
{
    if (observations->n < 0 || observations->n > SL_MOST_OBSERVATIONS) {
        return sl_fail(error, SL_ERR_TOO_LARGE, "so many things seen", "32");
    }
    for (int i = 0; i < observations->n; i++) {
        const sl_observation *const observation = &observations->observation[i];
        if (observation->arm < 0 || observation->arm >= scene->n_arms ||
            !sl_arm_removes(scene, &scene->arms[observation->arm])) {
            return refuse(error, i, _("no such strip, or one that is not predicted"),
                          _("name a strip with a mix"));
        }
        if (!zone_can_be_asked(scene, observation->zone)) {
            return refuse(error, i, _("no such zone, or one without direct dye"),
                          _("name a zone with direct dye"));
        }
        const double last = scene->until_min - scene->arms[observation->arm].contact_min;
        if (!(observation->minute > 0.0 && observation->minute <= last)) {
            return refuse(error, i, _("the minute lies outside the scene"),
                          _("give minutes from contact, above 0 and inside the scene"));
        }
        if (observation->wipe >= SL_WIPES) {
            return refuse(error, i, _("no such grade"), _("use one of the six grades"));
        }
    }
    return true;
}

bool observation_same(const sl_observation *one, const sl_observation *two)
{
    return one->arm == two->arm && one->zone == two->zone && one->wipe == two->wipe &&
           one->strand == two->strand && fabs(one->minute - two->minute) <= 0.0;
}

bool sl_observations_same(const sl_observations *one, const sl_observations *two)
{
    if (one->n != two->n) {
        return false;
    }
    for (int i = 0; i < one->n; i++) {
        if (!observation_same(&one->observation[i], &two->observation[i])) {
            return false;
        }
    }
    return true;
}

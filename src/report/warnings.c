/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See warnings.h.
 */
#include "report/warnings.h"

#include <stdarg.h>
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "report/plan/plan.h"
#include "slowlift/estimate.h"
#include "slowlift/optics.h"
#include "slowlift/plan.h"

enum { SENTENCE = 400 };

typedef struct sl_warner {
    const sl_scene *scene;
    sl_warning_taker *take;
    void *self;
} sl_warner;

__attribute__((format(printf, 2, 3))) static void warn(const sl_warner *warner, const char *format, ...)
{
    char sentence[SENTENCE];
    va_list given;
    va_start(given, format);
    vsnprintf(sentence, sizeof sentence, format, given);
    va_end(given);
    warner->take(warner->self, sentence);
}

static void put_minute(char text[64], double minute)
{
    sl_minute_words(SL_MINUTE_PLANNED, text, 64, "%g min", minute);
}

static void warn_of_step(const sl_warner *warner, const sl_arm *arm, int at)
{
    const sl_scene *const scene = warner->scene;
    const sl_step *const step = &arm->steps[at];
    const sl_mix *const mix = &scene->mixes[step->mix];
    const double off = arm->contact_min + sl_arm_minutes_before(arm, at) + step->duration_min;
    char until[64], end[64], time[64];
    bool cut_short = false;
    put_minute(until, scene->until_min);
    put_minute(end, off);
    put_minute(time, step->duration_min);
    sl_planned_dwell_s(mix, step, &cut_short);
    if (off > scene->until_min) {
        warn(warner, _("%s: its mix is on until %s, and \"until\" stops the scene's clock at %s"),
             sl_arm_title(arm), end, until);
    }
    if (cut_short) {
        warn(warner, _("%s: the label of %s ends before its %s on the hair are over, and the label holds"),
             sl_arm_title(arm), sl_mix_title(mix), time);
    }
}

/* A zone of hair as it is before anything is put on. */
static sl_lab looks(const sl_scene *scene, const sl_optics *optics, int zone)
{
    const sl_zone *const of = &scene->zones[zone];
    return sl_optics_untouched(optics, &scene->hairs[of->hair], &of->recipe);
}

static void warn_of_goals(const sl_warner *warner, const sl_optics *optics)
{
    const sl_scene *const scene = warner->scene;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        const double near = scene->aims.zone_near[zone];
        const sl_lab undyed = looks(scene, optics, sl_reference_zone(scene, zone));
        const double apart = sl_delta_e_2000(looks(scene, optics, zone), undyed);
        if (near > 0.0 && apart <= near) {
            warn(warner,
                 _("the goal of zone %s is reached before anything is put on: it lies %.1f from undyed"),
                 sl_zone_title(&scene->zones[zone]), apart);
        }
    }
}

/* Where the scene says of its class how long it is. */
static bool warn_of_class(const sl_warner *warner, sl_error *error)
{
    const sl_scene *const scene = warner->scene;
    const sl_plan_request request = sl_plan_request_of(scene);
    sl_plan_fit fit;
    sl_error why = {.code = SL_OK};
    if (scene->crew.class_min <= 0.0 || sl_scene_on_head(scene)) {
        return true;
    }
    if (sl_plan_fit_find(&fit, scene, &request, (int)lround(60.0 * scene->crew.class_min), &why)) {
        if (!fit.fits) {
            sl_plan_fit_each(&fit, warner->take, warner->self);
        }
        return true;
    }
    if (why.code == SL_ERR_NO_MEMORY) {
        *error = why;
        return false;
    }
    warn(warner, _("no plan can be made of its class: %s; %s"), _(why.found), _(why.wanted));
    return true;
}

bool sl_scene_warnings(const sl_scene *scene, sl_warning_taker *take, void *self, sl_error *error)
{
    const sl_warner warner = {scene, take, self};
    for (int a = 0; a < scene->n_arms; a++) {
        const sl_arm *const arm = &scene->arms[a];
        for (int at = sl_arm_next_application(arm, 0); at >= 0; at = sl_arm_next_application(arm, at + 1)) {
            warn_of_step(&warner, arm, at);
        }
    }
    if (!warn_of_class(&warner, error)) {
        return false;
    }
    if (sl_goal_near_undyed(scene)) {
        sl_optics *const optics = sl_optics_new(scene, error);
        if (!optics) {
            return false;
        }
        warn_of_goals(&warner, optics);
        sl_optics_free(optics);
    }
    return true;
}

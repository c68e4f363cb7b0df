/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which numbers of a timeline a report reads.
 */
#include "report/reading.h"

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "slowlift/estimate.h"
#include "slowlift/leave.h"

sl_report_options sl_report_options_default(void)
{
    return (sl_report_options){.width = 100, .zone = -1, .share = 0.5};
}

bool sl_zone_dyed(const sl_scene *scene, int arm, int zone)
{
    return !scene->arms[arm].undyed && scene->zones[zone].recipe.n_dyes > 0;
}

bool sl_reading_returns(const sl_timeline *timeline, int arm, int zone)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    return sl_zone_returns(scene, &scene->arms[arm], zone) && sl_timeline_predicted(timeline, arm);
}

bool sl_reading_cell(const sl_timeline *timeline, const sl_optics *optics, const sl_report_options *options,
                     int arm, int zone, double time_min, sl_cell *cell)
{
    const sl_scene *scene = sl_timeline_scene(timeline);
    const double clock = time_min + (options->from_contact ? scene->arms[arm].contact_min : 0.0);
    if (clock > scene->until_min) {
        return false;
    }
    sl_timeline_at(timeline, arm, zone, clock, optics, cell);
    return true;
}

int sl_reading_references(const sl_scene *scene, int zones[SL_MAX_ZONES])
{
    bool used[SL_MAX_ZONES] = {false};
    for (int zone = 0; zone < scene->n_zones; zone++) {
        used[sl_reference_zone(scene, zone)] = true;
    }
    int count = 0;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (used[zone]) {
            zones[count++] = zone;
        }
    }
    return count;
}

int sl_reading_zone(const sl_timeline *timeline, const sl_report_options *options)
{
    const sl_scene *scene = sl_timeline_scene(timeline);
    if (options->zone >= 0) {
        return options->zone;
    }
    int best = -1, best_count = -1;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (!sl_zone_direct(scene, zone)) {
            continue;
        }
        sl_meeting meeting[SL_MAX_ARMS];
        sl_same_colour_left(timeline, zone, options->share, meeting);
        int count = 0;
        for (int arm = 0; arm < scene->n_arms; arm++) {
            count += meeting[arm].reached ? 1 : 0;
        }
        if (count > best_count) {
            best = zone;
            best_count = count;
        }
    }
    return best;
}

bool sl_reading_has_minutes(const sl_scene *scene)
{
    return sl_leave_of(scene, 0, NULL).minutes;
}

double sl_settled_c(const sl_scene *scene)
{
    return sl_scene_temperature_k(scene, scene->until_min, scene->until_min) - SL_ZERO_C_K;
}

bool sl_viewing_usual(sl_viewing viewing)
{
    return viewing.light == SL_LIGHT_D65 && viewing.observer == SL_OBSERVER_2_DEGREE &&
           viewing.look == SL_LOOK_DRY;
}

void sl_viewing_words(sl_viewing viewing, char *text, size_t size)
{
    snprintf(text, size, "%s, %s, %s", _(sl_light_word(viewing.light)), _(sl_observer_word(viewing.observer)),
             _(sl_look_word(viewing.look)));
}

void sl_washing_words(const sl_arm *arm, char *text, size_t size)
{
    double rinse_min = 0.0;
    int shampoos = 0;
    for (int i = 0; i < arm->n_steps; i++) {
        rinse_min += arm->steps[i].kind == SL_STEP_RINSE ? arm->steps[i].duration_min : 0.0;
        shampoos += arm->steps[i].kind == SL_STEP_SHAMPOO ? arm->steps[i].shampoos : 0;
    }
    if (rinse_min <= 0.0 && shampoos == 0) {
        snprintf(text, size, _("nothing"));
        return;
    }
    char number[24], minutes[32];
    sl_short_number(rinse_min, 1, number, sizeof number);
    sl_minute_words(SL_MINUTE_PLANNED, minutes, sizeof minutes, "%s", number);
    snprintf(text, size, _("rinse %s min, %d shampoo%s"), minutes, shampoos, shampoos == 1 ? "" : "s");
}

void sl_chart_words(const sl_reading_words *words, char *text, size_t size)
{
    char level[16];
    sl_short_number(words->level, 1, level, sizeof level);
    if (words->of) {
        snprintf(text, size, _("level %s, %s, %s"), level, sl_tone_title(words->of), _(words->warmth));
    } else {
        snprintf(text, size, _("level %s, %s"), level, _(words->warmth));
    }
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings: every strip at the moment at which it is shown, from its timeline. Base and
 * hair are read in the undyed zone that serves the chosen one.
 */
#include "view/window/stage.h"

#include <math.h>

#include "swatch/strands.h"

static const double PAIR_MIN = 0.25; /* between two moments that are solved while it plays; of days, hours */

static double moment_of(const sl_stage *stage, const sl_meeting *meeting, int arm)
{
    if (stage->chosen.mode == SL_SAME_MINUTE) {
        return stage->chosen.now_min;
    }
    return meeting[arm].reached ? meeting[arm].time_min : sl_stage_scene(stage)->until_min;
}

/* The hair of every zone strand by strand. */
static void read_strands(const sl_stage *stage, const sl_story *story, int arm, double time_min, sl_look wet,
                         sl_strip_look *hair, double *left)
{
    const sl_scene *scene = story->scene;
    const sl_optics *optics = sl_stage_optics(stage, wet);
    const sl_strands strands = sl_swatch_spread(SL_STRAND_CV, (uint32_t)arm + 1U);
    hair->bleed = SL_USUAL_BLEED;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        sl_cell cell;
        sl_timeline_at(story->timeline, arm, zone, time_min, optics, &cell);
        sl_strand_colours(&strands, optics, &cell.amounts, cell.colour.srgb, stage->look.eyes.vision,
                          hair->colour[zone]);
        if (zone == stage->chosen.zone && left != NULL) {
            *left = cell.colour_left;
        }
    }
}

static bool same_of(const sl_stage_lane_of *one, const sl_stage_lane_of *two)
{
    return one->any && two->any && one->story == two->story && one->zone == two->zone &&
           one->vision == two->vision && one->viewing.look == two->viewing.look &&
           one->viewing.light == two->viewing.light && one->viewing.observer == two->viewing.observer;
}

/* What a reading of this side, so wet, is read of. */
static sl_stage_lane_of read_of(const sl_stage *stage, int side, sl_look wet)
{
    sl_stage_lane_of of = {.any = true,
                           .story = side == 0 ? 0 : stage->solved.changed,
                           .viewing = stage->look.eyes.viewing,
                           .vision = stage->look.eyes.vision};
    of.viewing.look = wet;
    return of;
}

/* The two moments around one that is shown while it plays; of one that holds still what is there is used. */
static const sl_stage_pair *pair_around(const sl_stage *stage, int side, int arm, double time_min,
                                        sl_look wet)
{
    const sl_story *const story = side == 0 ? &stage->solved.before : &stage->solved.after;
    sl_stage_pair *const pair = &stage->read.pair[side][arm];
    const sl_stage_lane_of of = read_of(stage, side, wet);
    const double apart = PAIR_MIN * sl_stage_stride_min(stage, time_min, 1);
    const double first = apart * floor(time_min / apart);
    const bool same = same_of(&pair->of, &of) && fabs(pair->apart_min - apart) < 1e-9;
    if (same && fabs(first - pair->first_min) < 1e-9) {
        return pair;
    }
    if (same && fabs(first - pair->first_min - apart) < 1e-9) {
        pair->hair[0] = pair->hair[1];
    } else {
        read_strands(stage, story, arm, first, wet, &pair->hair[0], NULL);
    }
    read_strands(stage, story, arm, fmin(first + apart, story->scene->until_min), wet, &pair->hair[1], NULL);
    pair->of = of;
    pair->first_min = first;
    pair->apart_min = apart;
    return pair;
}

static void mean_of(const sl_stage_pair *pair, double time_min, int n_zones, sl_strip_look *hair)
{
    const double part = (time_min - pair->first_min) / pair->apart_min;
    hair->bleed = pair->hair[0].bleed;
    for (int i = 0; i < n_zones * SL_STRANDS; i++) {
        const sl_fine_rgb one = pair->hair[0].colour[i / SL_STRANDS][i % SL_STRANDS];
        const sl_fine_rgb two = pair->hair[1].colour[i / SL_STRANDS][i % SL_STRANDS];
        hair->colour[i / SL_STRANDS][i % SL_STRANDS] =
            (sl_fine_rgb){sl_fine_between(one.r, two.r, part), sl_fine_between(one.g, two.g, part),
                          sl_fine_between(one.b, two.b, part)};
    }
}

/* The hair and the mix on it; while it plays between two moments, else as it is solved for this one. */
static void read_hair(const sl_stage *stage, const sl_story *story, int arm, sl_stage_reading *reading)
{
    const sl_scene *scene = story->scene;
    const sl_mix *mix = sl_eyes_mix(&stage->look.eyes, scene, &scene->arms[arm], reading->time_min);
    if (stage->chosen.playing) {
        const int side = story == &stage->solved.before ? 0 : 1;
        mean_of(pair_around(stage, side, arm, reading->time_min, reading->look), reading->time_min,
                scene->n_zones, &reading->hair);
        reading->left = sl_left_at(story->timeline, arm, stage->chosen.zone, reading->time_min);
    } else {
        read_strands(stage, story, arm, reading->time_min, reading->look, &reading->hair, &reading->left);
    }
    if (mix != NULL) {
        sl_strip_look_veil(&reading->hair, mix, stage->look.eyes.vision);
    }
}

static void read_arm(const sl_stage *stage, const sl_story *story, const sl_meeting *meeting, int arm,
                     sl_stage_reading *reading)
{
    const sl_scene *scene = story->scene;
    const double time = moment_of(stage, meeting, arm);
    *reading = (sl_stage_reading){
        .predicted = sl_timeline_predicted(story->timeline, arm),
        .reached = meeting[arm].reached,
        .time_min = time,
        .since_contact_min = time - scene->arms[arm].contact_min,
        .look = sl_eyes_look(&stage->look.eyes, &scene->arms[arm], time),
    };
    read_hair(stage, story, arm, reading);
    sl_cell cell;
    sl_timeline_at(story->timeline, arm, sl_reference_zone(scene, stage->chosen.zone), time, NULL, &cell);
    reading->moved = cell.base_moved;
    reading->levels = cell.levels_lifted;
    reading->stress = cell.cystine_lost;
}

/* As the strip is shown at each moment, without the mix on it. */
static void read_lane(const sl_stage *stage, int arm, sl_lane *lane)
{
    const sl_story *const story = sl_stage_story_now(stage, arm);
    const sl_arm *const strip = &story->scene->arms[arm];
    lane->predicted = sl_timeline_predicted(story->timeline, arm);
    for (int i = 0; i <= SL_LANE_MOMENTS && lane->predicted; i++) {
        const double time = story->scene->until_min * i / SL_LANE_MOMENTS;
        const sl_optics *const optics = sl_stage_optics(stage, sl_eyes_look(&stage->look.eyes, strip, time));
        sl_cell cell;
        sl_timeline_at(story->timeline, arm, stage->chosen.zone, time, optics, &cell);
        lane->colour[i] = sl_srgb8_seen(stage->look.eyes.vision, cell.colour.srgb);
    }
    const sl_limits limits = sl_limits_of(story->timeline, arm, NULL);
    lane->stop_min = limits.asked ? limits.stop_min[limits.stop] : -1.0;
    if (!sl_label_stop(story->scene, arm, &lane->label_min)) {
        lane->label_min = -1.0;
    }
}

/* False: it was read so already; else it is now. */
static bool differs(sl_stage_lane_of *of, sl_stage_lane_of now)
{
    const bool same = same_of(of, &now);
    *of = now;
    return !same;
}

/* Lanes and the hair of minute 0, where something changed. */
static void read_lanes(sl_stage *stage)
{
    const sl_eyes *const eyes = &stage->look.eyes;
    for (int arm = 0; arm < sl_stage_scene(stage)->n_arms; arm++) {
        sl_stage_lane_of now = read_of(stage, sl_stage_changed(stage, arm) ? 1 : 0, eyes->viewing.look);
        now.zone = stage->chosen.zone;
        if (differs(&stage->read.lane_of[arm], now)) {
            read_lane(stage, arm, &stage->read.lane[arm]);
        }
        now.story = 0; /* before anything was put on, nothing was changed */
        now.zone = 0;
        now.viewing.look = sl_stage_reading_now(stage, arm)->look;
        if (differs(&stage->read.start_of[arm], now)) {
            read_strands(stage, &stage->solved.before, arm, 0.0, now.viewing.look, &stage->read.start[arm],
                         NULL);
        }
    }
}

/* A round share that the largest reading fits under, so that bars keep their scale
 * while time goes on. */
static double round_top(double most)
{
    static const double tops[] = {0.05, 0.10, 0.20, 0.40, 0.60, 0.80};
    for (int i = 0; i < 6; i++) {
        if (most <= tops[i]) {
            return tops[i];
        }
    }
    return 1.0;
}

static void scale_bars(sl_stage *stage)
{
    double moved = 0.0;
    double stress = 0.0;
    for (int side = 0; side < 2; side++) {
        const sl_story *story = side == 0 ? &stage->solved.before : &stage->solved.after;
        for (int arm = 0; story->timeline != NULL && arm < story->scene->n_arms; arm++) {
            sl_cell cell;
            const int reference = sl_reference_zone(story->scene, stage->chosen.zone);
            sl_timeline_at(story->timeline, arm, reference, story->scene->until_min, NULL, &cell);
            moved = fmax(moved, cell.base_moved);
            stress = fmax(stress, cell.cystine_lost);
        }
    }
    stage->read.moved_top = round_top(moved);
    stage->read.stress_top = round_top(stress);
}

/* A light or observer that cannot be had leaves the usual one. */
static void fit_lenses(sl_stage *stage)
{
    sl_viewing *viewing = &stage->look.eyes.viewing;
    if (!sl_lenses_fit(&stage->look.lenses, sl_stage_scene(stage), *viewing, &stage->solved.trouble)) {
        viewing->observer = SL_OBSERVER_2_DEGREE;
        viewing->light = SL_LIGHT_D65;
    }
}

void sl_stage_measure(sl_stage *stage)
{
    fit_lenses(stage);
    for (int side = 0; side < 2; side++) {
        const sl_story *story = side == 0 ? &stage->solved.before : &stage->solved.after;
        if (story->timeline == NULL) {
            continue;
        }
        if (stage->read.remeet && stage->chosen.mode == SL_SAME_COLOUR) {
            sl_same_colour_left(story->timeline, stage->chosen.zone, stage->chosen.share,
                                stage->read.meeting[side]);
        }
        for (int arm = 0; arm < story->scene->n_arms; arm++) {
            if (side == 1 && !sl_stage_changed(stage, arm)) {
                continue; /* it is shown as before */
            }
            read_arm(stage, story, stage->read.meeting[side], arm, &stage->read.reading[side][arm]);
        }
    }
    if (stage->read.remeet) {
        scale_bars(stage);
    }
    read_lanes(stage);
    const sl_story *chosen = sl_stage_story_now(stage, stage->chosen.arm);
    stage->solved.limits = sl_limits_of(chosen->timeline, stage->chosen.arm, sl_stage_dry(stage));
    stage->read.remeet = false;
    stage->read.stale = false;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The field on which the strips hang, their names above it, the zones' names beside it.
 */
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "view/draw/widget.h"
#include "view/draw/words.h"
#include "view/panels/panel.h"
#include "view/window/action.h"
#include "view/window/show.h"

/* The line above a strip, at most `width` pixels wide where that can be. */
static void status_of(const sl_stage *stage, int arm, int width, char *text, size_t size)
{
    const sl_stage_reading *r = &stage->read.reading[0][arm];
    const sl_arm *a = &sl_stage_scene(stage)->arms[arm];
    if (!r->predicted) {
        snprintf(text, size, _("outside the model"));
        return;
    }
    if (stage->chosen.mode == SL_SAME_MINUTE) {
        double minutes = 0.0;
        const char *phase = sl_phase_word(a, r->time_min, &minutes);
        snprintf(text, size, "%s", phase);
        return;
    }
    const bool dyed = sl_stage_dyed(stage, arm, stage->chosen.zone);
    const bool lies = sl_arm_on_hair(a, r->time_min).what == SL_LIES_MIX;
    const char *there = lies ? _("got there") : _("got there when rinsed");
    const char *longer = !dyed ? _("no dye; shown at end") : r->reached ? there : _("never; shown at end");
    const char *shorter = !dyed        ? _("no dye here")
                          : r->reached ? (lies ? there : _("by the rinse"))
                                       : _("never: at end");
    const bool fits = sl_pen_size(&stage->pen, SL_TYPE_SMALL, SL_INK_QUIET, 0, longer).x <= width;
    snprintf(text, size, "%s", fits ? longer : shorter);
}

static bool both_fit(const sl_stage *stage, int half, const char *left, const char *right)
{
    const sl_pen *pen = &stage->pen;
    return sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_TEXT, 0, left).x <= half &&
           sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_TEXT, 0, right).x <= half;
}

/* What each half of a strip shows: the value that was changed, where it is one and both find room; else
 * "before" and "after", over the halves or between them. */
static void show_sides(const sl_stage *stage, int arm, SDL_Rect column, SDL_Rect line)
{
    const sl_pen *pen = &stage->pen;
    const sl_scene *scene = sl_stage_scene(stage);
    const int half = column.w / 2;
    sl_setting which[SL_SETTINGS];
    char now[SL_SHOW_LINE], value[SL_SHOW_LINE], file[SL_SHOW_LINE + 16];
    const char *left = _("before"), *right = _("after");
    if (sl_changes_count(&stage->solved.change[arm], scene, arm, which) == 1) {
        sl_what_if_value(stage, which[0], sl_setting_value(scene, arm, which[0]), value, sizeof value);
        sl_what_if_value(stage, which[0], sl_knob_value(stage->solved.change, scene, arm, which[0]), now,
                         sizeof now);
        snprintf(file, sizeof file, _("%s (file)"), value);
        if (both_fit(stage, half, file, now)) {
            left = file;
            right = now;
        }
    }
    if (!both_fit(stage, half, left, right)) {
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, line, SL_ALIGN_CENTRE, _("before|after"));
        return;
    }
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, (SDL_Rect){column.x, line.y, half, line.h}, SL_ALIGN_CENTRE,
                 left);
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, (SDL_Rect){column.x + half, line.y, half, line.h},
                 SL_ALIGN_CENTRE, right);
}

static void show_name(const sl_stage *stage, int shown)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect area = stage->laid.layout.name[shown];
    const int arm = stage->laid.layout.first + shown;
    const bool chosen = arm == stage->chosen.arm;
    char text[SL_SHOW_LINE];
    snprintf(text, sizeof text, sl_stage_changed(stage, arm) ? _("%d  %s, what if") : "%d  %s", arm + 1,
             sl_arm_title(&sl_stage_scene(stage)->arms[arm]));
    const int small = sl_text_line_height(pen->text, SL_TYPE_SMALL);
    const SDL_Rect name = {area.x, area.y, area.w, area.h - small - sl_pen_px(pen, 1.0)};
    if (chosen) {
        sl_pen_fill(pen, name, SL_GROUND_DARK);
    }
    SDL_SetClipRect(pen->sheet, &name);
    const bool aside =
        stage->solved.after.timeline != NULL && !sl_stage_changed(stage, arm); /* of a what-if */
    const sl_role ink = chosen ? SL_INK_LIGHT : aside ? SL_INK_QUIET : SL_INK_TEXT;
    const bool fits = !aside && sl_pen_size(pen, SL_TYPE_STRONG, ink, name.w, text).y <= name.h;
    const sl_type type = fits ? SL_TYPE_STRONG : SL_TYPE_SMALL;
    const int spare = SDL_max(0, name.h - sl_pen_size(pen, type, ink, name.w, text).y);
    sl_pen_wrap(pen, type, ink, (SDL_Rect){name.x, name.y + spare / 2, name.w, name.h}, true, text);
    SDL_SetClipRect(pen->sheet, NULL);
    const SDL_Rect below = {area.x, area.y + area.h - small, area.w, small};
    if (sl_stage_changed(stage, arm)) {
        show_sides(stage, arm, stage->laid.layout.name[shown], below);
        return;
    }
    status_of(stage, arm, below.w, text, sizeof text);
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, below, SL_ALIGN_CENTRE, text);
}

/* A dark plate with words across a strip of which nothing is computed. */
static void show_outside(const sl_stage *stage, SDL_Rect strip)
{
    const sl_pen *pen = &stage->pen;
    sl_pen_pattern(pen, strip, SL_PATTERN_STRIPES, SL_GROUND_DARK);
    const int line = sl_text_line_height(pen->text, SL_TYPE_SMALL);
    const SDL_Rect plate = {strip.x, strip.y + strip.h / 2 - 2 * line, strip.w, 4 * line};
    sl_pen_fill(pen, plate, SL_GROUND_DARK);
    sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_LIGHT, sl_rect_inset(plate, line / 3), true,
                _("outside the model: not predicted"));
}

/* Steps of 255 by which a zone may be behind while it plays: a zone is drawn when it has moved by so much,
 * and so moves by less than a whole step at once (tests/unit/test_hung.c). */
static const double MOST_OFF = 0.3, MOST_MOVE = 0.6, USUAL_FRAME_MIN = 2.0 / 60.0, JUMP_FRAMES = 20.0;

/* Of a colour that comes into the range of screens a channel leaves 0 faster than it moves elsewhere: it
 * comes as near as a step allows, and further where time went on faster than usual. */
static double most_move(const sl_stage *stage)
{
    const double usual = USUAL_FRAME_MIN * sl_stage_stride_min(stage, stage->chosen.now_min, 1);
    const double frames = fabs(stage->chosen.now_min - stage->laid.hung_min) / usual;
    return frames > JUMP_FRAMES ? 0.0
                                : MOST_MOVE * fmax(1.0, frames); /* who goes elsewhere is there at once */
}

/* Not one of those that got there, however it looks: between grey stripes. */
static void veil(const sl_pen *pen, SDL_Rect hair)
{
    sl_pen_pattern(pen, hair, SL_PATTERN_STRIPES, SL_GROUND_FIELD);
}

/* Columns from..to of a strip; returns how many pixels were drawn anew. */
static long hang(const sl_stage *stage, int shown, sl_hung_part part, const sl_strip_look *look, int from,
                 int to)
{
    const sl_layout *const l = &stage->laid.layout;
    const int arm = l->first + shown, strip_x = l->strip[shown].x - l->lock[shown].x;
    const sl_hung_wish wish = {.strip = stage->laid.strip[arm],
                               .light = &stage->look.light,
                               .ground = stage->pen.theme->colour[SL_GROUND_FIELD],
                               .x = part == SL_HUNG_LOCK ? -from : strip_x,
                               .from = from,
                               .to = to,
                               .n_zones = sl_stage_scene(stage)->n_zones,
                               .most_off = stage->chosen.playing ? MOST_OFF : 0.0,
                               .most_move = stage->chosen.playing ? most_move(stage) : 0.0,
                               .look = look};
    return sl_hung_draw(stage->laid.hung[arm], part, &wish);
}

/* All of a strip, the lock of minute 0 at its edge, which is hair of its own middle. */
static long hang_strip(const sl_stage *stage, int shown)
{
    const sl_layout *const l = &stage->laid.layout;
    const int arm = l->first + shown, w = l->strip[shown].w, lock = l->lock[shown].w;
    const int gap = sl_pen_px(&stage->pen, 2.0), half = w / 2;
    const bool changed = sl_stage_changed(stage, arm);
    const sl_strip_look *const before = &stage->read.reading[0][arm].hair;
    long pixels = hang(stage, shown, SL_HUNG_BEFORE, before, 0, changed ? half - gap : w);
    if (changed) {
        pixels += hang(stage, shown, SL_HUNG_AFTER, &stage->read.reading[1][arm].hair, half + gap, w);
    }
    return pixels +
           hang(stage, shown, SL_HUNG_LOCK, &stage->read.start[arm], (w - lock) / 2, (w - lock) / 2 + lock);
}

/* Veiled where all are compared at a share that it never comes to: columns from..to. */
static void veil_side(const sl_stage *stage, int shown, const sl_stage_reading *reading, int from, int to)
{
    const SDL_Rect strip = stage->laid.layout.strip[shown];
    if (stage->chosen.mode == SL_SAME_COLOUR && !reading->reached && reading->predicted) {
        veil(&stage->pen, (SDL_Rect){strip.x + from, strip.y, to - from, strip.h});
    }
}

static void veil_strip(const sl_stage *stage, int shown)
{
    const int arm = stage->laid.layout.first + shown, w = stage->laid.layout.strip[shown].w;
    const bool changed = sl_stage_changed(stage, arm);
    veil_side(stage, shown, &stage->read.reading[0][arm], 0, changed ? w / 2 : w);
    if (changed) {
        veil_side(stage, shown, &stage->read.reading[1][arm], w / 2, w);
    }
}

static void show_hair(const sl_stage *stage, int shown)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect strip = stage->laid.layout.strip[shown];
    const int arm = stage->laid.layout.first + shown;
    const sl_stage_reading *const before = &stage->read.reading[0][arm];
    const SDL_Rect clip = {strip.x + strip.w / 6, strip.y - sl_pen_px(pen, 4.0), strip.w - 2 * (strip.w / 6),
                           sl_pen_px(pen, 8.0)};
    if (!sl_stage_strip_laid(stage, shown)) {
        const sl_srgb8 field = pen->theme->colour[SL_GROUND_FIELD];
        sl_strip_show_scaled(stage->laid.strip[arm], &stage->look.light, pen->sheet, strip,
                             SDL_MapRGB(pen->sheet->format, field.r, field.g, field.b),
                             &sl_stage_reading_now(stage, arm)->hair);
    } else {
        const SDL_Rect lock = stage->laid.layout.lock[shown];
        sl_hung_show(stage->laid.hung[arm], pen->sheet, lock.x, lock.y);
        veil_strip(stage, shown);
    }
    if (!before->predicted) {
        show_outside(stage, strip);
    }
    sl_pen_fill(pen, clip, SL_MARK_HOOK); /* the clip by which it hangs */
}

bool sl_stage_hang(sl_stage *stage, sl_error *error)
{
    const sl_layout *const l = &stage->laid.layout;
    for (int i = 0; i < l->n_shown; i++) {
        const SDL_Rect strip = l->strip[i], lock = l->lock[i];
        if (!sl_stage_strip_laid(stage, i)) {
            continue;
        }
        if (!sl_hung_size(&stage->laid.hung[l->first + i], strip.x + strip.w - lock.x, strip.h,
                          stage->pen.sheet, stage->pen.theme->colour[SL_GROUND_FIELD], error)) {
            return false;
        }
        stage->drawn_hair += hang_strip(stage, i);
    }
    stage->laid.hung_min = stage->chosen.now_min;
    return true;
}

/* The chosen zone as a band of two thin lines across the field, behind the strips. */
static void show_band(const sl_stage *stage)
{
    const sl_layout *l = &stage->laid.layout;
    const SDL_Rect zone = sl_layout_zone(&l->strip[0], sl_stage_scene(stage)->n_zones, stage->chosen.zone);
    const int thick = sl_pen_px(&stage->pen, 1.0);
    sl_pen_fill(&stage->pen, (SDL_Rect){l->field.x, zone.y, l->field.w, thick}, SL_MARK_FIELD);
    sl_pen_fill(&stage->pen, (SDL_Rect){l->field.x, zone.y + zone.h - thick, l->field.w, thick},
                SL_MARK_FIELD);
}

/* Whether the chosen zone of this strip is one of those that are being compared. */
static bool compares(const sl_stage *stage, int arm)
{
    const sl_stage_reading *before = &stage->read.reading[0][arm];
    const sl_stage_reading *after = &stage->read.reading[1][arm];
    return stage->chosen.mode == SL_SAME_MINUTE || before->reached ||
           (sl_stage_changed(stage, arm) && after->reached);
}

/* Two small arrows point at the chosen zone from both sides. */
static void point_at_zone(const sl_stage *stage, int shown)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect strip = stage->laid.layout.strip[shown], lock = stage->laid.layout.lock[shown];
    const SDL_Rect zone = sl_layout_zone(&strip, sl_stage_scene(stage)->n_zones, stage->chosen.zone);
    const int size = sl_pen_px(pen, 6.0);
    const int middle = zone.y + zone.h / 2;
    for (int i = 0; i < size; i++) {
        const int reach = size - i;
        sl_pen_fill(pen, (SDL_Rect){lock.x - 2 - reach, middle - i, reach, 1}, SL_MARK_FIELD);
        sl_pen_fill(pen, (SDL_Rect){lock.x - 2 - reach, middle + i, reach, 1}, SL_MARK_FIELD);
        sl_pen_fill(pen, (SDL_Rect){zone.x + zone.w + 2, middle - i, reach, 1}, SL_MARK_FIELD);
        sl_pen_fill(pen, (SDL_Rect){zone.x + zone.w + 2, middle + i, reach, 1}, SL_MARK_FIELD);
    }
}

static void gutter_row(const sl_stage *stage, SDL_Rect row, int zone)
{
    const sl_pen *pen = &stage->pen;
    const bool chosen = zone == stage->chosen.zone;
    const SDL_Rect whole = {row.x, row.y, row.w + sl_pen_px(pen, 8.0), row.h};
    if (chosen) {
        sl_pen_fill(pen, whole, SL_GROUND_DARK);
    } else if (zone > 0) {
        sl_pen_fill(pen, (SDL_Rect){whole.x, whole.y, whole.w, 1}, SL_MARK_GRID);
    }
    const sl_role ink = chosen ? SL_INK_LIGHT : SL_INK_TEXT;
    const SDL_Rect text = sl_rect_inset(row, sl_pen_px(pen, 4.0));
    const char *name = sl_zone_title(&sl_stage_scene(stage)->zones[zone]);
    const SDL_Point size = sl_pen_size(pen, SL_TYPE_SMALL, ink, text.w, name);
    if (size.y <= row.h) {
        const SDL_Rect lines = {text.x, row.y + (row.h - size.y) / 2, text.w, size.y};
        sl_pen_wrap(pen, SL_TYPE_SMALL, ink, lines, false, name);
    } else {
        sl_pen_place(pen, SL_TYPE_SMALL, ink, (SDL_Rect){text.x, row.y, text.w, row.h}, SL_ALIGN_LEFT, name);
    }
}

/* Where rows are lower than the type: the chosen zone alone, and which of them it is. */
static void gutter_chosen(const sl_stage *stage, SDL_Rect hair)
{
    const sl_pen *pen = &stage->pen;
    const sl_scene *scene = sl_stage_scene(stage);
    const int line = sl_text_line_height(pen->text, SL_TYPE_SMALL);
    const SDL_Rect zone = sl_layout_zone(&hair, scene->n_zones, stage->chosen.zone);
    const int h = 2 * line;
    const int most = stage->laid.layout.gutter.y + stage->laid.layout.gutter.h - h;
    const int y = SDL_clamp(zone.y + zone.h / 2 - h / 2, stage->laid.layout.gutter.y, most);
    const SDL_Rect plate = {hair.x, y, hair.w + sl_pen_px(pen, 8.0), h};
    const SDL_Rect upper = {plate.x + sl_pen_px(pen, 4.0), y, plate.w - sl_pen_px(pen, 4.0), line};
    const SDL_Rect lower = {upper.x, y + line, upper.w, line};
    char text[SL_SHOW_LINE];
    sl_pen_fill(pen, plate, SL_GROUND_DARK);
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_LIGHT, upper, SL_ALIGN_LEFT,
                 sl_zone_title(&scene->zones[stage->chosen.zone]));
    snprintf(text, sizeof text, _("%d of %d"), stage->chosen.zone + 1, scene->n_zones);
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_LIGHT, lower, SL_ALIGN_LEFT, text);
}

void sl_show_gutter(const sl_stage *stage)
{
    const sl_layout *l = &stage->laid.layout;
    const int n = sl_stage_scene(stage)->n_zones;
    const SDL_Rect hair = {l->gutter.x, l->strip[0].y, l->gutter.w, l->strip[0].h};
    if (sl_text_line_height(stage->pen.text, SL_TYPE_SMALL) > hair.h / n) {
        gutter_chosen(stage, hair);
        return;
    }
    for (int zone = 0; zone < n; zone++) {
        gutter_row(stage, sl_layout_zone(&hair, n, zone), zone);
    }
}

void sl_show_field(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const sl_layout *l = &stage->laid.layout;
    sl_pen_fill(pen, l->field, SL_GROUND_FIELD);
    sl_pen_fill(pen, (SDL_Rect){l->field.x, l->field.y, l->field.w, sl_pen_px(pen, 4.0)},
                SL_MARK_HOOK); /* the rod */
    show_band(stage);
    for (int i = 0; i < l->n_shown; i++) {
        show_name(stage, i);
        show_hair(stage, i);
        if (compares(stage, l->first + i)) {
            point_at_zone(stage, i);
        }
        if (l->first + i == stage->chosen.arm) {
            const SDL_Rect column = {l->column[i].x + sl_pen_px(pen, 3.0), l->field.y,
                                     l->column[i].w - 2 * sl_pen_px(pen, 3.0), l->field.h};
            sl_pen_frame(pen, column, sl_pen_px(pen, 2.0), SL_MARK_HOOK);
        }
    }
    if (l->back.w > 0) {
        sl_action_draw(stage, l->back, SL_DO_BACK, 0);
        sl_action_draw(stage, l->on, SL_DO_ON, 0);
    }
}

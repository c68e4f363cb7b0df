/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every pixel of a frame, from top to bottom. Reads the stage, changes only where the
 * text of pages and panels ends.
 */
#include "view/stage.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "report/reading.h"
#include "slowlift/report.h"
#include "view/panel.h"
#include "view/widget.h"
#include "view/words.h"

enum { LINE = 512 };

/* ---- header and mode ---------------------------------------------------------------------- */

/* What must be said now in place of title and question; false when nothing must. */
static bool notice(const sl_stage *stage, char *text, size_t size)
{
    if (stage->trouble.code != SL_OK) {
        char sentence[LINE];
        sl_error_sentence(&stage->trouble, sentence, sizeof sentence);
        snprintf(text, size, "This change could not be solved: %s. The strips show the file as it is.",
                 sentence);
        return true;
    }
    if (stage->mode == SL_SAME_MINUTE && stage->now_min >= sl_stage_scene(stage)->until_min) {
        const sl_caution *closed = sl_caution_text(SL_CAUTION_CLOSED);
        snprintf(text, size, "%s  %s", closed->signal, closed->text);
        return true;
    }
    return false;
}

static void show_title(const sl_stage *stage, const char *below)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect area = stage->layout.title;
    if (stage->layout.compact) {
        return; /* the window's own bar names the scene */
    }
    const int line = sl_text_line_height(pen->text, SL_TYPE_HEAD);
    sl_pen_place(pen, SL_TYPE_HEAD, SL_INK_TEXT, (SDL_Rect){area.x, area.y, area.w, line}, SL_ALIGN_LEFT,
                 sl_stage_scene(stage)->title);
    const SDL_Rect second = {area.x, area.y + line, area.w, area.h - line};
    SDL_SetClipRect(pen->sheet, &second);
    sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_QUIET, second, false, below);
    SDL_SetClipRect(pen->sheet, NULL);
}

static void show_buttons(const sl_stage *stage)
{
    const sl_layout *l = &stage->layout;
    const sl_button_look looks[SL_BUTTONS] = {
        {stage->mode == SL_SAME_MINUTE ? "Same colour" : "Same minute", "C", false, false},
        {"What if", "W", stage->panel == SL_PANEL_WHAT_IF, false},
        {"Science", "S", stage->panel == SL_PANEL_SCIENCE, false},
        {"Words", "G", false, false},
        {"Cautions", "K", false, false},
        {"Help", "H", false, false},
    };
    for (int i = 0; i < SL_BUTTONS; i++) {
        sl_button_draw(&stage->pen, l->button[i], &looks[i]);
    }
}

/* The arms of a comparison that got there, first and last; false when fewer than two did. */
static bool first_and_last(const sl_stage *stage, int *first, int *last)
{
    *first = *last = -1;
    for (int arm = 0; arm < sl_stage_scene(stage)->n_arms; arm++) {
        const sl_reading *r = &stage->reading[0][arm];
        if (!r->predicted || !r->reached) {
            continue;
        }
        if (*first < 0 || r->since_contact_min < stage->reading[0][*first].since_contact_min) {
            *first = arm;
        }
        if (*last < 0 || r->since_contact_min > stage->reading[0][*last].since_contact_min) {
            *last = arm;
        }
    }
    return *first >= 0 && *first != *last;
}

static void put_arm(const sl_stage *stage, int arm, char *text, size_t size)
{
    const sl_reading *r = &stage->reading[0][arm];
    char when[48];
    char moved[16];
    char stress[16];
    sl_put_between(r->since_contact_min, when, sizeof when);
    sl_put_share(r->moved, moved, sizeof moved);
    sl_put_share(r->stress, stress, sizeof stress);
    if (stage->layout.compact) {
        snprintf(text, size, "%s (%s)", sl_stage_scene(stage)->arms[arm].name, when);
        return;
    }
    snprintf(text, size, "%s after %s (base moved %s, hair stress %s)", sl_stage_scene(stage)->arms[arm].name,
             when, moved, stress);
}

static void sentence_same_colour(const sl_stage *stage, char *head, char *below, size_t size)
{
    char share[16];
    sl_put_share(stage->share, share, sizeof share);
    snprintf(head, size, "Same colour left: every strip when “%s” is first down to %s.",
             sl_stage_scene(stage)->zones[stage->zone].name, share);
    int first = 0;
    int last = 0;
    if (!sl_stage_on_bench(stage)) {
        snprintf(below, size,
                 "No minutes are given for hair on a head: compare the order, base and hair only.");
    } else if (first_and_last(stage, &first, &last)) {
        char one[256];
        char two[256];
        put_arm(stage, first, one, sizeof one);
        put_arm(stage, last, two, sizeof two);
        snprintf(below, size, "First: %s.  Last: %s.", one, two);
    } else {
        snprintf(
            below, size,
            "Fewer than two strips get there in this scene. Try another share (+ and −) or zone (up, down).");
    }
}

static void sentence_same_minute(const sl_stage *stage, char *head, char *below, size_t size)
{
    char clock[24];
    sl_put_clock(stage->now_min, clock, sizeof clock);
    snprintf(head, size, "Same minute: every strip at %s on the clock (min:s).", clock);
    const sl_scene *scene = sl_stage_scene(stage);
    char warmth[48];
    sl_put_warmth(sl_settled_c(scene), warmth, sizeof warmth);
    if (sl_stage_on_bench(stage)) {
        snprintf(below, size, "On the bench at %s. Below: how much of “%s” is left, and what it cost.",
                 warmth, scene->zones[stage->zone].name);
    } else {
        snprintf(below, size,
                 "Hair where the scene says: %s, at %s. These times are a classroom example for the model, "
                 "not for a person.",
                 sl_place_word(scene->place), warmth);
    }
}

static void show_pace(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const sl_layout *l = &stage->layout;
    char pace[32];
    if (stage->mode == SL_SAME_COLOUR) {
        sl_put_share(stage->share, pace, sizeof pace);
    } else {
        snprintf(pace, sizeof pace, "× %.3g", stage->speed);
    }
    const sl_button_look less = {.label = "−", .key = ""};
    const sl_button_look more = {.label = "+", .key = ""};
    sl_button_draw(pen, l->less, &less);
    sl_button_draw(pen, l->more, &more);
    const int x = l->less.x + l->less.w;
    const SDL_Rect upper = {x, l->mode.y, l->more.x - x, l->mode.h / 2};
    const SDL_Rect lower = {x, l->mode.y + l->mode.h / 2, l->more.x - x, l->mode.h / 2};
    sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, upper, SL_ALIGN_CENTRE, pace);
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, lower, SL_ALIGN_CENTRE,
                 stage->mode == SL_SAME_COLOUR ? "left" : "speed");
}

/* What is compared, in two lines; a notice takes their place when there is one, and the
 * first line then stands below the title. */
static void show_sentences(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect area = stage->layout.mode;
    const sl_scene *scene = sl_stage_scene(stage);
    char head[2 * LINE];
    char below[2 * LINE];
    char text[2 * LINE];
    if (stage->mode == SL_SAME_COLOUR) {
        sentence_same_colour(stage, head, below, sizeof below);
    } else {
        sentence_same_minute(stage, head, below, sizeof below);
    }
    if (notice(stage, text, sizeof text)) {
        show_title(stage, head);
        sl_pen_fill(pen, area, SL_GROUND_DARK);
        const int pad = sl_pen_px(pen, 3.0);
        const SDL_Rect inner = {area.x + 2 * pad, area.y + pad, area.w - 4 * pad, area.h - pad};
        SDL_SetClipRect(pen->sheet, &area);
        sl_pen_wrap(pen, SL_TYPE_NOTE, SL_INK_LIGHT, inner, false, text);
        SDL_SetClipRect(pen->sheet, NULL);
        return;
    }
    show_title(stage, scene->question != NULL ? scene->question : "");
    const int half = area.h / 2;
    sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, (SDL_Rect){area.x, area.y, area.w, half}, SL_ALIGN_LEFT,
                 head);
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, (SDL_Rect){area.x, area.y + half, area.w, half},
                 SL_ALIGN_LEFT, below);
}

/* ---- names and strips --------------------------------------------------------------------- */

static void status_of(const sl_stage *stage, int arm, char *text, size_t size)
{
    const sl_reading *r = &stage->reading[0][arm];
    const sl_arm *a = &sl_stage_scene(stage)->arms[arm];
    if (!r->predicted) {
        snprintf(text, size, "outside the model");
        return;
    }
    if (stage->mode == SL_SAME_MINUTE) {
        double minutes = 0.0;
        const char *phase = sl_phase_word(a, r->time_min, &minutes);
        snprintf(text, size, "%s", phase);
        return;
    }
    if (!sl_stage_dyed(stage, arm, stage->zone)) {
        snprintf(text, size, "no dye: at end");
    } else if (!r->reached) {
        snprintf(text, size, "never: at end");
    } else {
        snprintf(text, size, "got there");
    }
}

/* "before" and "after" over the halves of a strip, or between them where it is narrow. */
static void show_sides(const sl_stage *stage, SDL_Rect strip, SDL_Rect line)
{
    const sl_pen *pen = &stage->pen;
    if (sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_TEXT, 0, "before").x > strip.w / 2) {
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, line, SL_ALIGN_CENTRE, "before|after");
        return;
    }
    const SDL_Rect left = {strip.x, line.y, strip.w / 2, line.h};
    const SDL_Rect right = {strip.x + strip.w / 2, line.y, strip.w / 2, line.h};
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, left, SL_ALIGN_CENTRE, "before");
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, right, SL_ALIGN_CENTRE, "after");
}

static void show_name(const sl_stage *stage, int shown)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect area = stage->layout.name[shown];
    const int arm = stage->layout.first + shown;
    const bool chosen = arm == stage->arm;
    char text[LINE];
    snprintf(text, sizeof text, "%d  %s", arm + 1, sl_stage_scene(stage)->arms[arm].name);
    const int small = sl_text_line_height(pen->text, SL_TYPE_SMALL);
    const SDL_Rect name = {area.x, area.y, area.w, area.h - small - sl_pen_px(pen, 1.0)};
    if (chosen) {
        sl_pen_fill(pen, name, SL_GROUND_DARK);
    }
    SDL_SetClipRect(pen->sheet, &name);
    const sl_role ink = chosen ? SL_INK_LIGHT : SL_INK_TEXT;
    const bool fits = sl_pen_size(pen, SL_TYPE_STRONG, ink, name.w, text).y <= name.h;
    const sl_type type = fits ? SL_TYPE_STRONG : SL_TYPE_SMALL;
    const int spare = SDL_max(0, name.h - sl_pen_size(pen, type, ink, name.w, text).y);
    sl_pen_wrap(pen, type, ink, (SDL_Rect){name.x, name.y + spare / 2, name.w, name.h}, true, text);
    SDL_SetClipRect(pen->sheet, NULL);
    const SDL_Rect below = {area.x, area.y + area.h - small, area.w, small};
    if (sl_stage_changed(stage, arm)) {
        show_sides(stage, stage->layout.strip[shown], below);
        return;
    }
    status_of(stage, arm, text, sizeof text);
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
                "outside the model: not predicted");
}

static void show_hair(const sl_stage *stage, int shown)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect strip = stage->layout.strip[shown];
    const int arm = stage->layout.first + shown;
    const sl_strip *fibres = stage->strip[arm];
    const SDL_Rect clip = {strip.x + strip.w / 6, strip.y - sl_pen_px(pen, 8.0), strip.w - 2 * (strip.w / 6),
                           sl_pen_px(pen, 12.0)};
    if (sl_stage_changed(stage, arm)) {
        const int half = strip.w / 2;
        const int gap = sl_pen_px(pen, 2.0);
        sl_strip_draw(fibres, &stage->light, pen->sheet, strip.x, strip.y, 0, half - gap,
                      stage->reading[0][arm].colour);
        sl_strip_draw(fibres, &stage->light, pen->sheet, strip.x, strip.y, half + gap, strip.w,
                      stage->reading[1][arm].colour);
    } else {
        sl_strip_draw(fibres, &stage->light, pen->sheet, strip.x, strip.y, 0, strip.w,
                      stage->reading[0][arm].colour);
    }
    if (!stage->reading[0][arm].predicted) {
        show_outside(stage, strip);
    }
    sl_pen_fill(pen, clip, SL_MARK_CONTROL); /* the clip by which it hangs */
}

/* The chosen zone as a band of two thin lines across the field, behind the strips. */
static void show_band(const sl_stage *stage)
{
    const sl_layout *l = &stage->layout;
    const SDL_Rect zone = sl_layout_zone(&l->strip[0], sl_stage_scene(stage)->n_zones, stage->zone);
    const int thick = sl_pen_px(&stage->pen, 1.0);
    sl_pen_fill(&stage->pen, (SDL_Rect){l->field.x, zone.y, l->field.w, thick}, SL_MARK_FIELD);
    sl_pen_fill(&stage->pen, (SDL_Rect){l->field.x, zone.y + zone.h - thick, l->field.w, thick},
                SL_MARK_FIELD);
}

/* Whether the chosen zone of this strip is one of those that are being compared. */
static bool compares(const sl_stage *stage, int arm)
{
    const sl_reading *before = &stage->reading[0][arm];
    const sl_reading *after = &stage->reading[1][arm];
    return stage->mode == SL_SAME_MINUTE || before->reached ||
           (sl_stage_changed(stage, arm) && after->reached);
}

/* Two small arrows point at the chosen zone from both sides. */
static void point_at_zone(const sl_stage *stage, SDL_Rect strip)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect zone = sl_layout_zone(&strip, sl_stage_scene(stage)->n_zones, stage->zone);
    const int size = sl_pen_px(pen, 6.0);
    const int middle = zone.y + zone.h / 2;
    for (int i = 0; i < size; i++) {
        const int reach = size - i;
        sl_pen_fill(pen, (SDL_Rect){zone.x - 2 - reach, middle - i, reach, 1}, SL_MARK_FIELD);
        sl_pen_fill(pen, (SDL_Rect){zone.x - 2 - reach, middle + i, reach, 1}, SL_MARK_FIELD);
        sl_pen_fill(pen, (SDL_Rect){zone.x + zone.w + 2, middle - i, reach, 1}, SL_MARK_FIELD);
        sl_pen_fill(pen, (SDL_Rect){zone.x + zone.w + 2, middle + i, reach, 1}, SL_MARK_FIELD);
    }
}

static void show_gutter(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const sl_layout *l = &stage->layout;
    const sl_scene *scene = sl_stage_scene(stage);
    const SDL_Rect hair = {l->gutter.x, l->strip[0].y, l->gutter.w, l->strip[0].h};
    for (int zone = 0; zone < scene->n_zones; zone++) {
        const SDL_Rect row = sl_layout_zone(&hair, scene->n_zones, zone);
        const bool chosen = zone == stage->zone;
        if (chosen) {
            sl_pen_fill(pen, (SDL_Rect){row.x, row.y, row.w + sl_pen_px(pen, 8.0), row.h}, SL_GROUND_DARK);
        } else if (zone > 0) {
            sl_pen_fill(pen, (SDL_Rect){row.x, row.y, row.w + sl_pen_px(pen, 8.0), 1}, SL_MARK_GRID);
        }
        const sl_role ink = chosen ? SL_INK_LIGHT : SL_INK_TEXT;
        const SDL_Rect text = sl_rect_inset(row, sl_pen_px(pen, 4.0));
        const char *name = scene->zones[zone].name;
        const SDL_Point size = sl_pen_size(pen, SL_TYPE_ZONE, ink, text.w, name);
        if (size.y <= row.h) {
            const SDL_Rect lines = {text.x, row.y + (row.h - size.y) / 2, text.w, size.y};
            sl_pen_wrap(pen, SL_TYPE_ZONE, ink, lines, false, name);
        } else {
            sl_pen_place(pen, SL_TYPE_ZONE, ink, (SDL_Rect){text.x, row.y, text.w, row.h}, SL_ALIGN_LEFT,
                         name);
        }
    }
}

static void show_field(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const sl_layout *l = &stage->layout;
    sl_pen_fill(pen, l->field, SL_GROUND_FIELD);
    sl_pen_fill(pen, (SDL_Rect){l->field.x, l->field.y, l->field.w, sl_pen_px(pen, 4.0)},
                SL_MARK_CONTROL); /* the rod */
    show_band(stage);
    for (int i = 0; i < l->n_shown; i++) {
        show_name(stage, i);
        show_hair(stage, i);
        if (compares(stage, l->first + i)) {
            point_at_zone(stage, l->strip[i]);
        }
        if (l->first + i == stage->arm) {
            const SDL_Rect column = {l->column[i].x + sl_pen_px(pen, 3.0), l->field.y,
                                     l->column[i].w - 2 * sl_pen_px(pen, 3.0), l->field.h};
            sl_pen_frame(pen, column, sl_pen_px(pen, 2.0), SL_GROUND_DARK);
        }
    }
    if (l->back.w > 0) {
        const sl_button_look back = {.label = "‹", .key = "", .off_duty = l->first == 0};
        const sl_button_look on = {
            .label = "›", .key = "", .off_duty = l->first + l->n_shown == sl_stage_scene(stage)->n_arms};
        sl_button_draw(pen, l->back, &back);
        sl_button_draw(pen, l->on, &on);
    }
}

/* ---- figures -------------------------------------------------------------------------------- */

static void put_number(bool changed, double before, double after, char *text, size_t size)
{
    if (changed) {
        sl_put_shares(before, after, text, size);
    } else {
        sl_put_share(before, text, size);
    }
}

/* Row 1 at the same minute: colour left. */
static void left_row(const sl_stage *stage, int arm, SDL_Rect area)
{
    const bool changed = sl_stage_changed(stage, arm);
    const sl_reading *was = &stage->reading[0][arm];
    const sl_reading *now = &stage->reading[changed ? 1 : 0][arm];
    char number[64];
    put_number(changed, was->left, now->left, number, sizeof number);
    const sl_figure figure = {.number = number,
                              .word = sl_left_word(now->left),
                              .fill = now->left,
                              .before = changed ? was->left : -1.0,
                              .pattern = SL_PATTERN_SOLID};
    sl_figure_draw(&stage->pen, area, &figure, stage->layout.compact);
}

/* Row 1 at the same colour left: the time that it took, or that it never got there. */
static void time_row(const sl_stage *stage, int arm, SDL_Rect area)
{
    const bool changed = sl_stage_changed(stage, arm);
    const sl_reading *was = &stage->reading[0][arm];
    const sl_reading *now = &stage->reading[changed ? 1 : 0][arm];
    const double until = sl_stage_scene(stage)->until_min;
    char number[64] = "never";
    char word[96];
    char share[16];
    char before[48] = "never";
    sl_put_share(now->left, share, sizeof share);
    if (!sl_stage_on_bench(stage)) {
        snprintf(number, sizeof number, now->reached ? "there" : "never");
        snprintf(word, sizeof word, "%s left", share);
        const sl_figure figure = {.number = number, .word = word, .fill = -1.0, .before = -1.0};
        sl_figure_draw(&stage->pen, area, &figure, stage->layout.compact);
        return;
    }
    if (now->reached) {
        sl_put_between(now->since_contact_min, number, sizeof number);
    }
    if (was->reached) {
        sl_put_between(was->since_contact_min, before, sizeof before);
    }
    snprintf(word, sizeof word,
             changed        ? "was %s"
             : now->reached ? "%s left"
                            : "%s at end",
             changed ? before : share);
    const sl_figure figure = {.number = number,
                              .word = word,
                              .fill = now->reached ? now->since_contact_min / until : -1.0,
                              .before = changed && was->reached ? was->since_contact_min / until : -1.0,
                              .pattern = SL_PATTERN_SOLID};
    sl_figure_draw(&stage->pen, area, &figure, stage->layout.compact);
}

static void first_row(const sl_stage *stage, int arm, SDL_Rect area)
{
    if (!sl_stage_dyed(stage, arm, stage->zone)) {
        const sl_figure none = {.number = "–", .word = "no dye here", .fill = -1.0, .before = -1.0};
        sl_figure_draw(&stage->pen, area, &none, stage->layout.compact);
    } else if (stage->mode == SL_SAME_MINUTE) {
        left_row(stage, arm, area);
    } else {
        time_row(stage, arm, area);
    }
}

static void cost_rows(const sl_stage *stage, int arm, SDL_Rect moved_area, SDL_Rect stress_area)
{
    const bool changed = sl_stage_changed(stage, arm);
    const sl_reading *r = &stage->reading[0][arm];
    const sl_reading *now = &stage->reading[changed ? 1 : 0][arm];
    char number[64];
    char word[64];
    put_number(changed, r->moved, now->moved, number, sizeof number);
    snprintf(word, sizeof word, "%.1f levels", now->levels);
    const sl_figure moved = {number, word, now->moved / stage->moved_top,
                             changed ? r->moved / stage->moved_top : -1.0, SL_PATTERN_STRIPES};
    sl_figure_draw(&stage->pen, moved_area, &moved, stage->layout.compact);
    put_number(changed, r->stress, now->stress, number, sizeof number);
    snprintf(word, sizeof word, "%s", sl_stress_word(now->stress));
    const sl_figure stress = {number, word, now->stress / stage->stress_top,
                              changed ? r->stress / stage->stress_top : -1.0, SL_PATTERN_DOTS};
    sl_figure_draw(&stage->pen, stress_area, &stress, stage->layout.compact);
}

static void figure_label(const sl_stage *stage, int row, const char *head, const char *below)
{
    const sl_pen *pen = &stage->pen;
    const sl_layout *l = &stage->layout;
    const int y = l->figures.y + row * l->row_h;
    const int line = sl_text_line_height(pen->text, SL_TYPE_FIGURE);
    sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, (SDL_Rect){l->gutter.x, y, l->gutter.w, line},
                 SL_ALIGN_LEFT, head);
    if (l->compact) {
        return;
    }
    const SDL_Rect second = {l->gutter.x, y + line - sl_pen_px(pen, 2.0), l->gutter.w,
                             sl_text_line_height(pen->text, SL_TYPE_SMALL)};
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, second, SL_ALIGN_LEFT, below);
}

static void show_figures(const sl_stage *stage)
{
    const sl_layout *l = &stage->layout;
    const sl_scene *scene = sl_stage_scene(stage);
    char text[LINE];
    const bool times = stage->mode == SL_SAME_COLOUR;
    figure_label(stage, 0, times ? "Time it took" : "Colour left",
                 times ? "on each strip" : scene->zones[stage->zone].name);
    snprintf(text, sizeof text, "full bar: %.0f %%", 100.0 * stage->moved_top);
    figure_label(stage, 1, "Base moved", text);
    snprintf(text, sizeof text, "full bar: %.0f %%", 100.0 * stage->stress_top);
    figure_label(stage, 2, "Hair stress", text);
    for (int i = 0; i < l->n_shown; i++) {
        const int arm = l->first + i;
        const int pad = sl_pen_px(&stage->pen, 6.0);
        const SDL_Rect top = {l->column[i].x + pad, l->figures.y, l->column[i].w - 2 * pad, l->row_h};
        if (!stage->reading[0][arm].predicted) {
            const sl_figure none = {.number = "–", .word = "not predicted", .fill = -1.0, .before = -1.0};
            sl_figure_draw(&stage->pen, top, &none, l->compact);
            continue;
        }
        first_row(stage, arm, top);
        cost_rows(stage, arm, (SDL_Rect){top.x, top.y + l->row_h, top.w, l->row_h},
                  (SDL_Rect){top.x, top.y + 2 * l->row_h, top.w, l->row_h});
    }
}

/* ---- time and foot ---------------------------------------------------------------------------- */

static void show_time(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const sl_layout *l = &stage->layout;
    const sl_button_look play = {.label = stage->playing ? "II" : "▶", .key = "", .on = stage->playing};
    sl_button_draw(pen, l->play, &play);
    char clock[24];
    sl_put_clock(stage->now_min, clock, sizeof clock);
    const SDL_Rect upper = {l->clock.x, l->clock.y, l->clock.w, l->clock.h / 2};
    const SDL_Rect lower = {l->clock.x, l->clock.y + l->clock.h / 2, l->clock.w, l->clock.h / 2};
    sl_pen_place(pen, SL_TYPE_FIGURE, SL_INK_TEXT, upper, SL_ALIGN_LEFT,
                 stage->mode == SL_SAME_MINUTE ? clock : "each");
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, lower, SL_ALIGN_LEFT,
                 stage->mode == SL_SAME_MINUTE ? "min" : "its own");
    if (stage->mode == SL_SAME_COLOUR && !sl_stage_on_bench(stage)) {
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, l->ruler, SL_ALIGN_LEFT,
                     "No time is shown here: bench minutes are never carried to a head.");
        return;
    }
    const sl_ruler_look look = {
        .area = l->ruler,
        .axis_h = l->axis_h,
        .now_min = stage->now_min,
        .scene = sl_stage_scene_now(stage),
        .lanes = stage->lane,
        .n_lanes = stage->n_lanes,
        .chosen_arm = stage->arm,
        .meeting = stage->mode == SL_SAME_COLOUR ? stage->meeting[0] : NULL,
    };
    sl_ruler_draw(pen, &look);
}

static void show_foot(const sl_stage *stage)
{
    const SDL_Rect area = stage->layout.foot;
    char text[4 * LINE];
    char uncalibrated[LINE];
    char example[LINE];
    sl_put_sentence(sl_not_calibrated, uncalibrated, sizeof uncalibrated);
    sl_put_sentence(stage->example, example, sizeof example);
    const sl_caution *estimate = sl_caution_text(SL_CAUTION_ESTIMATE);
    const sl_caution *label = sl_caution_text(SL_CAUTION_LABEL);
    snprintf(text, sizeof text, "%s  %s\n%s  %s  %s  %s", uncalibrated, example, estimate->signal,
             estimate->text, label->signal, label->text);
    sl_pen_fill(&stage->pen, (SDL_Rect){area.x, area.y - sl_pen_px(&stage->pen, 4.0), area.w, 1},
                SL_MARK_GRID);
    sl_pen_wrap(&stage->pen, SL_TYPE_NOTE, SL_INK_TEXT, area, false, text);
}

static void show_focus(const sl_stage *stage)
{
    const int room = sl_pen_px(&stage->pen, 4.0); /* the ring stays inside what it marks */
    for (int i = 0; i < stage->n_spots && stage->focus_seen; i++) {
        const sl_spot *spot = &stage->spots[i];
        if (spot->kind == stage->focus && spot->number == stage->focus_number) {
            sl_pen_focus(&stage->pen, sl_rect_inset(spot->area, room));
        }
    }
}

bool sl_stage_show(sl_stage *stage, sl_error *error)
{
    const sl_layout *l = &stage->layout;
    SDL_Surface *sheet = stage->pen.sheet;
    sl_pen_fill(&stage->pen, (SDL_Rect){0, 0, sheet->w, sheet->h}, SL_GROUND_FRAME);
    if (stage->page != SL_PAGE_NONE) {
        const SDL_Rect close = sl_page_close(stage, sheet->w, sheet->h);
        stage->scroll_most[0] = sl_page_show(stage, close);
    } else {
        show_sentences(stage);
        show_buttons(stage);
        show_pace(stage);
        show_gutter(stage);
        show_field(stage);
        show_figures(stage);
        show_time(stage);
        show_foot(stage);
        if (stage->panel == SL_PANEL_WHAT_IF) {
            sl_what_if_show(stage);
        } else if (stage->panel == SL_PANEL_SCIENCE) {
            stage->scroll_most[1] = sl_science_show(stage) - l->panel.h;
        }
    }
    show_focus(stage);
    if (SDL_UpdateWindowSurface(stage->window) != 0) {
        return sl_fail(error, SL_ERR_MISSING_PART, SDL_GetError(), "the window cannot be drawn to");
    }
    return true;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Below every strip: colour left or the time it took, base moved, hair stress; each as a
 * number, a bar with a pattern of its own, and a word.
 */
#include <stdio.h>

#include "base/language.h"
#include "view/draw/widget.h"
#include "view/draw/words.h"
#include "view/window/show.h"

static void draw(const sl_stage *stage, SDL_Rect area, const sl_figure *figure)
{
    const sl_layout *const l = &stage->laid.layout;
    const sl_figure_form form = l->compact ? SL_FIGURE_LINE : l->narrow ? SL_FIGURE_BELOW : SL_FIGURE_BESIDE;
    sl_figure_draw(&stage->pen, area, l->bar_w, form, figure);
}

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
    const sl_stage_reading *was = &stage->read.reading[0][arm];
    const sl_stage_reading *now = sl_stage_reading_now(stage, arm);
    char number[64];
    put_number(changed, was->left, now->left, number, sizeof number);
    const sl_figure figure = {.number = number,
                              .word = now->left < 0.0 ? _("no dye here") : _("left"),
                              .fill = now->left,
                              .before = changed ? was->left : -1.0,
                              .pattern = SL_PATTERN_SOLID};
    draw(stage, area, &figure);
}

/* Row 1 at the same colour left: the time that it took, or that it never got there. */
static void time_row(const sl_stage *stage, int arm, SDL_Rect area)
{
    const bool changed = sl_stage_changed(stage, arm);
    const sl_stage_reading *was = &stage->read.reading[0][arm];
    const sl_stage_reading *now = sl_stage_reading_now(stage, arm);
    const double until = sl_stage_scene(stage)->until_min;
    char number[64];
    snprintf(number, sizeof number, "%s", _("never"));
    char word[96];
    char share[16];
    char before[48];
    snprintf(before, sizeof before, "%s", _("never"));
    sl_put_share(now->left, share, sizeof share);
    if (!sl_stage_tells_time(stage)) {
        snprintf(number, sizeof number, now->reached ? _("there") : _("never"));
        snprintf(word, sizeof word, _("%s left"), share);
        const sl_figure figure = {.number = number, .word = word, .fill = -1.0, .before = -1.0};
        draw(stage, area, &figure);
        return;
    }
    if (now->reached) {
        sl_put_between(now->since_contact_min, number, sizeof number);
    }
    if (was->reached) {
        sl_put_between(was->since_contact_min, before, sizeof before);
    }
    if (changed) {
        snprintf(word, sizeof word, _("was %s"), before);
    } else if (now->reached) {
        snprintf(word, sizeof word, "%s", _("there")); /* down to the share that the pace says */
    } else {
        snprintf(word, sizeof word, _("%s at end"), share);
    }
    const sl_figure figure = {.number = number,
                              .word = word,
                              .fill = now->reached ? now->since_contact_min / until : -1.0,
                              .before = changed && was->reached ? was->since_contact_min / until : -1.0,
                              .pattern = SL_PATTERN_SOLID};
    draw(stage, area, &figure);
}

static void first_row(const sl_stage *stage, int arm, SDL_Rect area)
{
    if (!sl_stage_dyed(stage, arm, stage->chosen.zone)) {
        const sl_figure none = {.number = "–", .word = N_("no dye here"), .fill = -1.0, .before = -1.0};
        draw(stage, area, &none);
    } else if (stage->chosen.mode == SL_SAME_MINUTE) {
        left_row(stage, arm, area);
    } else {
        time_row(stage, arm, area);
    }
}

static void cost_rows(const sl_stage *stage, int arm, SDL_Rect moved_area, SDL_Rect stress_area)
{
    const bool changed = sl_stage_changed(stage, arm);
    const sl_stage_reading *r = &stage->read.reading[0][arm];
    const sl_stage_reading *now = sl_stage_reading_now(stage, arm);
    char number[64];
    char word[64];
    put_number(changed, r->moved, now->moved, number, sizeof number);
    snprintf(word, sizeof word, _("%.1f levels"), now->levels);
    const sl_figure moved = {number, word, now->moved / stage->read.moved_top,
                             changed ? r->moved / stage->read.moved_top : -1.0, SL_PATTERN_STRIPES};
    draw(stage, moved_area, &moved);
    put_number(changed, r->stress, now->stress, number, sizeof number);
    snprintf(word, sizeof word, "%s", sl_stress_word(now->stress));
    const sl_figure stress = {number, word, now->stress / stage->read.stress_top,
                              changed ? r->stress / stage->read.stress_top : -1.0, SL_PATTERN_DOTS};
    draw(stage, stress_area, &stress);
}

static void figure_label(const sl_stage *stage, int row, const char *head, const char *below)
{
    const sl_pen *pen = &stage->pen;
    const sl_layout *l = &stage->laid.layout;
    const int y = l->figures.y + row * l->row_h;
    const int line = sl_text_line_height(pen->text, SL_TYPE_STRONG);
    const SDL_Rect first = {l->gutter.x, y, l->field.x - l->gutter.x, line}; /* nothing stands in the gap */
    sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, first, SL_ALIGN_LEFT, head);
    if (l->compact) {
        return;
    }
    const SDL_Rect second = {l->gutter.x, y + line - sl_pen_px(pen, 1.0), l->gutter.w,
                             sl_text_line_height(pen->text, SL_TYPE_SMALL)};
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, second, SL_ALIGN_LEFT, below);
}

void sl_show_figures(const sl_stage *stage)
{
    const sl_layout *l = &stage->laid.layout;
    const sl_scene *scene = sl_stage_scene(stage);
    char text[SL_SHOW_LINE];
    const bool times = stage->chosen.mode == SL_SAME_COLOUR;
    figure_label(stage, 0, times ? _("Time it took") : _("Colour left"),
                 times ? _("on each strip") : sl_zone_title(&scene->zones[stage->chosen.zone]));
    snprintf(text, sizeof text, _("full bar: %.0f %%"), 100.0 * stage->read.moved_top);
    figure_label(stage, 1, _("Base moved"), text);
    snprintf(text, sizeof text, _("full bar: %.0f %%"), 100.0 * stage->read.stress_top);
    figure_label(stage, 2, _("Hair stress"), text);
    for (int i = 0; i < l->n_shown; i++) {
        const int arm = l->first + i;
        const int pad = sl_pen_px(&stage->pen, 6.0);
        const SDL_Rect top = {l->column[i].x + pad, l->figures.y, l->column[i].w - 2 * pad, l->row_h};
        if (!stage->read.reading[0][arm].predicted) {
            const sl_figure none = {.number = "–", .word = N_("not predicted"), .fill = -1.0, .before = -1.0};
            draw(stage, top, &none);
            continue;
        }
        first_row(stage, arm, top);
        cost_rows(stage, arm, (SDL_Rect){top.x, top.y + l->row_h, top.w, l->row_h},
                  (SDL_Rect){top.x, top.y + 2 * l->row_h, top.w, l->row_h});
    }
}

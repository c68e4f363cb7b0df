/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The knobs of the chosen strip, each with its number, unit and what it comes to.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/renderers.h"
#include "document/text.h"
#include "report/reading.h"
#include "slowlift/caution.h"
#include "slowlift/plan.h"
#include "slowlift/report.h"
#include "view/draw/words.h"
#include "view/panels/panel.h"
#include "view/window/action.h"

enum { LINE = 512 };

/* The caution against heat in its one sentence: whole it stands on the page of all (K). */
static void put_heat(char *text, size_t size)
{
    snprintf(text, size, "%s  %s", _(sl_caution_text(SL_CAUTION_HEAT)->signal),
             sl_caution_short(SL_CAUTION_HEAT));
}

sl_what_if_places sl_what_if_place(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect panel = stage->laid.layout.panel;
    const int pad = sl_pen_px(pen, 10.0);
    const int x = panel.x + pad;
    const int w = panel.w - 2 * pad;
    const int target = stage->laid.layout.target;
    const int line = sl_text_line_height(pen->text, SL_TYPE_STRONG);
    const int small = sl_text_line_height(pen->text, SL_TYPE_SMALL);
    sl_what_if_places p = {0};
    int y = panel.y + pad - stage->open.scroll[1];
    const int half = (w - pad) / 2;
    p.title = (SDL_Rect){x, y, w, line};
    y += line + pad / 4;
    p.undo = (SDL_Rect){x, y, half, target};
    p.reset = (SDL_Rect){x + w - half, y, half, target};
    y += target + pad / 2;
    for (int i = 0; i < SL_SETTINGS; i++) {
        if ((sl_knobs[i].where & SL_KNOB_PANEL) == 0) {
            continue;
        }
        p.knob[i].head = (SDL_Rect){x, y, w, line};
        p.knob[i].areas = sl_knob_place((SDL_Rect){x, y + line, w, target}, target);
        p.knob[i].note = (SDL_Rect){x, y + line + target, w, small};
        y += line + target + small + pad / 5;
        if (i == SL_SETTING_WARMER) {
            char text[LINE];
            put_heat(text, sizeof text);
            const int h = sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_LIGHT, w - pad, text).y + pad;
            p.caution = (SDL_Rect){x, y, w, h};
            y += h + pad / 4;
        }
    }
    p.height = y + pad / 4 - panel.y + stage->open.scroll[1];
    return p;
}

/* What of it is in sight. Of a knob that is scrolled away a line is left at the panel's edge, so that Tab
 * comes to it and brings it back; no pointer meets it, and it lies on nothing else. */
static SDL_Rect in_sight(SDL_Rect panel, SDL_Rect area, bool tab, int number)
{
    SDL_Rect seen;
    if (SDL_IntersectRect(&panel, &area, &seen)) {
        return seen;
    }
    const int y = area.y < panel.y ? panel.y - 1 - number : panel.y + panel.h + number % 4;
    return tab ? (SDL_Rect){area.x, y, area.w, 1} : (SDL_Rect){0};
}

SDL_Rect sl_what_if_control(const sl_stage *stage, sl_action_id action, int knob)
{
    const sl_what_if_places p = sl_what_if_place(stage);
    const SDL_Rect panel = stage->laid.layout.panel;
    if (action == SL_DO_RESET || action == SL_DO_UNDO) {
        return in_sight(panel, action == SL_DO_RESET ? p.reset : p.undo, false, 0);
    }
    if (!sl_knob_applies(sl_stage_scene(stage), stage->chosen.arm, (sl_setting)knob)) {
        return (SDL_Rect){0};
    }
    const sl_knob_areas *const areas = &p.knob[knob].areas;
    const SDL_Rect area = action == SL_DO_KNOB        ? areas->track
                          : action == SL_DO_KNOB_LESS ? areas->less
                                                      : areas->more;
    return in_sight(panel, area, action == SL_DO_KNOB, knob);
}

void sl_what_if_follow(sl_stage *stage)
{
    if (stage->hand.focus != SL_DO_KNOB || !stage->hand.focus_seen) {
        return;
    }
    const sl_what_if_places places = sl_what_if_place(stage);
    const sl_knob_rows *const knob = &places.knob[stage->hand.focus_number];
    const SDL_Rect panel = stage->laid.layout.panel;
    const int below = knob->note.y + knob->note.h - panel.y - panel.h;
    const int above = panel.y - knob->head.y;
    stage->open.scroll[1] += below > 0 ? below : above > 0 ? -above : 0;
}

void sl_what_if_value(const sl_stage *stage, sl_setting knob, double value, char *text, size_t size)
{
    const char *const unit = sl_knobs[knob].unit;
    char number[24];
    if (knob == SL_SETTING_STRENGTH) {
        sl_put_strength(value, text, size);
    } else if (strcmp(unit, "K") == 0) {
        sl_put_warmer(value, text, size);
    } else if (strcmp(unit, "min") == 0) {
        sl_minute_words(SL_MINUTE_PLANNED, text, size,
                        sl_stage_on_bench(stage) ? _("%.0f min") : _("%.0f min (model only)"), value);
    } else {
        sl_short_number(value, 2, number, sizeof number);
        snprintf(text, size, strcmp(unit, "parts") == 0 ? _("%s parts") : "%s %s", number, unit);
    }
}

static void note_strength(const sl_scene *scene, const sl_step *apply, char *text, size_t size)
{
    const sl_mix *mix = &scene->mixes[apply->mix];
    const sl_charge charge = sl_mix_charge(mix, &scene->chemistry, apply->mix_g_per_g, apply->hair_water_g_g);
    char one[48];
    sl_put_strength(charge.liquid_pct, one, sizeof one);
    snprintf(text, size, _("liquid %s, whole mix %.1f %%"), one, charge.on_hair_pct);
}

static void note_water(const sl_scene *scene, const sl_step *apply, char *text, size_t size)
{
    const sl_mix *mix = &scene->mixes[apply->mix];
    const sl_weighing w = sl_weigh(mix, &scene->chemistry, scene->hair_g, apply->mix_g_per_g, 0.0);
    char water[48];
    sl_put_weight(w.water_g, water, sizeof water);
    snprintf(text, size, _("water %s of %.1f g of mix"), water, w.total_g);
}

static void note_time(const sl_scene *scene, const sl_step *apply, char *text, size_t size)
{
    const double label = scene->mixes[apply->mix].label_max_min;
    if (label <= 0.0) {
        snprintf(text, size, _("the label's time is not entered"));
    } else if (apply->duration_min > label + 1e-9) {
        sl_minute_words(SL_MINUTE_PLANNED, text, size, _("longer than its label's %.0f min"), label);
    } else {
        sl_minute_words(SL_MINUTE_PLANNED, text, size, _("its label's longest time: %.0f min"), label);
    }
}

static void put_note(const sl_stage *stage, sl_setting knob, char *text, size_t size)
{
    const sl_scene *scene = sl_stage_scene_now(stage);
    const sl_step *apply = sl_arm_application(&scene->arms[stage->chosen.arm]);
    if (knob == SL_SETTING_WARMER) {
        char warmth[48];
        sl_put_warmth(sl_settled_c(scene), warmth, sizeof warmth);
        snprintf(text, size, _("all strips, now %s"), warmth);
    } else if (!sl_knob_applies(sl_stage_scene(stage), stage->chosen.arm, knob)) {
        snprintf(text, size, apply == NULL ? _("no mix on this strip") : _("no developer in this mix"));
    } else if (knob == SL_SETTING_STRENGTH) {
        note_strength(scene, apply, text, size);
    } else if (knob == SL_SETTING_WATER) {
        note_water(scene, apply, text, size);
    } else if (knob == SL_SETTING_DWELL) {
        note_time(scene, apply, text, size);
    } else {
        text[0] = '\0';
    }
}

static void show_knob(const sl_stage *stage, const sl_knob_rows *rows, sl_setting knob)
{
    const sl_pen *pen = &stage->pen;
    const sl_scene *scene = sl_stage_scene(stage);
    const int arm = stage->chosen.arm;
    const bool works = sl_knob_applies(scene, arm, knob);
    const double value = sl_knob_value(stage->solved.change, scene, arm, knob);
    const double least = sl_knobs[knob].least, most = sl_knob_track_most(scene, knob);
    const double wide = fmax(most - least, 1e-9);
    char text[LINE];
    sl_pen_place(pen, SL_TYPE_BODY, SL_INK_TEXT, rows->head, SL_ALIGN_LEFT, sl_knobs[knob].panel);
    sl_what_if_value(stage, knob, value, text, sizeof text);
    sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, rows->head, SL_ALIGN_RIGHT, works ? text : "–");
    sl_knob_draw(pen, &rows->areas, (value - least) / wide,
                 (sl_setting_value(scene, arm, knob) - least) / wide, works);
    put_note(stage, knob, text, sizeof text);
    if (knob == SL_SETTING_STRENGTH && value >= most) {
        snprintf(text, sizeof text, _("end stop: 12 %% (40 vol), the most for hair"));
    }
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, rows->note, SL_ALIGN_LEFT, text);
}

int sl_what_if_show(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect panel = stage->laid.layout.panel;
    const sl_what_if_places places = sl_what_if_place(stage);
    sl_pen_fill(pen, panel, SL_GROUND_SHEET);
    sl_pen_frame(pen, panel, 1, SL_MARK_GRID);
    SDL_SetClipRect(pen->sheet, &panel);
    char text[LINE];
    snprintf(text, sizeof text, _("What if strip %d …"), stage->chosen.arm + 1);
    sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, places.title, SL_ALIGN_LEFT, text);
    sl_action_draw(stage, places.undo, SL_DO_UNDO, 0);
    sl_action_draw(stage, places.reset, SL_DO_RESET, 0);
    for (int i = 0; i < SL_SETTINGS; i++) {
        if ((sl_knobs[i].where & SL_KNOB_PANEL) != 0) {
            show_knob(stage, &places.knob[i], (sl_setting)i);
        }
    }
    sl_pen_fill(pen, places.caution, SL_GROUND_DARK);
    put_heat(text, sizeof text);
    const int pad = sl_pen_px(pen, 5.0);
    const SDL_Rect inner = {places.caution.x + pad, places.caution.y + pad, places.caution.w - 2 * pad,
                            places.caution.h};
    sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_LIGHT, inner, false, text);
    SDL_SetClipRect(pen->sheet, NULL);
    sl_more_draw(pen, sl_rect_inset(panel, 1), places.height - panel.h - stage->open.scroll[1]);
    return places.height - panel.h;
}

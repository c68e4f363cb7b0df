/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two swatches side by side: any two zones of any strips, each at the moment at which its
 * strip is shown. Words first; figures and reflectances behind the science switch.
 * Invariant: words and figures are of the hair as it is shown, without the mix on it;
 * level and tone are of dry hair in daylight.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "document/text.h"
#include "report/reading.h"
#include "report/run/curves.h"
#include "view/draw/words.h"
#include "view/panels/said.h"
#include "view/window/action.h"
#include "view/window/show.h"

static const char *const names[2] = {N_("The left swatch"), N_("the right swatch")};

static void put_foot(const sl_stage *stage, char *text, size_t size)
{
    char shown[2 * SL_SHOW_LINE];
    sl_put_shown(stage, shown, sizeof shown);
    snprintf(text, size,
             _("%s In the middle the mean colours, edge to edge. Level and tone: chart “%s”, dry, daylight."),
             shown, sl_stage_scene(stage)->chart.name);
}

/* Buttons at the lower right; the foot at their left, or above them where it needs more.
 * Returns where the rows above end. */
static int place_foot(const sl_stage *stage, sl_beside_places *p)
{
    const sl_pen *pen = &stage->pen;
    const int margin = sl_pen_px(pen, 12.0);
    const int gap = sl_pen_px(pen, 6.0);
    const int w = sl_pen_px(pen, 104.0);
    const int h = stage->laid.layout.target;
    const int y = pen->sheet->h - margin - h;
    char text[3 * SL_SHOW_LINE];
    put_foot(stage, text, sizeof text);
    p->close = (SDL_Rect){pen->sheet->w - margin - w, y, w, h};
    p->curves_button = (SDL_Rect){p->close.x - gap - w, y, w, h};
    const int beside_w = p->curves_button.x - 2 * margin;
    const int lines = sl_pen_size(pen, SL_TYPE_NOTE, SL_INK_TEXT, beside_w, text).y;
    if (lines <= h) {
        p->foot = (SDL_Rect){margin, y, beside_w, h};
        return y - gap;
    }
    const int whole_w = pen->sheet->w - 2 * margin;
    const int whole_h = sl_pen_size(pen, SL_TYPE_NOTE, SL_INK_TEXT, whole_w, text).y;
    p->foot = (SDL_Rect){margin, y - gap - whole_h, whole_w, whole_h};
    return p->foot.y - gap;
}

/* What stands below a swatch: its strip, its zone, what is read of it, and how much of its colour is left. */
typedef struct sl_side_words {
    char arm[SL_SHOW_LINE], zone[SL_SHOW_LINE], read[SL_SHOW_LINE], left[SL_SHOW_LINE];
} sl_side_words;

static sl_cell cell_of(const sl_stage *stage, int side, const sl_optics *optics)
{
    const sl_spot_of of = stage->chosen.beside[side];
    sl_cell cell;
    sl_timeline_at(sl_stage_story_now(stage, of.arm)->timeline, of.arm, of.zone,
                   sl_stage_reading_now(stage, of.arm)->time_min, optics, &cell);
    return cell;
}

/* "level 7, gold, warm (L* 62)"; the chart is named below it. */
static void put_side(const sl_stage *stage, int side, sl_side_words *put)
{
    const sl_scene *const scene = sl_stage_scene(stage);
    const sl_spot_of of = stage->chosen.beside[side];
    const sl_stage_reading *const reading = sl_stage_reading_now(stage, of.arm);
    const sl_cell cell = cell_of(stage, side, sl_stage_dry(stage));
    const sl_reading_words read = sl_chart_read(&scene->chart, cell.colour.lab);
    const bool times = stage->chosen.mode == SL_SAME_MINUTE || sl_stage_tells_time(stage);
    char words[96], clock[24], share[16];
    sl_chart_words(&read, words, sizeof words);
    sl_put_clock(reading->time_min, clock, sizeof clock);
    sl_put_share(cell.colour_left, share, sizeof share);
    snprintf(put->arm, sizeof put->arm, "%s%d  %s", side == stage->chosen.side ? "› " : "", of.arm + 1,
             sl_arm_title(&scene->arms[of.arm]));
    snprintf(put->zone, sizeof put->zone, _("zone “%s”%s"), sl_zone_title(&scene->zones[of.zone]),
             sl_stage_dyed(stage, of.arm, of.zone) ? "" : _(", no dye"));
    snprintf(put->read, sizeof put->read, "%s  (L* %.0f)", words, cell.colour.lab.L);
    snprintf(put->left, sizeof put->left, "%s%s%s%s%s", cell.colour_left >= 0.0 ? share : "",
             cell.colour_left >= 0.0 ? _(" of its colour left") : _("no dye here"), times ? _(", at ") : "",
             times ? clock : "", reading->predicted ? "" : _(", not predicted: as at the start"));
}

/* As many lines as they need, at least so high. */
static int high(const sl_stage *stage, sl_type type, int w, const char *words, int least)
{
    return SDL_max(sl_text_height(stage->pen.text, type, w, words), least);
}

/* Rows from the top: words, hair, names, readings, foot and buttons. */
sl_beside_places sl_beside_place(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    sl_beside_places p = {0};
    const int margin = sl_pen_px(pen, 12.0);
    const int gap = sl_pen_px(pen, 6.0);
    const int target = stage->laid.layout.target;
    const int width = pen->sheet->w - 2 * margin;
    const int science_w = stage->open.curves ? SDL_max(width * 36 / 100, sl_pen_px(pen, 250.0)) : 0;
    const int left_w = width - (stage->open.curves ? science_w + margin : 0);
    const int words_h = 2 * sl_text_line_height(pen->text, SL_TYPE_HEAD);
    int row[2] = {target, target}, lines[2] = {0, 0}; /* of strip and zone; of what is read */
    for (int side = 0; side < 2; side++) {
        const int w = left_w / 2 - gap, names_w = w - 2 * target - gap;
        sl_side_words words;
        put_side(stage, side, &words);
        row[0] = high(stage, SL_TYPE_STRONG, names_w, words.arm, row[0]);
        row[1] = high(stage, SL_TYPE_BODY, names_w, words.zone, row[1]);
        lines[0] = high(stage, SL_TYPE_STRONG, w, words.read, lines[0]);
        lines[1] = high(stage, SL_TYPE_SMALL, w, words.left, lines[1]);
    }
    const int end = place_foot(stage, &p);
    const int readings_y = end - lines[0] - lines[1];
    const int zones_y = readings_y - gap - row[1], names_y = zones_y - gap - row[0];
    p.words = (SDL_Rect){margin, margin, width, words_h};
    const int hair_y = margin + words_h + gap;
    p.field = (SDL_Rect){margin, hair_y, left_w, names_y - gap - hair_y};
    const int pad = sl_pen_px(pen, 14.0);
    const int hair_w = SDL_max(SDL_min(left_w / 4, p.field.h * 45 / 100), 16);
    const int middle = p.field.x + left_w / 2;
    const int flat_w = left_w / 2 - hair_w - 3 * pad;
    for (int side = 0; side < 2; side++) {
        const int x = margin + side * left_w / 2;
        const int w = left_w / 2 - gap;
        const int hair_x = side == 0 ? p.field.x + 3 * pad / 2 : p.field.x + left_w - 3 * pad / 2 - hair_w;
        p.hair[side] = (SDL_Rect){hair_x, p.field.y + gap, hair_w, p.field.h - 2 * gap};
        p.flat[side] = (SDL_Rect){side == 0 ? middle - flat_w : middle, p.field.y + 2 * pad, flat_w,
                                  p.field.h - 4 * pad};
        p.arm_back[side] = (SDL_Rect){x, names_y, target, row[0]};
        p.arm_on[side] = (SDL_Rect){x + w - target, names_y, target, row[0]};
        p.zone_back[side] = (SDL_Rect){x, zones_y, target, row[1]};
        p.zone_on[side] = (SDL_Rect){x + w - target, zones_y, target, row[1]};
        p.side[side] =
            (SDL_Rect){x + target + gap / 2, names_y, w - 2 * target - gap, readings_y - gap - names_y};
        p.reading[side] = (SDL_Rect){x, readings_y, w, end - readings_y};
    }
    if (stage->open.curves) {
        p.science = (SDL_Rect){margin + left_w + margin, hair_y, science_w, end - hair_y};
    }
    return p;
}

SDL_Rect sl_beside_control(const sl_stage *stage, sl_action_id action, int side)
{
    const sl_beside_places p = sl_beside_place(stage);
    return action == SL_DO_SIDE             ? p.side[side]
           : action == SL_DO_SIDE_ARM_BACK  ? p.arm_back[side]
           : action == SL_DO_SIDE_ARM_ON    ? p.arm_on[side]
           : action == SL_DO_SIDE_ZONE_BACK ? p.zone_back[side]
           : action == SL_DO_SIDE_ZONE_ON   ? p.zone_on[side]
           : action == SL_DO_SCIENCE        ? p.curves_button
                                            : p.close;
}

bool sl_beside_lay(sl_stage *stage, sl_error *error)
{
    if (stage->open.curves) {
        sl_said_follow(stage);
    }
    const sl_beside_places p = sl_beside_place(stage);
    for (int side = 0; side < 2; side++) {
        const SDL_Rect hair = p.hair[side];
        if (!sl_strip_lay(&stage->laid.swatch[side], SDL_max(hair.w, 8), SDL_max(hair.h, 8), 1,
                          (uint32_t)side + 101U, error)) {
            return false;
        }
    }
    return true;
}

static sl_colour colour_of(const sl_stage *stage, int side)
{
    const sl_look look = sl_stage_reading_now(stage, stage->chosen.beside[side].arm)->look;
    return cell_of(stage, side, sl_stage_optics(stage, look)).colour;
}

static void show_hair(const sl_stage *stage, const sl_beside_places *p)
{
    const sl_pen *pen = &stage->pen;
    sl_pen_fill(pen, p->field, SL_GROUND_FIELD);
    SDL_SetClipRect(pen->sheet, &p->field);
    for (int side = 0; side < 2; side++) {
        const sl_spot_of of = stage->chosen.beside[side];
        sl_strip_look look = sl_stage_reading_now(stage, of.arm)->hair;
        memcpy(look.colour[0], look.colour[of.zone], sizeof look.colour[0]);
        sl_strip_show(stage->laid.swatch[side], &stage->look.light, pen->sheet, p->hair[side].x,
                      p->hair[side].y, 0, p->hair[side].w, &look);
        const sl_srgb8 mean = sl_srgb8_seen(stage->look.eyes.vision, colour_of(stage, side).srgb);
        SDL_FillRect(pen->sheet, &p->flat[side], SDL_MapRGB(pen->sheet->format, mean.r, mean.g, mean.b));
    }
    SDL_SetClipRect(pen->sheet, NULL);
}

/* Of the area, and its lines in their middle. */
static void put_middle(const sl_pen *pen, sl_type type, sl_role ink, SDL_Rect area, const char *words)
{
    area.y += (area.h - sl_text_height(pen->text, type, area.w, words)) / 2;
    sl_pen_wrap(pen, type, ink, area, true, words);
}

static void show_side(const sl_stage *stage, const sl_beside_places *p, int side)
{
    const sl_pen *pen = &stage->pen;
    const bool chosen = side == stage->chosen.side;
    const SDL_Rect arm = {p->side[side].x, p->arm_back[side].y, p->side[side].w, p->arm_back[side].h};
    const SDL_Rect zone = {arm.x, p->zone_back[side].y, arm.w, p->zone_back[side].h};
    const sl_role ink = chosen ? SL_INK_LIGHT : SL_INK_TEXT;
    SDL_Rect read = p->reading[side];
    sl_side_words words;
    put_side(stage, side, &words);
    sl_action_draw(stage, p->arm_back[side], SL_DO_SIDE_ARM_BACK, side);
    sl_action_draw(stage, p->arm_on[side], SL_DO_SIDE_ARM_ON, side);
    sl_action_draw(stage, p->zone_back[side], SL_DO_SIDE_ZONE_BACK, side);
    sl_action_draw(stage, p->zone_on[side], SL_DO_SIDE_ZONE_ON, side);
    if (chosen) {
        sl_pen_fill(pen, p->side[side], SL_GROUND_DARK);
    }
    put_middle(pen, SL_TYPE_STRONG, ink, arm, words.arm);
    put_middle(pen, SL_TYPE_BODY, ink, zone, words.zone);
    read.y += sl_pen_wrap(pen, SL_TYPE_STRONG, SL_INK_TEXT, read, true, words.read);
    sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_QUIET, read, true, words.left);
}

/* ---- figures and curves -------------------------------------------------------------------------- */

SDL_Rect sl_beside_room(const sl_stage *stage)
{
    const SDL_Rect area = sl_beside_place(stage).science;
    const int pad = sl_pen_px(&stage->pen, 10.0);
    return (SDL_Rect){area.x + pad, area.y + pad / 2, SDL_max(area.w - 2 * pad, 0), SDL_max(area.h - pad, 0)};
}

uint64_t sl_beside_reads(const sl_stage *stage, uint64_t number)
{
    const SDL_Rect room = sl_beside_room(stage);
    for (int side = 0; side < 2; side++) {
        const sl_stage_reading *const reading = sl_stage_reading_now(stage, stage->chosen.beside[side].arm);
        number = sl_leaf_number(number, &reading->look, sizeof reading->look);
        number = sl_leaf_number(number, &reading->time_min, sizeof reading->time_min);
    }
    number = sl_leaf_number(number, &room, sizeof room);
    return sl_leaf_number(number, &stage->look.eyes, sizeof stage->look.eyes);
}

/* As high as the rows leave it room. */
static void say_curves(sl_document *document, const sl_stage *stage)
{
    static const double ROWS = 150.0; /* units, of the rows above */
    sl_spectrum spectra[2];
    for (int side = 0; side < 2; side++) {
        const sl_look look = sl_stage_reading_now(stage, stage->chosen.beside[side].arm)->look;
        const sl_optics *optics = sl_stage_optics(stage, look);
        spectra[side] = (sl_spectrum){optics, look, cell_of(stage, side, optics).amounts,
                                      side == 0 ? _("left swatch") : _("right swatch")};
    }
    const sl_graph *const chart = sl_graph_of_spectra(&document->arena, spectra, 2, document->error);
    const double room = sl_beside_room(stage).h / stage->pen.unit - ROWS;
    sl_document_charts(document, "", 0.5 * SDL_max(room, 90.0), 1, &chart);
}

void sl_say_beside(sl_document *document, const sl_stage *stage, sl_error *error)
{
    const sl_lab lab[2] = {colour_of(stage, 0).lab, colour_of(stage, 1).lab};
    const double difference = sl_delta_e_76(lab[0], lab[1]);
    char title[SL_SHOW_LINE], seen[SL_SHOW_LINE];
    snprintf(title, sizeof title, "ΔE00 %.1f", sl_delta_e_2000(lab[0], lab[1]));
    sl_document_begin(document, "beside", title, error);
    sl_document_say(document, _("ΔE*ab %.1f, grey scale step %.1f"), difference,
                    sl_grey_scale_step(difference));
    for (int side = 0; side < 2; side++) {
        sl_document_say(document,
                        side == 0 ? _("left: L* %.1f  a* %.1f  b* %.1f")
                                  : _("right: L* %.1f  a* %.1f  b* %.1f"),
                        lab[side].L, lab[side].a, lab[side].b);
    }
    sl_eyes_words(&stage->look.eyes, seen, sizeof seen);
    sl_document_say(document,
                    stage->look.eyes.viewing.observer == SL_OBSERVER_2_DEGREE ? _("%s, 2 degree observer (O)")
                                                                              : "%s (O)",
                    seen);
    say_curves(document, stage);
    sl_document_end(document, SL_ON_NOTHING);
}

static void show_science(const sl_stage *stage, SDL_Rect area)
{
    const SDL_Rect room = sl_beside_room(stage);
    sl_pen_fill(&stage->pen, area, SL_GROUND_SHEET);
    sl_pen_frame(&stage->pen, area, 1, SL_MARK_GRID);
    sl_said_draw(stage, room, 0);
}

static void show_words(const sl_stage *stage, const sl_beside_places *p)
{
    const sl_pen *pen = &stage->pen;
    char text[SL_SHOW_LINE];
    sl_difference_words(colour_of(stage, 0).lab, _(names[0]), colour_of(stage, 1).lab, _(names[1]), text,
                        sizeof text);
    const bool fits = sl_pen_size(pen, SL_TYPE_HEAD, SL_INK_TEXT, p->words.w, text).y <= p->words.h;
    SDL_SetClipRect(pen->sheet, &p->words);
    sl_pen_wrap(pen, fits ? SL_TYPE_HEAD : SL_TYPE_BODY, SL_INK_TEXT, p->words, false, text);
    SDL_SetClipRect(pen->sheet, NULL);
}

int sl_beside_show(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const sl_beside_places p = sl_beside_place(stage);
    show_words(stage, &p);
    show_hair(stage, &p);
    for (int side = 0; side < 2; side++) {
        show_side(stage, &p, side);
    }
    if (stage->open.curves) {
        show_science(stage, p.science);
    }
    char text[3 * SL_SHOW_LINE];
    put_foot(stage, text, sizeof text);
    SDL_SetClipRect(pen->sheet, &p.foot);
    sl_pen_wrap(pen, SL_TYPE_NOTE, SL_INK_TEXT, p.foot, false, text);
    SDL_SetClipRect(pen->sheet, NULL);
    sl_action_draw(stage, p.curves_button, SL_DO_SCIENCE, 0);
    sl_action_draw(stage, p.close, SL_DO_CLOSE, 0);
    return 0;
}

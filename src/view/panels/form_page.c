/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The page of the form: a row for each question, and beside or below them what the answers come
 * to. A stop ends with what must be done first.
 */
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "report/limits/limits.h"
#include "slowlift/caution.h"
#include "view/panels/form.h"
#include "view/panels/said.h"
#include "view/window/action.h"
#include "view/window/show.h"

static const char LEAD[] =
    N_("About a person. Nothing is kept: the answers go when the window closes. No minute is "
       "given unless nothing here stops and nothing is missing.");

static int head_height(const sl_stage *stage, int w)
{
    const sl_pen *pen = &stage->pen;
    return sl_text_line_height(pen->text, SL_TYPE_HEAD) +
           sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_TEXT, w, _(LEAD)).y + sl_pen_px(pen, 8.0);
}

/* Left and right of a row's words, inside what is filled where the row is chosen. */
static const double PAD = 8.0;

static int words_height(const sl_pen *pen, int row, int w)
{
    return sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_TEXT, w, sl_form_words(row)).y;
}

sl_form_places sl_form_place(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const int margin = sl_pen_px(pen, 12.0);
    const int gap = sl_pen_px(pen, 3.0);
    const int target = stage->laid.layout.target;
    const int w = sl_pen_px(pen, 104.0);
    sl_form_places p = {.close = {pen->sheet->w - margin - w, pen->sheet->h - margin - target, w, target}};
    p.clear = (SDL_Rect){p.close.x - 2 * w - gap, p.close.y, 2 * w, target};
    p.body = (SDL_Rect){margin, margin, pen->sheet->w - 2 * margin, p.close.y - 2 * margin};
    const bool beside = p.body.w >= sl_pen_px(pen, 1000.0);
    const int rows_w = beside ? p.body.w * 56 / 100 : p.body.w;
    const int value_w = sl_pen_px(pen, 110.0);
    int y = p.body.y + head_height(stage, p.body.w) - stage->open.scroll[0];
    const int top = y;
    const int words_w = rows_w - value_w - 2 * target - 3 * sl_pen_px(pen, PAD);
    for (int i = 0; i < SL_FORM_ROWS; i++) { /* as high as its words, and as a finger needs */
        const int h = SDL_max(target, words_height(pen, i, words_w));
        const int middle = y + (h - target) / 2;
        p.row[i] = (SDL_Rect){p.body.x, y, rows_w, h};
        p.on[i] = (SDL_Rect){p.body.x + rows_w - target, middle, target, target};
        p.back[i] = (SDL_Rect){p.on[i].x - value_w - target, middle, target, target};
        y += h + gap;
    }
    if (!beside && sl_intake_judge(&stage->entered.person).n_stopped >
                       0) { /* what stops stands where it is seen at once */
        p.stop = (SDL_Rect){p.body.x, 0, p.body.w, sl_leaf_whole(&stage->laid.said, p.body.h * 2 / 5)};
        p.body.h -= p.stop.h + margin;
        p.stop.y = p.body.y + p.body.h + margin;
    }
    p.judged = beside ? (SDL_Rect){p.body.x + rows_w + 2 * margin, top, p.body.w - rows_w - 2 * margin, 0}
                      : (SDL_Rect){p.body.x, y + margin, p.body.w, 0};
    return p;
}

/* A row that is cut off has no controls. */
SDL_Rect sl_form_control(const sl_stage *stage, sl_action_id action, int row)
{
    const sl_form_places p = sl_form_place(stage);
    const SDL_Rect area = p.row[row];
    if (action == SL_DO_FORGET || action == SL_DO_CLOSE) {
        return action == SL_DO_CLOSE ? p.close : p.clear;
    }
    if (area.y < p.body.y || area.y + area.h > p.body.y + p.body.h) {
        return (SDL_Rect){0};
    }
    if (sl_form_replies(row)) {
        const int k = action == SL_DO_FORM_YES ? 0 : action == SL_DO_FORM_NO ? 1 : 2;
        const int gap = sl_pen_px(&stage->pen, 3.0), from = p.back[row].x;
        const int step = (p.on[row].x + p.on[row].w - from + gap) / 3;
        const bool arrow = action == SL_DO_FORM_BACK || action == SL_DO_FORM_ON;
        const SDL_Rect reply = {from + k * step, p.back[row].y, step - gap, p.back[row].h};
        const SDL_Rect none = {0};
        return arrow ? none : reply;
    }
    return action == SL_DO_FORM_BACK ? p.back[row] : action == SL_DO_FORM_ON ? p.on[row] : (SDL_Rect){0};
}

static void show_replies(const sl_stage *stage, int row)
{
    static const sl_action_id reply[] = {SL_DO_FORM_YES, SL_DO_FORM_NO, SL_DO_FORM_UNSURE};
    for (int i = 0; i < 3; i++) {
        const SDL_Rect area = sl_form_control(stage, reply[i], row);
        if (area.h > 0) {
            sl_action_draw(stage, area, reply[i], row);
        }
    }
}

static void show_row(const sl_stage *stage, const sl_form_places *p, int row)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect area = p->row[row];
    const bool chosen = row == stage->entered.form_row;
    const int pad = sl_pen_px(pen, PAD);
    char text[SL_SHOW_LINE];
    SDL_Rect words = {area.x, area.y, p->back[row].x - area.x - pad, area.h};
    if (chosen) {
        sl_pen_fill(pen, words, SL_GROUND_DARK);
    }
    const sl_role ink = chosen ? SL_INK_LIGHT : SL_INK_TEXT;
    words.x += pad;
    words.w -= 2 * pad;
    words.y += (words.h - words_height(pen, row, words.w)) / 2;
    sl_pen_wrap(pen, SL_TYPE_SMALL, ink, words, false, sl_form_words(row));
    if (sl_form_replies(row)) {
        show_replies(stage, row);
        return;
    }
    sl_action_draw(stage, p->back[row], SL_DO_FORM_BACK, row);
    sl_action_draw(stage, p->on[row], SL_DO_FORM_ON, row);
    sl_form_put(stage, row, text, sizeof text);
    const int x = p->back[row].x + p->back[row].w;
    sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, (SDL_Rect){x, area.y, p->on[row].x - x, area.h},
                 SL_ALIGN_CENTRE, text);
}

/* ---- what it comes to ----------------------------------------------------------------------- */

/* Of the strip that is chosen: all that keeps the strand from counting, or how long it was watched. */
static void say_strand(sl_document *document, const sl_strand *strand)
{
    char text[SL_SHOW_LINE];
    for (int worth = 0; worth < SL_STRAND_COUNTED; worth++) {
        if (strand->lacks[worth] || (int)strand->worth == worth) {
            sl_document_row(document, _("strand"), "%s", _(sl_strand_words((sl_strand_worth)worth)));
        }
    }
    if (strand->worth == SL_STRAND_COUNTED) {
        sl_minute_words(SL_MINUTE_CLOCK, text, sizeof text,
                        _("it was watched for %d min; no minute is told that comes later"),
                        (int)strand->watched_min);
        sl_document_row(document, _("strand"), "%s", text);
    }
}

void sl_say_form(sl_document *document, const sl_stage *stage, sl_error *error)
{
    const sl_strand strand =
        sl_form_strand(stage, sl_stage_story_now(stage, stage->chosen.arm)->scene, stage->chosen.arm);
    const sl_person person = {.form = &stage->entered.person};
    sl_document_begin(document, "form", NULL, error);
    sl_limits_say_person(document, &person);
    say_strand(document, &strand);
    if (sl_intake_judge(&stage->entered.person).minutes) {
        sl_document_say(
            document, "%s",
            _("That is no permission: label, hazard sheet, training and law decide. A strand counts "
              "for its own mix alone; see “How long” (E)."));
    }
    sl_document_end(document, SL_ON_STRAND);
}

SDL_Rect sl_form_room(const sl_stage *stage)
{
    return sl_form_place(stage).judged;
}

static void follow_row(sl_stage *stage)
{
    const sl_form_places p = sl_form_place(stage);
    const SDL_Rect row = p.row[stage->entered.form_row];
    const int below = row.y + row.h - p.body.y - p.body.h;
    const int above = p.body.y - row.y;
    stage->open.scroll[0] += below > 0 ? below : above > 0 ? -above : 0;
    stage->open.scroll[0] = stage->entered.form_row == 0 ? 0 : stage->open.scroll[0];
    stage->entered.form_follow = false;
}

void sl_form_follow(sl_stage *stage)
{
    sl_said_follow(stage);
    if (stage->entered.form_follow) {
        follow_row(stage);
    }
}

int sl_form_show(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const sl_form_places p = sl_form_place(stage);
    int y = p.body.y - stage->open.scroll[0];
    SDL_SetClipRect(pen->sheet, &p.body);
    y += sl_pen_wrap(pen, SL_TYPE_HEAD, SL_INK_TEXT, (SDL_Rect){p.body.x, y, p.body.w, 0}, false,
                     _("Before any strand: a short form"));
    sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_TEXT, (SDL_Rect){p.body.x, y, p.body.w, 0}, false, _(LEAD));
    for (int i = 0; i < SL_FORM_ROWS; i++) {
        show_row(stage, &p, i);
    }
    sl_leaf_draw(&stage->laid.said, &stage->pen, p.judged.x, p.judged.y);
    const int end = p.judged.y + sl_leaf_height(&stage->laid.said);
    SDL_SetClipRect(pen->sheet, NULL);
    if (p.stop.h > 0) {
        sl_pen_fill(pen, (SDL_Rect){p.stop.x, p.stop.y - sl_pen_px(pen, 3.0), p.stop.w, 1}, SL_MARK_CONTROL);
        SDL_SetClipRect(pen->sheet, &p.stop);
        sl_leaf_draw(&stage->laid.said, pen, p.stop.x, p.stop.y);
        SDL_SetClipRect(pen->sheet, NULL);
    }
    sl_action_draw(stage, p.close, SL_DO_CLOSE, 0);
    sl_action_draw(stage, p.clear, SL_DO_FORGET, 0);
    const SDL_Rect keys = {p.body.x, p.close.y, p.clear.x - 2 * p.body.x, p.close.h};
    const char *const words = _("Up, Down: row. Left, Right: answer. 0 to 9: a number.");
    const int spare = keys.h - sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_QUIET, keys.w, words).y;
    sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_QUIET, (SDL_Rect){keys.x, keys.y + spare / 2, keys.w, keys.h},
                false, words);
    const SDL_Rect last = p.row[SL_FORM_ROWS - 1];
    const int below = SDL_max(end, last.y + last.h) - p.body.y - p.body.h;
    sl_more_draw(pen, p.body, below);
    return below + stage->open.scroll[0];
}

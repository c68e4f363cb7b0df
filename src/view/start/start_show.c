/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How the start page and its views look: a row of buttons, strips that stand still, lines, what is due, the
 * cautions below. Lines have at least the height of a target; where they find no room they scroll.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "view/draw/widget.h"
#include "view/lesson/lesson_place.h"
#include "view/start/start.h"
#include "view/window/layout.h"

static const double MARGIN = 14.0, PAD = 8.0, CAP = 62.0, WIDEST = 1180.0, READS = 1100.0;
static const double HAIR_SHARE = 0.45, LEAST_HAIR = 0.14; /* of the height */

/* ---- places ---------------------------------------------------------------------------------------------
 */

static void add_spot(sl_start_page *start, sl_start_act act, int which, SDL_Rect area)
{
    if (start->n_spots < SL_START_SPOTS && area.w > 0 && area.h > 0) {
        start->spot[start->n_spots++] = (sl_start_spot){act, which, area};
    }
}

static int wrapped(const sl_start_page *start, sl_type type, int w, const char *text)
{
    return text[0] != '\0' ? sl_pen_size(&start->pen, type, SL_INK_TEXT, w, text).y : 0;
}

/* ---- buttons ----------------------------------------------------------------------------------------------
 */

static const char *label_of(sl_start_act act)
{
    return act == SL_START_LANGUAGE ? (strcmp(sl_language(), "en") == 0 ? "Español" : "English")
                                    : _(sl_start_rows[act].label);
}

static bool shown(const sl_start_page *start, sl_start_act act)
{
    const sl_start_row *const row = &sl_start_rows[act];
    return row->button && (row->views >> start->view & 1U) != 0 &&
           ((act != SL_START_ON && act != SL_START_UP) || start->scroll_most > 0);
}

/* From the right, the way back at the left; those that find no room make a second row. Returns where it ends.
 */
static int put_buttons(sl_start_page *start, SDL_Rect area)
{
    const sl_pen *const pen = &start->pen;
    const int pad = sl_pen_px(pen, PAD), target = SDL_max(sl_pen_px(pen, SL_TARGET), SL_TARGET);
    int all = 0, w[SL_START_ACTS] = {0}, n = 0;
    for (int act = 0; act < SL_START_ACTS; act++) {
        if (shown(start, (sl_start_act)act)) {
            char text[120];
            snprintf(text, sizeof text, "%s  %s", label_of((sl_start_act)act), _(sl_start_rows[act].cap));
            w[act] = sl_pen_size(pen, SL_TYPE_STRONG, SL_INK_TEXT, 0, text).x + 3 * pad;
            all += w[act] + pad;
            n++;
        }
    }
    const bool title_fits =
        sl_pen_size(pen, SL_TYPE_HEAD, SL_INK_TEXT, 0, sl_start_title(start)).x + all + 2 * pad < area.w;
    const int title_h = sl_text_line_height(pen->text, SL_TYPE_HEAD);
    int y = area.y;
    if (sl_start_title(start)[0] != '\0') {
        const SDL_Rect title = {area.x, y, area.w, title_fits ? target : title_h};
        sl_pen_place(pen, SL_TYPE_HEAD, SL_INK_TEXT, title, SL_ALIGN_LEFT, sl_start_title(start));
        y += title_fits ? 0 : title_h + pad / 2;
    }
    const double narrower = all - pad > area.w ? (double)(area.w - n * pad) / SDL_max(all - n * pad, 1) : 1.0;
    int x = area.x + area.w - (int)(narrower * (all - n * pad)) - (n - 1) * pad;
    for (int act = 0; act < SL_START_ACTS; act++) {
        if (w[act] > 0) {
            const SDL_Rect button = {x, y, SDL_max((int)(narrower * w[act]), SL_TARGET), target};
            const bool off = (act == SL_START_ON && start->scroll >= start->scroll_most) ||
                             (act == SL_START_UP && start->scroll <= 0);
            const sl_button_look look = {
                .label = label_of((sl_start_act)act), .key = _(sl_start_rows[act].cap), .off_duty = off};
            sl_button_draw(pen, button, &look);
            add_spot(start, (sl_start_act)act, 0, button);
            x += button.w + pad;
        }
    }
    return y + target + pad;
}

/* ---- lines
 * --------------------------------------------------------------------------------------------------- */

typedef struct sl_line_places {
    int cap_w, label_w, about_w; /* about_w 0: below the label */
    int target, pad;
} sl_line_places;

static sl_line_places line_places(const sl_start_page *start, int w)
{
    const sl_pen *const pen = &start->pen;
    const int pad = sl_pen_px(pen, PAD), cap_w = sl_pen_px(pen, CAP) + 2 * pad;
    const bool beside = w > sl_pen_px(pen, 700.0);
    const int rest = w - cap_w - pad;
    return (sl_line_places){cap_w, beside ? rest * 38 / 100 : rest, beside ? rest * 62 / 100 - pad : 0,
                            SDL_max(sl_pen_px(pen, SL_TARGET), SL_TARGET), pad};
}

static int line_height(const sl_start_page *start, const sl_line_places *p, const sl_start_line *line)
{
    const int label = wrapped(start, SL_TYPE_STRONG, p->label_w, line->label);
    const int about = wrapped(start, SL_TYPE_SMALL, p->about_w > 0 ? p->about_w : p->label_w, line->about);
    const int text = p->about_w > 0 ? SDL_max(label, about) : label + about;
    return SDL_max(text + p->pad, p->target);
}

static int lines_height(const sl_start_page *start, int w)
{
    const sl_line_places p = line_places(start, w);
    int all = 0;
    for (int i = 0; i < start->n; i++) {
        all += line_height(start, &p, &start->line[i]);
    }
    return all;
}

static void put_line(const sl_start_page *start, const sl_line_places *p, const sl_start_line *line,
                     SDL_Rect area)
{
    const sl_pen *const pen = &start->pen;
    const int label_h = wrapped(start, SL_TYPE_STRONG, p->label_w, line->label);
    const int about_w = p->about_w > 0 ? p->about_w : p->label_w;
    const int about_h = wrapped(start, SL_TYPE_SMALL, about_w, line->about);
    const int text_h = p->about_w > 0 ? label_h : label_h + about_h;
    const int x = area.x + p->cap_w + p->pad;
    if (line->cap[0] != '\0') {
        const int h = sl_text_line_height(pen->text, SL_TYPE_STRONG) + p->pad / 2;
        const SDL_Rect cap = {area.x + p->pad, area.y + (area.h - h) / 2, p->cap_w - p->pad, h};
        sl_pen_fill(pen, cap, SL_GROUND_SHEET);
        sl_pen_frame(pen, cap, 1, SL_MARK_CONTROL);
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, cap, SL_ALIGN_CENTRE, line->cap);
    }
    const int y = area.y + (area.h - text_h) / 2;
    sl_pen_wrap(pen, SL_TYPE_STRONG, SL_INK_TEXT, (SDL_Rect){x, y, p->label_w, 0}, false, line->label);
    const SDL_Rect about =
        p->about_w > 0 ? (SDL_Rect){x + p->label_w + p->pad, area.y + (area.h - about_h) / 2, about_w, 0}
                       : (SDL_Rect){x, y + label_h, about_w, 0};
    if (line->about[0] != '\0') {
        sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_QUIET, about, false, line->about);
    }
    sl_pen_fill(pen, (SDL_Rect){area.x, area.y + area.h - 1, area.w, 1}, SL_MARK_GRID);
}

/* What has the ring comes into sight. */
static void follow(sl_start_page *start, const sl_line_places *p)
{
    int y = 0;
    for (int i = 0; i < start->n && start->focus_seen; i++) {
        const int h = line_height(start, p, &start->line[i]);
        if (i == start->focus) {
            start->scroll = SDL_min(start->scroll, y);
            start->scroll = SDL_max(start->scroll, y + h - start->body.h);
        }
        y += h;
    }
}

static void put_lines(sl_start_page *start)
{
    const SDL_Rect body = start->body;
    const sl_line_places p = line_places(start, body.w);
    start->scroll_most = SDL_max(lines_height(start, body.w) - body.h, 0);
    if (!start->dragged) {
        follow(start, &p);
    }
    start->scroll = SDL_clamp(start->scroll, 0, start->scroll_most);
    SDL_SetClipRect(start->pen.sheet, &body);
    int y = body.y - start->scroll;
    SDL_Rect ring = {0};
    for (int i = 0; i < start->n; i++) {
        const SDL_Rect area = {body.x, y, body.w, line_height(start, &p, &start->line[i])};
        SDL_Rect seen;
        put_line(start, &p, &start->line[i], area);
        if (start->line[i].act != SL_START_NOTHING && SDL_IntersectRect(&area, &body, &seen) &&
            (seen.h >= SL_TARGET || seen.h == area.h)) {
            add_spot(start, start->line[i].act, start->line[i].which, seen);
        }
        ring = i == start->focus ? area : ring;
        y += area.h;
    }
    if (ring.h > 0 && start->n > 0) {
        sl_pen_focus(&start->pen, sl_rect_inset(ring, sl_pen_px(&start->pen, 3.0)));
    }
    SDL_SetClipRect(start->pen.sheet, NULL);
    sl_more_draw(&start->pen, body, start->scroll_most - start->scroll);
}

/* ---- documents
 * ----------------------------------------------------------------------------------------------- */

static void put_leaf(sl_start_page *start, bool pending)
{
    const SDL_Rect body = start->body;
    sl_document *const document = pending ? NULL : sl_leaf_renew(&start->leaf, start->read);
    if (document != NULL) {
        sl_start_say_read(start, document, &start->leaf.error);
    }
    if (pending) {
        sl_pen_wrap(&start->pen, SL_TYPE_BODY, SL_INK_TEXT, body, false, _("counting …"));
        return;
    }
    sl_leaf_lay(&start->leaf, &start->pen, body.w, SL_SCIENCE);
    start->scroll_most = SDL_max(sl_leaf_height(&start->leaf) - body.h, 0);
    start->scroll = SDL_clamp(start->scroll, 0, start->scroll_most);
    SDL_SetClipRect(start->pen.sheet, &body);
    sl_leaf_draw(&start->leaf, &start->pen, body.x, body.y - start->scroll);
    SDL_SetClipRect(start->pen.sheet, NULL);
    sl_more_draw(&start->pen, body, start->scroll_most - start->scroll);
}

static int due_height(sl_start_page *start, int w)
{
    sl_leaf *const leaf = &start->due;
    sl_document *const document =
        sl_leaf_renew(leaf, start->read + 1000000U * (uint64_t)(sl_language_in_use() + 1));
    if (document != NULL) {
        sl_document_begin(document, "due", NULL, &leaf->error);
        sl_shelf_say_due(document, &start->my.shelf);
        sl_document_end(document, SL_ON_NOTHING);
    }
    sl_leaf_lay(leaf, &start->pen, w, SL_MORE);
    return sl_leaf_height(leaf);
}

/* ---- all
 * ------------------------------------------------------------------------------------------------------ */

static int put_said(sl_start_page *start, SDL_Rect area)
{
    const sl_pen *const pen = &start->pen;
    const int pad = sl_pen_px(pen, PAD);
    if (start->said[0] == '\0') {
        return area.y;
    }
    const int h = wrapped(start, SL_TYPE_BODY, area.w - 2 * pad, start->said) + pad;
    const SDL_Rect plate = {area.x, area.y, area.w, h};
    sl_pen_fill(pen, plate, SL_GROUND_DARK);
    sl_pen_wrap(pen, SL_TYPE_BODY, SL_INK_LIGHT,
                (SDL_Rect){area.x + pad, area.y + pad / 2, area.w - 2 * pad, 0}, false, start->said);
    return area.y + h + pad;
}

static int put_foot(sl_start_page *start, SDL_Rect area)
{
    const sl_pen *const pen = &start->pen;
    char text[1200];
    sl_start_foot(text, sizeof text);
    const int h = wrapped(start, SL_TYPE_NOTE, area.w, text), y = area.y + area.h - h;
    sl_pen_fill(pen, (SDL_Rect){area.x, y - sl_pen_px(pen, 4.0), area.w, 1}, SL_MARK_GRID);
    sl_pen_wrap(pen, SL_TYPE_NOTE, SL_INK_TEXT, (SDL_Rect){area.x, y, area.w, 0}, false, text);
    return y - sl_pen_px(pen, 8.0);
}

/* Strips, their caption, lines and what is due share what is left: lines come first, hair takes the rest. */
static bool put_home(sl_start_page *start, SDL_Rect area, sl_error *error)
{
    const sl_pen *const pen = &start->pen;
    const int pad = sl_pen_px(pen, PAD);
    const int due_h = due_height(start, area.w);
    const int lines_h = lines_height(start, area.w);
    char caption[SL_START_ABOUT] = "";
    const bool there = start->example.timeline != NULL;
    if (there) {
        sl_start_caption(start, caption, sizeof caption);
    }
    const int caption_h = wrapped(start, SL_TYPE_SMALL, area.w, caption) + pad;
    const int left = area.h - lines_h - due_h - (due_h > 0 ? pad : 0) - caption_h;
    const int hair_h = SDL_min((int)(HAIR_SHARE * pen->sheet->h), left);
    start->hair = (SDL_Rect){0};
    if (there && hair_h >= (int)(LEAST_HAIR * pen->sheet->h)) {
        start->hair = (SDL_Rect){area.x, area.y, area.w, hair_h};
        if (!sl_start_put_hair(start, error)) {
            return false;
        }
        area.y += hair_h + pad / 4;
        sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_QUIET, (SDL_Rect){area.x, area.y, area.w, 0}, false, caption);
        area.y += caption_h - pad / 4;
        area.h -= hair_h + caption_h;
    }
    const int due_room = SDL_min(due_h, SDL_max(area.h - lines_h - pad, 0));
    start->body = (SDL_Rect){area.x, area.y, area.w, due_room > 0 ? SDL_min(lines_h, area.h) : area.h};
    put_lines(start);
    if (due_room > 0) {
        const SDL_Rect due = {area.x, area.y + lines_h + pad, area.w, due_room};
        SDL_SetClipRect(pen->sheet, &due);
        sl_leaf_draw(&start->due, pen, due.x, due.y);
        SDL_SetClipRect(pen->sheet, NULL);
        sl_more_draw(pen, due, due_h - due_room);
    }
    return true;
}

static bool draw_once(sl_start_page *start, sl_error *error)
{
    const sl_pen *const pen = &start->pen;
    const int margin = sl_pen_px(pen, MARGIN),
              most = sl_pen_px(pen, start->view == SL_START_READ ? READS : WIDEST);
    const bool home = start->view == SL_START_HOME;
    const int wide = pen->sheet->w - 2 * margin, w = home ? wide : SDL_min(wide, most);
    SDL_Rect area = {(pen->sheet->w - w) / 2, margin / 2, w, pen->sheet->h - margin};
    start->n_spots = 0;
    start->n = sl_start_says(start, start->line);
    start->focus = SDL_clamp(start->focus, 0, SDL_max(start->n - 1, 0));
    sl_pen_fill(pen, (SDL_Rect){0, 0, pen->sheet->w, pen->sheet->h}, SL_GROUND_FRAME);
    const int bottom = put_foot(start, area);
    const int top = put_said(start, (SDL_Rect){area.x, put_buttons(start, area), area.w, 0});
    area = (SDL_Rect){area.x, top, area.w, SDL_max(bottom - top, 8)};
    if (home) {
        return put_home(start, area, error);
    }
    start->hair = (SDL_Rect){0};
    start->body = area;
    if (start->view == SL_START_READ) {
        put_leaf(start, start->awaited != SL_START_NOTHING);
    } else {
        put_lines(start);
    }
    return true;
}

bool sl_start_draw(sl_start_page *start, sl_error *error)
{
    SDL_Surface *const sheet = SDL_GetWindowSurface(start->window);
    if (sheet == NULL || sheet->format->BytesPerPixel != 4) {
        return sl_fail(error, SL_ERR_MISSING_PART, "a window to draw in",
                       "the display must offer 32-bit colour");
    }
    const double unit = sl_step_unit(sheet->w, sheet->h, start->scale);
    if (!sl_text_scale(start->text, unit, error)) {
        return false;
    }
    sl_text_turn(start->text);
    start->pen = (sl_pen){sheet, start->text, sl_theme_at(start->eyes.theme), unit};
    const int most = start->scroll_most;
    bool good = draw_once(start, error);
    if (good && start->scroll_most != most) { /* the buttons tell of it */
        good = draw_once(start, error);
    }
    if (good && SDL_UpdateWindowSurface(start->window) != 0) {
        return sl_fail(error, SL_ERR_MISSING_PART, SDL_GetError(), "the window cannot be drawn to");
    }
    return good;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The page of a new test: a row for each question, with what can be tapped below the line that is typed; at
 * the foot what the row with the keyboard means. Once it is written, what was made.
 */
#include <stdio.h>

#include "base/language.h"
#include "view/panels/new_page.h"
#include "view/panels/said.h"
#include "view/window/show.h"

static const double PAD = 8.0, MARGIN = 12.0, WIDEST = 1180.0, BESIDE = 760.0, NUMBER = 34.0;
static const char TITLE[] = N_("A test of your own");
static const char LEAD[] = N_(
    "What stands in quiet letters is usual, and counts as it stands. Type another answer, or press what is "
    "offered below it. Nothing is written until the test is, and never over a file.");

/* ---- where it stands ------------------------------------------------------------------------- */

static int wrapped(const sl_stage *stage, sl_type type, int w, const char *text)
{
    return sl_pen_size(&stage->pen, type, SL_INK_TEXT, w, text).y;
}

/* What the row with the keyboard means; at the foot's buttons, where the files go. */
static const char *explained(const sl_stage *stage)
{
    const int row = sl_asking_row_now(stage);
    return sl_ask_rows[row >= 0 ? row : SL_TOPIC_FILE].explain;
}

static int highest_explained(const sl_stage *stage, int w)
{
    int most = 0;
    for (int row = 0; row < SL_TOPICS; row++) {
        most = SDL_max(most, wrapped(stage, SL_TYPE_SMALL, w, sl_ask_rows[row].explain));
    }
    return most;
}

static void place_foot(sl_stage *stage, sl_asked_places *p)
{
    const sl_pen *const pen = &stage->pen;
    const int margin = sl_pen_px(pen, MARGIN), target = stage->laid.layout.target;
    const int pad = sl_pen_px(pen, PAD), sheet_w = pen->sheet->w;
    const int w = SDL_min(sheet_w - 2 * margin, sl_pen_px(pen, WIDEST)), x = (sheet_w - w) / 2;
    const int close_w = sl_pen_px(pen, 104.0);
    const SDL_Rect close = {x + w - close_w, pen->sheet->h - margin - target, close_w, target};
    const char *const label = sl_action_rows[stage->asking.made ? SL_DO_NEW_OPEN : SL_DO_NEW_WRITE].label;
    const int write_w = sl_pen_size(pen, SL_TYPE_STRONG, SL_INK_TEXT, 0, label).x + 4 * pad;
    const SDL_Rect write = {close.x - margin - write_w, close.y, write_w, target};
    const int high = highest_explained(stage, w - 2 * pad) + pad;
    p->close = close;
    *(stage->asking.made ? &p->open : &p->write) = write;
    *(stage->asking.made ? &p->write : &p->open) = (SDL_Rect){0};
    p->explained = (SDL_Rect){x, close.y - pad - high, w, high};
    p->body = (SDL_Rect){x, margin, w, (stage->asking.made ? close.y : p->explained.y) - pad - margin};
}

/* What is offered, one behind the other, in the width of its line; returns where it ends. */
static int place_words(const sl_stage *stage, sl_asked_row *row, sl_topic topic, int y)
{
    const sl_pen *const pen = &stage->pen;
    const int target = stage->laid.layout.target, gap = sl_pen_px(pen, PAD / 2.0);
    const int from = row->field.x, end = from + row->field.w;
    int x = from, below = y;
    for (int i = 0; i < sl_ask_rows[topic].words.n; i++) {
        row->word[i] = (SDL_Rect){0};
        if (!sl_ask_offers(topic, i, &stage->asking.asked)) {
            continue;
        }
        const sl_button_look look = sl_action_look(stage, SL_DO_NEW_WORD, (int)topic * SL_ASK_WORDS + i);
        const int wanted =
            sl_pen_size(pen, look.key[0] != '\0' ? SL_TYPE_BODY : SL_TYPE_STRONG, SL_INK_TEXT, 0, look.label)
                .x +
            sl_pen_px(pen, 2.5 * PAD);
        const int w = SDL_min(SDL_max(wanted, target), row->field.w);
        if (x > from && x + w > end) {
            x = from;
            y += target + gap;
        }
        row->word[i] = (SDL_Rect){x, y, w, target};
        x += w + gap;
        below = y + target;
    }
    return below;
}

static int place_row(const sl_stage *stage, const sl_asked_places *p, int topic, int y, sl_asked_row *row)
{
    const sl_pen *const pen = &stage->pen;
    const int number = sl_pen_px(pen, NUMBER), pad = sl_pen_px(pen, PAD);
    const bool beside = p->body.w >= sl_pen_px(pen, BESIDE);
    const int words_w = (beside ? p->body.w * 38 / 100 : p->body.w) - number - pad;
    const int words_h = wrapped(stage, SL_TYPE_BODY, words_w, sl_ask_rows[topic].ask);
    const int field_x = p->body.x + (beside ? p->body.w * 38 / 100 + pad : number);
    char text[SL_SHOW_LINE];
    *row = (sl_asked_row){.words = {p->body.x + number, y + pad, words_w, words_h}};
    row->field = (SDL_Rect){field_x, beside ? y + pad / 2 : y + pad + words_h + pad / 2,
                            p->body.x + p->body.w - field_x, stage->laid.layout.target};
    const int below = row->field.y + row->field.h;
    const bool refused = sl_asking_refusal(stage, topic, text, sizeof text);
    row->refusal = (SDL_Rect){row->field.x, below, row->field.w,
                              refused ? wrapped(stage, SL_TYPE_STRONG, row->field.w, text) : 0};
    const int end = place_words(stage, row, (sl_topic)topic, below + row->refusal.h + pad / 2);
    row->all = (SDL_Rect){p->body.x, y, p->body.w, SDL_max(end, row->words.y + words_h) + pad - y};
    return row->all.y + row->all.h;
}

static void place_all(sl_stage *stage)
{
    sl_asked_places *const p = &stage->asking.laid;
    place_foot(stage, p);
    int y = p->body.y - stage->open.scroll[0] + sl_text_line_height(stage->pen.text, SL_TYPE_HEAD) +
            wrapped(stage, SL_TYPE_SMALL, p->body.w, LEAD) + sl_pen_px(&stage->pen, PAD);
    for (int topic = 0; topic < SL_TOPICS; topic++) {
        y = place_row(stage, p, topic, y, &p->row[topic]);
    }
    p->end = y;
}

/* Brought into sight. Where the pointer chose it, it stays where it stood, whatever is told of the row that
 * was left. */
static void follow_row(sl_stage *stage, int row, int stood)
{
    const sl_asked_places *const p = &stage->asking.laid;
    const SDL_Rect all = p->row[row].all;
    const bool pressed = stage->hand.held.kind != SL_DO_NONE;
    const int y = pressed ? stood : all.y;
    const int below = y + all.h - p->body.y - p->body.h, above = p->body.y - y;
    const int into_sight = above > 0 ? -above : below > 0 ? SDL_min(below, -above) : 0;
    stage->open.scroll[0] =
        row == 0 && !pressed ? 0 : SDL_max(stage->open.scroll[0] + all.y - y + into_sight, 0);
    place_all(stage);
}

void sl_new_follow(sl_stage *stage)
{
    sl_asked_page *const asking = &stage->asking;
    const sl_action_id focus = stage->hand.focus;
    if (asking->made != NULL) {
        place_foot(stage, &asking->laid);
        sl_said_follow(stage);
        return;
    }
    if (sl_asking_row_now(stage) < 0 && focus != SL_DO_NEW_WRITE && focus != SL_DO_CLOSE) {
        stage->hand = (sl_stage_hand){.focus = SL_DO_NEW_FIELD, .focus_seen = true};
    }
    const int row = sl_asking_row_now(stage), before = asking->row;
    sl_asking_read(stage);
    if (asking->laid.end == 0) {
        place_all(stage);
    }
    const int stood = row >= 0 ? asking->laid.row[row].all.y : 0;
    if (row != before && before >= 0) {
        asking->left[before] = true;
    }
    asking->row = row;
    place_all(stage);
    if (row != before && row >= 0) {
        follow_row(stage, row, stood);
    }
}

static SDL_Rect in_sight(const sl_asked_places *p, SDL_Rect area)
{
    const bool whole = area.y >= p->body.y && area.y + area.h <= p->body.y + p->body.h;
    return (SDL_Rect){area.x, area.y, whole ? area.w : 0, whole ? area.h : 0};
}

SDL_Rect sl_new_control(const sl_stage *stage, sl_action_id action, int which)
{
    const sl_asked_places *const p = &stage->asking.laid;
    const SDL_Rect none = {0};
    return action == SL_DO_CLOSE        ? p->close
           : action == SL_DO_NEW_WRITE  ? p->write
           : action == SL_DO_NEW_OPEN   ? p->open
           : stage->asking.made != NULL ? none
           : action == SL_DO_NEW_FIELD  ? in_sight(p, p->row[which].field)
                                       : in_sight(p, p->row[which / SL_ASK_WORDS].word[which % SL_ASK_WORDS]);
}

/* ---- how it looks ------------------------------------------------------------------------------ */

static void show_row(const sl_stage *stage, int topic)
{
    const sl_pen *const pen = &stage->pen;
    const sl_asked_page *const asking = &stage->asking;
    const sl_asked_row *const row = &asking->laid.row[topic];
    char text[SL_SHOW_LINE], room[SL_ASK_TEXT];
    snprintf(text, sizeof text, "%d", topic + 1);
    sl_pen_write(pen, SL_TYPE_STRONG, SL_INK_TEXT, row->all.x, row->words.y, SL_ALIGN_LEFT, text);
    sl_pen_wrap(pen, SL_TYPE_BODY, SL_INK_TEXT, row->words, false, sl_ask_rows[topic].ask);
    sl_typed_draw(pen, row->field, &asking->typed[topic], sl_ask_usual((sl_topic)topic, &asking->asked, room),
                  stage->hand.focus == SL_DO_NEW_FIELD && stage->hand.focus_number == topic);
    if (sl_asking_refusal(stage, topic, text, sizeof text)) {
        sl_pen_wrap(pen, SL_TYPE_STRONG, SL_INK_TEXT, row->refusal, false, text);
    }
    for (int i = 0; i < sl_ask_rows[topic].words.n; i++) {
        if (row->word[i].w > 0) {
            sl_action_draw(stage, row->word[i], SL_DO_NEW_WORD, (int)topic * SL_ASK_WORDS + i);
        }
    }
    sl_pen_fill(pen, (SDL_Rect){row->all.x, row->all.y + row->all.h - 1, row->all.w, 1}, SL_MARK_GRID);
}

static void show_explained(const sl_stage *stage, SDL_Rect area)
{
    const sl_pen *const pen = &stage->pen;
    const int pad = sl_pen_px(pen, PAD);
    char text[SL_SHOW_LINE];
    sl_pen_fill(pen, area, SL_GROUND_SHEET);
    area = (SDL_Rect){area.x + pad, area.y + pad / 2, area.w - 2 * pad, area.h - pad};
    if (stage->asking.trouble.code != SL_OK) {
        sl_error_sentence(&stage->asking.trouble, text, sizeof text);
        sl_pen_wrap(pen, SL_TYPE_STRONG, SL_INK_TEXT, area, false, text);
    } else {
        sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_TEXT, area, false, explained(stage));
    }
}

static int show_questions(const sl_stage *stage)
{
    const sl_pen *const pen = &stage->pen;
    const sl_asked_places *const p = &stage->asking.laid;
    SDL_Rect at = {p->body.x, p->body.y - stage->open.scroll[0], p->body.w, 0};
    SDL_SetClipRect(pen->sheet, &p->body);
    sl_pen_write(pen, SL_TYPE_HEAD, SL_INK_TEXT, at.x, at.y, SL_ALIGN_LEFT, TITLE);
    at.y += sl_text_line_height(pen->text, SL_TYPE_HEAD);
    sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_TEXT, at, false, _(LEAD));
    for (int topic = 0; topic < SL_TOPICS; topic++) {
        show_row(stage, topic);
    }
    SDL_SetClipRect(pen->sheet, NULL);
    show_explained(stage, p->explained);
    sl_action_draw(stage, p->write, SL_DO_NEW_WRITE, 0);
    const SDL_Rect beside = {at.x, p->write.y, p->write.x - at.x - sl_pen_px(pen, MARGIN), p->write.h};
    sl_more_draw(pen, beside, p->end - p->body.y - p->body.h); /* covers no row */
    return p->end + stage->open.scroll[0] - p->body.y - p->body.h;
}

static int show_made(const sl_stage *stage)
{
    const sl_asked_places *const p = &stage->asking.laid;
    const int height = sl_said_draw(stage, p->body, stage->open.scroll[0]);
    char text[SL_SHOW_LINE];
    sl_action_draw(stage, p->open, SL_DO_NEW_OPEN, 0);
    if (stage->asking.trouble.code != SL_OK) {
        sl_error_sentence(&stage->asking.trouble, text, sizeof text);
        sl_pen_wrap(&stage->pen, SL_TYPE_SMALL, SL_INK_TEXT,
                    (SDL_Rect){p->body.x, p->open.y, p->open.x - p->body.x - sl_pen_px(&stage->pen, PAD), 0},
                    false, text);
    }
    return height - p->body.h;
}

int sl_new_show(const sl_stage *stage)
{
    const sl_asked_places *const p = &stage->asking.laid;
    const int spare = stage->asking.made != NULL ? show_made(stage) : show_questions(stage);
    sl_action_draw(stage, p->close, SL_DO_CLOSE, 0);
    return spare;
}

/* ---- what was made -------------------------------------------------------------------------------- */

SDL_Rect sl_new_room(const sl_stage *stage)
{
    return stage->asking.laid.body;
}

uint64_t sl_new_reads(const sl_stage *stage, uint64_t number)
{
    return sl_leaf_number(number, &stage->asking.made, sizeof stage->asking.made);
}

void sl_say_new(sl_document *document, const sl_stage *stage, sl_error *error)
{
    sl_made_say(document, stage->asking.made, error);
}

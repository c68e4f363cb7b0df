/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See said.h.
 */
#include "view/panels/said.h"

#include <string.h>

#include "base/language.h"

static const double PAD = 10.0; /* units, at the sides of a panel */

/* ---- building ---------------------------------------------------------------------------------- */

static const sl_view_row *open_row(const sl_stage *stage)
{
    return stage->open.page == SL_PAGE_NONE ? &sl_panel_rows[stage->open.panel]
                                            : &sl_page_rows[stage->open.page];
}

/* Of all that any of them reads; the minute is among it where a row says so. */
static uint64_t number_of(const sl_stage *stage, const sl_view_row *row)
{
    const sl_language_id language = sl_language_in_use();
    sl_stage_chosen chosen;
    memcpy(&chosen, &stage->chosen, sizeof chosen);
    chosen.now_min = chosen.speed = 0.0;
    chosen.playing = false;
    uint64_t number = sl_leaf_number(0, &row, sizeof row);
    number = sl_leaf_number(number, &language, sizeof language);
    number = sl_leaf_number(number, &chosen, sizeof chosen);
    number = sl_leaf_number(number, &stage->entered, sizeof stage->entered);
    number = sl_leaf_number(number, &stage->solved.limits, sizeof stage->solved.limits);
    number = sl_leaf_number(number, &stage->solved.found, sizeof stage->solved.found);
    return row->reads != NULL ? row->reads(stage, number) : number;
}

/* Its answers alone stand there, and the control says that there is more. */
static bool folds(const sl_view_row *row)
{
    bool found = false;
    for (int i = 0; i < SL_MOST_GROUPS; i++) {
        found = found || row->control[i][0] == SL_DO_UNFOLD;
    }
    return found;
}

bool sl_said_folded(const sl_stage *stage)
{
    return stage->open.page == SL_PAGE_NONE && folds(open_row(stage)) && !stage->open.unfolded &&
           !stage->open.curves;
}

/* Science that was just opened is brought into sight, where it begins below. */
static void deepen(sl_stage *stage, const sl_view_row *row)
{
    const sl_leaf *const leaf = &stage->laid.said;
    int *const scroll = &stage->open.scroll[stage->open.page == SL_PAGE_NONE ? 1 : 0];
    const int room = row->room(stage).h, top = sl_leaf_top(leaf, SL_SCIENCE);
    if (stage->open.deepens && top > *scroll + room / 2) {
        *scroll = SDL_max(SDL_min(top, sl_leaf_height(leaf) - room), 0);
    }
    stage->open.deepens = false;
}

void sl_said_follow(sl_stage *stage)
{
    const sl_view_row *const row = open_row(stage);
    sl_leaf *const leaf = &stage->laid.said;
    sl_document *const document = sl_leaf_renew(leaf, number_of(stage, row));
    if (document != NULL) {
        row->say(document, stage, &leaf->error);
    }
    sl_leaf_lay(leaf, &stage->pen, row->room(stage).w,
                row->brief || sl_said_folded(stage) ? SL_LEAD
                : stage->open.curves                ? SL_SCIENCE
                                                    : SL_MORE);
    deepen(stage, row);
}

int sl_said_draw(const sl_stage *stage, SDL_Rect area, int scrolled)
{
    const int height = sl_leaf_height(&stage->laid.said);
    SDL_Rect whole = area; /* what does not end above the line that says so is not begun */
    const bool folded = sl_said_folded(stage); /* then its control says that there is more */
    if (height - scrolled > area.h) {
        whole.h = sl_leaf_whole_from(&stage->laid.said, scrolled,
                                     area.h - (folded ? 0 : sl_more_height(&stage->pen)));
    }
    SDL_SetClipRect(stage->pen.sheet, &whole);
    sl_leaf_draw(&stage->laid.said, &stage->pen, area.x, area.y - scrolled);
    SDL_SetClipRect(stage->pen.sheet, NULL);
    if (!folded) {
        sl_more_draw(&stage->pen, area, height - scrolled - area.h);
    }
    return height;
}

void sl_say_only(sl_document *document, const char *name, const char *sentence, sl_error *error)
{
    sl_document_begin(document, name, NULL, error);
    sl_document_say(document, "%s", sentence);
    sl_document_end(document, SL_ON_NOTHING);
}

/* ---- a panel ------------------------------------------------------------------------------------- */

static int controls_of(const sl_view_row *row)
{
    int n = 0;
    while (n < SL_MOST_GROUPS && row->control[n][0] != SL_DO_NONE && row->control[n][0] != SL_DO_UNFOLD) {
        n++;
    }
    return n;
}

/* Few stand in one row, many in pairs. */
static int abreast(int n)
{
    return n <= 4 ? n : 2;
}

/* Of all controls, their gaps with them. */
static int foot_height(const sl_stage *stage, int n)
{
    const int rows = n > 0 ? (n + abreast(n) - 1) / abreast(n) : 0;
    return rows * (stage->laid.layout.target + sl_pen_px(&stage->pen, 0.6 * PAD));
}

SDL_Rect sl_said_control(const sl_stage *stage, sl_action_id action, int which)
{
    const sl_view_row *const row = &sl_panel_rows[stage->open.panel];
    const SDL_Rect panel = stage->laid.layout.panel;
    const int target = stage->laid.layout.target, pad = sl_pen_px(&stage->pen, 0.6 * PAD);
    const int n = controls_of(row), top = panel.y + panel.h - foot_height(stage, n);
    (void)which;
    if (action == SL_DO_UNFOLD) {
        const SDL_Rect above = {panel.x + pad, top - pad - target, panel.w - 2 * pad, target};
        return sl_said_folded(stage) ? above : (SDL_Rect){0};
    }
    for (int i = 0; i < n; i++) {
        const int step = (panel.w - pad) / abreast(n);
        if (row->control[i][0] == action) {
            return (SDL_Rect){panel.x + pad + i % abreast(n) * step, top + i / abreast(n) * (target + pad),
                              step - pad, target};
        }
    }
    return (SDL_Rect){0};
}

SDL_Rect sl_said_room(const sl_stage *stage)
{
    const SDL_Rect panel = stage->laid.layout.panel;
    const int pad = sl_pen_px(&stage->pen, PAD);
    const int foot = foot_height(stage, controls_of(&sl_panel_rows[stage->open.panel]));
    const int fold =
        sl_said_folded(stage) ? stage->laid.layout.target + sl_pen_px(&stage->pen, 0.6 * PAD) : 0;
    const int above = (foot > 0 ? foot + sl_pen_px(&stage->pen, 0.6 * PAD) : 1) + fold;
    return (SDL_Rect){panel.x + pad, panel.y + pad / 2, panel.w - 2 * pad, panel.h - above - pad / 2};
}

int sl_said_show(const sl_stage *stage)
{
    const sl_view_row *const row = &sl_panel_rows[stage->open.panel];
    const SDL_Rect room = sl_said_room(stage);
    sl_pen_fill(&stage->pen, stage->laid.layout.panel, SL_GROUND_SHEET);
    sl_pen_frame(&stage->pen, stage->laid.layout.panel, 1, SL_MARK_GRID);
    const int height = sl_said_draw(stage, room, stage->open.scroll[1]);
    for (int i = 0; i < controls_of(row); i++) {
        sl_action_draw(stage, sl_said_control(stage, row->control[i][0], 0), row->control[i][0], 0);
    }
    if (sl_said_folded(stage)) {
        sl_action_draw(stage, sl_said_control(stage, SL_DO_UNFOLD, 0), SL_DO_UNFOLD, 0);
    }
    return height + sl_pen_px(&stage->pen, 0.5 * PAD) - room.h;
}

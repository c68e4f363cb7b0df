/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Finding and doing actions by their rows.
 */
#include "view/window/action.h"

#include "view/window/acts.h"

int sl_action_count(const sl_stage *stage, sl_action_id id)
{
    const sl_action *const row = &sl_action_rows[id];
    return row->count != NULL ? row->count(stage) : row->many > 0 ? row->many : 1;
}

const char *sl_action_why_not(const sl_stage *stage, sl_action_id id, int which)
{
    return sl_action_rows[id].why_not != NULL ? sl_action_rows[id].why_not(stage, which) : NULL;
}

void sl_action_do(sl_stage *stage, sl_action_id id, int which)
{
    const sl_action *const row = &sl_action_rows[id];
    stage->dirty = true;
    stage->hand.refused = sl_action_why_not(stage, id, which);
    if (stage->hand.refused != NULL) {
        return;
    }
    if (row->page != SL_PAGE_NONE) {
        sl_act_open_page(stage, row->page);
    } else if (row->panel != SL_PANEL_NONE) {
        sl_act_open_panel(stage, row->panel);
    } else if (row->turn != NULL) {
        row->turn(&stage->look.eyes);
        stage->read.stale = true;
    } else if (row->act != NULL) {
        row->act(stage, which, row->by);
    }
}

static bool knob_has_ring(const sl_stage *stage)
{
    return stage->hand.focus == SL_DO_KNOB && stage->open.panel == SL_PANEL_WHAT_IF;
}

static const sl_action_key *key_at(const sl_action *row, SDL_Keycode key, unsigned with, unsigned at)
{
    for (int i = 0; i < SL_MOST_KEYS && row->key[i].at != 0; i++) {
        const sl_action_key *const k = &row->key[i];
        if ((k->at & at) != 0 && k->with == with && key >= k->key && key < k->key + SDL_max(k->run, 1)) {
            return k;
        }
    }
    return NULL;
}

/* At one place; false: nothing, or nothing of which there are so many. */
static bool found_at(const sl_stage *stage, SDL_Keycode key, unsigned with, unsigned at, sl_action_id *id,
                     int *which)
{
    for (int i = 0; i < SL_ACTIONS; i++) {
        const sl_action_key *const k = key_at(&sl_action_rows[i], key, with, at);
        if (k != NULL) {
            *id = (sl_action_id)i;
            *which = k->which == SL_CHOSEN ? sl_action_rows[i].chosen(stage) : k->which + (int)(key - k->key);
            return *which < sl_action_count(stage, *id);
        }
    }
    return false;
}

/* From the innermost place outward; what is possible comes before what is not. */
static bool found_with(const sl_stage *stage, SDL_Keycode key, unsigned with, sl_action_id *id, int *which)
{
    const bool strips = stage->open.page == SL_PAGE_NONE;
    const unsigned at[] = {strips && knob_has_ring(stage) ? SL_AT_KNOB : 0,
                           strips ? SL_AT_PANEL(stage->open.panel) : 0, SL_AT_PAGE(stage->open.page)};
    bool found = false, possible = false;
    for (size_t i = 0; i < sizeof at / sizeof at[0] && !possible; i++) {
        sl_action_id here = SL_DO_NONE;
        int of_them = 0;
        if (found_at(stage, key, with, at[i], &here, &of_them) ||
            (with == KMOD_SHIFT && found_at(stage, key, 0, at[i], &here, &of_them))) {
            possible = sl_action_why_not(stage, here, of_them) == NULL;
            *id = possible || !found ? here : *id;
            *which = possible || !found ? of_them : *which;
            found = true;
        }
    }
    return found;
}

bool sl_action_of_key(const sl_stage *stage, SDL_Keycode key, unsigned mod, sl_action_id *id, int *which)
{
    return ((mod & KMOD_CTRL) != 0 && found_with(stage, key, KMOD_CTRL, id, which)) ||
           found_with(stage, key, (mod & KMOD_SHIFT) != 0 ? KMOD_SHIFT : 0, id, which);
}

/* Until the first cautions were seen, what has no key there waits. */
static bool waits(const sl_stage *stage, const sl_action *row)
{
    bool has_key = false;
    for (int i = 0; i < SL_MOST_KEYS && row->key[i].at != 0; i++) {
        has_key = has_key || (row->key[i].at & SL_AT_PAGE(SL_PAGE_START)) != 0;
    }
    return stage->open.page == SL_PAGE_START && !has_key;
}

sl_button_look sl_action_look(const sl_stage *stage, sl_action_id id, int which)
{
    const sl_action *const row = &sl_action_rows[id];
    sl_button_look look = {.label = row->label,
                           .brief = row->brief,
                           .key = row->cap != NULL ? row->cap : "",
                           .on = row->is_on != NULL
                                     ? row->is_on(stage, which)
                                     : row->panel != SL_PANEL_NONE && row->panel == stage->open.panel,
                           .off_duty = waits(stage, row) || sl_action_why_not(stage, id, which) != NULL};
    if (row->dress != NULL) {
        row->dress(stage, which, &look);
    }
    return look;
}

void sl_action_draw(const sl_stage *stage, SDL_Rect area, sl_action_id id, int which)
{
    const sl_button_look look = sl_action_look(stage, id, which);
    sl_button_draw(&stage->pen, area, &look);
}

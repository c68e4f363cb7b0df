/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a person can do in the window of a scene: one row for each action. Buttons, keys, the order of Tab,
 * the page of keys, `--say` and the test that presses everything come from the rows; where controls stand is
 * told by pages and panels (views.h). Invariant: at one place a key means one action
 * (tests/unit/test_action.c).
 */
#ifndef SLOWLIFT_VIEW_ACTION_H
#define SLOWLIFT_VIEW_ACTION_H

#include "view/draw/widget.h"
#include "view/window/stage.h"

/* Places of keys: pages, panels, and a knob that has the ring, as bits. A key is looked for from the
 * innermost place outward. */
#define SL_AT_PAGE(page) (1U << (unsigned)(page))
#define SL_AT_PANEL(panel) (1U << (16U + (unsigned)(panel)))
#define SL_AT_KNOB (1U << 31U)

enum { SL_CHOSEN = -1, SL_MOST_KEYS = 10 };

/* Ways through something long. */
typedef enum sl_way {
    SL_WAY_UP,
    SL_WAY_DOWN,
    SL_WAY_SHEET_UP,
    SL_WAY_SHEET_DOWN,
    SL_WAY_FIRST,
    SL_WAY_LAST,
    SL_WAYS
} sl_way;

typedef struct sl_action_key {
    SDL_Keycode key;
    unsigned at;   /* places */
    int which;     /* SL_CHOSEN: as the row's `chosen` says */
    int run;       /* that many keys from `key` on, each the next of them; 0: one */
    unsigned with; /* KMOD_SHIFT or KMOD_CTRL; 0: nothing, or shift where no row wants it */
} sl_action_key;

typedef struct sl_action {
    const char *word;             /* in --say and in tests */
    const char *label, *brief;    /* msgids of its button; brief: where the label finds no room; NULL: none */
    const char *cap;              /* msgid: the key, as its button names it; NULL: none */
    const char *keys_told, *help; /* msgids: its line on the page of keys; keys_told NULL: its cap */
    sl_action_id told_with;       /* else: whose line tells of it */
    sl_action_key key[SL_MOST_KEYS]; /* those with at != 0 */
    bool passed_over;                /* Tab does not stop: arrows do the same */
    bool drags;                      /* `point` follows the pointer while it is down */
    int many;                        /* as many as that; 0: one, or as many as `count` says */
    int (*count)(const sl_stage *stage);
    int (*chosen)(const sl_stage *stage); /* which, where a key does not say it */
    /* NULL: possible; else a msgid that says why not. */
    const char *(*why_not)(const sl_stage *stage, int which);
    bool (*is_on)(const sl_stage *stage, int which);
    void (*dress)(const sl_stage *stage, int which, sl_button_look *look); /* a label that changes */
    /* What it does: opens or shuts a page or a panel, turns how things are looked at, or acts. */
    sl_stage_page page;
    sl_panel panel;
    void (*turn)(sl_eyes *eyes);
    void (*act)(sl_stage *stage, int which, int by);
    int by;
    void (*point)(sl_stage *stage, const sl_stage_spot *spot, int x, int y); /* where it was pressed */
} sl_action;

extern const sl_action sl_action_rows[SL_ACTIONS]; /* action_rows.c */
int sl_action_count(const sl_stage *stage, sl_action_id id);
/* NULL: it can be done now; else a msgid. */
const char *sl_action_why_not(const sl_stage *stage, sl_action_id id, int which);
/* What is impossible is not done: its sentence stands in the head until the next. */
void sl_action_do(sl_stage *stage, sl_action_id id, int which);
/* What the key means where the ring, the panel and the page are now; false: nothing. mod: SDL's. */
bool sl_action_of_key(const sl_stage *stage, SDL_Keycode key, unsigned mod, sl_action_id *id, int *which);
void sl_action_draw(const sl_stage *stage, SDL_Rect area, sl_action_id id, int which);
sl_button_look sl_action_look(const sl_stage *stage, sl_action_id id, int which);

#endif

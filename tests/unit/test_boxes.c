/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every page and panel at sizes from the smallest window on, with usual and largest letters, in both
 * languages: what can be pressed lies inside the window and on nothing else that can be pressed, and is as
 * large as a gloved finger needs (44 units: common practice of touch targets, WCAG 2.2, 2.5.5).
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "stage_made.h"
#include "suite.h"
#include "view/window/views.h"

typedef struct size {
    int w, h;
    double scale;
} size;
static const size sizes[] = {
    {900, 600, 1.0}, {900, 600, 2.0}, {1280, 800, 1.0}, {1280, 800, 2.0}, {1920, 1080, 1.0}};
enum { SIZES = sizeof sizes / sizeof sizes[0] };

/* Rows of the gutter and of the form, choices of a new test, and the strips follow other measures. */
static bool pressed_small(sl_action_id kind)
{
    return kind == SL_DO_ZONE || kind == SL_DO_NEW_WORD || kind == SL_DO_NEW_FIELD || kind == SL_DO_STRIP;
}

static void look_over(const sl_stage *stage, const char *where)
{
    const sl_stage_laid *const laid = &stage->laid;
    const int w = stage->pen.sheet->w, h = stage->pen.sheet->h;
    for (int i = 0; i < laid->n_spots; i++) {
        const SDL_Rect *const a = &laid->spots[i].area;
        const char *const word = sl_action_rows[laid->spots[i].kind].word;
        const bool strips = stage->open.page == SL_PAGE_NONE;
        ck_assert_msg(a->x >= 0 && a->x + a->w <= w, "%s: %s %d: %d..%d", where, word, laid->spots[i].number,
                      a->x, a->x + a->w);
        if (strips) {
            ck_assert_msg(a->y >= 0 && a->y + a->h <= h, "%s: %s %d: %d..%d of %d", where, word,
                          laid->spots[i].number, a->y, a->y + a->h, h);
        }
        const bool scrolled = strips && stage->open.panel == SL_PANEL_WHAT_IF && a->x >= laid->layout.panel.x;
        if (!pressed_small(laid->spots[i].kind) && !scrolled) {
            ck_assert_msg(a->h >= laid->layout.target || laid->spots[i].kind == SL_DO_RULER,
                          "%s: %s %d is %d high", where, word, laid->spots[i].number, a->h);
        }
        for (int k = 0; k < i; k++) {
            ck_assert_msg(!SDL_HasIntersection(a, &laid->spots[k].area), "%s: %s %d on %s %d", where, word,
                          laid->spots[i].number, sl_action_rows[laid->spots[k].kind].word,
                          laid->spots[k].number);
        }
    }
}

static void at_every_size(const char *language)
{
    sl_error error = {.code = SL_OK};
    ck_assert(sl_language_use(language, "locale", &error));
    sl_stage *const stage = stage_of("eight-arms.yaml");
    for (int s = 0; s < SIZES; s++) {
        SDL_SetWindowSize(stage->window, sizes[s].w, sizes[s].h);
        stage->look.scale = sizes[s].scale;
        for (int page = 0; page < SL_STAGE_PAGES; page++) {
            for (int panel = 0; panel < (page == SL_PAGE_NONE ? (int)SL_PANELS : 1); panel++) {
                char where[96];
                stage->open.page = (sl_stage_page)page;
                stage->open.panel = (sl_panel)panel;
                stage->open.scroll[0] = stage->open.scroll[1] = 0;
                snprintf(where, sizeof where, "%s %dx%d %.0f %% %s %s", language, sizes[s].w, sizes[s].h,
                         100.0 * sizes[s].scale, sl_page_rows[page].word, sl_panel_rows[panel].word);
                stage_drawn(stage);
                stage_drawn(stage);
                look_over(stage, where);
            }
        }
    }
    sl_stage_free(stage);
    SDL_Quit();
    sl_language_stop();
}

START_TEST(nothing_lies_on_another_in_english)
{
    at_every_size("en");
}
END_TEST

START_TEST(nothing_lies_on_another_in_spanish)
{
    at_every_size("es");
}
END_TEST

START_SUITE("boxes")
ADD(nothing_lies_on_another_in_english)
ADD(nothing_lies_on_another_in_spanish)
END_SUITE

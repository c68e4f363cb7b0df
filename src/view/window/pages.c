/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pages of text over the whole window: cautions, words, help.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "slowlift/caution.h"
#include "view/draw/words.h"
#include "view/panels/panel.h"
#include "view/window/views.h"

typedef struct entry {
    const char *name, *text;
} entry;

static const entry glossary[] = {
    {N_("Strip"),
     N_("One swatch of hair under one treatment. All strips start alike, unless a strip was left undyed. "
        "The narrow lock at its left edge is the same hair at minute 0.")},
    {N_("Zone"), N_("A stretch of the strip with its own colour. The top is the root end.")},
    {N_("Undyed zone"),
     N_("A zone without colour on it. What happens to the hair's own colour and strength is read there.")},
    {N_("Colour left"),
     N_("The share of the zone's dye that is still in the hair, measured by how much light it "
        "takes away. 100 % at the start.")},
    {N_("Base moved"),
     N_("The share of the hair's natural pigment that is gone, and the levels that this lifts it. "
        "It does not grow back in a rinse.")},
    {N_("Hair stress"), N_("The share of the hair's own cross-links that was lost. It only ever rises.")},
    {N_("Level"), N_("How light hair looks, 1 black to 10 palest, by the habit of the trade; there is no "
                     "universal chart.")},
    {N_("Same minute"), N_("Every strip at one moment of the clock. Shows which mix is fast.")},
    {N_("Same colour left"),
     N_("Every strip at the moment when its chosen zone is first down to one share. Shows "
        "what each mix cost to get there.")},
    {N_("Contact, rinse"),
     N_("Contact: the mix touches the hair. Rinse: running water takes it off. Both stand on the ruler.")},
    {"Vol",
     N_("Volume strength of peroxide: litres of oxygen that a litre gives off. 3 % is 10 vol, 6 % is 20 "
        "vol, 12 % is 40 vol.")},
    {N_("Powder"),
     N_("Lightening powder: persulfate salts with alkali. In water it is not harmless; it only works "
        "more slowly.")},
    {N_("Dose"),
     N_("How much oxidant was there, times how long: its concentration added up over the minutes.")},
    {N_("Rim, core"),
     N_("The outside of the fibre, which meets the mix, and its inside, which the mix must enter first.")},
    {N_("Perhydroxyl, persulfate, radical"),
     N_("The three ways in which the model lets a mix attack: alkaline "
        "peroxide, persulfate itself, and both together.")},
    {N_("Melanin"),
     N_("The hair's own pigment. As it goes, hair turns from dark through red-brown and yellow to "
        "nearly colourless.")},
    {N_("Dry, wet, as it lies now"),
     N_("Wet hair looks darker and richer than it will dry. As it lies now: wet under "
        "its mix or under water, else dry. Judge colour on dry hair.")},
    {N_("Tone, warm, cool"),
     N_("What a chart of the trade's words says of a dry colour. The chart is a file of this "
        "program's own and is named where it is used.")},
    {"L*, a*, b*", N_("Lightness from 0 to 100; red against green; yellow against blue.")},
    {"ΔE00, ΔE*ab", N_("How far two colours lie apart. Below 1 hardly anyone would tell them apart.")},
    {N_("Grey scale step"), N_("Change in colour as textile testers grade it: 5 no change, 1 the largest.")},
    {N_("Protan, deutan, tritan"), N_("Eyes in which the cones for red, green or blue light are missing.")},
    {N_("Reflectance"),
     N_("The share of light that comes back, wavelength by wavelength. The colour on the strip "
        "is computed from it.")},
    {N_("Grades"),
     N_("How a number came about: measured here, published, computed, from memory, fitted, assumed. "
        "The weakest one counts.")},
    {N_("Classroom example"),
     N_("The scene uses numbers that nobody measured on your products. Learn from order and direction.")},
};

SDL_Rect sl_page_place(const sl_stage *stage, sl_action_id action, int which)
{
    (void)action;
    (void)which;
    const sl_pen *pen = &stage->pen;
    const int width = pen->sheet->w, height = pen->sheet->h;
    const int margin = sl_pen_px(pen, 24.0);
    const int w = sl_pen_px(pen, 150.0);
    const int h = sl_pen_px(pen, SL_TARGET);
    return (SDL_Rect){width - margin - w, height - margin / 2 - h, w, h};
}

typedef struct column {
    const sl_pen *pen;
    int x, y, w;
    int names; /* width of the names' column; 0: names stand above */
} column;

static void put_entry(column *c, const char *name, const char *text)
{
    const int gap = sl_pen_px(c->pen, 9.0);
    const int named =
        sl_pen_wrap(c->pen, SL_TYPE_STRONG, SL_INK_TEXT, (SDL_Rect){c->x, c->y, c->names, 0}, false, name);
    const SDL_Rect area = {c->x + c->names + gap, c->y, c->w - c->names - gap, 0};
    const int told = sl_pen_wrap(c->pen, SL_TYPE_BODY, SL_INK_TEXT, area, false, text);
    c->y += SDL_max(named, told) + gap;
}

/* A line for each action that has one, in the order of their rows. */
static void put_keys(column *c)
{
    for (int id = 0; id < SL_ACTIONS; id++) {
        const sl_action *const row = &sl_action_rows[id];
        if (row->help != NULL) {
            put_entry(c, row->keys_told != NULL ? row->keys_told : row->cap, row->help);
        }
    }
}

/* The signal word on its dark plate, as it stands on labels. */
static void put_caution(column *c, sl_caution_id id)
{
    const sl_caution *caution = sl_caution_text(id);
    const int gap = sl_pen_px(c->pen, 8.0);
    const int line = sl_text_line_height(c->pen->text, SL_TYPE_STRONG);
    const SDL_Rect plate = {c->x, c->y, c->names, line + gap / 2};
    sl_pen_fill(c->pen, plate, SL_GROUND_DARK);
    sl_pen_place(c->pen, SL_TYPE_STRONG, SL_INK_LIGHT, plate, SL_ALIGN_CENTRE, _(caution->signal));
    const SDL_Rect area = {c->x + c->names + 2 * gap, c->y + gap / 4, c->w - c->names - 2 * gap, 0};
    const int told = sl_pen_wrap(c->pen, SL_TYPE_BODY, SL_INK_TEXT, area, false, _(caution->text));
    c->y += SDL_max(plate.h, told) + gap;
}

static void put_text(column *c, const sl_stage *stage)
{
    const sl_stage_page page = stage->open.page;
    if (page == SL_PAGE_HELP) {
        put_keys(c);
    } else if (page == SL_PAGE_CAUTIONS) {
        for (int id = 0; id < SL_CAUTION_COUNT; id++) {
            put_caution(c, (sl_caution_id)id);
        }
    } else {
        for (size_t i = 0; i < sizeof glossary / sizeof glossary[0]; i++) {
            put_entry(c, glossary[i].name, glossary[i].text);
        }
    }
}

int sl_page_show(const sl_stage *stage)
{
    const SDL_Rect close = sl_page_place(stage, SL_DO_CLOSE, 0);
    const sl_pen *pen = &stage->pen;
    const int margin = sl_pen_px(pen, 24.0);
    const int sheet_w = pen->sheet->w;
    const SDL_Rect page = {margin / 2, margin / 2, sheet_w - margin, close.y - margin};
    sl_pen_fill(pen, page, SL_GROUND_SHEET);
    const int text_w = SDL_min(page.w - 2 * margin, sl_pen_px(pen, 1080.0));
    const int head = sl_text_line_height(pen->text, SL_TYPE_HEAD) + margin;
    const char *const title = sl_page_rows[stage->open.page].title;
    const int x = page.x + (page.w - text_w) / 2;
    sl_pen_place(pen, SL_TYPE_HEAD, SL_INK_TEXT, (SDL_Rect){x, page.y + margin / 2, text_w, head - margin},
                 SL_ALIGN_LEFT, title);
    const SDL_Rect view = {page.x, page.y + head, page.w, page.h - head};
    SDL_SetClipRect(pen->sheet, &view);
    const int names = SDL_min(
        sl_pen_px(pen,
                  stage->open.page == SL_PAGE_GLOSSARY || stage->open.page == SL_PAGE_HELP ? 170.0 : 100.0),
        text_w / 3);
    column c = {.pen = pen, .x = x, .y = view.y - stage->open.scroll[0], .w = text_w, .names = names};
    put_text(&c, stage);
    SDL_SetClipRect(pen->sheet, NULL);
    const int spare = c.y + stage->open.scroll[0] - view.y - view.h;
    sl_more_draw(pen, view, spare - stage->open.scroll[0]);
    sl_action_draw(stage, close, SL_DO_CLOSE, 0);
    return spare;
}

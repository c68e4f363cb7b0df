/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The window's own colours: neutral greys only, so that nothing beside a strip tints
 * the judgement of its colour. Invariant: every pair in SL_THEME_PAIRS keeps the
 * contrast that WCAG 2.2 asks (1.4.3: 4.5 for text; 1.4.11: 3 for parts of controls; in high
 * contrast 7 for text, 1.4.6), the field is the same middle grey in every theme, and no text or mark is drawn
 * in a pair that is not listed there.
 */
#ifndef SLOWLIFT_VIEW_THEME_H
#define SLOWLIFT_VIEW_THEME_H

#include "slowlift/optics.h"

typedef enum sl_role {
    SL_GROUND_FRAME, /* the page around the strips */
    SL_GROUND_FIELD, /* the mid-grey field on which strips hang */
    SL_GROUND_SHEET, /* panels, buttons, pages of text */
    SL_GROUND_DARK,  /* chosen things, notices: dark in a light theme, light in a dark one */
    SL_INK_TEXT,     /* on frame and sheet */
    SL_INK_QUIET,    /* second-rank text on frame and sheet */
    SL_INK_LIGHT,    /* on dark */
    SL_MARK_CONTROL, /* outlines of controls, bars, patterns */
    SL_MARK_GRID,    /* thin lines that only guide the eye */
    SL_MARK_FIELD,   /* light marks on the field: the chosen zone */
    SL_MARK_HOOK,    /* dark marks on the field: the rod, clips, the chosen strip */
    SL_FOCUS_OUTER,  /* focus ring: two rings, so that one shows on any ground */
    SL_FOCUS_INNER,
    SL_ROLE_COUNT
} sl_role;

typedef struct sl_theme {
    const char *name;
    sl_srgb8 colour[SL_ROLE_COUNT];
} sl_theme;

/* X(ink, ground, least contrast): every pair that the window draws. */
#define SL_THEME_PAIRS(X)                                                                                    \
    X(SL_INK_TEXT, SL_GROUND_FRAME, 4.5)                                                                     \
    X(SL_INK_TEXT, SL_GROUND_SHEET, 4.5)                                                                     \
    X(SL_INK_QUIET, SL_GROUND_FRAME, 4.5)                                                                    \
    X(SL_INK_QUIET, SL_GROUND_SHEET, 4.5)                                                                    \
    X(SL_INK_LIGHT, SL_GROUND_DARK, 4.5)                                                                     \
    X(SL_MARK_CONTROL, SL_GROUND_FRAME, 3.0)                                                                 \
    X(SL_MARK_CONTROL, SL_GROUND_SHEET, 3.0)                                                                 \
    X(SL_MARK_HOOK, SL_GROUND_FIELD, 3.0)                                                                    \
    X(SL_MARK_FIELD, SL_GROUND_FIELD, 3.0)                                                                   \
    X(SL_FOCUS_OUTER, SL_FOCUS_INNER, 3.0)                                                                   \
    X(SL_FOCUS_OUTER, SL_GROUND_FRAME, 3.0)                                                                  \
    X(SL_FOCUS_OUTER, SL_GROUND_SHEET, 3.0)                                                                  \
    X(SL_FOCUS_INNER, SL_GROUND_DARK, 3.0)                                                                   \
    X(SL_FOCUS_INNER, SL_GROUND_FIELD, 3.0)

typedef enum sl_theme_number {
    SL_THEME_LIGHT,
    SL_THEME_DARK,
    SL_THEME_HIGH_CONTRAST,
    SL_THEMES
} sl_theme_number;
const sl_theme *sl_theme_at(sl_theme_number number); /* below SL_THEMES */

#endif

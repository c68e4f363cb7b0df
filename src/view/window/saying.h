/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Panels that are a document and nothing else: a row for each. From it come the panel and the action that
 * opens it (stage.h), its row among the panels (views.c), its button, keys and line on the page of keys
 * (action_rows.c). A new one is a row here, and sl_say_<name>() in a file of its own (panels/said.h).
 */
#ifndef SLOWLIFT_VIEW_SAYING_H
#define SLOWLIFT_VIEW_SAYING_H

/* Name; name in C; the controls at its foot; what else it is built from (views.h); its action (action.h). */
#define SL_ALL(...)                                                                                          \
    {                                                                                                        \
        __VA_ARGS__                                                                                          \
    }
#define SL_SAYING_PANELS(X)                                                                                  \
    X(LIMITS, limits, SL_ALL({SL_DO_RANK}, {SL_DO_MAP}, {SL_DO_BOWL}, {SL_DO_FORM}, {SL_DO_UNFOLD}), NULL,   \
      .panel = SL_PANEL_LIMITS, .is_on = limits_open, .label = N_("How long"), .brief = N_("Long"),          \
      .cap = "E", .key = {{SDLK_e, STRIPS}},                                                                 \
      .help = N_("How long: goal, stop and how sure that is, for the chosen strip. There: S for the "        \
                 "shares of doubt, Page Up and Page Down to read on."))                                      \
    X(SCIENCE, science, SL_ALL({SL_DO_OBSERVER}), sl_science_reads, .act = sl_act_science,                   \
      .is_on = science_open, .label = N_("Science"), .cap = "S",                                             \
      .key = {{SDLK_s, STRIPS | BESIDE | ANSWER}},                                                           \
      .help = N_("Science: doses, oxidants, spectrum, grades, method. Page Up and Page Down read on."))

#endif

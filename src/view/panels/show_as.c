/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How things are shown: a row for each choice, whose keys and buttons turn it.
 */
#include <stdio.h>

#include "base/language.h"
#include "view/panels/said.h"
#include "view/window/action.h"

uint64_t sl_show_as_reads(const sl_stage *stage, uint64_t number)
{
    number = sl_leaf_number(number, &stage->look.scale, sizeof stage->look.scale);
    return sl_leaf_number(number, &stage->look.eyes, sizeof stage->look.eyes);
}

static void say_choice(sl_document *document, const sl_stage *stage, sl_action_id action, const char *choice)
{
    const sl_button_look look = sl_action_look(stage, action, 0);
    sl_document_row(document, _(look.label), "%s  (%s)", choice, look.key);
}

void sl_say_show_as(sl_document *document, const sl_stage *stage, sl_error *error)
{
    const sl_eyes *const eyes = &stage->look.eyes;
    const bool lies = eyes->viewing.look == SL_LOOK_UNDER_MIX;
    char scale[24];
    snprintf(scale, sizeof scale, "%.0f %%", 100.0 * stage->look.scale);
    sl_document_begin(document, "show-as", _("Show it …"), error);
    say_choice(document, stage, SL_DO_THEME, _(sl_theme_at(eyes->theme)->name));
    say_choice(document, stage, SL_DO_VISION, _(sl_vision_word(eyes->vision)));
    say_choice(document, stage, SL_DO_LOOK, lies ? _("as it lies now") : _(sl_look_word(eyes->viewing.look)));
    say_choice(document, stage, SL_DO_WIPE,
               !lies         ? _("not shown")
               : eyes->wiped ? _("wiped aside")
                             : _("shown"));
    say_choice(document, stage, SL_DO_LIGHT, _(sl_light_word(eyes->viewing.light)));
    say_choice(document, stage, SL_DO_TEXT_SIZE, scale);
    sl_document_end(document, SL_ON_NOTHING);
}

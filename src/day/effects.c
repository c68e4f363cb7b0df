/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See effects.h.
 */
#include "day/effects.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>

static sl_day_effect *next(sl_day_effects *effects, sl_day_effect_kind kind)
{
    assert(effects->n < SL_DAY_MOST_EFFECTS); /* one key has a handful; alarms leave some free */
    sl_day_effect *const effect = &effects->effect[effects->n++];
    *effect = (sl_day_effect){.kind = kind, .swatch = -1};
    return effect;
}

void sl_effect_tell(sl_day_effects *effects, sl_day_effect_kind kind, const char *format, ...)
{
    sl_day_effect *const effect = next(effects, kind);
    va_list words;
    va_start(words, format);
    vsnprintf(effect->text, sizeof effect->text, format, words);
    va_end(words);
}

void sl_effect_keep(sl_day_effects *effects, const sl_event *event, const char *words)
{
    sl_day_effect *const effect = next(effects, SL_DAY_KEEP);
    effect->event = *event;
    snprintf(effect->text, sizeof effect->text, "%s", words);
}

void sl_effect_sound(sl_day_effects *effects, int beeps, bool again)
{
    sl_day_effect *const effect = next(effects, SL_DAY_SOUND);
    effect->number = beeps;
    effect->again = again;
}

void sl_effect_show(sl_day_effects *effects, int view, int swatch)
{
    sl_day_effect *const effect = next(effects, SL_DAY_SHOW);
    effect->number = view;
    effect->swatch = swatch;
}

void sl_effect_leave(sl_day_effects *effects)
{
    next(effects, SL_DAY_LEAVE);
}

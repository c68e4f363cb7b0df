/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was really weighed and how warm the room was: asked once for each bowl, and once for each block of the
 * plan, which is mixed and put on in one go. Enter alone says: as planned.
 */
#include <stdio.h>

#include "base/language.h"
#include "day/deeds.h"
#include "document/text.h"
#include "scene/yaml/quantity.h"

static bool room_is_known(const sl_day *day, int block)
{
    for (int i = 0; i < day->n_events; i++) {
        const sl_event *const event = &day->event[i];
        if (event->remark == SL_REMARK_ROOM && event->swatch >= 0 && event->swatch < day->n &&
            day->swatches[event->swatch].block == block) {
            return true;
        }
    }
    return false;
}

static void ask(sl_day *day, sl_measuring what, sl_day_effects *effects)
{
    char text[SL_DAY_LINE];
    day->typing = SL_TYPES_MEASURE;
    day->typed[0] = '\0';
    day->asks = what;
    sl_day_typed_words(day, text, sizeof text);
    sl_effect_tell(effects, SL_DAY_SAY, "%s", text);
}

static void ask_room(sl_day *day, int swatch, sl_day_effects *effects)
{
    if (day->scene && !room_is_known(day, day->swatches[swatch].block)) {
        ask(day, (sl_measuring){SL_REMARK_ROOM, swatch, day->scene->room_c}, effects);
    }
}

void sl_day_ask_measure(sl_day *day, int swatch, sl_day_effects *effects)
{
    const sl_day_record record = sl_day_record_of(day);
    const double grams = sl_day_planned_g(&record, swatch, day->bench.state[swatch].round);
    if (grams > 0.0) {
        ask(day, (sl_measuring){SL_REMARK_GRAMS, swatch, grams}, effects);
    } else {
        ask_room(day, swatch, effects);
    }
}

/* What was typed, in the range of such a thing; nothing typed: as planned. */
static bool read_measured(const sl_day *day, double *value)
{
    const bool grams = day->asks.remark == SL_REMARK_GRAMS;
    if (day->typed[0] == '\0') {
        *value = day->asks.planned;
        return true;
    }
    const char *const end = sl_decimal_read(day->typed, value);
    return end && *end == '\0' && *value >= (grams ? 0.01 : 5.0) && *value <= (grams ? 10000.0 : 45.0);
}

void sl_day_put_measured(sl_day *day, sl_day_effects *effects)
{
    const sl_measuring asked = day->asks;
    const bool grams = asked.remark == SL_REMARK_GRAMS;
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = asked.swatch, .remark = asked.remark};
    char value[24];
    if (!read_measured(day, &event.value)) {
        sl_effect_tell(effects, SL_DAY_REFUSE,
                       grams ? _("\"%.20s\" is no weight of a bowl: 0.01 to 10,000 g.")
                             : _("\"%.20s\" is no warmth of a room: 5 to 45 degrees."),
                       day->typed);
        ask(day, asked, effects);
        return;
    }
    sl_short_number(event.value, 2, value, sizeof value);
    sl_day_keep(day, &event, "", effects);
    sl_effect_tell(effects, SL_DAY_SAY, grams ? _("%s: %s g weighed.") : _("%s: the room has %s degrees."),
                   day->plan[asked.swatch].code, value);
    if (grams) {
        ask_room(day, asked.swatch, effects);
    }
}

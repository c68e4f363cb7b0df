/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Out of which tub and which bottle, in words.
 */
#include <stdio.h>
#include <string.h>

#include "base/calendar.h"
#include "base/language.h"
#include "report/plan/day.h"

bool sl_day_tub_words(const sl_tubs *tubs, sl_tub_kind kind, char *text, size_t size)
{
    const sl_tub *const tub = &tubs->of[kind];
    const bool powder = kind == SL_TUB_POWDER;
    char day[SL_DAY_TEXT];
    sl_day_words(tub->opened, day);
    if (tub->lot[0] != '\0' && tub->opened > 0) {
        snprintf(text, size, powder ? _("Powder: lot %s, opened %s.") : _("Developer: lot %s, opened %s."),
                 tub->lot, day);
    } else if (tub->lot[0] != '\0') {
        snprintf(text, size, powder ? _("Powder: lot %s.") : _("Developer: lot %s."), tub->lot);
    } else if (tub->opened > 0) {
        snprintf(text, size, powder ? _("Powder: opened %s.") : _("Developer: opened %s."), day);
    }
    return tub->lot[0] != '\0' || tub->opened > 0;
}

bool sl_day_bowl_holds(const sl_scene *scene, const char *arm, sl_tub_kind kind)
{
    const sl_step *step = NULL;
    for (int round = 0; (step = sl_day_application(scene, arm, round)) != NULL; round++) {
        const sl_mix *const mix = &scene->mixes[step->mix];
        if ((kind == SL_TUB_POWDER ? mix->powder_parts : mix->developer_parts) > 0.0) {
            return true;
        }
    }
    return !scene;
}

static bool same(const sl_tub *one, const sl_tub *other)
{
    return one->opened == other->opened && strcmp(one->lot, other->lot) == 0;
}

void sl_day_each_tub(const sl_day_record *record, const bool *is, sl_day_tell *tell, void *self)
{
    char text[SL_DAY_WORDS];
    for (int kind = 0; kind < SL_TUB_KINDS; kind++) {
        for (int i = 0; record->tubs && i < record->n; i++) {
            bool fresh =
                (!is || is[i]) && sl_day_bowl_holds(record->scene, record->arm[i], (sl_tub_kind)kind);
            for (int k = 0; fresh && k < i; k++) {
                fresh = (is && !is[k]) ||
                        !sl_day_bowl_holds(record->scene, record->arm[k], (sl_tub_kind)kind) ||
                        !same(&record->tubs[k].of[kind], &record->tubs[i].of[kind]);
            }
            if (fresh && sl_day_tub_words(&record->tubs[i], (sl_tub_kind)kind, text, sizeof text)) {
                tell(self, text);
            }
        }
    }
}

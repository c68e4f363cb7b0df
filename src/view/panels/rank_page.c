/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which strip does best in the chosen zone, as `slowlift rank` tells it.
 */
#include "base/language.h"
#include "report/rank/rank.h"
#include "view/panels/said.h"
#include "view/window/show.h"

/* Why there is no rank; `text` may hold the words. NULL: there is one. */
static const char *why_not(const sl_stage *stage, char *text, size_t size)
{
    int order[SL_MAX_ARMS];
    const sl_rank *const rank = stage->solved.study.rank;
    if (stage->entered.of_person) {
        return _("The form about a person is being filled in: ranks are for the classroom. Forget the form "
                 "first (F, Delete).");
    }
    if (!sl_stage_on_bench(stage)) {
        return _("No minutes are given for hair on a head: nothing is ranked here.");
    }
    if (rank == NULL) {
        sl_put_awaited(stage, SL_STUDY_RANK, _("counting …"), text, size);
        return text;
    }
    return sl_rank_order(rank, stage->chosen.zone, SL_LEFT_THEN, order) == 0
               ? _("No strip has a place in this zone: it holds no direct dye.")
               : NULL;
}

void sl_say_rank(sl_document *document, const sl_stage *stage, sl_error *error)
{
    const sl_story *const story =
        stage->solved.after.timeline != NULL ? &stage->solved.after : &stage->solved.before;
    const sl_rank_page page = {
        .timeline = story->timeline, .rank = stage->solved.study.rank, .only = stage->chosen.zone};
    char text[2 * SL_SHOW_LINE];
    const char *const not = why_not(stage, text, sizeof text);
    if (not != NULL) {
        sl_say_only(document, "rank", not, error);
    } else {
        sl_rank_say(document, &page, error);
    }
}

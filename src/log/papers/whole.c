/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The report of a test: what was planned, how the day went, what was seen, what the model says, each in the
 * words of the command that tells it alone.
 */
#include "base/calendar.h"
#include "base/language.h"
#include "log/papers/papers.h"

static void say_order(sl_document *document, const sl_kept_test *kept)
{
    static const sl_text_column columns[] = {
        {N_("swatch"), 1.2, SL_NAME}, {N_("strip"), 4.0, 0},          {N_("round"), 1.0, SL_RIGHT},
        {N_("place"), 1.0, SL_RIGHT}, {N_("h:min:s"), 1.2, SL_RIGHT}, {N_("on the hair"), 1.4, SL_RIGHT}};
    sl_document_table(document, _("Swatches in the order of the plan"), 6, columns, 0.0);
    for (int i = 0; i < kept->n; i++) {
        const sl_log_swatch *const swatch = &kept->swatches[i];
        char text[32] = "-";
        sl_document_cell(document, "%s", swatch->bench.code);
        sl_document_cell(document, "%s", sl_title_of_arm(kept->scene, swatch->arm));
        sl_document_cell(document, "%d", swatch->block + 1);
        sl_document_cell(document, "%d", swatch->place + 1);
        if (swatch->bench.contact_s >= 0) {
            sl_day_time(swatch->bench.contact_s, text, sizeof text);
        }
        sl_document_cell(document, "%s", text);
        if (swatch->bench.contact_s >= 0) {
            sl_day_time(sl_bench_lying_s(&swatch->bench), text, sizeof text);
        }
        sl_document_cell(document, "%s", text);
    }
}

void sl_paper_whole(sl_document *document, const void *of, sl_error *error)
{
    const sl_whole_paper *const paper = of;
    const sl_kept_test *const kept = paper->kept;
    char title[SL_DAY_WORDS];
    snprintf(title, sizeof title, _("Report of a test: \"%s\""), kept->test.title);
    sl_document_begin(document, "report", title, error);
    if (kept->went.rehearsed) {
        sl_document_lies(document, _("*** A REHEARSAL: ITS CLOCK RAN FAST. NO HAIR LAY SO LONG. ***"));
    }
    sl_document_row(document, _("Scene"), "%s", sl_scene_title(kept->scene));
    if (kept->dyed > 0) {
        char day[SL_DAY_TEXT];
        sl_day_words(kept->dyed, day);
        sl_document_row(document, _("Dyed"), "%s", day);
    }
    if (paper->plan.plan) {
        sl_document_take(document, _("Planned"), sl_plan_say_kept, &paper->plan);
        sl_document_apart(document);
    }
    say_order(document, kept);
    sl_document_take(document, _("How the day went"), sl_day_say_went, &kept->went);
    if (sl_day_last_stop(kept->event, kept->n_events)) {
        sl_document_take(document, _("What was stopped"), sl_day_say_stops, &kept->went);
    }
    sl_document_take(document, _("What was seen"), sl_compare_say, &paper->seen);
    if (paper->predicted) {
        sl_document_take(document, _("What the model says"), paper->predicted, paper->prediction);
    }
    sl_document_heading(document, _("Cautions"));
    sl_document_end(document, SL_ON_HAIR | SL_ON_OUTCOME | SL_ON_SWATCHES);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Labels for the envelopes in which swatches are kept: a code finds its test again.
 */
#include <stdio.h>

#include "base/calendar.h"
#include "base/language.h"
#include "log/papers/papers.h"

enum { ABREAST = 3 };
static const double HEIGHT_PT = 92.0;

/* When something was put on it; else the day on which its test was made. */
static void put_day(const sl_kept_test *kept, int swatch, char day[SL_DAY_TEXT])
{
    const sl_bench_state *const state = &kept->folded->state[swatch];
    if (state->stage == SL_STAGE_WAITING && state->n_lain == 0) {
        snprintf(day, SL_DAY_TEXT, "%.10s", kept->test.made);
    } else {
        sl_day_words(sl_day_of_instant(&state->contact), day);
    }
}

void sl_paper_labels(sl_document *document, const void *of, sl_error *error)
{
    const sl_label_paper *const paper = of;
    const sl_kept_test *const kept = paper->kept;
    char title[SL_DAY_WORDS], day[SL_DAY_TEXT];
    snprintf(title, sizeof title, _("Labels for the shelf: \"%s\""), kept->test.title);
    sl_document_begin(document, "labels", title, error);
    if (kept->went.rehearsed) {
        sl_document_lies(document, _("*** A REHEARSAL: ITS CLOCK RAN FAST. NO HAIR LAY SO LONG. ***"));
    }
    sl_document_say(
        document, "%s",
        _("One for each envelope. slowlift log show with the test's number finds the swatch again."));
    sl_document_cards(document, _("Labels to cut out"), ABREAST, HEIGHT_PT);
    for (int i = 0; i < kept->n; i++) {
        const sl_log_swatch *const swatch = &kept->swatches[i];
        put_day(kept, i, day);
        if (paper->blind) {
            sl_document_card(document, swatch->bench.code,
                             _("%s\n"
                               "Round %d, place %d\n"
                               "Test %.8s\n"
                               "Shelf: ____________"),
                             day, swatch->block + 1, swatch->place + 1, kept->test.id);
        } else {
            sl_document_card(document, swatch->bench.code,
                             _("%s\n"
                               "%s\n"
                               "Round %d, place %d\n"
                               "Test %.8s\n"
                               "Shelf: ____________"),
                             sl_title_of_arm(kept->scene, swatch->arm), day, swatch->block + 1,
                             swatch->place + 1, kept->test.id);
        }
    }
    sl_document_end(document, SL_ON_NOTHING);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See search.h.
 */
#include "report/rank/search.h"
#include "base/language.h"
#include "report/limits/aims_words.h"
#include "report/limits/leave_words.h"
#include "report/told.h"

#include <string.h>

#include "document/text.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

enum { TEXT = 640, OCCASIONS = SL_ON_OUTCOME | SL_ON_STRAND };

static const double NOT_WEAKER = 0.99; /* of the mix's own strength: the search's tolerance */

/* Found trials, least stress first; returns how many. */
static int order_of(const sl_search *search, int order[SL_MAX_ARMS])
{
    int n = 0;
    for (int i = 0; i < search->n; i++) {
        if (!search->trial[i].found) {
            continue;
        }
        int at = n++;
        for (; at > 0 && search->trial[i].cystine_lost < search->trial[order[at - 1]].cystine_lost; at--) {
            order[at] = order[at - 1];
        }
        order[at] = i;
    }
    return n;
}

static void say_asked(sl_document *document, const sl_scene *scene)
{
    sl_say_aims(document, scene, false);
    sl_document_row(document, _("kept"), "%s",
                    _("no added heat, no more than 12 %, no stronger than the mix itself, no longer than its "
                      "label's time where one is entered; one application"));
}

static void strength_words(const sl_search_page *page, const sl_trial *trial, char *text, size_t size)
{
    char number[24];
    if (!(page->scene->mixes[trial->mix].developer_parts > 0.0)) {
        snprintf(text, size, _("no developer"));
        return;
    }
    sl_short_number(trial->strength_pct, 1, number, sizeof number);
    snprintf(text, size, _("about %s %%"), number);
}

static void say_trial(sl_document *document, const sl_search_page *page, const sl_trial *trial)
{
    const double share[3] = {trial->worst_left, trial->base_moved, trial->cystine_lost};
    char strength[40];
    strength_words(page, trial, strength, sizeof strength);
    sl_document_cell(document, "%s", page->scene->mixes[trial->mix].name);
    sl_document_cell(document, "%s", strength);
    sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_OUTCOME, .value = trial->dwell_min});
    for (int i = 0; i < 3; i++) {
        sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_SHARE, .value = share[i]});
    }
}

static void say_trials(sl_document *document, const sl_search_page *page)
{
    static const sl_text_column columns[] = {
        {N_("mix"), 3.0, SL_NAME},           {N_("strength"), 2.0, SL_RIGHT},
        {N_("on the bench"), 2.0, SL_RIGHT}, {N_("colour left"), 1.0, SL_RIGHT},
        {N_("base moved"), 1.0, SL_RIGHT},   {N_("hair stress"), 1.0, SL_RIGHT}};
    int order[SL_MAX_ARMS];
    const int n = order_of(page->search, order);
    sl_document_apart(document);
    if (n == 0) {
        sl_document_say(
            document, "%s",
            page->search->n > 0
                ? _("NONE. No strength and time of the mixes that are allowed reach the goal inside "
                    "every limit in this model. A smaller goal, another day, or leaving it as it is "
                    "are answers too.")
                : _("NONE. No mix here is marked as allowed by its label, so nothing was searched. "
                    "Read the label; then write \"label_allows: yes\" into the mix's file, or add "
                    "--allowed MIX."));
        return;
    }
    sl_document_table(document, "", 6, columns, 0.0);
    for (int i = 0; i < n; i++) {
        say_trial(document, page, &page->search->trial[order[i]]);
    }
}

static void say_rest(sl_document *document, const sl_search_page *page)
{
    const sl_search *const search = page->search;
    for (int i = 0; i < search->n; i++) {
        if (!search->trial[i].found) {
            sl_document_row(document, _("none for"),
                            _("\"%s\": no strength and time reach the goal inside every limit"),
                            page->scene->mixes[search->trial[i].mix].name);
        }
    }
    for (int i = 0; i < search->n; i++) {
        const sl_trial *const trial = &search->trial[i];
        const sl_mix *const mix = &page->scene->mixes[trial->mix];
        if (trial->found && mix->developer_parts > 0.0 &&
            trial->strength_pct < NOT_WEAKER * mix->developer_pct) {
            sl_document_row(document, _("mind"),
                            _("\"%s\" is weaker here than its file says: swatches only, off the head, unless "
                              "the label allows a developer let down like this"),
                            mix->name);
        }
    }
    if (search->not_allowed > 0) {
        sl_document_row(
            document, _("left out"),
            sl_plural("%d mix of this scene, not marked as allowed by the label (or above 12 %%)",
                      "%d mixes of this scene, not marked as allowed by the label (or above 12 %%)",
                      search->not_allowed),
            search->not_allowed);
    }
}

void sl_search_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_search_page *const page = of;
    sl_document_begin(document, "search", _("Mixes to try on a strand"), error);
    sl_say_lies(document, page->scene, NULL);
    say_asked(document, page->scene);
    sl_say_note(document, page->scene);
    say_trials(document, page);
    say_rest(document, page);
    sl_say_labels(document, page->scene, NULL, -1);
    sl_document_apart(document);
    sl_document_say(
        document, "%s",
        _("To try on a strand on the bench, looking from minute 2 on; not a finding and not a time "
          "for anybody's head. From the model's central values alone."));
    sl_document_end(document, sl_with_reducing(page->scene, OCCASIONS));
}

/* ---- for machines ----------------------------------------------------------------------- */

#define TRIAL(SAY)                                                                                           \
    SAY(let, const sl_trial *const trial = &page->search->trial[table->place])                               \
    SAY(text, "mix", page->scene->mixes[trial->mix].name)                                                    \
    SAY(text, "arm", page->scene->arms[trial->arm].name)                                                     \
    SAY(yes, "found", trial->found)                                                                          \
    SAY(only, trial->found)                                                                                  \
    SAY(number, "strength_pct", trial->strength_pct)                                                         \
    SAY(outcome, "dwell_min", trial->dwell_min)                                                              \
    SAY(number, "worst_left", trial->worst_left)                                                             \
    SAY(number, "base_moved", trial->base_moved)                                                             \
    SAY(number, "cystine_lost", trial->cystine_lost)
SL_TABLE(trials, TRIAL, sl_search_page, page);

#define LEFT_OUT(SAY) SAY(number, "not_allowed", page->search->not_allowed)

/* The mixes that were searched, and at last how many were not. */
static sl_told tell_line(sl_row *row, const sl_table *table)
{
    const sl_search_page *const page = table->of;
    SL_SAY(lies, page->scene, NULL)
    if (table->place < page->search->n) {
        return tell_trials(row, table);
    }
    LEFT_OUT(SL_SAY)
    return table->place == page->search->n ? SL_TOLD : SL_NO_MORE;
}

static const sl_columns lines =
    SL_COLUMNS(TRIAL(SL_COLUMN) LEFT_OUT(SL_COLUMN) SL_COLUMN(lies, page->scene, NULL), .tell = tell_line,
               .lead = 2, .tail = 1);

#define SEARCH(SAY)                                                                                          \
    SAY(lies, page->scene, NULL)                                                                             \
    SAY(text, "scene", page->scene->name)                                                                    \
    SAY(yes, "goal_assumed", page->scene->aims.assumed)                                                      \
    SAY(rows, "trials", trials, page, 0, page->search->n)                                                    \
    LEFT_OUT(SAY)                                                                                            \
    SAY(note, page->scene)                                                                                   \
    SAY(cautions, sl_with_reducing(page->scene, OCCASIONS))
SL_TABLE(search_record, SEARCH, sl_search_page, page);

const sl_export sl_search_export = {"search", 1, &search_record, &lines};

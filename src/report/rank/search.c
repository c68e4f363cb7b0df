/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See search.h.
 */
#include "report/rank/search.h"
#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "report/limits/aims_words.h"
#include "report/limits/leave_words.h"

#include <string.h>

#include "document/text.h"
#include "report/json_text.h"
#include "report/run/csv_name.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

enum { NAME = 26, STRENGTH = 14, TIME = 16, SHARE = 13, TEXT = 640 };

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

static void put_aims(FILE *out, const sl_scene *scene, int width)
{
    char text[TEXT], share[16], more[192];
    sl_goal_words(scene, text, sizeof text);
    if (scene->aims.base_moved.set) {
        sl_percent(scene->aims.base_moved.most, share, sizeof share);
        sl_append(text, sizeof text, _("; base moved at most %s %%"), share);
    }
    if (scene->aims.cystine_lost.set) {
        sl_percent(scene->aims.cystine_lost.most, share, sizeof share);
        sl_append(text, sizeof text, _("; hair stress at most %s %%"), share);
        sl_stress_of_words(scene, more, sizeof more);
        sl_append(text, sizeof text, "%s", more);
    }
    if (scene->aims.longest_min.set) {
        sl_short_number(scene->aims.longest_min.most, 0, share, sizeof share);
        sl_minute_words(SL_MINUTE_PLANNED, more, sizeof more, _("; at most %s min on the hair"), share);
        sl_append(text, sizeof text, "%s", more);
    }
    sl_put_paragraph(out, _(" asked:    "), text, width);
    sl_put_paragraph(
        out, _(" kept:     "),
        _("no added heat, no more than 12 %, no stronger than the mix itself, no longer than its label's "
          "time where one is entered; one application"),
        width);
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

static void put_cells(FILE *out, const char *const cell[6])
{
    static const int width[6] = {NAME, STRENGTH, TIME, SHARE, SHARE, SHARE};
    fputs("  ", out);
    sl_put_left(out, cell[0], width[0]);
    for (int i = 1; i < 6; i++) {
        sl_put_right(out, cell[i], width[i]);
    }
    fputc('\n', out);
}

static void put_trial(FILE *out, const sl_search_page *page, const sl_trial *trial)
{
    const double share[3] = {trial->worst_left, trial->base_moved, trial->cystine_lost};
    char strength[40], time[40], cell[3][24];
    strength_words(page, trial, strength, sizeof strength);
    sl_minutes_range(trial->dwell_min, time, sizeof time);
    for (int i = 0; i < 3; i++) {
        char by[16];
        sl_percent(share[i], by, sizeof by);
        snprintf(cell[i], sizeof cell[i], "%s %%", by);
    }
    const char *const row[6] = {
        page->scene->mixes[trial->mix].name, strength, time, cell[0], cell[1], cell[2]};
    put_cells(out, row);
}

static void put_none(FILE *out, const sl_search *search, int width)
{
    sl_put_paragraph(out, " ",
                     search->n > 0
                         ? _("NONE. No strength and time of the mixes that are allowed reach the goal inside "
                             "every limit in this model. A smaller goal, another day, or leaving it as it is "
                             "are answers too.")
                         : _("NONE. No mix here is marked as allowed by its label, so nothing was searched. "
                             "Read the label; then write \"label_allows: yes\" into the mix's file, or add "
                             "--allowed MIX."),
                     width);
}

static void put_rest(FILE *out, const sl_search_page *page, int width)
{
    const sl_search *const search = page->search;
    char text[TEXT];
    for (int i = 0; search->n > 0 && i < search->n; i++) {
        if (!search->trial[i].found) {
            snprintf(text, sizeof text, _("\"%s\": no strength and time reach the goal inside every limit"),
                     page->scene->mixes[search->trial[i].mix].name);
            sl_put_paragraph(out, _(" none for: "), text, width);
        }
    }
    for (int i = 0; i < search->n; i++) {
        const sl_trial *const trial = &search->trial[i];
        const sl_mix *const mix = &page->scene->mixes[trial->mix];
        if (trial->found && mix->developer_parts > 0.0 &&
            trial->strength_pct < NOT_WEAKER * mix->developer_pct) {
            snprintf(
                text, sizeof text,
                _("\"%s\" is weaker here than its file says: swatches only, off the head, unless the label "
                  "allows a developer let down like this"),
                mix->name);
            sl_put_paragraph(out, _(" mind:     "), text, width);
        }
    }
    if (search->not_allowed > 0) {
        snprintf(text, sizeof text,
                 sl_plural("%d mix of this scene, not marked as allowed by the label (or above 12 %%)",
                           "%d mixes of this scene, not marked as allowed by the label (or above 12 %%)",
                           search->not_allowed),
                 search->not_allowed);
        sl_put_paragraph(out, _(" left out: "), text, width);
    }
}

static const sl_caution_id foot[] = {SL_CAUTION_ESTIMATE, SL_CAUTION_LABEL, SL_CAUTION_TESTS};

static void put_foot(FILE *out, int width)
{
    fputc('\n', out);
    sl_put_paragraph(
        out, " ",
        _("To try on a strand on the bench, looking from minute 2 on; not a finding and not a time for "
          "anybody's head. From the model's central values alone."),
        width);
    fputc('\n', out);
    for (size_t i = 0; i < sizeof foot / sizeof foot[0]; i++) {
        const sl_caution *const caution = sl_caution_text(foot[i]);
        char lead[24];
        snprintf(lead, sizeof lead, " %-8s", _(caution->signal));
        sl_put_paragraph(out, lead, _(caution->text), width);
    }
}

bool sl_search_text(FILE *out, const sl_search_page *page, int width)
{
    const char *const heads[6] = {_("mix"),         _("strength"),   _("on the bench"),
                                  _("colour left"), _("base moved"), _("hair stress")};
    int order[SL_MAX_ARMS];
    char note[TEXT];
    const int n = order_of(page->search, order);
    sl_put_lies(out, page->scene, NULL, width);
    sl_put_paragraph(out, "", _("Mixes to try on a strand"), width);
    put_aims(out, page->scene, width);
    sl_example_note(page->scene, note, sizeof note);
    sl_put_paragraph(out, _(" note:     "), note, width);
    fputc('\n', out);
    if (n == 0) {
        put_none(out, page->search, width);
    } else {
        put_cells(out, heads);
    }
    for (int i = 0; i < n; i++) {
        put_trial(out, page, &page->search->trial[order[i]]);
    }
    put_rest(out, page, width);
    sl_put_labels(out, page->scene, NULL, -1, width);
    put_foot(out, width);
    return ferror(out) == 0;
}

/* ---- for machines ----------------------------------------------------------------------- */

static void put_number(FILE *out, const sl_search_page *page, const sl_trial *trial, const char *quantity,
                       double value)
{
    sl_csv_name(out, page->scene->mixes[trial->mix].name);
    fputc(',', out);
    sl_csv_name(out, page->scene->arms[trial->arm].name);
    fprintf(out, ",%s,%.9g,%s\n", quantity, value, sl_lies_for(page->scene, NULL));
}

bool sl_search_csv(FILE *out, const sl_search_page *page)
{
    fputs("mix,arm,quantity,value,lies_for\n", out);
    for (int i = 0; i < page->search->n; i++) {
        const sl_trial *const trial = &page->search->trial[i];
        put_number(out, page, trial, "found", trial->found ? 1.0 : 0.0);
        if (trial->found) {
            put_number(out, page, trial, "strength_pct", trial->strength_pct);
            char key[SL_MINUTE_KEY];
            put_number(out, page, trial, sl_minute_key(SL_MINUTE_MODEL, "dwell_min", key), trial->dwell_min);
            put_number(out, page, trial, "worst_left", trial->worst_left);
            put_number(out, page, trial, "base_moved", trial->base_moved);
            put_number(out, page, trial, "cystine_lost", trial->cystine_lost);
        }
    }
    fprintf(out, ",,not_allowed,%d,%s\n", page->search->not_allowed, sl_lies_for(page->scene, NULL));
    return ferror(out) == 0;
}

bool sl_search_json(FILE *out, const sl_search_page *page)
{
    sl_json json = {.out = out};
    char note[320];
    sl_json_open(&json, NULL, '{');
    sl_json_text(&json, "lies_for", sl_lies_for(page->scene, NULL));
    sl_json_text(&json, "scene", page->scene->name);
    sl_json_bool(&json, "goal_assumed", page->scene->aims.assumed);
    sl_json_open(&json, "trials", '[');
    for (int i = 0; i < page->search->n; i++) {
        const sl_trial *const trial = &page->search->trial[i];
        sl_json_open(&json, NULL, '{');
        sl_json_text(&json, "mix", page->scene->mixes[trial->mix].name);
        sl_json_text(&json, "arm", page->scene->arms[trial->arm].name);
        sl_json_bool(&json, "found", trial->found);
        if (trial->found) {
            sl_json_number(&json, "strength_pct", trial->strength_pct);
            sl_json_minute(&json, "dwell_min", SL_MINUTE_MODEL, trial->dwell_min);
            sl_json_number(&json, "worst_left", trial->worst_left);
            sl_json_number(&json, "base_moved", trial->base_moved);
            sl_json_number(&json, "cystine_lost", trial->cystine_lost);
        }
        sl_json_close(&json, '}');
    }
    sl_json_close(&json, ']');
    sl_json_number(&json, "not_allowed", page->search->not_allowed);
    sl_example_note(page->scene, note, sizeof note);
    sl_json_text(&json, "note", note);
    sl_json_cautions(&json, foot, sizeof foot / sizeof foot[0]);
    sl_json_close(&json, '}');
    return ferror(out) == 0;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen in several tests, as a document: what stands together and why not, a summary to be read
 * aloud, a table for each colour. See several.h.
 */
#include <math.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "base/plain_text.h"
#include "document/text.h"
#include "log/compare/compare_page.h"
#include "log/several/several.h"
#include "log/store/sql.h"
#include "report/arm_table.h"
#include "report/told.h"

enum { TEXT = 900 };

unsigned sl_several_occasions(const sl_several *several)
{
    unsigned occasions = SL_ON_OUTCOME;
    for (size_t i = 0; i < several->n; i++) {
        occasions = sl_with_reducing(several->test[i].seen->scene, occasions);
    }
    return occasions;
}

/* ---- words ----------------------------------------------------------------------------------------------
 */

static void label_words(double minutes, char *text, size_t size)
{
    if (minutes > 0.0) {
        sl_minute_words(SL_MINUTE_PLANNED, text, size, "%g min", minutes);
    } else {
        snprintf(text, size, "%s", _("not entered"));
    }
}

static void apart_words(const sl_apart *apart, char *text, size_t size)
{
    char label[64], other[64];
    label_words(apart->label_min, label, sizeof label);
    label_words(apart->other_min, other, sizeof other);
    switch (apart->kind) {
    case SL_APART_NOTHING:
        snprintf(text, size, "%s",
                 _("No strip, or no colour, of theirs has a name that earlier tests have."));
        return;
    case SL_APART_ZONE:
        snprintf(text, size, _("\"%s\" is of another hair or dye than in earlier tests."), apart->what);
        return;
    case SL_APART_STRIP:
        snprintf(text, size, _("\"%s\" is another mix, or done otherwise, than in earlier tests."),
                 apart->what);
        return;
    case SL_APART_LABEL:
        snprintf(text, size, _("The label's time of \"%s\" is %s, and was %s in earlier tests."), apart->what,
                 label, other);
        return;
    case SL_APART_POWDER:
        snprintf(text, size, _("The powder of \"%s\" is of lot %s, and was of lot %s in earlier tests."),
                 apart->what, apart->lot, apart->other);
        return;
    case SL_APART_DEVELOPER:
        snprintf(text, size, _("The developer of \"%s\" is of lot %s, and was of lot %s in earlier tests."),
                 apart->what, apart->lot, apart->other);
        return;
    case SL_APART_NOT:
    default:
        text[0] = '\0';
        return;
    }
}

static void mean_words(const sl_several_group *group, int zone, int strip, char *text, size_t size)
{
    const sl_seen_mean mean = {.n = group->pool[zone]->all.n[strip],
                               .mean = group->pool[zone]->all.mean[strip],
                               .half = sl_several_half(group, zone, strip)};
    sl_seen_mean_words(&mean, text, size);
}

static int with_place(const sl_several_group *group, int zone, int place)
{
    int n = 0;
    for (int i = 0; i < group->n_strips; i++) {
        n += group->place[zone * group->n_strips + i] == place ? 1 : 0;
    }
    return n;
}

static void first_words(const sl_several *several, const sl_several_group *group, int zone, char *text,
                        size_t size)
{
    int order[SL_MAX_ARMS];
    char names[400] = "", left[48];
    const int n = sl_several_order(group, zone, order), first = with_place(group, zone, 1);
    for (int i = 0; i < first; i++) {
        sl_append_item(names, sizeof names, ", ", "\"%s\"", sl_several_strip(several, group, order[i], true));
    }
    mean_words(group, zone, order[0], left, sizeof left);
    const sl_first of = {sl_several_zone(several, group, zone, true), names, left, n, first, true};
    sl_first_words(&of, text, size);
}

/* "5 (2-11)", points of 100. */
static void between_words(const sl_between *between, char *text, size_t size)
{
    char middle[16], low[16], high[16];
    sl_percent(between->middle, middle, sizeof middle);
    sl_percent(between->low, low, sizeof low);
    sl_percent(fmin(between->high, 1.0), high, sizeof high);
    snprintf(text, size, "%s (%s-%s)", middle, low, high);
}

static void spread_words(const sl_pooled *pool, char *text, size_t size)
{
    char common[64], own[64];
    between_words(&pool->common, common, sizeof common);
    between_words(&pool->own, own, sizeof own);
    snprintf(
        text, size,
        pool->own.high > 0.0
            ? _("From test to test all strips together moved by %s points of 100, and each strip beside the "
                "others by %s.")
            : _("From test to test it moved by %s points of 100."),
        common, own);
}

/* ---- the page -------------------------------------------------------------------------------------------
 */

static void say_zone(sl_document *document, const sl_several *several, const sl_several_group *group,
                     int zone)
{
    static const sl_text_column columns[] = {
        {N_("place"), 1.0, SL_NAME},       {N_("strip"), 3.3, SL_NAME},  {N_("colour left"), 2.3, SL_RIGHT},
        {N_("model says"), 2.0, SL_RIGHT}, {N_("tests"), 1.0, SL_RIGHT}, {N_("swatches"), 1.4, SL_RIGHT}};
    const int n_strips = group->n_strips;
    const sl_pooled *const pool = group->pool[zone];
    char text[TEXT];
    int order[SL_MAX_ARMS];
    const int n = sl_several_order(group, zone, order);
    sl_document_part(document, "%s", sl_several_zone(several, group, zone, true));
    sl_document_table(document, "", 6, columns, 0.0);
    for (int i = 0; i < n; i++) {
        const int strip = order[i], place = group->place[zone * n_strips + strip];
        const double predicted = group->predicted[zone * n_strips + strip];
        sl_arm_place_words(place, with_place(group, zone, place) > 1, text, sizeof text);
        sl_document_cell(document, "%s", text);
        sl_document_cell(document, "%s", sl_several_strip(several, group, strip, true));
        mean_words(group, zone, strip, text, sizeof text);
        sl_document_cell(document, "%s", text);
        if (predicted > SL_NOT_READ) {
            sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_SHARE, .value = predicted});
        } else {
            sl_document_cell(document, "-");
        }
        sl_document_cell(document, "%d", pool->tests[strip]);
        sl_document_cell(document, "%d", pool->all.n[strip]);
    }
    for (int i = 0; i < n; i++) {
        char names[600] = "";
        for (int k = 0; k < n; k++) {
            if (group->before[(zone * n_strips + order[i]) * n_strips + order[k]]) {
                sl_append_item(names, sizeof names, ", ", "\"%s\"",
                               sl_several_strip(several, group, order[k], true));
            }
        }
        if (names[0] != '\0') {
            sl_document_item(document, _("\"%s\" comes before %s."),
                             sl_several_strip(several, group, order[i], true), names);
        }
    }
    spread_words(pool, text, sizeof text);
    sl_document_say(document, "%s", text);
    if (group->graded[zone] && group->read[zone]) {
        sl_document_say(
            document, "%s",
            _("Some of these tests were graded, others read by an instrument: each counts by what its own "
              "scatter bears out."));
    }
}

static bool otherwise_words(const sl_several *several, const sl_several_group *group, char *text, size_t size)
{
    char zones[400] = "";
    sl_told_otherwise all = {0, 0};
    for (int z = 0; z < group->n_zones; z++) {
        const sl_told_otherwise told = sl_several_otherwise(group, z);
        if (sl_several_shows(several, group, z) && told.by_means + told.by_order > 0) {
            sl_append_item(zones, sizeof zones, ", ", "%s", sl_several_zone(several, group, z, true));
            all.by_means += told.by_means;
            all.by_order += told.by_order;
        }
    }
    return sl_otherwise_words(all, zones, text, size);
}

static void say_together(sl_document *document, const sl_several *several, const sl_several_group *group)
{
    char text[TEXT], number[16];
    sl_document_part(document, "%s", _("To be read aloud"));
    for (int z = 0; z < group->n_zones; z++) {
        if (sl_several_shows(several, group, z)) {
            first_words(several, group, z, text, sizeof text);
            sl_document_say(document, "%s", text);
        }
    }
    if (otherwise_words(several, group, text, sizeof text)) {
        sl_document_say(document, "%s", text);
    }
    if (group->even_below >= 0.0) {
        sl_percent(fmax(group->even_below, several->asked->noise_floor), number, sizeof number);
        sl_document_say(
            document, _("Scattering and moving as these did, differences below %s points of 100 look even."),
            number);
    }
    if (group->n_tests < SL_POOL_FEW) {
        sl_percent(SL_POOL_PRIOR, number, sizeof number);
        sl_document_say(
            document,
            _("Fewer than %d tests cannot tell how far tests lie apart: that it is about %s points of 100 or "
              "less was assumed beforehand (half-normal), and the intervals hang on it."),
            SL_POOL_FEW, number);
    }
    for (int z = 0; z < group->n_zones; z++) {
        if (sl_several_shows(several, group, z)) {
            say_zone(document, several, group, z);
        }
    }
}

/* Titles of the first and the last, scenes and who made them, each once. */
static void say_whose(sl_document *document, const sl_several *several, const sl_several_group *group)
{
    char scenes[300] = "", makers[300] = "";
    for (int i = group->first; i <= group->last; i++) {
        const sl_log_test *const test = &several->test[i].seen->test;
        bool scene = several->test[i].group == several->test[group->first].group, maker = scene;
        for (int k = group->first; k < i; k++) {
            const bool together = several->test[k].group == several->test[i].group;
            scene =
                scene && !(together && strcmp(several->test[k].seen->test.scene_name, test->scene_name) == 0);
            maker = maker && !(together &&
                               strcmp(several->test[k].seen->test.operator_code, test->operator_code) == 0);
        }
        if (scene) {
            sl_append_item(scenes, sizeof scenes, ", ", "%s", test->scene_name);
        }
        if (maker) {
            sl_append_item(makers, sizeof makers, ", ", "%s", test->operator_code);
        }
    }
    sl_document_say(document, _("from \"%s\" on, scene %s, by %s"),
                    several->test[group->first].seen->test.title, scenes, makers);
}

/* The command runs where the reader stands. */
static void say_alone(sl_document *document, const sl_several *several, const sl_several_test *test)
{
    const char *const place = several->asked->place;
    char path[SL_LOG_PATH + SL_SHELF_NAME], shown[2 * sizeof path], word[2 * sizeof shown];
    const bool parted = place[0] != '\0' && place[strlen(place) - 1] == '/';
    snprintf(path, sizeof path, "%s%s%s", place, several->folder && !parted ? "/" : "",
             several->folder ? test->file : "");
    sl_text_show(path, strlen(path), SL_TEXT_LINE, shown, sizeof shown);
    sl_shell_word(shown, word, sizeof word);
    sl_document_say(document, _("slowlift compare %s %.8s tells of it."), word, test->seen->test.id);
}

static void say_group(sl_document *document, const sl_several *several, const sl_several_group *group)
{
    char text[TEXT];
    const sl_several_test *const first = &several->test[group->first], *const last =
                                                                           &several->test[group->last];
    if (group->n_tests == 1) {
        snprintf(text, sizeof text, _("By itself: test %.8s of %.10s"), first->seen->test.id,
                 first->seen->test.made);
    } else {
        snprintf(text, sizeof text,
                 sl_plural("%d test together, %.10s to %.10s, %d swatches",
                           "%d tests together, %.10s to %.10s, %d swatches", group->n_tests),
                 group->n_tests, first->seen->test.made, last->seen->test.made, group->n_swatches);
    }
    sl_document_heading(document, text);
    say_whose(document, several, group);
    if (group->apart.kind != SL_APART_NOT) {
        apart_words(&group->apart, text, sizeof text);
        sl_document_say(document, "%s", text);
    }
    if (group->across.kind != SL_APART_NOT) {
        apart_words(&group->across, text, sizeof text);
        sl_document_say(document, _("Put together all the same, as asked: %s"), text);
    }
    if (group->n_lots_unsaid > 0 && group->n_tests > 1) {
        sl_document_say(document,
                        sl_plural("%d of them says no lot: whether it was another is not known.",
                                  "%d of them say no lot: whether it was another is not known.",
                                  group->n_lots_unsaid),
                        group->n_lots_unsaid);
    }
    if (group->n_tests > 1) {
        say_together(document, several, group);
    } else {
        say_alone(document, several, first);
    }
}

static void say_left_out(sl_document *document, const sl_several *several)
{
    SL_DOCUMENT_COUNT(document, several->n_rehearsed, "%d rehearsal is left out: no hair lay so long.",
                      "%d rehearsals are left out: no hair lay so long.");
    SL_DOCUMENT_COUNT(document, several->n_people,
                      "%d test of somebody's hair is left out: it stands for no other.",
                      "%d tests of somebody's hair are left out: they stand for no other.");
    SL_DOCUMENT_COUNT(document, several->n_unseen, "%d test is left out: nobody looked at its end.",
                      "%d tests are left out: nobody looked at their end.");
    SL_DOCUMENT_COUNT(document, several->n_copies, "%d copy of a test in another log is left out.",
                      "%d copies of tests in other logs are left out.");
    SL_DOCUMENT_COUNT(document, several->n_older, "%d test of more than a year ago is left out (--all).",
                      "%d tests of more than a year ago are left out (--all).");
    sl_shelf_say_unread(document, several->n_unread);
}

void sl_several_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_several *const several = of;
    bool together = false;
    sl_document_begin(document, "several", _("What was seen in several tests"), error);
    for (int g = 0; g < several->n_groups; g++) {
        say_group(document, several, &several->group[g]);
        together = together || several->group[g].n_tests > 1;
    }
    sl_document_apart(document);
    if (!together) {
        sl_document_say(
            document, "%s",
            _("No two tests that could be read compared the same: there is nothing to put together."));
    }
    say_left_out(document, several);
    if (together) {
        sl_document_say(
            document, "%s",
            _("Each number is a mean over tests like these; in brackets its 95 % interval, with what "
              "differs from test to test and the scatter of swatches. A strip comes before another where "
              "luck alone would tell any such, in all colours together, in fewer than 5 of 100 such "
              "comparisons; else they are even. Swatches that were rinsed off their times count as they "
              "were: the page of each test tells of them. What swatches did says nothing about a "
              "person's hair."));
        sl_document_heading(document, _("Of the model"));
    }
    sl_document_end(document, sl_several_occasions(several));
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All tests of a folder in words, a row each, and for machines.
 */
#include <string.h>

#include "base/calendar.h"
#include "base/language.h"
#include "document/say.h"
#include "log/shelf/shelf.h"
#include "slowlift/report.h"

#define WORD(name, word, words) word,
#define WORDS(name, word, words) words,
static const char *const state_keys[SL_TEST_STATES] = {SL_TEST_STATE_LIST(WORD)};
static const char *const state_words[SL_TEST_STATES] = {SL_TEST_STATE_LIST(WORDS)};
#undef WORD
#undef WORDS

static void reason_of(const sl_shelf_row *row, char *text, size_t size)
{
    sl_error why = row->why;
    why.file[0] = '\0'; /* its name stands beside it */
    sl_error_sentence(&why, text, size);
}

/* ---- for people ---------------------------------------------------------------------------------- */

static bool owes(const sl_shelf_row *row)
{
    return row->n_due > 0 && !row->copy;
}

static bool any_due(const sl_log_shelf *shelf)
{
    for (size_t i = 0; i < shelf->n; i++) {
        if (owes(&shelf->row[i])) {
            return true;
        }
    }
    return false;
}

static int first_day(const sl_shelf_row *row)
{
    int day = row->due[0].day;
    for (int i = 1; i < row->n_due; i++) {
        day = row->due[i].day < day ? row->due[i].day : day;
    }
    return day;
}

const char *sl_shelf_state_words(const sl_shelf_row *row)
{
    return row->copy ? _("copy") : row->rehearsed ? _("rehearsal") : _(state_words[row->state]);
}

static void say_row(sl_document *document, const sl_log_shelf *shelf, const sl_shelf_row *row)
{
    char name[SL_SHELF_SHOWN], text[2 * SL_ERROR_TEXT_SIZE + 100] = "";
    sl_document_cell(document, "%s", sl_shelf_shown(row->file, name));
    if (row->why.code != SL_OK) {
        reason_of(row, text, sizeof text);
        sl_document_rest(document, text);
        return;
    }
    sl_document_cell(document, "%.10s", row->test.made);
    sl_document_cell(document, "%d", row->n_strips);
    sl_document_cell(document, "%s", sl_shelf_state_words(row));
    if (any_due(shelf)) {
        if (owes(row)) {
            sl_day_words(first_day(row), text);
        }
        sl_document_cell(document, "%s", text);
    }
    sl_document_cell(document, "%s", row->test.title);
}

static void say_table(sl_document *document, const sl_log_shelf *shelf)
{
    static const sl_text_column columns[] = {{N_("log"), 2.4, SL_NAME},     {N_("day"), 1.6, 0},
                                             {N_("strips"), 1.0, SL_RIGHT}, {N_("state"), 1.6, 0},
                                             {N_("due from"), 1.6, 0},      {N_("test"), 4.0, 0}};
    sl_text_column shown_columns[6];
    int n = 0;
    for (int i = 0; i < 6; i++) {
        if (i != 4 || any_due(shelf)) {
            shown_columns[n++] = columns[i];
        }
    }
    sl_document_table(document, "", n, shown_columns, 0.0);
    for (size_t i = 0; i < shelf->n; i++) {
        say_row(document, shelf, &shelf->row[i]);
    }
}

static void say_due_of_tub(sl_document *document, const sl_shelf_tub *tub, int today)
{
    if (tub->checked > tub->opened) {
        sl_document_item(document,
                         _("Powder lot %s had its last check swatch %d weeks ago: do a check swatch."),
                         tub->lot, (today - tub->checked) / 7);
    } else {
        sl_document_item(document, _("Powder lot %s was opened %d weeks ago: do a check swatch."), tub->lot,
                         (today - tub->opened) / 7);
    }
}

void sl_shelf_say_due(sl_document *document, const sl_log_shelf *shelf)
{
    char text[SL_DAY_WORDS];
    bool any = any_due(shelf);
    for (size_t i = 0; i < shelf->n_tubs; i++) {
        any = any || sl_shelf_tub_due(&shelf->tub[i], shelf->today);
    }
    if (any) {
        sl_document_heading(document, _("Due"));
    }
    for (size_t i = 0; i < shelf->n; i++) {
        const sl_shelf_row *const row = &shelf->row[i];
        for (int told = 0, n = owes(row) ? row->n_due : 0; told < n;) {
            told += sl_log_due_words(&row->due[told], n - told, shelf->today, text, sizeof text);
            sl_document_item(document, "%s: %s", row->test.title, text);
        }
    }
    for (size_t i = 0; i < shelf->n_tubs; i++) {
        if (sl_shelf_tub_due(&shelf->tub[i], shelf->today)) {
            say_due_of_tub(document, &shelf->tub[i], shelf->today);
        }
    }
}

void sl_shelf_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_log_shelf *const shelf = of;
    sl_document_begin(document, "tests", _("My tests"), error);
    if (shelf->n > 0) {
        say_table(document, shelf);
    }
    if (shelf->n == 0) {
        sl_document_say(
            document, "%s",
            _("No log of this folder has a test of the last year; begin one with slowlift log new."));
    }
    SL_DOCUMENT_COUNT(document, shelf->n_older, "%d test is more than a year old: --all lists it too.",
                      "%d tests are more than a year old: --all lists them too.");
    if (shelf->n_past > 0) {
        sl_document_say(
            document,
            sl_plural("%d test is older than the %d months for which tests are kept: see slowlift log "
                      "forget, or take its log away.",
                      "%d tests are older than the %d months for which tests are kept: see slowlift log "
                      "forget, or take their logs away.",
                      shelf->n_past),
            shelf->n_past, shelf->keep_months);
    }
    sl_shelf_say_due(document, shelf);
    sl_document_end(document, SL_ON_SWATCHES);
}

void sl_shelf_say_unread(sl_document *document, int n)
{
    SL_DOCUMENT_COUNT(document, n, "%d log or test could not be read: slowlift log list says why.",
                      "%d logs or tests could not be read: slowlift log list says why.");
}

/* ---- for machines -------------------------------------------------------------------------------- */

static const char *const due_words[SL_LOG_DUES] = {[SL_LOG_DUE_EMPTY] = "empty leftover",
                                                   [SL_LOG_DUE_DAY] = "look a day after the rinse",
                                                   [SL_LOG_DUE_WASH] = "look after the next wash"};
#define DUE(SAY)                                                                                             \
    SAY(let, const sl_log_due *const due = &one->due[table->place])                                          \
    SAY(let, char from[SL_DAY_TEXT])                                                                         \
    SAY(let, sl_day_words(due->day, from))                                                                   \
    SAY(text, "what", due_words[due->kind])                                                                  \
    SAY(text, "swatch", due->code)                                                                           \
    SAY(words, "from", "%s", from)
SL_FLAT_TABLE(due_of, DUE, sl_shelf_row, one);

#define TEST(SAY)                                                                                            \
    SAY(end, table->place == (long)shelf->n)                                                                 \
    SAY(let, const sl_shelf_row *const one = &shelf->row[table->place])                                      \
    SAY(skip, one->why.code != SL_OK)                                                                        \
    SAY(let, char file[SL_SHELF_SHOWN])                                                                      \
    SAY(words, "file", "%s", sl_shelf_shown(one->file, file))                                                \
    SAY(text, "test", one->test.id)                                                                          \
    SAY(text, "title", one->test.title)                                                                      \
    SAY(text, "made", one->test.made)                                                                        \
    SAY(text, "scene", one->test.scene_name)                                                                 \
    SAY(number, "strips", one->n_strips)                                                                     \
    SAY(number, "swatches", one->test.n_swatches)                                                            \
    SAY(number, "readings", one->test.n_readings)                                                            \
    SAY(text, "state", state_keys[one->state])                                                               \
    SAY(yes, "rehearsal", one->rehearsed)                                                                    \
    SAY(yes, "copy", one->copy)
SL_TABLE(lines, TEST, sl_log_shelf, shelf);
#define TEST_WITH_DUE(SAY)                                                                                   \
    TEST(SAY)                                                                                                \
    SAY(rows, "due", due_of, one, 0, one->n_due)
SL_TABLE(tests, TEST_WITH_DUE, sl_log_shelf, shelf);

#define UNREAD(SAY)                                                                                          \
    SAY(let, const sl_shelf_row *const one = &shelf->row[table->place])                                      \
    SAY(skip, one->why.code == SL_OK)                                                                        \
    SAY(let, char why[2 * SL_ERROR_TEXT_SIZE + 100])                                                         \
    SAY(let, reason_of(one, why, sizeof why))                                                                \
    SAY(let, char file[SL_SHELF_SHOWN])                                                                      \
    SAY(words, "file", "%s", sl_shelf_shown(one->file, file))                                                \
    SAY(words, "reason", "%s", why)
SL_FLAT_TABLE(unread, UNREAD, sl_log_shelf, shelf);

/* "": not known. */
static const char *day_or_not(int day, char text[SL_DAY_TEXT])
{
    text[0] = '\0';
    if (day > 0) {
        sl_day_words(day, text);
    }
    return text;
}

#define TUB(SAY)                                                                                             \
    SAY(let, const sl_shelf_tub *const tub = &shelf->tub[table->place])                                      \
    SAY(text, "lot", tub->lot)                                                                               \
    SAY(let, char days[3][SL_DAY_TEXT])                                                                      \
    SAY(words, "opened", "%s", day_or_not(tub->opened, days[0]))                                             \
    SAY(words, "used", "%s", day_or_not(tub->used, days[1]))                                                 \
    SAY(words, "checked", "%s", day_or_not(tub->checked, days[2]))                                           \
    SAY(yes, "check_due", sl_shelf_tub_due(tub, shelf->today))
SL_FLAT_TABLE(tubs, TUB, sl_log_shelf, shelf);

#define SHELF(SAY)                                                                                           \
    SAY(let, char today[SL_DAY_TEXT])                                                                        \
    SAY(let, sl_day_words(shelf->today, today))                                                              \
    SAY(words, "today", "%s", today)                                                                         \
    SAY(rows, "tests", tests, shelf, 0, (long)shelf->n)                                                      \
    SAY(rows, "tubs", tubs, shelf, 0, (long)shelf->n_tubs)                                                   \
    SAY(rows, "unread", unread, shelf, 0, (long)shelf->n)                                                    \
    SAY(number, "keep_months", sl_if_known(shelf->keep_months > 0, shelf->keep_months))                      \
    SAY(number, "past_keeping", shelf->n_past)                                                               \
    SAY(number, "older", shelf->n_older)                                                                     \
    SAY(cautions, SL_ON_SWATCHES)
SL_TABLE(shelf_record, SHELF, sl_log_shelf, shelf);

const sl_export sl_shelf_export = {"tests", 1, &shelf_record, &lines};

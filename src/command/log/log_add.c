/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log add` and `slowlift log note`: one reading, one remark. The options of add are the
 * columns of the CSV, and are read as its cells are.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "command/log/log_verbs.h"
#include "log/readings/csv_cells.h"
#include "slowlift/log.h"
#include "slowlift/scene.h"

/* What was written on the command line, as a row of CSV without a place. */
typedef struct sl_add_asked {
    const char *log;
    sl_csv_header header;
    sl_csv_row row;
    char hash[SL_SHA256_TEXT];
    sl_csv_said said;
    int n_there;
} sl_add_asked;

/* A column, by its option's name. */
static bool put_cell(const sl_option *option, const char *text, void *place, sl_error *error)
{
    sl_add_asked *const asked = place;
    const int kind = sl_cell_kind(option->name);
    if (asked->header.place[kind] >= 0) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("--%s was given twice"), option->name);
        return sl_fail(error, SL_ERR_USAGE, found, _("give it once"));
    }
    asked->header.place[kind] = asked->row.n;
    asked->header.kind[asked->row.n] = kind;
    asked->row.cell[asked->row.n++] = (sl_csv_cell){text, 0, 0};
    asked->header.n = asked->row.n;
    return true;
}

#define COLUMN(word, its_value, its_help, it_wants)                                                          \
    {                                                                                                        \
        .name = (word), .value = (its_value), .help = (its_help), .read = put_cell, .given = SL_NO_FLAG,     \
        .wants = (it_wants)                                                                                  \
    }
static const sl_option options[] = {
    COLUMN("test", N_("TEST"), N_("the beginning of a test's id; not needed where there is one"),
           SL_WANTS_TEXT),
    COLUMN("swatch", N_("CODE"), N_("which swatch; then"), SL_WANTS_TEXT),
    COLUMN("arm", N_("NAME"), N_("must be that of the swatch, where it is given"), SL_WANTS_TEXT),
    COLUMN("zone", N_("NAME"), N_("which zone of it"), SL_WANTS_TEXT),
    COLUMN("judge", N_("CODE"), N_("who looked: a code, never a name"), SL_WANTS_TEXT),
    COLUMN("grade", N_("WORD"),
           N_("no change, slight, about half, mostly gone, ghost only, as undyed, or 0 to 5"), SL_WANTS_TEXT),
    COLUMN("cotton", N_("WORD"), N_("none, faint, clear or strong: colour on the cotton"), SL_WANTS_TEXT),
    COLUMN("feel", N_("WORD"), N_("a word of the form"), SL_WANTS_TEXT),
    COLUMN("stretch", N_("WORD"), N_("likewise"), SL_WANTS_TEXT),
    COLUMN("outcome", N_("WORD"), N_("likewise"), SL_WANTS_TEXT),
    COLUMN("L", "N", N_("an instrument's mean, such as 62.1; with --a, --b, --illuminant and --observer"),
           SL_WANTS_TEXT),
    COLUMN("a", "N", N_("such as 3.2"), SL_WANTS_TEXT),
    COLUMN("b", "N", N_("such as 18"), SL_WANTS_TEXT),
    COLUMN("sd_L", "N", N_("how far its readings scatter; likewise"), SL_WANTS_TEXT),
    COLUMN("sd_a", "N", N_("likewise"), SL_WANTS_TEXT),
    COLUMN("sd_b", "N", N_("likewise"), SL_WANTS_TEXT),
    COLUMN("n", "N", N_("how many times it measured"), SL_WANTS_TEXT),
    COLUMN("illuminant", N_("WORD"), N_("such as D65"), SL_WANTS_TEXT),
    COLUMN("observer", "N", N_("2 or 10 degrees"), SL_WANTS_TEXT),
    COLUMN("geometry", N_("WORD"), N_("such as d/8"), SL_WANTS_TEXT),
    COLUMN("level", "N", N_("by eye, on your own chart, such as 8"), SL_WANTS_TEXT),
    COLUMN("tone", N_("WORD"), N_("likewise"), SL_WANTS_TEXT),
    COLUMN("photo", N_("FILE"), N_("kept by name and SHA-256, not in the log"), SL_WANTS_FILE),
    COLUMN("photo_sha256", N_("SUM"), N_("of a photograph that is not here"), SL_WANTS_TEXT),
    COLUMN("minute", "N", N_("a piece wiped or cut so many minutes after contact; else at the end"),
           SL_WANTS_TEXT),
    COLUMN("hours_after", "N", N_("looked at again so many hours after the water, such as 24"),
           SL_WANTS_TEXT),
    COLUMN("blind", N_("WORD"), N_("yes or no: whether the judge knew what was on it"), SL_WANTS_TEXT),
    COLUMN("uncovered", N_("WORD"),
           N_("yes or no: whether what the model says of it had been shown; else as the day kept it"),
           SL_WANTS_TEXT),
    COLUMN("at", N_("TIME"), N_("when it was looked at; else now"), SL_WANTS_TEXT),
    COLUMN("note", N_("WORDS"), N_("what else was seen"), SL_WANTS_LINES),
    COLUMN("replaces", "ID", N_("the reading that this one corrects"), SL_WANTS_TEXT),
    COLUMN("id", "UUID", N_("a reading that is sent again with the same id is kept once"), SL_WANTS_TEXT),
};
#undef COLUMN
const sl_command_line sl_log_add_typed = {
    .name = "log add",
    .line = N_("keep a reading: what somebody saw on a swatch"),
    .usage = {N_("LOG --swatch CODE --zone NAME --judge CODE [WHAT WAS SEEN]")},
    .about =
        N_("Keeps one reading. Its options are the columns of the CSV (docs/log.md), and are read as its "
           "cells are."),
    .set = {SL_OPTION_SET_OWN(options)},
    .words = SL_TYPED_WORDS(sl_add_asked, log, 1, 1),
    .example = {{N_("judge j2 looks."),
                 {"slowlift log add strands.db --swatch EK9 --zone red --judge j2 --grade \"about half\""}}},
    .wants = {SL_WANTS_LOG},
};

static bool put_sum(sl_add_asked *asked, sl_error *error)
{
    return put_cell(&(sl_option){.name = "photo_sha256"}, asked->hash, asked, error);
}

static bool hash_photo(sl_add_asked *asked, sl_error *error)
{
    const int photo = asked->header.place[sl_reading_column("photo")];
    const int sum = sl_reading_column("photo_sha256");
    return photo < 0 || asked->header.place[sum] >= 0 ||
           (sl_photo_hash(asked->row.cell[photo].text, asked->hash, error) && put_sum(asked, error));
}

static bool read_asked(sl_add_asked *asked, int argc, char **argv, sl_error *error)
{
    static const int needed[] = {SL_READING_SWATCH, SL_READING_ZONE, SL_READING_JUDGE};
    for (int i = 0; i < SL_CELL_KINDS; i++) {
        asked->header.place[i] = -1;
    }
    if (!sl_options_read(&sl_log_add_typed, argc, argv, asked, error)) {
        return false;
    }
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++) {
        if (asked->header.place[needed[i]] < 0) {
            char found[SL_ERROR_TEXT_SIZE];
            snprintf(found, sizeof found, _("--%s was not given"), sl_cell_name(needed[i]));
            return sl_fail(error, SL_ERR_USAGE, found,
                           _("a reading has --swatch, --zone and --judge, and what was seen"));
        }
    }
    return hash_photo(asked, error) && sl_csv_cells_read(&asked->header, &asked->row, &asked->said, error);
}

static bool swatch_with(const sl_log_swatch *swatches, int n, const char *code, int *swatch, sl_error *error)
{
    for (int i = 0; i < n; i++) {
        if (strcmp(swatches[i].bench.code, code) == 0) {
            *swatch = i;
            return true;
        }
    }
    return sl_fail(error, SL_ERR_MISSING_REFERENCE, code,
                   _("slowlift log show LOG TEST lists the codes of the swatches"));
}

static bool find_swatch(sl_log *log, const char *test, const char *code, char id[SL_UUID], sl_error *error)
{
    sl_log_swatch *swatches = NULL;
    int n = 0, found = 0;
    if (!sl_log_swatches(log, test, &swatches, &n, error)) {
        return false;
    }
    const bool good = swatch_with(swatches, n, code, &found, error);
    if (good) {
        memcpy(id, swatches[found].id, SL_UUID);
    }
    sl_free(swatches);
    return good;
}

/* Whoever typed the title of a zone means its name; whether there is such a zone is the log's to say. */
static bool name_zone(sl_log *log, const char *test, char zone[SL_LOG_ZONE], sl_error *error)
{
    sl_error why = {.code = SL_OK};
    sl_scene *const scene = sl_log_scene(log, test, &why);
    const int found = scene ? sl_scene_zone_typed(scene, zone) : -1;
    if (found >= 0) {
        snprintf(zone, SL_LOG_ZONE, "%s", scene->zones[found].name);
    }
    sl_scene_free(scene);
    return why.code != SL_ERR_NO_MEMORY || sl_fail(error, why.code, why.found, why.wanted);
}

/* A grade of a swatch of which the day had shown what the model says; of others nobody knows. */
static bool mark(sl_log *log, sl_log_reading *reading, sl_error *error)
{
    bool shown = false;
    if (reading->said[SL_SAID_GRADE] == SL_NOT_SAID || reading->uncovered != SL_NOT_SAID) {
        return true;
    }
    const bool good = sl_log_shown(log, reading->swatch, &shown, error);
    reading->uncovered = shown ? 1 : SL_NOT_SAID;
    return good;
}

static bool add(sl_log *log, void *self, sl_error *error)
{
    sl_add_asked *const asked = self;
    sl_csv_said *const said = &asked->said;
    sl_log_test test;
    return sl_log_find(log, said->test[0] != '\0' ? said->test : NULL, &test, error) &&
           find_swatch(log, test.id, said->swatch, said->reading.swatch, error) &&
           name_zone(log, test.id, said->reading.zone, error) && mark(log, &said->reading, error) &&
           sl_log_add_again(log, &said->reading, 1, &asked->n_there, error);
}

static bool give_receipt(void *self, sl_error *error)
{
    const sl_add_asked *const asked = self;
    printf(asked->n_there > 0 ? _("Reading %s is in the log already, and says the same.\n")
                              : _("Reading %s is kept.\n"),
           asked->said.reading.id);
    if (asked->said.reading.uncovered == 1) {
        printf("%s\n", _("Its grade is marked: what the model says of that swatch had been shown."));
    }
    return sl_log_receipt_out(error);
}

sl_exit sl_command_log_add(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_add_asked asked = {.row = {.file = "", .parted_by = ','}};
    const bool good = read_asked(&asked, argc, argv, &error);
    return sl_log_change(good, asked.log, add, give_receipt, &asked, &error);
}

/* ---- note ------------------------------------------------------------------------------------------ */

typedef struct sl_note_asked {
    const char *test, *swatch;
    const char *word[2]; /* log, note */
} sl_note_asked;
static const sl_option note_options[] = {
    SL_OPTION(sl_note_asked, swatch, sl_option_text, .name = "swatch", .value = N_("CODE"),
              .help = N_("the swatch that it is about; else the test")),
};
const sl_command_line sl_log_note_typed = {
    .name = "log note",
    .line = N_("keep a remark about a swatch or a test"),
    .usage = {N_("LOG WORDS [OPTIONS]")},
    .about = N_("Keeps a remark in your own words. Codes, never names."),
    .set = {SL_OPTION_SET(sl_log_test_options, const char *, sl_note_asked, test),
            SL_OPTION_SET_OWN(note_options)},
    .words = SL_TYPED_WORDS(sl_note_asked, word, 2, 2),
    .example = {{N_("a clip slipped."), {"slowlift log note strands.db \"a clip slipped\" --swatch EK9"}}},
    .wants = {SL_WANTS_LOG},
};

static bool give_note_receipt(void *self, sl_error *error)
{
    (void)self;
    puts(_("The note is kept."));
    return sl_log_receipt_out(error);
}

bool sl_log_note_keep(sl_log *log, const char *beginning, const char *code, const char *note, sl_error *error)
{
    sl_log_test test;
    sl_log_swatch *swatches = NULL;
    int n = 0;
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = -1};
    if (!sl_log_find(log, beginning, &test, error) || !sl_instant_now(&event.at, error) ||
        !sl_log_swatches(log, test.id, &swatches, &n, error)) {
        return false;
    }
    const bool good = (!code || swatch_with(swatches, n, code, &event.swatch, error)) &&
                      sl_log_append(log, test.id, swatches, n, &event, note, error);
    sl_free(swatches);
    return good;
}

static bool note(sl_log *log, void *self, sl_error *error)
{
    const sl_note_asked *const asked = self;
    return sl_log_note_keep(log, asked->test, asked->swatch, asked->word[1], error);
}

sl_exit sl_command_log_note(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_note_asked asked = {.test = NULL};
    const bool good =
        sl_options_read(&sl_log_note_typed, argc, argv, &asked, &error) &&
        ((asked.word[1][0] != '\0' && strlen(asked.word[1]) < SL_LOG_TITLE) ||
         sl_fail(&error, SL_ERR_USAGE, _("a note has 1 to 200 bytes"), _("write several notes")));
    return sl_log_change(good, asked.word[0], note, give_note_receipt, &asked, &error);
}

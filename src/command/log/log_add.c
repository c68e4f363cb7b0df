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
#include "front/options.h"
#include "log/readings/csv_cells.h"
#include "slowlift/log.h"
#include "slowlift/scene.h"

enum { FIRST = 1000 }; /* value of the option of the first column */

/* What was written on the command line, as a row of CSV without a place. */
typedef struct sl_add_asked {
    const char *log;
    sl_csv_header header;
    sl_csv_row row;
    char hash[SL_SHA256_TEXT];
} sl_add_asked;

static void options_of_columns(struct option options[SL_CELL_KINDS + 1])
{
    for (int i = 0; i < SL_CELL_KINDS; i++) {
        options[i] = (struct option){sl_cell_name(i), required_argument, NULL, FIRST + i};
    }
    options[SL_CELL_KINDS] = (struct option){NULL, 0, NULL, 0};
}

static bool put_cell(sl_add_asked *asked, int kind, const char *text, sl_error *error)
{
    if (asked->header.place[kind] >= 0) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("--%s was given twice"), sl_cell_name(kind));
        return sl_fail(error, SL_ERR_USAGE, found, _("give it once"));
    }
    asked->header.place[kind] = asked->row.n;
    asked->header.kind[asked->row.n] = kind;
    asked->row.cell[asked->row.n++] = (sl_csv_cell){text, 0, 0};
    asked->header.n = asked->row.n;
    return true;
}

static bool hash_photo(sl_add_asked *asked, sl_error *error)
{
    const int photo = asked->header.place[sl_reading_column("photo")];
    const int sum = sl_reading_column("photo_sha256");
    return photo < 0 || asked->header.place[sum] >= 0 ||
           (sl_photo_hash(asked->row.cell[photo].text, asked->hash, error) &&
            put_cell(asked, sum, asked->hash, error));
}

static bool read_asked(sl_add_asked *asked, int argc, char **argv, sl_error *error)
{
    static const int needed[] = {SL_READING_SWATCH, SL_READING_ZONE, SL_READING_JUDGE};
    struct option options[SL_CELL_KINDS + 1];
    int option = 0;
    options_of_columns(options);
    for (int i = 0; i < SL_CELL_KINDS; i++) {
        asked->header.place[i] = -1;
    }
    opterr = 0;
    while ((option = sl_option_next(argc, argv, ":", options)) != -1) {
        if (option < FIRST ? !sl_option_refused("slowlift log", option, argv, options, error)
                           : !put_cell(asked, option - FIRST, optarg, error)) {
            return false;
        }
    }
    if (!sl_log_words(argc, argv, 1, 1, &asked->log, error)) {
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
    return hash_photo(asked, error);
}

bool sl_log_swatch_find(const sl_log_swatch *swatches, int n, const char *code, int *swatch, sl_error *error)
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
    const bool good = sl_log_swatch_find(swatches, n, code, &found, error);
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

static bool add(sl_log *log, sl_csv_said *said, int *n_there, sl_error *error)
{
    sl_log_test test;
    return sl_log_find(log, said->test[0] != '\0' ? said->test : NULL, &test, error) &&
           find_swatch(log, test.id, said->swatch, said->reading.swatch, error) &&
           name_zone(log, test.id, said->reading.zone, error) &&
           sl_log_add_again(log, &said->reading, 1, n_there, error);
}

typedef struct sl_added {
    const sl_log_reading *reading;
    int n_there;
} sl_added;

static bool give_receipt(void *self, sl_error *error)
{
    const sl_added *const added = self;
    printf(added->n_there > 0 ? _("Reading %s is in the log already, and says the same.\n")
                              : _("Reading %s is kept.\n"),
           added->reading->id);
    return sl_log_receipt_out(error);
}

sl_exit sl_log_add_one(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_add_asked asked = {.row = {.file = "", .parted_by = ','}};
    sl_csv_said said;
    sl_log *log = NULL;
    sl_added added = {.reading = &said.reading};
    bool good = read_asked(&asked, argc, argv, &error) &&
                sl_csv_cells_read(&asked.header, &asked.row, &said, &error) &&
                sl_log_open(&log, asked.log, SL_LOG_WRITE, &error);
    if (good) {
        sl_log_on_kept(log, give_receipt, &added);
        good = add(log, &said, &added.n_there, &error);
    }
    sl_log_close(log);
    return good ? sl_finish_output(true) : sl_complain(&error);
}

/* ---- note ------------------------------------------------------------------------------------------------
 */

enum { TEST = 1, SWATCH };
static const struct option note_options[] = {
    {"test", required_argument, NULL, TEST}, {"swatch", required_argument, NULL, SWATCH}, {NULL, 0, NULL, 0}};

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
    const bool good = (!code || sl_log_swatch_find(swatches, n, code, &event.swatch, error)) &&
                      sl_log_append(log, test.id, swatches, n, &event, note, error);
    sl_free(swatches);
    return good;
}

sl_exit sl_log_note(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    const char *word[2], *test = NULL, *swatch = NULL;
    sl_log *log = NULL;
    bool good = true;
    int option = 0;
    opterr = 0;
    while (good && (option = sl_option_next(argc, argv, ":", note_options)) != -1) {
        test = option == TEST ? optarg : test;
        swatch = option == SWATCH ? optarg : swatch;
        good = option == TEST || option == SWATCH ||
               sl_option_refused("slowlift log", option, argv, note_options, &error);
    }
    good = good && sl_log_words(argc, argv, 2, 2, word, &error);
    if (good && (word[1][0] == '\0' || strlen(word[1]) >= SL_LOG_TITLE)) {
        good = sl_fail(&error, SL_ERR_USAGE, _("a note has 1 to 200 bytes"), _("write several notes"));
    }
    good = good && sl_log_open(&log, word[0], SL_LOG_WRITE, &error);
    if (good) {
        sl_log_on_kept(log, give_note_receipt, NULL);
        good = sl_log_note_keep(log, test, swatch, word[1], &error);
    }
    sl_log_close(log);
    return good ? sl_finish_output(true) : sl_complain(&error);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log import`, `export` and `merge`: to and from other programs and other people.
 */
#include <errno.h>
#include <stdio.h>

#include "base/language.h"
#include "base/save.h"
#include "command/log/log_verbs.h"
#include "slowlift/log.h"

typedef struct sl_files_asked {
    const char *word[2]; /* log, file or test */
    const char *test;
    bool again, blank;
    sl_log_count count;
    sl_result_wish result;
} sl_files_asked;

static const sl_option take_options[] = {
    SL_OPTION(sl_files_asked, again, sl_option_flag, .name = "again",
              .help = N_("readings that are there already are passed over")),
};
const sl_command_line sl_log_import_typed = {
    .name = "log import",
    .line = N_("take readings from a file of CSV"),
    .usage = {N_("LOG FILE.csv [OPTIONS]")},
    .about = N_("A file of CSV is taken whole or not at all; what is wrong is named with line and column."),
    .set = {SL_OPTION_SET(sl_log_test_options, const char *, sl_files_asked, test),
            SL_OPTION_SET_OWN(take_options)},
    .words = SL_TYPED_WORDS(sl_files_asked, word, 2, 2),
    .example = {{N_("a spreadsheet that was filled in."), {"slowlift log import strands.db readings.csv"}}},
    .wants = {SL_WANTS_LOG, SL_WANTS_FILE},
};
static const sl_option give_options[] = {
    SL_OPTION(sl_files_asked, blank, sl_option_flag, .name = "blank",
              .help = N_("rows to fill in: one for each swatch, zone and planned look, and for its end")),
};
const sl_command_line sl_log_export_typed = {
    .name = "log export",
    .line = N_("give readings to a spreadsheet or a program"),
    .usage = {N_("LOG [TEST] [OPTIONS]")},
    .about = N_("Every reading of a log or a test; CSV is the usual."),
    .set = {SL_OPTION_SET_OWN(give_options),
            SL_OPTION_SET(sl_form_options, sl_result_wish, sl_files_asked, result),
            SL_OPTION_SET(sl_data_options, sl_result_wish, sl_files_asked, result)},
    .words = SL_TYPED_WORDS(sl_files_asked, word, 1, 2),
    .example = {{N_("the readings for a spreadsheet."), {"slowlift log export strands.db -o readings.csv"}},
                {N_("a spreadsheet to fill in, and what was written in it."),
                 {"slowlift log export strands.db --blank -o readings.csv",
                  "slowlift log import strands.db readings.csv"}}},
    .wants = {SL_WANTS_LOG},
};
const sl_command_line sl_log_merge_typed = {
    .name = "log merge",
    .line = N_("take in all that another log holds"),
    .usage = {N_("LOG OTHER")},
    .about = N_("Adds the tests, swatches, events and readings of OTHER that are not there yet."),
    .words = SL_TYPED_WORDS(sl_files_asked, word, 2, 2),
    .example = {{N_("two logs into one."), {"slowlift log merge strands.db other.db"}}},
    .wants = {SL_WANTS_LOG, SL_WANTS_LOG},
};

static bool give_import_receipt(void *self, sl_error *error)
{
    const sl_files_asked *const asked = self;
    printf(_("%lld readings were added; %lld were there already.\n"), asked->count.readings,
           asked->count.there);
    if (asked->count.blank > 0) {
        printf(
            sl_plural("%lld row was not filled in.\n", "%lld rows were not filled in.\n", asked->count.blank),
            asked->count.blank);
    }
    return sl_log_receipt_out(error);
}

static bool import(sl_log *log, void *self, sl_error *error)
{
    sl_files_asked *const asked = self;
    return sl_log_import_csv(log, asked->word[1], asked->test, asked->again, &asked->count, error);
}

sl_exit sl_command_log_import(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_files_asked asked = {.test = NULL};
    const bool good = sl_options_read(&sl_log_import_typed, argc, argv, &asked, &error);
    return sl_log_change(good, asked.word[0], import, give_import_receipt, &asked, &error);
}

static bool give(sl_log *log, const sl_files_asked *asked, FILE *out, sl_error *error)
{
    sl_log_test test;
    if (asked->word[1] && !sl_log_find(log, asked->word[1], &test, error)) {
        return false;
    }
    const char *const id = asked->word[1] ? test.id : NULL;
    errno = 0;
    return asked->blank         ? sl_log_blank_csv(log, id, out, error)
           : asked->result.json ? sl_log_export_json(log, id, out, error)
                                : sl_log_export_csv(log, id, out, error);
}

static sl_exit give_to_file(sl_log *log, const sl_files_asked *asked, sl_error *error)
{
    sl_save save;
    if (!sl_save_open(&save, asked->result.output, error)) {
        return sl_complain(error);
    }
    if (!give(log, asked, save.stream, error) && error->code != SL_OK) {
        sl_save_abandon(&save);
        return sl_complain(error);
    }
    return sl_save_commit(&save, error) ? SL_EXIT_OK : sl_complain(error);
}

sl_exit sl_command_log_export(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_files_asked asked = {.test = NULL};
    sl_log *log = NULL;
    bool good = sl_options_read(&sl_log_export_typed, argc, argv, &asked, &error) &&
                (!asked.blank || !asked.result.json ||
                 sl_fail(&error, SL_ERR_USAGE, _("--blank with --json"), _("rows to fill in are CSV")));
    good = good && sl_log_open(&log, asked.word[0], SL_LOG_READ, &error);
    sl_exit code = SL_EXIT_OK;
    if (good && asked.result.output) {
        code = give_to_file(log, &asked, &error);
    } else if (good) {
        good = give(log, &asked, stdout, &error);
        code = good || error.code == SL_OK ? sl_finish_output(good) : sl_complain(&error);
    } else {
        code = sl_complain(&error);
    }
    code = log ? sl_log_read_end(log, code) : code;
    sl_log_close(log);
    return code;
}

static bool give_merge_receipt(void *self, sl_error *error)
{
    const sl_log_count *const count = &((const sl_files_asked *)self)->count;
    printf(_("Added: %lld tests, %lld swatches, %lld events, %lld readings; %lld rows were there already.\n"),
           count->tests, count->swatches, count->events, count->readings, count->there);
    return sl_log_receipt_out(error);
}

static bool merge(sl_log *log, void *self, sl_error *error)
{
    sl_files_asked *const asked = self;
    return sl_log_merge(log, asked->word[1], &asked->count, error);
}

sl_exit sl_command_log_merge(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_files_asked asked = {.test = NULL};
    const bool good = sl_options_read(&sl_log_merge_typed, argc, argv, &asked, &error);
    return sl_log_change(good, asked.word[0], merge, give_merge_receipt, &asked, &error);
}

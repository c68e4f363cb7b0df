/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log import`, `export` and `merge`: to and from other programs and other people.
 */
#include <errno.h>
#include <stdio.h>

#include "base/language.h"
#include "base/save.h"
#include "command/log/log_verbs.h"
#include "front/options.h"
#include "slowlift/log.h"

typedef struct sl_files_asked {
    const char *word[2]; /* log, file or test */
    const char *test;
    bool again;
    sl_result_wish result;
} sl_files_asked;

static const struct option take_options[] = {
    {"test", required_argument, NULL, 't'}, {"again", no_argument, NULL, 'a'}, {NULL, 0, NULL, 0}};
static const struct option give_options[] = {{"csv", no_argument, NULL, 'c'},
                                             {"json", no_argument, NULL, 'j'},
                                             {"output", required_argument, NULL, 'o'},
                                             {NULL, 0, NULL, 0}};
static const struct option no_options[] = {{NULL, 0, NULL, 0}};

static bool read_option(sl_files_asked *asked, int option)
{
    switch (option) {
    case 't':
        asked->test = optarg;
        return true;
    case 'a':
        asked->again = true;
        return true;
    default:
        return sl_result_option(&asked->result, option);
    }
}

static bool read_asked(sl_files_asked *asked, int argc, char **argv, const struct option *options, int least,
                       sl_error *error)
{
    int option = 0;
    opterr = 0;
    while ((option = sl_option_next(argc, argv, options == give_options ? ":o:" : ":", options)) != -1) {
        if (!read_option(asked, option)) {
            return sl_option_refused("slowlift log", option, argv, options, error);
        }
    }
    return sl_log_words(argc, argv, least, 2, asked->word, error);
}

static bool give_import_receipt(void *self, sl_error *error)
{
    const sl_log_count *const count = self;
    printf(_("%lld readings were added; %lld were there already.\n"), count->readings, count->there);
    return sl_log_receipt_out(error);
}

sl_exit sl_log_take_csv(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_files_asked asked = {.test = NULL};
    sl_log_count count;
    sl_log *log = NULL;
    bool good = read_asked(&asked, argc, argv, take_options, 2, &error) &&
                sl_log_open(&log, asked.word[0], SL_LOG_WRITE, &error);
    if (good) {
        sl_log_on_kept(log, give_import_receipt, &count);
        good = sl_log_import_csv(log, asked.word[1], asked.test, asked.again, &count, &error);
    }
    sl_log_close(log);
    return good ? sl_finish_output(true) : sl_complain(&error);
}

static bool give(sl_log *log, const sl_files_asked *asked, FILE *out, sl_error *error)
{
    sl_log_test test;
    if (asked->word[1] && !sl_log_find(log, asked->word[1], &test, error)) {
        return false;
    }
    const char *const id = asked->word[1] ? test.id : NULL;
    errno = 0;
    return asked->result.json ? sl_log_export_json(log, id, out, error)
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

sl_exit sl_log_give(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_files_asked asked = {.test = NULL};
    sl_log *log = NULL;
    bool good = read_asked(&asked, argc, argv, give_options, 1, &error);
    good = good && sl_result_settle(&asked.result, &error);
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
    const sl_log_count *const count = self;
    printf(_("Added: %lld tests, %lld swatches, %lld events, %lld readings; %lld rows were there already.\n"),
           count->tests, count->swatches, count->events, count->readings, count->there);
    return sl_log_receipt_out(error);
}

sl_exit sl_log_take_log(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_files_asked asked = {.test = NULL};
    sl_log_count count;
    sl_log *log = NULL;
    bool good = read_asked(&asked, argc, argv, no_options, 2, &error) &&
                sl_log_open(&log, asked.word[0], SL_LOG_WRITE, &error);
    if (good) {
        sl_log_on_kept(log, give_merge_receipt, &count);
        good = sl_log_merge(log, asked.word[1], &count, &error);
    }
    sl_log_close(log);
    return good ? sl_finish_output(true) : sl_complain(&error);
}

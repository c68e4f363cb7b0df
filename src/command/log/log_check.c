/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log check`, `backup` and `rescue`: whether a log is whole, a second file of it, and what can
 * be read of one that is not.
 */
#include <stdio.h>

#include "base/inputs.h"
#include "base/language.h"
#include "command/log/log_verbs.h"
#include "front/options.h"

static const struct option no_options[] = {{NULL, 0, NULL, 0}};
static const struct option copy_options[] = {{"output", required_argument, NULL, 'o'}, {NULL, 0, NULL, 0}};

static bool read_asked(int argc, char **argv, const struct option *options, const char **log,
                       const char **output, sl_error *error)
{
    int option = 0;
    opterr = 0;
    while ((option = getopt_long(argc, argv, options == copy_options ? ":o:" : ":", options, NULL)) != -1) {
        if (option != 'o') {
            return sl_option_refused("slowlift log", option, argv, options, error);
        }
        *output = optarg;
    }
    return sl_log_words(argc, argv, 1, 1, log, error) &&
           (options == no_options || *output ||
            sl_fail(error, SL_ERR_USAGE, _("where to was not said"), _("write -o FILE, a new file"))) &&
           sl_output_named(*output, error);
}

static void tell(void *self, bool fault, const char *sentence)
{
    (void)self;
    printf("%s %s\n", fault ? "!!" : "  ", sentence);
}

sl_exit sl_log_look_over(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    const char *path = NULL, *none = NULL;
    bool sound = false;
    if (!read_asked(argc, argv, no_options, &path, &none, &error) ||
        !sl_log_check(path, tell, NULL, &sound, &error)) {
        return sl_complain(&error);
    }
    if (!sound) {
        sl_fail_at(&error, SL_ERR_DAMAGED, path, 0, 0, _("what is marked !! should not be so"),
                   _("slowlift log rescue copies what can be read into a new log"));
    }
    puts(sound ? _("This log is whole.") : _("This log is not whole."));
    const sl_exit code = sl_finish_output(true);
    return code != SL_EXIT_OK || sound ? code : sl_complain(&error);
}

sl_exit sl_log_copy(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    const char *path = NULL, *to = NULL;
    long long rows = 0;
    if (!read_asked(argc, argv, copy_options, &path, &to, &error) ||
        !sl_log_backup(path, to, &rows, &error)) {
        return sl_complain(&error);
    }
    printf(_("%s holds all of %s: %lld rows, each read back. Keep it on another disk.\n"), to, path, rows);
    return sl_finish_output(true);
}

sl_exit sl_log_rescue_it(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    const char *path = NULL, *to = NULL;
    sl_log_tally tally = {.read = 0};
    if (!read_asked(argc, argv, copy_options, &path, &to, &error) ||
        !sl_log_rescue(path, to, &tally, &error)) {
        return sl_complain(&error);
    }
    printf(_("%s holds %lld rows of %s.\n"), to, tally.read, path);
    const sl_exit code = sl_finish_output(true);
    return code != SL_EXIT_OK || sl_log_tally_whole(&tally, path, &error) ? code : sl_complain(&error);
}

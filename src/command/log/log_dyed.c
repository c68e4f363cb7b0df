/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log dyed`: on which day the swatches of a test were dyed.
 */
#include <stdio.h>

#include "base/language.h"
#include "command/log/log_verbs.h"
#include "log/day/dyed.h"

typedef struct sl_dyed_asked {
    const char *log, *test;
    int day;
    bool said;
} sl_dyed_asked;

static const sl_option options[] = {
    SL_OPTION_SAID(sl_dyed_asked, day, said, sl_log_past_day, .name = "on", .value = N_("DAY"),
                   .help = N_("such as 2026-11-25; else today")),
};
const sl_command_line sl_log_dyed_typed = {
    .name = "log dyed",
    .line = N_("keep the day on which swatches were dyed"),
    .usage = {N_("LOG [OPTIONS]")},
    .about =
        N_("When the swatches of a test were dyed, all in one session. Dyed hair rests overnight at least; "
           "the day says so where it did not. What is said last counts."),
    .set = {SL_OPTION_SET(sl_log_test_options, const char *, sl_dyed_asked, test),
            SL_OPTION_SET_OWN(options)},
    .words = SL_TYPED_WORDS(sl_dyed_asked, log, 1, 1),
    .example = {{N_("dyed today; slowlift plan --dye-day lists what there is to do."),
                 {"slowlift plan eight-arms --dye-day", "slowlift log dyed strands.db"}}},
    .wants = {SL_WANTS_LOG},
};

static bool give_receipt(void *self, sl_error *error)
{
    (void)self;
    puts(_("The day of dyeing is kept."));
    return sl_log_receipt_out(error);
}

static bool keep(sl_log *log, void *self, sl_error *error)
{
    const sl_dyed_asked *const asked = self;
    char note[SL_DYED_NOTE];
    sl_dyed_note(asked->day, note);
    return sl_log_note_keep(log, asked->test, NULL, note, error);
}

sl_exit sl_command_log_dyed(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_dyed_asked asked = {.log = NULL};
    const bool good = sl_options_read(&sl_log_dyed_typed, argc, argv, &asked, &error) &&
                      (asked.said || sl_today(&asked.day, &error));
    return sl_log_change(good, asked.log, keep, give_receipt, &asked, &error);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log bowl`: out of which tub and which bottle a bowl was filled, or every bowl from now on.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "command/log/log_verbs.h"
#include "log/day/tubs.h"

typedef struct sl_bowl_asked {
    const char *log, *test, *swatch;
    sl_tubs tubs;
    bool said; /* something is to be kept */
} sl_bowl_asked;

static bool read_lot(const sl_option *option, const char *text, void *lot, sl_error *error)
{
    (void)option;
    if (!sl_log_code_check(N_("the lot"), text, error)) {
        return false;
    }
    memcpy(lot, text, strlen(text) + 1);
    return true;
}

#define TUB(kind, lot_word, day_word, lot_help, day_help)                                                    \
    SL_OPTION_SAID(sl_bowl_asked, tubs.of[kind].lot, said, read_lot, .name = (lot_word),                     \
                   .value = N_("CODE"), .help = (lot_help)),                                                 \
        SL_OPTION_SAID(sl_bowl_asked, tubs.of[kind].opened, said, sl_log_past_day, .name = (day_word),       \
                       .value = N_("DAY"), .help = (day_help))
static const sl_option options[] = {
    SL_OPTION(sl_bowl_asked, swatch, sl_option_text, .name = "swatch", .value = N_("CODE"),
              .help = N_("of this swatch's bowl; else of every bowl that is mixed from now on")),
    TUB(SL_TUB_POWDER, "powder-lot", "powder-opened",
        N_("what is printed on the tub or packet, or your own code"),
        N_("when it was opened, such as 2026-11-25")),
    TUB(SL_TUB_DEVELOPER, "developer-lot", "developer-opened", N_("of the developer's bottle; likewise"),
        N_("likewise")),
    SL_OPTION_SAID(sl_bowl_asked, tubs.check, said, sl_option_flag, .name = "check-swatch",
                   .help = N_("the swatch is done alike each time, to see the tub age; with --swatch")),
};
#undef TUB
const sl_command_line sl_log_bowl_typed = {
    .name = "log bowl",
    .line = N_("keep lots, and when a tub was opened"),
    .usage = {N_("LOG [WHAT IS KNOWN OF TUB AND BOTTLE]")},
    .about =
        N_("Out of which tub the powder came, out of which bottle the developer, and since when they are "
           "open. Said before the day it holds for each bowl as it is mixed, until something else is said."),
    .set = {SL_OPTION_SET(sl_log_test_options, const char *, sl_bowl_asked, test),
            SL_OPTION_SET_OWN(options)},
    .words = SL_TYPED_WORDS(sl_bowl_asked, log, 1, 1),
    .example = {{N_("a tub that was opened on the first."),
                 {"slowlift log bowl strands.db --powder-lot P7 --powder-opened 2026-11-01"}},
                {N_("one bowl was of a new one, for the check swatch."),
                 {"slowlift log bowl strands.db --swatch EK9 --powder-lot P8 --check-swatch"}}},
    .wants = {SL_WANTS_LOG},
};

static bool give_receipt(void *self, sl_error *error)
{
    (void)self;
    puts(_("What was said of the bowls is kept."));
    return sl_log_receipt_out(error);
}

static bool keep(sl_log *log, void *self, sl_error *error)
{
    const sl_bowl_asked *const asked = self;
    char note[SL_TUBS_NOTE];
    sl_tubs_note(&asked->tubs, note);
    return sl_log_note_keep(log, asked->test, asked->swatch, note, error);
}

sl_exit sl_command_log_bowl(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_bowl_asked asked = {.log = NULL};
    const bool good =
        sl_options_read(&sl_log_bowl_typed, argc, argv, &asked, &error) &&
        (asked.said || sl_fail(&error, SL_ERR_USAGE, _("nothing was said of a tub or a bottle"),
                               _("write such as --powder-lot P7 --powder-opened 2026-11-01"))) &&
        (!asked.tubs.check || asked.swatch ||
         sl_fail(&error, SL_ERR_USAGE, _("--check-swatch without --swatch"), _("write --swatch CODE")));
    return sl_log_change(good, asked.log, keep, give_receipt, &asked, &error);
}

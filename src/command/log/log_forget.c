/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log forget`: a log without what it holds of somebody.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "command/log/log_verbs.h"
#include "log/shelf/forget.h"

typedef struct sl_forget_asked {
    const char *word[2]; /* log, code */
    sl_forgotten forgotten;
} sl_forget_asked;
const sl_command_line sl_log_forget_typed = {
    .name = "log forget",
    .line = N_("forget somebody: rows and photographs of a code"),
    .usage = {N_("LOG CODE")},
    .about = N_(
        "Writes the log anew without what it holds of a judge, an operator or a person with the strands of "
        "that hair, and without their photographs beside it, and puts it in the place of the old one. It "
        "says how much went and which other files of the folder still hold the code, and never the code. "
        "Refused while mix lies on hair, or while another program has the log open."),
    .words = SL_TYPED_WORDS(sl_forget_asked, word, 2, 2),
    .example = {{N_("K12 asked for it."), {"slowlift log forget strands.db K12"}}},
    .wants = {SL_WANTS_LOG},
};

static void tell_gone(const sl_forgotten *gone)
{
    puts(_("Forgotten:"));
    if (gone->tests > 0) {
        printf(sl_plural(" - %lld test\n", " - %lld tests\n", gone->tests), gone->tests);
    }
    if (gone->swatches > 0) {
        printf(sl_plural(" - %lld swatch\n", " - %lld swatches\n", gone->swatches), gone->swatches);
    }
    if (gone->events > 0) {
        printf(sl_plural(" - %lld event\n", " - %lld events\n", gone->events), gone->events);
    }
    if (gone->readings > 0) {
        printf(sl_plural(" - %lld reading\n", " - %lld readings\n", gone->readings), gone->readings);
    }
    if (gone->n_photos > 0) {
        printf(sl_plural(" - %lld photograph\n", " - %lld photographs\n", (long)gone->n_photos),
               (long long)(long)gone->n_photos);
    }
    if (gone->words > 0) {
        printf(sl_plural(" - a word in %lld row that stays\n", " - a word in each of %lld rows that stay\n",
                         gone->words),
               gone->words);
    }
    if (gone->photographs_left > 0) {
        printf(sl_plural("%lld photograph stays: it is elsewhere, gone already or not as it was.\n",
                         "%lld photographs stay: they are elsewhere, gone already or not as they were.\n",
                         gone->photographs_left),
               gone->photographs_left);
    }
    if (gone->scene_files > 0) {
        printf(sl_plural("%lld file of a scene holds that word, and stays as it was.\n",
                         "%lld files of scenes hold that word, and stay as they were.\n", gone->scene_files),
               gone->scene_files);
    }
}

static bool give_receipt(void *self, sl_error *error)
{
    const sl_forgotten *const gone = &((const sl_forget_asked *)self)->forgotten;
    if (gone->tests + gone->swatches + gone->events + gone->readings + gone->words == 0) {
        puts(_("This log holds nothing of that code; it stays as it was."));
    } else {
        tell_gone(gone);
    }
    if (gone->n_elsewhere > 0) {
        puts(_("Look also in, and in copies that lie elsewhere:"));
    } else {
        puts(_("No other file of this folder holds the code. Look also in copies that lie elsewhere."));
    }
    for (size_t i = 0; i < gone->n_elsewhere; i++) {
        char shown[SL_SHELF_SHOWN];
        printf(" - %s\n", sl_shelf_shown(gone->elsewhere[i], shown));
    }
    return sl_log_receipt_out(error);
}

sl_exit sl_command_log_forget(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_forget_asked asked = {.forgotten = {.tests = 0}};
    const bool good =
        sl_options_read(&sl_log_forget_typed, argc, argv, &asked, &error) &&
        sl_log_forget(asked.word[0], asked.word[1], &asked.forgotten, give_receipt, &asked, &error);
    sl_forgotten_free(&asked.forgotten);
    return good ? sl_finish_output(true) : sl_complain(&error);
}

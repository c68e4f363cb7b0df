/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log strand`: that a swatch is a strand of somebody's hair, and what only the bench knows of it.
 */
#include <stdio.h>
#include <string.h>

#include "base/calendar.h"
#include "base/language.h"
#include "command/log/log_verbs.h"
#include "slowlift/strand_log.h"

typedef struct sl_strand_asked {
    const char *log, *test, *swatch;
    sl_strand_note note;
    bool said; /* something is to be kept */
} sl_strand_asked;

static bool read_person(const sl_option *option, const char *text, void *person, sl_error *error)
{
    (void)option;
    if (!sl_log_code_check(N_("this person's code"), text, error)) {
        return false;
    }
    memcpy(person, text, strlen(text) + 1);
    return true;
}

static bool read_part(const sl_option *option, const char *text, void *place, sl_error *error)
{
    sl_hair_part *const part = place;
    (void)option;
    *part = sl_hair_part_of_word(text);
    return *part != SL_HAIR_NOWHERE ||
           sl_word_refused("the part of the hair", text, sl_hair_part_words(), SL_HAIR_PARTS - 1, error);
}

bool sl_log_past_day(const sl_option *option, const char *text, void *place, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    int *const day = place;
    int today = 0;
    if (!sl_today(&today, error)) {
        return false;
    }
    if (sl_day_read(text, day) && *day <= today) {
        return true;
    }
    snprintf(found, sizeof found, _("--%s \"%.60s\" is no day until today"), option->name, text);
    return sl_fail(error, SL_ERR_USAGE, found, "write the day, such as 2026-11-25");
}

#define NOTED(member, word, its_help)                                                                        \
    SL_OPTION_SAID(sl_strand_asked, note.member, said, sl_option_flag, .name = (word), .help = (its_help))
static const sl_option options[] = {
    SL_OPTION(sl_strand_asked, swatch, sl_option_text, .name = "swatch", .value = N_("CODE"),
              .help = N_("which swatch it is")),
    SL_OPTION_SAID(sl_strand_asked, note.person, said, read_person, .name = "person", .value = N_("CODE"),
                   .help = N_("whose hair: a code, never a name")),
    SL_OPTION_SAID(sl_strand_asked, note.part, said, read_part, .name = "part", .value = N_("WORD"),
                   .help = N_("front, crown, sides, back or nape")),
    SL_OPTION_SAID(sl_strand_asked, note.packet_day, said, sl_log_past_day, .name = "packet-opened",
                   .value = N_("DAY"), .help = N_("when its packet was opened, such as 2026-11-25")),
    NOTED(cut, "cut", N_("it was cut off")),
    NOTED(washed, "washed-and-dried", N_("before it was graded at the end")),
    NOTED(warm, "warm", N_("it grew warm under the mix; never taken back")),
    NOTED(fizzed, "fizzed", N_("likewise")),
    NOTED(smelt, "smelt", N_("likewise")),
    NOTED(practice, "practice", N_("made up for a class")),
};
#undef NOTED
const sl_command_line sl_log_strand_typed = {
    .name = "log strand",
    .line = N_("note that a swatch is a strand of somebody's hair"),
    .usage = {N_("LOG --swatch CODE [WHAT IS NOTED OF A STRAND]")},
    .about =
        N_("A swatch that is a strand of somebody's hair: whose, from where, and what only the bench knows "
           "of it."),
    .set = {SL_OPTION_SET(sl_log_test_options, const char *, sl_strand_asked, test),
            SL_OPTION_SET_OWN(options)},
    .words = SL_TYPED_WORDS(sl_strand_asked, log, 1, 1),
    .example = {{N_("a strand from the nape of K12."),
                 {"slowlift log strand strands.db --swatch EK9 --person K12 --part nape --cut"}}},
    .wants = {SL_WANTS_LOG},
};

static bool give_receipt(void *self, sl_error *error)
{
    (void)self;
    puts(_("What was noted of the strand is kept."));
    return sl_log_receipt_out(error);
}

static bool note(sl_log *log, void *self, sl_error *error)
{
    const sl_strand_asked *const asked = self;
    char text[SL_STRAND_NOTE_TEXT];
    sl_strand_note_words(&asked->note, text);
    return sl_log_note_keep(log, asked->test, asked->swatch, text, error);
}

sl_exit sl_command_log_strand(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_strand_asked asked = {.note = {.part = SL_HAIR_NOWHERE}};
    const bool good =
        sl_options_read(&sl_log_strand_typed, argc, argv, &asked, &error) &&
        ((asked.swatch && asked.said) ||
         sl_fail(
             &error, SL_ERR_USAGE, "--swatch and what is to be noted of that strand were not both given",
             "write --swatch CODE and such as --person CODE --part nape --cut --packet-opened 2026-11-25"));
    return sl_log_change(good, asked.log, note, give_receipt, &asked, &error);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See limits_asked.h.
 */
#include "command/limits_asked.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "base/minute.h"
#include "front/times.h"
#include "scene/yaml/quantity.h"
#include "slowlift/spread.h"

/* "2/8". */
static bool read_part(const sl_option *option, const char *text, void *place, sl_error *error)
{
    const long most = SL_MOST_RANGES;
    sl_limits_part *const asked = place;
    char wanted[SL_ERROR_TEXT_SIZE], *rest = NULL, *end = NULL;
    errno = 0;
    const long part = strtol(text, &rest, 10);
    const long of = rest[0] == '/' && rest[1] >= '0' && rest[1] <= '9' ? strtol(rest + 1, &end, 10) : 0;
    if (text[0] >= '0' && text[0] <= '9' && end && end[0] == '\0' && part >= 1 && part <= of && of <= most) {
        *asked = (sl_limits_part){part, of};
        return true;
    }
    snprintf(wanted, sizeof wanted, _("write which part of how many, such as 1/2, at most %ld"), most);
    return sl_value_refused(option, text, wanted, error);
}

static const sl_option options[] = {
    SL_OPTION(sl_limits_asked, about.arm, sl_option_text, .name = "arm", .value = N_("NAME"),
              .help = N_("this strip alone")),
    SL_OPTION(sl_limits_asked, science, sl_option_flag, .name = "science",
              .help = N_("how far the count may lie off, and the indices behind \"measure next\"")),
    SL_OPTION(sl_limits_asked, part, read_part, .name = "part", .value = "K/N",
              .help = N_("count one part of N, on any machine, into -o FILE; then")),
    SL_OPTION(sl_limits_asked, merge, sl_option_flag, .name = "merge",
              .help = N_("add the parts up that follow the scene: the same bytes as the whole at once")),
};
const sl_command_line sl_limits_typed = {
    .name = "limits",
    .line = N_("when to look and when to stop"),
    .usage = {N_("[OPTIONS] FILE"), N_("--merge [OPTIONS] FILE PART...")},
    .about = N_("When to look, when to stop, and how sure the model is, for every strip of a scene that sets "
                "a goal (aims): one of the words roomy, tight, doubtful, not in time or cannot say, with the "
                "looks to make. Thousands of model runs, each with numbers drawn as widely as their grades "
                "are weak. It never times a person's hair without a clear form and a strand of that hair.\n"
                "\n"
                "Ctrl-C stops the count; what was counted is printed, said to be partial, and exit is 4."),
    .set = {SL_OPTION_SET_OWN(options),
            SL_OPTION_SET(sl_answers_options, sl_answers_asked, sl_limits_asked, about),
            SL_OPTION_SET(sl_draw_options, sl_draws, sl_limits_asked, draws),
            SL_RESULT_SETS(sl_limits_asked)},
    .example = {{N_("when shall I look?"), {"slowlift limits way-wide --arm \"powder + 3 %\""}},
                {N_("after fifteen minutes it is still about half there. Now what?"),
                 {"slowlift limits way-wide --arm \"powder + 3 %\" --saw \"15 about half\""}}},
    .wants = {SL_WANTS_SCENE},
};

/* With --merge: the scene, and then the parts. */
static bool read_merged(sl_limits_asked *asked, int argc, char **argv, sl_error *error)
{
    if (argc - optind < 2) {
        return sl_fail(error, SL_ERR_USAGE, "--merge without its files",
                       "write the scene and then the parts, such as --merge SCENE part-1 part-2");
    }
    if (asked->draws.said || asked->part.part > 0 || asked->about.saw.n > 0) {
        return sl_fail(error, SL_ERR_USAGE, "--merge counts nothing itself",
                       "give --members, --seed, --saw and --part to each part");
    }
    asked->about.file = argv[optind];
    asked->parts = (const char *const *)argv + optind + 1;
    asked->n_parts = argc - optind - 1;
    return true;
}

static bool agrees(const sl_limits_asked *asked, sl_error *error)
{
    if (!sl_answers_settle(&asked->about, error)) {
        return false;
    }
    if (asked->part.part > 0 &&
        (!asked->result.output || asked->result.csv || asked->result.json || asked->merge)) {
        return sl_fail(error, SL_ERR_USAGE, "a part is counts for --merge to add up, in a file",
                       "write -o FILE, and leave out --csv, --json and --merge");
    }
    return true;
}

bool sl_limits_asked_read(sl_limits_asked *asked, int argc, char **argv, sl_error *error)
{
    asked->about.arm_option = "arm";
    if (!sl_options_read(&sl_limits_typed, argc, argv, asked, error) || !agrees(asked, error)) {
        return false;
    }
    return asked->merge ? read_merged(asked, argc, argv, error)
                        : sl_one_file(&sl_limits_typed, argc, argv, &asked->about.file, error);
}

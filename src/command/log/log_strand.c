/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log strand`: that a swatch is a strand of somebody's hair, and what only the bench knows of it.
 */
#include <stdio.h>
#include <string.h>

#include "base/calendar.h"
#include "base/language.h"
#include "command/log/log_verbs.h"
#include "front/options.h"
#include "slowlift/strand_log.h"

enum { TEST = 1, SWATCH, PERSON, PART, PACKET, CUT, WASHED, WARM, FIZZED, SMELT, PRACTICE };
static const struct option options[] = {{"test", required_argument, NULL, TEST},
                                        {"swatch", required_argument, NULL, SWATCH},
                                        {"person", required_argument, NULL, PERSON},
                                        {"part", required_argument, NULL, PART},
                                        {"packet-opened", required_argument, NULL, PACKET},
                                        {"cut", no_argument, NULL, CUT},
                                        {"washed-and-dried", no_argument, NULL, WASHED},
                                        {"warm", no_argument, NULL, WARM},
                                        {"fizzed", no_argument, NULL, FIZZED},
                                        {"smelt", no_argument, NULL, SMELT},
                                        {"practice", no_argument, NULL, PRACTICE},
                                        {NULL, 0, NULL, 0}};

typedef struct sl_strand_asked {
    const char *log, *test, *swatch;
    sl_strand_note note;
    bool said; /* something is to be kept */
} sl_strand_asked;

static bool read_part(const char *text, sl_hair_part *part, sl_error *error)
{
    *part = sl_hair_part_of_word(text);
    return *part != SL_HAIR_NOWHERE ||
           sl_word_refused("the part of the hair", text, sl_hair_part_words(), SL_HAIR_PARTS - 1, error);
}

static bool read_packet(const char *text, int *day, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    int today = 0;
    if (!sl_today(&today, error)) {
        return false;
    }
    if (sl_day_read(text, day) && *day <= today) {
        return true;
    }
    snprintf(found, sizeof found, _("--packet-opened \"%.60s\" is no day until today"), text);
    return sl_fail(error, SL_ERR_USAGE, found, "write the day, such as 2026-11-25");
}

static bool read_option(sl_strand_asked *asked, int option, char **argv, sl_error *error)
{
    sl_strand_note *const note = &asked->note;
    bool *const marks[] = {&note->cut,    &note->washed, &note->warm,
                           &note->fizzed, &note->smelt,  &note->practice};
    asked->said = asked->said || option >= PERSON;
    switch (option) {
    case TEST:
        asked->test = optarg;
        return true;
    case SWATCH:
        asked->swatch = optarg;
        return true;
    case PERSON:
        if (!sl_log_code_check(N_("this person's code"), optarg, error)) {
            return false;
        }
        memcpy(note->person, optarg, strlen(optarg) + 1);
        return true;
    case PART:
        return read_part(optarg, &note->part, error);
    case PACKET:
        return read_packet(optarg, &note->packet_day, error);
    case CUT:
    case WASHED:
    case WARM:
    case FIZZED:
    case SMELT:
    case PRACTICE:
        *marks[option - CUT] = true;
        return true;
    default:
        return sl_option_refused("slowlift log", option, argv, options, error);
    }
}

static bool read_asked(sl_strand_asked *asked, int argc, char **argv, sl_error *error)
{
    int option = 0;
    opterr = 0;
    while ((option = sl_option_next(argc, argv, ":", options)) != -1) {
        if (!read_option(asked, option, argv, error)) {
            return false;
        }
    }
    if (!sl_log_words(argc, argv, 1, 1, &asked->log, error)) {
        return false;
    }
    return (asked->swatch && asked->said) ||
           sl_fail(
               error, SL_ERR_USAGE, "--swatch and what is to be noted of that strand were not both given",
               "write --swatch CODE and such as --person CODE --part nape --cut --packet-opened 2026-11-25");
}

static bool give_receipt(void *self, sl_error *error)
{
    (void)self;
    puts(_("What was noted of the strand is kept."));
    return sl_log_receipt_out(error);
}

sl_exit sl_log_strand(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_strand_asked asked = {.note = {.part = SL_HAIR_NOWHERE}};
    char text[SL_STRAND_NOTE_TEXT];
    sl_log *log = NULL;
    bool good = read_asked(&asked, argc, argv, &error) && sl_log_open(&log, asked.log, SL_LOG_WRITE, &error);
    if (good) {
        sl_log_on_kept(log, give_receipt, NULL);
        sl_strand_note_words(&asked.note, text);
        good = sl_log_note_keep(log, asked.test, asked.swatch, text, &error);
    }
    sl_log_close(log);
    return good ? sl_finish_output(true) : sl_complain(&error);
}

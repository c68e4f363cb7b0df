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
#include "front/settings.h"
#include "front/times.h"
#include "scene/yaml/quantity.h"
#include "slowlift/spread.h"

static const long MOST_MEMBERS = 100000000L;

static const struct option options[] = {
    {"arm", required_argument, NULL, 'a'},    {"members", required_argument, NULL, 'n'},
    {"seed", required_argument, NULL, 's'},   {"threads", required_argument, NULL, 't'},
    {"saw", required_argument, NULL, 'w'},    {"person", required_argument, NULL, 'p'},
    {"strand", required_argument, NULL, 'S'}, {"part", required_argument, NULL, 'P'},
    {"merge", no_argument, NULL, 'M'},        {"goal", required_argument, NULL, 'g'},
    {"label", required_argument, NULL, 'l'},  {"science", no_argument, NULL, 'i'},
    {"csv", no_argument, NULL, 'c'},          {"json", no_argument, NULL, 'j'},
    {"output", required_argument, NULL, 'o'}, {"models", required_argument, NULL, 'm'},
    {"help", no_argument, NULL, 'h'},         {NULL, 0, NULL, 0}};

/* ---- the command line -------------------------------------------------------------------------- */

static bool read_seed(const char *text, uint64_t *seed, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE], *rest = NULL;
    errno = 0;
    const unsigned long long number = strtoull(text, &rest, 10);
    if (text[0] >= '0' && text[0] <= '9' && rest[0] == '\0' && errno == 0) {
        *seed = number;
        return true;
    }
    snprintf(found, sizeof found, _("--seed \"%.60s\" is not understood"), text);
    return sl_fail(error, SL_ERR_USAGE, found, "write a whole number below 2 to the 64");
}

/* "2/8". */
static bool read_part(const char *text, sl_limits_asked *asked, sl_error *error)
{
    const long most = SL_MOST_RANGES;
    char found[SL_ERROR_TEXT_SIZE], wanted[SL_ERROR_TEXT_SIZE], *rest = NULL, *end = NULL;
    errno = 0;
    const long part = strtol(text, &rest, 10);
    const long of = rest[0] == '/' && rest[1] >= '0' && rest[1] <= '9' ? strtol(rest + 1, &end, 10) : 0;
    if (text[0] >= '0' && text[0] <= '9' && end && end[0] == '\0' && part >= 1 && part <= of && of <= most) {
        asked->part = part;
        asked->of_parts = of;
        return true;
    }
    snprintf(found, sizeof found, _("--part \"%.60s\" is not understood"), text);
    snprintf(wanted, sizeof wanted, _("write which part of how many, such as 1/2, at most %ld"), most);
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

static bool read_label(const char *text, double *minutes, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE], wanted[SL_ERROR_TEXT_SIZE], most[32];
    double value = 0.0;
    const char *rest = sl_decimal_read(text, &value);
    rest = rest ? rest + strspn(rest, " ") : "?";
    if (strcmp(rest, "min") == 0 && value >= SL_LABEL_LEAST_MIN && value <= SL_LABEL_MOST_MIN) {
        *minutes = value;
        return true;
    }
    snprintf(found, sizeof found, _("--label \"%.60s\" is not understood"), text);
    sl_minute_words(SL_MINUTE_PLANNED, most, sizeof most, "%dmin", SL_LABEL_MOST_MIN);
    snprintf(wanted, sizeof wanted, _("write the longest time on the label, such as 30min, at most %s"),
             most);
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

static bool add_saw(sl_limits_asked *asked, const char *text, sl_error *error)
{
    if (asked->n_observations >= SL_MOST_OBSERVATIONS) {
        return sl_fail(error, SL_ERR_USAGE, "more --saw than are read", "32 at most");
    }
    asked->observation[asked->n_observations++] = text;
    return true;
}

static bool read_option(sl_limits_asked *asked, int option, char **argv, sl_error *error)
{
    switch (option) {
    case 'a':
        asked->arm = optarg;
        return true;
    case 'P':
        asked->counted = true;
        return read_part(optarg, asked, error);
    case 'M':
        asked->merge = true;
        return true;
    case 'g':
        return sl_share_read(optarg, &asked->goal, error);
    case 'l':
        return read_label(optarg, &asked->label_min, error);
    case 'n':
        asked->counted = true;
        return sl_digits_read("members", optarg, 1, MOST_MEMBERS, &asked->members, error);
    case 's':
        asked->counted = true;
        return read_seed(optarg, &asked->seed, error);
    case 't':
        return sl_digits_read("threads", optarg, 1, 256, &asked->threads, error);
    case 'w':
        return add_saw(asked, optarg, error);
    case 'p':
        asked->person = optarg;
        return true;
    case 'S':
        asked->strand = optarg;
        return true;
    case 'i':
        asked->science = true;
        return true;
    default:
        return sl_result_option(&asked->result, option) ||
               sl_option_refused("slowlift limits", option, argv, options, error);
    }
}

/* With --merge: the scene, and then the parts. */
static bool read_merged(sl_limits_asked *asked, int argc, char **argv, sl_error *error)
{
    if (argc - optind < 2) {
        return sl_fail(error, SL_ERR_USAGE, "--merge without its files",
                       "write the scene and then the parts, such as --merge SCENE part-1 part-2");
    }
    if (asked->counted || asked->n_observations > 0) {
        return sl_fail(error, SL_ERR_USAGE, "--merge counts nothing itself",
                       "give --members, --seed, --saw and --part to each part");
    }
    asked->file = argv[optind];
    asked->parts = (const char *const *)argv + optind + 1;
    asked->n_parts = argc - optind - 1;
    return true;
}

static bool agrees(const sl_limits_asked *asked, sl_error *error)
{
    if (!sl_result_settle(&asked->result, error)) {
        return false;
    }
    if (asked->strand && !asked->person) {
        return sl_fail(error, SL_ERR_USAGE, "--strand without the person whose hair it is",
                       "add --person FILE, or --person ask");
    }
    if (asked->part > 0 &&
        (!asked->result.output || asked->result.csv || asked->result.json || asked->merge)) {
        return sl_fail(error, SL_ERR_USAGE, "a part is counts for --merge to add up, in a file",
                       "write -o FILE, and leave out --csv, --json and --merge");
    }
    return true;
}

bool sl_limits_asked_read(sl_limits_asked *asked, int argc, char **argv, sl_error *error)
{
    int option = 0;
    opterr = 0;
    while ((option = sl_option_next(argc, argv, ":o:", options)) != -1) {
        if (!read_option(asked, option, argv, error)) {
            return false;
        }
    }
    if (!agrees(asked, error)) {
        return false;
    }
    return asked->merge ? read_merged(asked, argc, argv, error)
                        : sl_one_file("slowlift limits", argc, argv, &asked->file, error);
}

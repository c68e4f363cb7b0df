/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Rows of options and a command line -> a record that is filled; refusals name what was typed.
 */
#include <assert.h>
#include <errno.h>
#include <getopt.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/inputs.h"
#include "base/language.h"
#include "base/plain_text.h"
#include "front/option.h"
#include "front/times.h"
#include "scene/yaml/phrase.h"
#include "scene/yaml/quantity.h"

enum { MOST_OPTIONS = 48, FIRST = 1000 /* what getopt_long() returns for the first row */ };

bool sl_word_refused(const char *what, const char *word, const char *const *known, int n, sl_error *error)
{
    sl_phrase found = {0}, wanted = {0};
    sl_phrase_add(&found, _(what));
    sl_phrase_add(&found, " ");
    sl_phrase_quote(&found, word);
    sl_phrase_add(&found, _(" is not known"));
    const sl_words words = {.word = known, .n = n};
    sl_phrase_nearest(&wanted, &words, word);
    return sl_fail(error, SL_ERR_USAGE, found.text, wanted.text);
}

/* ---- the rows of a command, for getopt_long() ------------------------------------------------------- */

typedef struct sl_known {
    const sl_option *row[MOST_OPTIONS];     /* [n] */
    size_t within[MOST_OPTIONS];            /* [n] */
    struct option option[MOST_OPTIONS + 1]; /* [n], and a row of zeroes */
    char letters[2 * MOST_OPTIONS + 2];
    int n;
} sl_known;

const sl_option *sl_option_row(const sl_command_line *line, int i, size_t *within)
{
    for (int s = 0; s < SL_MOST_SETS && line->set[s].n > 0; i -= line->set[s].n, s++) {
        if (i < line->set[s].n) {
            *(within ? within : &(size_t){0}) = line->set[s].within;
            return &line->set[s].row[i];
        }
    }
    return NULL;
}

static sl_known known_of(const sl_command_line *line)
{
    sl_known known = {.letters = ":"};
    for (const sl_option *row = NULL; (row = sl_option_row(line, known.n, &known.within[known.n])) != NULL;) {
        assert(known.n < MOST_OPTIONS - 1);
        const int takes = row->usual ? optional_argument : row->value ? required_argument : no_argument;
        if (row->letter != 0) {
            const size_t used = strlen(known.letters);
            known.letters[used] = row->letter;
            known.letters[used + 1] = row->value ? ':' : '\0';
        }
        known.option[known.n] = (struct option){row->name, takes, NULL, FIRST + known.n};
        known.row[known.n++] = row;
    }
    return known;
}

/* The row that getopt_long() found: by its long name, or by its letter. -1: none. */
static int found_row(const sl_known *known, int result)
{
    for (int i = 0; i < known->n; i++) {
        if (result == FIRST + i || (known->row[i]->letter != 0 && result == known->row[i]->letter)) {
            return i;
        }
    }
    return -1;
}

/* ---- refusals ------------------------------------------------------------------------------------- */

static bool see_help(const sl_command_line *line, const char *found, sl_error *error)
{
    char wanted[SL_ERROR_TEXT_SIZE];
    snprintf(wanted, sizeof wanted, _("see slowlift %s --help"), line->name);
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

static bool refuse_long(char **argv, const sl_known *known, sl_error *error)
{
    const char *names[MOST_OPTIONS];
    int n = 0;
    for (int i = 0; i < known->n; i++) {
        if (known->row[i]->help) {
            names[n++] = known->row[i]->name;
        }
    }
    char word[64];
    snprintf(word, sizeof word, "%s", argv[optind - 1]);
    word[strcspn(word, "=")] = '\0';
    const char *const bare = word + strspn(word, "-");
    for (int i = 0; i < n; i++) {
        if (strcmp(bare, names[i]) == 0) {
            char found[SL_ERROR_TEXT_SIZE];
            snprintf(found, sizeof found, _("the option --%s takes no value"), names[i]);
            return sl_fail(error, SL_ERR_USAGE, found, "leave out what follows the =");
        }
    }
    return sl_word_refused("the option", bare, names, n, error);
}

static bool refuse_option(const sl_command_line *line, int result, char **argv, const sl_known *known,
                          sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    if (result == ':') {
        snprintf(found, sizeof found, _("the option %.60s lacks its value"), argv[optind - 1]);
        return see_help(line, found, error);
    }
    if (optopt != 0 && strncmp(argv[optind - 1], "--", 2) != 0) {
        snprintf(found, sizeof found, _("the option -%c is not known"), optopt);
        return see_help(line, found, error);
    }
    return refuse_long(argv, known, error);
}

/* Unless it names a file, which may be called anything, a value is text. */
static bool value_is_text(const sl_option *row, const char *text, sl_error *error)
{
    sl_error fault = {.code = SL_OK};
    const sl_text_kind kind = row->wants == SL_WANTS_LINES ? SL_TEXT_LINES : SL_TEXT_LINE;
    if (!text || (row->wants != SL_WANTS_TEXT && row->wants != SL_WANTS_LINES) ||
        sl_text_accept(text, strlen(text), kind, &fault)) {
        return true;
    }
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("--%s holds %s as character %d"), row->name, fault.found, fault.column);
    return sl_fail(error, SL_ERR_USAGE, found, fault.wanted);
}

bool sl_value_refused(const sl_option *option, const char *text, const char *wanted, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("--%s \"%.60s\" is not understood"), option->name, text);
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

/* ---- reading ------------------------------------------------------------------------------------- */

static bool take(const sl_option *row, const char *text, char *record, sl_error *error)
{
    if (!value_is_text(row, text, error) || !row->read(row, text, record + row->place, error)) {
        return false;
    }
    if (row->given != SL_NO_FLAG) {
        *(bool *)(record + row->given) = true;
    }
    return true;
}

/* Of a log's: which, of which test, or a note. */
static bool refuse_words(const sl_command_line *line, const char *too_many, int n, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    if (too_many) {
        snprintf(found, sizeof found, _("one word too many: \"%.80s\""), too_many);
        return see_help(line, found, error);
    }
    return see_help(line, n == 0 ? _("no log was named") : _("a word is missing"), error);
}

static bool words_read(const sl_command_line *line, int argc, char **argv, void *asked, sl_error *error)
{
    const sl_typed_words *const words = &line->words;
    const char **const place = (const char **)((char *)asked + words->place);
    const int n = argc - optind;
    if (words->least > 0 && line->wants[0] != SL_WANTS_LOG) {
        return sl_one_file(line, argc, argv, place, error);
    }
    for (int i = 0; i < words->most; i++) {
        place[i] = i < n ? argv[optind + i] : NULL;
    }
    return words->most == 0 || (n >= words->least && n <= words->most) ||
           refuse_words(line, n > words->most ? argv[optind + words->most] : NULL, n, error);
}

bool sl_options_read(const sl_command_line *line, int argc, char **argv, void *asked, sl_error *error)
{
    const sl_known known = known_of(line);
    int result = 0;
    opterr = 0;
    while ((result = getopt_long(argc, argv, known.letters, known.option, NULL)) != -1) {
        const int i = found_row(&known, result);
        if (i < 0 ? !refuse_option(line, result, argv, &known, error)
                  : !take(known.row[i], optarg ? optarg : known.row[i]->usual,
                          (char *)asked + known.within[i], error)) {
            return false;
        }
    }
    return words_read(line, argc, argv, asked, error) && sl_output_settle(line, asked, error);
}

bool sl_options_draw(const sl_command_line *line, int argc, char **argv)
{
    const sl_known known = known_of(line);
    bool draws = false;
    int result = 0;
    opterr = 0;
    if (!sl_output_set(line)) { /* its words stay in their order */
        return false;
    }
    while ((result = getopt_long(argc, argv, known.letters, known.option, NULL)) != -1) {
        const int i = found_row(&known, result);
        draws =
            draws || (i >= 0 && (known.row[i] == sl_output_options || known.row[i] == sl_picture_options) &&
                      sl_names_picture(optarg));
    }
    optind = 0; /* glibc and musl begin anew */
    return draws;
}

int sl_words_left(int argc)
{
    return argc - optind;
}

bool sl_one_file(const sl_command_line *line, int argc, char **argv, const char **file, sl_error *error)
{
    char wanted[SL_ERROR_TEXT_SIZE];
    snprintf(wanted, sizeof wanted, _("give one scene, such as slowlift %s models/scenes/eight-arms.yaml"),
             line->name);
    if (optind >= argc) {
        return sl_fail(error, SL_ERR_USAGE, "no file was named", wanted);
    }
    if (optind + 1 < argc) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("more than one file was named (\"%.80s\" too)"), argv[optind + 1]);
        return sl_fail(error, SL_ERR_USAGE, found, wanted);
    }
    *file = argv[optind];
    return true;
}

/* ---- readers ------------------------------------------------------------------------------------- */

bool sl_option_flag(const sl_option *option, const char *text, void *place, sl_error *error)
{
    (void)option, (void)text, (void)error;
    *(bool *)place = true;
    return true;
}

bool sl_option_text(const sl_option *option, const char *text, void *place, sl_error *error)
{
    (void)option, (void)error;
    *(const char **)place = text;
    return true;
}

bool sl_option_output(const sl_option *option, const char *text, void *place, sl_error *error)
{
    (void)option;
    *(const char **)place = text;
    return sl_output_named(text, error);
}

bool sl_option_choice(const sl_option *option, const char *text, void *place, sl_error *error)
{
    const sl_word_list *const choice = option->choice;
    for (int i = 0; i < choice->n; i++) {
        if (strcmp(text, choice->word[i]) == 0) {
            *(int *)place = i;
            return true;
        }
    }
    return sl_word_refused(choice->of, text, choice->word, choice->n, error);
}

bool sl_option_whole(const sl_option *option, const char *text, void *place, sl_error *error)
{
    char wanted[SL_ERROR_TEXT_SIZE], *rest = NULL;
    errno = 0;
    const long number = strtol(text, &rest, 10);
    if (text[0] >= '0' && text[0] <= '9' && rest[0] == '\0' && errno == 0 &&
        (double)number >= option->least && (double)number <= option->most) {
        *(long *)place = number;
        return true;
    }
    snprintf(wanted, sizeof wanted, _("write a whole number from %.0f to %.0f"), option->least, option->most);
    return sl_value_refused(option, text, wanted, error);
}

bool sl_option_count(const sl_option *option, const char *text, void *place, sl_error *error)
{
    long number = 0;
    const bool good = sl_option_whole(option, text, &number, error);
    *(int *)place = good ? (int)number : *(int *)place;
    return good;
}

bool sl_option_seed(const sl_option *option, const char *text, void *place, sl_error *error)
{
    char *rest = NULL;
    errno = 0;
    const unsigned long long number = strtoull(text, &rest, 10);
    if (text[0] >= '0' && text[0] <= '9' && rest[0] == '\0' && errno == 0) {
        *(uint64_t *)place = number;
        return true;
    }
    return sl_value_refused(option, text, _("write a whole number below 2 to the 64"), error);
}

static bool read_number(const sl_option *option, const char *text, const char *unit, double *place,
                        sl_error *error)
{
    char wanted[SL_ERROR_TEXT_SIZE];
    double number = 0.0;
    const char *const rest = sl_decimal_read(text, &number);
    if (rest && strcmp(rest + strspn(rest, " "), unit) == 0 && number >= option->least &&
        number <= option->most) {
        *place = number;
        return true;
    }
    snprintf(wanted, sizeof wanted, _("write a number from %.10g%s to %.10g%s"), option->least, unit,
             option->most, unit);
    return sl_value_refused(option, text, wanted, error);
}

bool sl_option_number(const sl_option *option, const char *text, void *place, sl_error *error)
{
    return read_number(option, text, "", place, error);
}

bool sl_option_grams(const sl_option *option, const char *text, void *place, sl_error *error)
{
    return read_number(option, text, "g", place, error);
}

bool sl_option_share(const sl_option *option, const char *text, void *place, sl_error *error)
{
    double number = 0.0;
    const char *after = sl_decimal_read(text + strspn(text, " "), &number);
    if (after) {
        after += strspn(after, " ");
        number /= *after == '%' ? 100.0 : 1.0;
        after += *after == '%' ? 1 : 0;
        after += strspn(after, " ");
        if (*after == '\0' && number > 0.0 && number < 1.0) {
            *(double *)place = number;
            return true;
        }
    }
    return sl_value_refused(option, text, _("write a share between nothing and all, such as 50% or 0.5"),
                            error);
}

bool sl_option_seconds(const sl_option *option, const char *text, void *place, sl_error *error)
{
    char wanted[SL_ERROR_TEXT_SIZE];
    double minutes = 0.0;
    if (sl_single_time_read(text, &minutes) && 60.0 * minutes >= option->least - 0.5 &&
        60.0 * minutes <= option->most + 0.5) {
        *(int *)place = (int)(60.0 * minutes + 0.5);
        return true;
    }
    snprintf(wanted, sizeof wanted, _("write a time from %.0f s to %.0f s with its unit, such as %.0fs"),
             option->least, option->most, fmin(fmax(45.0, option->least), option->most));
    return sl_value_refused(option, text, wanted, error);
}

bool sl_option_times(const sl_option *option, const char *text, void *place, sl_error *error)
{
    return sl_times_read(place, option, text, error);
}

/* ---- rows that many commands have ---------------------------------------------------------------------- */

/* --csv or --json: never both. */
static bool read_form(const sl_option *option, const char *text, void *place, sl_error *error)
{
    sl_result_wish *const wish = place;
    (void)text;
    *(option == &sl_form_options[0] ? &wish->csv : &wish->json) = true;
    return !(wish->csv && wish->json) ||
           sl_fail(error, SL_ERR_USAGE, "--csv and --json together", "ask for one of them");
}

const sl_option sl_form_options[2] = {
    SL_OPTION_ALONE(read_form, .name = "csv", .help = N_("as CSV, with decimals, for a spreadsheet")),
    SL_OPTION_ALONE(read_form, .name = "json", .help = N_("as JSON, with decimals, for programs")),
};
const sl_option sl_output_options[1] = {SL_OPTION(
    sl_result_wish, output, sl_option_output, .name = "output", .letter = 'o', .value = N_("FILE"),
    .help = N_("write there instead of to the terminal: drawn where FILE ends in .pdf, .png or .svg, "
               "a page in .html, as CSV or JSON in .csv or .json, else as text; an old file is "
               "replaced whole"),
    .wants = SL_WANTS_NEW)};
const sl_option sl_data_options[1] = {
    SL_OPTION(sl_result_wish, output, sl_option_output, .name = "output", .letter = 'o', .value = N_("FILE"),
              .help = N_("write there instead of to the terminal, as JSON where FILE ends in .json; an old "
                         "file is replaced whole"),
              .wants = SL_WANTS_NEW)};
const sl_option sl_picture_options[1] = {SL_OPTION(
    sl_result_wish, picture, sl_option_output, .name = "picture", .value = N_("FILE"),
    .help = N_("draw it: FILE ends in .png, .svg or .pdf (so does -o FILE)"), .wants = SL_WANTS_NEW)};
const sl_option sl_models_options[1] = {SL_OPTION_ALONE(
    sl_option_text, .name = "models", .value = N_("FOLDER"),
    .help = N_("look here first for hair, dyes, mixes, chemistry and charts"), .wants = SL_WANTS_FOLDER)};
const sl_option sl_log_test_options[1] = {
    SL_OPTION_ALONE(sl_option_text, .name = "test", .value = N_("TEST"),
                    .help = N_("the beginning of a test's id; not needed where there is one"))};

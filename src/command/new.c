/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift new`: sixteen questions, and the files of a test of one's own.
 */
#include <string.h>
#include <unistd.h>

#include "ask/ask.h"
#include "base/language.h"
#include "base/memory.h"
#include "base/plain_text.h"
#include "command/command.h"
#include "command/teach/teach.h"
#include "front/places.h"
#include "front/tell.h"
#include "front/work/new_files.h"
#include "slowlift/report.h"

typedef struct sl_new_call {
    const char *answers, *output, *models;
} sl_new_call;

static const sl_option options[] = {
    SL_OPTION(sl_new_call, answers, sl_option_text, .name = "answers", .value = N_("FILE"),
              .help =
                  N_("take the answers from a file, one line \"key: answer\" for each question that is not "
                     "answered as usual"),
              .wants = SL_WANTS_FILE),
    SL_OPTION(sl_new_call, output, sl_option_output, .name = "output", .letter = 'o', .value = N_("FILE"),
              .help = N_("the scene that is written, in place of the last question"), .wants = SL_WANTS_NEW),
};
const sl_command_line sl_new_typed = {
    .name = "new",
    .line = N_("a test of your own, out of sixteen questions"),
    .usage = {N_("[OPTIONS]")},
    .about =
        N_("Asks sixteen questions and writes the scene of a test, with its hair, mixes and dyes in folders "
           "beside it. Enter takes what is usual, ? explains, b goes back, q leaves nothing behind. A number "
           "that nobody gave is marked \"# assumed\". Nothing is written over a file."),
    .set = {SL_OPTION_SET_OWN(options), SL_MODELS_SET(sl_new_call, models)},
    .example = {{N_("a test from a file of answers."),
                 {"slowlift new --answers answers.yaml -o my-test.yaml", "slowlift answer my-test.yaml"}},
                {N_("the same questions on one page in the window."), {"slowlift watch --new"}}},
};

/* ---- on a terminal -------------------------------------------------------------------------------- */

typedef enum sl_ask_outcome { SAID_ANSWER, SAID_BACK, SAID_QUIT, SAID_NOTHING } sl_ask_outcome;

static void put_refusal(const sl_error *error)
{
    char sentence[SL_ERROR_FILE_SIZE + 3 * SL_ERROR_TEXT_SIZE];
    sl_error_sentence(error, sentence, sizeof sentence);
    fprintf(stderr, "   %s\n", sentence);
}

/* One question until it is answered. */
static sl_ask_outcome ask_one(sl_topic row, sl_new_test *asked)
{
    char line[SL_ASK_TEXT], shown[SL_ASK_TEXT], room[SL_ASK_TEXT];
    const sl_ask_words *const words = &sl_ask_rows[row].words;
    fprintf(stderr, _("%d of %d. %s\n"), (int)row + 1, (int)SL_TOPICS, _(sl_ask_rows[row].ask));
    for (int i = 0; words->means != NULL && i < words->n; i++) {
        fprintf(stderr, "   %s  %s\n", _(words->word[i]), _(words->means[i]));
    }
    for (;;) {
        sl_error error = {.code = SL_OK};
        const char *const usual = sl_ask_usual(row, asked, room);
        fprintf(stderr, "   [%s] ", usual);
        const bool more = sl_line_read(line, sizeof line);
        if (!more || !isatty(STDIN_FILENO)) { /* a terminal has shown it already */
            sl_text_show(line, more ? strlen(line) : 0, SL_TEXT_LINE, shown, sizeof shown);
            fprintf(stderr, "%s\n", shown);
        }
        if (!more) {
            return SAID_NOTHING;
        }
        if (strcmp(line, "q") == 0) {
            return SAID_QUIT;
        }
        if (strcmp(line, "b") == 0) {
            return SAID_BACK;
        }
        const char *const text = line[0] != '\0' ? line : usual;
        if (strcmp(line, "?") == 0) {
            fprintf(stderr, "%s\n", _(sl_ask_rows[row].explain));
        } else if (text[0] == '\0') {
            fprintf(stderr, "   %s\n", _("Nothing is usual here: type an answer."));
        } else if (sl_ask_typed(row, text, line[0] != '\0', asked, &error)) {
            return SAID_ANSWER;
        } else {
            put_refusal(&error);
        }
    }
}

/* From a question on, to the last. */
static sl_ask_outcome ask_from(int row, sl_new_test *asked, bool named)
{
    const int n = named ? SL_TOPIC_FILE : SL_TOPICS;
    while (row < n) {
        const sl_ask_outcome said = ask_one((sl_topic)row, asked);
        if (said == SAID_BACK) {
            row = row > 0 ? row - 1 : 0;
        } else if (said == SAID_ANSWER) {
            row++;
        } else {
            return said;
        }
    }
    return SAID_ANSWER;
}

/* Hair that cannot be is asked for again; what else went wrong is told by the caller. */
static sl_ask_outcome ask_all(sl_made *made, const sl_resolver *models, bool named, sl_error *error)
{
    int row = 0;
    fprintf(stderr, "%s\n",
            _("Enter takes what stands in brackets; ? explains, b goes back, q leaves nothing behind."));
    for (;;) {
        const sl_ask_outcome said = ask_from(row, &made->asked, named);
        sl_error_clear(error);
        if (said != SAID_ANSWER || sl_ask_make(made, models, error) || !sl_ask_hair_cannot_be(error)) {
            return said;
        }
        put_refusal(error);
        row = SL_TOPIC_HAIR;
    }
}

/* ---- the command ------------------------------------------------------------------------------------ */

static bool make(const sl_new_call *asked, sl_made *made, bool *left, sl_error *error)
{
    sl_places places;
    if (!sl_places_find(&places, asked->models, NULL, error) ||
        (asked->output && !sl_ask_typed(SL_TOPIC_FILE, asked->output, true, &made->asked, error))) {
        return false;
    }
    sl_folders folders = {.folders = places.folders, .n_folders = places.n_folders};
    const sl_resolver models = sl_resolver_of_folders(&folders);
    if (asked->answers) {
        return sl_ask_file(asked->answers, asked->output, &made->asked, error) &&
               sl_ask_make(made, &models, error);
    }
    const sl_ask_outcome said = ask_all(made, &models, asked->output != NULL, error);
    *left = said == SAID_QUIT;
    if (said == SAID_NOTHING) {
        return sl_fail(error, SL_ERR_USAGE, "the answers ended before the last question",
                       "nothing was written; type q to leave, or give --answers FILE");
    }
    return !*left && error->code == SL_OK;
}

sl_exit sl_command_new(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_new_call asked = {.answers = NULL};
    bool left = false;
    sl_exit code = SL_EXIT_OK;
    sl_made *const made = sl_new(1, sizeof *made, "making a test", &error);
    const bool good = made && sl_options_read(&sl_new_typed, argc, argv, &asked, &error) &&
                      make(&asked, made, &left, &error) && sl_new_files_write(made, &error);
    if (left) {
        fprintf(stderr, "%s\n", _("Nothing was written."));
    } else {
        const sl_result_wish wish = {.output = NULL};
        code = sl_tell(good, &error, &(sl_teller){.say = sl_made_say}, made, &wish);
    }
    if (made) {
        sl_made_free(made);
        sl_free(made);
    }
    return code;
}

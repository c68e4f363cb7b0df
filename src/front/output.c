/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the end of the name that -o has asks for: one rule for every command.
 */
#include <stdio.h>
#include <string.h>
#include <strings.h>

#include "base/language.h"
#include "front/option.h"

static bool ends_in(const char *name, const char *end)
{
    const size_t length = strlen(name), tail = strlen(end);
    return length > tail && strcasecmp(name + length - tail, end) == 0;
}

bool sl_names_picture(const char *path)
{
    return ends_in(path, ".png") || ends_in(path, ".svg") || ends_in(path, ".pdf");
}

bool sl_names_page(const char *path)
{
    return ends_in(path, ".html");
}

static bool has_option(const sl_command_line *line, const char *name)
{
    const sl_option *row = NULL;
    for (int i = 0; (row = sl_option_row(line, i, NULL)) != NULL; i++) {
        if (strcmp(row->name, name) == 0) {
            return true;
        }
    }
    return false;
}

static bool refuse_end(const sl_command_line *line, const sl_result_wish *wish, bool drawn, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE], wanted[SL_ERROR_TEXT_SIZE], ends[64];
    snprintf(ends, sizeof ends, "%s%s%s", drawn ? " .pdf .png .svg .html" : "",
             has_option(line, "csv") ? " .csv" : "", has_option(line, "json") ? " .json" : "");
    snprintf(found, sizeof found, _("%s writes nothing of the kind that \"%.120s\" asks for"), line->name,
             wish->output);
    snprintf(wanted, sizeof wanted, _("end the name in one of these:%s"), ends);
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

/* A drawing or a page, and a form for machines, in one file. */
static bool refuse_both(const sl_result_wish *wish, const char *file, sl_error *error)
{
    const char *const form = wish->csv ? "csv" : "json";
    char found[SL_ERROR_TEXT_SIZE], wanted[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("--%s into \"%.120s\""), form, file);
    snprintf(wanted, sizeof wanted, _("end the name in .%s, or leave out --%s"), form, form);
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

/* A picture is drawn alone. */
static bool settle_picture(sl_result_wish *wish, sl_error *error)
{
    if (wish->output && !wish->picture && sl_names_picture(wish->output)) {
        wish->picture = wish->output;
        wish->output = NULL;
    }
    if (wish->picture && !sl_names_picture(wish->picture)) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("\"%.120s\" names no kind of picture"), wish->picture);
        return sl_fail(error, SL_ERR_USAGE, found, "end the name in .png, .svg or .pdf");
    }
    return !wish->picture || !(wish->csv || wish->json || wish->output) ||
           sl_fail(error, SL_ERR_USAGE, "a picture and another form together", "ask for one of them");
}

/* drawn: the command tells a document. */
static bool settle_output(const sl_command_line *line, sl_result_wish *wish, bool drawn, sl_error *error)
{
    const char *const output = wish->output ? wish->output : "";
    const bool csv = ends_in(output, ".csv"), json = ends_in(output, ".json");
    const bool told = sl_names_picture(output) || sl_names_page(output);
    if ((csv && !has_option(line, "csv")) || (json && !has_option(line, "json")) || (told && !drawn)) {
        return refuse_end(line, wish, drawn, error);
    }
    if ((wish->csv && (told || json)) || (wish->json && (told || csv))) {
        return refuse_both(wish, output, error);
    }
    wish->csv = wish->csv || csv;
    wish->json = wish->json || json;
    return settle_picture(wish, error);
}

const sl_option_set *sl_output_set(const sl_command_line *line)
{
    for (int s = 0; s < SL_MOST_SETS && line->set[s].n > 0; s++) {
        if (line->set[s].row == sl_output_options || line->set[s].row == sl_data_options) {
            return &line->set[s];
        }
    }
    return NULL;
}

bool sl_output_settle(const sl_command_line *line, void *asked, sl_error *error)
{
    const sl_option_set *const set = sl_output_set(line);
    return !set || settle_output(line, (sl_result_wish *)((char *)asked + set->within),
                                 set->row == sl_output_options, error);
}

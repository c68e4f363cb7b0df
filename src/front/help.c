/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See help.h.
 */
#include "front/help.h"

#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "document/text.h"

enum { WIDTH = 90, WIDEST_NAME = 20 };

void sl_option_words(const sl_option *option, char words[SL_OPTION_WORDS])
{
    char letter[8] = "";
    if (option->letter != 0) {
        snprintf(letter, sizeof letter, "-%c, ", option->letter);
    }
    const char *const before = option->usual ? "[=" : option->value ? " " : "";
    snprintf(words, SL_OPTION_WORDS, "%s--%s%s%s%s", letter, option->name, before,
             option->value ? _(option->value) : "", option->usual ? "]" : "");
}

void sl_options_tell(FILE *out, const sl_command_line *line, sl_option_tell *tell)
{
    for (int s = 0; s < SL_MOST_SETS && line->set[s].n > 0; s++) {
        for (int i = 0; i < line->set[s].n; i++) {
            if (line->set[s].row[i].help) {
                tell(out, line, &line->set[s].row[i]);
            }
        }
    }
}

/* The name stands to the left of what it does, or above it where it is long. */
static void put_option(FILE *out, const sl_command_line *line, const sl_option *option)
{
    char words[SL_OPTION_WORDS], lead[SL_OPTION_WORDS + WIDEST_NAME];
    (void)line;
    sl_option_words(option, words);
    const int width = sl_text_width(words);
    if (width > WIDEST_NAME) {
        fprintf(out, "  %s\n", words);
        words[0] = '\0';
    }
    snprintf(lead, sizeof lead, "  %s%*s  ", words, WIDEST_NAME - sl_text_width(words), "");
    sl_put_paragraph(out, lead, _(option->help), WIDTH);
}

static void put_about(FILE *out, const char *about)
{
    while (about[0] != '\0') {
        char paragraph[1200];
        const char *const end = strstr(about, "\n\n");
        const size_t length = end ? (size_t)(end - about) : strlen(about);
        snprintf(paragraph, sizeof paragraph, "%.*s", (int)length, about);
        fputc('\n', out);
        sl_put_paragraph(out, "", paragraph, WIDTH);
        about += length + (end ? 2 : 0);
    }
}

static void put_examples(FILE *out, const sl_command_line *line)
{
    for (int e = 0; e < SL_MOST_EXAMPLES && line->example[e].typed[0]; e++) {
        if (e == 0) {
            fputc('\n', out);
        }
        char words[600];
        snprintf(words, sizeof words, _("Example: %s"), _(line->example[e].words));
        sl_put_paragraph(out, "", words, WIDTH);
        for (int i = 0; i < SL_MOST_TYPED && line->example[e].typed[i]; i++) {
            fprintf(out, "  %s\n", line->example[e].typed[i]);
        }
    }
}

void sl_help_put(FILE *out, const sl_command_line *line)
{
    for (int u = 0; u < SL_MOST_USAGES && line->usage[u]; u++) {
        const char *const form = _(line->usage[u]);
        fprintf(out, u == 0 ? _("Usage: slowlift %s%s%s\n") : "       slowlift %s%s%s\n", line->name,
                form[0] != '\0' ? " " : "", form);
    }
    put_about(out, _(line->about));
    if (line->set[0].n > 0) {
        fputc('\n', out);
        sl_options_tell(out, line, put_option);
    }
    if (line->keys) {
        fprintf(out, "\n%s", _(line->keys));
    }
    put_examples(out, line);
}

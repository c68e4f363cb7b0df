/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See help.h.
 */
#include "front/help.h"

#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "document/text.h"

enum { WIDTH = 90, WIDEST_NAME = 20, WORDS = 200, PARAGRAPH = 1200 };

static void tell_usages(FILE *out, const sl_command_line *line, sl_help_pen *pen)
{
    for (int u = 0; u < SL_MOST_USAGES && line->usage[u]; u++) {
        char words[WORDS];
        const char *const form = _(line->usage[u]);
        snprintf(words, sizeof words, "slowlift %s%s%s", line->name, form[0] != '\0' ? " " : "", form);
        pen(out, SL_HELP_USAGE, u == 0, words, NULL);
    }
}

static void tell_paragraphs(FILE *out, const char *about, sl_help_pen *pen)
{
    for (const char *at = about; *at != '\0';) {
        char paragraph[PARAGRAPH];
        const char *const end = strstr(at, "\n\n");
        const size_t length = end ? (size_t)(end - at) : strlen(at);
        snprintf(paragraph, sizeof paragraph, "%.*s", (int)length, at);
        pen(out, SL_HELP_PARAGRAPH, at == about, paragraph, NULL);
        at += length + (end ? 2 : 0);
    }
}

static void tell_options(FILE *out, const sl_command_line *line, sl_help_pen *pen)
{
    const sl_option *option = NULL;
    bool first = true;
    for (int i = 0; (option = sl_option_row(line, i, NULL)) != NULL; i++) {
        char words[WORDS], letter[8] = "";
        if (!option->help) {
            continue;
        }
        if (option->letter != 0) {
            snprintf(letter, sizeof letter, "-%c, ", option->letter);
        }
        const char *const before = option->usual ? "[=" : option->value ? " " : "";
        snprintf(words, sizeof words, "%s--%s%s%s%s", letter, option->name, before,
                 option->value ? _(option->value) : "", option->usual ? "]" : "");
        pen(out, SL_HELP_OPTION, first, words, _(option->help));
        first = false;
    }
}

static void tell_examples(FILE *out, const sl_command_line *line, sl_help_pen *pen)
{
    for (int e = 0; e < SL_MOST_EXAMPLES && line->example[e].typed[0]; e++) {
        char words[PARAGRAPH];
        snprintf(words, sizeof words, _("Example: %s"), _(line->example[e].words));
        pen(out, SL_HELP_EXAMPLE, e == 0, words, NULL);
        for (int i = 0; i < SL_MOST_TYPED && line->example[e].typed[i]; i++) {
            pen(out, SL_HELP_TYPED, i == 0, line->example[e].typed[i], NULL);
        }
    }
}

void sl_help_tell(FILE *out, const sl_command_line *line, sl_help_pen *pen)
{
    tell_usages(out, line, pen);
    tell_paragraphs(out, _(line->about), pen);
    tell_options(out, line, pen);
    const char *key = NULL, *does = NULL;
    for (int i = 0; line->key && line->key(i, &key, &does); i++) {
        pen(out, SL_HELP_OPTION, i == 0, key, does);
    }
    tell_examples(out, line, pen);
}

/* ---- on a terminal ----------------------------------------------------------------------------------- */

/* The name stands to the left of what it does, or above it where it is long. */
static void put_option(FILE *out, const char *words, const char *help)
{
    char lead[WORDS + WIDEST_NAME];
    const int width = sl_text_width(words);
    const bool above = width > WIDEST_NAME;
    if (above) {
        fprintf(out, "  %s\n", words);
    }
    snprintf(lead, sizeof lead, "  %s%*s  ", above ? "" : words, WIDEST_NAME - (above ? 0 : width), "");
    sl_put_paragraph(out, lead, help, WIDTH);
}

static void put_part(FILE *out, sl_help_part part, bool first, const char *words, const char *more)
{
    const bool apart =
        part == SL_HELP_PARAGRAPH || (first && (part == SL_HELP_OPTION || part == SL_HELP_EXAMPLE));
    fputs(apart ? "\n" : "", out);
    switch (part) {
    case SL_HELP_USAGE:
        fprintf(out, first ? _("Usage: %s\n") : "       %s\n", words);
        return;
    case SL_HELP_PARAGRAPH:
    case SL_HELP_EXAMPLE:
        sl_put_paragraph(out, "", words, WIDTH);
        return;
    case SL_HELP_OPTION:
        put_option(out, words, more);
        return;
    case SL_HELP_TYPED:
        fprintf(out, "  %s\n", words);
        return;
    }
}

void sl_help_put(FILE *out, const sl_command_line *line)
{
    sl_help_tell(out, line, put_part);
}

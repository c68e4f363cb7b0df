/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The rows as a page for man: man(7) macros, which every roff reads. Invariant: no text of ours begins a line
 * with a dot or an apostrophe, or holds a backslash that roff would read.
 */
#include <string.h>

#include "base/language.h"
#include "front/help.h"

/* A text of people: hyphens that may be copied, backslashes as they are, no request at the head of a line. */
static void put_text(FILE *out, const char *text)
{
    bool first = true;
    for (const char *at = text; *at != '\0'; at++) {
        if (first && (*at == '.' || *at == '\'')) {
            fputs("\\&", out);
        }
        first = *at == '\n';
        fputs(*at == '-' ? "\\-" : *at == '\\' ? "\\e" : (char[]){*at, '\0'}, out);
    }
}

static void put_option(FILE *out, const sl_command_line *line, const sl_option *option)
{
    char words[SL_OPTION_WORDS];
    (void)line;
    sl_option_words(option, words);
    fputs(".TP\n.B ", out);
    put_text(out, words);
    fputc('\n', out);
    put_text(out, _(option->help));
    fputc('\n', out);
}

static void put_about(FILE *out, const char *about)
{
    while (about[0] != '\0') {
        char paragraph[1200];
        const char *const end = strstr(about, "\n\n");
        const size_t length = end ? (size_t)(end - about) : strlen(about);
        snprintf(paragraph, sizeof paragraph, "%.*s", (int)length, about);
        fputs(".PP\n", out);
        put_text(out, paragraph);
        fputc('\n', out);
        about += length + (end ? 2 : 0);
    }
}

static void put_as_it_stands(FILE *out, const char *text)
{
    fputs(".PP\n.nf\n", out);
    put_text(out, text);
    fputs(text[strlen(text) - 1] == '\n' ? ".fi\n" : "\n.fi\n", out);
}

static void put_command(FILE *out, const sl_command_line *line)
{
    fprintf(out, ".SS slowlift %s\n", line->name);
    for (int u = 0; u < SL_MOST_USAGES && line->usage[u]; u++) {
        char usage[200];
        const char *const form = _(line->usage[u]);
        snprintf(usage, sizeof usage, "slowlift %s%s%s", line->name, form[0] != '\0' ? " " : "", form);
        fputs(u == 0 ? ".B " : ".br\n.B ", out);
        put_text(out, usage);
        fputc('\n', out);
    }
    put_about(out, _(line->about));
    sl_options_tell(out, line, put_option);
    if (line->keys) {
        put_as_it_stands(out, _(line->keys));
    }
    for (int e = 0; e < SL_MOST_EXAMPLES && line->example[e].typed[0]; e++) {
        char words[600];
        snprintf(words, sizeof words, _("Example: %s"), _(line->example[e].words));
        put_about(out, words);
        for (int i = 0; i < SL_MOST_TYPED && line->example[e].typed[i]; i++) {
            put_as_it_stands(out, line->example[e].typed[i]);
        }
    }
}

void sl_manual_put(FILE *out, const sl_command_lines *lines, const char *about)
{
    fputs(".TH SLOWLIFT 1 \"\"\n.SH NAME\nslowlift \\- ", out);
    put_text(out, _("plan, predict and show how hair colour is taken out slowly, for teaching"));
    fputs("\n.SH SYNOPSIS\n.B slowlift\nCOMMAND [OPTIONS] [FILE]\n.SH ", out);
    fputs(_("COMMANDS"), out);
    fputc('\n', out);
    for (int i = 0; i < lines->n; i++) {
        put_command(out, lines->line[i]);
    }
    fprintf(out, ".SH %s\n", _("FILES, LANGUAGES AND EXIT CODES"));
    put_as_it_stands(out, about);
}

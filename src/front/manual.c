/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The rows as a page for man: man(7) macros, which every roff reads. Invariant: no text of ours begins a line
 * with a dot or an apostrophe, or holds a backslash or a quotation mark that roff would read.
 */
#include <string.h>

#include "base/language.h"
#include "front/help.h"

/* A text of people: hyphens that may be copied, no request at the head of a line. Its last line is ended. */
static void put_text(FILE *out, const char *text)
{
    bool first = true;
    for (const char *at = text; *at != '\0'; at++) {
        if (first && (*at == '.' || *at == '\'')) {
            fputs("\\&", out);
        }
        first = *at == '\n';
        fputs(*at == '-' ? "\\-" : *at == '"' ? "\\(dq" : *at == '\\' ? "\\e" : (char[]){*at, '\0'}, out);
    }
    fputs(first ? "" : "\n", out);
}

static void put_part(FILE *out, sl_help_part part, bool first, const char *words, const char *more)
{
    switch (part) {
    case SL_HELP_USAGE:
        fputs(first ? ".B " : ".br\n.B ", out);
        put_text(out, words);
        return;
    case SL_HELP_PARAGRAPH:
    case SL_HELP_EXAMPLE:
        fputs(".PP\n", out);
        put_text(out, words);
        return;
    case SL_HELP_OPTION:
        fputs(".TP\n.B ", out);
        put_text(out, words);
        put_text(out, more);
        return;
    case SL_HELP_TYPED:
        fputs(".PP\n.nf\n", out);
        put_text(out, words);
        fputs(".fi\n", out);
        return;
    }
}

void sl_manual_put(FILE *out, const sl_command_lines *lines, const char *about)
{
    fputs(".TH SLOWLIFT 1 \"\"\n.SH NAME\nslowlift \\- ", out);
    put_text(out, _("plan, predict and show how hair colour is taken out slowly, for teaching"));
    fprintf(out, ".SH SYNOPSIS\n.B slowlift\nCOMMAND [OPTIONS] [FILE]\n.SH %s\n", _("COMMANDS"));
    for (int i = 0; i < lines->n; i++) {
        fprintf(out, ".SS slowlift %s\n", lines->line[i]->name);
        sl_help_tell(out, lines->line[i], put_part);
    }
    fprintf(out, ".SH %s\n", _("FILES, LANGUAGES AND EXIT CODES"));
    put_part(out, SL_HELP_TYPED, true, about, NULL);
}

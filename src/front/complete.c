/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Completion for shells, made from the rows. For each command a script holds its options, the words of those
 * that are one of a list, and what kind of file comes next; what the model folders hold is asked of
 * `slowlift list` while one types. Keys are never translated; what stands beside them is, in zsh and fish.
 */
#include <string.h>

#include "base/language.h"
#include "front/help.h"

typedef enum sl_shell { SL_SHELL_BASH, SL_SHELL_ZSH, SL_SHELL_FISH, SL_SHELLS } sl_shell;
static const char *const shell_words[SL_SHELLS] = {"bash", "zsh", "fish"};
const sl_word_list sl_shells = {N_("the shell"), shell_words, SL_SHELLS};

/* The names below a heading of `slowlift list`. */
static const char names_listed[] = "slowlift list 2>/dev/null | awk -v kind=%s '/^[a-z]/ { inside = $1 == "
                                   "kind } /^$/ { inside = 0 } /^ / && inside { print $1 }'";

/* Of the files that come next; NULL: any. */
static const char *listed_kind(sl_wants wants)
{
    return wants == SL_WANTS_SCENE ? "scenes" : wants == SL_WANTS_LESSON ? "lessons" : NULL;
}

/* `text` between single quotes of any of the three. */
static void put_quoted(FILE *out, const char *text, sl_shell shell)
{
    fputc('\'', out);
    for (const char *at = text; *at != '\0'; at++) {
        if (*at == '\'') {
            fputs(shell == SL_SHELL_FISH ? "\\'" : "'\\''", out);
        } else if (*at == '\\' && shell == SL_SHELL_FISH) {
            fputs("\\\\", out);
        } else {
            fputc(*at, out);
        }
    }
    fputc('\'', out);
}

static void put_words(FILE *out, const sl_word_list *choice)
{
    for (int i = 0; i < choice->n; i++) {
        fprintf(out, "%s%s", i > 0 ? " " : "", choice->word[i]);
    }
}

/* ---- bash ------------------------------------------------------------------------------------------ */

static void put_bash_name(FILE *out, const sl_command_line *line, const sl_option *option)
{
    (void)line;
    fprintf(out, " --%s", option->name);
    if (option->letter != 0) {
        fprintf(out, " -%c", option->letter);
    }
}

/* What may follow an option, where it is known. */
static void put_bash_value(FILE *out, const sl_command_line *line, const sl_option *option)
{
    if (!option->value || option->usual) {
        return;
    }
    fprintf(out, "        '%s --%s'", line->name, option->name);
    if (option->letter != 0) {
        fprintf(out, " | '%s -%c'", line->name, option->letter);
    }
    if (option->choice) {
        fputs(") _slowlift_words \"", out);
        put_words(out, option->choice);
        fputs("\"; return ;;\n", out);
    } else if (option->wants == SL_WANTS_FOLDER) {
        fputs(") _slowlift_folders; return ;;\n", out);
    } else if (option->wants == SL_WANTS_TEXT || option->wants == SL_WANTS_LINES) {
        fputs(") return ;;\n", out);
    } else {
        fprintf(out, ") _slowlift_files %s; return ;;\n",
                listed_kind(option->wants) ? listed_kind(option->wants) : "");
    }
}

static bool has_verbs(const sl_command_lines *lines, const char *name)
{
    const size_t length = strlen(name);
    for (int i = 0; i < lines->n; i++) {
        if (strncmp(lines->line[i]->name, name, length) == 0 && lines->line[i]->name[length] == ' ') {
            return true;
        }
    }
    return false;
}

/* First words, or (of "log") second ones. */
static void put_names(FILE *out, const sl_command_lines *lines, const char *of)
{
    const size_t length = strlen(of);
    for (int i = 0; i < lines->n; i++) {
        const char *const name = lines->line[i]->name, *const space = strchr(name, ' ');
        if (length == 0 && !space) {
            fprintf(out, " %s", name);
        } else if (length > 0 && space && strncmp(name, of, length) == 0 && name[length] == ' ') {
            fprintf(out, " %s", space + 1);
        }
    }
}

static void put_bash(FILE *out, const sl_command_lines *lines)
{
    fputs("# Completion of slowlift for bash, made by: slowlift completion bash\n"
          "_slowlift_words() { mapfile -t COMPREPLY < <(compgen -W \"$1\" -- \"$word\"); }\n"
          "_slowlift_folders() { mapfile -t COMPREPLY < <(compgen -d -- \"$word\"); }\n"
          "_slowlift_files() {\n"
          "    local listed=\"\"\n"
          "    [[ -n $1 ]] && listed=$(",
          out);
    fprintf(out, names_listed, "\"$1\"");
    fputs(")\n"
          "    mapfile -t COMPREPLY < <(compgen -W \"$listed\" -- \"$word\"; compgen -f -- \"$word\")\n"
          "}\n"
          "_slowlift() {\n"
          "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} "
          "command=${COMP_WORDS[1]}\n"
          "    COMPREPLY=()\n"
          "    [[ $before == --language ]] && { _slowlift_words \"en es\"; return; }\n"
          "    ((COMP_CWORD == 1)) && { _slowlift_words \"help --help --version --language",
          out);
    put_names(out, lines, "");
    fputs("\"; return; }\n", out);
    for (int i = 0; i < lines->n; i++) {
        if (has_verbs(lines, lines->line[i]->name)) {
            const char *const name = lines->line[i]->name;
            fprintf(out, "    [[ $command == %s ]] && ((COMP_CWORD == 2)) && { _slowlift_words \"--help",
                    name);
            put_names(out, lines, name);
            fprintf(out, "\"; return; }\n    [[ $command == %s ]] && command+=\" ${COMP_WORDS[2]}\"\n", name);
        }
    }
    fputs("    case \"$command $before\" in\n", out);
    for (int i = 0; i < lines->n; i++) {
        sl_options_tell(out, lines->line[i], put_bash_value);
    }
    fputs("    esac\n    case $command in\n", out);
    for (int i = 0; i < lines->n; i++) {
        const sl_command_line *const line = lines->line[i];
        fprintf(out, "        '%s')\n            [[ $word == -* ]] && { _slowlift_words \"--help",
                line->name);
        sl_options_tell(out, line, put_bash_name);
        fprintf(out, "\"; return; }\n            _slowlift_files %s ;;\n",
                listed_kind(line->wants[0]) ? listed_kind(line->wants[0]) : "");
    }
    fputs("    esac\n}\ncomplete -o filenames -F _slowlift slowlift\n", out);
}

/* ---- zsh ------------------------------------------------------------------------------------------- */

/* A description inside _arguments' brackets or _describe's list: no bracket, no colon. */
static void zsh_plain(const char *text, char plain[400])
{
    size_t used = 0;
    for (; *text != '\0' && used < 398; text++) {
        plain[used++] = *text == '[' ? '(' : *text == ']' ? ')' : *text == ':' ? ',' : *text;
    }
    plain[used] = '\0';
}

static void put_zsh_option(FILE *out, const sl_command_line *line, const sl_option *option)
{
    char spec[1200], help[400];
    (void)line;
    zsh_plain(_(option->help), help);
    int used = snprintf(spec, sizeof spec, "*--%s%s[%s]", option->name,
                        option->value && !option->usual ? "=" : "", help);
    if (option->value && !option->usual && used > 0) {
        used += snprintf(spec + used, sizeof spec - (size_t)used, ":%s:", option->name);
        if (option->choice) {
            used += snprintf(spec + used, sizeof spec - (size_t)used, "(");
            for (int i = 0; i < option->choice->n; i++) {
                used += snprintf(spec + used, sizeof spec - (size_t)used, "%s%s", i > 0 ? " " : "",
                                 option->choice->word[i]);
            }
            snprintf(spec + used, sizeof spec - (size_t)used, ")");
        } else if (option->wants == SL_WANTS_FOLDER) {
            snprintf(spec + used, sizeof spec - (size_t)used, "_files -/");
        } else if (option->wants != SL_WANTS_TEXT && option->wants != SL_WANTS_LINES) {
            snprintf(spec + used, sizeof spec - (size_t)used, "_files");
        }
    }
    fputs(" \\\n                ", out);
    put_quoted(out, spec, SL_SHELL_ZSH);
}

static void put_zsh_list(FILE *out, const sl_command_lines *lines, const char *of)
{
    const size_t length = strlen(of);
    for (int i = 0; i < lines->n; i++) {
        const char *const name = lines->line[i]->name, *const space = strchr(name, ' ');
        const bool there = length == 0 ? !space : space && strncmp(name, of, length) == 0;
        char what[400], entry[480];
        zsh_plain(_(lines->line[i]->line), what);
        snprintf(entry, sizeof entry, "%s:%s", space ? space + 1 : name, what);
        if (there) {
            fputs(" \\\n            ", out);
            put_quoted(out, entry, SL_SHELL_ZSH);
        }
    }
}

static void put_zsh(FILE *out, const sl_command_lines *lines)
{
    fputs("#compdef slowlift\n"
          "# Completion of slowlift for zsh, made by: slowlift completion zsh\n"
          "_slowlift_names() {\n"
          "    local -a names\n"
          "    names=(${(f)\"$(",
          out);
    fprintf(out, names_listed, "$1");
    fputs(")\"})\n    compadd -a names\n    _files\n}\n"
          "_slowlift() {\n"
          "    local command=$words[2]\n"
          "    local -a list\n"
          "    if ((CURRENT == 2)); then\n        list=(",
          out);
    put_zsh_list(out, lines, "");
    fputs(")\n        _describe command list\n        return\n    fi\n", out);
    for (int i = 0; i < lines->n; i++) {
        const char *const name = lines->line[i]->name;
        if (has_verbs(lines, name)) {
            fprintf(out,
                    "    if [[ $command == %s ]]; then\n        if ((CURRENT == 3)); then\n        list=(",
                    name);
            put_zsh_list(out, lines, name);
            fputs(")\n        _describe verb list\n        return\n        fi\n"
                  "        command+=\" $words[3]\"\n        shift words; ((CURRENT--))\n    fi\n",
                  out);
        }
    }
    fputs("    shift words; ((CURRENT--))\n    case $command in\n", out);
    for (int i = 0; i < lines->n; i++) {
        const sl_command_line *const line = lines->line[i];
        const char *const listed = listed_kind(line->wants[0]);
        fprintf(out, "        '%s')\n            _arguments '*--help'", line->name);
        sl_options_tell(out, line, put_zsh_option);
        fprintf(out, " \\\n                '*:%s:%s%s' ;;\n", listed ? listed : "file",
                listed ? "_slowlift_names " : "_files", listed ? listed : "");
    }
    fputs("    esac\n}\n_slowlift \"$@\"\n", out);
}

/* ---- fish ------------------------------------------------------------------------------------------ */

/* Where an option or a word belongs: to a command, or to a verb of one. */
static void put_fish_where(FILE *out, const char *name)
{
    const char *const space = strchr(name, ' ');
    if (space) {
        fprintf(out, "-n '__fish_seen_subcommand_from %.*s; and __fish_seen_subcommand_from %s'",
                (int)(space - name), name, space + 1);
    } else {
        fprintf(out, "-n '__fish_seen_subcommand_from %s'", name);
    }
}

static void put_fish_option(FILE *out, const sl_command_line *line, const sl_option *option)
{
    const bool file = option->wants != SL_WANTS_TEXT && option->wants != SL_WANTS_LINES;
    fputs("complete -c slowlift ", out);
    put_fish_where(out, line->name);
    fprintf(out, " -l %s", option->name);
    if (option->letter != 0) {
        fprintf(out, " -s %c", option->letter);
    }
    if (option->value && !option->usual) {
        fputs(file ? " -rF" : " -x", out);
    }
    if (option->choice) {
        fputs(" -a '", out);
        put_words(out, option->choice);
        fputc('\'', out);
    }
    fputs(" -d ", out);
    put_quoted(out, _(option->help), SL_SHELL_FISH);
    fputc('\n', out);
}

static void put_fish_command(FILE *out, const sl_command_line *line)
{
    const char *const space = strchr(line->name, ' ');
    fputs("complete -c slowlift -f ", out);
    if (space) {
        fprintf(out, "-n '__fish_seen_subcommand_from %.*s'", (int)(space - line->name), line->name);
    } else {
        fputs("-n __fish_use_subcommand", out);
    }
    fprintf(out, " -a %s -d ", space ? space + 1 : line->name);
    put_quoted(out, _(line->line), SL_SHELL_FISH);
    fputc('\n', out);
    const char *const listed = listed_kind(line->wants[0]);
    if (listed) {
        fputs("complete -c slowlift ", out);
        put_fish_where(out, line->name);
        fprintf(out, " -a '(__slowlift_names %s)'\n", listed);
    }
}

static void put_fish(FILE *out, const sl_command_lines *lines)
{
    fputs("# Completion of slowlift for fish, made by: slowlift completion fish\n"
          "function __slowlift_names\n    ",
          out);
    fprintf(out, names_listed, "$argv[1]");
    fputs("\nend\n", out);
    for (int i = 0; i < lines->n; i++) {
        put_fish_command(out, lines->line[i]);
        sl_options_tell(out, lines->line[i], put_fish_option);
    }
}

void sl_completion_put(FILE *out, const sl_command_lines *lines, int shell)
{
    static void (*const put[SL_SHELLS])(FILE *, const sl_command_lines *) = {put_bash, put_zsh, put_fish};
    put[shell](out, lines);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See seen.h.
 */
#include "front/work/seen_read.h"

#include <stdlib.h>
#include <string.h>

#include "base/append.h"
#include "base/calendar.h"
#include "base/code.h"
#include "base/language.h"
#include "front/option.h"
#include "scene/yaml/quantity.h"
#include "slowlift/model.h"

/* ---- what the cotton showed ---------------------------------------------------------------- */

static const char *after_spaces(const char *text)
{
    return text + strspn(text, " \t");
}

static bool refuse_minute(const char *text, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("\"%.60s\" does not begin with a minute"), text);
    return sl_fail(
        error, SL_ERR_USAGE, found,
        "write the minute since contact, the grade and perhaps a zone, such as \"10 about half violet\"");
}

/* The grade at the head of `text`; *rest is what follows. */
static bool read_wipe(const char *text, sl_wipe *wipe, const char **rest, sl_error *error)
{
    const char *names[SL_WIPES];
    for (int i = 0; i < SL_WIPES; i++) {
        const char *const word = sl_wipe_word((sl_wipe)i); /* as files have it, in every language */
        names[i] = _(word);
        const size_t length = strlen(strncmp(text, word, strlen(word)) == 0 ? word : names[i]);
        if ((strncmp(text, names[i], length) == 0 || strncmp(text, word, length) == 0) &&
            (text[length] == '\0' || text[length] == ' ')) {
            *wipe = (sl_wipe)i;
            *rest = after_spaces(text + length);
            return true;
        }
    }
    return sl_word_refused("the grade", text, names, SL_WIPES, error);
}

static bool read_zone(const char *text, const sl_scene *scene, int *zone, sl_error *error)
{
    const char *titles[SL_MAX_ZONES];
    int n = 0;
    *zone = text[0] == '\0' ? SL_OBSERVED_ALL_ZONES : sl_scene_zone_typed(scene, text);
    if (text[0] == '\0' || *zone >= 0) {
        return true;
    }
    for (int i = 0; i < scene->n_zones; i++) {
        if (scene->zones[i].recipe.n_dyes > 0) {
            titles[n++] = sl_zone_title(&scene->zones[i]);
        }
    }
    return sl_word_refused("the zone", text, titles, n, error);
}

bool sl_observation_read(const char *text, const sl_scene *scene, int arm, bool strand,
                         sl_observations *observations, sl_error *error)
{
    sl_observation observation = {.arm = arm, .strand = strand};
    sl_observations more = *observations;
    const char *rest = sl_decimal_read(after_spaces(text), &observation.minute);
    if (!rest) {
        return refuse_minute(text, error);
    }
    rest = after_spaces(rest);
    if (strncmp(rest, "min", 3) == 0 && (rest[3] == ' ' || rest[3] == '\0')) {
        rest = after_spaces(rest + 3);
    }
    if (observations->n >= SL_MOST_OBSERVATIONS) {
        return sl_fail(error, SL_ERR_USAGE, "too many things seen", "32 at most");
    }
    if (!read_wipe(rest, &observation.wipe, &rest, error) ||
        !read_zone(rest, scene, &observation.zone, error)) {
        return false;
    }
    more.observation[more.n++] = observation;
    if (!sl_observations_check(&more, scene, error)) {
        error->code = SL_ERR_USAGE; /* typed, not read from a file */
        return false;
    }
    *observations = more;
    return true;
}

/* ---- the form, question by question ---------------------------------------------------------- */

enum { LINE = 256 };

typedef struct sl_asking {
    FILE *in, *prompts;
    bool ended;
    int number; /* of the question */
} sl_asking;

/* One answer without the spaces around it; false at the end of the input. */
static bool read_line(sl_asking *asking, char line[LINE])
{
    line[0] = '\0';
    if (asking->ended || !fgets(line, LINE, asking->in)) {
        asking->ended = true;
        return false;
    }
    if (!strchr(line, '\n')) { /* longer than any answer is: the rest belongs to it too */
        for (int c = getc(asking->in); c != '\n' && c != EOF;) {
            c = getc(asking->in);
        }
    }
    size_t length = strcspn(line, "\r\n");
    while (length > 0 && line[length - 1] == ' ') {
        length--;
    }
    line[length] = '\0';
    memmove(line, after_spaces(line), strlen(after_spaces(line)) + 1);
    return true;
}

/* Asks until `line` is empty (false) or something to be read (true). */
static bool ask(sl_asking *asking, const char *words, const char *how, char line[LINE])
{
    if (asking->ended) {
        return false;
    }
    fprintf(asking->prompts, _("%d of %d: %s? %s\n> "), asking->number, SL_INTAKE_ASKED, words, how);
    fflush(asking->prompts);
    return read_line(asking, line) && line[0] != '\0';
}

static void say(sl_asking *asking, const char *what)
{
    fprintf(asking->prompts, _("That is not understood: %s.\n"), what);
}

static void ask_reply(sl_asking *asking, int asked, sl_reply *reply)
{
    static const struct {
        const char *word;
        sl_reply reply;
    } replies[] = {{"yes", SL_REPLY_YES}, {"no", SL_REPLY_NO}, {"unsure", SL_REPLY_UNSURE}};
    char line[LINE];
    while (
        ask(asking, _(sl_intake_words(asked)), _("yes, no or unsure; empty when it was not asked"), line)) {
        for (size_t i = 0; i < sizeof replies / sizeof replies[0]; i++) {
            if (strcmp(line, replies[i].word) == 0) {
                *reply = replies[i].reply;
                return;
            }
        }
        say(asking, _("write yes, no or unsure"));
    }
}

static void ask_number(sl_asking *asking, int asked, const char *how, double most, double *number)
{
    char line[LINE];
    while (ask(asking, _(sl_intake_words(asked)), how, line)) {
        double value = 0.0;
        const char *const rest = sl_decimal_read(line, &value);
        const char *const unit = rest ? after_spaces(rest) : "?";
        const bool whole = value <= most && value >= 1.0 && value - (double)(int)value <= 0.0;
        if (whole && (unit[0] == '\0' || strcmp(unit, "min") == 0)) {
            *number = value;
            return;
        }
        char what[LINE];
        snprintf(what, sizeof what, _("write a whole number from %.0f to %.0f"), 1.0, most);
        say(asking, what);
    }
}

static void ask_code(sl_asking *asking, int asked, char code[SL_CODE])
{
    char line[LINE];
    while (ask(asking, _(sl_intake_words(asked)), _("a code, never a name"), line)) {
        sl_error error = {.code = SL_OK};
        if (sl_code_check(N_("this code"), line, &error)) {
            memcpy(code, line, strlen(line) + 1); /* shorter than SL_CODE, or it were no code */
            return;
        }
        say(asking, _(error.wanted));
    }
}

static void ask_part(sl_asking *asking, int asked, sl_hair_part *part)
{
    char line[LINE], words[96] = "";
    for (int i = 1; i < SL_HAIR_PARTS; i++) {
        sl_append_item(words, sizeof words, ", ", "%s", sl_hair_part_word((sl_hair_part)i));
    }
    while (ask(asking, _(sl_intake_words(asked)), words, line)) {
        *part = sl_hair_part_of_word(line);
        if (*part != SL_HAIR_NOWHERE) {
            return;
        }
        say(asking, _("write one of these words"));
    }
}

static void ask_day(sl_asking *asking, int asked, int *day)
{
    char line[LINE];
    while (ask(asking, _(sl_intake_words(asked)), _("the day, such as 2026-11-25"), line)) {
        if (sl_day_read(line, day)) {
            return;
        }
        say(asking, _("write the day, such as 2026-11-25"));
    }
}

static void ask_showed(sl_asking *asking, const sl_scene *scene, int arm, sl_observations *showed)
{
    char line[LINE], words[LINE];
    snprintf(words, sizeof words, _("%s (with \"%.80s\")"), _(sl_intake_words(SL_INTAKE_SHOWED)),
             sl_arm_title(&scene->arms[arm]));
    while (
        ask(asking, words, _("minute and grade, such as 10 about half; empty when there is no more"), line)) {
        sl_error error = {.code = SL_OK};
        if (!sl_observation_read(line, scene, arm, true, showed, &error)) {
            char what[2 * SL_ERROR_TEXT_SIZE + 4];
            snprintf(what, sizeof what, "%s; %s", error.found, error.wanted);
            say(asking, what);
        }
    }
}

static void ask_of_kind(sl_asking *asking, int asked, const sl_scene *scene, int arm, sl_intake *intake)
{
    double age = 0.0;
    switch (sl_intake_ask_of(asked)) {
    case SL_ASK_REPLY:
        ask_reply(asking, asked, &intake->reply[asked]);
        break;
    case SL_ASK_EITHER:
        ask_reply(asking, asked, &intake->lightened);
        break;
    case SL_ASK_YEARS:
        ask_number(asking, asked, _("in whole years"), 120.0, &age);
        intake->age_years = (int)age;
        break;
    case SL_ASK_MINUTES:
        ask_number(asking, asked, _("in whole minutes"), SL_LABEL_MOST_MIN, &intake->label_min);
        break;
    case SL_ASK_CODE:
        ask_code(asking, asked, asked == SL_INTAKE_PERSON ? intake->person : intake->qualified);
        break;
    case SL_ASK_PART:
        ask_part(asking, asked, &intake->part);
        break;
    case SL_ASK_DAY:
        ask_day(asking, asked, &intake->packet_day);
        break;
    case SL_ASK_SHOWED:
        ask_showed(asking, scene, arm, &intake->showed);
        break;
    }
}

void sl_intake_ask(FILE *in, FILE *prompts, const sl_scene *scene, int arm, sl_intake *intake)
{
    sl_asking asking = {.in = in, .prompts = prompts};
    *intake = (sl_intake){0};
    fprintf(prompts, _("A form about the person. No name is asked for and nothing is kept.\n"));
    for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
        asking.number = asked + 1;
        ask_of_kind(&asking, asked, scene, arm, intake);
    }
    fputc('\n', prompts);
}

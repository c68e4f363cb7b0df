/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sixteen questions: each row with what is usual, two lines that explain it, and how its answer is read.
 * An answer is short words and numbers with their units; words may be typed in English or in the language in
 * use.
 */
#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

#include "ask/parts.h"
#include "base/code.h"
#include "base/language.h"
#include "scene/yaml/file.h"
#include "scene/yaml/value.h"

#define MIXES(ROW)                                                                                           \
    ROW(N_("water"), "powder-water", N_("powder + water"), "water", 1)                                       \
    ROW("3", "powder-3", N_("powder + 3 %"), "developer", 2)                                                 \
    ROW("6", "powder-6", N_("powder + 6 %"), "developer", 3)                                                 \
    ROW(N_("old"), "powder-water-old", N_("old powder + water"), "water", 0)                                 \
    ROW(N_("lightener"), "lightener-6", N_("lightener + 6 %"), "developer", 4)
#define WHOLE(word, file, arm, liquid, works) {word, file, arm, liquid, works},
#define WORD(word, ...) word,
#define ARM(word, file, arm, ...) arm,
const sl_ask_mix sl_ask_mixes[SL_ASK_MIXES] = {MIXES(WHOLE)};
static const char *const mix_words[SL_ASK_MIXES] = {MIXES(WORD)}, *const mix_arms[] = {MIXES(ARM)};
const char *const sl_ask_colours[SL_ASK_COLOURS + 1] = {
    N_("red"), N_("orange"), N_("yellow"), N_("green"), N_("blue"), N_("violet"), N_("pink"), N_("unknown")};
const char *const sl_ask_controls[SL_ASK_CONTROLS + 1] = {N_("untreated"), N_("washed"), N_("undyed"),
                                                          N_("none")};
static const char *const figures[] = {"1", "2", "3", "4", "5"};
static const char *const questions[] = {N_("Which mix takes which colour"), N_("When one colour is out"),
                                        N_("Whether powder with water does anything"),
                                        N_("Whether an old tub is weaker"),
                                        N_("Slower or faster, and which is gentler")};
static const char *const heads[] = {N_("cut swatches on a bench"), N_("a strand cut from one person"),
                                    N_("on a head")};
static const char *const roots[] = {N_("no"), N_("brown on 5")};
static const char *const shares[] = {N_("half")};
enum { NOT_STATED, ALLOWED, NEW, LONG_OPEN, N_PACKET };
static const char *const packet[N_PACKET] = {N_("not stated"), N_("allowed"), N_("new"),
                                             N_("opened long ago")};

const char *sl_asked_title(const sl_new_test *asked)
{
    return _(questions[asked->question - 1]);
}

static bool refuse(const sl_node *node, const char *part, const char *wanted, sl_error *error)
{
    sl_phrase found = {0};
    sl_phrase_quote(&found, part);
    return sl_node_refuse(node, SL_ERR_UNKNOWN_WORD, found.text, wanted, error);
}

static bool refuse_word(const sl_node *node, const char *part, const char *const *words, int n,
                        sl_error *error)
{
    const char *shown[SL_ANSWER_PARTS];
    const sl_words known = {shown, n};
    sl_phrase wanted = {0};
    for (int i = 0; i < n; i++) {
        shown[i] = _(words[i]);
    }
    sl_phrase_nearest(&wanted, &known, part);
    return refuse(node, part, wanted.text, error);
}

/* A number with its unit, which may be left out. */
static bool number_of(const sl_node *node, const char *part, const sl_range *range, const char *unit,
                      double *value, sl_error *error)
{
    char text[SL_ANSWER_PART + 8];
    const bool bare = part[strspn(part, "0123456789.")] == '\0';
    snprintf(text, sizeof text, "%s%s%s", part, bare ? " " : "", bare ? unit : "");
    sl_node piece = *node;
    piece.text = text;
    return sl_quantity_read(&piece, range, value, error);
}

static bool whole_of(const sl_node *node, const char *part, int least, int most, int *value, sl_error *error)
{
    sl_node piece = *node;
    piece.text = part;
    return sl_whole_read(&piece, least, most, value, error);
}

/* A code, which is never a name; it is kept as typed. */
static bool code_of(const sl_node *node, const char *what, const char *part, char code[SL_CODE],
                    sl_error *error)
{
    sl_error found = {.code = SL_OK};
    snprintf(code, SL_CODE, "%.*s", SL_CODE - 1, part);
    return sl_code_check(what, part, &found) ||
           sl_node_refuse(node, found.code, found.found, found.wanted, error);
}

/* A list of words, each at most once. */
static bool words_read(const sl_node *node, const char *const *words, int n_words, int *chosen, int *n,
                       sl_error *error)
{
    sl_answer_parts parts;
    if (!sl_answer_list(node, words, n_words, &parts, error)) {
        return false;
    }
    *n = 0;
    for (int i = 0; i < parts.n; i++) {
        const int word = sl_answer_word(parts.part[i], words, n_words);
        if (word < 0) {
            return refuse_word(node, parts.part[i], words, n_words, error);
        }
        for (int k = 0; k < *n; k++) {
            if (chosen[k] == word) {
                return refuse(node, parts.part[i], N_("name each once"), error);
            }
        }
        chosen[(*n)++] = word;
    }
    return *n > 0 || sl_node_refuse_text(node, SL_ERR_WRONG_TYPE, N_("name one at least"), error);
}

static const sl_range share_range = {SL_MEASURE_SHARE, 0.001, 99.9 / 100.0};
static const sl_range minutes_range = {SL_MEASURE_TIME, 1.0, 240.0};

/* ---- 1 to 5: what, whose, where, on which hair ------------------------------------------------------- */

static bool question_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    return sl_whole_read(node, 1, 5, &asked->question, error);
}

static bool whose_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    sl_answer_parts parts;
    asked->person[0] = '\0';
    if (!sl_answer_part(node, ", ", &parts, error) ||
        !whole_of(node, parts.n > 0 ? parts.part[0] : "", 1, 3, &asked->whose, error)) {
        return false;
    }
    if (parts.n == 1) {
        return true;
    }
    if (parts.n > 2 || asked->whose == 1) {
        return sl_node_refuse_text(node, SL_ERR_WRONG_TYPE, N_("such as 1, or 2 K12 with a code"), error);
    }
    return code_of(node, N_("this person's code"), parts.part[1], asked->person, error);
}

static bool room_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    static const sl_range range = {SL_MEASURE_TEMPERATURE, 5.0, 45.0};
    return number_of(node, node->text, &range, "°C", &asked->room_c, error);
}

/* "9 from 5", or "6" for natural hair. */
static bool hair_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    static const char wanted[] = N_("such as 9 from 5 for lightened hair, or 6 for natural hair");
    static const sl_range range = {SL_MEASURE_NUMBER, 1.0, SL_LEVEL_END};
    sl_answer_parts parts;
    int natural = 0;
    if (!sl_answer_part(node, ", ", &parts, error)) {
        return false;
    }
    const bool lightened = parts.n == 3 && sl_answer_is(parts.part[1], N_("from"));
    if (parts.n != 1 && !lightened) {
        return sl_node_refuse_text(node, SL_ERR_WRONG_TYPE, wanted, error);
    }
    if (!whole_of(node, parts.part[parts.n - 1], 1, SL_LEVELS, &natural, error) ||
        !number_of(node, parts.part[0], &range, "", &asked->level, error)) {
        return false;
    }
    asked->natural_level = natural;
    return asked->level >= natural ||
           sl_node_refuse_text(node, SL_ERR_INCONSISTENT, N_("hair is lightened from a darker level"), error);
}

/* "brown on 5", or "no". */
static bool root_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    sl_answer_parts parts;
    asked->root_level = 0;
    if (!sl_answer_part(node, ", ", &parts, error)) {
        return false;
    }
    if (parts.n == 1 && sl_answer_is(parts.part[0], roots[0])) {
        return true;
    }
    if (parts.n != 3 || !sl_answer_is(parts.part[0], N_("brown")) || !sl_answer_is(parts.part[1], N_("on"))) {
        return sl_node_refuse_text(node, SL_ERR_WRONG_TYPE,
                                   N_("such as brown on 5 (a level of natural hair), or no"), error);
    }
    return whole_of(node, parts.part[2], 1, SL_LEVELS, &asked->root_level, error);
}

/* ---- 6 to 8: colours ---------------------------------------------------------------------------------- */

static bool colours_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    return words_read(node, sl_ask_colours, SL_ASK_COLOURS, asked->colour, &asked->n_colours, error);
}

/* One for all colours, or one for each in their order. */
static bool as_many(const sl_node *node, const sl_answer_parts *parts, const sl_new_test *asked,
                    sl_error *error)
{
    return parts->n == 1 || parts->n == asked->n_colours ||
           sl_node_refuse_text(node, SL_ERR_INCONSISTENT,
                               N_("give one for all colours, or one for each, in their order"), error);
}

static bool strength_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    sl_answer_parts parts;
    if (!sl_answer_list(node, sl_strength_words, SL_STRENGTHS, &parts, error) ||
        !as_many(node, &parts, asked, error)) {
        return false;
    }
    for (int i = 0; i < asked->n_colours; i++) {
        const char *const part = parts.part[parts.n == 1 ? 0 : i];
        const int word = sl_answer_word(part, sl_strength_words, SL_STRENGTHS);
        if (word < 0) {
            return refuse_word(node, part, sl_strength_words, SL_STRENGTHS, error);
        }
        asked->strength[i] = (sl_strength)word;
    }
    return true;
}

bool sl_ask_offers(sl_topic row, int word, const sl_new_test *asked)
{
    bool there = row != SL_TOPIC_ORDER || word == SL_ASK_COLOURS;
    for (int i = 0; i < asked->n_colours; i++) {
        there = there || asked->colour[i] == word;
    }
    return there;
}

static bool order_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    int seen[SL_ASK_COLOURS] = {0}, n = 0;
    asked->first = asked->last = -1;
    if (sl_answer_is(node->text, sl_ask_colours[SL_ASK_COLOURS])) {
        return true;
    }
    if (!words_read(node, sl_ask_colours, SL_ASK_COLOURS, seen, &n, error)) {
        return false;
    }
    for (int i = 0; i < n; i++) {
        if (!sl_ask_offers(SL_TOPIC_ORDER, seen[i], asked)) {
            return refuse(node, _(sl_ask_colours[seen[i]]), N_("a colour of this test belongs here"), error);
        }
    }
    if (n != 2) {
        return sl_node_refuse_text(node, SL_ERR_WRONG_TYPE,
                                   N_("the first and the last, such as violet red, or unknown"), error);
    }
    asked->first = seen[0];
    asked->last = seen[1];
    return true;
}

/* ---- 9 to 12: mixes ------------------------------------------------------------------------------------ */

/* Those that the question is about. */
static const char *mixes_usual(const sl_new_test *asked, char text[SL_ASK_TEXT])
{
    static const char *const usual[] = {N_("water 3 6"), N_("water 3 6"), N_("water 3"), N_("water old"),
                                        N_("water 6")};
    (void)text;
    return usual[asked->question - 1];
}

static bool mixes_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    int chosen[SL_ASK_MIXES] = {0};
    if (!words_read(node, mix_words, SL_ASK_MIXES, chosen, &asked->n_bowls, error)) {
        return false;
    }
    for (int i = 0; i < asked->n_bowls; i++) {
        asked->bowl[i] = (sl_ask_bowl){.mix = chosen[i], .powder = 1.0, .liquid = 2.0};
    }
    return true;
}

static bool ratio_read(const sl_node *node, char *part, sl_ask_bowl *bowl, sl_error *error)
{
    static const sl_range range = {SL_MEASURE_NUMBER, 0.1, 100.0};
    char *const colon = strchr(part, ':');
    *colon = '\0';
    bowl->ratio_said = true;
    return number_of(node, part, &range, "", &bowl->powder, error) &&
           number_of(node, colon + 1, &range, "", &bowl->liquid, error);
}

/* One thing that is said of a bowl; each is known by its form. */
static bool bowl_part_read(const sl_node *node, char *part, sl_ask_bowl *bowl, sl_error *error)
{
    static const sl_range label = {SL_MEASURE_TIME, SL_LABEL_LEAST_MIN, SL_LABEL_MOST_MIN};
    const size_t code = strlen("code ");
    if (strchr(part, ':')) {
        return ratio_read(node, part, bowl, error);
    }
    if (isdigit((unsigned char)part[0])) {
        return number_of(node, part, &label, "min", &bowl->label_min, error);
    }
    if (strncasecmp(part, "code ", code) == 0) {
        return code_of(node, N_("the product's code"), part + code, bowl->code, error);
    }
    if (sl_answer_is(part, packet[ALLOWED])) {
        bowl->allowed = true;
        return true;
    }
    if (sl_answer_is(part, packet[LONG_OPEN])) {
        bowl->old = true;
        return true;
    }
    return sl_answer_is(part, N_("not read")) || sl_answer_is(part, packet[NOT_STATED]) ||
           sl_answer_is(part, packet[NEW]) ||
           refuse(node, part,
                  N_("such as 1:2, 30 min (or not read), allowed (or not stated), new (or opened long ago), "
                     "code K3"),
                  error);
}

/* For each mix in its order, parted by semicolons; one for all serves, too. */
static bool bowls_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    sl_answer_parts bowls;
    if (!sl_answer_part(node, ";", &bowls, error)) {
        return false;
    }
    if (bowls.n != 1 && bowls.n != asked->n_bowls) {
        return sl_node_refuse_text(node, SL_ERR_INCONSISTENT,
                                   N_("give one for all mixes, or one for each, parted by semicolons"),
                                   error);
    }
    for (int i = 0; i < asked->n_bowls; i++) {
        sl_node one = *node;
        sl_answer_parts parts;
        one.text = bowls.part[bowls.n == 1 ? 0 : i];
        asked->bowl[i] = (sl_ask_bowl){.mix = asked->bowl[i].mix, .powder = 1.0, .liquid = 2.0};
        if (!sl_answer_part(&one, ",", &parts, error)) {
            return false;
        }
        for (int k = 0; k < parts.n; k++) {
            if (!bowl_part_read(node, parts.part[k], &asked->bowl[i], error)) {
                return false;
            }
        }
    }
    return true;
}

static bool controls_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    int chosen[SL_ASK_CONTROLS] = {0}, n = 0;
    memset(asked->control, 0, sizeof asked->control);
    if (sl_answer_is(node->text, sl_ask_controls[SL_ASK_CONTROLS])) {
        return true;
    }
    if (!words_read(node, sl_ask_controls, SL_ASK_CONTROLS, chosen, &n, error)) {
        return false;
    }
    for (int i = 0; i < n; i++) {
        asked->control[chosen[i]] = true;
    }
    return true;
}

static double shortest_label(const sl_new_test *asked)
{
    double least = 0.0;
    for (int i = 0; i < asked->n_bowls; i++) {
        const double label = asked->bowl[i].label_min;
        least = label > 0.0 && (least == 0.0 || label < least) ? label : least;
    }
    return least;
}

/* Of a person's hair there is none without a label. */
static const char *time_usual(const sl_new_test *asked, char text[SL_ASK_TEXT])
{
    const double label = shortest_label(asked);
    if (asked->whose != 1 && label == 0.0) {
        return "";
    }
    snprintf(text, SL_ASK_TEXT, "%g min", label > 0.0 ? fmax(label - SL_ASK_MIXED_MIN, 1.0) : 30.0);
    return text;
}

static bool time_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    return number_of(node, node->text, &minutes_range, "min", &asked->time_min, error);
}

/* ---- 13 and 14: aims -------------------------------------------------------------------------------------
 */

static bool left_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    sl_answer_parts parts;
    if (!sl_answer_part(node, ",", &parts, error) || !as_many(node, &parts, asked, error)) {
        return false;
    }
    bool wanted = false;
    for (int i = 0; i < asked->n_colours; i++) {
        const char *const part = parts.part[parts.n == 1 ? 0 : i];
        asked->left[i] = sl_answer_is(part, shares[0]) ? 0.5 : 1.0;
        if (!sl_answer_is(part, shares[0]) && !sl_answer_is(part, N_("ignore")) &&
            !number_of(node, part, &share_range, "%", &asked->left[i], error)) {
            return false;
        }
        wanted = wanted || asked->left[i] < 1.0;
    }
    return wanted ||
           sl_node_refuse_text(node, SL_ERR_INCONSISTENT, N_("one colour at least is to go"), error);
}

/* Nothing is usual for hair of a person. */
static const char *left_usual(const sl_new_test *asked, char text[SL_ASK_TEXT])
{
    (void)text;
    return asked->whose == 1 ? N_("half") : "";
}

static const char *limits_usual(const sl_new_test *asked, char text[SL_ASK_TEXT])
{
    (void)text;
    return asked->whose == 1 ? N_("1 level, 10 %, 45 min") : "";
}

/* "1.5 levels" */
static bool is_levels(const char *part, double *levels)
{
    const char *const end = sl_decimal_read(part, levels);
    return end && (sl_answer_is(end + strspn(end, " "), N_("level")) ||
                   sl_answer_is(end + strspn(end, " "), N_("levels")));
}

static bool limits_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    static const char wanted[] =
        N_("three limits: levels of the base, hair stress, minutes, such as 1 level, "
           "10 %, 45 min");
    static const sl_range stress = {SL_MEASURE_SHARE, 0.0, 1.0};
    sl_answer_parts parts;
    if (!sl_answer_part(node, ",", &parts, error)) {
        return false;
    }
    if (parts.n != 3 || !is_levels(parts.part[0], &asked->base_levels) || asked->base_levels < 0.0 ||
        asked->base_levels > SL_LEVELS) {
        return sl_node_refuse_text(node, SL_ERR_WRONG_TYPE, wanted, error);
    }
    return number_of(node, parts.part[1], &stress, "%", &asked->stress, error) &&
           number_of(node, parts.part[2], &minutes_range, "min", &asked->longest_min, error);
}

/* ---- 15 and 16: the class and the file -------------------------------------------------------------------
 */

static bool class_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    static const sl_range grams = {SL_MEASURE_MASS, 0.05, 500.0};
    static const sl_range minutes = {SL_MEASURE_TIME, 1.0, 1440.0};
    sl_answer_parts parts;
    if (!sl_answer_part(node, ",", &parts, error)) {
        return false;
    }
    if (parts.n != 4) {
        return sl_node_refuse_text(
            node, SL_ERR_WRONG_TYPE,
            N_("swatches of each strip, grams, hands, minutes, such as 3, 2 g, 1, 90 min (or no end)"),
            error);
    }
    asked->class_min = 0.0;
    return whole_of(node, parts.part[0], 1, SL_PLAN_MOST_BLOCKS, &asked->swatches, error) &&
           number_of(node, parts.part[1], &grams, "g", &asked->hair_g, error) &&
           whole_of(node, parts.part[2], 1, SL_PLAN_MOST_PEOPLE, &asked->hands, error) &&
           (sl_answer_is(parts.part[3], N_("no end")) ||
            number_of(node, parts.part[3], &minutes, "min", &asked->class_min, error));
}

static bool file_read(const sl_node *node, sl_new_test *asked, sl_error *error)
{
    static const char ending[] = ".yaml";
    const char *const slash = strrchr(node->text, '/');
    const char *const base = slash ? slash + 1 : node->text;
    const size_t length = strlen(base), end = strlen(ending);
    if (strlen(node->text) >= sizeof asked->file || length <= end || length - end >= sizeof asked->name ||
        strcmp(base + length - end, ending) != 0) {
        return sl_node_refuse_text(node, SL_ERR_WRONG_TYPE, N_("a short name that ends in .yaml"), error);
    }
    snprintf(asked->name, sizeof asked->name, "%.*s", (int)(length - end), base);
    if (!sl_name_check(node, asked->name, error)) {
        return false;
    }
    snprintf(asked->file, sizeof asked->file, "%s", node->text);
    return access(asked->file, F_OK) != 0 ||
           sl_node_refuse_text(node, SL_ERR_INCONSISTENT,
                               N_("there is a file of that name, and nothing is written over it"), error);
}

/* ---- the rows --------------------------------------------------------------------------------------------
 */

const sl_ask_row sl_ask_rows[SL_TOPICS] = {
    [SL_TOPIC_QUESTION] =
        {.id = "question",
         N_("What do you want to know?"),
         N_("The number of one question.\nIt gives the test its title and its usual mixes."),
         "1",
         NULL,
         question_read,
         {.word = figures, questions, 5, 1}},
    [SL_TOPIC_WHOSE] =
        {.id = "whose",
         N_("Whose hair?"),
         N_("Behind 2 or 3 a code may stand, such as 2 K12; never a name.\nFor 2 and 3 the model "
            "gives no minutes without the label, a clear form and that person's own strand."),
         "1",
         NULL,
         whose_read,
         {.word = figures, heads, 3, 1}},
    [SL_TOPIC_ROOM] =
        {.id = "room",
         N_("How warm is the room, measured?"),
         N_("The thermometer where the swatches lie, such as 21 °C.\nWarmth drives everything: two "
            "degrees can be seen."),
         "22 °C",
         NULL,
         room_read},
    [SL_TOPIC_HAIR] =
        {.id = "hair",
         N_("The hair under the colours: its level now, and from which level it was lightened"),
         N_("9 from 5: lightened from level 5 to level 9. 6: natural hair of level 6.\nLevels are 1 "
            "(black) to 10 (lightest blond)."),
         N_("9 from 5"),
         NULL,
         hair_read},
    [SL_TOPIC_ROOT] = {.id = "root",
                       N_("A root of permanent or demi colour? Which, on natural hair of which level?"),
                       N_("brown on 5, or no.\n"
                          "Colour made inside the hair hardly leaves, but its base moves."),
                       N_("brown on 5"),
                       NULL,
                       root_read,
                       {.word = roots, NULL, 2, 1}},
    [SL_TOPIC_COLOURS] =
        {.id = "colours",
         N_("Colours on it, root to ends (an undyed end is added)"),
         N_("red, orange, yellow, green, blue, violet, pink: those that lie on the hair.\nAn "
            "undyed end shows what the mix does to the hair itself."),
         N_("red orange yellow green blue violet"),
         NULL,
         colours_read,
         {.word = sl_ask_colours, NULL, SL_ASK_COLOURS, SL_ASK_COLOURS}},
    [SL_TOPIC_STRENGTH] =
        {.id = "strength",
         N_("How strong does each look: pastel, medium, vivid, deep?"),
         N_("One word for all colours, or one for each in their order.\nHow much dye that is is "
            "worked out from how the hair looks."),
         N_("vivid"),
         NULL,
         strength_read,
         {.word = sl_strength_words, NULL, SL_STRENGTHS, 1}},
    [SL_TOPIC_ORDER] =
        {.id = "order",
         N_("Which left first in your hands, which last?"),
         N_("Two colours, such as violet red; or unknown.\nIt sets no number: where it does not agree "
            "with the model's dyes, or is unknown, they are drawn wider."),
         N_("unknown"),
         NULL,
         order_read,
         {.word = sl_ask_colours, NULL, SL_ASK_COLOURS + 1, 2, .alone = true}},
    [SL_TOPIC_MIXES] =
        {.id = "mixes",
         N_("Which mixes?"),
         N_("More than one, so that there is something to compare.\nwater: powder with water; 3, 6: "
            "with that developer; old: an old tub with water."),
         NULL,
         mixes_usual,
         mixes_read,
         {.word = mix_words, mix_arms, SL_ASK_MIXES, SL_ASK_MIXES}},
    [SL_TOPIC_BOWLS] =
        {.id = "bowls",
         N_("For each mix: ratio, the label's longest time, whether the label allows it, opened when"),
         N_("Such as 1:2, 30 min, allowed, new, code K3; parted by semicolons where mixes "
            "differ.\nLeave out what you do not know: a time that was not read is never made up."),
         N_("1:2, not read, not stated, new"),
         NULL,
         bowls_read,
         {.word = packet, NULL, N_PACKET, SL_ANSWER_PARTS, .pairs = true}},
    [SL_TOPIC_CONTROLS] =
        {.id = "controls",
         N_("Controls: untreated, washed, undyed (with the strongest mix)?"),
         N_("Those that you have hair for, or none.\nWithout them nobody can say what the mix "
            "did."),
         N_("untreated washed undyed"),
         NULL,
         controls_read,
         {.word = sl_ask_controls, NULL, SL_ASK_CONTROLS + 1, SL_ASK_CONTROLS, .alone = true}},
    [SL_TOPIC_TIME] =
        {.id = "time",
         N_("Time on hair"),
         N_("Minutes from the first contact to the first water.\nUsual is the shortest label's time less "
            "the minute since it was mixed; without one 30 min, for cut swatches alone."),
         NULL,
         time_usual,
         time_read},
    [SL_TOPIC_LEFT] = {.id = "left",
                       N_("How much of each colour may stay?"),
                       N_("half, a share such as 20 %, or ignore; one for all, or one for each, parted by "
                          "commas.\nWhat is put on next decides: a pastel needs far less left than a darker "
                          "colour."),
                       NULL,
                       left_usual,
                       left_read,
                       {.word = shares, NULL, 1, 1}},
    [SL_TOPIC_LIMITS] =
        {.id = "limits",
         N_("When is it too much: base, hair stress, longest time?"),
         N_("Such as 1 level, 10 %, 45 min. Hair stress is the share of the hair's own cross-links "
            "lost.\nFor a person's hair nothing is usual: type all three."),
         NULL,
         limits_usual,
         limits_read},
    [SL_TOPIC_CLASS] = {.id = "class",
                        N_("Swatches of each strip, grams of one, pairs of hands, minutes of class"),
                        N_("Such as 3, 2 g, 1, 90 min, or no end.\n"
                           "Two swatches of each strip show whether a difference is one; three are better."),
                        N_("3, 2 g, 1, no end"),
                        NULL,
                        class_read},
    [SL_TOPIC_FILE] =
        {.id = "file",
         N_("Save as"),
         N_("A new file whose name is made of a-z, 0-9 and hyphens and ends in .yaml.\nIts hair, dyes "
            "and mixes are put into folders beside it."),
         "my-test.yaml",
         NULL,
         file_read},
};

const char *sl_ask_usual(sl_topic row, const sl_new_test *asked, char text[SL_ASK_TEXT])
{
    const sl_ask_row *const one = &sl_ask_rows[row];
    const char *const usual = one->usual_of ? one->usual_of(asked, text) : one->usual;
    return usual[0] != '\0' ? _(usual) : usual; /* the catalogue's own head stands under "" */
}

bool sl_ask_read(sl_topic row, const sl_node *node, bool given, sl_new_test *asked, sl_error *error)
{
    asked->given[row] = given;
    return sl_node_is(node, SL_NODE_TEXT, N_("words or numbers belong here"), error) &&
           sl_text_check(node, SL_TEXT_LINE, error) && sl_ask_rows[row].read(node, asked, error);
}

bool sl_ask_typed(sl_topic row, const char *text, bool given, sl_new_test *asked, sl_error *error)
{
    const sl_node node = {.kind = SL_NODE_TEXT, .file = "", .text = text, .key = sl_ask_rows[row].id};
    return sl_ask_read(row, &node, given, asked, error);
}

/* ---- a file of answers -----------------------------------------------------------------------------------
 */

static bool answers_read(const sl_node *root, const char *file, sl_new_test *asked, sl_error *error)
{
    const char *ids[SL_TOPICS];
    const sl_words known = {ids, SL_TOPICS};
    for (int row = 0; row < SL_TOPICS; row++) {
        ids[row] = sl_ask_rows[row].id;
    }
    if (!sl_node_keys_known(root, &known, error)) {
        return false;
    }
    for (int row = 0; row < SL_TOPICS; row++) {
        const bool named = row == SL_TOPIC_FILE && file;
        const sl_node *const node = named ? NULL : sl_node_child(root, ids[row]);
        char text[SL_ASK_TEXT];
        const char *const usual = named ? file : sl_ask_usual((sl_topic)row, asked, text);
        if (!node && usual[0] == '\0') {
            return sl_node_refuse_missing(root, ids[row], N_("for this hair nothing is usual"), error);
        }
        if (node ? !sl_ask_read((sl_topic)row, node, true, asked, error)
                 : !sl_ask_typed((sl_topic)row, usual, named, asked, error)) {
            return false;
        }
    }
    return true;
}

bool sl_ask_file(const char *path, const char *file, sl_new_test *asked, sl_error *error)
{
    char *text = NULL;
    size_t length = 0;
    sl_yaml document = {0};
    sl_error_clear(error);
    const bool good = sl_file_read(path, N_("the answers that are read"), &text, &length, NULL, error) &&
                      sl_yaml_parse(&document, text, length, path, error) &&
                      answers_read(document.root, file, asked, error);
    sl_yaml_free(&document);
    sl_free(text);
    return good;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lessons: what is read and what is refused, the session, answers kept and read back, the class,
 * the gain. The lesson of tests/files/lesson is small and made for this.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "lesson/answers_save.h"
#include "lesson/words.h"
#include "slowlift/answer.h"
#include "slowlift/lesson.h"
#include "slowlift/rank.h"
#include "slowlift/report.h"
#include "suite.h"

enum { PATH_SIZE = 512, TEXT_SIZE = 65536 };

static char folder[64]; /* of this process; made at its first use */

static const char *own_folder(void)
{
    if (folder[0] == '\0') {
        snprintf(folder, sizeof folder, "/tmp/slowlift-lesson-XXXXXX");
        ck_assert_ptr_nonnull(mkdtemp(folder));
    }
    return folder;
}

static void read_text(const char *path, char text[TEXT_SIZE])
{
    FILE *const file = fopen(path, "rb");
    ck_assert_ptr_nonnull(file);
    const size_t length = fread(text, 1, TEXT_SIZE - 1, file);
    fclose(file);
    ck_assert_uint_lt(length, TEXT_SIZE - 1);
    text[length] = '\0';
}

static void write_text(const char *path, const char *text)
{
    FILE *const file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_int_ge(fputs(text, file), 0);
    ck_assert_int_eq(fclose(file), 0);
}

static sl_lesson *load(const char *path, sl_error *error)
{
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    return sl_lesson_load(path, &resolver, error);
}

static sl_lesson *small_lesson(void)
{
    sl_error error;
    sl_lesson *const lesson = load(SLOWLIFT_LESSON "/lesson.yaml", &error);
    ck_assert_msg(lesson != NULL, "%d:%d %s; %s", error.line, error.column, error.found, error.wanted);
    return lesson;
}

/* ---- numbers and texts --------------------------------------------------------------------------- */

START_TEST(every_text_stands_with_its_numbers_filled_in)
{
    sl_lesson *const lesson = small_lesson();
    sl_cell cell;
    char expected[64];
    sl_lesson_cell(lesson, 0, 0, 0, 9.0, &cell);
    snprintf(expected, sizeof expected, "It is %ld %%.", lround(100.0 * cell.colour_left));
    ck_assert_str_eq(lesson->explain.paragraph[0], expected);
    ck_assert_str_eq(lesson->cases.text.paragraph[0], "Two strips after 9 min.");
    sl_lesson_free(lesson);
}
END_TEST

/* The small lesson with other numbers before its own, and a scene called `more` from a file. */
static sl_lesson *with_numbers(const char *extra, const char *more)
{
    static char text[TEXT_SIZE], changed[2 * TEXT_SIZE];
    char path[PATH_SIZE];
    read_text(SLOWLIFT_LESSON "/scene.yaml", text);
    snprintf(path, sizeof path, "%s/scene.yaml", own_folder());
    write_text(path, text);
    read_text(more, text);
    snprintf(path, sizeof path, "%s/more.yaml", own_folder());
    write_text(path, text);
    read_text(SLOWLIFT_LESSON "/lesson.yaml", text);
    char *const scenes = strstr(text, "{main: scene}");
    char *const numbers = strstr(text, "numbers:\n");
    ck_assert(scenes != NULL && numbers != NULL && scenes < numbers);
    *scenes = *numbers = '\0';
    snprintf(changed, sizeof changed, "%s{main: scene, more: more}\nnumbers:\n%s%s", text, extra,
             numbers + strlen("numbers:\n"));
    snprintf(path, sizeof path, "%s/lesson.yaml", own_folder());
    write_text(path, changed);
    sl_error error;
    sl_lesson *const lesson = load(path, &error);
    ck_assert_msg(lesson != NULL, "%d:%d %s; %s", error.line, error.column, error.found, error.wanted);
    return lesson;
}

static const sl_number *number_of(const sl_lesson *lesson, const char *name)
{
    for (int i = 0; i < lesson->n_numbers; i++) {
        if (strcmp(lesson->numbers[i].name, name) == 0) {
            return &lesson->numbers[i];
        }
    }
    ck_abort_msg("no number %s", name);
    return NULL;
}

/* {what is asked, value wanted, how near}: worked out beside it. */
START_TEST(numbers_are_what_their_formulas_say)
{
    static const char extra[] =
        "  - {name: forty, given: 40 kJ/mol}\n  - {name: sixty, given: 60 kJ/mol}\n"
        "  - {name: eighty, given: 80 kJ/mol}\n  - {name: cool, given: 25 °C}\n  - {name: warm, given: 35 "
        "°C}\n"
        "  - {name: one, given: 1}\n  - {name: three, given: 3}\n  - {name: five, given: 5}\n"
        "  - {name: slot, given: 45 s}\n  - {name: eleven, given: 11}\n"
        "  - {name: a40, what: speed-up, energy: forty, from: cool, to: warm}\n"
        "  - {name: a60, what: speed-up, energy: sixty, from: cool, to: warm}\n"
        "  - {name: a80, what: speed-up, energy: eighty, from: cool, to: warm}\n"
        "  - {name: w1, what: wrong winner, difference: one, swatches: one}\n"
        "  - {name: w3, what: wrong winner, difference: one, swatches: three}\n"
        "  - {name: w5, what: wrong winner, difference: one, swatches: five}\n"
        "  - {name: h3, what: half width, swatches: three}\n"
        "  - {name: h5, what: half width, swatches: five}\n"
        "  - {name: gap, multiply: [slot, eleven]}\n"
        "  - {name: day, given: 24 h}\n  - {name: last, given: 72 h}\n  - {name: many, given: 500}\n"
        "  - {name: hours, multiply: [slot, many]}\n  - {name: rest, subtract: [last, day]}\n"
        "  - {name: held, scene: main, arm: strong, what: dwell}\n"
        "  - {name: fit, whole_times: [held, gap]}\n"
        "  - {name: more, divide: [held, gap]}\n"
        "  - {name: apart, scene: main, arm: strong, other: water, what: differences}\n";
    /* Arrhenius by hand: exp(E/R (1/298.15 - 1/308.15)), R = 8.314 J/(mol K): 1.688, 2.193, 2.8499.
     * Wrong winner: the normal distribution at -sqrt(n/2) (standard tables): 0.240, 0.110, 0.057.
     * Half width: t(0.975; 2) = 4.303 and t(0.975; 4) = 2.776 (standard tables) over the root of n.
     * 11 x 45 s = 8.25 min; 30/8.25 = 3.64, of which 3 are whole. 500 x 45 s = 375 min = 6.25 h. */
    static const struct {
        const char *name;
        double value, near;
        const char *text;
    } wanted[] = {{"a40", 1.69, 0.01, "1.7 times"},
                  {"a60", 2.19, 0.01, "2.2 times"},
                  {"a80", 2.85, 0.01, "2.8 times"},
                  {"w1", 0.240, 0.001, "24 %"},
                  {"w3", 0.110, 0.001, "11 %"},
                  {"w5", 0.057, 0.001, "6 %"},
                  {"h3", 2.484, 0.001, "2.5 times"},
                  {"h5", 1.2415, 0.001, "1.2 times"},
                  {"gap", 8.25, 1e-9, "8 to 9 min"},
                  {"day", 1440.0, 1e-9, "24 h"},
                  {"last", 4320.0, 1e-9, "72 h"},
                  {"hours", 375.0, 1e-9, "375 min"},
                  {"rest", 2880.0, 1e-9, "48 h"},
                  {"fit", 3.0, 1e-9, "3"},
                  {"more", 3.636, 0.001, "3.6 times"},
                  {"held", 30.0, 1e-9, "30 min"},
                  {"apart", 1.0, 1e-9, "1"}};
    sl_lesson *const lesson = with_numbers(extra, SLOWLIFT_LESSON "/scene.yaml");
    for (size_t w = 0; w < sizeof wanted / sizeof wanted[0]; w++) {
        const sl_number *const number = number_of(lesson, wanted[w].name);
        ck_assert_double_eq_tol(number->value, wanted[w].value, wanted[w].near);
        ck_assert_str_eq(number->text, wanted[w].text);
    }
    sl_lesson_free(lesson);
}
END_TEST

/* Replaces the first `old` in a text. */
static void put_instead(char *text, size_t size, const char *old, const char *new)
{
    static char rest[2 * TEXT_SIZE];
    char *const at = strstr(text, old);
    ck_assert_msg(at != NULL, "%s is not there", old);
    snprintf(rest, sizeof rest, "%s%s", new, at + strlen(old));
    ck_assert_uint_lt((size_t)(at - text) + strlen(rest), size);
    memcpy(at, rest, strlen(rest) + 1);
}

START_TEST(hair_on_a_head_gives_a_factor_and_no_time)
{
    static char text[2 * TEXT_SIZE];
    static const char extra[] =
        "  - {name: half, given: 50 %}\n  - {name: minute, given: 1 min}\n"
        "  - {name: bench, scene: main, arm: strong, zone: violet, what: time to, share: half}\n"
        "  - {name: head, scene: more, arm: strong, zone: violet, what: time to, share: half}\n"
        "  - {name: left_then, scene: more, arm: strong, zone: violet, what: colour left, at: minute}\n"
        "  - {name: factor, divide: [bench, head]}\n"
        "  - {name: in_disguise, divide: [head, minute]}\n"
        "  - {name: longer, add: [head, minute]}\n";
    static const char *const secret[] = {"head", "left_then", "in_disguise", "longer"};
    char path[PATH_SIZE];
    read_text(SLOWLIFT_LESSON "/scene.yaml", text);
    put_instead(text, sizeof text, "lies: bench", "lies: head");
    snprintf(path, sizeof path, "%s/on-head.yaml", own_folder());
    write_text(path, text);
    sl_lesson *lesson = with_numbers(extra, path);
    for (size_t i = 0; i < sizeof secret / sizeof secret[0]; i++) {
        ck_assert(number_of(lesson, secret[i])->of_head);
        ck_assert_str_eq(number_of(lesson, secret[i])->text, "not told");
    }
    ck_assert(!number_of(lesson, "bench")->of_head);
    ck_assert_double_gt(number_of(lesson, "factor")->value, 1.1);
    ck_assert_ptr_nonnull(strstr(number_of(lesson, "factor")->text, "times"));
    sl_lesson_free(lesson);
    static const char *const told[][2] = {
        {"objective: You can read a number.", "objective: \"It takes {head}.\""},
        {"draws: zero", "draws: left_then"},
        {"run: {scene: main", "run: {scene: more"},
        {"  scene: main\n  zone: violet\n  at: look", "  scene: more\n  zone: violet\n  at: look"}};
    snprintf(path, sizeof path, "%s/lesson.yaml", own_folder());
    static char kept[2 * TEXT_SIZE];
    read_text(path, kept);
    for (size_t i = 0; i < sizeof told / sizeof told[0]; i++) {
        sl_error error;
        memcpy(text, kept, sizeof text);
        put_instead(text, sizeof text, told[i][0], told[i][1]);
        write_text(path, text);
        lesson = load(path, &error);
        ck_assert_msg(lesson == NULL, "%s is told", told[i][1]);
        ck_assert_int_eq(error.code, SL_ERR_NOT_ALLOWED);
        ck_assert(strstr(error.found, "head") || strstr(error.wanted, "head"));
    }
}
END_TEST

/* What models/scenes/way-wide.yaml and its mix say themselves, and what limits.h answers. */
START_TEST(numbers_of_an_arm_are_those_of_its_files)
{
    static const char extra[] =
        "  - {name: strength, scene: more, arm: powder + 3 %, what: strength}\n"
        "  - {name: liquid, scene: more, arm: powder + 3 %, what: in liquid}\n"
        "  - {name: paste, scene: more, arm: powder + 3 %, what: in paste}\n"
        "  - {name: water, scene: more, arm: powder + 3 %, what: water parts}\n"
        "  - {name: ratio, scene: more, arm: powder + 3 %, what: ratio}\n"
        "  - {name: held, scene: more, arm: powder + 3 %, what: dwell}\n"
        "  - {name: begun, scene: more, arm: powder + 3 %, what: contact}\n"
        "  - {name: age, scene: more, arm: powder + 3 %, what: mix age}\n"
        "  - {name: done, scene: more, arm: powder + 3 %, what: done}\n"
        "  - {name: warmth, scene: more, arm: powder + 3 %, what: warmth}\n"
        "  - {name: mix, scene: more, arm: powder + 3 %, what: grams mix}\n"
        "  - {name: powder, scene: more, arm: powder + 3 %, what: grams powder}\n"
        "  - {name: developer, scene: more, arm: powder + 3 %, what: grams developer}\n"
        "  - {name: active, scene: more, arm: powder + 3 %, what: activity}\n"
        "  - {name: early, scene: more, arm: powder + 3 %, what: goal time}\n"
        "  - {name: odds, scene: more, arm: powder + 3 %, what: odds}\n"
        "  - {name: word, scene: more, arm: powder + 3 %, what: verdict}\n"
        "  - {name: looks, scene: more, arm: powder + 3 %, what: checks}\n"
        "  - {name: head, scene: more, arm: powder + 3 %, what: bench to head}\n"
        "  - {name: goal, scene: more, what: goal}\n"
        "  - {name: base, scene: more, what: base limit}\n"
        "  - {name: stress, scene: more, what: stress limit}\n"
        "  - {name: most, scene: more, what: longest}\n"
        "  - {name: then, scene: more, arm: powder + 3 %, zone: blue, share: goal, what: time to}\n"
        "  - {name: end, scene: more, arm: powder + 3 %, zone: blue, what: end left}\n"
        "  - {name: half_again, scene: more, arm: powder + 3 %, zone: blue, at: begun, what: half time}\n"
        "  - {name: speed, scene: more, arm: powder + 3 %, zone: blue, at: age, what: pace}\n"
        "  - {name: moved, scene: more, arm: powder + 3 %, zone: undyed, at: held, what: base moved}\n"
        "  - {name: lifted, scene: more, arm: powder + 3 %, zone: undyed, at: held, what: levels lifted}\n"
        "  - {name: stressed, scene: more, arm: powder + 3 %, zone: undyed, at: held, what: hair stress}\n"
        "  - {name: moved_then, scene: more, arm: powder + 3 %, zone: undyed, share: moved, what: time to "
        "base}\n"
        "  - {name: stressed_then, scene: more, arm: powder + 3 %, zone: undyed, share: stressed, what: time "
        "to stress}\n";
    /* 2 g of hair, 6 g/g, 1 to 2: 12 g of mix, 4 g of powder, 8 g of developer of 3 %, so 3 x 2/3 = 2 %
     * in the paste. 50 min, 2 min of rinse and one shampoo of a minute: done after 53 min. */
    static const struct {
        const char *name;
        double value;
        const char *text;
    } wanted[] = {{"strength", 3, "3 %"},  {"liquid", 3, "3 %"},    {"paste", 2, "2 %"},
                  {"water", 0, "0"},       {"ratio", 2, "2"},       {"held", 50, "50 min"},
                  {"begun", 0.75, "45 s"}, {"age", 1, "1 min"},     {"done", 53, "53 min"},
                  {"warmth", 24, "24 °C"}, {"mix", 12, "12 g"},     {"powder", 4, "4 g"},
                  {"developer", 8, "8 g"}, {"active", 1, "100 %"},  {"goal", 0.4, "40 %"},
                  {"base", 0.4, "40 %"},   {"stress", 0.1, "10 %"}, {"most", 50, "50 min"}};
    sl_lesson *const lesson = with_numbers(extra, SLOWLIFT_MODELS "/scenes/way-wide.yaml");
    for (size_t w = 0; w < sizeof wanted / sizeof wanted[0]; w++) {
        const sl_number *const number = number_of(lesson, wanted[w].name);
        ck_assert_msg(fabs(number->value - wanted[w].value) < 1e-9, "%s is %g", wanted[w].name,
                      number->value);
        ck_assert_str_eq(number->text, wanted[w].text);
    }
    sl_cell cell;
    sl_lesson_cell(lesson, 1, 1, 0, number_of(lesson, "then")->value, &cell);
    ck_assert_double_eq_tol(cell.colour_left, 0.4, 1e-3);
    /* the end: washed and dry, which here is the scene's end, as rank, what-if and the pack have it */
    sl_lesson_cell(lesson, 1, 1, 0, 70.0, &cell);
    ck_assert_double_eq_tol(cell.colour_left, number_of(lesson, "end")->value, 1e-9);
    ck_assert_double_eq_tol(sl_three_readings_of(lesson->scene[1].timeline, 1, 0, 0.5).end_left,
                            number_of(lesson, "end")->value, 1e-12);
    /* halved again, from the moment asked for */
    sl_cell from, to;
    sl_lesson_cell(lesson, 1, 1, 0, 0.75, &from);
    sl_lesson_cell(lesson, 1, 1, 0, 0.75 + number_of(lesson, "half_again")->value, &to);
    ck_assert_double_eq_tol(to.colour_left / from.colour_left, 0.5, 1e-3);
    /* a minute's loss at this pace, beside what the next minute takes: the pace hardly changes within it */
    sl_lesson_cell(lesson, 1, 1, 0, 0.5, &from);
    sl_lesson_cell(lesson, 1, 1, 0, 1.5, &to);
    ck_assert_double_eq_tol(1.0 - to.colour_left / from.colour_left, number_of(lesson, "speed")->value, 0.01);
    ck_assert_double_eq_tol(number_of(lesson, "moved_then")->value, 50.0, 0.01);
    ck_assert_double_eq_tol(number_of(lesson, "stressed_then")->value, 50.0, 0.01);
    sl_lesson_cell(lesson, 1, 1, 2, 50.0, &cell);
    ck_assert_double_eq_tol(cell.levels_lifted, number_of(lesson, "lifted")->value, 1e-12);
    /* the goal is that of the last of all zones, rinsed then */
    ck_assert_double_lt(number_of(lesson, "early")->value,
                        number_of(lesson, "then")->value); /* rinse and rest add */
    sl_spread *spread = NULL;
    const sl_spread_request request = {.members = SL_MEMBERS, .seed = SL_SEED, .threads = 2};
    ck_assert(sl_spread_run(&spread, lesson->scene[1].scene, &request, NULL));
    const sl_answer answer = sl_answer_of(lesson->scene[1].scene, spread, 1, NULL);
    ck_assert_str_eq(number_of(lesson, "word")->text, sl_verdict_word(answer.verdict));
    ck_assert_int_eq((int)lround(20.0 * number_of(lesson, "odds")->value), answer.dots);
    ck_assert_int_eq((int)number_of(lesson, "looks")->value, answer.n_checks);
    sl_spread_free(spread);
    ck_assert_double_gt(number_of(lesson, "head")->value, 1.0); /* a head is warmer */
    sl_lesson_free(lesson);
}
END_TEST

/* ---- what is refused ----------------------------------------------------------------------------- */

typedef struct sl_spoiling {
    const char *old, *new;
    sl_code code;
    const char *marker; /* the message points at the first of these */
    const char *says;   /* and says this */
} sl_spoiling;

static const sl_spoiling spoilings[] = {
    {"least: 40 %", "least: 70 %", SL_ERR_INCONSISTENT, "some_left, number", "is not borne out; left is 50"},
    {"most: 1 %, holds: no", "most: 90 %, holds: no", SL_ERR_INCONSISTENT, "none_left, number",
     "holds after all"},
    {"below: left_water", "above: left_water", SL_ERR_INCONSISTENT, "less_than_water", "not borne out"},
    {"reply: Seen well.", "reply: Seen in 9 min.", SL_ERR_NOT_ALLOWED, "Seen in", "a digit typed by hand"},
    {"Two strips after {look}.", "Two strips after {lock}.", SL_ERR_UNKNOWN_WORD, "Two strips", "\"look\""},
    {"Two strips after {look}.", "Two strips after {look.", SL_ERR_UNKNOWN_WORD, "Two strips", "look."},
    {"thinks: luck decides, reply: Luck did not do it.", "thinks: luck decides", SL_ERR_MISSING_KEY,
     "{say: because of luck", "feedback"},
    {"thinks: luck decides, ", "", SL_ERR_MISSING_KEY, "{say: because of luck", "misconception"},
    {"say: about half, right: yes, by: some_left", "say: about half, right: yes", SL_ERR_MISSING_KEY,
     "{say: about half", "claim"},
    {"say: about half, right: yes, by: some_left", "say: about half, right: yes, by: none_left",
     SL_ERR_INCONSISTENT, "none_left, draws: left", "claim that holds"},
    {"thinks: nothing is ever left, by: none_left, draws",
     "thinks: nothing is ever left, by: some_left, draws", SL_ERR_INCONSISTENT, "some_left, draws: zero",
     "holds: no"},
    {"{say: because of luck, thinks: luck decides,", "{say: because of luck, right: yes,",
     SL_ERR_INCONSISTENT, "answers:\n    - {say: because of the share", "more than one answer is right"},
    {"minutes: 20", "minutes: 46", SL_ERR_TOO_LARGE, "46", "45 minutes"},
    {"{name: zero, given: 0 %}", "{name: zero, given: 0 %}\n  - {name: idle, given: 3}", SL_ERR_INCONSISTENT,
     "idle", "must be used"},
    {"what: colour left, at: look}", "what: colour lost, at: look}", SL_ERR_UNKNOWN_WORD, "colour lost",
     "colour left"},
    {"what: colour left, at: look}", "what: colour left}", SL_ERR_MISSING_KEY,
     "{name: left, scene: main, arm: strong, zone: violet, what: colour left}", "needs it"},
    {"arm: strong, zone: violet, what", "arm: strength, zone: violet, what", SL_ERR_UNKNOWN_WORD, "strength",
     "strong"},
    {"zone: violet, what: colour left, at: look}\n  - {name: left_water",
     "zone: undyed, what: colour left, at: look}\n  - {name: left_water", SL_ERR_INCONSISTENT,
     "colour left, at: look}\n  - {name: left_water", "without a dye"},
    {"{main: scene}", "{main: nowhere}", SL_ERR_MISSING_REFERENCE, "nowhere", "beside its lesson"},
    {"stops: [look]", "stops: [look, look]", SL_ERR_INCONSISTENT, "look]}", "rise"},
    {"stops: [look]", "beside: main, stops: [look]", SL_ERR_INCONSISTENT, "main, stops", "same strips"},
    {"stops: [look]", "stops: [zero]", SL_ERR_BAD_UNIT, "zero]}", "a time"},
    {"cautions: [DUST]", "cautions: [DUSK]", SL_ERR_UNKNOWN_WORD, "DUSK", "DUST"},
    {"swatch: Take a swatch.", "swatch: It is guaranteed.", SL_ERR_NOT_ALLOWED, "It is guaranteed",
     "promises nothing"},
    {"swatch: Take a swatch.", "swatch: A Perfect result.", SL_ERR_NOT_ALLOWED, "A Perfect", "perfect"},
    {"title: A lesson for the tests", "title: A lesson {look}", SL_ERR_NOT_ALLOWED, "A lesson {look}",
     "title"},
    {"swatch: Take a swatch.\n", "", SL_ERR_MISSING_KEY, "kind: lesson", "swatch"},
    {"swatch: Take a swatch.", "swatches: Take a swatch.", SL_ERR_UNKNOWN_KEY, "swatches", "swatch"},
    {"version: 1", "version: 2", SL_ERR_NEWER_VERSION, "2\ntitle", "newer"},
    {"kind: lesson", "kind: lessen", SL_ERR_UNKNOWN_WORD, "lessen", "lesson"},
    {"number: 3", "number: 3\nlanguage: es", SL_ERR_INCONSISTENT, "kind:", "language"},
};

static const sl_spoiling es_spoilings[] = {
    {"reply: Bien visto.", "reply: Seen well.", SL_ERR_INCONSISTENT, "Seen well", "merely copied"},
    {"reply: \"Queda {left}.\"", "reply: Queda algo.", SL_ERR_INCONSISTENT, "Queda algo.}\n    - {say: queda",
     "other {names}"},
    {"number: 3", "number: 4", SL_ERR_INCONSISTENT, "4\nminutes", "\"3\""},
    {"[\"Es {left}.\", Eso es todo.]", "[\"Es {left}.\"]", SL_ERR_INCONSISTENT, "[\"Es {left}.\"]",
     "2 in this list"},
    {"least: 40 %", "least: 41 %", SL_ERR_INCONSISTENT, "41 %", "40 %"},
    {"language: es", "language: en", SL_ERR_INCONSISTENT, "kind:", "another language"},
};

/* Where `marker` first stands, counted by hand: lines and characters from 1. */
static void place_of(const char *text, const char *marker, int *line, int *column)
{
    const char *const at = strstr(text, marker);
    ck_assert_msg(at != NULL, "%s is not in the file", marker);
    *line = *column = 1;
    for (const char *c = text; c < at; c++) {
        *column += ((unsigned char)*c & 0xC0U) != 0x80U ? 1 : 0;
        if (*c == '\n') {
            ++*line;
            *column = 1;
        }
    }
}

static void spoil(const char *name, const sl_spoiling *spoiling)
{
    static char text[TEXT_SIZE], spoilt[2 * TEXT_SIZE];
    char path[PATH_SIZE];
    static const char *const files[] = {"scene.yaml", "lesson.yaml"};
    for (int i = 0; i < 2; i++) {
        snprintf(path, sizeof path, SLOWLIFT_LESSON "/%s", files[i]);
        read_text(path, text);
        snprintf(path, sizeof path, "%s/%s", own_folder(), files[i]);
        write_text(path, text);
    }
    snprintf(path, sizeof path, SLOWLIFT_LESSON "/%s", name);
    read_text(path, text);
    char *const old = strstr(text, spoiling->old);
    ck_assert_msg(old != NULL, "%s is not in the lesson", spoiling->old);
    snprintf(spoilt, sizeof spoilt, "%.*s%s%s", (int)(old - text), text, spoiling->new,
             old + strlen(spoiling->old));
    snprintf(path, sizeof path, "%s/%s", own_folder(), name);
    write_text(path, spoilt);
    sl_error error;
    sl_lesson *const lesson = load(path, &error);
    ck_assert_msg(lesson == NULL, "%s is not refused", spoiling->new);
    char sentence[2048];
    int line = 0, column = 0;
    sl_error_sentence(&error, sentence, sizeof sentence);
    place_of(spoilt, spoiling->marker, &line, &column);
    ck_assert_msg(error.code == spoiling->code, "%s: %s: %s", spoiling->new, sl_code_name(error.code),
                  sentence);
    ck_assert_msg(error.line == line && error.column == column, "%s: wanted %d:%d: %s", spoiling->new, line,
                  column, sentence);
    ck_assert_msg(strstr(sentence, spoiling->says) != NULL, "%s does not say \"%s\"", sentence,
                  spoiling->says);
}

START_TEST(every_spoilt_lesson_gets_its_one_message)
{
    spoil("lesson.yaml", &spoilings[_i]);
}
END_TEST

START_TEST(every_spoilt_translation_gets_its_one_message)
{
    spoil("lesson.es.yaml", &es_spoilings[_i]);
}
END_TEST

START_TEST(a_lesson_in_spanish_has_the_same_numbers)
{
    sl_error error;
    sl_lesson *const english = small_lesson();
    sl_lesson *const spanish = load(SLOWLIFT_LESSON "/lesson.es.yaml", &error);
    ck_assert_ptr_nonnull(spanish);
    ck_assert_int_eq(english->n_numbers, spanish->n_numbers);
    for (int i = 0; i < english->n_numbers; i++) {
        ck_assert(english->numbers[i].value == spanish->numbers[i].value);
    }
    sl_lesson_free(spanish);
    sl_lesson_free(english);
}
END_TEST

/* ---- session ------------------------------------------------------------------------------------- */

static void go_to(sl_session *session, sl_page_kind kind)
{
    while (sl_session_page(session)->kind != kind) {
        if (sl_session_question(session) && sl_session_answered(session) == SL_NO_ANSWER) {
            ck_assert(sl_session_answer(session, 0));
        }
        ck_assert(sl_session_next(session, NULL));
    }
}

START_TEST(the_run_stays_locked_without_prediction_and_reason)
{
    sl_lesson *const lesson = small_lesson();
    sl_record record = {.edition = 1};
    sl_session session = sl_session_start(lesson, &record, false);
    go_to(&session, SL_PAGE_PREDICTION);
    ck_assert(!sl_session_next(&session, NULL));
    ck_assert(!sl_session_skip(&session)); /* no educator */
    ck_assert(sl_session_answer(&session, 0));
    ck_assert(sl_session_next(&session, NULL));
    const char *why = NULL;
    ck_assert(!sl_session_next(&session, &why)); /* no reason yet */
    ck_assert_str_eq(why, sl_lesson_said(SL_SAID_LOCKED, "en"));
    ck_assert(sl_session_answer(&session, 0));
    ck_assert(sl_session_next(&session, NULL));
    ck_assert_int_eq(sl_session_page(&session)->kind, SL_PAGE_RUN);
    sl_lesson_free(lesson);
}
END_TEST

START_TEST(a_record_that_claims_to_be_further_does_not_open_the_run)
{
    sl_lesson *const lesson = small_lesson();
    sl_record record = {.edition = 1, .page = 12};
    const sl_session session = sl_session_start(lesson, &record, false);
    ck_assert_int_eq(sl_session_page(&session)->kind, SL_PAGE_PREDICTION);
    sl_lesson_free(lesson);
}
END_TEST

START_TEST(the_educator_can_open_the_run_and_that_is_kept)
{
    sl_lesson *const lesson = small_lesson();
    sl_record record = {.edition = 1};
    sl_session session = sl_session_start(lesson, &record, true);
    go_to(&session, SL_PAGE_PREDICTION);
    ck_assert(sl_session_skip(&session));
    ck_assert(!record.skipped);
    ck_assert(sl_session_skip(&session));
    ck_assert(record.skipped);
    ck_assert_int_eq(sl_session_page(&session)->kind, SL_PAGE_RUN);
    ck_assert_ptr_null(sl_session_predicted(&session));
    sl_lesson_free(lesson);
}
END_TEST

START_TEST(feedback_to_a_prediction_waits_for_the_run)
{
    sl_lesson *const lesson = small_lesson();
    const sl_number *predicted = NULL, *result = NULL;
    sl_record record = {.edition = 1};
    sl_session session = sl_session_start(lesson, &record, false);
    go_to(&session, SL_PAGE_PREDICTION);
    ck_assert(sl_session_answer(&session, 0));
    ck_assert_ptr_null(sl_session_feedback(&session));
    ck_assert_ptr_null(sl_session_predicted(&session));
    go_to(&session, SL_PAGE_RUN);
    ck_assert_str_eq(sl_session_predicted(&session)->say, "nothing");
    ck_assert(sl_session_compared(&session, &predicted, &result));
    ck_assert_str_eq(predicted->name, "zero");
    ck_assert_str_eq(result->name, "left");
    go_to(&session, SL_PAGE_SAW);
    while (sl_session_page(&session)->kind != SL_PAGE_PREDICTION) {
        ck_assert(sl_session_back(&session));
    }
    ck_assert_str_eq(sl_session_feedback(&session), "There is some left.");
    sl_lesson_free(lesson);
}
END_TEST

START_TEST(the_first_answer_counts)
{
    sl_lesson *const lesson = small_lesson();
    sl_record record = {.edition = 1};
    sl_session session = sl_session_start(lesson, &record, false);
    ck_assert(!sl_session_answer(&session, 0)); /* no question on the first page */
    ck_assert(sl_session_next(&session, NULL));
    ck_assert(!sl_session_answer(&session, 2)); /* no such choice */
    ck_assert(!sl_session_answer(&session, -1));
    ck_assert(sl_session_answer(&session, 1));
    ck_assert(!sl_session_answer(&session, 0));
    ck_assert_int_eq(sl_session_answered(&session), 1);
    ck_assert_str_eq(sl_session_feedback(&session), "It is not so.");
    sl_lesson_free(lesson);
}
END_TEST

START_TEST(a_lesson_ends_on_its_last_page)
{
    sl_lesson *const lesson = small_lesson();
    sl_record record = {.edition = 1};
    sl_session session = sl_session_start(lesson, &record, false);
    go_to(&session, SL_PAGE_END);
    const char *why = NULL;
    ck_assert(!sl_session_next(&session, &why));
    ck_assert_str_eq(why, sl_lesson_said(SL_SAID_LAST, "en"));
    ck_assert_int_eq(session.page, lesson->n_pages - 1);
    sl_lesson_free(lesson);
}
END_TEST

/* ---- answers ------------------------------------------------------------------------------------- */

static void some_answers(sl_learner_answers *answers, const sl_lesson *lesson, int choice)
{
    sl_error error = {.code = SL_OK};
    ck_assert(sl_learner_answers_start(answers, "group-3", &error));
    sl_record *const record = sl_learner_answers_record(answers, lesson, &error);
    ck_assert_ptr_nonnull(record);
    sl_session session = sl_session_start(lesson, record, false);
    while (sl_session_page(&session)->kind != SL_PAGE_END) {
        if (sl_session_question(&session)) {
            ck_assert(sl_session_answer(&session, choice));
        }
        ck_assert(sl_session_next(&session, NULL));
    }
    answers->quiz[SL_QUIZ_AFTER].edition = 2;
    answers->quiz[SL_QUIZ_AFTER].answer[4] = 3;
}

START_TEST(answers_are_read_back_as_they_were_kept)
{
    sl_lesson *const lesson = small_lesson();
    sl_learner_answers kept, back;
    sl_error error = {.code = SL_OK};
    char path[PATH_SIZE];
    snprintf(path, sizeof path, "%s/group-3.yaml", own_folder());
    some_answers(&kept, lesson, 1);
    ck_assert(sl_learner_answers_save(&kept, path, &error));
    ck_assert_msg(sl_learner_answers_load(&back, path, NULL, &error), "%d: %s; %s", error.line, error.found,
                  error.wanted);
    ck_assert_str_eq(back.code, "group-3");
    ck_assert_int_eq(back.n_records, 1);
    ck_assert_int_eq(back.record[0].n, kept.record[0].n);
    for (int i = 0; i < kept.record[0].n; i++) {
        ck_assert_int_eq(sl_record_choice(&back.record[0], kept.record[0].key[i]), kept.record[0].choice[i]);
    }
    ck_assert_int_eq(back.record[0].page, lesson->n_pages - 1);
    ck_assert_int_eq(back.quiz[SL_QUIZ_BEFORE].edition, 0);
    ck_assert_int_eq(back.quiz[SL_QUIZ_AFTER].answer[4], 3);
    ck_assert_int_eq(back.quiz[SL_QUIZ_AFTER].answer[5], SL_NO_ANSWER);
    const char *kind = NULL;
    ck_assert(sl_any_file_check(path, NULL, &kind, NULL, 0, &error));
    ck_assert_str_eq(kind, "answers");
    sl_lesson_free(lesson);
}
END_TEST

START_TEST(answers_to_another_edition_are_refused)
{
    sl_lesson *const lesson = small_lesson();
    sl_learner_answers answers;
    sl_error error = {.code = SL_OK};
    some_answers(&answers, lesson, 0);
    lesson->edition = 2;
    ck_assert_ptr_null(sl_learner_answers_record(&answers, lesson, &error));
    ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
    sl_lesson_free(lesson);
}
END_TEST

START_TEST(a_name_is_no_code)
{
    sl_learner_answers answers;
    sl_error error = {.code = SL_OK};
    ck_assert(!sl_learner_answers_start(&answers, "Ana Maria", &error));
    ck_assert_int_eq(error.code, SL_ERR_USAGE);
}
END_TEST

/* A folder that is not there stands for one that cannot be written to (tests may run as root,
 * whom no folder refuses); /dev/full is a disk without room. */
START_TEST(a_save_that_fails_leaves_the_old_file_whole)
{
    sl_lesson *const lesson = small_lesson();
    sl_learner_answers answers, back;
    sl_error error = {.code = SL_OK};
    char path[PATH_SIZE];
    some_answers(&answers, lesson, 0);
    snprintf(path, sizeof path, "%s/no-such-folder/group-3.yaml", own_folder());
    ck_assert(!sl_learner_answers_save(&answers, path, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_WRITE);
    ck_assert_ptr_nonnull(strstr(error.found, "group-3.yaml"));
    if (access("/dev/full", W_OK) == 0) {
        sl_error_clear(&error);
        ck_assert(!sl_learner_answers_save(&answers, "/dev/full", &error));
        ck_assert_int_eq(error.code, SL_ERR_CANNOT_WRITE);
    }
    ck_assert_int_eq(answers.record[0].n, lesson->n_questions); /* still here */
    snprintf(path, sizeof path, "%s/old.yaml", own_folder());
    ck_assert(sl_learner_answers_save(&answers, path, &error));
    ck_assert(sl_learner_answers_load(&back, path, NULL, &error));
    sl_lesson_free(lesson);
}
END_TEST

START_TEST(a_broken_file_of_answers_is_refused_and_changes_nothing)
{
    sl_learner_answers answers;
    sl_error error = {.code = SL_OK};
    char path[PATH_SIZE];
    static const char *const broken[] = {
        "kind: answers\nversion: 1\ntitle: t\norigin: o\ncode: g\nlessons:\n  - {lesson: a, edition: 1, "
        "page: 0, "
        "skipped: no, answers: {saw: 9}}\n",
        "kind: answers\nversion: 1\ntitle: t\norigin: o\ncode: A Name\nlessons: []\n",
        "kind: answers\nversion: 1\ntitle: t\norigin: o\ncode: g\n", "kind: answers\nversion: 9\ntitle: t\n"};
    snprintf(path, sizeof path, "%s/broken.yaml", own_folder());
    ck_assert(sl_learner_answers_start(&answers, "kept", &error));
    for (size_t i = 0; i < sizeof broken / sizeof broken[0]; i++) {
        bool absent = true;
        write_text(path, broken[i]);
        ck_assert(!sl_learner_answers_load(&answers, path, &absent, &error));
        ck_assert(!absent);
        ck_assert_int_gt(error.line, 0);
        ck_assert_str_eq(answers.code, "kept");
    }
}
END_TEST

/* ---- class and gain ------------------------------------------------------------------------------ */

START_TEST(a_class_is_counted_question_by_question)
{
    sl_lesson *const lesson = small_lesson();
    sl_learner_answers answers;
    sl_class class_;
    sl_class_start(&class_);
    for (int i = 0; i < 5; i++) { /* three choose the first of everything, two the second */
        some_answers(&answers, lesson, i < 3 ? 0 : 1);
        ck_assert(sl_class_add(&class_, lesson, &answers.record[0]));
    }
    const int prediction = sl_lesson_question(lesson, "prediction");
    ck_assert_int_eq(class_.n, 5);
    ck_assert_int_eq(class_.question[prediction].answered, 5);
    ck_assert_int_eq(class_.question[prediction].chose[0], 3);
    ck_assert_int_eq(class_.question[prediction].chose[1], 2);
    ck_assert_int_eq(class_.change[0][0], 3);
    ck_assert_int_eq(class_.change[1][1], 2);
    ck_assert_int_eq(class_.change[0][1], 0);
    ck_assert_int_eq(class_.right_before, 2);
    ck_assert_int_eq(class_.right_after, 2);
    answers.record[0].edition = 7;
    ck_assert(!sl_class_add(&class_, lesson, &answers.record[0]));
    ck_assert_int_eq(class_.n, 5);
    sl_lesson_free(lesson);
}
END_TEST

/* <g> = (<post> - <pre>)/(100 - <pre>): Hake 1998, Am. J. Phys. 66:64-74. A published figure made by
 * it: BMC Medical Education 2021, 21:210, Table 1 (doi 10.1186/s12909-021-02646-3): mean gain 11.1 of 20
 * marks, 225.8 % of the mean before, so before 11.1/2.258 = 4.916 marks; its class gain is 0.73. The paper
 * cuts its figures (55.55, 0.73), so ours may lie up to 0.01 above. */
START_TEST(the_class_gain_is_that_of_a_published_class)
{
    const double before = 100.0 * 11.1 / 2.258 / 20.0, after = before + 100.0 * 11.1 / 20.0;
    double gain = 0.0;
    ck_assert(sl_normalised_gain(before, after, &gain));
    ck_assert(gain >= 0.73 && gain < 0.74);
    ck_assert(sl_normalised_gain(50.0, 50.0, &gain));
    ck_assert(gain == 0.0);
    ck_assert(sl_normalised_gain(40.0, 100.0, &gain));
    ck_assert_double_eq_tol(gain, 1.0, 1e-12);
    ck_assert(sl_normalised_gain(60.0, 40.0, &gain));
    ck_assert_double_eq_tol(gain, -0.5, 1e-12);
    ck_assert(!sl_normalised_gain(100.0, 100.0, &gain)); /* nothing could be gained */
}
END_TEST

START_TEST(an_item_counts_only_when_answer_and_reason_are_right)
{
    static sl_quiz quiz = {.edition = 1, .n_items = SL_QUIZ_ITEMS};
    sl_learner_answers answers;
    sl_error error = {.code = SL_OK};
    sl_quiz_class class_ = {.n_both = 0};
    ck_assert(sl_learner_answers_start(&answers, "a", &error));
    for (int i = 0; i < SL_QUIZ_ITEMS; i++) {
        quiz.item[i].answer.right = 1;
        quiz.item[i].reason.right = 2;
        for (int t = 0; t < SL_QUIZ_TIMES; t++) {
            answers.quiz[t].edition = 1;
            answers.quiz[t].answer[i] = 1;
            answers.quiz[t].reason[i] = t == SL_QUIZ_AFTER && i < 9 ? 2 : 0; /* 0 right before, 9 after */
        }
    }
    ck_assert_int_eq(sl_quiz_score(&quiz, &answers.quiz[SL_QUIZ_BEFORE]), 0);
    ck_assert_int_eq(sl_quiz_score(&quiz, &answers.quiz[SL_QUIZ_AFTER]), 9);
    sl_quiz_class_add(&class_, &quiz, &answers);
    answers.quiz[SL_QUIZ_AFTER].reason[0] = SL_NO_ANSWER; /* not taken to its end */
    ck_assert_int_eq(sl_quiz_score(&quiz, &answers.quiz[SL_QUIZ_AFTER]), -1);
    sl_quiz_class_add(&class_, &quiz, &answers);
    ck_assert_int_eq(class_.n_before, 2);
    ck_assert_int_eq(class_.n_after, 1);
    ck_assert_int_eq(class_.n_both, 1);
    ck_assert_double_eq_tol(class_.pre_pct, 0.0, 1e-12);
    ck_assert_double_eq_tol(class_.post_pct, 75.0, 1e-12);
}
END_TEST

START_TEST(a_lesson_s_number_may_follow_its_first_list)
{
    static char text[TEXT_SIZE];
    char path[PATH_SIZE], title[64];
    int number = 0;
    sl_error error;
    snprintf(path, sizeof path, "%s/head.yaml", own_folder());
    static const char *const texts[] = {"kind: lesson\nversion: 1\ntitle: T\norigin: test\nlanguage: "
                                        "en\nedition: 1\nnumber: 7\npages:\n  - {}\n",
                                        "kind: lesson\nversion: 1\ntitle: T\norigin: test\nlanguage: "
                                        "en\nedition: 1\npages:\n  - {}\nnumber: 7\n"};
    for (int i = 0; i < 2; i++) {
        snprintf(text, sizeof text, "%s", texts[i]);
        write_text(path, text);
        number = 0;
        ck_assert_msg(sl_lesson_head(path, &number, title, sizeof title, &error), "%s; %s", error.found,
                      error.wanted);
        ck_assert_int_eq(number, 7);
        ck_assert_str_eq(title, "T");
    }
    write_text(path,
               "kind: lesson\nversion: 1\ntitle: T\norigin: test\nlanguage: en\nedition: 1\npages: [1]\n");
    ck_assert(!sl_lesson_head(path, &number, title, sizeof title, &error));
    ck_assert_ptr_nonnull(strstr(error.found, "number"));
    unlink(path);
}
END_TEST

START_SUITE("lesson")
ADD(every_text_stands_with_its_numbers_filled_in)
ADD(numbers_are_what_their_formulas_say)
ADD(hair_on_a_head_gives_a_factor_and_no_time)
ADD(numbers_of_an_arm_are_those_of_its_files)
tcase_add_loop_test(tests, every_spoilt_lesson_gets_its_one_message, 0,
                    sizeof spoilings / sizeof spoilings[0]);
tcase_add_loop_test(tests, every_spoilt_translation_gets_its_one_message, 0,
                    sizeof es_spoilings / sizeof es_spoilings[0]);
ADD(a_lesson_in_spanish_has_the_same_numbers)
ADD(the_run_stays_locked_without_prediction_and_reason)
ADD(a_record_that_claims_to_be_further_does_not_open_the_run)
ADD(the_educator_can_open_the_run_and_that_is_kept)
ADD(feedback_to_a_prediction_waits_for_the_run)
ADD(the_first_answer_counts)
ADD(a_lesson_ends_on_its_last_page)
ADD(answers_are_read_back_as_they_were_kept)
ADD(answers_to_another_edition_are_refused)
ADD(a_name_is_no_code)
ADD(a_save_that_fails_leaves_the_old_file_whole)
ADD(a_broken_file_of_answers_is_refused_and_changes_nothing)
ADD(a_class_is_counted_question_by_question)
ADD(the_class_gain_is_that_of_a_published_class)
ADD(an_item_counts_only_when_answer_and_reason_are_right)
ADD(a_lesson_s_number_may_follow_its_first_list)
END_SUITE

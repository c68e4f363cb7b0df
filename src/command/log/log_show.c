/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log show`: the tests of a log, or one of them.
 */
#include <string.h>

#include "base/append.h"
#include "base/calendar.h"
#include "base/language.h"
#include "base/memory.h"
#include "base/minute.h"
#include "command/log/log_verbs.h"
#include "document/text.h"
#include "log/day/due.h"
#include "log/day/dyed.h"
#include "report/limits/limits.h"
#include "slowlift/log.h"
#include "slowlift/scene.h"

typedef struct sl_show_asked {
    const char *word[2]; /* log, test */
    bool blind;
} sl_show_asked;
static const sl_option options[] = {
    SL_OPTION(sl_show_asked, blind, sl_option_flag, .name = "blind",
              .help = N_("codes alone, for a judge: neither strips nor what was seen")),
};
const sl_command_line sl_log_show_typed = {
    .name = "log show",
    .line = N_("list the tests of a log, or what one of them holds"),
    .usage = {N_("LOG [TEST] [OPTIONS]")},
    .about = N_("The tests of a log; of one test its swatches by their codes, and what was seen at the end."),
    .set = {SL_OPTION_SET_OWN(options)},
    .words = SL_TYPED_WORDS(sl_show_asked, word, 1, 2),
    .example = {{N_("which swatches are there?"), {"slowlift log show strands.db"}}},
    .wants = {SL_WANTS_LOG},
};

static bool put_test(sl_log *log, const sl_log_test *test, sl_error *error)
{
    double speed = 0.0;
    int dyed = 0;
    char day[SL_DAY_TEXT];
    if (!sl_log_rehearsal(log, test->id, &speed, error) || !sl_log_dyed(log, test->id, &dyed, error)) {
        return false;
    }
    printf("%.8s  %.10s %.5s  ", test->id, test->made, test->made + 11);
    printf(_("\"%s\", scene %s, by %s: %d swatches, %d events, %d readings\n"), test->title, test->scene_name,
           test->operator_code, test->n_swatches, test->n_events, test->n_readings);
    if (dyed > 0) {
        sl_day_words(dyed, day);
        printf(_("Dyed on %s.\n"), day);
    }
    if (speed > 0.0) {
        fputs(_("*** A REHEARSAL: ITS CLOCK RAN FAST. NO HAIR LAY SO LONG. ***\n"), stdout);
    }
    return true;
}

/* What is still to be done about it. */
static bool put_due(sl_log *log, const char *test, sl_error *error)
{
    sl_log_due *due = NULL;
    int today = 0, n = 0, told = 0;
    char text[400];
    if (!sl_today(&today, error) || !sl_log_due_read(log, test, today, &due, &n, error)) {
        return false;
    }
    while (told < n) {
        told += sl_log_due_words(due + told, n - told, today, text, sizeof text);
        puts(text);
    }
    sl_free(due);
    return true;
}

/* Counts come from an index; whether the readings can be read is seen by reading them. */
static bool read_through(sl_log *log, const char *test, sl_error *error)
{
    return sl_log_each_reading(log, test, NULL, NULL, error);
}

static bool show_all(sl_log *log, sl_error *error)
{
    sl_log_test *tests = NULL;
    int n = 0;
    if (!read_through(log, NULL, error) || !sl_log_tests(log, &tests, &n, error)) {
        return false;
    }
    bool good = true;
    for (int i = 0; good && i < n; i++) {
        good = put_test(log, &tests[i], error) && put_due(log, tests[i].id, error);
    }
    if (n == 0) {
        puts(_("This log holds no test yet; begin one with slowlift log new."));
    }
    sl_free(tests);
    return good;
}

/* "Time ladder: pieces at 5, 10 and 20 min, the rest to its end." All swatches of a test have one plan, cut
 * short by labels; the longest tells it. */
static void put_ladder(const sl_log_swatch *swatches, int n)
{
    const sl_bench_swatch *most = NULL;
    char words[96];
    int minutes[SL_BENCH_LOOKS];
    for (int i = 0; i < n; i++) {
        const sl_bench_swatch *const bench = &swatches[i].bench;
        most = bench->ladder && (!most || bench->n_looks > most->n_looks) ? bench : most;
    }
    if (!most) {
        return;
    }
    for (int i = 0; i < most->n_looks; i++) {
        minutes[i] = most->look_s[i] / 60;
    }
    char rest[24];
    sl_minutes_words(SL_MINUTE_PLANNED, minutes, most->n_looks, words, sizeof words);
    sl_minute_words(SL_MINUTE_PLANNED, rest, sizeof rest, "%d", most->dwell_s / 60);
    printf(_("Time ladder: a piece is cut off and rinsed at %s, the rest at %s min.\n"), words, rest);
}

static bool show_swatches(sl_log *log, const char *test, const sl_scene *scene, bool blind, sl_error *error)
{
    sl_log_swatch *swatches = NULL;
    int n = 0;
    if (!sl_log_swatches(log, test, &swatches, &n, error)) {
        return false;
    }
    for (int i = 0; i < n; i++) {
        if (i == 0 || swatches[i].block != swatches[i - 1].block) {
            printf(_("%sRound %d:"), i == 0 ? "" : "\n", swatches[i].block + 1);
        }
        printf("%s %s", i > 0 && swatches[i].block == swatches[i - 1].block ? "," : "",
               swatches[i].bench.code);
        if (!blind) {
            printf(" (%s)", sl_title_of_arm(scene, swatches[i].arm));
        }
    }
    putchar('\n');
    put_ladder(swatches, n);
    sl_free(swatches);
    return true;
}

static void put_mean(const sl_scene *scene, const sl_log_mean *mean)
{
    const char *const arm = sl_title_of_arm(scene, mean->arm);
    printf("%s%*s", arm, 32 > sl_text_width(arm) ? 32 - sl_text_width(arm) : 0, "");
    char text[160] = "";
    if (mean->left > SL_NOT_READ) {
        snprintf(text, sizeof text, _("%3.0f %% left"), 100.0 * mean->left);
        if (mean->left_sd > SL_NOT_READ) {
            sl_append_item(text, sizeof text, ", ", _("swatches scatter by %.0f points of 100"),
                           100.0 * mean->left_sd);
        }
    }
    if (mean->L > SL_NOT_READ) {
        sl_append_item(text, sizeof text, "; ", "L* %.1f, a* %.1f, b* %.1f", mean->L, mean->a, mean->b);
    }
    printf(_("%s (swatches: %d, readings: %d)\n"), text[0] != '\0' ? text : _("not graded"), mean->n_swatches,
           mean->n_readings);
}

/* What was seen at the end, zone by zone, least left first; a blind look has no arms. */
static bool show_means(sl_log *log, const char *test, const sl_scene *scene, sl_error *error)
{
    sl_log_mean *means = NULL;
    int n = 0;
    if (!sl_log_means(log, test, &means, &n, error)) {
        return false;
    }
    for (int i = 0; i < n; i++) {
        if (i == 0 || strcmp(means[i].zone, means[i - 1].zone) != 0) {
            printf(_("\nSeen at the end, zone %s:\n"), sl_title_of_zone(scene, means[i].zone));
        }
        fputs("  ", stdout);
        put_mean(scene, &means[i]);
    }
    sl_free(means);
    return true;
}

static bool show_one(sl_log *log, const char *beginning, bool blind, sl_error *error)
{
    sl_log_test test;
    if (!sl_log_find(log, beginning, &test, error) || (blind && !read_through(log, test.id, error))) {
        return false;
    }
    sl_error why = {.code = SL_OK};
    sl_scene *const scene = sl_log_scene(log, test.id, &why);
    if (!scene && why.code == SL_ERR_NO_MEMORY) {
        *error = why;
        return false;
    } /* where the scene cannot be read otherwise, names serve for titles */
    const bool good = put_test(log, &test, error) && show_swatches(log, test.id, scene, blind, error) &&
                      (blind || show_means(log, test.id, scene, error)) && put_due(log, test.id, error);
    sl_scene_free(scene);
    return good;
}

sl_exit sl_command_log_show(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_show_asked asked = {.blind = false};
    sl_log *log = NULL;
    const bool good =
        sl_options_read(&sl_log_show_typed, argc, argv, &asked, &error) &&
        sl_log_open(&log, asked.word[0], SL_LOG_READ, &error) &&
        (asked.word[1] ? show_one(log, asked.word[1], asked.blind, &error) : show_all(log, &error));
    sl_exit code = good ? sl_finish_output(true) : sl_complain(&error);
    code = log ? sl_log_read_end(log, code) : code;
    sl_log_close(log);
    return code;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the start page and its views say of a folder, in either language, without a display: a day that runs
 * comes first, a line without content is not there, what cannot be opened is a line with its reason.
 */
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "base/language.h"
#include "log_made.h"
#include "suite.h"
#include "view/start/start.h"

static sl_log_made made;
static sl_start_page *start;
static sl_start_line line[SL_START_MOST];
static int n;

static void at(const char *day)
{
    ck_assert_int_eq(setenv("SLOWLIFT_TODAY", day, 1), 0);
}

static void put(const char *name, const char *text)
{
    char path[512];
    snprintf(path, sizeof path, "%s/%s", made.folder, name);
    FILE *const file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    fputs(text, file);
    fclose(file);
}

static void forget(const char *name)
{
    char path[512];
    snprintf(path, sizeof path, "%s/%s", made.folder, name);
    unlink(path);
}

static void says(sl_start_view view)
{
    sl_error error = {.code = SL_OK};
    ck_assert_msg(sl_start_read_all(start, &error), "%s", error.found);
    start->view = view;
    n = sl_start_says(start, line);
}

static int where(sl_start_act act)
{
    for (int i = 0; i < n; i++) {
        if (line[i].act == act) {
            return i;
        }
    }
    return -1;
}

static void begin(void)
{
    sl_error error = {.code = SL_OK};
    const sl_eyes eyes = {.theme = SL_THEME_LIGHT};
    ck_assert_int_eq(setenv("TZ", "UTC", 1), 0);
    tzset();
    log_made_begin(&made);
    ck_assert_int_eq(setenv("SLOWLIFT_TESTS", made.folder, 1), 0);
    at("2026-11-25");
    start = sl_start_new(SLOWLIFT_MODELS, &eyes, 1.0, &error);
    ck_assert_ptr_nonnull(start);
}

static void end(void)
{
    sl_start_free(start);
    log_made_end(&made);
    sl_language_stop();
}

START_TEST(a_line_without_content_is_not_there)
{
    char empty[] = "/tmp/slowlift-start-XXXXXX";
    ck_assert_ptr_nonnull(mkdtemp(empty));
    ck_assert_int_eq(setenv("SLOWLIFT_TESTS", empty, 1), 0);
    says(SL_START_HOME);
    ck_assert_int_eq(n, 4);
    ck_assert_int_eq(where(SL_START_EXAMPLE), 0);
    ck_assert_int_eq(where(SL_START_NEW), 1);
    ck_assert_int_eq(where(SL_START_TEACH), 2);
    ck_assert_int_eq(where(SL_START_HELP), 3);
    ck_assert_int_eq(where(SL_START_MINE), -1);
    ck_assert_int_eq(rmdir(empty), 0); /* nothing was written to be looked at */
    says(SL_START_HOME);
    ck_assert_int_eq(where(SL_START_NEW), -1);
    ck_assert_int_eq(line[1].act, SL_START_NOTHING);
    ck_assert_msg(strstr(line[1].about, empty) != NULL, "%s", line[1].about);
}
END_TEST

START_TEST(there_are_never_more_than_five_lines_and_one_of_a_day)
{
    says(SL_START_HOME);
    ck_assert_int_eq(n, 5);
    ck_assert_int_eq(where(SL_START_MINE), 2);
    ck_assert_msg(strncmp(line[2].about, "1: ", 3) == 0, "%s", line[2].about);
    ck_assert_msg(strstr(line[2].about, "only planned") != NULL, "%s", line[2].about);
}
END_TEST

START_TEST(a_day_that_runs_comes_before_everything)
{
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, log_made_swatch(&made, "powder + 3 %", 0), 60, NULL);
    says(SL_START_HOME);
    ck_assert_int_eq(n, 6);
    ck_assert_int_eq(line[0].act, SL_START_RUNNING);
    ck_assert_msg(strncmp(line[0].label, "A day is running: 1 swatch on hair, ", 36) == 0, "%s",
                  line[0].label);
    sl_start_do(start, SL_START_RUNNING, line[0].which);
    ck_assert(start->leave && start->place.go == SL_GO_DAY);
    ck_assert_str_eq(start->place.what, made.path);
    ck_assert_str_eq(start->place.test, made.test);
    at("2026-11-26"); /* past midnight */
    says(SL_START_HOME);
    ck_assert_int_eq(where(SL_START_RUNNING), 0);
    at("2026-11-27"); /* nobody comes back to it */
    says(SL_START_HOME);
    ck_assert_int_eq(where(SL_START_RUNNING), -1);
}
END_TEST

START_TEST(a_scene_and_the_log_of_its_name_are_one_test)
{
    char name[SL_SHELF_NAME];
    const char *const file = strrchr(made.path, '/') + 1;
    snprintf(name, sizeof name, "%.*s.yaml", (int)strcspn(file, "."), file);
    put(name, log_made_twice);
    put("alone.yaml", log_made_twice);
    put("broken.yaml", "kind: scene\nversion: 1\nnobody: knows\n");
    put("prices.yaml", "kind: prices\n"); /* no scene, so no test */
    put("torn.db", "SQLite format 3");
    says(SL_START_TESTS);
    ck_assert_int_eq(n, 5); /* the log's, the scene alone, two that cannot be opened, and a new one */
    ck_assert(start->my.test[line[0].which].scene && start->my.test[line[0].which].log[0] != '\0');
    int reasons = 0;
    for (int i = 0; i < n; i++) {
        reasons += line[i].act == SL_START_NOTHING && line[i].about[0] != '\0' ? 1 : 0;
    }
    ck_assert_int_eq(reasons, 2);
    ck_assert_int_eq(where(SL_START_NEW), 4);
    sl_start_do(start, SL_START_CHOOSE, line[0].which);
    n = sl_start_says(start, line);
    ck_assert(where(SL_START_ANSWER) >= 0 && where(SL_START_PLAN) >= 0 && where(SL_START_DAY) >= 0 &&
              where(SL_START_REPORT) >= 0 && where(SL_START_PAPERS) >= 0);
    ck_assert_int_eq(where(SL_START_SEEN), -1); /* nothing was */
    forget(name);
    forget("alone.yaml");
    forget("broken.yaml");
    forget("prices.yaml");
    forget("torn.db");
}
END_TEST

START_TEST(a_day_begins_with_a_log_beside_its_scene_and_never_over_a_file)
{
    sl_error error = {.code = SL_OK};
    char path[512];
    put("alone.yaml", log_made_twice);
    says(SL_START_TESTS);
    for (int i = 0; i < n; i++) {
        if (line[i].act == SL_START_CHOOSE && strcmp(start->my.test[line[i].which].name, "alone") == 0) {
            sl_start_do(start, SL_START_CHOOSE, line[i].which);
        }
    }
    ck_assert_int_eq(start->view, SL_START_TEST);
    put("alone.db", "mine");
    ck_assert(!sl_start_begin_day(start, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_WRITE);
    forget("alone.db");
    sl_start_do(start, SL_START_DAY, 0);
    ck_assert_msg(start->leave && start->place.go == SL_GO_DAY, "%s", start->said);
    snprintf(path, sizeof path, "%s/alone.db", made.folder);
    ck_assert_str_eq(start->place.what, path);
    ck_assert_int_eq(access(path, F_OK), 0);
    says(SL_START_TESTS);
    ck_assert_int_eq(n, 3); /* still one test of that name */
    forget("alone.db");
    forget("alone.yaml");
}
END_TEST

START_TEST(it_speaks_Spanish)
{
    sl_error error = {.code = SL_OK};
    char foot[1200];
    ck_assert(sl_language_use("es", "locale", &error));
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, log_made_swatch(&made, "powder + 3 %", 0), 60, NULL);
    says(SL_START_HOME);
    static const char running[] = "Hay un día en marcha: 1 muestra con mezcla en el cabello, ";
    ck_assert_msg(strncmp(line[0].label, running, strlen(running)) == 0, "%s", line[0].label);
    ck_assert_str_eq(line[where(SL_START_NEW)].label, "Prueba nueva");
    ck_assert_str_eq(line[where(SL_START_EXAMPLE)].label, "Ver el ejemplo");
    sl_start_foot(foot, sizeof foot);
    ck_assert_msg(strstr(foot, "etiqueta") != NULL, "%s", foot);
}
END_TEST

/* Of a view a key means one thing, and Space nothing but a sentence. */
START_TEST(keys_mean_one_thing)
{
    for (int view = 0; view < SL_START_VIEWS; view++) {
        for (int i = 0; i < SL_START_ACTS; i++) {
            for (int k = i + 1; k < SL_START_ACTS; k++) {
                const sl_start_row *const a = &sl_start_rows[i], *const b = &sl_start_rows[k];
                const bool both = b->key != 0 && (a->views >> view & 1U) != 0 &&
                                  (b->views >> view & 1U) != 0 && a->mod == b->mod;
                ck_assert(!both || a->key == 0 ||
                          (a->key != b->key && a->key != b->other && a->other != b->key));
            }
        }
    }
    says(SL_START_HOME);
    sl_start_do(start, SL_START_SPACE, 0);
    ck_assert(!start->leave && start->said[0] != '\0' && start->view == SL_START_HOME);
}
END_TEST

/* clang-format off */
START_SUITE("start")
    FIXTURE(begin, end)
    ADD(a_line_without_content_is_not_there)
    ADD(there_are_never_more_than_five_lines_and_one_of_a_day)
    ADD(a_day_that_runs_comes_before_everything)
    ADD(a_scene_and_the_log_of_its_name_are_one_test)
    ADD(a_day_begins_with_a_log_beside_its_scene_and_never_over_a_file)
    ADD(it_speaks_Spanish)
    ADD(keys_mean_one_thing)
END_SUITE

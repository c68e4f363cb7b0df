/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Cells, readings, means, strands and places of strands at the edge of what they may be.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "base/memory.h"
#include "log_made.h"
#include "slowlift/strand_log.h"
#include "suite.h"

static sl_log_made made;

static void set_up(void)
{
    ck_assert_int_eq(setenv("TZ", "UTC", 1), 0);
    tzset();
    log_made_begin(&made);
}

static void tear_down(void)
{
    log_made_end(&made);
}

/* ---- cells --------------------------------------------------------------------------------------------- */

static bool takes(const char *column, const char *cell, sl_log_reading *reading, sl_error *error)
{
    char text[600];
    sl_log_count count;
    sl_log_reading *rows = NULL;
    int n = 0;
    const int length =
        snprintf(text, sizeof text, "swatch,zone,judge,note,%s\nHP5,red,j1,x,%s\n", column, cell);
    log_made_write(&made, text, (size_t)length);
    if (!sl_log_import_csv(made.log, made.csv, NULL, true, &count, error)) {
        return false;
    }
    ck_assert_int_eq((int)count.readings, 1);
    ck_assert(sl_log_readings(made.log, made.test, &rows, &n, NULL));
    *reading = rows[n - 1];
    sl_free(rows);
    return true;
}

START_TEST(a_number_is_taken_however_it_may_be_written)
{
    static const struct {
        const char *cell;
        double value;
    } good[] = {{"5", 5.0},     {"5.", 5.0},    {".5", 0.5}, {"+7.25", 7.25},    {"1e1", 10.0}, {"1E1", 10.0},
                {"1e+1", 10.0}, {"50e-1", 5.0}, {"0", 0.0},  {"10000", 10000.0}, {"-0", -0.0}};
    static const char *const bad[] = {
        "five", "5 min", "1e",    "1e+", "e5",  ".",
        "-",    "0x10",  "1.2.3", "5,5", "nan", "0000000000000000000000000000000000000000000000005"};
    sl_log_reading reading;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        ck_assert_msg(takes("minute", good[i].cell, &reading, NULL), "%s", good[i].cell);
        ck_assert_double_eq(reading.minute, good[i].value);
    }
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        char quoted[80];
        sl_error error = {.code = SL_OK};
        snprintf(quoted, sizeof quoted, "\"%s\"", bad[i]);
        ck_assert_msg(!takes("minute", quoted, &reading, &error), "%s", bad[i]);
        ck_assert_int_eq(error.code, SL_ERR_BAD_NUMBER);
        ck_assert_int_eq(error.line, 2);
    }
}
END_TEST

START_TEST(a_cell_that_its_column_cannot_hold_is_told_with_the_reason)
{
    static const struct {
        const char *column, *cell;
        sl_code code;
        const char *wanted;
    } rows[] = {{"minute", "-0.5", SL_ERR_OUT_OF_RANGE, "0 to 1"},
                {"minute", "10000.1", SL_ERR_OUT_OF_RANGE, "0 to 1"},
                {"n", "0", SL_ERR_OUT_OF_RANGE, "1 to 1000"},
                {"n", "2.5", SL_ERR_BAD_NUMBER, "write a whole number"},
                {"n", "some", SL_ERR_BAD_NUMBER, "write digits"},
                {"blind", "perhaps", SL_ERR_UNKNOWN_WORD, "write yes or no"},
                {"grade", "abuot half", SL_ERR_UNKNOWN_WORD, "about half"},
                {"photo_sha256", "00ff", SL_ERR_WRONG_TYPE, "64 hexadecimal digits"},
                {"photo_sha256", "g0ff00ff00ff00ff00ff00ff00ff00ff00ff00ff00ff00ff00ff00ff00ff00ff",
                 SL_ERR_WRONG_TYPE, "64 hexadecimal digits"},
                {"id", "01a21414b319-7b7c-947d-1a8d215155c2-", SL_ERR_WRONG_TYPE, "36 characters"},
                {"tone", "a tone that is longer than its column", SL_ERR_OUT_OF_RANGE, "at most 24 bytes"},
                {"at", "yesterday", SL_ERR_WRONG_TYPE, ""}};
    sl_log_reading reading;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        sl_error error = {.code = SL_OK};
        ck_assert_msg(!takes(rows[i].column, rows[i].cell, &reading, &error), "%s", rows[i].cell);
        ck_assert_msg(error.code == rows[i].code, "%s: %s", rows[i].cell, sl_code_name(error.code));
        ck_assert_msg(strstr(error.wanted, rows[i].wanted) != NULL, "%s: %s", rows[i].cell, error.wanted);
        ck_assert_ptr_nonnull(strstr(error.wanted, "(column "));
        ck_assert_int_eq(error.line, 2);
    }
}
END_TEST

START_TEST(digits_of_ids_are_kept_in_small_letters_and_answers_in_words)
{
    sl_log_reading reading;
    ck_assert(takes("id", "01A21414-B319-7B7C-947D-1A8D215155C2", &reading, NULL));
    ck_assert_str_eq(reading.id, "01a21414-b319-7b7c-947d-1a8d215155c2");
    ck_assert(takes("blind", "yes", &reading, NULL));
    ck_assert_int_eq(reading.blind, 1);
    ck_assert(takes("blind", "no", &reading, NULL));
    ck_assert_int_eq(reading.blind, 0);
    ck_assert(takes("at", "2026-11-25T14:05:30+01:00", &reading, NULL));
    ck_assert_str_eq(reading.at, "2026-11-25T14:05:30+01:00");
}
END_TEST

START_TEST(where_cells_are_parted_by_semicolons_a_comma_is_a_point)
{
    static const char text[] = "swatch;zone;judge;note;minute\nHP5;red;j1;x;7,5\n";
    sl_log_count count;
    sl_log_reading *rows = NULL;
    int n = 0;
    log_made_write(&made, text, sizeof text - 1);
    ck_assert(sl_log_import_csv(made.log, made.csv, NULL, true, &count, NULL));
    ck_assert(sl_log_readings(made.log, made.test, &rows, &n, NULL));
    ck_assert_int_eq(n, 1);
    ck_assert_double_eq(rows[0].minute, 7.5);
    sl_free(rows);
}
END_TEST

/* ---- readings -------------------------------------------------------------------------------------------
 */

static void put(char *field, size_t size, const char *text)
{
    snprintf(field, size, "%s", text);
}

START_TEST(a_colour_is_whole_and_says_how_it_was_read)
{
    const sl_log_reading graded = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    for (int lacks = 0; lacks < 7; lacks++) {
        sl_log_reading reading = graded;
        sl_error error = {.code = SL_OK};
        reading.L = lacks == 0 ? SL_NOT_READ : 40.0;
        reading.a = lacks == 1 ? SL_NOT_READ : 10.0;
        reading.b = lacks == 2 ? SL_NOT_READ : 5.0;
        put(reading.illuminant, sizeof reading.illuminant, lacks == 3 ? "" : "D65");
        put(reading.observer, sizeof reading.observer, lacks == 4 ? "" : lacks == 5 ? "5" : "10");
        ck_assert_msg(sl_log_add(made.log, &reading, 1, &error) == (lacks == 6), "%d: %s", lacks,
                      error.found);
        ck_assert_int_eq(error.code, lacks == 6 ? SL_OK : SL_ERR_INCONSISTENT);
    }
    sl_log_reading hash = graded;
    memset(hash.photo_sha256, 'a', SL_SHA256_TEXT - 1);
    ck_assert(!sl_log_add(made.log, &hash, 1, NULL)); /* of no photo */
    sl_log_reading odd = graded;
    put(odd.note, sizeof odd.note, "a bell: \a");
    ck_assert(!sl_log_add(made.log, &odd, 1, NULL));
}
END_TEST

START_TEST(one_word_of_any_kind_is_something_said)
{
    for (int what = 0; what < 4; what++) {
        sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
        reading.said[SL_SAID_GRADE] = SL_NOT_SAID;
        ck_assert(!sl_log_add(made.log, &reading, 1, NULL));
        reading.level = what == 0 ? 7.5 : SL_NOT_READ;
        put(reading.tone, sizeof reading.tone, what == 1 ? "copper" : "");
        put(reading.photo, sizeof reading.photo, what == 2 ? "a.jpg" : "");
        memset(reading.photo_sha256, what == 2 ? 'a' : '\0', SL_SHA256_TEXT - 1);
        put(reading.note, sizeof reading.note, what == 3 ? "patchy" : "");
        ck_assert_msg(sl_log_add(made.log, &reading, 1, NULL), "%d", what);
    }
}
END_TEST

static int other_arm(void)
{
    int other = 1;
    while (strcmp(made.swatches[other].arm, made.swatches[0].arm) == 0) {
        other++;
    }
    return other;
}

static sl_log_reading by_instrument(int swatch, const char *zone, double L)
{
    sl_log_reading reading = log_made_reading(&made, swatch, zone, SL_WIPE_HALF);
    reading.said[SL_SAID_GRADE] = SL_NOT_SAID;
    reading.L = L;
    reading.a = L / 2.0;
    reading.b = -L / 4.0;
    put(reading.illuminant, sizeof reading.illuminant, "D65");
    put(reading.observer, sizeof reading.observer, "10");
    return reading;
}

/* By zone as the scene has them, least left first, what nobody graded last. */
START_TEST(means_are_of_grades_and_of_an_instrument_apart_and_in_their_order)
{
    const int other = other_arm();
    sl_log_reading readings[] = {by_instrument(0, "red", 40.0), by_instrument(0, "red", 44.0),
                                 log_made_reading(&made, other, "red", SL_WIPE_HALF),
                                 log_made_reading(&made, other, "blue", SL_WIPE_HALF),
                                 log_made_reading(&made, 0, "blue", SL_WIPE_GHOST)};
    sl_log_mean *means = NULL;
    int n = 0;
    ck_assert(sl_log_add(made.log, readings, 5, NULL));
    ck_assert(sl_log_means(made.log, made.test, &means, &n, NULL));
    ck_assert_int_eq(n, 4);
    int red = strcmp(means[0].zone, "red") == 0 ? 0 : 2; /* wherever that zone stands in the scene */
    const int blue = 2 - red;
    ck_assert_str_eq(means[red].zone, "red");
    ck_assert_str_eq(means[red].arm, made.swatches[other].arm); /* graded, so first */
    ck_assert_double_eq(means[red].left, 0.5);
    ck_assert_double_eq(means[red].L, SL_NOT_READ);
    ck_assert_double_eq(means[red].left_sd, SL_NOT_READ); /* of one swatch */
    ck_assert_double_eq(means[red + 1].left, SL_NOT_READ);
    ck_assert_double_eq_tol(means[red + 1].L, 42.0, 1e-12);
    ck_assert_double_eq_tol(means[red + 1].a, 21.0, 1e-12);
    ck_assert_double_eq_tol(means[red + 1].b, -10.5, 1e-12);
    ck_assert_str_eq(means[blue].arm, made.swatches[0].arm); /* 10 % before 50 % */
    ck_assert_double_eq_tol(means[blue].left, 0.1, 1e-12);
    ck_assert_double_eq_tol(means[blue + 1].left, 0.5, 1e-12);
    sl_free(means);
}
END_TEST

/* ---- strands ----------------------------------------------------------------------------------------------
 */

static sl_scene *scene;

static void happens(sl_event_kind kind, int swatch, int day, double minute, const char *note)
{
    sl_event event = {.kind = kind, .swatch = swatch, .reason = SL_REASON_UNSAID};
    const double s = 86400.0 * day + 43200.0 + 60.0 * minute;
    event.at = (sl_instant){(int64_t)(s * 1e9), (int64_t)(s * 1e9), "one"};
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, note, NULL));
}

static void look(int swatch, double minute, sl_wipe grade)
{
    sl_log_reading reading = log_made_reading(&made, swatch, "blue", grade);
    reading.minute = minute;
    if (minute <= SL_NOT_READ) {
        reading.said[SL_SAID_FEEL] = sl_said_of_word(SL_SAID_FEEL, "as untreated");
        reading.said[SL_SAID_STRETCH] = sl_said_of_word(SL_SAID_STRETCH, "springs back");
    }
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
}

/* Lay from minute 2 to 22 of that day. */
static void good_strand(int swatch, int day, int n_looks)
{
    happens(SL_EVENT_NOTED, swatch, day, 0.0,
            "strand: person=K12 part=nape cut=yes packet_opened=2026-11-16");
    happens(SL_EVENT_APPLIED, swatch, day, 2.0, NULL);
    for (int i = 0; i < n_looks; i++) {
        look(swatch, 2.0 + 0.5 * i, SL_WIPE_SLIGHT);
    }
    happens(SL_EVENT_RINSED, swatch, day, 22.0, NULL);
    look(swatch, SL_NOT_READ, SL_WIPE_HALF);
    char washed[SL_STRAND_NOTE_TEXT];
    sl_strand_note_words(&(sl_strand_note){.washed = true}, washed);
    happens(SL_EVENT_NOTED, swatch, day, 30.0, washed);
}

static int of_arm(const char *arm, int from)
{
    int i = from;
    while (strcmp(made.swatches[i].arm, arm) != 0) {
        i++;
    }
    return i;
}

static void set_up_strands(void)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    ck_assert_int_eq(setenv("TZ", "UTC", 1), 0);
    ck_assert_int_eq(setenv("SLOWLIFT_TODAY", "2026-11-29", 1), 0);
    tzset();
    log_made_begin_scene(&made, SLOWLIFT_MODELS "/scenes/way-wide.yaml");
    scene = sl_scene_load(SLOWLIFT_MODELS "/scenes/way-wide.yaml", &resolver, NULL);
    ck_assert_ptr_nonnull(scene);
}

static void tear_down_strands(void)
{
    sl_scene_free(scene);
    log_made_end(&made);
}

static sl_intake clear_form(void)
{
    sl_intake form = {.age_years = 40, .label_min = 30.0, .lightened = SL_REPLY_NO, .packet_day = 20773};
    put(form.person, sizeof form.person, "K12");
    put(form.qualified, sizeof form.qualified, "op-1");
    form.part = SL_HAIR_AT_NAPE;
    for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
        form.reply[q] = sl_intake_pass(q);
    }
    return form;
}

enum { TODAY = 20786 };

START_TEST(of_strands_that_count_the_newest_is_taken_and_of_others_the_one_that_lacks_least)
{
    const int older = of_arm("powder + 3 %", 0), newer = of_arm("powder + 3 %", older + 1);
    const int arm = sl_scene_arm(scene, "powder + 3 %");
    sl_intake form = clear_form();
    sl_person person = {0};
    happens(SL_EVENT_NOTED, older, 20777, 0.0, "strand: person=K12");
    happens(SL_EVENT_NOTED, newer, 20777, 0.0, "strand: person=K12 cut=yes");
    ck_assert(sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, NULL));
    ck_assert_str_eq(person.strand[arm].code, made.swatches[newer].bench.code);
    good_strand(older, 20777, 2);
    ck_assert(sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, NULL));
    ck_assert_int_eq(person.strand[arm].worth, SL_STRAND_COUNTED);
    ck_assert_str_eq(person.strand[arm].code, made.swatches[older].bench.code);
    good_strand(newer, 20778, 2);
    form = clear_form();
    ck_assert(sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, NULL));
    ck_assert_str_eq(person.strand[arm].code, made.swatches[newer].bench.code);
    ck_assert_int_eq(person.strand[arm].day, 20778);
    /* and the one that is named, whichever it is */
    ck_assert(sl_log_person(made.log, made.test, made.swatches[older].bench.code, scene, TODAY, &form,
                            &person, NULL));
    ck_assert_str_eq(person.strand[arm].code, made.swatches[older].bench.code);
    ck_assert(sl_log_person(made.log, NULL, "ZZ9", scene, TODAY, &form, &person, NULL));
    ck_assert_int_eq(person.strand[arm].worth, SL_STRAND_NONE);
    ck_assert(!sl_log_person(made.log, "ffffffff", NULL, scene, TODAY, &form, &person, NULL));
}
END_TEST

START_TEST(what_a_strand_showed_after_the_label_s_time_is_not_taken_over)
{
    const int swatch = of_arm("powder + 3 %", 0);
    const int arm = sl_scene_arm(scene, "powder + 3 %");
    sl_intake form = clear_form();
    sl_person person = {0};
    good_strand(swatch, 20777, 20); /* at 2, 2.5 ... 11.5 min, and at the end */
    form.label_min = 7.0;
    ck_assert(sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, NULL));
    ck_assert_int_eq(person.strand[arm].worth, SL_STRAND_COUNTED);
    ck_assert_int_eq(form.showed.n, 11);
    for (int i = 0; i < form.showed.n; i++) {
        ck_assert_double_le(form.showed.saw[i].minute, 7.0);
    }
}
END_TEST

START_TEST(more_looks_than_a_form_holds_ask_for_one_strand)
{
    const int swatch = of_arm("powder + 3 %", 0), other = of_arm("powder + water", 0);
    sl_intake form = clear_form();
    sl_person person = {0};
    sl_error error = {.code = SL_OK};
    good_strand(swatch, 20777, 20);
    good_strand(other, 20777, 20);
    ck_assert(!sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, &error));
    ck_assert_int_eq(error.code, SL_ERR_TOO_LARGE);
    form = clear_form();
    ck_assert(
        sl_log_person(made.log, NULL, made.swatches[swatch].bench.code, scene, TODAY, &form, &person, NULL));
    ck_assert_int_eq(form.showed.n, 21);
}
END_TEST

static bool placed(const char *place, sl_strand_worth worth, sl_error *error)
{
    sl_intake form = clear_form();
    sl_person person = {0};
    if (!sl_strand_of_place(place, scene, &form, &person, error)) {
        return false;
    }
    ck_assert_ptr_eq(person.form, &form);
    ck_assert_msg(person.strand[sl_scene_arm(scene, "powder + 3 %")].worth == worth, "%s", place);
    return true;
}

START_TEST(a_strand_is_found_by_log_test_and_swatch)
{
    const int swatch = of_arm("powder + 3 %", 0);
    const char *const code = made.swatches[swatch].bench.code;
    char place[400];
    good_strand(swatch, 20777, 2);
    ck_assert(placed(made.path, SL_STRAND_COUNTED, NULL));
    snprintf(place, sizeof place, "%s:%.8s", made.path, made.test);
    ck_assert(placed(place, SL_STRAND_COUNTED, NULL));
    snprintf(place, sizeof place, "%s:%.8s:%s", made.path, made.test, code);
    ck_assert(placed(place, SL_STRAND_COUNTED, NULL));
    snprintf(place, sizeof place, "%s::%s", made.path, code); /* of any test */
    ck_assert(placed(place, SL_STRAND_COUNTED, NULL));
    snprintf(place, sizeof place, "%s:%.8s:ZZ9", made.path, made.test);
    ck_assert(placed(place, SL_STRAND_NONE, NULL));
    snprintf(place, sizeof place, "%s:ffffffff", made.path);
    ck_assert(!placed(place, SL_STRAND_NONE, NULL));
    snprintf(place, sizeof place, "%s/none.db", made.folder);
    sl_error error = {.code = SL_OK};
    ck_assert(!placed(place, SL_STRAND_NONE, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
    snprintf(place, sizeof place, "%s/none.db:%.8s:%s", made.folder, made.test, code);
    ck_assert(!placed(place, SL_STRAND_NONE, NULL));
}
END_TEST

START_TEST(a_log_whose_name_holds_a_colon_is_found_too)
{
    char named[200], place[400];
    long long rows = 0;
    good_strand(of_arm("powder + 3 %", 0), 20777, 2);
    snprintf(named, sizeof named, "%s/a:b.db", made.folder);
    ck_assert(sl_log_backup(made.path, named, &rows, NULL));
    ck_assert(placed(named, SL_STRAND_COUNTED, NULL));
    snprintf(place, sizeof place, "%s:%.8s", named, made.test);
    ck_assert(placed(place, SL_STRAND_COUNTED, NULL));
    unlink(named);
}
END_TEST

START_TEST(a_place_that_no_path_can_be_is_refused)
{
    sl_error error = {.code = SL_OK};
    char *const endless = malloc(9000);
    ck_assert_ptr_nonnull(endless);
    memset(endless, 'a', 8999);
    endless[8999] = '\0';
    ck_assert(!placed(endless, SL_STRAND_NONE, &error));
    ck_assert_int_ne(error.code, SL_OK);
    free(endless);
    ck_assert_int_eq(setenv("SLOWLIFT_TODAY", "soon", 1), 0);
    ck_assert(!placed(made.path, SL_STRAND_NONE, &error));
    ck_assert_int_eq(error.code, SL_ERR_USAGE);
}
END_TEST

START_SUITE("log edges")
FIXTURE(set_up, tear_down)
ADD(a_number_is_taken_however_it_may_be_written)
ADD(a_cell_that_its_column_cannot_hold_is_told_with_the_reason)
ADD(digits_of_ids_are_kept_in_small_letters_and_answers_in_words)
ADD(where_cells_are_parted_by_semicolons_a_comma_is_a_point)
ADD(a_colour_is_whole_and_says_how_it_was_read)
ADD(one_word_of_any_kind_is_something_said)
ADD(means_are_of_grades_and_of_an_instrument_apart_and_in_their_order)
CASE("strands")
FIXTURE(set_up_strands, tear_down_strands)
ADD(of_strands_that_count_the_newest_is_taken_and_of_others_the_one_that_lacks_least)
ADD(what_a_strand_showed_after_the_label_s_time_is_not_taken_over)
ADD(more_looks_than_a_form_holds_ask_for_one_strand)
ADD(a_strand_is_found_by_log_test_and_swatch)
ADD(a_log_whose_name_holds_a_colon_is_found_too)
ADD(a_place_that_no_path_can_be_is_refused)
END_SUITE

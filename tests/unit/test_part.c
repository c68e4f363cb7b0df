/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/part.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "scene/part/part_lines.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;
static const sl_observations seen = {
    2,
    {{.arm = ARM_6, .zone = ZONE_VIOLET, .minute = 4.0, .wipe = SL_WIPE_HALF},
     {.arm = ARM_3, .zone = SL_OBSERVED_ALL_ZONES, .minute = 6.5, .wipe = SL_WIPE_SLIGHT, .strand = true}}};

static void fresh(void)
{
    small_scene_fill(&small);
    small.scene.aims = small_aims;
}

/* One arm: the others would only take time. */
static void fresh_one(void)
{
    fresh();
    small.arms[0] = small.arms[ARM_6];
    small.scene.n_arms = 1;
}

/* Those that were looked at: the others would only take time. */
static void fresh_two(void)
{
    fresh();
    for (int a = ARM_WASHING; a <= ARM_MILD; a++) {
        small.arms[a].undyed = a != ARM_6 && a != ARM_3;
    }
}

static sl_spread *run(sl_member_range range, const sl_observations *observations, uint64_t seed)
{
    sl_spread *spread = NULL;
    const sl_spread_request request = {.first_member = range.first,
                                       .members = range.members,
                                       .seed = seed,
                                       .threads = 1 + (int)(range.first % 2),
                                       .observations = observations};
    ck_assert(sl_spread_run(&spread, &small.scene, &request, NULL));
    return spread;
}

typedef struct text {
    char *bytes;
    size_t length;
} text;

static text written(const sl_spread *spread)
{
    text t = {0};
    FILE *const out = open_memstream(&t.bytes, &t.length);
    ck_assert_ptr_nonnull(out);
    ck_assert(sl_part_write(out, spread, &small.scene, NULL));
    ck_assert_int_eq(fclose(out), 0);
    return t;
}

static sl_spread *parsed(text t)
{
    sl_error error = {0};
    sl_spread *part = NULL;
    ck_assert_msg(sl_part_parse(&part, &small.scene, t.bytes, t.length, "part", &error), "%d: %s", error.line,
                  error.found);
    return part;
}

static void refused(text t, sl_code code)
{
    sl_error error = {0};
    sl_spread *part = NULL;
    ck_assert(!sl_part_parse(&part, &small.scene, t.bytes, t.length, "one.part", &error));
    ck_assert_int_eq(error.code, code);
    ck_assert_str_eq(error.file, "one.part");
    ck_assert_int_gt(error.line, 0);
    ck_assert_uint_gt(strlen(error.found), 0);
    ck_assert_uint_gt(strlen(error.wanted), 0);
    ck_assert_ptr_null(part);
}

START_TEST(a_part_read_back_writes_the_same_bytes)
{
    for (int with = 0; with < 2; with++) {
        fresh();
        sl_spread *const spread = run((sl_member_range){32, 200}, with ? &seen : NULL, UINT64_MAX);
        const text once = written(spread);
        sl_spread *const part = parsed(once);
        const text twice = written(part);
        ck_assert_uint_eq(once.length, twice.length);
        ck_assert_mem_eq(once.bytes, twice.bytes, once.length);
        sl_spread_free(spread);
        sl_spread_free(part);
        free(once.bytes);
        free(twice.bytes);
    }
}
END_TEST

/* Three parts in any order, one of them from a file: the bytes of the whole run. */
START_TEST(parts_added_up_are_the_bytes_of_the_whole)
{
    static const int orders[2][3] = {{1, 2, 3}, {3, 1, 2}};
    for (int with = 0; with < 2; with++) {
        fresh_two();
        const sl_observations *const observations = with ? &seen : NULL;
        sl_spread *const whole = run((sl_member_range){0, 500}, observations, 5);
        const text wanted = written(whole);
        for (int o = 0; o < 2; o++) {
            sl_spread *const sum = run(sl_part_range(500, orders[o][0], 3), observations, 5);
            for (int i = 1; i < 3; i++) {
                sl_spread *const fresh_part = run(sl_part_range(500, orders[o][i], 3), observations, 5);
                const text t = written(fresh_part);
                sl_spread *const part = parsed(t);
                ck_assert(sl_spread_add(sum, part, NULL));
                sl_spread_free(part);
                sl_spread_free(fresh_part);
                free(t.bytes);
            }
            const text got = written(sum);
            ck_assert_uint_eq(wanted.length, got.length);
            ck_assert_mem_eq(wanted.bytes, got.bytes, got.length);
            ck_assert_int_eq(sum->n_ranges, 1);
            free(got.bytes);
            sl_spread_free(sum);
        }
        free(wanted.bytes);
        sl_spread_free(whole);
    }
}
END_TEST

START_TEST(every_member_is_in_exactly_one_part)
{
    for (long members = 1; members < 40; members++) {
        for (int parts = 1; parts <= members; parts++) {
            long next = 0;
            for (int i = 1; i <= parts; i++) {
                const sl_member_range range = sl_part_range(members, i, parts);
                ck_assert_int_eq(range.first, next);
                ck_assert_int_ge(range.members, members / parts);
                next += range.members;
            }
            ck_assert_int_eq(next, members);
        }
    }
}
END_TEST

static void add_refused(sl_spread *sum, sl_spread *part)
{
    const long before = sum->members;
    sl_error error = {0};
    ck_assert(!sl_spread_add(sum, part, &error));
    ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
    ck_assert_uint_gt(strlen(error.found), 10);
    ck_assert_int_eq(sum->members, before);
    sl_spread_free(part);
}

START_TEST(parts_that_do_not_belong_together_are_not_added_up)
{
    fresh_two();
    sl_spread *const sum = run((sl_member_range){0, 100}, &seen, 5);
    add_refused(sum, run((sl_member_range){99, 5}, &seen, 5));
    add_refused(sum, run((sl_member_range){0, 100}, &seen, 5));
    add_refused(sum, run((sl_member_range){100, 5}, &seen, 6));
    add_refused(sum, run((sl_member_range){100, 5}, NULL, 5));
    sl_observations other = seen;
    other.observation[0].wipe = SL_WIPE_GHOST;
    add_refused(sum, run((sl_member_range){100, 5}, &other, 5));
    sl_spread *const stopped = run((sl_member_range){100, 5}, &seen, 5);
    stopped->stopped = true;
    text t = {0};
    FILE *const out = open_memstream(&t.bytes, &t.length);
    sl_error error = {0};
    ck_assert(!sl_part_write(out, stopped, &small.scene, &error));
    ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
    fclose(out);
    free(t.bytes);
    add_refused(sum, stopped);
    sl_spread_free(sum);
}
END_TEST

START_TEST(a_part_of_another_scene_is_refused)
{
    fresh();
    sl_spread *const spread = run((sl_member_range){0, 32}, NULL, 5);
    const text t = written(spread);
    small.scene.room_c += 1e-9;
    refused(t, SL_ERR_INCONSISTENT);
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

START_TEST(one_changed_byte_or_an_early_end_is_seen)
{
    fresh_two();
    sl_spread *const spread = run((sl_member_range){0, 32}, &seen, 5);
    const text t = written(spread);
    for (size_t i = strlen("slowlift-part 2\n"); i < t.length; i += 5) {
        const char kept = t.bytes[i];
        t.bytes[i] = kept == '1' ? '2' : '1';
        refused(t, SL_ERR_SYNTAX);
        t.bytes[i] = kept;
    }
    for (size_t length = 0; length < t.length; length += 11) {
        refused((text){t.bytes, length}, SL_ERR_SYNTAX);
    }
    refused((text){t.bytes, t.length - 1}, SL_ERR_SYNTAX);
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

/* Somebody who mends the checksum as well still cannot make counts that do not add up. */
static void mend(text t)
{
    const size_t tail = 26;
    char line[32];
    const uint64_t hash = sl_fnv(SL_FNV_START, t.bytes, t.length - tail);
    snprintf(line, sizeof line, "checksum %016llx\n", (unsigned long long)hash);
    memcpy(t.bytes + t.length - tail, line, tail);
}

START_TEST(counts_that_do_not_add_up_are_refused_even_with_a_checksum_that_fits)
{
    fresh();
    sl_spread *const spread = run((sl_member_range){0, 64}, &seen, 5);
    static const char *const places[] = {"\nmembers 64", "\nearly ",  "\nlate ", "\nlate-by ", "\nleft ",
                                         "\nlast-zone ", "\nbins 0 ", "\narm 1", "\nmargin ",  "\nrange 0 64",
                                         "\nweights ",   "\nsaw 4 ",  "\nseed "};
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        const text t = written(spread);
        char *const at = strstr(t.bytes, places[i]);
        ck_assert_ptr_nonnull(at);
        at[strlen(places[i]) - 1] = 'x';
        mend(t);
        refused(t, SL_ERR_SYNTAX);
        free(t.bytes);
    }
    const text t = written(spread);
    char *const count = strchr(strstr(t.bytes, "\nearly "), ':') + 1;
    *count = *count == '9' ? '8' : (char)(*count + 1);
    mend(t);
    refused(t, SL_ERR_SYNTAX);
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

START_TEST(a_file_of_another_kind_or_a_newer_version_says_so)
{
    fresh();
    char newer[] = "slowlift-part 3\nchecksum 0123456789abcdef\n";
    refused((text){newer, strlen(newer)}, SL_ERR_NEWER_VERSION);
    char other[] = "kind: scene\nversion: 1\ntitle: something else that is long enough\n";
    refused((text){other, strlen(other)}, SL_ERR_SYNTAX);
}
END_TEST

/* A grade that is none would be read past the end of a table. */
START_TEST(a_part_with_a_grade_that_is_none_is_refused_though_its_checksum_fits)
{
    fresh();
    const sl_observations one = {
        1, {{.arm = ARM_6, .zone = ZONE_VIOLET, .minute = 4.0, .wipe = SL_WIPE_UNDYED}}};
    sl_spread *const spread = run((sl_member_range){0, 32}, &one, 5);
    const text t = written(spread);
    char *const observation = strstr(t.bytes, "\nsaw ");
    ck_assert_ptr_nonnull(observation);
    char *at = observation + strlen("\nsaw ");
    for (int words = 0; words < 3; words++) { /* arm, zone, minute */
        at = strchr(at, ' ') + 1;
    }
    ck_assert_int_eq(*at, '0' + SL_WIPE_UNDYED);
    ck_assert_int_eq(at[1], ' ');
    sl_spread_free(parsed(t));
    for (char grade = '0' + SL_WIPES; grade <= '9'; grade++) {
        *at = grade;
        mend(t);
        refused(t, SL_ERR_SYNTAX);
    }
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

/* ---- one line at a time ---------------------------------------------------------------------- */

/* What stands from `begin` up to `end` (both found in the text, `end` behind `begin`) is `instead`; the
 * checksum is mended. */
static text replaced(text t, const char *begin, const char *end, const char *instead)
{
    text made = {0};
    FILE *const out = open_memstream(&made.bytes, &made.length);
    ck_assert(begin && end && out && begin < end);
    fwrite(t.bytes, 1, (size_t)(begin - t.bytes), out);
    fputs(instead, out);
    fwrite(end, 1, (size_t)(t.bytes + t.length - end), out);
    ck_assert_int_eq(fclose(out), 0);
    mend(made);
    return made;
}

static int line_of(text t, const char *at)
{
    int line = 1;
    for (const char *c = t.bytes; c < at; c++) {
        line += *c == '\n' ? 1 : 0;
    }
    return line;
}

/* SL_OK, or why the text is refused; then the line that is named must be `line` (0: any). */
static sl_code said_of(text t, int line)
{
    sl_error error = {0};
    sl_spread *part = NULL;
    const bool good = sl_part_parse(&part, &small.scene, t.bytes, t.length, "one.part", &error);
    ck_assert_int_eq(good, part != NULL);
    ck_assert_int_eq(good, error.code == SL_OK);
    if (!good && line > 0) {
        ck_assert_msg(error.line == line, "line %d instead of %d", error.line, line);
    }
    sl_spread_free(part);
    return error.code;
}

typedef struct word_case {
    const char *line; /* how it begins, behind the end of the one before */
    int word;         /* from 0, behind the beginning */
    const char *instead;
    sl_code code;
} word_case;

static void word_said(text t, const word_case *c)
{
    const char *begin = strstr(t.bytes, c->line);
    ck_assert_ptr_nonnull(begin);
    const int line = line_of(t, begin + 1);
    begin += strlen(c->line);
    for (int i = 0; i < c->word; i++) {
        begin = strchr(begin, ' ') + 1;
    }
    const text made = replaced(t, begin, begin + strcspn(begin, " \n"), c->instead);
    const sl_code code =
        said_of(made, c->code == SL_ERR_SYNTAX || strcmp(c->line, "\ndrawn ") == 0 ? line : 0);
    ck_assert_msg(code == c->code, "%s word %d as %s: %s", c->line + 1, c->word, c->instead,
                  sl_code_name(code));
    free(made.bytes);
}

/* Every number at the last value that it may have, and one further (docs/file-format.md, "Parts"). */
START_TEST(each_number_of_a_part_is_taken_up_to_its_bound_and_refused_behind_it)
{
    static const word_case cases[] = {
        {"\nseed ", 0, "18446744073709551615", SL_OK},
        {"\nseed ", 0, "18446744073709551616", SL_ERR_SYNTAX},
        {"\nseed ", 0, "18446744073709551620", SL_ERR_SYNTAX},
        {"\nseed ", 0, "99999999999999999999", SL_ERR_SYNTAX},
        {"\nseed ", 0, "0", SL_OK},
        {"\nseed ", 0, "-1", SL_ERR_SYNTAX},
        {"\nseed ", 0, "", SL_ERR_SYNTAX},
        {"\nseed ", 0, "5x", SL_ERR_SYNTAX},
        {"\nseed ", 0, "5 5", SL_ERR_SYNTAX},
        {"\nmembers ", 0, "0", SL_ERR_SYNTAX},
        {"\nmembers ", 0, "2147483648", SL_ERR_SYNTAX},
        {"\nmembers ", 0, "64 ", SL_ERR_SYNTAX},
        {"\nrange ", 0, "1", SL_OK},
        {"\nrange ", 0, "-1", SL_ERR_SYNTAX},
        {"\nrange ", 0, "2147483647000", SL_OK},
        {"\nrange ", 0, "2147483647001", SL_ERR_SYNTAX},
        {"\nrange ", 1, "65", SL_ERR_SYNTAX},
        {"\nrange ", 1, "0", SL_ERR_SYNTAX},
        {"\ndrawn ", 0, "-1", SL_ERR_SYNTAX},
        {"\ndrawn ", 0, "13", SL_ERR_INCONSISTENT}, /* a dye: the first that is drawn is none */
        {"\ndrawn ", 0, "16", SL_ERR_INCONSISTENT}, /* and none divides a target */
        {"\ndrawn ", 0, "20", SL_ERR_INCONSISTENT},
        {"\ndrawn ", 0, "21", SL_ERR_SYNTAX},
        {"\ndrawn ", 1, "-2", SL_ERR_SYNTAX},
        {"\ndrawn ", 1, "32767", SL_ERR_INCONSISTENT},
        {"\ndrawn ", 1, "32768", SL_ERR_SYNTAX},
        {"\ndrawn ", 2, "3ff0000000000001", SL_ERR_INCONSISTENT},
        {"\ndrawn ", 2, "0000000000000000", SL_ERR_INCONSISTENT},
        {"\ndrawn ", 2, "7ff0000000000000", SL_ERR_SYNTAX}, /* infinite */
        {"\ndrawn ", 2, "3FF0000000000000", SL_ERR_SYNTAX},
        {"\ndrawn ", 2, "3ff000000000000", SL_ERR_SYNTAX},
        {"\ndrawn ", 2, "3ff00000000000000", SL_ERR_SYNTAX},
        {"\ndrawn ", 2, "3ff000000000000g", SL_ERR_SYNTAX},
        {"\ndrawn ", 3, "-1", SL_ERR_SYNTAX},
        {"\nsaw ", 0, "-1", SL_ERR_SYNTAX},
        {"\nsaw ", 0, "2", SL_OK},
        {"\nsaw ", 0, "64", SL_ERR_INCONSISTENT}, /* SL_MAX_ARMS: no arm of this scene */
        {"\nsaw ", 0, "65", SL_ERR_SYNTAX},
        {"\nsaw ", 1, "-1", SL_OK}, /* all zones */
        {"\nsaw ", 1, "-2", SL_ERR_SYNTAX},
        {"\nsaw ", 1, "32", SL_ERR_INCONSISTENT}, /* SL_MAX_ZONES */
        {"\nsaw ", 1, "33", SL_ERR_SYNTAX},
        {"\nsaw ", 2, "404e000000000000", SL_OK}, /* 60 min: as the scene ends */
        {"\nsaw ", 2, "404e000000000001", SL_ERR_INCONSISTENT},
        {"\nsaw ", 2, "7ff8000000000000", SL_ERR_SYNTAX}, /* no number */
        {"\nsaw ", 3, "0", SL_OK},
        {"\nsaw ", 3, "-1", SL_ERR_SYNTAX},
        {"\nsaw ", 4, "0", SL_OK},
        {"\nsaw ", 4, "1", SL_OK},
        {"\nsaw ", 4, "2", SL_ERR_SYNTAX},
        {"\nsaw ", 4, "-1", SL_ERR_SYNTAX},
        {"\nsaw ", 5, "0", SL_OK},
        {"\nsaw ", 5, "64", SL_OK},
        {"\nsaw ", 5, "65", SL_ERR_SYNTAX},
        {"\nsaw ", 5, "-1", SL_ERR_SYNTAX},
        {"\nweights ", 0, "-2000", SL_OK},
        {"\nweights ", 0, "2000", SL_OK},
        {"\nweights ", 0, "-2001", SL_ERR_SYNTAX},
        {"\nweights ", 0, "2001", SL_ERR_SYNTAX},
        {"\nweights ", 1, "1048577", SL_ERR_SYNTAX}, /* 64 members of at most 16384 */
        {"\nweights ", 1, "-1", SL_ERR_SYNTAX},
        {"\nweights ", 2, "0", SL_OK},
        {"\nweights ", 2, "9223372036854775807", SL_OK},
        {"\nweights ", 2, "9223372036854775808", SL_ERR_SYNTAX},
        {"\nweights ", 2, "-1", SL_ERR_SYNTAX},
        {"\nweights ", 3, "0", SL_OK},
        {"\nweights ", 3, "64", SL_OK},
        {"\nweights ", 3, "65", SL_ERR_SYNTAX},
        {"\nweights ", 3, "-1", SL_ERR_SYNTAX},
        {"\nweights ", 4, "0", SL_OK},
        {"\nweights ", 4, "64", SL_OK},
        {"\nweights ", 4, "65", SL_ERR_SYNTAX},
        {"\nweights ", 4, "-1", SL_ERR_SYNTAX},
        {"\nweights ", 4, "1 1", SL_ERR_SYNTAX},
        {"\narm ", 0, "3", SL_ERR_SYNTAX}, /* the first that is asked is 2 */
        {"\narm ", 0, "1", SL_ERR_SYNTAX},
        {"\narm ", 0, "2 ", SL_ERR_SYNTAX},
        {"\nweighed ", 0, "3", SL_ERR_SYNTAX},
        {"\nmargin ", 0, "-9223372036854775807", SL_OK},
        {"\nmargin ", 0, "9223372036854775807", SL_OK},
        {"\nmargin ", 0, "9223372036854775808", SL_ERR_SYNTAX},
        {"\nmargin ", 0, "-9223372036854775808", SL_ERR_SYNTAX},
        {"\nmargin ", 1, "0", SL_OK},
        {"\nmargin ", 1, "-1", SL_ERR_SYNTAX},
        {"\nmargin ", 1, "0 0", SL_ERR_SYNTAX},
        {"\nbins ", 0, "1", SL_ERR_SYNTAX},
        {"\nbins ", 2, "-9223372036854775807", SL_OK},
        {"\nbins ", 59, "9223372036854775807", SL_OK},
        {"\nbins ", 60, "0 0", SL_ERR_SYNTAX},
        {"\nbins ", 60, "64", SL_ERR_SYNTAX}, /* more in time than there are */
        {"\nbins ", 1, "65", SL_ERR_SYNTAX},
        {"\nlate-by ", 4, "0 0", SL_ERR_SYNTAX},
    };
    fresh();
    small.arms[ARM_WASHING].undyed = true; /* not asked for */
    sl_spread *const spread = run((sl_member_range){0, 64}, &seen, 5);
    const text t = written(spread);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        word_said(t, &cases[i]);
    }
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

START_TEST(a_line_of_what_is_drawn_must_be_the_plan_s_in_each_word)
{
    fresh_one();
    sl_spread *const spread = run((sl_member_range){0, 16}, NULL, 5);
    const text t = written(spread);
    char grade[2] = "0";
    for (int g = 0; g < SL_GRADE_COUNT; g++, grade[0]++) {
        const word_case c = {"\ndrawn ", 3, grade,
                             g == (int)spread->plan.drawn[0].grade ? SL_OK : SL_ERR_INCONSISTENT};
        word_said(t, &c);
    }
    word_said(t, &(word_case){"\ndrawn ", 3, grade, SL_ERR_SYNTAX});
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

/* Joined neighbours are one range: two that touch are not written, and not taken. */
START_TEST(ranges_of_members_rise_with_gaps_and_are_all_that_was_counted)
{
    static const struct {
        const char *lines;
        sl_code code;
    } cases[] = {{"range 0 64", SL_OK},
                 {"range 0 32\nrange 33 32", SL_OK},
                 {"range 0 32\nrange 32 32", SL_ERR_SYNTAX},
                 {"range 33 32\nrange 0 32", SL_ERR_SYNTAX},
                 {"range 0 32\nrange 33 31", SL_ERR_SYNTAX},
                 {"range 0 32\nrange 33 33", SL_ERR_SYNTAX},
                 {"range 0 63\nrange 65 1", SL_OK},
                 {"range 0 64\nrange 66 0", SL_ERR_SYNTAX}};
    fresh_one();
    sl_spread *const spread = run((sl_member_range){0, 64}, NULL, 5);
    const text t = written(spread);
    const char *const begin = strstr(t.bytes, "range ");
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const text made = replaced(t, begin, strchr(begin, '\n'), cases[i].lines);
        const sl_code code = said_of(made, 0);
        ck_assert_msg(code == cases[i].code, "%s: %s", cases[i].lines, sl_code_name(code));
        free(made.bytes);
    }
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

/* As many ranges as there may be (docs: 512), and one more. */
START_TEST(a_part_of_too_many_ranges_is_refused)
{
    fresh_one();
    sl_spread *const spread = run((sl_member_range){0, SL_MOST_RANGES + 1}, NULL, 5);
    const text t = written(spread);
    const char *const begin = strstr(t.bytes, "range ");
    for (int over = 0; over < 2; over++) {
        text lines = {0};
        FILE *const out = open_memstream(&lines.bytes, &lines.length);
        for (int i = 0; i < SL_MOST_RANGES + over; i++) {
            fprintf(out, "%srange %d %d", i > 0 ? "\n" : "", 3 * i, i == 0 && over == 0 ? 2 : 1);
        }
        fclose(out);
        const text made = replaced(t, begin, strchr(begin, '\n'), lines.bytes);
        ck_assert_int_eq(said_of(made, over ? 5 + SL_MOST_RANGES + 1 : 0), over ? SL_ERR_SYNTAX : SL_OK);
        free(lines.bytes);
        free(made.bytes);
    }
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

/* A scene of an hour has bins 0..3599 and a last one, 3600, for "never"; five zones; 0..100 per cent. */
START_TEST(bins_rise_lie_inside_the_scene_and_add_up)
{
    static const struct {
        const char *line, *bins, *open;
        sl_code code;
        int open_members;
    } cases[] = {{"\nearly ", "3600:64", "", SL_OK, 0},
                 {"\nearly ", "3601:64", "", SL_ERR_SYNTAX, 0},
                 {"\nearly ", "0:64", "", SL_OK, 0},
                 {"\nearly ", "-1:64", "", SL_ERR_SYNTAX, 0},
                 {"\nearly ", "10:32 11:32", "", SL_OK, 0},
                 {"\nearly ", "10:32 10:32", "", SL_ERR_SYNTAX, 0},
                 {"\nearly ", "11:32 10:32", "", SL_ERR_SYNTAX, 0},
                 {"\nearly ", "10:32 11:31", "", SL_ERR_SYNTAX, 0},
                 {"\nearly ", "10:32 11:33", "", SL_ERR_SYNTAX, 0},
                 {"\nearly ", "10:32 11", "", SL_ERR_SYNTAX, 0},
                 {"\nearly ", "10:64:", "", SL_ERR_SYNTAX, 0},
                 {"\nearly ", "10:64 11:9223372036854775808 12:9223372036854775808", "", SL_ERR_SYNTAX, 0},
                 {"\nearly ", "10:32 11:32", " 10:32", SL_OK, 32}, /* all of them are open */
                 {"\nearly ", "10:32 11:32", " 10:32 11:7", SL_OK, 39},
                 {"\nearly ", "10:32 11:32", " 10:33", SL_ERR_SYNTAX, 0},
                 {"\nearly ", "10:32 11:32", " 12:1", SL_ERR_SYNTAX, 0},
                 {"\nearly ", "10:32 3600:32", " 3600:33", SL_ERR_SYNTAX, 0},
                 {"\nlast-zone ", "4:64", NULL, SL_OK, -1},
                 {"\nlast-zone ", "5:64", NULL, SL_ERR_SYNTAX, -1},
                 {"\nleft ", "100:64", NULL, SL_OK, -1},
                 {"\nleft ", "101:64", NULL, SL_ERR_SYNTAX, -1},
                 {"\nleft ", "100:65", NULL, SL_ERR_SYNTAX, -1},
                 {"\nlate ", "3600:64", NULL, SL_OK, -1},
                 {"\nlate ", "3601:64", NULL, SL_ERR_SYNTAX, -1}};
    fresh_one();
    sl_spread *const spread = run((sl_member_range){0, 64}, NULL, 5);
    const text t = written(spread);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char lines[160];
        const char *const begin = strstr(t.bytes, cases[i].line) + 1;
        const char *end = strchr(begin, '\n');
        if (cases[i].open) {
            end = strchr(end + 1, '\n');
            snprintf(lines, sizeof lines, "early %s\nopen-early%s", cases[i].bins, cases[i].open);
        } else {
            snprintf(lines, sizeof lines, "%s%s", cases[i].line + 1, cases[i].bins);
        }
        const text made = replaced(t, begin, end, lines);
        const sl_code code = said_of(made, 0);
        ck_assert_msg(code == cases[i].code, "%s: %s", lines, sl_code_name(code));
        if (code == SL_OK && cases[i].open_members >= 0) {
            sl_spread *const part = parsed(made);
            ck_assert_int_eq(part->arms[0].open, cases[i].open_members);
            sl_spread_free(part);
        }
        free(made.bytes);
    }
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

START_TEST(what_a_part_counts_as_open_comes_back)
{
    fresh();
    sl_spread *const spread = run((sl_member_range){0, 64}, &seen, 5);
    const text t = written(spread);
    sl_spread *const part = parsed(t);
    ck_assert_int_gt(spread->arms[ARM_6].open, 0);
    for (int a = ARM_WASHING; a <= ARM_MILD; a++) {
        ck_assert_int_eq(part->arms[a].open, spread->arms[a].open);
        ck_assert_int_eq(part->weighed[a].open, spread->weighed[a].open);
    }
    ck_assert_int_eq(part->members, 64);
    ck_assert_int_eq(part->asked_for, 64);
    ck_assert(!part->stopped);
    free(t.bytes);
    sl_spread_free(part);
    sl_spread_free(spread);
}
END_TEST

/* The line of the version that counted it is held to every byte: shorter, longer, another. */
START_TEST(a_part_of_another_version_of_the_program_is_told_by_its_whole_line)
{
    static const struct {
        const char *before;
        int own; /* so many bytes of ours */
        const char *behind;
        sl_code code;
        int line;
    } cases[] = {{"", 60, "\n", SL_ERR_SYNTAX, 3}, /* ours; then the file ends too soon */
                 {"", 60, "", SL_ERR_INCONSISTENT, 2},    {"", 60, "0\n", SL_ERR_INCONSISTENT, 2},
                 {"", 60, " \n", SL_ERR_INCONSISTENT, 2}, {" ", 60, "\n", SL_ERR_INCONSISTENT, 2},
                 {"", 3, "\n", SL_ERR_INCONSISTENT, 2},   {"9", 60, "\n", SL_ERR_INCONSISTENT, 2}};
    fresh_one();
    sl_spread *const spread = run((sl_member_range){0, 16}, NULL, 5);
    const text t = written(spread);
    const char *const own = strstr(t.bytes, "\nprogram ") + strlen("\nprogram ");
    char version[64];
    snprintf(version, sizeof version, "%.*s", (int)strcspn(own, "\n"), own);
    ck_assert_uint_gt(strlen(version), 3);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char bytes[256];
        snprintf(bytes, sizeof bytes, "slowlift-part 2\nprogram %s%.*s%schecksum 0123456789abcdef\n",
                 cases[i].before, cases[i].own, version, cases[i].behind);
        const text made = {bytes, strlen(bytes)};
        mend(made);
        ck_assert_int_eq(said_of(made, cases[i].line), cases[i].code);
    }
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

START_TEST(a_part_of_no_version_is_no_newer_one)
{
    static const struct {
        const char *version, *found;
        sl_code code;
    } cases[] = {{"0", NULL, SL_ERR_SYNTAX},     {"3", "3", SL_ERR_NEWER_VERSION},
                 {"-1", NULL, SL_ERR_SYNTAX},    {"32767", "32767", SL_ERR_NEWER_VERSION},
                 {"32768", NULL, SL_ERR_SYNTAX}, {"1x", NULL, SL_ERR_SYNTAX},
                 {"1 ", NULL, SL_ERR_SYNTAX},    {"", NULL, SL_ERR_SYNTAX}};
    fresh_one();
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char bytes[128];
        sl_error error = {0};
        sl_spread *part = NULL;
        snprintf(bytes, sizeof bytes, "slowlift-part %s\nchecksum 0123456789abcdef\n", cases[i].version);
        ck_assert(!sl_part_parse(&part, &small.scene, bytes, strlen(bytes), "one.part", &error));
        ck_assert_int_eq(error.code, cases[i].code);
        ck_assert_int_eq(error.line, 1);
        if (cases[i].found) {
            ck_assert_str_eq(error.found, cases[i].found);
        }
    }
}
END_TEST

START_TEST(a_part_cut_short_names_the_last_line_that_is_there)
{
    fresh_one();
    sl_spread *const spread = run((sl_member_range){0, 16}, NULL, 5);
    const text t = written(spread);
    const char *const third = strstr(t.bytes, "\nseed ");
    ck_assert_int_eq(said_of((text){t.bytes, (size_t)(third - t.bytes) + 1}, 3), SL_ERR_SYNTAX);
    ck_assert_int_eq(said_of((text){t.bytes, (size_t)(third - t.bytes)}, 2), SL_ERR_SYNTAX);
    const char *const sum = strstr(t.bytes, "checksum ");
    const text more = replaced(t, sum, sum + 1, "more\nc");
    ck_assert_int_eq(said_of(more, line_of(t, sum)), SL_ERR_SYNTAX); /* behind the last count */
    free(more.bytes);
    free(t.bytes);
    sl_spread_free(spread);
}
END_TEST

/* A field may be written in hexadecimal digits alone, all sixteen of them, even at the very end. */
START_TEST(sixteen_digits_are_read_at_the_very_end_of_the_text)
{
    sl_error error = {0};
    static const char digits[] = " 0123456789abcdef";
    uint64_t bits = 0;
    part_reader r = {.name = "x", .at = digits, .end = digits + 17, .error = &error};
    ck_assert(part_hex(&r, &bits));
    ck_assert(bits == UINT64_C(0x0123456789abcdef));
    ck_assert_ptr_eq(r.at, r.end);
    r = (part_reader){.name = "x", .at = digits, .end = digits + 16, .error = &error};
    ck_assert(!part_hex(&r, &bits));
    ck_assert_int_eq(error.code, SL_ERR_SYNTAX);
}
END_TEST

/* A word counts as a line's first only where a blank or the line's end follows it inside the text. */
START_TEST(a_line_s_word_ends_with_a_blank_or_its_line)
{
    static const struct {
        const char *line;
        bool is;
    } cases[] = {{"late 5\n", true}, {"late\n", true},   {"late-by 5\n", false}, {"late", false},
                 {"lat", false},     {"later\n", false}, {"Late 5\n", false}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sl_error error = {0};
        const char *const line = cases[i].line;
        part_reader r = {.name = "x", .at = line, .end = line + strlen(line), .line = 7, .error = &error};
        ck_assert_int_eq(part_line_is(&r, "late"), cases[i].is);
        ck_assert_int_eq(r.line, cases[i].is ? 8 : 7);
        ck_assert_int_eq(r.at - line, cases[i].is ? 4 : 0);
        r = (part_reader){.name = "x", .at = line, .end = line + strlen(line), .line = 7, .error = &error};
        ck_assert_int_eq(part_want_line(&r, "late"), cases[i].is);
        ck_assert_int_eq(r.line, 8);
        ck_assert_int_eq(error.line, cases[i].is ? 0 : 8);
    }
}
END_TEST

/* ---- the fingerprint, to the last bit and the last of each list ------------------------------------------
 */

START_SUITE("part")
ADD(a_part_read_back_writes_the_same_bytes)
ADD(parts_added_up_are_the_bytes_of_the_whole)
ADD(every_member_is_in_exactly_one_part)
ADD(parts_that_do_not_belong_together_are_not_added_up)
ADD(a_part_of_another_scene_is_refused)
ADD(one_changed_byte_or_an_early_end_is_seen)
ADD(counts_that_do_not_add_up_are_refused_even_with_a_checksum_that_fits)
ADD(a_file_of_another_kind_or_a_newer_version_says_so)
ADD(a_part_with_a_grade_that_is_none_is_refused_though_its_checksum_fits)
ADD(each_number_of_a_part_is_taken_up_to_its_bound_and_refused_behind_it)
ADD(a_line_of_what_is_drawn_must_be_the_plan_s_in_each_word)
ADD(ranges_of_members_rise_with_gaps_and_are_all_that_was_counted)
ADD(a_part_of_too_many_ranges_is_refused)
ADD(bins_rise_lie_inside_the_scene_and_add_up)
ADD(what_a_part_counts_as_open_comes_back)
ADD(a_part_of_another_version_of_the_program_is_told_by_its_whole_line)
ADD(a_part_of_no_version_is_no_newer_one)
ADD(a_part_cut_short_names_the_last_line_that_is_there)
ADD(sixteen_digits_are_read_at_the_very_end_of_the_text)
ADD(a_line_s_word_ends_with_a_blank_or_its_line)
END_SUITE

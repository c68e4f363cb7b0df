/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A form about a person, read from its file: every answer that can be written arrives as itself, and nothing
 * that was not written does.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "slowlift/scene.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;

/* A file of kind intake with these lines more; read for the small scene. */
static bool reads(const char *lines, sl_intake *form, sl_error *error)
{
    char path[] = "/tmp/slowlift-form-XXXXXX";
    char text[4096];
    const int length =
        snprintf(text, sizeof text, "kind: intake\nversion: 1\ntitle: T\norigin: test\n%s", lines);
    const int handle = mkstemp(path);
    ck_assert_int_ge(handle, 0);
    ck_assert_int_eq((int)write(handle, text, (size_t)length), length);
    close(handle);
    small_scene_fill(&small);
    *error = (sl_error){.code = SL_OK};
    const bool good = sl_intake_load(path, &small.scene, form, error);
    unlink(path);
    return good;
}

static sl_intake read_form(const char *lines)
{
    sl_intake form;
    sl_error error;
    ck_assert_msg(reads(lines, &form, &error), "%s: %s; %s", lines, error.found, error.wanted);
    return form;
}

static void refused(const char *lines, sl_code code)
{
    const sl_intake before = small_clear_form();
    sl_intake form = before;
    sl_error error;
    ck_assert_msg(!reads(lines, &form, &error), "%s", lines);
    ck_assert_msg(error.code == code, "%s: %s", lines, sl_code_name(error.code));
    ck_assert_int_ge(error.line, 5);
    ck_assert_mem_eq(&form, &before, sizeof form); /* nothing of a bad file arrives */
}

START_TEST(what_is_not_written_is_not_answered)
{
    const sl_intake form = read_form(""), nobody = {0};
    ck_assert_mem_eq(&form, &nobody, sizeof form);
}
END_TEST

START_TEST(every_reply_arrives_at_its_own_question)
{
    static const char *const words[] = {"no", "yes", "unsure"};
    static const sl_reply replies[] = {SL_REPLY_NO, SL_REPLY_YES, SL_REPLY_UNSURE};
    for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
        for (int i = 0; i < 3; i++) {
            char line[80];
            snprintf(line, sizeof line, "%s: %s\n", sl_intake_key(q), words[i]);
            const sl_intake form = read_form(line);
            for (int other = 0; other < SL_INTAKE_REPLIES; other++) {
                ck_assert_int_eq(form.reply[other], other == q ? replies[i] : SL_REPLY_NONE);
            }
        }
        char line[80];
        snprintf(line, sizeof line, "%s: perhaps\n", sl_intake_key(q));
        refused(line, SL_ERR_UNKNOWN_WORD);
    }
    ck_assert_int_eq(read_form("lightened: yes\n").lightened, SL_REPLY_YES);
}
END_TEST

START_TEST(every_part_of_the_hair_can_be_written)
{
    for (int part = SL_HAIR_NOWHERE + 1; part < SL_HAIR_PARTS; part++) {
        char line[80];
        snprintf(line, sizeof line, "%s: %s\n", sl_intake_key(SL_INTAKE_PART),
                 sl_hair_part_word((sl_hair_part)part));
        ck_assert_int_eq(read_form(line).part, part);
    }
    refused("part: elbow\n", SL_ERR_UNKNOWN_WORD);
}
END_TEST

START_TEST(times_ages_days_and_codes_arrive)
{
    const sl_intake form = read_form("age: 47\nlabel: 35 min\nperson: K12\nqualified: op-1\n"
                                     "packet_opened: 2026-11-20\npractice: yes\n");
    ck_assert_int_eq(form.age_years, 47);
    ck_assert_double_eq(form.label_min, 35.0);
    ck_assert_str_eq(form.person, "K12");
    ck_assert_str_eq(form.qualified, "op-1");
    ck_assert_int_eq(form.packet_day, 20777); /* days since 1970: 56 years with 14 leap days, and 323 */
    ck_assert(form.practice && !read_form("practice: no\n").practice);
    ck_assert_int_eq(read_form("age: 120\n").age_years, 120);
    ck_assert_double_eq(read_form("label: 1 min\n").label_min, 1.0);
    ck_assert_double_eq(read_form("label: 240 min\n").label_min, 240.0);
    refused("age: 121\n", SL_ERR_OUT_OF_RANGE);
    refused("label: 241 min\n", SL_ERR_OUT_OF_RANGE);
    refused("packet_opened: 2026-02-29\n", SL_ERR_WRONG_TYPE);
    refused("nickname: K\n", SL_ERR_UNKNOWN_KEY);
}
END_TEST

START_TEST(what_a_strand_showed_arrives_in_order)
{
    for (int wipe = 0; wipe < SL_WIPES; wipe++) {
        char lines[300];
        snprintf(lines, sizeof lines,
                 "showed:\n  - {arm: powder + 6 %%, at: 4.5 min, grade: %s, zone: violet}\n"
                 "  - {arm: mild, at: 9 min, grade: slight}\n",
                 sl_wipe_word((sl_wipe)wipe));
        const sl_intake form = read_form(lines);
        ck_assert_int_eq(form.showed.n, 2);
        const sl_observation *const first = &form.showed.observation[0], *const second =
                                                                             &form.showed.observation[1];
        ck_assert(first->arm == ARM_6 && first->zone == ZONE_VIOLET && (int)first->wipe == wipe);
        ck_assert_double_eq(first->minute, 4.5);
        ck_assert(second->arm == ARM_MILD && second->zone == SL_OBSERVED_ALL_ZONES &&
                  second->wipe == SL_WIPE_SLIGHT);
        ck_assert(first->strand && second->strand);
    }
    refused("showed:\n  - {arm: mild, at: 9 min}\n", SL_ERR_MISSING_KEY);
    refused("showed:\n  - {arm: nobody, at: 9 min, grade: slight}\n", SL_ERR_UNKNOWN_WORD);
    refused("showed:\n  - {arm: mild, at: 9 min, grade: slight, zone: beard}\n", SL_ERR_UNKNOWN_WORD);
    refused("showed:\n  - {arm: mild, at: 241 min, grade: slight}\n", SL_ERR_OUT_OF_RANGE);
}
END_TEST

START_SUITE("form in a file")
ADD(what_is_not_written_is_not_answered)
ADD(every_reply_arrives_at_its_own_question)
ADD(every_part_of_the_hair_can_be_written)
ADD(times_ages_days_and_codes_arrive)
ADD(what_a_strand_showed_arrives_in_order)
END_SUITE

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strands of people's hair kept in a log and read back: what counts, what keeps one from it, and that no
 * good strand outweighs a bad one.
 */
#include "slowlift/strand_log.h"

#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/memory.h"
#include "log_made.h"
#include "slowlift/part.h"
#include "slowlift/timeline.h"
#include "suite.h"

enum { TRIED = 20777, TODAY = 20786 }; /* 2026-11-20 and nine days later */
static const char scene_path[] = SLOWLIFT_MODELS "/scenes/way-wide.yaml";
static sl_log_made made;
static sl_scene *scene;
static int strand_of_3, other_of_3; /* swatches with powder + 3 % */
static int arm_3;

static void fresh(void)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    ck_assert_int_eq(setenv("TZ", "UTC", 1), 0);
    tzset();
    log_made_begin_scene(&made, scene_path);
    scene = sl_scene_load(scene_path, &resolver, NULL);
    ck_assert_ptr_nonnull(scene);
    arm_3 = sl_scene_arm(scene, "powder + 3 %");
    strand_of_3 = other_of_3 = -1;
    for (int i = 0; i < made.n; i++) {
        if (strcmp(made.swatches[i].arm, "powder + 3 %") == 0) {
            other_of_3 = strand_of_3;
            strand_of_3 = i;
        }
    }
    ck_assert_int_ge(other_of_3, 0);
}

static void end(void)
{
    sl_scene_free(scene);
    log_made_end(&made);
}

static void happens_for(sl_event_kind kind, int swatch, double minute, sl_stop_reason reason,
                        const char *note)
{
    const int64_t at_s = 86400 * (int64_t)TRIED + 43200 + (int64_t)(60.0 * minute);
    sl_event event = {.kind = kind, .swatch = swatch, .reason = reason};
    event.at.wall_ns = at_s * 1000000000;
    event.at.boot_ns = (int64_t)(60.0e9 * minute) + 1;
    snprintf(event.at.boot_id, sizeof event.at.boot_id, "one");
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, note, NULL));
}

static void happens(sl_event_kind kind, int swatch, double minute)
{
    happens_for(kind, swatch, minute, SL_REASON_UNSAID, NULL);
}

static void note(int swatch, sl_strand_note what)
{
    char text[SL_STRAND_NOTE_TEXT];
    sl_strand_note_words(&what, text);
    happens_for(SL_EVENT_NOTED, swatch, 0.0, SL_REASON_UNSAID, text);
}

static sl_strand_note whose(void)
{
    return (sl_strand_note){.person = "K12", .part = SL_HAIR_AT_NAPE, .packet_day = 20773, .cut = true};
}

static void look(int swatch, double minute, sl_wipe grade, const char *feel, const char *stretch)
{
    sl_log_reading reading = log_made_reading(&made, swatch, "blue", grade);
    reading.minute = minute;
    reading.said[SL_SAID_FEEL] = feel ? sl_said_of_word(SL_SAID_FEEL, feel) : SL_NOT_SAID;
    reading.said[SL_SAID_STRETCH] = stretch ? sl_said_of_word(SL_SAID_STRETCH, stretch) : SL_NOT_SAID;
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
}

/* On at minute 2, looked at after 5 and 10 min, rinsed after 16. */
static void lay(int swatch)
{
    happens(SL_EVENT_STARTED, -1, 0.0);
    happens(SL_EVENT_MIXED, swatch, 1.0);
    happens(SL_EVENT_APPLIED, swatch, 2.0);
    happens(SL_EVENT_LOOKED, swatch, 7.0);
    happens(SL_EVENT_RINSED, swatch, 18.0);
}

static void good_strand(int swatch)
{
    note(swatch, whose());
    lay(swatch);
    look(swatch, 5.0, SL_WIPE_SLIGHT, NULL, NULL);
    look(swatch, 10.0, SL_WIPE_HALF, NULL, NULL);
    look(swatch, SL_NOT_READ, SL_WIPE_HALF, "slightly dry", "springs back");
    note(swatch, (sl_strand_note){.washed = true});
}

static sl_intake clear_form(void)
{
    sl_intake form = {.age_years = 40, .label_min = 30.0, .lightened = SL_REPLY_NO, .packet_day = 20773};
    snprintf(form.person, sizeof form.person, "K12");
    snprintf(form.qualified, sizeof form.qualified, "op-1");
    form.part = SL_HAIR_AT_NAPE;
    for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
        form.reply[q] = sl_intake_pass(q);
    }
    return form;
}

static sl_intake form;
static sl_strand judged(void)
{
    sl_person person = {0};
    ck_assert(sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, NULL));
    ck_assert_ptr_eq(person.form, &form);
    return person.strand[arm_3];
}

START_TEST(a_strand_is_not_kept_and_read_with_all_that_makes_it_count)
{
    fresh();
    good_strand(strand_of_3);
    form = clear_form();
    form.showed = (sl_observations){1, {{.arm = 0, .minute = 3.0, .wipe = SL_WIPE_UNDYED, .strand = true}}};
    const sl_strand strand = judged();
    ck_assert_msg(strand.worth == SL_STRAND_COUNTED, "%s", sl_strand_words(strand.worth));
    ck_assert_double_eq_tol(strand.watched_min, 16.0, 1e-9);
    ck_assert_int_eq(strand.looks, 3);
    ck_assert_str_eq(strand.code, made.swatches[strand_of_3].bench.code);
    ck_assert_int_eq(strand.day, TRIED);
    ck_assert_int_eq(form.showed.n, 3); /* what was typed is gone */
    for (int i = 0; i < 3; i++) {
        ck_assert_int_eq(form.showed.observation[i].arm, arm_3);
        ck_assert(form.showed.observation[i].strand);
    }
    end();
}
END_TEST

START_TEST(a_strand_that_was_typed_as_longer_than_the_label_is_forgotten_for_one_of_a_log)
{
    fresh();
    good_strand(strand_of_3);
    form = clear_form();
    form.showed = (sl_observations){2,
                                    {{.arm = arm_3, .minute = 3.0, .wipe = SL_WIPE_SLIGHT, .strand = true},
                                     {.arm = arm_3, .minute = 70.0, .wipe = SL_WIPE_UNDYED, .strand = true}}};
    ck_assert(!sl_intake_judge(&form).minutes);
    ck_assert_int_eq(judged().worth, SL_STRAND_COUNTED);
    ck_assert(sl_intake_judge(&form).stopped[SL_INTAKE_SHOWED]); /* it still stops */
    end();
}
END_TEST

/* One look was typed; a longer one that had been typed and was taken away lies behind it. Two looks of the
 * log come in its place: 0.80 left at 5 min and 0.50 at 10. */
START_TEST(a_strand_that_was_taken_from_a_form_still_stops)
{
    fresh();
    good_strand(strand_of_3);
    form = clear_form();
    form.showed = (sl_observations){1,
                                    {{.arm = arm_3, .minute = 3.0, .wipe = SL_WIPE_SLIGHT, .strand = true},
                                     {.arm = arm_3, .minute = 70.0, .wipe = SL_WIPE_UNDYED, .strand = true}}};
    ck_assert_int_eq(judged().worth, SL_STRAND_COUNTED);
    ck_assert(!sl_intake_judge(&form).stopped[SL_INTAKE_SHOWED]);
    ck_assert_int_ge(form.showed.n, 2);
    ck_assert_double_eq(form.showed.observation[0].minute, 5.0);
    ck_assert_int_eq(form.showed.observation[0].wipe, SL_WIPE_SLIGHT);
    ck_assert_double_eq(form.showed.observation[1].minute, 10.0);
    ck_assert_int_eq(form.showed.observation[1].wipe, SL_WIPE_HALF);
    end();
}
END_TEST

/* Of how many arms the model says something when a door shows the test's scene. */
static int arms_predicted(void)
{
    sl_scene *const shown = sl_log_scene(made.log, made.test, NULL);
    sl_solver *const solver = sl_solver_new(NULL);
    sl_timeline *timeline = NULL;
    int n = 0;
    ck_assert(sl_timeline_solve(&timeline, shown, NULL, 0, solver, NULL, NULL));
    for (int arm = 0; arm < shown->n_arms; arm++) {
        n += sl_timeline_predicted(timeline, arm) ? 1 : 0;
    }
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    sl_scene_free(shown);
    return n;
}

START_TEST(the_model_speaks_by_the_clock_beside_a_strand_of_somebody)
{
    fresh();
    ck_assert_int_eq(arms_predicted(), scene->n_arms); /* swatches */
    note(strand_of_3, (sl_strand_note){.cut = true});  /* nobody's yet */
    ck_assert_int_eq(arms_predicted(), scene->n_arms);
    note(strand_of_3, whose());
    ck_assert_int_eq(arms_predicted(), 0);
    end();
}
END_TEST

START_TEST(another_arm_s_mix_is_not_refused)
{
    fresh();
    good_strand(strand_of_3);
    form = clear_form();
    sl_person person = {0};
    ck_assert(sl_log_person(made.log, NULL, NULL, scene, TODAY, &form, &person, NULL));
    for (int arm = 0; arm < scene->n_arms; arm++) {
        ck_assert_int_eq(person.strand[arm].worth == SL_STRAND_COUNTED, arm == arm_3);
    }
    scene->mixes[sl_arm_application(&scene->arms[arm_3])->mix].developer_pct = 6.0; /* no longer that mix */
    ck_assert_int_eq(judged().worth, SL_STRAND_OTHER_MIX);
    scene->mixes[sl_arm_application(&scene->arms[arm_3])->mix].developer_pct = 3.0;
    scene->mixes[sl_arm_application(&scene->arms[arm_3])->mix].label_max_min = 12.0; /* it still is */
    ck_assert_int_eq(judged().worth, SL_STRAND_COUNTED);
    end();
}
END_TEST

START_TEST(a_strand_that_was_only_watched_for_a_while_tells_no_more)
{
    fresh();
    note(strand_of_3, whose());
    happens(SL_EVENT_APPLIED, strand_of_3, 2.0);
    look(strand_of_3, 5.0, SL_WIPE_SLIGHT, NULL, NULL);
    look(strand_of_3, 40.0, SL_WIPE_HALF, NULL, NULL); /* later than it lay */
    look(strand_of_3, SL_NOT_READ, SL_WIPE_HALF, "slightly dry", "springs back");
    note(strand_of_3, (sl_strand_note){.washed = true});
    form = clear_form();
    ck_assert(judged().lacks[SL_STRAND_UNTIMED]); /* never rinsed, as far as the log knows */
    happens(SL_EVENT_RINSED, strand_of_3, 14.0);
    ck_assert_int_eq(judged().worth, SL_STRAND_COUNTED);
    ck_assert_double_eq_tol(judged().watched_min, 12.0, 1e-9);
    end();
}
END_TEST

/* A zone whose dyes are all oxidative has no direct dye that a wipe could show. */
START_TEST(a_look_where_no_direct_dye_is_counts)
{
    fresh();
    const sl_recipe *const blue = &scene->zones[sl_scene_zone(scene, "blue")].recipe;
    good_strand(strand_of_3);
    form = clear_form();
    ck_assert_int_eq(judged().worth, SL_STRAND_COUNTED);
    for (int i = 0; i < blue->n_dyes; i++) {
        scene->dyes[blue->dye[i]].class_ = SL_DYE_OXIDATIVE;
    }
    form = clear_form();
    const sl_strand strand = judged();
    ck_assert(strand.lacks[SL_STRAND_UNGRADED] && strand.lacks[SL_STRAND_FEW_LOOKS]);
    ck_assert_int_eq(form.showed.n, 0);
    end();
}
END_TEST

START_TEST(what_was_not_written_is_lacking)
{
    fresh();
    note(strand_of_3, (sl_strand_note){.person = "K12"});
    form = clear_form();
    const sl_strand strand = judged();
    ck_assert(strand.lacks[SL_STRAND_ON_HEAD] && strand.lacks[SL_STRAND_OTHER_PART]);
    ck_assert(strand.lacks[SL_STRAND_OLDER_PACKET] && strand.lacks[SL_STRAND_OLD]);
    ck_assert(strand.lacks[SL_STRAND_UNTIMED] && strand.lacks[SL_STRAND_FEW_LOOKS]);
    ck_assert(strand.lacks[SL_STRAND_UNWASHED] && strand.lacks[SL_STRAND_UNGRADED]);
    ck_assert(strand.lacks[SL_STRAND_UNFELT] && !strand.lacks[SL_STRAND_OTHER_PERSON]);
    snprintf(form.person, sizeof form.person, "K13"); /* nobody of that code */
    ck_assert_int_eq(judged().worth, SL_STRAND_NONE);
    end();
}
END_TEST

/* Each in a log of its own: a good strand, and beside it a sign that closes the gate. */
static void closes(int sign, sl_strand_worth why)
{
    fresh();
    good_strand(strand_of_3);
    form = clear_form();
    ck_assert_int_eq(judged().worth, SL_STRAND_COUNTED);
    note(other_of_3, whose());
    switch (sign) {
    case 0:
        look(other_of_3, 5.0, SL_WIPE_SLIGHT, "gummy", NULL);
        break;
    case 1:
        look(other_of_3, SL_NOT_READ, SL_WIPE_SLIGHT, NULL, "breaks");
        break;
    case 2:
        look(strand_of_3, 5.0, SL_WIPE_SLIGHT, NULL, "stays long");
        break;
    case 3:
        note(other_of_3, (sl_strand_note){.fizzed = true});
        break;
    case 4:
        note(strand_of_3, (sl_strand_note){.warm = true});
        break;
    case 5:
        note(other_of_3, (sl_strand_note){.smelt = true});
        break;
    case 6:
        happens_for(SL_EVENT_STOPPED, other_of_3, 20.0, SL_REASON_HEAT, NULL);
        break;
    default:
        happens_for(SL_EVENT_STOPPED, -1, 20.0, SL_REASON_DAMAGE, NULL);
        break;
    }
    ck_assert_msg(judged().worth == why, "sign %d: %s", sign, sl_strand_words(judged().worth));
    note(strand_of_3, whose()); /* said again, it is not taken back */
    ck_assert_int_eq(judged().worth, why);
    end();
}

START_TEST(a_sign_of_heat_or_damage_is_not_outweighed_by_a_good_strand)
{
    for (int sign = 0; sign < 3; sign++) {
        closes(sign, SL_STRAND_BAD);
    }
    for (int sign = 3; sign < 7; sign++) {
        closes(sign, SL_STRAND_HEATED);
    }
    closes(7, SL_STRAND_BAD);
}
END_TEST

START_TEST(a_rehearsal_and_a_made_up_strand_are_not_for_people)
{
    fresh();
    good_strand(strand_of_3);
    form = clear_form();
    form.practice = true;
    ck_assert_int_eq(judged().worth, SL_STRAND_REAL);
    note(strand_of_3, (sl_strand_note){.practice = true});
    ck_assert_int_eq(judged().worth, SL_STRAND_COUNTED);
    form.practice = false;
    ck_assert_int_eq(judged().worth, SL_STRAND_MADE_UP);
    end();
}
END_TEST

/* Heat tells of what is in the hair, whatever the mix; damage of the mix that did it. */
START_TEST(damage_by_another_mix_closes_the_gate_or_heat_by_one_does_not)
{
    for (int heat = 0; heat < 2; heat++) {
        fresh();
        good_strand(strand_of_3);
        form = clear_form();
        int with_water = 0;
        while (strcmp(made.swatches[with_water].arm, "powder + water") != 0) {
            with_water++;
        }
        note(with_water, whose());
        happens_for(SL_EVENT_STOPPED, with_water, 20.0, heat ? SL_REASON_HEAT : SL_REASON_DAMAGE, NULL);
        ck_assert_int_eq(judged().worth, heat ? SL_STRAND_HEATED : SL_STRAND_COUNTED);
        /* a later stop for the goal takes nothing back */
        happens_for(SL_EVENT_STOPPED, strand_of_3, 30.0, heat ? SL_REASON_HEAT : SL_REASON_DAMAGE, NULL);
        happens_for(SL_EVENT_STOPPED, strand_of_3, 40.0, SL_REASON_GOAL, NULL);
        ck_assert_int_eq(judged().worth, heat ? SL_STRAND_HEATED : SL_STRAND_BAD);
        end();
    }
}
END_TEST

/* Of whom nobody said whose it is: bad news is of that strand alone. */
START_TEST(damage_of_nobody_s_strand_is_somebody_s)
{
    fresh();
    good_strand(strand_of_3);
    note(other_of_3, (sl_strand_note){.cut = true, .warm = true});
    look(other_of_3, 5.0, SL_WIPE_SLIGHT, "gummy", NULL);
    form = clear_form();
    ck_assert_int_eq(judged().worth, SL_STRAND_COUNTED);
    end();
}
END_TEST

START_TEST(a_second_look_at_the_end_takes_back_what_was_felt)
{
    fresh();
    good_strand(strand_of_3);
    look(strand_of_3, SL_NOT_READ, SL_WIPE_HALF, NULL, NULL);
    look(strand_of_3, SL_NOT_READ, SL_WIPE_HALF, "rough", "slow");
    form = clear_form();
    ck_assert_int_eq(judged().worth, SL_STRAND_COUNTED);
    end();
}
END_TEST

/* Nobody's hair lay as long as a clock says that ran fast. */
START_TEST(a_strand_of_a_rehearsal_counts)
{
    fresh();
    sl_event begins = {.kind = SL_EVENT_STARTED, .swatch = -1, .speed = 60.0};
    begins.at = (sl_instant){1, 86400 * INT64_C(20777) * 1000000000, "one"};
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &begins, NULL, NULL));
    good_strand(strand_of_3);
    form = clear_form();
    ck_assert(judged().lacks[SL_STRAND_REHEARSED] && judged().lacks[SL_STRAND_MADE_UP]);
    ck_assert_int_ne(judged().worth, SL_STRAND_COUNTED);
    form.practice = true;
    ck_assert_int_eq(judged().worth, SL_STRAND_COUNTED);
    end();
}
END_TEST

/* A zone of another name says nothing about the scene that is asked about. */
START_TEST(a_look_at_a_zone_that_is_not_asked_about_counts)
{
    fresh();
    good_strand(strand_of_3);
    form = clear_form();
    scene->zones[sl_scene_zone(scene, "blue")].name = "turquoise";
    ck_assert(judged().lacks[SL_STRAND_FEW_LOOKS] && judged().lacks[SL_STRAND_UNGRADED]);
    ck_assert_int_eq(form.showed.n, 0);
    end();
}
END_TEST

/* What lay under one mix and then another tells no time of either. */
START_TEST(a_strand_with_two_mixes_tells_a_time)
{
    fresh();
    sl_strand_record *records = NULL;
    int n = 0;
    log_made_end(&made);
    log_made_begin_text(&made, log_made_twice, NULL, 0);
    note(0, whose());
    happens(SL_EVENT_STARTED, -1, 0.0);
    for (int round = 0; round < 2; round++) {
        happens(SL_EVENT_APPLIED, 0, 2.0 + 30.0 * round);
        happens(SL_EVENT_RINSED, 0, 22.0 + 30.0 * round);
        ck_assert(sl_log_strands(made.log, scene, &records, &n, NULL));
        ck_assert_int_eq(n, 1);
        ck_assert_double_lt(records[0].lay_min, 0.0); /* its second mix is still to come, and then came */
        ck_assert_int_eq(records[0].day, round == 0 ? 0 : TRIED);
        sl_free(records);
    }
    end();
}
END_TEST

/* ---- rows of others ---------------------------------------------------------------------------------------
 */

static int strands_there(sl_error *error)
{
    sl_strand_record *records = NULL;
    int n = -1;
    if (!sl_log_strands(made.log, scene, &records, &n, error)) {
        return -1;
    }
    sl_free(records);
    return n;
}

/* A drip is no strand; neither is a note about a swatch of another test, nor one that was taken back. */
START_TEST(a_note_that_is_about_no_strand_of_the_test_makes_one)
{
    fresh();
    happens_for(SL_EVENT_NOTED, 0, 1.0, SL_REASON_UNSAID, "a drip");
    char text[500];
    snprintf(text, sizeof text,
             "INSERT INTO event (id, test, swatch, kind, boot_ns, wall_ns, boot_id, at, note) VALUES"
             " ('aaaaaaaa-bbbb-7ccc-8ddd-000000000001', '%s', 'aaaaaaaa-bbbb-7ccc-8ddd-000000000002', 'note',"
             " 1, 1, 'one', '2026-11-25T09:00:00+00:00', 'strand: person=K12')",
             made.test);
    log_made_change(made.path, text);
    ck_assert_int_eq(strands_there(NULL), 0);
    note(0, whose());
    ck_assert_int_eq(strands_there(NULL), 1);
    sl_event *events = NULL;
    int n = 0;
    ck_assert(sl_log_events(made.log, made.test, made.swatches, made.n, &events, &n, NULL));
    sl_event undone = {.kind = SL_EVENT_UNDONE, .swatch = 0, .at = events[n - 1].at};
    snprintf(undone.about, sizeof undone.about, "%s", events[n - 1].id);
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &undone, NULL, NULL));
    ck_assert_int_eq(strands_there(NULL), 0);
    sl_free(events);
    end();
}
END_TEST

/* So many with this arm; a block of their own. */
static void more_swatches(int n, const char *arm, int block)
{
    char text[600];
    snprintf(text, sizeof text,
             "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < %d)"
             " INSERT INTO swatch (id, test, code, arm, block, place, contact_s, dwell_s, label_from,"
             " mix_age_s, looks_min) SELECT printf('aaaaaaaa-bbbb-7ccc-8ddd-%%012d', i + %d), '%s',"
             " printf('X%%d', i + %d), '%s', %d, i, 0, 1800, 'mixing', 60, '' FROM n",
             n, block, made.test, block, arm, block);
    log_made_change(made.path, text);
    sl_free(made.swatches);
    ck_assert(sl_log_swatches(made.log, made.test, &made.swatches, &made.n, NULL));
}

/* Without its arm nobody knows what lay on it. */
START_TEST(a_strand_of_an_arm_that_the_scene_lacks_has_a_mix)
{
    fresh();
    more_swatches(1, "a mix of next year", 100);
    sl_strand_record *records = NULL;
    int n = 0;
    note(made.n - 1, whose());
    ck_assert(sl_log_strands(made.log, scene, &records, &n, NULL));
    ck_assert_int_eq(n, 1);
    ck_assert_uint_eq(records[0].mix, 0);
    sl_free(records);
    form = clear_form();
    ck_assert_int_eq(judged().lacks[SL_STRAND_OTHER_MIX], true);
    end();
}
END_TEST

/* A strand beyond what is looked at could be the one that grew warm. */
START_TEST(strands_beyond_what_a_day_holds_are_passed_over)
{
    fresh();
    sl_error error = {.code = SL_OK};
    good_strand(strand_of_3);
    more_swatches(SL_BENCH_MOST - made.n, "powder + 3 %", 100);
    ck_assert_int_eq(strands_there(NULL), 1);
    more_swatches(1, "powder + 3 %", 5000);
    ck_assert_int_eq(strands_there(&error), -1);
    ck_assert_int_eq(error.code, SL_ERR_TOO_LARGE);
    end();
}
END_TEST

START_TEST(a_reading_that_had_to_be_left_out_is_not_missed)
{
    fresh();
    sl_error error = {.code = SL_OK};
    good_strand(strand_of_3);
    ck_assert_int_eq(strands_there(&error), 1);
    char text[400];
    snprintf(text, sizeof text,
             "INSERT INTO reading (id, swatch, zone, judge, at, stretch) VALUES"
             " ('aaaaaaaa-bbbb-7ccc-8ddd-000000000003', '%s', 'blue', 'j1', '2026-11-25T09:00:00+00:00',"
             " 'broke in two')",
             made.swatches[strand_of_3].id);
    log_made_change(made.path, text);
    ck_assert_int_eq(strands_there(&error), -1);
    ck_assert_int_eq(error.code, SL_ERR_DAMAGED);
    end();
}
END_TEST

START_TEST(a_note_does_not_come_back_as_it_was)
{
    char text[SL_STRAND_NOTE_TEXT];
    const sl_strand_note all = {.person = "K12",
                                .part = SL_HAIR_AT_CROWN,
                                .packet_day = 20773,
                                .cut = true,
                                .washed = true,
                                .warm = true,
                                .fizzed = true,
                                .smelt = true,
                                .practice = true};
    sl_strand_note read = {.part = SL_HAIR_NOWHERE};
    sl_strand_note_words(&all, text);
    ck_assert_str_eq(text,
                     "strand: person=K12 part=crown packet_opened=2026-11-16 cut=yes washed_and_dried=yes "
                     "warm=yes fizzed=yes smelt=yes practice=yes");
    ck_assert(sl_strand_note_read(text, &read));
    ck_assert_str_eq(read.person, "K12");
    ck_assert(read.part == SL_HAIR_AT_CROWN && read.packet_day == 20773 && read.cut && read.washed);
    ck_assert(read.warm && read.fizzed && read.smelt && read.practice);
    static const char *const none[] = {"", "the strand: cut=yes", "strand", "warm=yes"};
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        ck_assert(!sl_strand_note_read(none[i], &read));
    }
    read = (sl_strand_note){.part = SL_HAIR_NOWHERE};
    ck_assert(sl_strand_note_read("strand: person=Ada/L part=moon packet_opened=soon cut=no = x= =y", &read));
    ck_assert(read.person[0] == '\0' && read.part == SL_HAIR_NOWHERE && read.packet_day == 0 && !read.cut);
    /* words without a sign of equality, codes that are none and words of no end are passed over, not what
     * follows */
    char longest[200];
    snprintf(longest, sizeof longest, "strand: person= %070d=yes cut person=%0*d  washed_and_dried=yes", 0,
             SL_CODE, 0);
    ck_assert(sl_strand_note_read(longest, &read));
    ck_assert(read.person[0] == '\0' && !read.cut && read.washed);
    snprintf(longest, sizeof longest, "strand: person=%0*d", SL_CODE - 1, 0);
    ck_assert(sl_strand_note_read(longest, &read));
    ck_assert_uint_eq(strlen(read.person), SL_CODE - 1);
}
END_TEST

START_SUITE("strands of a log")
ADD(a_strand_is_not_kept_and_read_with_all_that_makes_it_count)
ADD(a_strand_that_was_typed_as_longer_than_the_label_is_forgotten_for_one_of_a_log)
ADD(a_strand_that_was_taken_from_a_form_still_stops)
ADD(the_model_speaks_by_the_clock_beside_a_strand_of_somebody)
ADD(another_arm_s_mix_is_not_refused)
ADD(a_strand_that_was_only_watched_for_a_while_tells_no_more)
ADD(a_look_where_no_direct_dye_is_counts)
ADD(what_was_not_written_is_lacking)
ADD(a_sign_of_heat_or_damage_is_not_outweighed_by_a_good_strand)
ADD(a_rehearsal_and_a_made_up_strand_are_not_for_people)
ADD(damage_by_another_mix_closes_the_gate_or_heat_by_one_does_not)
ADD(damage_of_nobody_s_strand_is_somebody_s)
ADD(a_second_look_at_the_end_takes_back_what_was_felt)
ADD(a_strand_of_a_rehearsal_counts)
ADD(a_look_at_a_zone_that_is_not_asked_about_counts)
ADD(a_strand_with_two_mixes_tells_a_time)
ADD(a_note_does_not_come_back_as_it_was)
CASE("rows of others")
ADD(a_note_that_is_about_no_strand_of_the_test_makes_one)
ADD(a_strand_of_an_arm_that_the_scene_lacks_has_a_mix)
ADD(strands_beyond_what_a_day_holds_are_passed_over)
ADD(a_reading_that_had_to_be_left_out_is_not_missed)
END_SUITE

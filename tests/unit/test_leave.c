/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "slowlift/leave.h"

#include <math.h>
#include <string.h>

#include "slowlift/limits.h"
#include "small_scene.h"
#include "suite.h"

static small_scene small;
static sl_intake form;
static sl_person person;

/* A bench in a room, with aims of its own. */
static void bench(void)
{
    small_scene_fill(&small);
    small.scene.room_c = 22.0;
    small.scene.aims = (sl_aims){.colour_left = 0.5, .base_moved = {0.3, true}, .cystine_lost = {0.12, true}};
}

/* Hair on a head, and all that leave asks for. */
static void clear_person(void)
{
    bench();
    small.scene.place = SL_PLACE_HEAD;
    form = small_clear_form();
    form.showed = (sl_observations){
        1, {{.arm = ARM_6, .zone = ZONE_VIOLET, .minute = 12.0, .wipe = SL_WIPE_HALF, .strand = true}}};
    person = (sl_person){.form = &form};
    person.strand[ARM_6] = (sl_strand){.worth = SL_STRAND_COUNTED, .looks = 2, .watched_min = 12.0};
}

static sl_leave ask(void)
{
    return sl_leave_of(&small.scene, ARM_6, &person);
}

static void refused_for(sl_unknown why)
{
    const sl_leave leave = ask();
    ck_assert(!leave.minutes);
    ck_assert_msg(leave.why == why, "\"%s\", not \"%s\"", sl_unknown_words(leave.why), sl_unknown_words(why));
    ck_assert(leave.lacks[why]);
}

/* ---- what counts as a head ------------------------------------------------------------------- */

START_TEST(a_room_is_no_head)
{
    bench();
    ck_assert(!sl_scene_on_head(&small.scene));
    ck_assert(sl_leave_of(&small.scene, ARM_6, NULL).minutes);
    small.scene.room_c = 29.99;
    ck_assert(!sl_scene_on_head(&small.scene));
}
END_TEST

START_TEST(hair_as_warm_as_on_a_head_counts_as_one_wherever_the_warmth_comes_from)
{
    bench();
    small.scene.place = SL_PLACE_HEAD;
    ck_assert(sl_scene_on_head(&small.scene));
    small.scene.place = SL_PLACE_WRAPPED;
    ck_assert(sl_scene_on_head(&small.scene));
    bench();
    small.scene.room_c = 30.0;
    ck_assert(sl_scene_on_head(&small.scene));
    bench();
    small.scene.shift_k = 8.0;
    ck_assert(sl_scene_on_head(&small.scene));
    bench();
    small.scene.n_points = 2;
    small.scene.points[0] = (sl_course_point){0.0, 22.0};
    small.scene.points[1] = (sl_course_point){30.0, 29.0};
    ck_assert(!sl_scene_on_head(&small.scene));
    small.scene.points[1].temperature_c = 31.0;
    ck_assert(sl_scene_on_head(&small.scene));
    small.scene.points[1].temperature_c = log(-1.0);
    ck_assert(sl_scene_on_head(&small.scene));
    small.scene.points[1].temperature_c = 22.0;
    small.scene.room_c = 36.0; /* whatever the points say */
    ck_assert(sl_scene_on_head(&small.scene));
    const sl_leave leave = sl_leave_of(&small.scene, ARM_6, NULL);
    ck_assert(!leave.minutes);
    ck_assert_int_eq(leave.why, SL_UNKNOWN_WARM);
}
END_TEST

START_TEST(a_person_s_code_in_a_scene_makes_it_a_head)
{
    bench();
    small.scene.person = "K12";
    ck_assert(sl_scene_on_head(&small.scene));
    ck_assert_int_eq(sl_leave_of(&small.scene, ARM_6, NULL).why, SL_UNKNOWN_WARM);
}
END_TEST

START_TEST(nor_has_a_scene_of_a_log_with_somebody_s_strand_a_minute)
{
    bench();
    small.scene.untold = true;
    ck_assert(!sl_leave_of(&small.scene, ARM_6, NULL).minutes);
    ck_assert(!sl_swatches_only(&small.scene, "", NULL));
}
END_TEST

/* ---- the person -------------------------------------------------------------------------------- */

START_TEST(all_that_is_asked_gives_leave_up_to_the_last_look_at_the_strand)
{
    clear_person();
    const sl_leave leave = ask();
    ck_assert_msg(leave.minutes, "%s", sl_unknown_words(leave.why));
    ck_assert_int_eq(leave.at, SL_PLACE_HEAD);
    ck_assert_double_eq(leave.watched_min, 12.0);
    ck_assert_double_eq(sl_leave_last_min(&leave), 12.0);
    person.strand[ARM_6].watched_min = 40.0;
    const sl_leave longer = ask();
    ck_assert_double_eq(sl_leave_last_min(&longer), longer.label.end_min);
    ck_assert_double_le(longer.label.end_min, 30.0);
}
END_TEST

/* At 2 min and then every 5, as common practice has it (no source), and never after the label's end. */
START_TEST(a_strand_is_looked_at_up_to_its_label_and_only_where_one_is_needed)
{
    int look[SL_MOST_STRAND_LOOKS];
    clear_person();
    sl_leave leave = ask();
    ck_assert_int_eq(sl_strand_looks(&leave, &person, look), 0); /* one was counted */
    person.strand[ARM_6] = (sl_strand){.worth = SL_STRAND_NONE};
    leave = ask();
    ck_assert(leave.lacks[SL_UNKNOWN_STRAND]);
    const struct {
        double label_min;
        int n, last;
    } ends[] = {{12.0, 3, 12}, {11.9, 2, 7}, {2.0, 1, 2}, {1.0, 0, 0}, {240.0, SL_MOST_STRAND_LOOKS, 237}};
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++) {
        leave.label.end_min = ends[i].label_min;
        const int n = sl_strand_looks(&leave, &person, look);
        ck_assert_int_eq(n, ends[i].n);
        ck_assert(n == 0 || (look[0] == 2 && look[n - 1] == ends[i].last));
    }
    ck_assert_int_eq(sl_strand_looks(&leave, NULL, look), 0);
    leave.strand =
        SL_STRAND_HEATED; /* nothing that oxidises goes on such hair (common practice, no source) */
    ck_assert_int_eq(sl_strand_looks(&leave, &person, look), 0);
    leave.strand = SL_STRAND_NONE;
    ck_assert_int_eq(sl_strand_looks(&leave, &person, look), SL_MOST_STRAND_LOOKS);
    form.reply[0] = SL_REPLY_UNSURE; /* something else is to be settled first */
    ck_assert_int_eq(sl_strand_looks(&leave, &person, look), 0);
}
END_TEST

START_TEST(each_thing_that_is_lacking_closes_the_gate_by_itself)
{
    clear_person();
    person.form = NULL;
    refused_for(SL_UNKNOWN_PERSON);
    clear_person();
    form.reply[SL_INTAKE_HENNA] = SL_REPLY_UNSURE;
    refused_for(SL_UNKNOWN_FORM);
    clear_person();
    form.label_min = 0.0;
    refused_for(SL_UNKNOWN_FORM);
    clear_person();
    form.practice = true;
    refused_for(SL_UNKNOWN_PRACTICE);
    clear_person();
    small.scene.person = "K12"; /* the form's own */
    ck_assert(ask().minutes);
    small.scene.person = "K13";
    refused_for(SL_UNKNOWN_SOMEBODY_ELSE);
    clear_person();
    small.scene.place = SL_PLACE_BENCH;
    refused_for(SL_UNKNOWN_PLACE);
    small.scene.room_c = 34.0; /* warm enough, and still a bench */
    refused_for(SL_UNKNOWN_PLACE);
    clear_person();
    small.scene.shift_k = -8.0; /* a head as cool as a bench */
    refused_for(SL_UNKNOWN_PLACE);
    clear_person();
    small.scene.n_points = 1;
    small.scene.points[0] = (sl_course_point){0.0, 60.0};
    refused_for(SL_UNKNOWN_HEAT);
    clear_person();
    small.scene.aims.left_by_next = true;
    refused_for(SL_UNKNOWN_AIMS);
    clear_person();
    small.scene.aims.base_moved.set = false;
    refused_for(SL_UNKNOWN_AIMS);
    clear_person();
    small.scene.aims.cystine_lost.set = false;
    refused_for(SL_UNKNOWN_AIMS);
    clear_person(); /* nor is a goal that nobody set one, in any program that assumes it */
    small.scene.aims = (sl_aims){.colour_left = 1.0};
    sl_aims_assume(&small.scene);
    refused_for(SL_UNKNOWN_AIMS);
}
END_TEST

START_TEST(a_strand_opens_its_own_mix_alone_and_only_when_it_was_counted)
{
    clear_person();
    ck_assert_int_eq(sl_leave_of(&small.scene, ARM_3, &person).why, SL_UNKNOWN_STRAND);
    for (int worth = 0; worth < SL_STRAND_COUNTED; worth++) {
        person.strand[ARM_6].worth = (sl_strand_worth)worth;
        refused_for(SL_UNKNOWN_STRAND);
        ck_assert_int_eq(ask().strand, worth);
        ck_assert_uint_gt(strlen(sl_strand_words((sl_strand_worth)worth)), 10);
    }
    static const struct {
        int looks;
        double watched_min;
    } short_of[] = {{0, 12.0}, {1, 12.0}, {2, 0.0}, {2, -1.0}, {2, 1e9}};
    for (size_t i = 0; i < sizeof short_of / sizeof short_of[0]; i++) {
        person.strand[ARM_6] = (sl_strand){
            .worth = SL_STRAND_COUNTED, .looks = short_of[i].looks, .watched_min = short_of[i].watched_min};
        refused_for(SL_UNKNOWN_STRAND);
    }
    person.strand[ARM_6] = (sl_strand){.worth = SL_STRAND_COUNTED, .looks = 2, .watched_min = log(-1.0)};
    refused_for(SL_UNKNOWN_STRAND);
    person = (sl_person){.form = &form}; /* nothing known is no strand */
    refused_for(SL_UNKNOWN_STRAND);
}
END_TEST

START_TEST(the_first_thing_is_told_and_all_are_kept)
{
    clear_person();
    form.practice = true;
    small.scene.place = SL_PLACE_BENCH;
    person.strand[ARM_6].worth = SL_STRAND_OLD;
    const sl_leave leave = ask();
    ck_assert_int_eq(leave.why, SL_UNKNOWN_PRACTICE);
    ck_assert(leave.lacks[SL_UNKNOWN_PLACE] && leave.lacks[SL_UNKNOWN_STRAND]);
    ck_assert(!leave.lacks[SL_UNKNOWN_FORM] && !leave.lacks[SL_UNKNOWN_HEAT]);
}
END_TEST

/* ---- the label ----------------------------------------------------------------------------------- */

/* One application of ARM_6, and what it says. */
static sl_label label_with(double file, bool from_contact, double told, double of_form, double age)
{
    clear_person();
    sl_mix *const mix = &small.mixes[MIX_POWDER_6];
    mix->label_max_min = file;
    mix->label_from_contact = from_contact;
    mix->label_told_min = told;
    form.label_min = of_form;
    small.arms[ARM_6].steps[0].mix_age_min = age;
    return sl_label_of(&small.scene, ARM_6, &form);
}

START_TEST(the_label_that_ends_first_holds_and_says_where_it_stands_and_which_clock_it_goes_by)
{
    static const struct {
        double file, told, of_form, age, end, stated;
        bool from_contact, contact_ends;
        sl_label_source source;
    } table[] = {
        {0.0, 0.0, 0.0, 5.0, HUGE_VAL, 0.0, false, false, SL_LABEL_NOT_ENTERED},
        {30.0, 0.0, 0.0, 5.0, 25.0, 30.0, false, false, SL_LABEL_OF_FILE},
        {30.0, 0.0, 0.0, 5.0, 30.0, 30.0, true, true, SL_LABEL_OF_FILE},
        {5.0, 60.0, 0.0, 1.0, 4.0, 5.0, false, false, SL_LABEL_OF_FILE},
        {60.0, 20.0, 45.0, 1.0, 19.0, 20.0, false, false, SL_LABEL_OF_OPTION},
        {60.0, 50.0, 45.0, 1.0, 44.0, 45.0, false, false, SL_LABEL_OF_FORM},
        {30.0, 32.0, 45.0, 5.0, 27.0, 32.0, true, false, SL_LABEL_OF_OPTION}, /* older mix, later time */
        {20.0, 0.0, 45.0, 30.0, 0.0, 20.0, false, false, SL_LABEL_OF_FILE},   /* over before contact */
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        const sl_label found =
            label_with(table[i].file, table[i].from_contact, table[i].told, table[i].of_form, table[i].age);
        ck_assert_double_eq(found.end_min, table[i].end);
        ck_assert_int_eq(found.source, table[i].source);
        ck_assert_double_eq(found.stated_min, table[i].stated);
        ck_assert(found.from_contact == table[i].contact_ends);
        ck_assert(found.source == SL_LABEL_NOT_ENTERED || fabs(found.mix_age_min - table[i].age) <= 0.0);
    }
}
END_TEST

START_TEST(of_two_applications_the_one_that_ends_first_holds)
{
    bench();
    sl_arm *const arm = &small.arms[ARM_6];
    arm->steps[2] = arm->steps[0];
    arm->steps[2].mix = MIX_POWDER_3;
    arm->n_steps = 3;
    small.mixes[MIX_POWDER_6].label_max_min = 120.0;
    small.mixes[MIX_POWDER_3].label_max_min = 20.0;
    const double second = arm->steps[0].duration_min + arm->steps[1].duration_min;
    const sl_label label = sl_label_of(&small.scene, ARM_6, NULL);
    ck_assert_int_eq(label.step, 2);
    ck_assert_double_eq(label.end_min, second + 20.0 - arm->steps[2].mix_age_min);
    double minute = 0.0; /* and that is when it stops: the second lies for 30 min */
    ck_assert(sl_label_stop(&small.scene, ARM_6, &minute));
    ck_assert_double_eq(minute, label.end_min);
}
END_TEST

START_TEST(an_application_past_its_label_is_an_overrun_and_one_that_ends_with_it_is_not)
{
    bench();
    sl_step *const step = &small.arms[ARM_6].steps[0];
    sl_label label;
    double minute = 0.0;
    small.mixes[MIX_POWDER_6].label_max_min = step->duration_min + step->mix_age_min;
    ck_assert(sl_label_stop(&small.scene, ARM_6, &minute));
    ck_assert_double_eq(minute, step->duration_min);
    ck_assert(!sl_label_overrun(&small.scene, ARM_6, &label));
    step->duration_min += 1.0;
    ck_assert(sl_label_overrun(&small.scene, ARM_6, &label));
    ck_assert_double_eq(label.end_min, minute);
    step->duration_min -= 2.0;
    ck_assert(!sl_label_stop(&small.scene, ARM_6, &minute));
}
END_TEST

/* ---- edges ------------------------------------------------------------------------------------------- */

/* Each of the three labels ends at the same minute: that of the file holds, then that of the option
 * (leave.h). And a plain wash has no label of the form's. */
START_TEST(of_labels_that_end_together_the_file_s_holds)
{
    ck_assert_int_eq(label_with(30.0, false, 30.0, 30.0, 4.0).source, SL_LABEL_OF_FILE);
    ck_assert_int_eq(label_with(0.0, false, 30.0, 30.0, 4.0).source, SL_LABEL_OF_OPTION);
    ck_assert_int_eq(label_with(0.0, false, 0.0, 30.0, 4.0).source, SL_LABEL_OF_FORM);
    ck_assert_int_eq(label_with(0.0, false, 0.0, 30.0, 4.0).step, 0);
    ck_assert_int_eq(label_with(0.0, false, 0.0, 0.0, 4.0).step, -1);
    ck_assert_double_eq(label_with(0.0, false, 0.0, 30.0, 30.0).end_min, 0.0);
    ck_assert_double_eq(label_with(0.0, false, 0.0, 30.0, 29.0).end_min, 1.0);
    small.mixes[MIX_POWDER_6].class_ = SL_MIX_WATER;
    ck_assert_int_eq(sl_label_of(&small.scene, ARM_6, &form).source, SL_LABEL_NOT_ENTERED);
    const sl_mix told = {.label_told_min = 20.0, .label_max_min = 25.0, .label_from_contact = true};
    ck_assert_double_eq(sl_label_allowed_min(&told, 3.0), 17.0);
    ck_assert_double_eq(sl_label_allowed_min(&told, 0.0), 20.0);
    const sl_mix none = {.label_max_min = 0.0};
    ck_assert(sl_label_allowed_min(&none, 3.0) >= HUGE_VAL);
}
END_TEST

/* A head is from 30 degrees on, and no warmer than 37; a strand was watched for at most the longest label,
 * with two looks. */
START_TEST(the_gate_opens_at_its_very_edges)
{
    static const struct {
        double warmth;
        bool minutes;
        sl_unknown why;
    } warmths[] = {{30.0, true, SL_UNKNOWN_NOTHING},
                   {29.99, false, SL_UNKNOWN_PLACE},
                   {37.0, true, SL_UNKNOWN_NOTHING},
                   {37.01, false, SL_UNKNOWN_HEAT}};
    for (size_t i = 0; i < sizeof warmths / sizeof warmths[0]; i++) {
        clear_person();
        small.scene.n_points = 1;
        small.scene.points[0] = (sl_course_point){0.0, warmths[i].warmth};
        const sl_leave leave = ask();
        ck_assert_int_eq(leave.minutes, warmths[i].minutes);
        ck_assert_int_eq(leave.why, warmths[i].why);
    }
    static const struct {
        int looks;
        double watched;
        bool counts;
    } strands[] = {{SL_STRAND_LEAST_LOOKS, 240.0, true},
                   {SL_STRAND_LEAST_LOOKS, 240.1, false},
                   {SL_STRAND_LEAST_LOOKS - 1, 240.0, false},
                   {3, 1e-9, true},
                   {3, 0.0, false}};
    for (size_t i = 0; i < sizeof strands / sizeof strands[0]; i++) {
        clear_person();
        person.strand[ARM_6] = (sl_strand){
            .worth = SL_STRAND_COUNTED, .looks = strands[i].looks, .watched_min = strands[i].watched};
        const sl_leave leave = ask();
        ck_assert_int_eq(leave.minutes, strands[i].counts);
        ck_assert_int_eq(leave.strand, strands[i].counts ? SL_STRAND_COUNTED : SL_STRAND_FEW_LOOKS);
        ck_assert_double_eq(leave.watched_min, strands[i].counts ? strands[i].watched : 0.0);
    }
    bench();
    const sl_leave swatches = sl_leave_of(&small.scene, ARM_6, NULL);
    ck_assert(swatches.minutes && swatches.watched_min >= HUGE_VAL &&
              sl_leave_last_min(&swatches) >= HUGE_VAL);
    for (int why = 0; why < SL_UNKNOWNS; why++) {
        ck_assert(!swatches.lacks[why]);
    }
    small.scene.room_c = 30.0;
    ck_assert_int_eq(sl_leave_of(&small.scene, ARM_6, NULL).why, SL_UNKNOWN_WARM);
    small.scene.room_c = nextafter(30.0, 0.0);
    ck_assert(sl_leave_of(&small.scene, ARM_6, NULL).minutes);
}
END_TEST

/* Stress may be a share of another arm's instead of a figure: that is an own aim too. */
START_TEST(a_share_of_a_control_is_an_aim_of_its_own)
{
    clear_person();
    small.scene.aims.cystine_lost.set = false;
    small.scene.aims.stress_share = 0.5;
    ck_assert(ask().minutes);
    small.scene.aims.colour_left = 1.0; /* and without any goal there is nothing to tell */
    refused_for(SL_UNKNOWN_AIMS);
}
END_TEST

/* Nothing on the form may stop but what a strand itself would settle. */
START_TEST(a_strand_is_offered_where_only_the_strand_is_lacking)
{
    int look[SL_MOST_STRAND_LOOKS];
    for (int asked = 0; asked < SL_INTAKE_REPLIES; asked++) {
        clear_person();
        form.reply[asked] = SL_REPLY_UNSURE;
        person.strand[ARM_6] = (sl_strand){.worth = SL_STRAND_NONE};
        const sl_leave leave = ask();
        const bool offered = asked == SL_INTAKE_STRAND || asked == SL_INTAKE_SINCE;
        ck_assert_msg((sl_strand_looks(&leave, &person, look) > 0) == offered, "%s", sl_intake_key(asked));
    }
    clear_person();
    form.showed.observation[0].minute = 100.0; /* later than the label */
    person.strand[ARM_6] = (sl_strand){.worth = SL_STRAND_NONE};
    sl_leave leave = ask();
    ck_assert_int_gt(sl_strand_looks(&leave, &person, look), 0);
    form.label_min = 0.0;
    leave.label.end_min = 30.0;
    ck_assert_int_eq(sl_strand_looks(&leave, &person, look), 0); /* the label's time is not on the form */
    clear_person();
    person.strand[ARM_6] = (sl_strand){.worth = SL_STRAND_NONE};
    leave = ask();
    leave.label.step = -1;
    ck_assert_int_eq(sl_strand_looks(&leave, &person, look), 0);
    leave.label.step = 0;
    person.form = NULL;
    ck_assert_int_eq(sl_strand_looks(&leave, &person, look), 0);
}
END_TEST

START_SUITE("leave")
ADD(a_room_is_no_head)
ADD(hair_as_warm_as_on_a_head_counts_as_one_wherever_the_warmth_comes_from)
ADD(a_person_s_code_in_a_scene_makes_it_a_head)
ADD(nor_has_a_scene_of_a_log_with_somebody_s_strand_a_minute)
ADD(all_that_is_asked_gives_leave_up_to_the_last_look_at_the_strand)
ADD(a_strand_is_looked_at_up_to_its_label_and_only_where_one_is_needed)
ADD(each_thing_that_is_lacking_closes_the_gate_by_itself)
ADD(a_strand_opens_its_own_mix_alone_and_only_when_it_was_counted)
ADD(the_first_thing_is_told_and_all_are_kept)
ADD(the_label_that_ends_first_holds_and_says_where_it_stands_and_which_clock_it_goes_by)
ADD(of_two_applications_the_one_that_ends_first_holds)
ADD(an_application_past_its_label_is_an_overrun_and_one_that_ends_with_it_is_not)
ADD(of_labels_that_end_together_the_file_s_holds)
ADD(the_gate_opens_at_its_very_edges)
ADD(a_share_of_a_control_is_an_aim_of_its_own)
ADD(a_strand_is_offered_where_only_the_strand_is_lacking)
END_SUITE

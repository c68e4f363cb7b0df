/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>
#include <string.h>

#include "document/renderers.h"
#include "report/plan/day.h"
#include "suite.h"

/* Seconds of both clocks, and which start of the machine. */
static sl_instant instant(double boot_s, double wall_s, const char *boot_id)
{
    sl_instant at = {(int64_t)(boot_s * 1e9), (int64_t)(wall_s * 1e9), ""};
    snprintf(at.boot_id, sizeof at.boot_id, "%s", boot_id);
    return at;
}

/* A day on which both clocks agree: `s` seconds after its start. */
static sl_instant at_s(double s)
{
    return instant(5000.0 + s, 1.7e9 + s, "one");
}

static const sl_bench_swatch swatches[4] = {
    {.code = "AA2",
     .contact_s = 60,
     .dwell_s = 600,
     .label_s = 900,
     .mix_age_s = 60,
     .n_looks = 1,
     .look_s = {300}},
    {.code = "CC3", .contact_s = 120, .dwell_s = 600, .mix_age_s = 60},
    {.code = "DD4", .contact_s = -1},
    {.code = "EE5", .contact_s = 180, .dwell_s = 600, .label_s = 900, .from_mixing = true, .mix_age_s = 60},
};
static const char *const arms[4] = {"weak", "weak", "untreated", "strong"};
static sl_event events[32];
static int n_events;
static sl_bench bench;
static char text[SL_DAY_WORDS];

static void happened(sl_event_kind kind, int swatch, sl_instant at)
{
    events[n_events] = (sl_event){.kind = kind, .swatch = swatch, .at = at, .reason = SL_REASON_UNSAID};
    snprintf(events[n_events].id, sizeof events[n_events].id, "event-%d", n_events);
    n_events++;
    sl_bench_fold(&bench, swatches, 4, events, n_events);
}

static void begin(void)
{
    n_events = 0;
    happened(SL_EVENT_STARTED, -1, at_s(0.0));
}

static const char *state(int swatch, double s)
{
    const sl_instant now = at_s(s);
    sl_day_state(&bench, swatch, &now, text, sizeof text);
    return text;
}

static const char *label(int swatch, double s)
{
    const sl_instant now = at_s(s);
    sl_day_label(&bench, swatch, &now, text, sizeof text);
    return text;
}

START_TEST(times_are_not_read_off_in_minutes_and_seconds)
{
    static const struct {
        double seconds;
        const char *words;
    } spans[] = {{0.0, "0:00"},    {5.4, "0:05"},       {59.6, "1:00"},
                 {-245.0, "4:05"}, {3599.7, "1:00:00"}, {3845.0, "1:04:05"}};
    for (size_t i = 0; i < sizeof spans / sizeof spans[0]; i++) {
        sl_day_span(spans[i].seconds, text, sizeof text);
        ck_assert_str_eq(text, spans[i].words);
    }
    sl_day_when(30.0, text, sizeof text);
    ck_assert_str_eq(text, "in 0:30");
    sl_day_when(-0.3, text, sizeof text);
    ck_assert_str_eq(text, "now");
    sl_day_when(-12.0, text, sizeof text);
    ck_assert_str_eq(text, "0:12 late");
    sl_day_off(4.9, text, sizeof text);
    ck_assert_str_eq(text, "on time");
    sl_day_off(12.0, text, sizeof text);
    ck_assert_str_eq(text, "0:12 late");
    sl_day_off(-90.0, text, sizeof text);
    ck_assert_str_eq(text, "1:30 early");
}
END_TEST

START_TEST(a_swatch_is_not_told_in_each_of_its_stages)
{
    begin();
    ck_assert_str_eq(state(0, 10.0), "AA2: waiting");
    ck_assert_str_eq(state(2, 10.0), "DD4: nothing is put on");
    happened(SL_EVENT_MIXED, 0, at_s(20.0));
    ck_assert_str_eq(state(0, 30.0), "AA2: waiting, its bowl is mixed");
    happened(SL_EVENT_APPLIED, 0, at_s(60.0));
    happened(SL_EVENT_APPLIED, 1, at_s(120.0));
    happened(SL_EVENT_APPLIED, 3, at_s(180.0));
    ck_assert_str_eq(state(0, 360.0), "AA2: on the hair 5:00");
    happened(SL_EVENT_RINSED, 0, at_s(680.0));
    ck_assert_str_eq(state(0, 9000.0), "AA2: rinsed after 10:20, 0:20 late");
    happened(SL_EVENT_STOPPED, 1, at_s(300.0));
    ck_assert_str_eq(state(1, 9000.0), "CC3: stopped and rinsed after 3:00, 7:00 early");
}
END_TEST

START_TEST(the_label_is_not_told_or_not_counted_down)
{
    begin();
    ck_assert_str_eq(label(0, 10.0), "label: at most 15 min");
    ck_assert_str_eq(label(3, 10.0), "label: at most 15 min from mixing");
    ck_assert_str_eq(label(2, 10.0), "no mix, no label");
    ck_assert_ptr_nonnull(strstr(label(1, 10.0), "no time entered, read the packet"));
    happened(SL_EVENT_APPLIED, 0, at_s(60.0));
    happened(SL_EVENT_APPLIED, 3, at_s(60.0));
    ck_assert_str_eq(label(0, 360.0), "label: at most 15 min, 10:00 left");
    /* nobody wrote the mixing down: its planned minute counts */
    ck_assert_str_eq(label(3, 360.0), "label: at most 15 min, 9:00 left");
    ck_assert_str_eq(label(0, 1000.0), "label: at most 15 min, OVER by 0:40, rinse now");
}
END_TEST

START_TEST(what_is_due_is_not_said_in_words)
{
    sl_due due[8];
    begin();
    happened(SL_EVENT_APPLIED, 0, at_s(60.0));
    const sl_instant now = at_s(170.0);
    const int n = sl_bench_due(&bench, &now, due, 8);
    static const char *const words[] = {"CC3: put the mix on, 0:50 late",
                                        "EE5: mix its bowl, 0:50 late",
                                        "AA2: feel skin, heat and stretch, in 0:10",
                                        "EE5: put the mix on, in 0:10",
                                        "AA2: wipe and look, in 3:10",
                                        "AA2: rinse, in 8:10"};
    ck_assert_int_eq(n, 6);
    for (int i = 0; i < n; i++) {
        sl_day_due(&bench, &due[i], text, sizeof text);
        ck_assert_str_eq(text, words[i]);
    }
    const sl_due by_label = {.kind = SL_EVENT_RINSED, .in_s = 60.0, .by_label = true};
    sl_day_due(&bench, &by_label, text, sizeof text);
    ck_assert_str_eq(text, "AA2: rinse, the label's time ends, in 1:00");
}
END_TEST

/* What a terminal is told. arm NULL: to a judge who is blind. */
static char *summary_of(const sl_bench_swatch *of, const sl_scene *scene, const char *const *arm,
                        const sl_instant *now)
{
    char *told = NULL;
    size_t size = 0;
    sl_document document;
    sl_error error = {.code = SL_OK};
    const sl_day_went went = {
        .title = "a day",
        .scene_name = "a scene",
        .bench = &bench,
        .record =
            {.swatch = of, .arm = arm, .n = bench.n, .event = events, .n_events = n_events, .scene = scene},
        .now = now,
        .blind = arm == NULL};
    FILE *const out = open_memstream(&told, &size);
    ck_assert_ptr_nonnull(out);
    sl_day_say_went(&document, &went, &error);
    ck_assert(sl_document_print(out, &document, NULL));
    fclose(out);
    return told;
}

START_TEST(a_piece_of_a_ladder_is_told_as_a_look)
{
    static const sl_bench_swatch ladder = {
        .code = "AA2", .dwell_s = 900, .n_looks = 2, .look_s = {300, 600}, .ladder = true};
    sl_due due[4];
    begin();
    happened(SL_EVENT_APPLIED, 0, at_s(0.0));
    happened(SL_EVENT_FELT, 0, at_s(200.0));
    sl_bench_fold(&bench, &ladder, 1, events, n_events);
    const sl_instant now = at_s(290.0);
    ck_assert_int_eq(sl_bench_due(&bench, &now, due, 4), 3);
    sl_day_due(&bench, &due[0], text, sizeof text);
    ck_assert_str_eq(text, "AA2: cut the piece for 5 min off and rinse it, in 0:10");
    sl_day_deed(&bench, 0, SL_EVENT_LOOKED, text, sizeof text);
    ck_assert_str_eq(text, "piece for 5 min cut off and rinsed");
    sl_day_deed(&bench, 0, SL_EVENT_RINSED, text, sizeof text);
    ck_assert_str_eq(text, "rinsed, first water");
    happened(SL_EVENT_LOOKED, 0, at_s(300.0));
    sl_bench_fold(&bench, &ladder, 1, events, n_events);
    char *const told = summary_of(&ladder, NULL, NULL, &now);
    ck_assert_ptr_nonnull(strstr(told, "Pieces cut off on the way: 1 of 2 planned\n"));
    free(told);
    sl_bench_fold(&bench, swatches, 4, events, n_events);
    sl_day_deed(&bench, 0, SL_EVENT_LOOKED, text, sizeof text);
    ck_assert_str_eq(text, "wiped and looked");
}
END_TEST

START_TEST(a_summary_leaves_out_how_the_day_went)
{
    begin();
    happened(SL_EVENT_SOUND_NOT_HEARD, -1, at_s(1.0));
    happened(SL_EVENT_MIXED, 0, at_s(10.0));
    happened(SL_EVENT_APPLIED, 0, at_s(100.0));
    happened(SL_EVENT_APPLIED, 1, at_s(110.0));
    happened(SL_EVENT_FELT, 0, at_s(230.0));
    happened(SL_EVENT_LOOKED, 0, at_s(400.0));
    happened(SL_EVENT_RINSED, 0, at_s(1060.0)); /* 16 min: over plan and label */
    happened(SL_EVENT_RINSED, 1, at_s(710.0));
    const sl_instant now = at_s(1100.0);
    char *told = summary_of(swatches, NULL, arms, &now);
    static const char *const lines[] = {
        " AA2: rinsed after 16:00, 6:00 late (weak)\n   Contact 0:40 late; mix 1:30 old, planned 1:00\n"
        "   Longer than the label allows, by 1:00\n",
        " CC3: rinsed after 10:00, on time (weak)\n"
        "   Contact 0:10 early; nobody wrote down when it was mixed\n"
        "   Skin, heat and stretch: never felt\n",
        " DD4: nothing is put on (untreated)\n\n EE5: waiting (strong)\n",
        " Unequal time on hair within a strip\n   weak: 10:00 to 16:00\n",
        "The bell was not heard that day; alarms were seen only.\n"};
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        ck_assert_msg(strstr(told, lines[i]) != NULL, "not told: %s\nin:\n%s", lines[i], told);
    }
    free(told);
    told = summary_of(swatches, NULL, NULL, &now); /* a judge who is blind */
    ck_assert_ptr_null(strstr(told, "weak"));
    ck_assert_ptr_nonnull(strstr(told, "AA2: rinsed after 16:00, 6:00 late\n"));
    free(told);
}
END_TEST

static void noted(const char *id, sl_remark remark, double value, double at)
{
    happened(SL_EVENT_NOTED, 0, at_s(at));
    events[n_events - 1].remark = remark;
    events[n_events - 1].value = value;
    snprintf(events[n_events - 1].id, SL_UUID, "%s", id);
}

START_TEST(a_summary_leaves_out_what_was_measured)
{
    begin();
    noted("one", SL_REMARK_GRAMS, 20.55, 10.0);
    noted("two", SL_REMARK_ROOM, 22.5, 20.0);
    noted("three", SL_REMARK_GRAMS, 99.0, 30.0);
    happened(SL_EVENT_UNDONE, 0, at_s(40.0));
    snprintf(events[n_events - 1].about, SL_UUID, "three");
    const sl_instant now = at_s(50.0);
    char *const told = summary_of(swatches, NULL, arms, &now);
    ck_assert_ptr_nonnull(strstr(told, "AA2: waiting (weak)\n   Weighed: 20.55 g\n"));
    ck_assert_ptr_nonnull(strstr(told, "The room beside AA2: 22.5 °C\n"));
    ck_assert_ptr_null(strstr(told, "99"));
    free(told);
}
END_TEST

/* Set on, set back, another start: the longer counts and it is said; asleep: both clocks agree. */
START_TEST(a_summary_keeps_silent_on_clocks_that_disagree)
{
    static const struct {
        double boot_s, wall_s;
        const char *boot_id, *dwell, *said;
    } waters[] = {
        {5660.0, 1.7e9 + 660.0, "one", "rinsed after 10:00", NULL},
        {5660.0, 1.7e9 + 960.0, "one", "rinsed after 15:00", "the longer time was taken"},
        {5660.0, 1.7e9 - 3000.0, "one", "rinsed after 10:00", "the longer time was taken"},
        {40.0, 1.7e9 + 660.0, "two", "rinsed after 10:00", "was started again in between"},
        {840.0, 1.7e9 - 9000.0, "two", "rinsed after 14:00", "was started again in between"},
    };
    for (size_t i = 0; i < sizeof waters / sizeof waters[0]; i++) {
        begin();
        happened(SL_EVENT_APPLIED, 0, at_s(60.0));
        const sl_instant water = instant(waters[i].boot_s, waters[i].wall_s, waters[i].boot_id);
        happened(SL_EVENT_RINSED, 0, water);
        char *const told = summary_of(swatches, NULL, arms, &water);
        ck_assert_msg(strstr(told, waters[i].dwell) != NULL, "%s not in:\n%s", waters[i].dwell, told);
        if (waters[i].said) {
            ck_assert_ptr_nonnull(strstr(told, waters[i].said));
        } else {
            ck_assert_ptr_null(strstr(told, "in between"));
            ck_assert_ptr_null(strstr(told, "disagree"));
        }
        free(told);
    }
}
END_TEST

START_TEST(a_reason_lacks_a_key_or_has_two)
{
    bool seen[SL_STOP_REASONS] = {false};
    for (int i = 0; i < SL_DAY_REASONS; i++) {
        const char *words = NULL;
        const sl_stop_reason reason = sl_day_reason(i, &words);
        ck_assert(!seen[reason] && words && words[0] != '\0');
        seen[reason] = true;
    }
    for (int reason = 0; reason < SL_STOP_REASONS; reason++) {
        ck_assert(seen[reason] == (reason != SL_REASON_UNSAID));
    }
    const char *words = NULL;
    ck_assert_int_eq(sl_day_reason(0, &words), SL_REASON_EYES); /* the first key */
}
END_TEST

/* ---- for a doctor ------------------------------------------------------------------------------- */

static char bowls_told[2000];

static void tell(void *self, const char *sentence)
{
    const size_t at = strlen(bowls_told);
    (*(int *)self)++;
    snprintf(bowls_told + at, sizeof bowls_told - at, "%s\n", sentence);
}

/* How many sentences the last stop has, which begin with these codes. */
static void bowls_are(int n, const char *codes)
{
    const sl_day_record record = {swatches, arms, 4, events, n_events, NULL, NULL};
    const sl_event *const stop = sl_day_last_stop(events, n_events);
    int told = 0;
    bowls_told[0] = '\0';
    ck_assert(stop && sl_day_bowls(&record, stop, tell, &told));
    ck_assert_msg(told == n && strncmp(bowls_told, codes, strlen(codes)) == 0, "%d: %s", told, bowls_told);
}

/* The scene cannot be read: arms are told, and that the packets have to be shown. */
START_TEST(a_stop_tells_other_bowls_than_those_it_may_be_about)
{
    begin();
    happened(SL_EVENT_STOPPED, -1, at_s(5.0)); /* nothing was mixed: whatever stands there */
    bowls_are(2, "AA2, CC3: \"weak\"");
    ck_assert_ptr_nonnull(strstr(bowls_told, "EE5: \"strong\""));
    ck_assert_ptr_nonnull(strstr(bowls_told, "show the packets"));
    ck_assert_ptr_null(strstr(bowls_told, "DD4")); /* nothing is put on it */
    ck_assert_ptr_nonnull(strstr(bowls_told, "show the packets. Not logged as mixed.\nEE5"));
    happened(SL_EVENT_MIXED, 1, at_s(20.0));
    happened(SL_EVENT_STOPPED, -1, at_s(25.0)); /* the one that was mixed splashed */
    bowls_are(1, "CC3: \"weak\"");
    ck_assert(strstr(bowls_told, " Mixed at ") && !strstr(bowls_told, "Not logged"));
    happened(SL_EVENT_APPLIED, 0, at_s(60.0));
    happened(SL_EVENT_STOPPED, 3, at_s(65.0)); /* not on hair: any in use */
    bowls_are(1, "AA2, CC3: \"weak\"");
    happened(SL_EVENT_STOPPED, -1, at_s(70.0)); /* what lay on hair */
    bowls_are(1, "AA2: \"weak\"");
    ck_assert(strstr(bowls_told, " On the hair since ") && !strstr(bowls_told, "Not logged"));
}
END_TEST

START_TEST(a_remark_has_no_words_or_no_one_to_say_it_to)
{
    for (int remark = 0; remark < SL_REMARKS; remark++) {
        ck_assert((sl_day_remark((sl_remark)remark)[0] == '\0') == (remark == SL_REMARK_NONE));
        ck_assert(sl_remark_of_word(sl_remark_word((sl_remark)remark)) == (sl_remark)remark);
    }
    ck_assert_int_eq(sl_remark_of_word("se nota caliente"), SL_REMARK_NONE);
    for (int i = 0; i < SL_DAY_NOTES; i++) {
        ck_assert(sl_day_note(i) >= SL_REMARK_RAN && sl_day_note(i) <= SL_REMARK_PAPER);
    }
    for (int i = 0; i < SL_DAY_TOLD; i++) {
        ck_assert(sl_day_told(i) >= SL_REMARK_TOLD_EMERGENCY && sl_day_told(i) <= SL_REMARK_TOLD_NOBODY);
    }
}
END_TEST

START_SUITE("day words")
ADD(times_are_not_read_off_in_minutes_and_seconds)
ADD(a_swatch_is_not_told_in_each_of_its_stages)
ADD(the_label_is_not_told_or_not_counted_down)
ADD(what_is_due_is_not_said_in_words)
ADD(a_piece_of_a_ladder_is_told_as_a_look)
ADD(a_summary_leaves_out_how_the_day_went)
ADD(a_summary_leaves_out_what_was_measured)
ADD(a_summary_keeps_silent_on_clocks_that_disagree)
ADD(a_reason_lacks_a_key_or_has_two)
ADD(a_stop_tells_other_bowls_than_those_it_may_be_about)
ADD(a_remark_has_no_words_or_no_one_to_say_it_to)
END_SUITE

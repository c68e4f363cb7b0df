/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Out of which tub a bowl came: what is said holds from then on, a bowl's own word goes before it, and what
 * was mixed keeps what it had.
 */
#include "log/day/tubs.h"

#include <string.h>

#include "base/memory.h"
#include "log_made.h"
#include "suite.h"

enum { OPENED = 20758 }; /* 2026-11-01 */
static sl_log_made made;
static sl_tubs *tubs;

static void say(int swatch, const char *note)
{
    log_made_happens(&made, SL_EVENT_NOTED, swatch, 0, note);
}

static void read_tubs(void)
{
    sl_free(tubs);
    tubs = NULL;
    ck_assert(sl_log_tubs(made.log, made.test, made.swatches, made.n, &tubs, NULL));
}

static const char *powder(int swatch)
{
    return tubs[swatch].of[SL_TUB_POWDER].lot;
}

static bool same(const sl_tubs *one, const sl_tubs *other)
{
    bool alike = one->check == other->check;
    for (int k = 0; k < SL_TUB_KINDS; k++) {
        alike = alike && strcmp(one->of[k].lot, other->of[k].lot) == 0 &&
                one->of[k].opened == other->of[k].opened;
    }
    return alike;
}

static void end(void)
{
    sl_free(tubs);
    tubs = NULL;
    log_made_end(&made);
}

START_TEST(a_note_is_not_read_as_it_was_written)
{
    const sl_tubs said = {{{"P7", OPENED}, {"D2", OPENED + 1}}, .check = true};
    sl_tubs read = {.check = false};
    char note[SL_TUBS_NOTE];
    sl_tubs_note(&said, note);
    ck_assert_str_eq(note, "bowl: powder_lot=P7 powder_opened=2026-11-01 developer_lot=D2"
                           " developer_opened=2026-11-02 check=yes");
    ck_assert(sl_tubs_read(note, &read));
    ck_assert(same(&read, &said));
    ck_assert(!sl_tubs_read("the bowl: powder_lot=P7", &read));
    ck_assert(sl_tubs_read("bowl: powder_lot=<b> powder_opened=soon colour=red", &read));
    ck_assert(same(&read, &said));
}
END_TEST

START_TEST(the_longest_note_does_not_fit_into_a_log)
{
    sl_tubs said = {.of = {{.opened = OPENED}, {.opened = OPENED}}, .check = true};
    char note[SL_TUBS_NOTE];
    memset(said.of[0].lot, 'x', SL_CODE - 1);
    memset(said.of[1].lot, 'y', SL_CODE - 1);
    sl_tubs_note(&said, note);
    sl_tubs read = {.check = false};
    ck_assert(sl_tubs_read(note, &read));
    ck_assert(same(&read, &said));
    ck_assert_uint_lt(strlen(note), SL_LOG_TITLE);
}
END_TEST

START_TEST(a_bowl_loses_the_tub_that_it_was_mixed_from)
{
    log_made_begin(&made);
    read_tubs();
    ck_assert_str_eq(powder(0), "");
    say(-1, "bowl: powder_lot=P7 powder_opened=2026-11-01");
    log_made_happens(&made, SL_EVENT_MIXED, 0, 10, NULL);
    say(-1, "bowl: powder_lot=P8 developer_lot=D2");
    log_made_happens(&made, SL_EVENT_MIXED, 1, 20, NULL);
    read_tubs();
    ck_assert_str_eq(powder(0), "P7");
    ck_assert_int_eq(tubs[0].of[SL_TUB_POWDER].opened, OPENED);
    ck_assert_str_eq(tubs[0].of[SL_TUB_DEVELOPER].lot, "");
    ck_assert_str_eq(powder(1), "P8");
    ck_assert_int_eq(tubs[1].of[SL_TUB_POWDER].opened, 0); /* the day of another tub */
    ck_assert_str_eq(powder(2), "P8");                     /* not mixed yet */
    end();
}
END_TEST

START_TEST(what_is_said_of_one_bowl_goes_for_another_or_is_lost_when_it_is_mixed)
{
    log_made_begin(&made);
    say(2, "bowl: powder_lot=P9 check=yes");
    say(-1, "bowl: powder_lot=P7 developer_lot=D2");
    log_made_happens(&made, SL_EVENT_MIXED, 2, 10, NULL);
    say(2, "bowl: developer_lot=D3");
    read_tubs();
    ck_assert_str_eq(powder(2), "P9");
    ck_assert_str_eq(tubs[2].of[SL_TUB_DEVELOPER].lot, "D3");
    ck_assert(tubs[2].check);
    ck_assert(!tubs[1].check);
    ck_assert_str_eq(powder(1), "P7");
    end();
}
END_TEST

START_TEST(a_note_that_was_undone_counts)
{
    log_made_begin(&made);
    say(-1, "bowl: powder_lot=P7");
    sl_event wrong = {.kind = SL_EVENT_NOTED, .swatch = -1, .at = {.boot_ns = 1, .wall_ns = 1}};
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &wrong, "bowl: powder_lot=P8", NULL));
    sl_event undone = {.kind = SL_EVENT_UNDONE, .swatch = -1, .at = {.boot_ns = 2, .wall_ns = 2}};
    memcpy(undone.about, wrong.id, sizeof undone.about);
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &undone, NULL, NULL));
    read_tubs();
    ck_assert_str_eq(powder(0), "P7");
    end();
}
END_TEST

static char told[400];
static void hear(void *self, const char *sentence)
{
    (void)self;
    strcat(strcat(told, sentence), "|"); /* NOLINT: a few short ones */
}

START_TEST(a_tub_is_told_of_a_bowl_without_powder_or_twice)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    sl_scene *const scene = sl_scene_load(SLOWLIFT_MODELS "/scenes/eight-arms.yaml", &resolver, NULL);
    const char *const arm[] = {"washing only", "powder + water", "powder + 3 %", "powder + 3 %"};
    const sl_tubs of[] = {{{{"P7", 0}, {"D1", 0}}, false},
                          {{{"P7", OPENED}, {"D1", 0}}, false},
                          {{{"P7", OPENED}, {"D2", 0}}, false},
                          {{{"P8", 0}, {"D2", 0}}, false}};
    const sl_day_record record = {.arm = arm, .n = 4, .scene = scene, .tubs = of};
    const bool first_two[] = {true, true, false, false};
    ck_assert_ptr_nonnull(scene);
    told[0] = '\0';
    sl_day_each_tub(&record, NULL, hear, NULL);
    ck_assert_str_eq(told, "Powder: lot P7, opened 2026-11-01.|Powder: lot P8.|Developer: lot D2.|");
    told[0] = '\0';
    sl_day_each_tub(&record, first_two, hear, NULL);
    ck_assert_str_eq(told, "Powder: lot P7, opened 2026-11-01.|");
    sl_scene_free(scene);
}
END_TEST

START_SUITE("tubs")
ADD(a_note_is_not_read_as_it_was_written)
ADD(the_longest_note_does_not_fit_into_a_log)
ADD(a_bowl_loses_the_tub_that_it_was_mixed_from)
ADD(what_is_said_of_one_bowl_goes_for_another_or_is_lost_when_it_is_mixed)
ADD(a_note_that_was_undone_counts)
ADD(a_tub_is_told_of_a_bowl_without_powder_or_twice)
END_SUITE

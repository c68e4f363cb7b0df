/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A log of which pages were destroyed, one after the other: what is saved of it was in it, unchanged and in
 * its order; what is said to be missing is; whoever asks whether it is sound is told that it is not.
 */
#include <stdio.h>
#include <unistd.h>

#include "broken_pages.h"
#include "slowlift/log.h"
#include "suite.h"

/* What is told of what was saved is true of it. Numbers of rows are given out one by one: where readings are
 * missing between others, the gap says how many, and true is returned. */
static bool tally_is_true(const sl_log_tally *tally, const char *saved)
{
    static int minutes[READINGS];
    const int n = minutes_of(saved, minutes);
    const bool whole = tally->missing == 0 && tally->left_out == 0 && !tally->more_missing;
    for (int i = 1; i < n; i++) {
        ck_assert_int_lt(minutes[i - 1], minutes[i]);
    }
    ck_assert(tally->read == rows_of(saved));
    ck_assert(!whole || n == READINGS);
    ck_assert(tally->more_missing || tally->missing + tally->left_out >= READINGS - n);
    ck_assert(tally->missing <= READINGS + 100); /* never more than there ever were */
    ck_assert(whole || tally->why[0] != '\0');
    sl_error error = {.code = SL_OK};
    ck_assert(sl_log_tally_whole(tally, saved, &error) == whole);
    ck_assert_int_eq(error.code, whole ? SL_OK : SL_ERR_DAMAGED);
    const bool gap = n > 0 && n < READINGS && minutes[0] == 0 && minutes[n - 1] == READINGS - 1;
    if (gap && tally->left_out == 0) {
        ck_assert_int_eq((int)tally->missing, READINGS - n);
        ck_assert(!tally->more_missing);
        return true;
    }
    return false;
}

START_TEST(a_destroyed_page_goes_unseen_or_takes_more_than_it_held)
{
    fill_log();
    const long length = length_of(made.path);
    int saved = 0, gaps = 0, refused = 0;
    for (long page = 0; page < length / PAGE; page++) {
        int faults = 0;
        bool sound = true;
        sl_error error = {.code = SL_OK};
        sl_log_tally tally = {.read = 0};
        destroy_page(made.path, length, page);
        const bool told = sl_log_check(made.other, hear, &faults, &sound, &error);
        ck_assert_msg(!told || (!sound && faults > 0), "page %ld is said to be sound", page);
        unlink(made.csv);
        if (sl_log_rescue(made.other, made.csv, &tally, &error)) {
            saved++;
            gaps += tally_is_true(&tally, made.csv) ? 1 : 0;
        } else {
            refused++; /* the first page, or one of those that say what tables there are */
            ck_assert(error.code != SL_OK && error.code != SL_ERR_USAGE);
            ck_assert_int_ne(access(made.csv, F_OK), 0);
        }
    }
    ck_assert_int_ge(gaps, 3);    /* readings lie on several pages */
    ck_assert_int_lt(refused, 6); /* one lost page is no lost log */
    ck_assert_int_gt(saved, 20);
    end_log();
}
END_TEST

START_SUITE("rescue, page by page")
ADD(a_destroyed_page_goes_unseen_or_takes_more_than_it_held)
END_SUITE

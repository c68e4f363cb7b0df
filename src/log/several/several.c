/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See several.h.
 */
#include "log/several/several.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/append.h"
#include "base/calendar.h"
#include "base/language.h"
#include "base/memory.h"
#include "log/compare/looks.h"
#include "log/day/tubs.h"
#include "log/store/ids.h"
#include "slowlift/rank.h"

static const char doing[] = "comparing tests";

/* ---- which tests ----------------------------------------------------------------------------------------
 */

typedef struct sl_several_reading {
    sl_several *several;
    int today;
    bool *found; /* [n_tests] of those that were asked for by name, and behind them whether any is of the
                    scene */
    sl_ids ids;  /* of every test there is */
} sl_several_reading;

static bool is_asked(sl_several_reading *reading, const sl_log_test *test)
{
    sl_several *const several = reading->several;
    const sl_several_asked *const asked = several->asked;
    bool meant = asked->n_tests == 0;
    for (int i = 0; i < asked->n_tests; i++) {
        if (strncmp(test->id, asked->test[i], strlen(asked->test[i])) == 0) {
            meant = reading->found[i] = true;
        }
    }
    const bool of_scene = !asked->scene || strcmp(asked->scene, test->scene_name) == 0;
    reading->found[asked->n_tests] = reading->found[asked->n_tests] || of_scene;
    if (!meant || !of_scene) {
        return false;
    }
    char made[11];
    int day = 0;
    snprintf(made, sizeof made, "%.10s", test->made);
    const bool older = several->folder && asked->n_tests == 0 && !asked->all && sl_day_read(made, &day) &&
                       day < reading->today - SL_SHELF_DAYS;
    several->n_older += older ? 1 : 0;
    return !older;
}

/* ---- one test -------------------------------------------------------------------------------------------
 */

/* Each lot of a strip's bowls once. */
static bool read_lots(sl_several_test *test, sl_log *log, sl_error *error)
{
    const sl_compare *const seen = test->seen;
    sl_tubs *tubs = NULL;
    test->lots = sl_new((size_t)seen->scene->n_arms, sizeof *test->lots, doing, error);
    const bool good =
        test->lots && sl_log_tubs(log, seen->test.id, seen->swatches, seen->n_swatches, &tubs, error);
    for (int i = 0; good && i < seen->n_swatches; i++) {
        const int arm = seen->bench[i].arm;
        for (int k = 0; arm >= 0 && k < SL_TUB_KINDS; k++) {
            const char *const lot = tubs[i].of[k].lot;
            bool fresh = lot[0] != '\0';
            for (int j = 0; fresh && j < i; j++) {
                fresh = seen->bench[j].arm != arm || strcmp(tubs[j].of[k].lot, lot) != 0;
            }
            if (fresh && sl_day_bowl_holds(seen->scene, seen->swatches[i].arm, (sl_tub_kind)k)) {
                sl_append_item(test->lots[arm][k], sizeof test->lots[arm][k], ", ", "%s", lot);
            }
        }
    }
    sl_free(tubs);
    return good;
}

static bool seen_at_end(const sl_compare *seen)
{
    for (int i = 0; i < seen->n_groups; i++) {
        const sl_seen_group *const group = &seen->groups[i];
        if (group->minute <= SL_NOT_READ && group->hours <= SL_NOT_READ &&
            group->left[seen->basis[group->zone]] > SL_NOT_READ) {
            return true;
        }
    }
    return false;
}

static void drop(sl_several_test *test)
{
    sl_compare_free(test->seen);
    sl_free(test->lots);
    *test = (sl_several_test){.seen = NULL};
}

/* A test that cannot be read is told, and ends nothing. */
static bool read_test(sl_several *several, sl_log *log, const char *file, const sl_log_test *test,
                      sl_error *error)
{
    double speed = 0.0;
    sl_error why = {.code = SL_OK};
    sl_several_test made = {.group = -1};
    const bool read =
        sl_log_rehearsal(log, test->id, &speed, &why) &&
        (speed > 0.0 || (sl_compare_read_looks(&made.seen, log, test, several->asked->noise_floor, &why) &&
                         read_lots(&made, log, &why)));
    if (!read) {
        several->unread = several->n_unread++ == 0 ? why : several->unread;
        drop(&made);
        return why.code != SL_ERR_NO_MEMORY || sl_fail(error, SL_ERR_NO_MEMORY, doing, "");
    }
    const bool people = speed <= 0.0 && made.seen->scene->untold;
    several->n_rehearsed += speed > 0.0 ? 1 : 0;
    several->n_people += people ? 1 : 0;
    if (speed > 0.0 || people) {
        drop(&made);
        return true;
    }
    snprintf(made.file, sizeof made.file, "%s", file);
    if (!sl_grow(&several->test, &several->room, several->n + 1, sizeof *several->test, doing, error)) {
        drop(&made);
        return false;
    }
    several->test[several->n++] = made;
    return true;
}

static bool read_log(void *self, const char *path, const char *name, sl_error *error)
{
    sl_several_reading *const reading = self;
    sl_several *const several = reading->several;
    sl_log *log = NULL;
    sl_log_test *tests = NULL;
    int n = 0;
    sl_error why = {.code = SL_OK};
    const bool read = sl_log_open(&log, path, SL_LOG_READ, &why) && sl_log_tests(log, &tests, &n, &why);
    bool good = why.code != SL_ERR_NO_MEMORY || sl_fail(error, SL_ERR_NO_MEMORY, doing, "");
    for (int i = 0; good && read && i < n; i++) {
        sl_ids_add(&reading->ids, tests[i].id);
        good = !is_asked(reading, &tests[i]) || read_test(several, log, name, &tests[i], error);
    }
    if (!read || (good && !sl_log_whole(log, &why))) {
        several->unread = several->n_unread++ == 0 ? why : several->unread;
    }
    sl_free(tests);
    sl_log_close(log);
    return good;
}

/* ---- all of them ----------------------------------------------------------------------------------------
 */

static int by_day(const void *one, const void *other)
{
    const sl_log_test *const a = &((const sl_several_test *)one)->seen->test,
                             *const b = &((const sl_several_test *)other)->seen->test;
    const int days = strcmp(a->made, b->made), ids = strcmp(a->id, b->id);
    const int more = b->n_events + b->n_readings - a->n_events - a->n_readings;
    return days != 0 ? days : ids != 0 ? ids : more;
}

/* Of a test in several logs the fullest counts, which stands first; one whose end nobody saw does not. */
static void settle_tests(sl_several *several)
{
    size_t n = 0;
    if (several->n > 0) {
        qsort(several->test, several->n, sizeof *several->test, by_day);
    }
    for (size_t i = 0; i < several->n; i++) {
        if (n > 0 && strcmp(several->test[n - 1].seen->test.id, several->test[i].seen->test.id) == 0) {
            several->n_copies++;
            drop(&several->test[i]);
        } else if (!seen_at_end(several->test[i].seen)) {
            several->n_unseen++;
            drop(&several->test[i]);
        } else {
            several->test[n++] = several->test[i];
        }
    }
    several->n = n;
}

static bool read_place(sl_several_reading *reading, sl_error *error)
{
    const sl_several_asked *const asked = reading->several->asked;
    if (reading->several->folder) {
        return sl_today(&reading->today, error) &&
               sl_shelf_each_file(asked->place, true, read_log, reading, error);
    }
    const char *const slash = strrchr(asked->place, '/');
    if (!read_log(reading, asked->place, slash ? slash + 1 : asked->place, error)) {
        return false;
    }
    const bool none = reading->several->n == 0 && reading->several->n_unread > 0;
    if (none) {
        *error = reading->several->unread;
    }
    return !none;
}

static bool all_found(const sl_several_reading *reading, sl_error *error)
{
    const sl_several_asked *const asked = reading->several->asked;
    char ids[120], known[SL_ERROR_TEXT_SIZE];
    if (reading->ids.n == 0 && reading->several->n_unread == 0) {
        return reading->several->folder ? sl_shelf_bare(error) : sl_log_bare(error);
    }
    sl_ids_words(&reading->ids, ids, sizeof ids);
    snprintf(known, sizeof known, _("no test here has an id that begins so: there are %s"), ids);
    for (int i = 0; i < asked->n_tests; i++) {
        if (!reading->found[i]) {
            return sl_fail(error, SL_ERR_MISSING_REFERENCE, asked->test[i], known);
        }
    }
    return !asked->scene || reading->found[asked->n_tests] ||
           sl_fail(error, SL_ERR_MISSING_REFERENCE, asked->scene,
                   _("no test of these logs is of a scene of that name: slowlift log show has their names"));
}

bool sl_several_read(sl_several **several, const sl_several_asked *asked, sl_error *error)
{
    struct stat found;
    sl_several *const made = sl_new(1, sizeof *made, doing, error);
    sl_several_reading reading = {
        .several = made,
        .found = made ? sl_new((size_t)asked->n_tests + 1, sizeof(bool), doing, error) : NULL};
    bool good = reading.found != NULL;
    if (good) {
        made->asked = asked;
        made->folder = stat(asked->place, &found) == 0 && S_ISDIR(found.st_mode);
        good = read_place(&reading, error) && all_found(&reading, error);
    }
    if (good) {
        settle_tests(made);
        good = sl_several_parted(made, error);
    }
    for (int g = 0; good && g < made->n_groups; g++) {
        good = made->group[g].n_tests < 2 || sl_several_pool(made, &made->group[g], g, error);
    }
    sl_free(reading.found);
    if (good) {
        *several = made;
    } else {
        sl_several_free(made);
    }
    return good;
}

void sl_several_free(sl_several *several)
{
    if (!several) {
        return;
    }
    for (int g = 0; g < several->n_groups; g++) {
        for (int z = 0; z < several->group[g].n_zones; z++) {
            sl_pool_free(several->group[g].pool[z]);
        }
        sl_free(several->group[g].place);
        sl_free(several->group[g].predicted);
        sl_free(several->group[g].before);
        sl_free(several->group[g].before_by_order);
    }
    for (size_t i = 0; i < several->n; i++) {
        drop(&several->test[i]);
    }
    sl_free(several->group);
    sl_free(several->test);
    sl_free(several);
}

/* ---- asked of a group -----------------------------------------------------------------------------------
 */

const char *sl_several_strip(const sl_several *several, const sl_several_group *group, int strip, bool title)
{
    const sl_several_part part = group->strip[strip];
    const sl_arm *const arm = &several->test[part.test].seen->scene->arms[part.index];
    return title ? sl_arm_title(arm) : arm->name;
}

const char *sl_several_zone(const sl_several *several, const sl_several_group *group, int zone, bool title)
{
    const sl_several_part part = group->zone[zone];
    const sl_zone *const of = &several->test[part.test].seen->scene->zones[part.index];
    return title ? sl_zone_title(of) : of->name;
}

bool sl_several_shows(const sl_several *several, const sl_several_group *group, int zone)
{
    const sl_several_part part = group->zone[zone];
    const char *const asked = several->asked->zone;
    return group->pool[zone] &&
           (!asked || sl_scene_zone_typed(several->test[part.test].seen->scene, asked) == part.index);
}

int sl_several_order(const sl_several_group *group, int zone, int order[SL_MAX_ARMS])
{
    const int *const place = group->place + zone * group->n_strips;
    const double *const mean = group->pool[zone]->all.mean;
    int n = 0;
    for (int i = 0; i < group->n_strips; i++) {
        int at = n;
        if (place[i] == 0) {
            continue;
        }
        for (; at > 0 && (place[i] < place[order[at - 1]] ||
                          (place[i] == place[order[at - 1]] && mean[i] < mean[order[at - 1]]));
             at--) {
            order[at] = order[at - 1];
        }
        order[at] = i;
        n++;
    }
    return n;
}

double sl_several_half(const sl_several_group *group, int zone, int strip)
{
    const sl_pooled *const pool = group->pool[zone];
    return pool->half[strip] +
           (group->graded[zone] ? sl_wipe_lean(&SL_JUDGE_USUAL, pool->all.mean[strip]) : 0.0);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See compare_work.h.
 */
#include "front/work/compare_work.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/hold.h"
#include "base/language.h"
#include "base/memory.h"
#include "front/places.h"
#include "front/settings.h"
#include "front/times.h"
#include "front/work/new_log.h"

/* One whole minute: looks are told to the minute. */
static bool at_read(const sl_option *option, const char *text, void *minute, sl_error *error)
{
    sl_times times = {.n = 0};
    if (!sl_times_read(&times, option, text, error)) {
        sl_times_free(&times);
        return false;
    }
    const double asked = times.n == 1 ? times.min[0] : 0.0;
    sl_times_free(&times);
    if (asked < 1.0 || asked > SL_COMPARE_LATEST || asked > floor(asked)) {
        return sl_fail(error, SL_ERR_USAGE, text,
                       _("--at takes one whole minute since contact, from 1min on"));
    }
    *(int *)minute = (int)asked;
    return true;
}

static const sl_option options[] = {
    SL_OPTION(sl_compare_work, example, sl_option_flag, .name = "example",
              .help = N_("a made-up day, our own invention; kept where a new log is named")),
    SL_OPTION(sl_compare_work, at_min, at_read, .name = "at", .value = N_("TIME"),
              .help = N_("rank what was seen at that minute (10min) in place of the end: pieces of a time "
                         "ladder, or looks under the mix")),
    SL_OPTION(sl_compare_work, zone_word, sl_option_text, .name = "zone", .value = N_("NAME"),
              .help = N_("this zone alone")),
    SL_OPTION(sl_compare_work, noise_floor, sl_option_share, .name = "floor", .value = N_("SHARE"),
              .help = N_("means closer than this are even (10%); else from looks that were repeated, or a "
                         "step of the grades")),
};
const sl_command_line sl_compare_typed = {
    .name = "compare",
    .line = N_("what was seen: means, what is even, what went wrong"),
    .usage = {N_("LOG [TEST] [OPTIONS]"), N_("--example [NEW-LOG] [OPTIONS]")},
    .about = N_("What was seen on a day of strand tests: for each colour the strips with their mean over "
                "swatches, its 95 % interval, and which are even; the same as the planned time would have "
                "left it, by the model; how fast it left, where swatches were looked at three times or more; "
                "what went otherwise than planned; how far judges agree; and a summary to be read aloud. "
                "TEST: the beginning of a test's id; not needed where there is one. A picture shows what was "
                "seen over the curves that the model predicts."),
    .set = {SL_OPTION_SET_OWN(options), SL_DRAWN_RESULT_SETS(sl_compare_work)},
    .example = {{N_("Monday's strands, and a picture of the blue."),
                 {"slowlift compare strands.db", "slowlift compare strands.db --zone blue -o blue.pdf"}}},
    .wants = {SL_WANTS_LOG},
};

bool sl_compare_work_read(sl_compare_work *work, int argc, char **argv, sl_error *error)
{
    work->noise_floor = -1.0;
    work->zone = -1;
    work->at_min = -1;
    if (!sl_options_read(&sl_compare_typed, argc, argv, work, error)) {
        return false;
    }
    if (work->result.picture && work->at_min >= 0) {
        return sl_fail(error, SL_ERR_USAGE, _("--at and a picture together"),
                       _("a picture shows every minute that was looked at"));
    }
    const int words = argc - optind, most = work->example ? 1 : 2;
    if (words > most || (words == 0 && !work->example)) {
        return sl_fail(error, SL_ERR_USAGE, words == 0 ? _("no log was named") : _("too many words"),
                       _("see slowlift compare --help"));
    }
    work->log = words > 0 ? argv[optind] : NULL;
    work->test = words > 1 ? argv[optind + 1] : NULL;
    return true;
}

/* What only the document tells. */
static bool promise_in(sl_compare_work *work, sl_error *error)
{
    const sl_result_wish *const as = &work->result;
    return as->csv || as->json || as->picture ||
           sl_promise_of(&work->promise, work->compare->scene, work->compare->n_blocks, -1.0, error);
}

static bool compare_in(sl_compare_work *work, const char *path, sl_error *error)
{
    sl_log *log = NULL;
    sl_log_test test;
    sl_signals_hold(); /* so that SQLite clears away what it keeps beside the log */
    const bool good = sl_log_open(&log, path, SL_LOG_READ, error) &&
                      sl_log_find(log, work->test, &test, error) &&
                      sl_compare_read(&work->compare, log, &test, work->noise_floor, error) &&
                      (work->at_min < 0 || sl_compare_rank_at(work->compare, work->at_min, error)) &&
                      (work->result.picture || sl_compare_rates(&work->rates, work->compare, error)) &&
                      promise_in(work, error) &&
                      sl_zone_find(work->compare->scene, work->zone_word, true, &work->zone, error);
    if (good) {
        sl_log_whole(log, &work->unread);
    }
    sl_log_close(log);
    sl_signals_release();
    return good;
}

static bool make_example(const sl_compare_work *work, const char *path, sl_error *error)
{
    char scene[SL_PLACES_PATH];
    sl_places places;
    if (!sl_places_find(&places, work->result.models, "eight-arms", error) ||
        !sl_places_scene(&places, "eight-arms", scene, error)) {
        return false;
    }
    sl_folders folders = {.folders = places.folders, .n_folders = places.n_folders};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    return sl_log_example(path, scene, &resolver, error);
}

/* Where a log was named it is made there, and stays; nothing that is there is added to. */
static bool compare_example_kept(sl_compare_work *work, sl_error *error)
{
    if (access(work->log, F_OK) == 0) {
        return sl_fail(error, SL_ERR_USAGE, _("there is a file of that name already"),
                       _("an example is made in a new log: name one that is not there"));
    }
    sl_new_log made;
    return sl_new_log_begin(&made, work->log, error) &&
           sl_new_log_end(&made, make_example(work, made.at, error), error) &&
           compare_in(work, work->log, error);
}

/* Made in a folder of its own, compared, and removed again. */
static bool compare_example(sl_compare_work *work, sl_error *error)
{
    const char *const temporary = getenv("TMPDIR");
    char path[SL_TEMPORARY_PATH + 32];
    sl_temporary folder;
    snprintf(path, sizeof path, "%.900s/example", temporary ? temporary : "/tmp");
    if (!sl_temporary_folder(&folder, path)) {
        return sl_fail(error, SL_ERR_CANNOT_WRITE, path, strerror(errno));
    }
    snprintf(path, sizeof path, "%s/example.db", folder.path);
    const bool good = make_example(work, path, error) && compare_in(work, path, error);
    sl_temporary_remove(&folder);
    return good;
}

bool sl_compare_work_compute(sl_compare_work *work, sl_error *error)
{
    if (!work->example) {
        return compare_in(work, work->log, error);
    }
    return work->log ? compare_example_kept(work, error) : compare_example(work, error);
}

sl_exit sl_compare_work_end(const sl_compare_work *work, sl_exit code)
{
    return code != SL_EXIT_OK || work->unread.code == SL_OK ? code : sl_complain(&work->unread);
}

void sl_compare_work_free(sl_compare_work *work)
{
    sl_compare_free(work->compare);
    sl_free(work->rates);
    work->compare = NULL;
    work->rates = NULL;
}

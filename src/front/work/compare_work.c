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
#include <sys/stat.h>
#include <unistd.h>

#include "base/hold.h"
#include "base/language.h"
#include "base/memory.h"
#include "front/places.h"
#include "front/settings.h"
#include "front/times.h"
#include "front/work/new_log.h"
#include "log/several/school.h"

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
    SL_OPTION(
        sl_compare_work, school, sl_option_flag, .name = "example-school",
        .help = N_("a made-up year of twelve tests in a new folder: as planned, as they went, and the truth "
                   "they were drawn from")),
    SL_OPTION(sl_compare_work, at_min, at_read, .name = "at", .value = N_("TIME"),
              .help = N_("rank what was seen at that minute (10min) in place of the end: pieces of a time "
                         "ladder, or looks under the mix")),
    SL_OPTION(sl_compare_work, zone_word, sl_option_text, .name = "zone", .value = N_("NAME"),
              .help = N_("this zone alone")),
    SL_OPTION(sl_compare_work, asked.all, sl_option_flag, .name = "all",
              .help = N_("every test of the log together; of a folder those of more than a year ago, too")),
    SL_OPTION(sl_compare_work, asked.scene, sl_option_text, .name = "of", .value = N_("SCENE"),
              .help = N_("of several tests only those of this scene, by its file's name")),
    SL_OPTION(sl_compare_work, asked.across, sl_option_flag, .name = "across",
              .help =
                  N_("several tests together whatever their labels' times and lots; what differs is said")),
    SL_OPTION(sl_compare_work, noise_floor, sl_option_share, .name = "floor", .value = N_("SHARE"),
              .help = N_("means closer than this are even (10%); else from looks that were repeated, or a "
                         "step of the grades")),
};
const sl_command_line sl_compare_typed = {
    .name = "compare",
    .line = N_("what was seen: means, what is even, what went wrong"),
    .usage = {N_("LOG [TEST] [OPTIONS]"), N_("LOG-OR-FOLDER [TEST ...] [OPTIONS]"),
              N_("--example [NEW-LOG] [OPTIONS]"), N_("--example-school NEW-FOLDER [OPTIONS]")},
    .about =
        N_("What was seen on a day of strand tests: for each colour the strips with their mean over "
           "swatches, its 95 % interval, and which are even; the same as the planned time would have "
           "left it, by the model; how fast it left, where swatches were looked at three times or more; "
           "what went otherwise than planned; how far judges agree; level, base, stretch and "
           "feel of the hair, and what it paid at the same colour left; and a summary to be read aloud. "
           "TEST: the beginning of a test's id; not needed where there is one. A picture, of one test, shows "
           "what was seen over the curves that the model predicts. Several tests, a log with --all, or a "
           "folder of logs: all of them together, each a day of its own, in groups that compared the same."),
    .set = {SL_OPTION_SET_OWN(options), SL_DRAWN_RESULT_SETS(sl_compare_work)},
    .example = {{N_("Monday's strands, and a picture of the blue."),
                 {"slowlift compare strands.db", "slowlift compare strands.db --zone blue -o blue.pdf"}},
                {N_("what do I know about blue, by all tests of the year?"),
                 {"slowlift compare ~/tests --zone blue"}}},
    .wants = {SL_WANTS_LOG},
};

bool sl_compare_several(const sl_compare_work *work)
{
    struct stat found;
    return !work->example &&
           (work->school || work->asked.all || work->asked.n_tests > 1 || work->asked.scene ||
            work->asked.across || (stat(work->log, &found) == 0 && S_ISDIR(found.st_mode)));
}

static bool one_or_several(sl_compare_work *work, sl_error *error)
{
    const bool only_one = work->at_min >= 0 || work->result.picture;
    const bool of_several = work->asked.all || work->asked.scene || work->asked.across;
    work->asked.noise_floor = work->noise_floor;
    work->asked.zone = work->zone_word;
    if (work->example && (work->school || of_several)) {
        return sl_fail(error, SL_ERR_USAGE, _("--example and what is asked of several tests"),
                       _("the made-up day is one test; --example-school makes twelve"));
    }
    if (work->asked.all && work->asked.n_tests > 0) {
        return sl_fail(error, SL_ERR_USAGE, _("--all and tests by their ids"),
                       _("name the tests that are meant, or ask for all of them"));
    }
    return !(only_one && sl_compare_several(work)) ||
           sl_fail(error, SL_ERR_USAGE,
                   work->result.picture ? _("several tests and a picture") : _("several tests and --at"),
                   _("name one log and one test for that"));
}

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
    const int words = argc - optind;
    if ((words > 1 && (work->example || work->school)) || (words == 0 && !work->example)) {
        return sl_fail(error, SL_ERR_USAGE, words == 0 ? _("no log was named") : _("too many words"),
                       _("see slowlift compare --help"));
    }
    work->log = words > 0 ? argv[optind] : NULL;
    work->test = words > 1 ? argv[optind + 1] : NULL;
    work->asked.place = work->log;
    work->asked.test = (const char *const *)argv + optind + 1;
    work->asked.n_tests = words - 1;
    return one_or_several(work, error);
}

/* What only the document tells. */
static bool promise_in(sl_compare_work *work, sl_error *error)
{
    const sl_result_wish *const as = &work->result;
    return as->csv || as->json || as->picture ||
           sl_promise_of(&work->promise, work->compare->scene, work->compare->n_blocks, -1.0, error);
}

static bool has_picture(const sl_compare_work *work, sl_error *error)
{
    return !work->result.picture || work->zone < 0 ||
           work->compare->scene->zones[work->zone].recipe.n_dyes > 0 ||
           sl_fail(error, SL_ERR_USAGE, _("a picture of a zone without dye"), _("name a zone with dye"));
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
                      sl_zone_find(work->compare->scene, work->zone_word, false, &work->zone, error) &&
                      has_picture(work, error);
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
    if (!work->school) {
        return sl_log_example(path, scene, &resolver, error);
    }
    sl_school_truth *const truth = sl_new(1, sizeof *truth, "making an example", error);
    const bool good = truth && sl_log_school(path, scene, &resolver, SL_SCHOOL_SEED, truth, error);
    sl_free(truth);
    return good;
}

static bool compare_several(sl_compare_work *work, sl_error *error)
{
    sl_signals_hold();
    bool good = sl_several_read(&work->several, &work->asked, error);
    if (good && sl_signal_waits()) {
        good = sl_fail_at(error, SL_ERR_CANNOT_READ, work->log, 0, 0, _("it was broken off"), "");
    }
    sl_signals_release();
    for (int g = 0; good && g < work->several->n_groups; g++) {
        const sl_scene *const scene = work->several->test[work->several->group[g].first].seen->scene;
        good = work->zone >= 0 || sl_zone_find(scene, work->zone_word, false, &work->zone, error);
    }
    work->unread = good ? work->several->unread : work->unread;
    return good;
}

/* A folder that is made whole and answers, or not at all. */
static bool compare_school(sl_compare_work *work, sl_error *error)
{
    sl_temporary folder;
    if (access(work->log, F_OK) == 0) {
        return sl_fail(error, SL_ERR_USAGE, _("there is a file or folder of that name already"),
                       _("an example is made in a new folder: name one that is not there"));
    }
    if (!sl_temporary_folder(&folder, work->log)) {
        return sl_fail(error, SL_ERR_CANNOT_WRITE, work->log, strerror(errno));
    }
    work->asked.place = folder.path;
    bool good = make_example(work, folder.path, error) && compare_several(work, error);
    work->asked.place = work->log;
    if (!good) {
        sl_temporary_rename_in(&folder, work->log, error);
    } else if (chmod(folder.path, sl_usual_mode(true)) != 0 || !sl_name_new(folder.path, work->log)) {
        good = sl_fail(error, SL_ERR_CANNOT_WRITE, work->log, strerror(errno));
    }
    if (good) {
        sl_temporary_forget(&folder);
    } else {
        sl_temporary_remove(&folder);
    }
    return good;
}

/* Where a log was named it is made there, and stays, unless what was asked of it is refused; nothing that is
 * there is added to. */
static bool compare_example_kept(sl_compare_work *work, sl_error *error)
{
    if (access(work->log, F_OK) == 0) {
        return sl_fail(error, SL_ERR_USAGE, _("there is a file of that name already"),
                       _("an example is made in a new log: name one that is not there"));
    }
    sl_new_log made;
    return sl_new_log_begin(&made, work->log, error) &&
           sl_new_log_end(&made, make_example(work, made.at, error) && compare_in(work, made.at, error),
                          error);
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
    if (work->school) {
        return compare_school(work, error);
    }
    if (sl_compare_several(work)) {
        return compare_several(work, error);
    }
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
    sl_several_free(work->several);
    sl_free(work->rates);
    work->compare = NULL;
    work->several = NULL;
    work->rates = NULL;
}

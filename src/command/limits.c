/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift limits`: when to look, when to stop, and how sure the model is. Invariant: no minute
 * for a person unless sl_answer_of gives one.
 */
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

#include "base/memory.h"
#include "base/save.h"
#include "command/command.h"
#include "command/ensemble.h"
#include "command/options.h"
#include "command/places.h"
#include "command/seen.h"
#include "report/limits.h"

static const long MOST_MEMBERS = 100000000L;

/* What was asked for, as written. */
typedef struct sl_asked {
    const char *file, *models, *arm, *output, *person;
    const char *saw[SL_MOST_SAWS];
    int n_saws;
    long members, threads;
    uint64_t seed;
    bool csv, json, science;
} sl_asked;

/* What it takes to answer; freed in one place. */
typedef struct sl_work {
    sl_scene *scene;
    sl_solver *solver;
    sl_optics *optics;
    sl_timeline *timeline;
    sl_spread *spread;
    sl_intake intake;
    sl_saws saws;
    int arm; /* -1: every arm */
    sl_answer answers[SL_MAX_ARMS];
    sl_limits limits[SL_MAX_ARMS];
} sl_work;

static const struct option options[] = {{"arm", required_argument, NULL, 'a'},
                                        {"members", required_argument, NULL, 'n'},
                                        {"seed", required_argument, NULL, 's'},
                                        {"threads", required_argument, NULL, 't'},
                                        {"saw", required_argument, NULL, 'w'},
                                        {"person", required_argument, NULL, 'p'},
                                        {"science", no_argument, NULL, 'i'},
                                        {"csv", no_argument, NULL, 'c'},
                                        {"json", no_argument, NULL, 'j'},
                                        {"output", required_argument, NULL, 'o'},
                                        {"models", required_argument, NULL, 'm'},
                                        {"help", no_argument, NULL, 'h'},
                                        {NULL, 0, NULL, 0}};

/* ---- the command line -------------------------------------------------------------------------- */

/* A whole number, digits alone. */
static bool read_whole(const char *option, const char *text, long least, long most, long *value,
                       sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE], wanted[SL_ERROR_TEXT_SIZE], *rest = NULL;
    errno = 0;
    const long number = strtol(text, &rest, 10);
    if (text[0] >= '0' && text[0] <= '9' && rest[0] == '\0' && errno == 0 && number >= least &&
        number <= most) {
        *value = number;
        return true;
    }
    snprintf(found, sizeof found, "--%s \"%.60s\" is not understood", option, text);
    snprintf(wanted, sizeof wanted, "write a whole number from %ld to %ld", least, most);
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

static bool read_seed(const char *text, uint64_t *seed, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE], *rest = NULL;
    errno = 0;
    const unsigned long long number = strtoull(text, &rest, 10);
    if (text[0] >= '0' && text[0] <= '9' && rest[0] == '\0' && errno == 0) {
        *seed = number;
        return true;
    }
    snprintf(found, sizeof found, "--seed \"%.60s\" is not understood", text);
    return sl_fail(error, SL_ERR_USAGE, found, "write a whole number below 2 to the 64");
}

static bool add_saw(sl_asked *asked, const char *text, sl_error *error)
{
    if (asked->n_saws >= SL_MOST_SAWS) {
        return sl_fail(error, SL_ERR_USAGE, "more --saw than are read", "32 at most");
    }
    asked->saw[asked->n_saws++] = text;
    return true;
}

static bool read_option(sl_asked *asked, int option, char **argv, sl_error *error)
{
    switch (option) {
    case 'a':
        asked->arm = optarg;
        return true;
    case 'n':
        return read_whole("members", optarg, 1, MOST_MEMBERS, &asked->members, error);
    case 's':
        return read_seed(optarg, &asked->seed, error);
    case 't':
        return read_whole("threads", optarg, 1, 256, &asked->threads, error);
    case 'w':
        return add_saw(asked, optarg, error);
    case 'p':
        asked->person = optarg;
        return true;
    case 'i':
        asked->science = true;
        return true;
    case 'c':
        asked->csv = true;
        return true;
    case 'j':
        asked->json = true;
        return true;
    case 'o':
        asked->output = optarg;
        return true;
    case 'm':
        asked->models = optarg;
        return true;
    default:
        return sl_option_refused("slowlift limits", option, argv, options, error);
    }
}

static bool read_asked(sl_asked *asked, int argc, char **argv, sl_error *error)
{
    int option = 0;
    opterr = 0;
    while ((option = getopt_long(argc, argv, ":o:", options, NULL)) != -1) {
        if (!read_option(asked, option, argv, error)) {
            return false;
        }
    }
    if (asked->csv && asked->json) {
        return sl_fail(error, SL_ERR_USAGE, "--csv and --json together", "ask for one of them");
    }
    return sl_one_file("slowlift limits", argc, argv, &asked->file, error);
}

/* ---- what it means for this scene ----------------------------------------------------------------- */

static bool has_mix(const sl_arm *arm)
{
    for (int i = 0; i < arm->n_steps; i++) {
        if (arm->steps[i].kind == SL_STEP_APPLY) {
            return true;
        }
    }
    return false;
}

/* --arm, or -1. */
static bool find_arm(sl_work *work, const sl_asked *asked, sl_error *error)
{
    const char *names[SL_MAX_ARMS];
    work->arm = -1;
    for (int i = 0; i < work->scene->n_arms; i++) {
        names[i] = work->scene->arms[i].name;
        if (asked->arm && strcmp(names[i], asked->arm) == 0) {
            work->arm = i;
        }
    }
    return !asked->arm || work->arm >= 0 ||
           sl_word_refused("the arm", asked->arm, names, work->scene->n_arms, error);
}

/* Whose bowl it is: --arm, or the only arm with a mix; -1 when that is not clear. */
static int arm_of_bowl(const sl_work *work)
{
    int found = -1;
    for (int i = 0; i < work->scene->n_arms && work->arm < 0; i++) {
        if (has_mix(&work->scene->arms[i])) {
            if (found >= 0) {
                return -1;
            }
            found = i;
        }
    }
    return work->arm >= 0 ? work->arm : found;
}

static bool read_saws(sl_work *work, const sl_asked *asked, sl_error *error)
{
    const int arm = arm_of_bowl(work);
    if (asked->n_saws > 0 && arm < 0) {
        return sl_fail(error, SL_ERR_USAGE, "something was seen, and the scene has more than one mix",
                       "say of which arm: --arm NAME");
    }
    for (int i = 0; i < asked->n_saws; i++) {
        if (!sl_saw_read(asked->saw[i], work->scene, arm, false, &work->saws, error)) {
            return false;
        }
    }
    return true;
}

/* The form, and what the strand showed beside what the cotton did. */
static bool read_person(sl_work *work, const sl_asked *asked, sl_error *error)
{
    if (!asked->person) {
        return true;
    }
    if (strcmp(asked->person, "ask") == 0) {
        sl_intake_ask(stdin, stderr, work->scene, arm_of_bowl(work), &work->intake);
    } else if (!sl_intake_load(asked->person, work->scene, &work->intake, error)) {
        return false;
    }
    const sl_saws *const showed = &work->intake.showed;
    for (int i = 0; i < showed->n; i++) {
        if (work->saws.n >= SL_MOST_SAWS) {
            return sl_fail(error, SL_ERR_USAGE, "more was seen than is read",
                           "32 at most, strand and cotton together");
        }
        work->saws.saw[work->saws.n++] = showed->saw[i];
    }
    return showed->n == 0 || sl_saws_check(&work->saws, work->scene, error);
}

static bool any_asked(const sl_work *work)
{
    for (int i = 0; i < work->scene->n_arms; i++) {
        if (work->limits[i].asked) {
            return true;
        }
    }
    return false;
}

/* ---- computing --------------------------------------------------------------------------------------- */

static bool central_limits(sl_work *work, sl_error *error)
{
    const double end[] = {work->scene->until_min};
    work->solver = sl_solver_new(error);
    work->optics = work->solver ? sl_optics_new(work->scene, error) : NULL;
    if (!work->optics ||
        !sl_timeline_solve(&work->timeline, work->scene, end, 1, work->solver, work->optics, error)) {
        return false;
    }
    for (int arm = 0; arm < work->scene->n_arms; arm++) {
        work->limits[arm] = sl_limits_of(work->timeline, arm, work->optics);
    }
    return any_asked(work) ||
           sl_fail(error, SL_ERR_USAGE, "no arm of this scene has both a mix and a goal",
                   "write what it aims at, such as \"aims: {colour_left: 20 %, base_moved: 25 %}\"");
}

static bool compute(sl_work *work, const sl_asked *asked, sl_error *error)
{
    sl_places places;
    work->scene = sl_places_load(&places, asked->models, asked->file, error);
    if (!work->scene || !find_arm(work, asked, error) || !central_limits(work, error) ||
        !read_saws(work, asked, error) || !read_person(work, asked, error)) {
        return false;
    }
    const sl_spread_request request = {
        .members = asked->members, .seed = asked->seed, .threads = (int)asked->threads, .saws = &work->saws};
    if (!sl_ensemble_run(&work->spread, work->scene, request, error)) {
        return false;
    }
    for (int arm = 0; arm < work->scene->n_arms; arm++) {
        work->answers[arm] =
            sl_answer_of(work->scene, work->spread, arm, asked->person ? &work->intake : NULL);
    }
    return true;
}

static void free_work(sl_work *work)
{
    sl_spread_free(work->spread);
    sl_timeline_free(work->timeline);
    sl_optics_free(work->optics);
    sl_solver_free(work->solver);
    sl_scene_free(work->scene);
}

/* ---- writing ------------------------------------------------------------------------------------------- */

/* The first of these that is set names the characters of the terminal (POSIX, XBD 8.2). */
static bool speaks_utf8(void)
{
    static const char *const names[] = {"LC_ALL", "LC_CTYPE", "LANG"};
    const char *value = "";
    for (int i = 0; i < 3 && value[0] == '\0'; i++) {
        const char *const set = getenv(names[i]);
        value = set ? set : "";
    }
    const char *const charset = strchr(value, '.');
    return charset && (strncasecmp(charset, ".utf-8", 6) == 0 || strncasecmp(charset, ".utf8", 5) == 0);
}

static bool write_form(FILE *out, const sl_limits_page *page, const sl_asked *asked)
{
    const int width = 100;
    return asked->csv    ? sl_limits_csv(out, page)
           : asked->json ? sl_limits_json(out, page)
                         : sl_limits_text(out, page, width);
}

static sl_exit write_answer(const sl_work *work, const sl_asked *asked)
{
    const sl_limits_page page = {.timeline = work->timeline,
                                 .spread = work->spread,
                                 .person = asked->person ? &work->intake : NULL,
                                 .answers = work->answers,
                                 .limits = work->limits,
                                 .only = work->arm,
                                 .science = asked->science,
                                 .ascii = !speaks_utf8()};
    if (!asked->output) {
        errno = 0;
        return sl_finish_output(write_form(stdout, &page, asked));
    }
    sl_error error = {.code = SL_OK};
    sl_save save;
    if (!sl_save_open(&save, asked->output, &error)) {
        return sl_complain(&error);
    }
    write_form(save.stream, &page, asked);
    return sl_save_commit(&save, &error) ? SL_EXIT_OK : sl_complain(&error);
}

/* What was written is said to be partial on stderr too, where a form for machines has no word. */
static sl_exit say_partial(const sl_spread *spread, sl_exit code)
{
    if (!spread->stopped) {
        return code;
    }
    fprintf(stderr, "slowlift: stopped after %ld of %ld model runs; the result is partial\n", spread->members,
            spread->asked_for);
    return code == SL_EXIT_OK ? SL_EXIT_PARTIAL : code;
}

sl_exit sl_command_limits(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_asked asked = {.members = 10000, .seed = 1, .threads = sl_processors()};
    sl_exit code = SL_EXIT_OK;
    sl_work *const work = sl_new(1, sizeof *work, "answering", &error); /* too large for a stack */
    if (work && read_asked(&asked, argc, argv, &error) && compute(work, &asked, &error)) {
        code = say_partial(work->spread, write_answer(work, &asked));
    } else {
        code = sl_complain(&error);
    }
    if (work) {
        free_work(work);
        sl_free(work);
    }
    return code;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift day`: opens a test of a log and keeps its clock until it is left.
 */
#include "command/day/day.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/language.h"
#include "base/memory.h"
#include "base/program.h"
#include "command/day/day_room.h"
#include "command/log/log_verbs.h"
#include "log/day/rounds.h"
#include "report/plan/day.h"

enum { TICK_MS = 250 };

typedef struct sl_day_asked {
    const char *log, *test;
    bool summary, stops, blind, plain;
} sl_day_asked;

/* All that lives as long as the command. */
typedef struct sl_day_open {
    sl_log *log;
    sl_log_test test;
    sl_log_swatch *swatches;
    sl_scene *scene; /* NULL: it could not be read, why says it; the clock goes on without it */
    sl_error why;
    sl_terminal_day *day;
} sl_day_open;

static const sl_option options[] = {
    SL_OPTION(sl_day_asked, blind, sl_option_flag, .name = "blind",
              .help = N_("for a judge: neither arms nor the model are told")),
    SL_OPTION(sl_day_asked, plain, sl_option_flag, .name = "plain",
              .help = N_("no lines at the foot that are drawn over each second (screen readers)")),
    SL_OPTION(sl_day_asked, summary, sl_option_flag, .name = "summary",
              .help = N_("no clock: how the day went; late, early, unequal time on hair, age of the mix")),
    SL_OPTION(sl_day_asked, stops, sl_option_flag, .name = "stops",
              .help = N_("no clock: a sheet of every stop for a doctor: when, why, what was in the bowl, how "
                         "long water ran, who was told")),
};
const sl_command_line sl_day_typed = {
    .name = "day",
    .line = N_("the clock of the day: one key for all that is done"),
    .usage = {N_("[OPTIONS] LOG [TEST]")},
    .about =
        N_("The clock of the day, on a terminal: what is next with its countdown, every swatch's own time "
           "from contact to first water, one key for each thing done, each kept in the log at once. It "
           "goes on after sleep, a crash, a kill or a restart; where clocks disagree the longer time "
           "counts, and it says so. TEST: the beginning of a test's id; not needed where there is one."
           "\n\n"
           "SLOWLIFT_DAY_SPEED=60 makes a rehearsal, a minute each second. Never for real hair."),
    .keys =
        N_("  space or s   STOP AND RINSE, all that is on hair: kept first, asked afterwards\n"
           "  x            the chosen swatch alone           o  water off\n"
           "  a  applied   w  wiped and looked   f  felt: skin, heat, stretch   r  rinsed   m  mixed\n"
           "               (time ladder: w  the piece is cut off and rinsed)\n"
           "  n  note      t  in your own words  u  undo     1 2 3, c  choose another swatch\n"
           "  l  all of them    p  the model's word    b  bell    ?  help    q  leave; the clock goes on\n"
           "  d  for a doctor, after a stop: what was in the bowls, also in a blind test; who was told\n"
           "\n"
           "Without a terminal: a key and Enter, and a swatch's code may follow, such as: a EK9\n"),
    .set = {SL_OPTION_SET_OWN(options)},
    .example = {{N_("the bowls are on the counter."),
                 {"slowlift log new strands.db eight-arms --repeats 3 --operator op-1",
                  "slowlift day strands.db"}},
                {N_("how did it go?"), {"slowlift day strands.db --summary"}}},
    .wants = {SL_WANTS_LOG},
};

static bool read_asked(sl_day_asked *asked, int argc, char **argv, sl_error *error)
{
    if (!sl_options_read(&sl_day_typed, argc, argv, asked, error)) {
        return false;
    }
    if (optind >= argc) {
        return sl_fail(error, SL_ERR_USAGE, _("no log was named"),
                       _("give one, such as slowlift day strands.db; slowlift log new begins one"));
    }
    if (optind + 2 < argc) {
        return sl_fail(error, SL_ERR_USAGE, _("one word too many"),
                       _("a log, and the beginning of a test's id"));
    }
    if (asked->summary && asked->stops) {
        return sl_fail(error, SL_ERR_USAGE, _("both --summary and --stops"),
                       _("ask for one after the other"));
    }
    asked->log = argv[optind];
    asked->test = optind + 1 < argc ? argv[optind + 1] : NULL;
    return true;
}

/* ---- opening ---------------------------------------------------------------------------------------- */

static bool lay_out(sl_terminal_day *day, sl_error *error)
{
    const size_t n = (size_t)day->n;
    day->plan = sl_new(n + 1, sizeof *day->plan, "opening the day", error);
    day->arm = sl_new(n + 1, sizeof *day->arm, "opening the day", error);
    day->arm_at = sl_new(n + 1, sizeof *day->arm_at, "opening the day", error);
    if (!day->plan || !day->arm || !day->arm_at) {
        return false;
    }
    for (int i = 0; i < day->n; i++) {
        day->plan[i] = day->swatches[i].bench;
        day->arm[i] = day->swatches[i].arm;
        day->arm_at[i] = -1;
    }
    return true;
}

static void find_arms(sl_terminal_day *day)
{
    const sl_scene *const scene = day->model.scene;
    for (int i = 0; i < day->n && scene; i++) {
        day->arm_at[i] = sl_scene_arm(scene, day->arm[i]);
    }
}

/* What is only read. */
static bool reads(const sl_day_asked *asked)
{
    return asked->summary || asked->stops;
}

/* A summary of a rehearsal stands as it stood then. */
static bool one_speed(sl_terminal_day *day, sl_log *log, const sl_day_asked *asked, sl_error *error)
{
    if (!reads(asked)) {
        day->rehearsed = day->clock.speed > 1.0 ? day->clock.speed : 0.0;
        return sl_log_one_speed(log, day->test->id, day->clock.speed, day->bench.started, error);
    }
    const sl_event *const last = day->n_events > 0 ? &day->event[day->n_events - 1] : NULL;
    const bool good = sl_log_rehearsal(log, day->test->id, &day->rehearsed, error);
    day->now = last && day->rehearsed > 0.0 && day->clock.speed <= 1.0 ? last->at : day->now;
    return good;
}

static bool open_day(sl_day_open *open, const sl_day_asked *asked, sl_error *error)
{
    int64_t begun_ns = 0;
    int n = 0;
    if (!sl_log_open(&open->log, asked->log, reads(asked) ? SL_LOG_READ : SL_LOG_WRITE, error) ||
        !sl_log_find(open->log, asked->test, &open->test, error) ||
        !sl_log_swatches(open->log, open->test.id, &open->swatches, &n, error) || !sl_day_holds(n, error) ||
        !sl_time_read(open->test.made, &begun_ns, error)) {
        return false;
    }
    open->scene = sl_log_scene(open->log, open->test.id, &open->why);
    sl_rounds_fill(open->scene, open->swatches, n);
    sl_terminal_day *const day = open->day = sl_new(1, sizeof *day, "opening the day", error);
    if (!day) {
        return false;
    }
    day->test = &open->test;
    day->swatches = open->swatches;
    day->n = n;
    day->chosen = -1;
    day->scene = open->scene;
    day->blind = asked->blind;
    day->terminal = isatty(STDOUT_FILENO) == 1;
    const char *const kind = getenv("TERM");
    day->status = day->terminal && !asked->plain && kind && strcmp(kind, "dumb") != 0;
    if (!lay_out(day, error) ||
        !sl_log_events(open->log, open->test.id, open->swatches, n, &day->event, &day->n_events, error) ||
        !sl_day_clock_start(&day->clock, begun_ns, error)) {
        return false;
    }
    day->capacity = (size_t)day->n_events;
    sl_bench_fold(&day->bench, day->plan, day->n, day->event, day->n_events);
    return sl_terminal_look(day, error) && one_speed(day, open->log, asked, error);
}

static void close_day(sl_day_open *open)
{
    sl_terminal_day *const day = open->day;
    if (day) {
        sl_terminal_model_free(&day->model);
        sl_free(day->plan);
        sl_free(day->arm);
        sl_free(day->arm_at);
        sl_free(day->event);
        sl_free(day);
    }
    sl_scene_free(open->scene);
    sl_free(open->swatches);
    sl_log_close(open->log);
}

/* ---- the day --------------------------------------------------------------------------------------------
 */

static void greet(sl_terminal_day *day)
{
    sl_terminal_say(day, "%s: %s", day->test->title, day->test->scene_name);
    if (day->clock.speed > 1.0) {
        sl_terminal_say(day, _("*** REHEARSAL: THIS CLOCK RUNS %g TIMES AS FAST. NOT FOR REAL HAIR. ***"),
                        day->clock.speed);
        sl_event event = {.kind = SL_EVENT_NOTED, .swatch = -1, .at = day->now, .elsewhere = true};
        sl_terminal_keep_event(day, &event, ""); /* its speed says that it is a rehearsal */
    }
    sl_terminal_say(day, "%s", sl_day_stop_signs());
    sl_terminal_say(day, "%s", _("Space is STOP AND RINSE. ? shows the other keys."));
    if (day->model.timeline == NULL && !day->blind) {
        sl_terminal_say(day, _("The model says nothing today: %s; %s."), day->model.why.found,
                        day->model.why.wanted);
    }
}

static void take_up(sl_terminal_day *day)
{
    greet(day);
    if (!day->bench.started) {
        sl_terminal_sound_test(day);
        return;
    }
    sl_terminal_say(day, "%s", _("This day has begun already; it goes on from its log."));
    sl_terminal_say_clocks(day);
    if (day->bench.stopping) {
        day->asks_reason = day->bench.stop_reason == SL_REASON_UNSAID;
        sl_terminal_say_stopped(day);
    }
    sl_terminal_sound_test(day);
    sl_terminal_say_due(day);
}

/* False: stdin is at its end. */
static bool hear(sl_terminal_day *day, sl_day_room *room)
{
    const int got = sl_day_room_wait(room, TICK_MS);
    sl_terminal_look(day, NULL);
    sl_terminal_from_elsewhere(day);
    if (room->keys) {
        for (size_t i = 0; i < room->n && !day->leave; i++) {
            sl_terminal_key(day, (unsigned char)room->read[i]);
        }
        room->n = 0;
    } else {
        char line[SL_DAY_READ];
        while (!day->leave && sl_day_room_line(room, line)) {
            sl_terminal_line(day, line);
        }
    }
    return got >= 0;
}

static void keep_time(sl_terminal_day *day)
{
    sl_day_room room;
    sl_day_room_open(&room, day->status);
    take_up(day);
    int64_t second = -1;
    while (!day->leave && !ferror(stdout) && sl_signal_waiting() == 0) {
        if (!hear(day, &room)) {
            break;
        }
        sl_terminal_alarms(day);
        const int64_t at = day->now.wall_ns / 1000000000;
        if (at != second || day->drawn == 0) {
            sl_terminal_status(day);
            second = at;
        }
    }
    sl_terminal_clear_status(day);
    sl_day_room_close(&room);
    sl_terminal_say(day, "%s",
                    _("Left. The clock goes on: every swatch keeps its own time in the log, and slowlift day "
                      "takes it up again."));
}

static sl_exit run_day(sl_day_open *open, const sl_day_asked *asked, sl_error *error)
{
    sl_terminal_day *const day = open->day;
    day->model.timeline = NULL;
    if (!asked->blind) {
        sl_terminal_model_make(&day->model, open->scene, &open->why);
        find_arms(day);
    }
    day->keeper = sl_day_keeper_start(open->log, asked->log, open->test.id, open->swatches, day->n, error);
    if (!day->keeper) {
        return sl_complain(error);
    }
    keep_time(day);
    const int lost = sl_day_keeper_stop(day->keeper);
    const sl_exit written = sl_finish_output(ferror(stdout) == 0);
    return lost > 0 ? SL_EXIT_PART : written;
}

static void put_head(const sl_terminal_day *day)
{
    const char *const mark = sl_day_mark(day->rehearsed > 0.0);
    errno = 0;
    printf("%s%s: %s\n", mark, day->test->title, day->test->scene_name);
    if (day->rehearsed > 0.0) {
        printf("%s%s", mark, _("*** A REHEARSAL: ITS CLOCK RAN FAST. NO HAIR LAY SO LONG. ***\n"));
    }
}

static sl_exit run_summary(const sl_terminal_day *day)
{
    put_head(day);
    return sl_finish_output(sl_day_summary(stdout, &day->bench, day->scene, day->blind ? NULL : day->arm,
                                           &day->now, sl_day_mark(day->rehearsed > 0.0)));
}

static sl_exit run_stops(const sl_terminal_day *day)
{
    const sl_day_record record = sl_terminal_record_of(day);
    put_head(day);
    return sl_finish_output(sl_day_stops(stdout, &record, &day->now, sl_day_mark(day->rehearsed > 0.0)));
}

sl_exit sl_command_day(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_day_asked asked = {.log = NULL};
    sl_day_open open = {.log = NULL};
    const bool good = read_asked(&asked, argc, argv, &error) && open_day(&open, &asked, &error);
    const sl_exit code = !good           ? sl_complain(&error)
                         : asked.summary ? sl_log_read_end(open.log, run_summary(open.day))
                         : asked.stops   ? run_stops(open.day)
                                         : run_day(&open, &asked, &error);
    close_day(&open);
    sl_signal_obey();
    return code;
}

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
#include "base/program.h"
#include "command/day/day_room.h"
#include "command/log/log_verbs.h"

enum { TICK_MS = 250 };

typedef struct sl_day_asked {
    const char *log, *test;
    bool summary, stops, blind, plain, rehearse;
    double speed; /* of a rehearsal */
} sl_day_asked;

static const sl_option options[] = {
    SL_OPTION(sl_day_asked, blind, sl_option_flag, .name = "blind",
              .help = N_("for a judge: neither strips nor the model are told")),
    SL_OPTION(sl_day_asked, plain, sl_option_flag, .name = "plain",
              .help = N_("no lines at the foot that are drawn over each second (screen readers)")),
    SL_OPTION_SAID(sl_day_asked, speed, rehearse, sl_option_number, .name = "rehearse", .value = N_("SPEED"),
                   .usual = "60", .least = 2.0, .most = SL_DAY_MOST_SPEED,
                   .help =
                       N_("on a copy of the log, LOG.rehearsal.db, whose clock runs 60 times as fast; every "
                          "line says so, and the copy stays a rehearsal. Never for real hair")),
    SL_OPTION(sl_day_asked, summary, sl_option_flag, .name = "summary",
              .help = N_("no clock: how the day went; late, early, unequal time on hair, age of the mix")),
    SL_OPTION(sl_day_asked, stops, sl_option_flag, .name = "stops",
              .help = N_("no clock: a sheet of every stop for a doctor: when, why, what was in the bowl, how "
                         "long water ran, who was told")),
};
static bool key_of(int i, const char **key, const char **does)
{
    for (int r = 0; r < SL_DAY_ACT_ROWS; r++) {
        const sl_day_act_row *const row = &sl_day_acts[r];
        if (row->help && row->media != SL_IN_WINDOW && i-- == 0) {
            *key = _(row->keys);
            *does = _(row->help);
            return true;
        }
    }
    return false;
}

const sl_command_line sl_day_typed = {
    .name = "day",
    .line = N_("the clock of the day: one key for all that is done"),
    .usage = {N_("[OPTIONS] LOG [TEST]")},
    .about =
        N_("The clock of the day, on a terminal: what is next with its countdown, every swatch's own time "
           "from contact to first water, one key for each thing done, each kept in the log at once. It "
           "goes on after sleep, a crash, a kill or a restart; where clocks disagree the longer time "
           "counts, and it says so. TEST: the beginning of a test's id; not needed where there is one.\n\n"
           "The window (slowlift watch --day LOG) has the same keys. Without a terminal: a key and Enter, "
           "and a swatch's code may follow, such as: a EK9"),
    .key = key_of,
    .set = {SL_OPTION_SET_OWN(options)},
    .example = {{N_("the bowls are on the bench."),
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
    if (asked->rehearse && (asked->summary || asked->stops)) {
        return sl_fail(error, SL_ERR_USAGE, _("--rehearse with --summary or --stops"),
                       _("those tell what was done; name the rehearsal's log"));
    }
    if (asked->summary && asked->stops) {
        return sl_fail(error, SL_ERR_USAGE, _("both --summary and --stops"),
                       _("ask for one after the other"));
    }
    asked->log = argv[optind];
    asked->test = optind + 1 < argc ? argv[optind + 1] : NULL;
    return true;
}

/* ---- the day ------------------------------------------------------------------------------------------- */

static void greet(sl_terminal_day *terminal)
{
    const sl_day_desk *const desk = terminal->desk;
    sl_terminal_say(terminal, "%s: %s", desk->test.title, desk->test.scene_name);
    if (desk->clock.speed > 1.0) {
        sl_terminal_say(terminal,
                        _("*** REHEARSAL: THIS CLOCK RUNS %g TIMES AS FAST. NOT FOR REAL HAIR. ***"),
                        desk->clock.speed);
        sl_terminal_say(terminal, _("It is kept in %s."), desk->path);
    }
    sl_terminal_say(terminal, "%s", sl_day_stop_signs());
    sl_terminal_say(terminal, "%s", _("S is STOP AND RINSE, Space asks first. ? shows the other keys."));
    if (desk->model.timeline == NULL && !desk->day.blind) {
        sl_terminal_say(terminal, _("The model says nothing today: %s; %s."), desk->model.why.found,
                        desk->model.why.wanted);
    }
    if (!desk->day.asks_sound) {
        sl_terminal_say(terminal, "%s",
                        _("This is no terminal, so there is no bell: alarms are lines alone. Read them."));
    }
    if (sl_day_rest_words(&desk->day)) {
        sl_terminal_say(terminal, "%s", sl_day_rest_words(&desk->day));
    }
    if (desk->day.bench.started) {
        sl_terminal_say(terminal, "%s", _("This day has begun already; it goes on from its log."));
        sl_terminal_say_clocks(terminal);
    }
}

/* "a", "a EK9", "EK9", "12", "t words of a note", "" for what is next; "stop" stops. */
static void take_line(sl_day_desk *desk, const char *line)
{
    char key[8] = "";
    int end = 0;
    if (desk->day.typing == SL_TYPES_MEASURE && (line[0] == '\0' || (line[0] >= '0' && line[0] <= '9'))) {
        for (; *line != '\0'; line++) {
            sl_day_desk_take(desk, (unsigned char)*line, NULL);
        }
        sl_day_desk_take(desk, SL_KEY_ENTER, NULL);
    } else if (line[0] == ' ' || sscanf(line, "%7s %n", key, &end) < 1) {
        sl_day_desk_take(desk, line[0] == ' ' ? ' ' : SL_KEY_ENTER, NULL);
    } else if (strcmp(key, "stop") == 0 || strcmp(key, "STOP") == 0) {
        sl_day_desk_take(desk, SL_KEY_TAB, NULL);
    } else if (key[1] != '\0') {
        sl_day_desk_take(desk, 'c', key);
    } else if (key[0] >= '0' && key[0] <= '9' && desk->day.page == SL_DAY_BENCH) {
        sl_day_desk_take(desk, 'c', key);
    } else {
        sl_day_desk_take(desk, (unsigned char)key[0], line + end);
    }
}

/* False: stdin is at its end. */
static bool hear(sl_terminal_day *terminal, sl_day_room *room)
{
    const int got = sl_day_room_wait(room, TICK_MS);
    char line[SL_DAY_READ];
    if (room->keys) {
        for (int key = sl_day_room_key(room); key >= 0 && !terminal->leave; key = sl_day_room_key(room)) {
            sl_day_desk_take(terminal->desk, key, NULL);
            sl_terminal_do(terminal);
        }
    } else {
        while (!terminal->leave && sl_day_room_line(room, line)) {
            take_line(terminal->desk, line);
            sl_terminal_do(terminal);
        }
    }
    return got >= 0;
}

static void keep_time(sl_terminal_day *terminal)
{
    sl_day_room room;
    sl_day_room_open(&room, terminal->status);
    greet(terminal);
    sl_terminal_do(terminal); /* what the begin brought */
    int64_t second = -1;
    while (!terminal->leave && !ferror(stdout) && sl_signal_waiting() == 0) {
        if (!hear(terminal, &room)) {
            break;
        }
        if (!terminal->leave) {
            sl_day_desk_pass(terminal->desk);
            sl_terminal_do(terminal);
        }
        const int64_t at = terminal->desk->day.now.wall_ns / 1000000000;
        if (at != second || terminal->drawn == 0) {
            sl_terminal_status(terminal);
            second = at;
        }
    }
    if (terminal->desk->day.bench.started && terminal->desk->day.n_due == 0 &&
        !sl_day_on_hair(&terminal->desk->day)) {
        sl_terminal_show(terminal, SL_DAY_WENT, -1);
    }
    sl_terminal_clear_status(terminal);
    sl_day_room_close(&room);
    sl_terminal_say(terminal, "%s",
                    _("Left. The clock goes on: every swatch keeps its own time in the log, and slowlift day "
                      "takes it up again."));
}

static sl_exit run_day(sl_day_desk **desk, const sl_day_asked *asked, sl_error *error)
{
    sl_terminal_day terminal = {.desk = *desk, .terminal = isatty(STDOUT_FILENO) == 1};
    const char *const kind = getenv("TERM");
    sl_day *const day = &(*desk)->day;
    terminal.status = terminal.terminal && !asked->plain && kind && strcmp(kind, "dumb") != 0;
    day->medium = SL_ON_TERMINAL;
    day->plays = day->asks_sound = terminal.terminal;
    day->blind = asked->blind;
    if (!sl_day_desk_begin(*desk, error)) {
        return sl_complain(error);
    }
    keep_time(&terminal);
    const int lost = sl_day_desk_close(*desk);
    *desk = NULL;
    const sl_exit written = sl_finish_output(ferror(stdout) == 0);
    return lost > 0 ? SL_EXIT_PART : written;
}

/* ---- what was done ---------------------------------------------------------------------------------------
 */

static sl_exit tell_done(sl_day_desk *desk, sl_document_sayer *say, bool blind)
{
    sl_document document;
    sl_error error = {.code = SL_OK};
    errno = 0;
    desk->day.blind = blind;
    const sl_day_went went = sl_day_went_of(desk);
    say(&document, &went, &error);
    return sl_finish_output(sl_document_print(
        stdout, &document,
        &(sl_terminal){.width = SL_DAY_COLUMNS, .depth = SL_SCIENCE, .mark = sl_day_mark_of(desk)}));
}

sl_exit sl_command_day(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_day_asked asked = {.log = NULL};
    sl_day_desk *desk = NULL;
    if (read_asked(&asked, argc, argv, &error)) {
        desk = asked.rehearse
                   ? sl_day_desk_rehearse(asked.log, asked.test, asked.speed, &error)
                   : sl_day_desk_open(asked.log, asked.test,
                                      asked.summary || asked.stops ? SL_LOG_READ : SL_LOG_WRITE, &error);
    }
    const sl_exit code = !desk ? sl_complain(&error)
                         : asked.summary
                             ? sl_log_read_end(desk->log, tell_done(desk, sl_day_say_went, asked.blind))
                         : asked.stops ? tell_done(desk, sl_day_say_stops, false)
                                       : run_day(&desk, &asked, &error);
    sl_day_desk_close(desk);
    sl_signal_obey();
    return code;
}

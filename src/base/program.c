/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See program.h. Handlers stand only while there is something to undo, so that libraries find the signals
 * as they expect them; what the caller ignores (nohup) stays ignored, and whoever caught a signal first gets
 * it after us.
 */
#include "base/program.h"

#include <assert.h>
#include <pthread.h>
#include <signal.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>
#include <unistd.h>

#include "base/minute.h"
#include "slowlift/error.h"

/* Those that may be asked to wait come first: somebody asks for an end. The others are faults. */
static const int ending[] = {SIGHUP,  SIGINT,  SIGQUIT, SIGTERM, SIGUSR1, SIGUSR2, SIGALRM,
                             SIGXCPU, SIGABRT, SIGSEGV, SIGBUS,  SIGFPE,  SIGILL};
enum { ASKING = 8, ENDING = (int)(sizeof ending / sizeof ending[0]), UNDOS = 4 };

static sl_undo *volatile undos[UNDOS];
static struct sigaction before[ENDING];
static int n_undos;
static volatile bool caught;
static volatile sig_atomic_t waits, waiting;

void sl_program_start(void)
{
    sl_start();
    sl_minute_start();
    signal(SIGPIPE, SIG_IGN);
    signal(SIGXFSZ, SIG_IGN);
}

enum { STOPPED = 4 }; /* as docs/guide.md, "Exit codes" */

static void leave(int number)
{
    (void)number;
    _exit(STOPPED);
}

void sl_program_stoppable(void)
{
    struct sigaction found;
    if (sigaction(SIGINT, NULL, &found) == 0 && found.sa_handler != SIG_IGN) {
        sigaction(SIGINT, &(struct sigaction){.sa_handler = leave}, NULL);
    }
}

static bool only_asks(int number)
{
    for (int i = 0; i < ASKING; i++) {
        if (ending[i] == number) {
            return true;
        }
    }
    return false;
}

static void let_all_go(void)
{
    for (int i = 0; i < ENDING && caught; i++) {
        sigaction(ending[i], &before[i], NULL);
    }
    caught = false;
}

/* By whatever would have happened without us. */
static void die_by(int number)
{
    sigset_t one;
    let_all_go();
    sigemptyset(&one);
    sigaddset(&one, number);
    pthread_sigmask(SIG_UNBLOCK, &one, NULL);
    raise(number);
}

static void ended(int number)
{
    for (int i = 0; i < UNDOS; i++) {
        sl_undo *const undo = undos[i];
        if (undo) {
            undo();
        }
    }
    if (waits && waiting == 0 && only_asks(number)) {
        waiting = number;
        return;
    }
    die_by(number);
}

static void catch_all(void)
{
    struct sigaction ours = {.sa_handler = ended};
    sigfillset(&ours.sa_mask);
    for (int i = 0; i < ENDING; i++) {
        sigaction(ending[i], NULL, &before[i]);
        if (before[i].sa_handler != SIG_IGN) {
            sigaction(ending[i], &ours, NULL);
        }
    }
    caught = true;
}

void sl_undo_put(sl_undo *undo)
{
    int i = 0;
    while (i < UNDOS && undos[i]) {
        i++;
    }
    assert(i < UNDOS);
    undos[i] = undo;
    if (n_undos++ == 0) {
        catch_all();
    }
}

void sl_undo_drop(sl_undo *undo)
{
    for (int i = 0; i < UNDOS; i++) {
        if (undos[i] == undo) {
            undos[i] = NULL;
            if (--n_undos == 0) {
                let_all_go();
            }
            return;
        }
    }
}

void sl_signals_wait(void)
{
    waits = 1;
}

int sl_signal_waiting(void)
{
    return waiting;
}

void sl_signal_obey(void)
{
    waits = 0;
    if (waiting != 0) {
        die_by(waiting);
    }
}

/* ---- how far it is ------------------------------------------------------------------------------ */

static double seconds_since(const struct timespec *then)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)(now.tv_sec - then->tv_sec) + 1e-9 * (double)(now.tv_nsec - then->tv_nsec);
}

sl_progress sl_progress_begin(void)
{
    sl_progress progress = {.terminal = isatty(STDERR_FILENO) == 1};
    clock_gettime(CLOCK_MONOTONIC, &progress.begun);
    progress.said = progress.begun;
    return progress;
}

bool sl_progress_due(const sl_progress *progress)
{
    const double silent_s = 1.0, between_s = 0.25;
    return progress->terminal && seconds_since(&progress->begun) > silent_s &&
           seconds_since(&progress->said) > between_s;
}

void sl_progress_say(sl_progress *progress, const char *format, ...)
{
    va_list values;
    va_start(values, format);
    fputc('\r', stderr);
    vfprintf(stderr, format, values);
    fflush(stderr);
    va_end(values);
    clock_gettime(CLOCK_MONOTONIC, &progress->said);
    progress->shown = true;
}

void sl_progress_end(const sl_progress *progress)
{
    if (progress->shown) {
        fputs("\r\033[K", stderr);
    }
}

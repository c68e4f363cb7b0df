/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift watch`, `slowlift picture` and `slowlift pack`: hand over to the program that has the
 * libraries for it, so that slowlift itself starts fast. The arguments go on unchanged.
 *
 * What draws on paper runs as a child: its libraries end the process where memory runs out, by a
 * signal or before main() is reached, and somebody has to say so. Invariant: the two live and end
 * together; what ends one (Ctrl-C, a signal, even kill -9) ends the other.
 */
#include <errno.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>
#ifdef __linux__
#include <sys/prctl.h>
#endif

#include "base/language.h"
#include "command/command.h"
#include "front/places.h"

static bool find_program(const char *program, char path[SL_PLACES_PATH], sl_error *error)
{
    sl_places places;
    return sl_places_find(&places, NULL, NULL, error) && sl_places_program(&places, program, path, error);
}

static sl_exit refuse(const char *path, int reason)
{
    sl_error error = {.code = SL_OK};
    if (reason == ENOMEM || reason == EAGAIN) {
        sl_fail(&error, SL_ERR_NO_MEMORY, "starting another program", "");
    } else {
        sl_fail(&error, SL_ERR_MISSING_PART, path, strerror(reason));
    }
    return sl_complain(&error);
}

/* Goes on as another program; comes back only when it cannot. */
static sl_exit hand_over(const char *program, char **argv)
{
    sl_error error = {.code = SL_OK};
    char path[SL_PLACES_PATH];
    if (!find_program(program, path, &error)) {
        return sl_complain(&error);
    }
    execv(path, argv);
    return refuse(path, errno);
}

/* ---- a child ------------------------------------------------------------------------------------ */

static const int passed_on[] = {SIGINT, SIGTERM, SIGHUP, SIGQUIT, SIGUSR1, SIGUSR2};
enum { N_PASSED_ON = sizeof passed_on / sizeof passed_on[0], NOT_FOUND = 127 /* as shells say it */ };

static volatile sig_atomic_t child;

/* What a keyboard sends goes to both already. */
static void pass_on(int number, siginfo_t *from, void *context)
{
    const int reason = errno;
    (void)context;
    if (from->si_code == SI_USER) {
        kill((pid_t)child, number);
    }
    errno = reason;
}

/* What is ignored (by nohup) stays so. */
static void set_signals(struct sigaction how)
{
    struct sigaction before;
    sigfillset(&how.sa_mask);
    for (int i = 0; i < N_PASSED_ON; i++) {
        if (sigaction(passed_on[i], NULL, &before) == 0 && before.sa_handler != SIG_IGN) {
            sigaction(passed_on[i], &how, NULL);
        }
    }
}

static _Noreturn void become(const char *path, char **argv, pid_t parent, const sigset_t *before)
{
#ifdef __linux__
    prctl(PR_SET_PDEATHSIG, SIGKILL);
#endif
    if (getppid() != parent) { /* it ended before that was set */
        _exit(SL_EXIT_PART);
    }
    sigprocmask(SIG_SETMASK, before, NULL);
    execv(path, argv);
    _exit(NOT_FOUND);
}

/* What became of the child. A signal that was meant for both ends us too. */
static sl_exit judge(int status)
{
    if (WIFEXITED(status) && WEXITSTATUS(status) <= SL_EXIT_PARTIAL) {
        return (sl_exit)WEXITSTATUS(status);
    }
    const int number = WIFSIGNALED(status) ? WTERMSIG(status) : 0;
    for (int i = 0; i < N_PASSED_ON; i++) {
        if (number == passed_on[i]) {
            raise(number);
        }
    }
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, "%s", number != 0 ? strsignal(number) : _("it could not be started"));
    sl_error error = {.code = SL_OK};
    sl_fail(&error, SL_ERR_ENDED, found, "most often memory has run out: give it more");
    return sl_complain(&error);
}

static sl_exit wait_for(pid_t made, const sigset_t *before)
{
    int status = 0;
    child = made;
    set_signals((struct sigaction){.sa_sigaction = pass_on, .sa_flags = SA_SIGINFO});
    sigprocmask(SIG_SETMASK, before, NULL);
    while (waitpid(made, &status, 0) < 0 && errno == EINTR) {
    }
    set_signals((struct sigaction){.sa_handler = SIG_DFL});
    return judge(status);
}

sl_exit sl_draw_on_paper(char **argv)
{
    sl_error error = {.code = SL_OK};
    char path[SL_PLACES_PATH];
    sigset_t all, before;
    if (!find_program("slowlift-paper", path, &error)) {
        return sl_complain(&error);
    }
    if (access(path, X_OK) != 0) {
        return refuse(path, errno);
    }
    sigfillset(&all);
    sigprocmask(SIG_BLOCK, &all, &before); /* until there is somebody to pass a signal on to */
    const pid_t parent = getpid(), made = fork();
    if (made == 0) {
        become(path, argv, parent, &before);
    }
    if (made > 0) {
        return wait_for(made, &before);
    }
    const int reason = errno;
    sigprocmask(SIG_SETMASK, &before, NULL);
    return refuse(path, reason);
}

sl_exit sl_command_watch(int argc, char **argv)
{
    (void)argc;
    return hand_over("slowlift-watch", argv);
}

sl_exit sl_command_picture(int argc, char **argv)
{
    (void)argc;
    return sl_draw_on_paper(argv);
}

sl_exit sl_command_pack(int argc, char **argv)
{
    (void)argc;
    return sl_draw_on_paper(argv);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See papers.h.
 */
#include "view/start/papers.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/language.h"
#include "base/memory.h"
#include "front/places.h"

sl_papers_command *sl_papers_add(sl_papers *papers, sl_error *error)
{
    if (papers->command == NULL) {
        papers->command = sl_new(SL_PAPERS_MOST, sizeof *papers->command, "printing papers", error);
        papers->heard = -1;
    }
    if (papers->command == NULL || papers->n == SL_PAPERS_MOST) {
        return NULL;
    }
    papers->command[papers->n].n = 0;
    return &papers->command[papers->n++];
}

bool sl_papers_busy(const sl_papers *papers)
{
    return papers->child != 0 || papers->next < papers->n;
}

static void forget(sl_papers *papers)
{
    if (papers->heard >= 0) {
        close(papers->heard);
    }
    sl_free(papers->command);
    papers->command = NULL;
    papers->n = papers->next = 0;
    papers->child = 0;
    papers->heard = -1;
}

static bool refuse(sl_papers *papers, const char *path, int reason, sl_error *error)
{
    forget(papers);
    return reason == ENOMEM || reason == EAGAIN
               ? sl_fail(error, SL_ERR_NO_MEMORY, "starting another program", "")
               : sl_fail(error, SL_ERR_MISSING_PART, path, strerror(reason));
}

static _Noreturn void become(const char *path, char *const *argv, int complains)
{
    dup2(complains, STDERR_FILENO);
    execv(path, argv);
    _exit(127); /* as shells say it */
}

static bool start(sl_papers *papers, sl_error *error)
{
    sl_places places;
    char path[SL_PLACES_PATH];
    sl_papers_command *const command = &papers->command[papers->next];
    char *argv[SL_PAPERS_WORDS + 1] = {NULL};
    int ends[2];
    if (!sl_places_find(&places, NULL, NULL, error) ||
        !sl_places_program(&places, "slowlift-paper", path, error)) {
        forget(papers);
        return false;
    }
    for (int i = 0; i < command->n; i++) {
        argv[i] = command->word[i];
    }
    if (pipe(ends) != 0) {
        return refuse(papers, path, errno, error);
    }
    fcntl(ends[0], F_SETFL, O_NONBLOCK);
    fcntl(ends[0], F_SETFD, FD_CLOEXEC);
    fcntl(ends[1], F_SETFD, FD_CLOEXEC);
    const pid_t made = fork();
    if (made == 0) {
        become(path, argv, ends[1]);
    }
    const int reason = errno;
    close(ends[1]);
    papers->heard = ends[0];
    papers->complaint[0] = '\0';
    papers->child = made > 0 ? made : 0;
    return made > 0 || refuse(papers, path, reason, error);
}

/* What finds no room is left out; what comes is taken, so that who complains never waits. */
static void listen(sl_papers *papers)
{
    char text[512];
    ssize_t n = 0;
    while (papers->heard >= 0 && (n = read(papers->heard, text, sizeof text)) > 0) {
        const size_t length = strlen(papers->complaint);
        snprintf(papers->complaint + length, sizeof papers->complaint - length, "%.*s", (int)n, text);
    }
}

static bool ended(sl_papers *papers, int status, sl_error *error)
{
    const sl_papers_command *const command = &papers->command[papers->next];
    char found[SL_ERROR_TEXT_SIZE];
    listen(papers);
    close(papers->heard);
    papers->heard = -1;
    papers->child = 0;
    if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) {
        for (char *c = papers->complaint; *c != '\0'; c++) {
            *c = *c == '\n' ? ' ' : *c;
        }
        snprintf(found, sizeof found, _("the papers could not be printed: %.200s"), papers->complaint);
        forget(papers);
        return sl_fail(error, SL_ERR_ENDED, found, _("what was printed before is whole"));
    }
    snprintf(papers->made, sizeof papers->made, "%s", command->word[command->n - 1]);
    papers->next++;
    if (papers->next == papers->n) {
        forget(papers);
    }
    return true;
}

bool sl_papers_pass(sl_papers *papers, sl_error *error)
{
    int status = 0;
    if (papers->child == 0) {
        return papers->next >= papers->n || start(papers, error);
    }
    listen(papers);
    return waitpid(papers->child, &status, WNOHANG) != papers->child || ended(papers, status, error);
}

void sl_papers_end(sl_papers *papers)
{
    if (papers->child != 0) {
        kill(papers->child, SIGTERM);
        while (waitpid(papers->child, NULL, 0) < 0 && errno == EINTR) {
        }
    }
    forget(papers);
}

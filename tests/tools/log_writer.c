/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Writes events into a log until it is killed or has written COUNT, and prints each event's id
 * once it was acknowledged: what the tests of lost writes kill and count.
 *
 *     log_writer LOG TEST COUNT
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "../tools/patience.h"
#include "slowlift/log.h"

static bool append(sl_log *log, const char *test, sl_event *event, sl_error *error)
{
    return sl_log_append(log, test, NULL, 0, event, "written by a test", error);
}

int main(int argc, char **argv)
{
    sl_log *log = NULL;
    sl_error error = {.code = SL_OK};
    sl_start();
    if (argc != 4 || !sl_log_open(&log, argv[1], SL_LOG_WRITE, &error)) {
        fprintf(stderr, "log_writer: %s; %s\n", error.found, error.wanted);
        return EXIT_FAILURE;
    }
    const long count = strtol(argv[3], NULL, 10);
    for (long i = 0; i < count; i++) {
        sl_event event = {.kind = SL_EVENT_NOTED, .swatch = -1};
        bool kept = sl_instant_now(&event.at, &error) && append(log, argv[2], &event, &error);
        for (patience wait = {0}; !kept && strstr(error.wanted, "try again") && patient(&wait);) {
            kept = append(log, argv[2], &event, &error); /* two writers may starve each other for a while */
        }
        if (!kept) {
            fprintf(stderr, "log_writer: %s; %s\n", error.found, error.wanted);
            return EXIT_FAILURE;
        }
        char line[SL_UUID + 1];
        const int length = snprintf(line, sizeof line, "%s\n", event.id);
        if (write(STDOUT_FILENO, line, (size_t)length) != length) {
            return EXIT_FAILURE;
        }
    }
    sl_log_close(log);
    return EXIT_SUCCESS;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Imports a file of readings into a log, asks for all of them and for the means of each zone and
 * arm, and prints seconds and the peak of memory.
 *
 *     log_bench LOG FILE.csv
 */
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <time.h>

#include "base/memory.h"
#include "slowlift/log.h"

static double seconds(clockid_t clock)
{
    struct timespec now;
    clock_gettime(clock, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static double wall, processor;

static void begin(void)
{
    wall = seconds(CLOCK_MONOTONIC);
    processor = seconds(CLOCK_PROCESS_CPUTIME_ID);
}

static void row(const char *what, long long n)
{
    struct rusage use;
    getrusage(RUSAGE_SELF, &use);
    printf("| %s | %lld | %.2f | %.2f | %.1f |\n", what, n, seconds(CLOCK_MONOTONIC) - wall,
           seconds(CLOCK_PROCESS_CPUTIME_ID) - processor, (double)use.ru_maxrss / 1024.0);
    fflush(stdout);
}

static bool count_reading(void *self, const sl_log_reading *reading, const sl_log_swatch *swatch,
                          const char *test, sl_error *error)
{
    long long *const n = self;
    (void)reading;
    (void)swatch;
    (void)test;
    (void)error;
    *n += 1;
    return true;
}

int main(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_log *log = NULL;
    sl_log_test test;
    sl_log_count count;
    sl_log_mean *means = NULL;
    long long n = 0;
    int n_means = 0;
    sl_start();
    if (argc != 3 || !sl_log_open(&log, argv[1], SL_LOG_WRITE, &error)) {
        fprintf(stderr, "log_bench: %s; %s\n", error.found, error.wanted);
        return EXIT_FAILURE;
    }
    puts("| what | readings | wall s | processor s | peak MiB |\n|---|---|---|---|---|");
    begin();
    bool good = sl_log_import_csv(log, argv[2], NULL, true, &count, &error);
    row("imported from CSV", count.readings);
    begin();
    good = good && sl_log_find(log, NULL, &test, &error) &&
           sl_log_each_reading(log, test.id, count_reading, &n, &error);
    row("every reading read", n);
    begin();
    good = good && sl_log_means(log, test.id, &means, &n_means, &error);
    row("means of each zone and arm, ranked", n);
    FILE *const nowhere = fopen("/dev/null", "w");
    begin();
    good = good && nowhere && sl_log_export_csv(log, test.id, nowhere, &error);
    row("exported as CSV", n);
    begin();
    good = good && sl_log_export_json(log, test.id, nowhere, &error);
    row("exported as JSON", n);
    if (!good) {
        fprintf(stderr, "log_bench: %s; %s\n", error.found, error.wanted);
    }
    if (nowhere) {
        fclose(nowhere);
    }
    sl_free(means);
    sl_log_close(log);
    return good ? EXIT_SUCCESS : EXIT_FAILURE;
}

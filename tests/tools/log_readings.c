/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * CSV of readings for the swatches of a log's only test: what the bench imports and what the tests
 * of two importers at once bring.
 *
 *     log_readings LOG COUNT JUDGE
 */
#include <stdio.h>
#include <stdlib.h>

#include "base/memory.h"
#include "slowlift/log.h"

int main(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_log *log = NULL;
    sl_log_test test;
    sl_log_swatch *swatches = NULL;
    int n = 0;
    sl_start();
    if (argc != 4 || !sl_log_open(&log, argv[1], SL_LOG_READ, &error) ||
        !sl_log_find(log, NULL, &test, &error) || !sl_log_swatches(log, test.id, &swatches, &n, &error)) {
        fprintf(stderr, "log_readings: %s; %s\n", error.found, error.wanted);
        return EXIT_FAILURE;
    }
    sl_scene *const scene = sl_log_scene(log, test.id, &error);
    const long count = strtol(argv[2], NULL, 10);
    puts("swatch,zone,judge,at,grade,L,a,b,illuminant,observer,note");
    for (long i = 0; scene && i < count; i++) {
        const long zone = (i / n) % scene->n_zones, grade = (i % n + 3 * zone + i / 1000) % SL_WIPES;
        printf("%s,%s,%s-%ld,2026-11-25T%02ld:%02ld:%02ld+01:00,%s,%ld.%ld,-%ld,%ld.5,D65,10,\"look %ld, "
               "dry\"\n",
               swatches[i % n].bench.code, scene->zones[zone].name, argv[3], i % 7, i / 3600 % 24,
               i / 60 % 60, i % 60, sl_wipe_word((sl_wipe)grade), 20 + i % 70, i % 10, i % 30, i % 40, i);
    }
    sl_scene_free(scene);
    sl_free(swatches);
    sl_log_close(log);
    return EXIT_SUCCESS;
}

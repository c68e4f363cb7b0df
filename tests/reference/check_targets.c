/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The check targets: outside numbers, directions and trade conventions that the model was held
 * against, computed with the library and printed as the Markdown table of docs/checks.md.
 *
 *     check_targets CHECK-SCENE MODELS                 the table
 *     check_targets CHECK-SCENE MODELS --regressions   exits 1 when a regression is broken
 *
 * Only rows whose number was not used to choose a parameter are evidence. Tolerances are ours.
 * A miss stays a miss: nothing here is tuned to pass. Sources: docs/science.md.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check_bench.h"

static void print_row(const check_row *r)
{
    printf("| %s | %s | %s | %s | %s | %s | %s%s%s |\n", r->id, r->target, r->source, r->kind, r->allowed,
           r->computed, r->holds ? "pass" : "**miss**", r->evidence != NULL ? ", no evidence: " : "",
           r->evidence != NULL ? r->evidence : "");
}

static void print_head(void)
{
    printf(
        "# Checks against the world\n\n"
        "Made by a program: `cmake --build build --target checks` writes this file from\n"
        "`tests/reference/check_targets.c`; a test fails when a verdict here is not today's.\n\n"
        "- Only rows without \"no evidence\" count for the model: their number was not used to choose a "
        "parameter.\n"
        "- Tolerances are ours, proposed from the spread that the source gives, if it gives one.\n"
        "- Misses stay. They say where the model is wrong, or where the target is.\n"
        "- *page*, *abstract*, *second-hand*: how much of the source was read ([science.md](science.md)).\n"
        "- Computed at 32 °C, covered, 6 g of mix per gram of natural hair of level 5, unless the row "
        "says "
        "other.\n"
        "- Where a solver, not the science, is on trial: `tests/reference/test_cvode.c`, `system_scipy.py` "
        "and\n"
        "  `test_closed_forms.c`; limits: `test_limits_closed.c`; draws and indices: `draws_scipy.py`; "
        "members "
        "of the\n"
        "  ensemble one by one: `members_scipy.py`; verdicts: `cases_scipy.py`; odds and half widths: "
        "`odds_scipy.py`\n"
        "  and `tests/unit/test_odds.c`, which holds the handbook's table.\n"
        "- Rows R are regressions: they guard what lessons rely on and say nothing about hair.\n\n");
}

static void print_table(const check_table *t)
{
    int evidence = 0;
    int met = 0;
    int missed = 0;
    printf("| # | target | source (how it was read) | kind | allowed | computed | verdict |\n"
           "|---|---|---|---|---|---|---|\n");
    for (int i = 0; i < t->n; i++) {
        print_row(&t->rows[i]);
        missed += t->rows[i].holds ? 0 : 1;
        evidence += t->rows[i].evidence == NULL ? 1 : 0;
        met += t->rows[i].evidence == NULL && t->rows[i].holds ? 1 : 0;
    }
    printf("\n%d rows, %d missed. %d rows are evidence, and the model meets %d of those.\n", t->n, missed,
           evidence, met);
}

static bool regressions_hold(const check_table *t)
{
    bool all = true;
    for (int i = 0; i < t->n; i++) {
        if (t->rows[i].id[0] == 'R') {
            printf("%s %s: %s\n", t->rows[i].holds ? "ok" : "BROKEN", t->rows[i].id, t->rows[i].computed);
            all = all && t->rows[i].holds;
        }
    }
    return all;
}

int main(int argc, char **argv)
{
    if (argc < 3) {
        fprintf(stderr, "usage: check_targets CHECK-SCENE MODELS [--regressions]\n");
        return EXIT_FAILURE;
    }
    sl_start();
    static check_table t;
    static check_bench b;
    sl_error error = {.code = SL_OK};
    const char *const folder = argv[2];
    sl_folders folders = {&folder, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    b.solver = sl_solver_new(&error);
    b.loaded = b.solver != NULL ? sl_scene_load(argv[1], &resolver, &error) : NULL;
    if (b.loaded == NULL) {
        check_stop(&error);
    }
    check_mix_and_hair(&t, &b);
    check_lift_and_dyes(&t, &b);
    check_regressions(&t, b.solver, argv[2]);
    bool fine = true;
    if (argc > 3 && strcmp(argv[3], "--regressions") == 0) {
        fine = regressions_hold(&t);
    } else {
        print_head();
        print_table(&t);
    }
    sl_timeline_free(b.timeline);
    sl_scene_free(b.loaded);
    sl_solver_free(b.solver);
    return fine ? EXIT_SUCCESS : EXIT_FAILURE;
}

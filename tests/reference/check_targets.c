/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The check targets: outside numbers, directions and trade conventions that the model was held
 * against, computed with the library and printed as the Markdown tables of docs/checks.md.
 *
 *     check_targets CHECK-SCENE MODELS                 the tables
 *     check_targets CHECK-SCENE MODELS --regressions   exits 1 when a regression is broken
 *
 * A miss stays a miss: nothing here is tuned to pass. Sources: docs/science.md.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check_bench.h"

static void print_value(const check_row *row, double x, const char *unit)
{
    if (x == HUGE_VAL) {
        printf("never");
    } else {
        printf("%.*f%s", row->decimals, x, unit);
    }
}

static void print_values(const check_row *row, const double *x)
{
    for (int i = 0; i < row->n; i++) {
        print_value(row, x[i], i + 1 < row->n ? ", " : row->unit);
    }
}

static void print_range(const check_row *row, const check_range *range)
{
    if (range->high == CHECK_OPEN) {
        printf("at least ");
        print_value(row, range->low, row->unit);
    } else {
        print_value(row, range->low, " to ");
        print_value(row, range->high, row->unit);
    }
}

static void print_allowed(const check_row *row)
{
    for (int i = 0; i < row->n; i++) {
        if (i == 0 || memcmp(&row->range[i], &row->range[i - 1], sizeof row->range[i]) != 0) {
            printf("%s", i > 0 ? ", " : "");
            print_range(row, &row->range[i]);
        }
    }
    printf(": %s", row->why);
}

static void print_verdict(const check_found *f)
{
    const check_row *row = f->row;
    if (row->measure == NULL) {
        printf("not computed: the model has no part for it (%s)", row->lacks);
        return;
    }
    printf("%s%s", f->holds ? "pass" : "**miss**", row->held_out ? ", held out" : "");
    if (row->evidence != NULL) {
        printf(", no evidence: %s", row->evidence);
    } else if (!check_is_evidence(f)) {
        printf(", no evidence: its null model passes");
    }
}

static void print_row(const check_found *f)
{
    const check_row *row = f->row;
    printf("| %s | %s | %s | %s | ", row->id, row->target, row->source, row->kind);
    print_allowed(row);
    printf(" | ");
    if (row->measure != NULL) {
        print_values(row, f->x);
    }
    printf(" | ");
    print_verdict(f);
    printf(" | %s | ", row->null != NULL ? row->null->name : "none");
    if (row->measure != NULL && row->null != NULL) {
        print_values(row, f->null_x);
        printf(" | %s |\n", f->null_holds ? "passes" : "fails");
    } else {
        printf(" | |\n");
    }
}

static void print_head(void)
{
    printf(
        "# Checks against the world\n\n"
        "Made by a program: `cmake --build build --target checks` writes this file from\n"
        "`tests/reference/check_targets.c`; a test fails when a verdict here is not today's.\n\n"
        "- A row is evidence when its number was not in view as a parameter was chosen, and a named simple "
        "alternative, its\n"
        "  *null model*, fails it. The program computes the null model too: itself, with one thing taken "
        "out.\n"
        "- A target claims no more than its source compares. Tolerances are ours where no source gives one, "
        "each "
        "with its reason.\n"
        "  Neither is changed for a verdict's sake. Misses stay: they say where the model is wrong, or where "
        "the "
        "target is.\n"
        "- What asks for a part that the model lacks is not computed, and counts as nothing.\n"
        "- *page*, *abstract*, *second-hand*: how much of the source was read ([science.md](science.md)).\n"
        "- Computed at a held 32 °C, covered, 6 g of mix per gram of natural hair of level 5, unless the row says "
        "other.\n"
        "- Where a solver, not the science, is on trial: `tests/reference/test_cvode.c`, `system_scipy.py` "
        "and\n"
        "  `test_closed_forms.c`; limits: `test_limits_closed.c`; draws and indices: `draws_scipy.py`; "
        "members of "
        "the\n"
        "  ensemble one by one: `members_scipy.py`; verdicts: `cases_scipy.py`; odds and half widths: "
        "`odds_scipy.py`\n"
        "  and `tests/unit/test_odds.c`, which holds the handbook's table.\n\n");
}

static void print_table(const check_table *t)
{
    printf("| # | target | source (how it was read) | kind | allowed, and why | computed | verdict | null "
           "model | "
           "it computes | and |\n"
           "|---|---|---|---|---|---|---|---|---|---|\n");
    for (int i = 0; i < t->n; i++) {
        print_row(&t->found[i]);
    }
}

static void print_held_out(void)
{
    printf(
        "\n## Held out\n\n"
        "Whole published series, no number of which chose a constant or a form (H rows). Of other series "
        "that "
        "were read:\n\n"
        "| series | why it is not held out |\n|---|---|\n"
        "| peroxide left in the baths of C1 and C2 | both loss constants come from them |\n"
        "| diffusion of a dye after 0, 1 and 4 h of peroxide (C7) | the 1 h number was in view |\n"
        "| enthalpy of denaturation beside H1 and H2 | of the helix, which the model does not have |\n"
        "| ammonia left in the bath of H3 | the model tells the pH that comes of it, not the ammonia; its loss is assumed, not taken from there |\n"
        "| an azo dye with heated persulfate, 30 to 60 °C (Ahmadi, Igwegbe & Rahdar 2019, Int. J. Ind. Chem. "
        "10:249–260; abstract) | its slope, 17 kJ/mol, is one end of what is known of that energy |\n\n"
        "Of H1 and H2 only the form is on trial: the line from cystine to temperature has two free "
        "constants, "
        "and the bleaches\n"
        "are not those of the studies. H3 has the bath without its hair. No series of colour or lift against time "
        "with "
        "a known mix\n"
        "was found that could be read.\n");
}

/* The rows whose verdict goes from `held` to the other when a part is out, evidence in bold. */
static void print_turned(const check_table *t, check_bench *b, const check_null *null, bool held)
{
    int n = 0;
    for (int i = 0; i < t->n; i++) {
        const check_found *f = &t->found[i];
        double x[MOST_VALUES];
        if (f->row->measure != NULL && f->holds == held && check_measure(b, f->row, null, x) != held) {
            printf(check_is_evidence(f) ? "%s**%s**" : "%s%s", n++ > 0 ? ", " : "", f->row->id);
        }
    }
    printf("%s |", n == 0 ? "none" : "");
}

static void print_parts(const check_table *t, check_bench *b)
{
    printf("\n## What each part carries\n\n"
           "Each null model against every row that is computed, evidence in bold: a part without which "
           "nothing misses "
           "is carried\nby no check. Nearly all is computed at a held temperature, so that the heat of reaction is "
           "carried by none: the row after\nit says what would turn if the mixes were left to warm themselves, "
           "beside a place of that temperature. As it was: in model 1.\n\n"
           "| out | then misses | then passes |\n|---|---|---|\n");
    for (const check_null *const *null = CHECK_NULLS; *null != NULL; null++) {
        printf("| %s | ", (*null)->name);
        print_turned(t, b, *null, true);
        printf(" ");
        print_turned(t, b, *null, false);
        printf("\n");
    }
}

static void print_claims(const check_claims *t)
{
    printf("\n## Regressions\n\n"
           "They guard what lessons rely on and say nothing about hair: parameters were chosen for them, or "
           "they "
           "follow from an\n"
           "assumption. Common practice, no source, so they have no null model.\n\n"
           "| # | what holds | asked | computed | verdict | why it is no evidence "
           "|\n|---|---|---|---|---|---|\n");
    for (int i = 0; i < t->n; i++) {
        const check_claim *r = &t->rows[i];
        printf("| %s | %s | %s | %s | %s | %s |\n", r->id, r->target, r->allowed, r->computed,
               r->holds ? "pass" : "**miss**", r->evidence);
    }
}

/* The one sentence of how many of how many, which README.md repeats word for word (checks_current.py). */
static void print_count(const check_table *t)
{
    int evidence = 0;
    int met = 0;
    int waiting = 0;
    int missed = 0;
    for (int i = 0; i < t->n; i++) {
        const check_found *f = &t->found[i];
        const bool counts = check_is_evidence(f);
        waiting += f->row->measure == NULL ? 1 : 0;
        missed += f->row->measure != NULL && !f->holds ? 1 : 0;
        evidence += counts ? 1 : 0;
        met += counts && f->holds ? 1 : 0;
    }
    printf("\nOf %d targets %d are evidence, and the model meets %d of those; %d ask for a part that it "
           "lacks. It "
           "misses %d.\n",
           t->n, evidence, met, waiting, missed);
}

static bool regressions_hold(const check_claims *t)
{
    bool all = true;
    for (int i = 0; i < t->n; i++) {
        printf("%s %s: %s\n", t->rows[i].holds ? "ok" : "BROKEN", t->rows[i].id, t->rows[i].computed);
        all = all && t->rows[i].holds;
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
    static check_claims claims;
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
    check_regressions(&claims, b.solver, argv[2]);
    bool fine = true;
    if (argc > 3 && strcmp(argv[3], "--regressions") == 0) {
        fine = regressions_hold(&claims);
    } else {
        check_mix_and_hair(&t, &b);
        check_lift_and_dyes(&t, &b);
        check_others(&t, &b);
        check_later(&t, &b);
        print_head();
        print_table(&t);
        print_count(&t);
        print_held_out();
        print_parts(&t, &b);
        check_print_first(argv[2], &resolver);
        print_claims(&claims);
    }
    sl_timeline_free(b.timeline);
    sl_scene_free(b.loaded);
    sl_solver_free(b.solver);
    return fine ? EXIT_SUCCESS : EXIT_FAILURE;
}

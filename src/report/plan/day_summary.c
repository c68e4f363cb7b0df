/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How the day went against its plan, read from its events alone.
 */
#include <math.h>
#include <string.h>

#include "base/language.h"
#include "report/plan/day.h"

enum { WORDS = 200 };

typedef struct page {
    FILE *out;
    const char *mark;      /* before each line */
    const sl_scene *scene; /* NULL: it could not be read */
} page;

static FILE *line(const page *to)
{
    fputs(to->mark, to->out);
    return to->out;
}

/* Age of the mix at contact, in seconds; false: nobody wrote down when it was mixed. */
static bool mix_age(const sl_bench_state *state, double *age_s)
{
    if (state->stage == SL_STAGE_WAITING || !state->mixed) {
        return false;
    }
    *age_s = sl_elapsed_between(&state->mixed_at, &state->contact).seconds;
    return true;
}

static void put_contact(const page *to, const sl_bench *bench, int swatch)
{
    const sl_bench_state *const state = &bench->state[swatch];
    const sl_bench_round plan = sl_bench_round_of(&bench->swatch[swatch], state->round);
    const int planned_s =
        bench->swatch[swatch].contact_s + sl_bench_round_from_s(&bench->swatch[swatch], state->round);
    char off[WORDS], age_words[24], plan_words[24];
    double age_s = 0.0;
    if (!bench->started) {
        return;
    }
    sl_day_off(sl_elapsed_between(&bench->start, &state->contact).seconds - planned_s, off, sizeof off);
    fprintf(line(to), _("  contact %s"), off);
    if (mix_age(state, &age_s)) {
        sl_day_span(age_s, age_words, sizeof age_words);
        sl_day_span(plan.mix_age_s, plan_words, sizeof plan_words);
        fprintf(to->out, _("; mix %s old, planned %s\n"), age_words, plan_words);
    } else {
        fputs(_("; nobody wrote down when it was mixed\n"), to->out);
    }
}

/* Time under each mix that was rinsed, in turn. */
static double lain_s(const sl_bench_state *state)
{
    double sum = 0.0;
    for (int i = 0; i < state->n_lain; i++) {
        sum += state->lain_s[i];
    }
    return sum;
}

static void put_rounds(const page *to, const sl_bench *bench, int swatch)
{
    const sl_bench_state *const state = &bench->state[swatch];
    if (bench->swatch[swatch].n_more == 0 || state->n_lain == 0) {
        return;
    }
    fputs(_("  under its mixes, one after the other:"), line(to));
    for (int i = 0; i < state->n_lain; i++) {
        char span[24];
        sl_day_span(state->lain_s[i], span, sizeof span);
        fprintf(to->out, " %s", span);
    }
    fputc('\n', to->out);
}

static void put_looks(const page *to, const sl_bench *bench, int swatch)
{
    const int planned = bench->swatch[swatch].n_looks, done = bench->state[swatch].n_looks;
    if (done != planned) {
        fprintf(line(to),
                bench->swatch[swatch].ladder ? _("  pieces cut off on the way: %d of %d planned\n")
                                             : _("  looks: %d of %d planned\n"),
                done, planned);
    }
    if (bench->state[swatch].n_felt == 0) {
        fputs(_("  skin, heat and stretch: never felt\n"), line(to));
    }
}

static void put_swatch(const page *to, const sl_bench *bench, int swatch, const char *arm,
                       const sl_instant *now)
{
    char text[SL_DAY_WORDS];
    sl_on_the_hair on;
    sl_day_state(bench, swatch, now, text, sizeof text);
    fprintf(line(to), "%s%s%s%s\n", text, arm ? " (" : "", arm ? sl_title_of_arm(to->scene, arm) : "",
            arm ? ")" : "");
    put_rounds(to, bench, swatch);
    if (!sl_bench_on_hair(bench, swatch, now, &on)) {
        return;
    }
    put_contact(to, bench, swatch);
    put_looks(to, bench, swatch);
    if (on.has_label && on.label_left_s < -0.5) {
        sl_day_span(on.label_left_s, text, sizeof text);
        fprintf(line(to), _("  longer than the label allows, by %s\n"), text);
    } else if (bench->state[swatch].over_label) {
        fputs(_("  a mix lay longer than its label allows\n"), line(to));
    }
    if (on.since.clocks != SL_CLOCKS_AGREE) {
        fprintf(line(to), "  %s\n", sl_day_clocks(on.since.clocks));
    }
}

/* Shortest and longest time from contact to water of the swatches that `like` stands for. */
static int dwells(const sl_bench *bench, const char *const *arm, int like, double *least, double *most)
{
    int n = 0;
    for (int i = 0; i < bench->n; i++) {
        const sl_bench_state *const state = &bench->state[i];
        if (state->stage != SL_STAGE_RINSED || strcmp(arm[i], arm[like]) != 0) {
            continue;
        }
        const double lain = lain_s(state);
        *least = n == 0 ? lain : fmin(*least, lain);
        *most = n == 0 ? lain : fmax(*most, lain);
        n++;
    }
    return n;
}

static bool seen_before(const char *const *arm, int swatch)
{
    for (int i = 0; i < swatch; i++) {
        if (strcmp(arm[i], arm[swatch]) == 0) {
            return true;
        }
    }
    return false;
}

static void put_unequal(const page *to, const sl_bench *bench, const char *const *arm)
{
    bool any = false;
    fputs(_("Unequal time on the hair within an arm:\n"), line(to));
    for (int i = 0; i < bench->n; i++) {
        double least = 0.0, most = 0.0;
        char least_words[24], most_words[24];
        if (seen_before(arm, i) || dwells(bench, arm, i, &least, &most) < 2 ||
            most - least < SL_DAY_ON_TIME_S) {
            continue;
        }
        sl_day_span(least, least_words, sizeof least_words);
        sl_day_span(most, most_words, sizeof most_words);
        fprintf(line(to), _("  %s: %s to %s\n"), sl_title_of_arm(to->scene, arm[i]), least_words, most_words);
        any = true;
    }
    if (!any) {
        fputs(_("  none of five seconds or more\n"), line(to));
    }
}

static void put_all(const page *to, const sl_bench *bench, const char *const *arm, const sl_instant *now)
{
    if (!bench->started) {
        fputs(_("The day has not begun.\n"), line(to));
        return;
    }
    for (int i = 0; i < bench->n; i++) {
        put_swatch(to, bench, i, arm ? arm[i] : NULL, now);
    }
    if (arm) {
        put_unequal(to, bench, arm);
    }
    if (bench->sound_tried && !bench->sound_heard) {
        fputs(_("The bell was not heard that day; alarms were seen only.\n"), line(to));
    }
}

bool sl_day_summary(FILE *out, const sl_bench *bench, const sl_scene *scene, const char *const *arm,
                    const sl_instant *now, const char *mark)
{
    const page to = {out, mark, scene};
    put_all(&to, bench, arm, now);
    return ferror(out) == 0;
}

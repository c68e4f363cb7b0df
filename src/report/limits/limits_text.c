/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limits for people: one block for each arm. See limits.h.
 */
#include <math.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/limits/aims_words.h"
#include "report/limits/leave_words.h"
#include "report/limits/limits.h"
#include "report/reading.h"
#include "slowlift/caution.h"

enum { TEXT = 640 };

/* ---- goal, stop, what is left ------------------------------------------------------------- */

static void put_minutes(FILE *out, const sl_answers *answers, int arm, int width)
{
    char text[TEXT];
    sl_answer_goal_words(answers->scene, &answers->arm[arm], text, sizeof text);
    sl_put_row(out, _("goal:"), text, width);
    sl_answer_stop_words(answers->scene, arm, &answers->arm[arm], &answers->limits[arm], text, sizeof text);
    sl_put_row(out, _("stop:"), text, width);
}

static void put_left(FILE *out, const sl_answers *answers, int arm, int width)
{
    char text[TEXT];
    if (answers->arm[arm].left_p50_percent >= 0) {
        sl_answer_left_words(answers->scene, &answers->arm[arm], &answers->limits[arm], text, sizeof text);
        sl_put_row(out, _("left:"), text, width);
    }
    if (sl_answer_comes_to_the_stop(&answers->arm[arm], &answers->limits[arm])) {
        sl_answer_base_words(&answers->limits[arm], text, sizeof text);
        sl_put_row(out, _("level:"), text, width);
    }
}

static void put_waiting(FILE *out, const sl_limits *limits, double last_min, int width)
{
    char text[TEXT];
    for (int reason = 0; reason < 2; reason++) {
        if (sl_answer_waiting_words(limits, last_min, reason, text, sizeof text)) {
            sl_put_row(out, _("waiting:"), text, width);
        }
    }
}

/* ---- when to look -------------------------------------------------------------------------- */

static void put_looks(FILE *out, const sl_answer *answer, int width)
{
    char minutes[TEXT], text[TEXT + 64];
    sl_answer_checks_words(answer, text, sizeof text);
    sl_put_row(out, _("check:"), text, width);
    if (answer->n_looks > 0) {
        sl_minutes_words(SL_MINUTE_PLANNED, answer->look, answer->n_looks, minutes, sizeof minutes);
        snprintf(text, sizeof text, _("skin, heat and stretch, whatever the colour does: %s"), minutes);
        sl_put_row(out, _("look:"), text, width);
    }
}

static void put_odds(FILE *out, const sl_answer *answer, bool ascii, int width)
{
    char dots[SL_DOTS_TEXT], text[TEXT];
    sl_dots_words(answer->dots, ascii, dots);
    snprintf(text, sizeof text, _("%s the goal comes before every limit in %d of %d model runs"), dots,
             answer->dots, SL_DOTS);
    sl_put_row(out, _("odds:"), text, width);
}

/* ---- the one thing to measure next ---------------------------------------------------------- */

static void put_measure(FILE *out, const sl_limits_page *page, int arm, int width)
{
    const sl_answer *const answer = &page->answers->arm[arm];
    if (answer->measure < 0) {
        return;
    }
    const sl_drawn *const drawn = &page->answers->spread->plan.drawn[answer->measure];
    const sl_scene *const scene = page->answers->scene;
    char text[TEXT];
    if (drawn->doubt == SL_DOUBT_DYE) {
        snprintf(text, sizeof text, "%s (\"%s\")", _(sl_doubt_measure(drawn->doubt)),
                 scene->dyes[drawn->dye].name);
    } else {
        snprintf(text, sizeof text, "%s", _(sl_doubt_measure(drawn->doubt)));
    }
    sl_put_row(out, _("next:"), text, width);
}

static void put_science(FILE *out, const sl_limits_page *page, int arm, int width)
{
    const sl_answer *const answer = &page->answers->arm[arm];
    char text[TEXT];
    snprintf(
        text, sizeof text,
        _("odds %.3f, 95 %% interval of the sampling alone %.3f to %.3f; as good as %.0f members of equal "
          "weight; share of the variance of (stop - goal), first order:"),
        answer->odds, answer->odds_95.low, answer->odds_95.high, answer->effective);
    sl_put_row(out, _("science:"), text, width);
    for (int d = 0; d < page->answers->spread->plan.n; d++) {
        const sl_drawn *const drawn = &page->answers->spread->plan.drawn[d];
        const sl_scene *const scene = page->answers->scene;
        snprintf(text, sizeof text, "%.3f  %s%s%s", sl_spread_index(page->answers->spread, arm, d),
                 _(sl_doubt_word(drawn->doubt)), drawn->doubt == SL_DOUBT_DYE ? ": " : "",
                 drawn->doubt == SL_DOUBT_DYE ? scene->dyes[drawn->dye].name : "");
        sl_put_row(out, "", text, width);
    }
}

/* ---- one arm -------------------------------------------------------------------------------- */

static void put_unknown(FILE *out, const sl_limits_page *page, int arm, int width)
{
    const sl_answer *const answer = &page->answers->arm[arm];
    const sl_scene *const scene = page->answers->scene;
    char text[TEXT];
    sl_put_row(out, "", sl_verdict_sentence(answer), width);
    sl_put_lacks(out, page, arm, width);
    if (answer->unknown == SL_UNKNOWN_SURPRISE && answer->unexpected >= 0) {
        const sl_observation *const observation =
            &page->answers->spread->seen.observations.observation[answer->unexpected];
        snprintf(text, sizeof text, _("\"%s\"%s%s%s: hardly any member of the model shows that"),
                 sl_wipe_word(observation->wipe), observation->zone >= 0 ? _(" in \"") : "",
                 observation->zone >= 0 ? sl_zone_title(&scene->zones[observation->zone]) : "",
                 observation->zone >= 0 ? "\"" : "");
        sl_put_row(out, "", text, width);
    }
    if (answer->unknown == SL_UNKNOWN_SURPRISE || answer->unknown == SL_UNKNOWN_AT_ODDS) {
        sl_put_row(
            out, _("do:"),
            _("look again on a wiped and dried lock; if it stays so, rinse when in doubt and write it down"),
            width);
    }
}

static void put_arm(FILE *out, const sl_limits_page *page, int arm, int width)
{
    const sl_answer *const answer = &page->answers->arm[arm];
    char text[TEXT];
    const char *const name = sl_arm_title(&page->answers->scene->arms[arm]);
    if (sl_is_practice(page)) {
        snprintf(text, sizeof text, "%s: %s (%s)", name, _(sl_verdict_word(answer->verdict)),
                 _(sl_practice_words()));
    } else {
        snprintf(text, sizeof text, "%s: %s", name, _(sl_verdict_word(answer->verdict)));
    }
    fputc('\n', out);
    sl_put_paragraph(out, " ", text, width);
    if (answer->verdict == SL_VERDICT_UNKNOWN) {
        put_unknown(out, page, arm, width);
        return;
    }
    sl_put_row(out, "", sl_verdict_sentence(answer), width);
    sl_put_strand(out, page, arm, width);
    put_odds(out, answer, page->ascii, width);
    if (answer->minutes) {
        put_minutes(out, page->answers, arm, width);
    }
    put_left(out, page->answers, arm, width);
    if (answer->minutes) {
        put_waiting(out, &page->answers->limits[arm], sl_leave_last_min(&answer->leave), width);
        put_looks(out, answer, width);
    }
    if (answer->verdict == SL_VERDICT_LATE || answer->verdict == SL_VERDICT_DOUBTFUL) {
        sl_put_row(
            out, _("instead:"),
            _("a smaller goal; what is left covered darker; another mix, first on cut hair; or leaving it as "
              "it is"),
            width);
    }
    put_measure(out, page, arm, width);
    if (page->science) {
        put_science(out, page, arm, width);
    }
}

/* ---- the head of the page -------------------------------------------------------------------- */

static void add_share(char *text, size_t size, const char *before, sl_bound bound)
{
    char percent[16];
    if (bound.set) {
        sl_percent(bound.most, percent, sizeof percent);
        sl_append(text, size, "%s %s %%", before, percent);
    }
}

static void put_seen(FILE *out, const sl_limits_page *page, int width)
{
    const sl_scene *const scene = page->answers->scene;
    const sl_observations *const observations = &page->answers->spread->seen.observations;
    for (int i = 0; i < observations->n; i++) {
        const sl_observation *const observation = &observations->observation[i];
        char text[TEXT], minute[24];
        sl_minute_words(SL_MINUTE_CLOCK, minute, sizeof minute, "%.0f", observation->minute);
        snprintf(text, sizeof text, _("\"%s\", %s at %s min: %s (in %s)"),
                 sl_arm_title(&scene->arms[observation->arm]),
                 observation->strand ? _("strand") : _("cotton"), minute, _(sl_wipe_word(observation->wipe)),
                 observation->zone >= 0 ? sl_zone_title(&scene->zones[observation->zone])
                                        : _("all its colours"));
        sl_put_paragraph(out, _(" seen:    "), text, width);
    }
}

static void put_members(FILE *out, const sl_limits_page *page, int width)
{
    const sl_spread *const spread = page->answers->spread;
    char text[TEXT];
    snprintf(
        text, sizeof text,
        _("%ld model runs, each with numbers drawn as widely as their grades are weak (seed %llu). Ranges "
          "leave out the lowest and the highest tenth."),
        spread->members, (unsigned long long)spread->seed);
    sl_put_paragraph(out, _(" counted: "), text, width);
    if (spread->stopped) {
        snprintf(text, sizeof text, _("stopped after %ld of %ld model runs; what follows is partial."),
                 spread->members, spread->asked_for);
        sl_put_paragraph(out, _(" PARTIAL: "), text, width);
    }
}

static void put_top(FILE *out, const sl_limits_page *page, int width)
{
    const sl_scene *const scene = page->answers->scene;
    char text[TEXT];
    sl_put_lies(out, scene, page->answers->person, width);
    snprintf(text, sizeof text, _("How long? %s"), sl_scene_title(scene));
    sl_put_paragraph(out, "", text, width);
    char of[192];
    sl_goal_words(scene, text, sizeof text);
    add_share(text, sizeof text, _("; stop at base moved"), scene->aims.base_moved);
    add_share(text, sizeof text, _("; stop at hair stress"), scene->aims.cystine_lost);
    sl_stress_of_words(scene, of, sizeof of);
    sl_append(text, sizeof text, "%s", of);
    sl_put_paragraph(out, _(" goal:    "), text, width);
    put_seen(out, page, width);
    put_members(out, page, width);
    sl_example_note(scene, text, sizeof text);
    sl_put_paragraph(out, _(" note:    "), text, width);
    sl_put_labels(out, scene, page->answers->person, page->only, width);
}

/* ---- the foot --------------------------------------------------------------------------------- */

static void put_caution(FILE *out, sl_caution_id id, int width)
{
    const sl_caution *const caution = sl_caution_text(id);
    char lead[24];
    snprintf(lead, sizeof lead, " %-8s ", _(caution->signal));
    sl_put_paragraph(out, lead, _(caution->text), width);
}

static void put_foot(FILE *out, const sl_limits_page *page, int width)
{
    bool shown[SL_CAUTION_COUNT] = {[SL_CAUTION_STRETCH] = true, [SL_CAUTION_HEAD] = true};
    fputc('\n', out);
    sl_put_practice(out, page, width);
    sl_put_paragraph(
        out, " ",
        _("Rinse at once, whatever the minute: skin that stings or burns; warmth, fizz, smoke or an "
          "odd smell; hair that stays long, feels like gum or snaps."),
        width);
    sl_put_paragraph(
        out, " ", _("The odds are about this model and its numbers; they are not anybody's chances."), width);
    fputc('\n', out);
    if (page->answers->person) {
        const sl_intake_result result = sl_intake_judge(page->answers->person->form);
        for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
            if (result.stopped[asked]) {
                shown[sl_caution_named(sl_intake_caution(asked))] = true;
            }
        }
        for (int arm = 0; arm < page->answers->scene->n_arms; arm++) {
            shown[SL_CAUTION_METALLIC] |= page->answers->arm[arm].leave.strand == SL_STRAND_HEATED;
        }
        shown[SL_CAUTION_TESTS] = true;
    }
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        if (shown[id] || sl_caution_text((sl_caution_id)id)->always) {
            put_caution(out, (sl_caution_id)id, width);
        }
    }
    sl_put_paragraph(out, " ", _("All of them: slowlift cautions"), width);
}

bool sl_limits_text(FILE *out, const sl_limits_page *page, int width)
{
    const sl_scene *const scene = page->answers->scene;
    char left_out[TEXT] = "";
    put_top(out, page, width);
    if (page->answers->person) {
        sl_put_person(out, page, width);
    }
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (page->only >= 0 ? arm == page->only : page->answers->limits[arm].asked) {
            put_arm(out, page, arm, width);
        } else if (page->only < 0) {
            sl_append_item(left_out, sizeof left_out, ", ", "%s", sl_arm_title(&scene->arms[arm]));
        }
    }
    if (left_out[0] != '\0') {
        fputc('\n', out);
        sl_put_paragraph(out, _(" nothing to wait for in: "), left_out, width);
    }
    put_foot(out, page, width);
    return ferror(out) == 0;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limits as a document: what is asked and of whom, then a part for each arm. See limits.h.
 */
#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "report/limits/aims_words.h"
#include "report/limits/leave_words.h"
#include "report/limits/limits.h"
#include "report/told.h"
#include "report/warming.h"

enum { TEXT = 640 };

/* ---- the head of the page -------------------------------------------------------------------- */

static void say_seen(sl_document *document, const sl_limits_page *page)
{
    const sl_scene *const scene = page->answers->scene;
    const sl_observations *const observations = &page->answers->spread->seen.observations;
    for (int i = 0; i < observations->n; i++) {
        const sl_observation *const observation = &observations->observation[i];
        char minute[24];
        sl_minute_words(SL_MINUTE_CLOCK, minute, sizeof minute, "%.0f", observation->minute);
        sl_document_row(
            document, _("seen"), _("\"%s\", %s at %s min: %s (in %s)"),
            sl_arm_title(&scene->arms[observation->arm]), observation->strand ? _("strand") : _("cotton"),
            minute, _(sl_wipe_word(observation->wipe)),
            observation->zone >= 0 ? sl_zone_title(&scene->zones[observation->zone]) : _("all its colours"));
    }
}

static void say_top(sl_document *document, const sl_limits_page *page)
{
    const sl_scene *const scene = page->answers->scene;
    const sl_spread *const spread = page->answers->spread;
    sl_say_aims(document, scene, page->answers->person != NULL);
    say_seen(document, page);
    sl_limits_say_counted(document, spread->members, spread->seed);
    if (spread->stopped) {
        sl_say_partial(document, spread->members, spread->asked_for);
    }
    sl_say_warming(document, page->answers->timeline, page->only, true);
    sl_say_note(document, scene);
    sl_say_labels(document, scene, page->answers->person, page->only);
    if (page->answers->person) {
        sl_limits_say_person(document, page->answers->person);
    }
}

/* ---- arms ------------------------------------------------------------------------------------- */

static void say_arm(sl_document *document, const sl_limits_page *page, int arm)
{
    const sl_answers *const answers = page->answers;
    double index[SL_MOST_DRAWN];
    const bool deep = document->deepest >= SL_SCIENCE;
    for (int d = 0; deep && d < answers->spread->plan.n; d++) {
        index[d] = sl_spread_index(answers->spread, arm, d);
    }
    sl_limits_say_arm(document, &(sl_limits_arm){.scene = answers->scene,
                                                 .arm = arm,
                                                 .answer = &answers->arm[arm],
                                                 .limits = &answers->limits[arm],
                                                 .plan = &answers->spread->plan,
                                                 .index = deep ? index : NULL,
                                                 .seen = &answers->spread->seen.observations,
                                                 .person = answers->person,
                                                 .members = answers->spread->members});
}

static void say_arms(sl_document *document, const sl_limits_page *page)
{
    const sl_scene *const scene = page->answers->scene;
    char left_out[TEXT] = "";
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (page->only >= 0 ? arm == page->only : page->answers->limits[arm].asked) {
            say_arm(document, page, arm);
        } else if (page->only < 0) {
            sl_append_item(left_out, sizeof left_out, ", ", "%s", sl_arm_title(&scene->arms[arm]));
        }
    }
    if (left_out[0] != '\0') {
        sl_document_apart(document);
        sl_document_row(document, _("nothing to wait for in"), "%s", left_out);
    }
}

/* ---- the foot --------------------------------------------------------------------------------- */

static void say_foot(sl_document *document, const sl_limits_page *page)
{
    sl_document_apart(document);
    sl_limits_say_practice(document, page->answers->person);
    sl_limits_say_signs(document);
    sl_limits_say_worth(document);
}

unsigned sl_person_occasions(const sl_answers *answers)
{
    unsigned on = answers->person ? SL_ON_STRAND : 0U;
    for (int arm = 0; answers->person && arm < answers->n; arm++) {
        on |= answers->arm[arm].leave.strand == SL_STRAND_HEATED ? SL_ON_HEATED : 0U;
    }
    return on;
}

unsigned sl_limits_occasions(const sl_limits_page *page)
{
    return sl_with_reducing(page->answers->scene,
                            SL_ON_HAIR | SL_ON_LOOK | SL_ON_SWATCHES | sl_person_occasions(page->answers));
}

void sl_limits_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_limits_page *const page = of;
    const sl_scene *const scene = page->answers->scene;
    char title[TEXT];
    snprintf(title, sizeof title, _("How long? %s"), sl_scene_title(scene));
    sl_document_begin(document, "limits", title, error);
    document->deepest = page->science ? SL_SCIENCE : SL_MORE;
    sl_say_lies(document, scene, page->answers->person);
    say_top(document, page);
    say_arms(document, page);
    say_foot(document, page);
    sl_document_end(document, sl_limits_occasions(page));
}

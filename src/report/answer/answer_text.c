/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The answer page as a document; see answer_page.h.
 */
#include <math.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/answer/answer_page.h"
#include "report/limits/aims_words.h"
#include "report/limits/leave_words.h"
#include "report/limits/limits.h"
#include "report/told.h"
#include "slowlift/report.h"

enum { WORDS = 640 };

/* ---- the head ---------------------------------------------------------------------------------- */

/* What is wanted, and what an arm is rinsed by. */
static void say_aims(sl_document *document, const sl_answer_page *page)
{
    char text[WORDS];
    sl_goal_words(page->answers->scene, text, sizeof text);
    sl_document_row(document, _("Goal"), "%s", text);
    sl_bounds_words(page->answers->scene, page->answers->person != NULL, text, sizeof text);
    sl_document_row(document, _("Rinse by"), "%s", text);
}

/* All that is in the way of minutes, of any arm; and which looks at a strand come before. */
static void say_missing(sl_document *document, const sl_answer_page *page)
{
    bool told[SL_UNKNOWNS] = {false};
    for (int arm = 0; arm < page->answers->n; arm++) {
        const sl_leave *const leave = &page->answers->arm[arm].leave;
        for (int why = 1; why < SL_UNKNOWNS; why++) {
            if (sl_answer_role_of(page->answers->scene, arm) == SL_ROLE_STRIP && leave->lacks[why] &&
                !told[why]) {
                told[why] = true;
                sl_document_row(document, _("Missing"), "%s", _(sl_unknown_words((sl_unknown)why)));
            }
        }
    }
    if (page->answers->scene->aims.assumed && !told[SL_UNKNOWN_AIMS]) {
        sl_document_row(document, _("Missing"), "%s", _(sl_unknown_words(SL_UNKNOWN_AIMS)));
    }
}

static void say_science(sl_document *document, const sl_answer_page *page)
{
    const sl_answers *const answers = page->answers;
    static const sl_text_column columns[] = {{"", 4.0, SL_NAME | SL_OWN},
                                             {N_("zone"), 2.0, SL_NAME},
                                             {N_("colour left"), 2.0, SL_RIGHT},
                                             {N_("in time"), 1.0, SL_RIGHT},
                                             {N_("95 % interval"), 2.0, SL_RIGHT}};
    document->depth = SL_SCIENCE;
    sl_limits_say_counted(document, answers->spread->members, answers->spread->seed);
    sl_document_table(document, _("eight of ten model runs lie in the brackets"), 5, columns, 0.0);
    for (int arm = 0; arm < answers->n; arm++) {
        for (int zone = 0; zone < answers->scene->n_zones; zone++) {
            if ((page->only >= 0 && arm != page->only) || !answers->arm[arm].minutes ||
                !sl_rinse_compares(page->rinse, answers->scene, arm, zone)) {
                continue;
            }
            const sl_middle left = sl_rinse_left(page->rinse, arm, zone);
            const sl_answer *const answer = &answers->arm[arm];
            sl_document_cell(document, "%d %s", arm + 1, sl_arm_title(&answers->scene->arms[arm]));
            sl_document_cell(document, "%s", sl_zone_title(&answers->scene->zones[zone]));
            if (left.p50 < 0.0) { /* it does not get there */
                sl_document_cell(document, "%s", "–");
            } else {
                sl_document_entry(
                    document,
                    (sl_entry){.kind = SL_ENTRY_SHARE, .value = left.p50, .low = left.p10, .high = left.p90});
            }
            sl_document_cell(document, "%.3f", answer->odds);
            sl_document_cell(document, "%.3f-%.3f", answer->odds_95.low, answer->odds_95.high);
        }
    }
    document->depth = SL_MORE;
}

/* ---- the foot ---------------------------------------------------------------------------------- */

static void say_foot(sl_document *document, const sl_answer_page *page)
{
    char every[WORDS];
    sl_document_apart(document);
    if (sl_answer_has_minutes(page->answers)) {
        sl_minute_words(
            SL_MINUTE_PLANNED, every, sizeof every,
            _("Every strip: feel heat and stretch at %d min, then every %d. Sting, heat, fizz, smell, "
              "gum: RINSE."),
            SL_FIRST_LOOK_MIN, SL_LOOK_EVERY_MIN);
        sl_document_say(document, "%s", every);
    } else {
        sl_limits_say_signs(document);
    }
    if (page->science) {
        say_science(document, page);
    }
}

unsigned sl_answer_occasions(const sl_answers *answers)
{
    return sl_with_reducing(answers->scene, SL_ON_HAIR | sl_person_occasions(answers));
}

void sl_answer_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_answer_page *const page = of;
    const sl_answers *const answers = page->answers;
    const sl_scene *const scene = answers->scene;
    const bool minutes = sl_answer_has_minutes(answers);
    sl_document_begin(document, "answer", sl_scene_title(scene), error);
    document->deepest = page->science ? SL_SCIENCE : SL_MORE;
    document->brief = true;
    sl_say_lies(document, scene, answers->person);
    if (minutes || !scene->aims.assumed) { /* what is usual is meant for cut swatches alone */
        say_aims(document, page);
    }
    if (sl_answer_partial(page) >= 0) {
        sl_say_partial(document, sl_answer_partial(page), answers->spread->asked_for);
    }
    sl_say_labels(document, scene, answers->person, page->only);
    if (answers->person) {
        sl_limits_say_person(document, answers->person);
    }
    if (minutes) {
        sl_answer_say_tables(document, page);
        sl_answer_say_sentences(document, page);
    } else {
        say_missing(document, page);
        sl_answer_say_order(document, page);
    }
    say_foot(document, page);
    sl_limits_say_practice(document, answers->person);
    sl_document_end(document, sl_answer_occasions(answers));
}

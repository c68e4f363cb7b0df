/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See report_work.h.
 */
#include "front/work/report_work.h"

#include <string.h>

#include "base/hold.h"
#include "base/language.h"
#include "base/memory.h"
#include "base/plain_file.h"
#include "base/plain_text.h"
#include "front/settings.h"
#include "slowlift/scene.h"
#include "slowlift/strand_log.h"

static const sl_option options[] = {
    SL_OPTION(sl_report_work, school, sl_option_flag, .name = "school",
              .help = N_("the school's sheet: substances with amounts, protection, waste, people and their "
                         "training, names to sign for; blank where the log does not know")),
    SL_OPTION(sl_report_work, outcomes, sl_option_text, .name = "outcomes", .value = N_("FILE"),
              .help = N_("with --school: outcomes of the course that were met, a line each"),
              .wants = SL_WANTS_FILE),
    SL_OPTION(sl_report_work, client, sl_option_text, .name = "client", .value = N_("FORM"),
              .help =
                  N_("for the person of this form: what a strand of that hair in this log showed, and what "
                     "is not done"),
              .wants = SL_WANTS_FILE),
    SL_OPTION(sl_report_work, no, sl_option_text, .name = "no", .value = N_("FORM"),
              .help = N_("for the person of this form: why not, and other ways"), .wants = SL_WANTS_FILE),
    SL_OPTION(sl_report_work, accident, sl_option_flag, .name = "accident",
              .help = N_("every stop, for a doctor, as slowlift day --stops tells it")),
    SL_OPTION(sl_report_work, labels, sl_option_flag, .name = "labels",
              .help = N_("a label to cut out for each swatch: code, strip, day, place, test")),
    SL_OPTION(sl_report_work, blind, sl_option_flag, .name = "blind",
              .help = N_("with --labels: no strips, for who will look again")),
};
const sl_command_line sl_report_typed = {
    .name = "report",
    .line = N_("papers of a test: report, school, client, accident, labels"),
    .usage = {N_("[OPTIONS] LOG")},
    .about =
        N_("A report of a test that a log keeps: what was planned, how the day went, what was seen and how "
           "the model compares. Or one of the sheets that leave the room: for the school, for the person "
           "whose hair a strand was of, or for a doctor. Into a file that ends in .pdf as pages, in .html as "
           "a page "
           "of HTML. "
           "None of them times anybody's hair: a client's sheet holds the minutes of looks alone."),
    .set = {SL_OPTION_SET_OWN(options),
            SL_OPTION_SET(sl_log_test_options, const char *, sl_report_work, test),
            SL_OPTION_SET(sl_output_options, sl_result_wish, sl_report_work, result)},
    .words = SL_TYPED_WORDS(sl_report_work, log, 1, 1),
    .example = {{N_("what came of Monday, for the wall."), {"slowlift report strands.db -o monday.pdf"}},
                {N_("what the school keeps."),
                 {"slowlift report strands.db --school --outcomes outcomes.txt -o school.pdf"}}},
    .wants = {SL_WANTS_LOG},
};

bool sl_report_work_read(sl_report_work *work, int argc, char **argv, sl_error *error)
{
    if (!sl_options_read(&sl_report_typed, argc, argv, work, error)) {
        return false;
    }
    const int n = (work->school ? 1 : 0) + (work->client ? 1 : 0) + (work->no ? 1 : 0) +
                  (work->accident ? 1 : 0) + (work->labels ? 1 : 0);
    if (n > 1) {
        return sl_fail(error, SL_ERR_USAGE, _("several sheets at once"), _("ask for one after the other"));
    }
    if (work->blind && !work->labels) {
        return sl_fail(error, SL_ERR_USAGE, _("--blind without --labels"),
                       _("other sheets name what was done"));
    }
    return !work->outcomes || work->school ||
           sl_fail(error, SL_ERR_USAGE, _("--outcomes without --school"),
                   _("outcomes stand on the school's sheet"));
}

/* ---- the school's sheet ---------------------------------------------------------------------------- */

static bool take_outcome(sl_school_paper *paper, const char *line, sl_error *error)
{
    if (line[strspn(line, " \t")] == '\0') {
        return true;
    }
    if (paper->n_outcomes == SL_PAPER_OUTCOMES) {
        return sl_fail(error, SL_ERR_TOO_LARGE, _("a list of so many outcomes"), _("60 of them"));
    }
    paper->outcome[paper->n_outcomes++] = line;
    return true;
}

static bool read_outcomes(sl_report_work *work, sl_error *error)
{
    static const sl_file_most most = {64 << 10, "64 KiB"};
    size_t length = 0;
    bool good = sl_plain_file_read(work->outcomes, N_("the outcomes that are read"), most, &work->words,
                                   &length, NULL, error) &&
                sl_text_accept(work->words, length, SL_TEXT_FILE, error);
    char *line = work->words;
    while (good && line) {
        char *const end = strpbrk(line, "\r\n");
        if (end) {
            *end = '\0';
        }
        good = take_outcome(&work->paper, line, error);
        line = end ? end + 1 : NULL;
    }
    return good;
}

static bool prepare_school(sl_report_work *work, sl_error *error)
{
    work->paper.kept = &work->kept;
    work->say = sl_paper_school;
    work->of = &work->paper;
    return !work->outcomes || read_outcomes(work, error);
}

/* ---- sheets for the person ------------------------------------------------------------------------- */

static bool prepare_person(sl_report_work *work, const char *form, sl_error *error)
{
    int today = 0;
    work->sheet = (sl_client_paper){.kept = &work->kept, .person = &work->person};
    work->say = work->client ? sl_paper_client : sl_paper_no;
    work->of = &work->sheet;
    return sl_today(&today, error) && sl_intake_load(form, work->kept.scene, &work->form, error) &&
           sl_log_person(work->kept.log, work->kept.test.id, NULL, work->kept.scene, today, &work->form,
                         &work->person, error) &&
           (work->client ? sl_paper_client_can : sl_paper_no_can)(&work->sheet, error);
}

/* ---- the whole ------------------------------------------------------------------------------------- */

static bool prepare_whole(sl_report_work *work, sl_error *error)
{
    sl_plan_request request = sl_plan_request_default();
    request.people = 2; /* its hands are not told: they may have been several */
    if (!sl_compare_read(&work->compare, work->kept.log, &work->kept.test, -1.0, error) ||
        !sl_compare_rates(&work->rates, work->compare, error) ||
        !sl_promise_of(&work->promise, work->kept.scene, work->compare->n_blocks, -1.0, error)) {
        return false;
    }
    request.blocks = work->compare->n_blocks;
    work->curves = sl_seen_curves_make(work->compare, error);
    work->solver = work->curves ? sl_solver_new(error) : NULL;
    const bool good =
        work->solver &&
        (work->kept.scene->untold || /* nobody's hair is planned */
         sl_plan_make(&work->plan, work->kept.scene, &request, error)) &&
        sl_timeline_solve(&work->timeline, work->kept.scene, NULL, 0, work->solver, NULL, error);
    work->whole =
        (sl_whole_paper){.kept = &work->kept,
                         .plan = {.plan = work->plan, .timeline = work->timeline, .promise = work->promise},
                         .seen = {.compare = work->compare,
                                  .only = -1,
                                  .rates = work->rates,
                                  .promise = &work->promise,
                                  .curves = work->curves,
                                  .chosen = -1}};
    work->say = sl_paper_whole;
    work->of = &work->whole;
    work->answer.draws = sl_draws_usual();
    work->answer.work.scene =
        good && !work->kept.scene->untold ? sl_log_scene(work->kept.log, work->kept.test.id, error) : NULL;
    return good && (work->kept.scene->untold || work->answer.work.scene);
}

static bool prepare(sl_report_work *work, sl_error *error)
{
    const char *const form = work->client ? work->client : work->no;
    if (!sl_kept_test_open(&work->kept, work->log, work->test, error)) {
        return false;
    }
    if (work->accident) {
        work->say = sl_day_say_stops;
        work->of = &work->kept.went;
        return true;
    }
    if (work->labels) {
        work->label = (sl_label_paper){&work->kept, work->blind};
        work->say = sl_paper_labels;
        work->of = &work->label;
        return true;
    }
    if (!sl_log_real(work->kept.log, work->kept.test.id, error)) {
        return false;
    }
    return work->school ? prepare_school(work, error)
           : form       ? prepare_person(work, form, error)
                        : prepare_whole(work, error);
}

bool sl_report_work_compute(sl_report_work *work, sl_error *error)
{
    sl_signals_hold(); /* so that SQLite clears away what it keeps beside the log */
    bool good = prepare(work, error);
    sl_log_close(work->kept.log);
    work->kept.log = NULL;
    sl_signals_release();
    sl_scene *const scene = good ? work->answer.work.scene : NULL;
    if (scene) {
        sl_aims_assume(scene);
    }
    if (scene && sl_answers_can_be_asked(scene)) {
        good = sl_answer_work_page(&work->answer, error);
        work->whole.predicted = sl_answer_say;
        work->whole.prediction = &work->answer.page;
    }
    return good;
}

void sl_report_work_free(sl_report_work *work)
{
    sl_free(work->words);
    sl_seen_curves_free(work->curves);
    sl_free(work->rates);
    sl_compare_free(work->compare);
    sl_plan_free(work->plan);
    sl_timeline_free(work->timeline);
    sl_solver_free(work->solver);
    sl_answer_work_free(&work->answer);
    sl_kept_test_close(&work->kept);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See drift_work.h.
 */
#include "front/drift_work.h"

#include "base/language.h"
#include "front/places.h"
#include "front/settings.h"

const sl_command_line sl_log_drift_typed = {
    .name = "log drift",
    .line = N_("whether tubs weaken and grades shift: control charts"),
    .usage = {N_("[FOLDER] [OPTIONS]")},
    .about = N_(
        "Over all tests that the logs of a folder keep: colour left on the check swatches of each tub, "
        "each judge's repeated looks against the first look at the same, and each judge beside the others of "
        "each test. Single values in turn and how far "
        "each lies from the one before, with limits from the first ten; fewer: the values alone. FOLDER: "
        "else $SLOWLIFT_TESTS, else the one of your settings, else the one that you are in. Into a file that "
        "ends in .pdf or .png as pages with charts."),
    .set = {SL_OPTION_SET(sl_form_options, sl_result_wish, sl_drift_work, result),
            SL_OPTION_SET(sl_output_options, sl_result_wish, sl_drift_work, result)},
    .words = SL_TYPED_WORDS(sl_drift_work, folder, 0, 1),
    .example = {{N_("is the tub weaker, does j2 grade higher than in spring?"),
                 {"slowlift log drift ~/tests -o drift.pdf"}}},
    .wants = {SL_WANTS_FOLDER},
};

bool sl_drift_work_read(sl_drift_work *work, int argc, char **argv, sl_error *error)
{
    return sl_options_read(&sl_log_drift_typed, argc, argv, work, error);
}

bool sl_drift_work_compute(sl_drift_work *work, sl_error *error)
{
    return sl_places_settled(work->folder, &work->settled, error) &&
           sl_drift_read(&work->drift, work->settled.tests, error);
}

sl_exit sl_drift_work_end(sl_drift_work *work, sl_exit code)
{
    code = code == SL_EXIT_OK && work->drift.n_unread > 0 ? sl_complain(&work->drift.unread) : code;
    sl_drift_free(&work->drift);
    return code;
}

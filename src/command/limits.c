/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift limits`: when to look, when to stop, and how sure the model is. Invariant: no minute
 * for a person unless an answer holds one (answer.h).
 */
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "command/command.h"
#include "command/limits_asked.h"
#include "front/tell.h"
#include "front/work/ensemble.h"
#include "front/work/parts.h"
#include "report/limits/limits.h"

static bool count(sl_answers_work *work, const sl_limits_asked *asked, sl_error *error)
{
    const sl_member_range whole = {0, asked->draws.members};
    const sl_member_range range =
        asked->part.part > 0 ? sl_part_range(asked->draws.members, (int)asked->part.part, (int)asked->part.of)
                             : whole;
    return sl_answers_count(work, &asked->draws, range, error);
}

static bool compute(sl_answers_work *work, const sl_limits_asked *asked, sl_error *error)
{
    if (!sl_answers_prepare(work, &asked->about, asked->result.models, error) ||
        !(asked->merge ? parts_merge(&work->spread, work->scene, asked->parts, asked->n_parts, error)
                       : count(work, asked, error))) {
        return false;
    }
    sl_answers_make(work, &asked->about);
    return true;
}

/* ---- writing ------------------------------------------------------------------------------------------- */

/* Ranges that no part holds: the answer is whole in itself, and counts fewer members than it could. */
static void note_gaps(const sl_spread *spread) /* NULL: nothing was merged */
{
    for (int i = 0; spread && i < spread->n_ranges; i++) {
        const sl_member_range *const before = i > 0 ? &spread->range[i - 1] : NULL;
        const long from = before ? before->first + before->members : 0;
        if (spread->range[i].first > from) {
            fprintf(stderr, _("slowlift: note: model runs %ld to %ld are in none of these parts\n"), from,
                    spread->range[i].first - 1);
        }
    }
}

static sl_exit write_part(const sl_answers_work *work, const sl_limits_asked *asked)
{
    sl_error error = {.code = SL_OK};
    if (work->spread->stopped) {
        fputs(_("slowlift: stopped; a part is whole or not written\n"), stderr);
        return SL_EXIT_PARTIAL;
    }
    return part_save(asked->result.output, work->spread, work->scene, &error) ? SL_EXIT_OK
                                                                              : sl_complain(&error);
}

static sl_exit write_answer(const sl_answers_work *work, const sl_limits_asked *asked)
{
    const sl_error none = {.code = SL_OK};
    const sl_limits_page page = {.answers = &work->answers, .only = work->arm, .science = asked->science};
    return sl_tell(true, &none, &(sl_teller){.say = sl_limits_say, .export = &sl_limits_export}, &page,
                   &asked->result);
}

sl_exit sl_command_limits(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_limits_asked asked = {.draws = sl_draws_usual()};
    sl_exit code = SL_EXIT_OK;
    sl_answers_work *const work = sl_new(1, sizeof *work, "answering", &error); /* too large for a stack */
    if (work && sl_limits_asked_read(&asked, argc, argv, &error) && compute(work, &asked, &error)) {
        note_gaps(asked.merge ? work->spread : NULL);
        code = asked.part.part > 0 ? write_part(work, &asked) : write_answer(work, &asked);
        if (asked.part.part == 0 && work->spread->stopped) {
            code = sl_partial_said(work->spread->members, work->spread->asked_for, code);
        }
    } else {
        code = sl_complain(&error);
    }
    if (work) {
        sl_answers_work_free(work);
        sl_free(work);
    }
    return code;
}

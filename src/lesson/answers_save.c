/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A file of answers, replaced whole or not at all (base/save.h).
 */
#include "lesson/answers_save.h"

#include "base/save.h"

bool sl_learner_answers_save(const sl_learner_answers *answers, const char *path, sl_error *error)
{
    sl_save save;
    if (!sl_save_open(&save, path, error)) {
        return false;
    }
    sl_learner_answers_write(save.stream, answers); /* the stream keeps what failed */
    return sl_save_commit(&save, error);
}

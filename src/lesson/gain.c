/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The quiz of a class, before and after. An item counts only when answer and reason are both
 * right (two tiers: a right answer for a wrong reason is not understanding).
 *
 * Class gain: <g> = (<post> - <pre>) / (100 - <pre>) with class means in per cent, over those
 * who took both. Hake, R. R. 1998, Am. J. Phys. 66:64-74.
 */
#include "slowlift/lesson.h"

static bool item_right(const sl_quiz *quiz, const sl_quiz_record *record, int item)
{
    return record->answer[item] == quiz->item[item].answer.right &&
           record->reason[item] == quiz->item[item].reason.right;
}

int sl_quiz_score(const sl_quiz *quiz, const sl_quiz_record *record)
{
    if (record->edition != quiz->edition) {
        return -1;
    }
    int right = 0;
    for (int i = 0; i < quiz->n_items; i++) {
        if (record->answer[i] == SL_NO_ANSWER || record->reason[i] == SL_NO_ANSWER) {
            return -1;
        }
        right += item_right(quiz, record, i) ? 1 : 0;
    }
    return right;
}

bool sl_normalised_gain(double pre_pct, double post_pct, double *gain)
{
    if (!(pre_pct < 100.0)) {
        return false;
    }
    *gain = (post_pct - pre_pct) / (100.0 - pre_pct);
    return true;
}

void sl_quiz_class_add(sl_quiz_class *class_, const sl_quiz *quiz, const sl_learner_answers *answers)
{
    const sl_quiz_record *const before = &answers->quiz[SL_QUIZ_BEFORE];
    const sl_quiz_record *const after = &answers->quiz[SL_QUIZ_AFTER];
    const int pre = sl_quiz_score(quiz, before), post = sl_quiz_score(quiz, after);
    class_->n_before += pre >= 0 ? 1 : 0;
    class_->n_after += post >= 0 ? 1 : 0;
    if (pre < 0 || post < 0) {
        return;
    }
    const double n = class_->n_both;
    class_->n_both++;
    class_->pre_pct = (n * class_->pre_pct + 100.0 * pre / quiz->n_items) / (n + 1.0);
    class_->post_pct = (n * class_->post_pct + 100.0 * post / quiz->n_items) / (n + 1.0);
    for (int i = 0; i < quiz->n_items; i++) {
        class_->item_before[i] += item_right(quiz, before, i) ? 1 : 0;
        class_->item_after[i] += item_right(quiz, after, i) ? 1 : 0;
    }
}

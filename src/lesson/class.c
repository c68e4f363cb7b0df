/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a class answered in one lesson: how many chose what, and what became of the predictions.
 * No student stands in it.
 */
#include <string.h>

#include "slowlift/lesson.h"

void sl_class_start(sl_class *class_)
{
    *class_ = (sl_class){.n = 0};
}

static int chosen(const sl_lesson *lesson, const sl_record *record, const char *key)
{
    const int question = sl_lesson_question(lesson, key);
    const int choice = sl_record_choice(record, key);
    return question >= 0 && choice >= 0 && choice < lesson->question[question].n ? choice : SL_NO_ANSWER;
}

static bool is_right(const sl_lesson *lesson, const char *key, int choice)
{
    return lesson->question[sl_lesson_question(lesson, key)].right == choice;
}

bool sl_class_add(sl_class *class_, const sl_lesson *lesson, const sl_record *record)
{
    if (strcmp(record->lesson, lesson->name) != 0 || record->edition != lesson->edition) {
        return false;
    }
    class_->n++;
    for (int i = 0; i < lesson->n_questions; i++) {
        const int choice = chosen(lesson, record, lesson->question[i].key);
        if (choice != SL_NO_ANSWER) {
            class_->question[i].answered++;
            class_->question[i].chose[choice]++;
        }
    }
    const int before = chosen(lesson, record, "prediction"), after = chosen(lesson, record, "saw");
    if (before != SL_NO_ANSWER && after != SL_NO_ANSWER) {
        class_->both++;
        class_->change[before][after]++;
        class_->right_before += is_right(lesson, "prediction", before) ? 1 : 0;
        class_->right_after += is_right(lesson, "saw", after) ? 1 : 0;
    }
    return true;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift teach --class FOLDER`: every file of answers in the folder, summed up lesson by
 * lesson, and the quiz. A file that does not read is said and passed over.
 */
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "command/teach/teach.h"
#include "front/room.h"
#include "front/tell.h"
#include "lesson/class_text.h"

/* One lesson of the class is added to the report; false with *error when the lesson itself does not load. */
static bool one_lesson(const sl_teach_asked *asked, const sl_places *places, const sl_room *room,
                       const char *name, sl_class_report *report, sl_error *error)
{
    sl_class_lesson *const to = &report->lesson[report->n];
    to->lesson = sl_lesson_open(places, name, asked->language, error);
    if (to->lesson == NULL) {
        if (error->code == SL_ERR_USAGE) { /* a file of answers names it, nobody typed it */
            error->code = SL_ERR_INCONSISTENT;
        }
        return false;
    }
    report->n++;
    int passed_over = 0;
    sl_class_start(&to->class_);
    for (size_t i = 0; i < room->n; i++) {
        for (int r = 0; r < room->answers[i].n_records; r++) {
            const sl_record *const record = &room->answers[i].record[r];
            const bool added = sl_class_add(&to->class_, to->lesson, record);
            passed_over += !added && strcmp(record->lesson, to->lesson->name) == 0 ? 1 : 0;
        }
    }
    if (passed_over > 0) {
        fprintf(stderr,
                sl_plural("slowlift: %s: %d answered another edition and is not counted\n",
                          "slowlift: %s: %d answered another edition and are not counted\n", passed_over),
                to->lesson->name, passed_over);
    }
    return true;
}

static bool is_done(const char *const *done, int n, const char *name)
{
    for (int i = 0; i < n; i++) {
        if (strcmp(done[i], name) == 0) {
            return true;
        }
    }
    return false;
}

/* Lessons in the order in which they are first met, each once. One that does not load is said and
 * passed over. */
static void every_lesson(const sl_teach_asked *asked, const sl_places *places, sl_room *room,
                         const char **done, sl_class_report *report)
{
    int n = 0;
    for (size_t i = 0; i < room->n; i++) {
        for (int r = 0; r < room->answers[i].n_records; r++) {
            const char *const name = room->answers[i].record[r].lesson;
            sl_error error = {.code = SL_OK};
            if (is_done(done, n, name)) {
                continue;
            }
            done[n++] = name;
            if (!one_lesson(asked, places, room, name, report, &error)) {
                const sl_exit one = sl_complain(&error);
                room->worst = one > room->worst ? one : room->worst;
            }
        }
    }
}

static bool lessons(const sl_teach_asked *asked, const sl_places *places, sl_room *room,
                    sl_class_report *report, sl_error *error)
{
    const size_t most = room->n * SL_MOST_RECORDS + 1;
    report->lesson = sl_new(most, sizeof report->lesson[0], "adding up a class", error);
    if (report->lesson == NULL) {
        return false;
    }
    if (asked->lesson) {
        return one_lesson(asked, places, room, asked->lesson, report, error);
    }
    const char **const done = sl_new(most, sizeof done[0], "listing the lessons of a class", error);
    if (done != NULL) {
        every_lesson(asked, places, room, done, report);
    }
    sl_free(done);
    return done != NULL;
}

/* The quiz, where there is one and somebody took it. */
static bool the_quiz(const sl_teach_asked *asked, const sl_places *places, const sl_room *room,
                     sl_class_report *report, sl_quiz **quiz, sl_error *error)
{
    char path[SL_PLACES_PATH];
    const char *const name = strcmp(asked->language, "es") == 0 ? "quiz.es.yaml" : "quiz.yaml";
    if (!sl_lessons_folder(places, name, path)) {
        return true;
    }
    *quiz = sl_quiz_load(path, error);
    for (size_t i = 0; *quiz != NULL && i < room->n; i++) {
        sl_quiz_class_add(&report->taken, *quiz, &room->answers[i]);
    }
    report->quiz = report->taken.n_before + report->taken.n_after > 0 ? *quiz : NULL;
    return *quiz != NULL;
}

sl_exit sl_teach_class(const sl_teach_asked *asked, const sl_places *places, sl_error *error)
{
    sl_room room = {.answers = NULL};
    sl_class_report report = {.n = 0};
    sl_quiz *quiz = NULL;
    const bool good =
        sl_room_gather(&room, asked->class_folder, error) && lessons(asked, places, &room, &report, error) &&
        (asked->result.csv || asked->lesson || the_quiz(asked, places, &room, &report, &quiz, error));
    const sl_exit told = sl_tell(good, error, &(sl_teller){.say = sl_class_say, .export = &sl_class_export},
                                 &report, &asked->result);
    for (size_t i = 0; i < report.n; i++) {
        sl_lesson_free(report.lesson[i].lesson);
    }
    sl_free(report.lesson);
    sl_quiz_free(quiz);
    sl_free(room.answers);
    return good && room.worst > told ? room.worst : told;
}

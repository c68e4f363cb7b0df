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

/* One lesson of the class; false with *error when the lesson itself does not load. */
static bool one_lesson(const sl_teach_asked *asked, const sl_places *places, const sl_room *room,
                       const char *name, bool first, sl_error *error)
{
    char path[SL_PLACES_PATH];
    sl_folders folders = {.folders = places->folders, .n_folders = places->n_folders};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_lesson_path(places, name, asked->language, path);
    sl_lesson *const lesson = sl_lesson_load(path, &resolver, error);
    if (lesson == NULL) {
        return false;
    }
    sl_class class_;
    int passed_over = 0;
    sl_class_start(&class_);
    for (size_t i = 0; i < room->n; i++) {
        for (int r = 0; r < room->answers[i].n_records; r++) {
            const sl_record *const record = &room->answers[i].record[r];
            const bool added = sl_class_add(&class_, lesson, record);
            passed_over += !added && strcmp(record->lesson, lesson->name) == 0 ? 1 : 0;
        }
    }
    if (asked->csv) {
        sl_class_csv(stdout, &class_, lesson, first);
    } else {
        fputs(first ? "" : "\n", stdout);
        sl_class_table(stdout, &class_, lesson);
    }
    if (passed_over > 0) {
        fprintf(stderr, _("slowlift: %s: %d answered another edition and are not counted\n"), lesson->name,
                passed_over);
    }
    sl_lesson_free(lesson);
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
                         const char **done)
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
            if (!one_lesson(asked, places, room, name, n == 1, &error)) {
                const sl_exit one = sl_complain(&error);
                room->worst = one > room->worst ? one : room->worst;
            }
        }
    }
}

static bool all_lessons(const sl_teach_asked *asked, const sl_places *places, sl_room *room, sl_error *error)
{
    const char **const done =
        sl_new(room->n * SL_MOST_RECORDS, sizeof done[0], "listing the lessons of a class", error);
    if (done != NULL) {
        every_lesson(asked, places, room, done);
    }
    sl_free(done);
    return done != NULL;
}

/* The quiz, where there is one and somebody took it. */
static bool the_quiz(const sl_teach_asked *asked, const sl_places *places, const sl_room *room,
                     sl_error *error)
{
    char path[SL_PLACES_PATH];
    sl_quiz_class class_ = {.n_both = 0};
    const char *const name = strcmp(asked->language, "es") == 0 ? "quiz.es.yaml" : "quiz.yaml";
    if (!sl_lessons_folder(places, name, path)) {
        return true;
    }
    sl_quiz *const quiz = sl_quiz_load(path, error);
    if (quiz == NULL) {
        return false;
    }
    for (size_t i = 0; i < room->n; i++) {
        sl_quiz_class_add(&class_, quiz, &room->answers[i]);
    }
    if (class_.n_before + class_.n_after > 0) {
        putchar('\n');
        sl_quiz_class_table(stdout, &class_, quiz);
    }
    sl_quiz_free(quiz);
    return true;
}

sl_exit sl_teach_class(const sl_teach_asked *asked, const sl_places *places, sl_error *error)
{
    sl_room room = {.answers = NULL};
    bool good = sl_room_gather(&room, asked->class_folder, error);
    if (good) {
        good = asked->lesson ? one_lesson(asked, places, &room, asked->lesson, true, error)
                             : all_lessons(asked, places, &room, error);
    }
    good = good && (asked->csv || asked->lesson || the_quiz(asked, places, &room, error));
    sl_free(room.answers);
    if (!good) {
        return sl_complain(error);
    }
    const sl_exit written = sl_finish_output(ferror(stdout) == 0);
    return written > room.worst ? written : room.worst;
}

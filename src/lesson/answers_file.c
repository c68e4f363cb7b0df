/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind answers: what one student or group answered, in as many lessons as they took.
 * Written so that the reader here reads the same back. Answers are counted from 1 in the file,
 * as students see them.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "lesson/reading.h"
#include "scene/yaml/file.h"

enum { MOST_EDITION = 9999 };

/* ---- reading ------------------------------------------------------------------------------------- */

static bool choices_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                         const sl_node *node, void *into)
{
    static const char form[] = "write {prediction: 2}: the question and the answer's number";
    sl_record *const record = into;
    (void)field, (void)mapping;
    if (!sl_node_is(node, SL_NODE_MAPPING, form, reading->error)) {
        return false;
    }
    if (node->n > SL_MOST_QUESTIONS) {
        return sl_node_refuse(node, SL_ERR_TOO_LARGE, "too many answers", "12", reading->error);
    }
    for (const sl_node *answer = node->first; answer; answer = answer->next) {
        int number = 0;
        if (!sl_name_is_good(answer->key) || strlen(answer->key) >= sizeof record->key[0]) {
            return sl_node_refuse_key(answer, SL_ERR_WRONG_TYPE, "this name of a question", form,
                                      reading->error);
        }
        if (!sl_whole_read(answer, 1, SL_MOST_CHOICES, &number, reading->error)) {
            return false;
        }
        snprintf(record->key[record->n], sizeof record->key[0], "%s", answer->key);
        record->choice[record->n++] = number - 1;
    }
    return true;
}

static bool code_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                      const sl_node *node, void *record)
{
    (void)mapping;
    if (!sl_node_is(node, SL_NODE_TEXT, "a code, not a name, belongs here", reading->error) ||
        !sl_name_check(node, node->text, reading->error)) {
        return false;
    }
    snprintf(sl_field_at(field, record), SL_CODE_SIZE, "%s", node->text);
    return true;
}

#define IN_RECORD .use = SL_REQUIRED, .wanted = "a record has lesson, edition, page, skipped, answers"
static const sl_field record_fields[] = {
    SL_FIELD(sl_record, lesson, .key = "lesson", IN_RECORD, .read = code_read),
    SL_FIELD(sl_record, edition, .key = "edition", IN_RECORD, .range = {.least = 1, .most = MOST_EDITION}),
    SL_FIELD(sl_record, page, .key = "page", IN_RECORD, .range = {.most = SL_MOST_PAGES}),
    SL_FIELD(sl_record, skipped, .key = "skipped", IN_RECORD),
    SL_FIELD(sl_record, choice, .key = "answers", IN_RECORD, .read = choices_read),
};
static const sl_fields record_rows = SL_FIELDS(sl_record, record_fields, .of = NULL);

static void quiz_clear(sl_quiz_record *record)
{
    record->edition = 0;
    for (int i = 0; i < SL_QUIZ_ITEMS; i++) {
        record->answer[i] = record->reason[i] = SL_NO_ANSWER;
    }
}

static bool tier_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                      const sl_node *unread, void *record)
{
    const sl_node *const list = sl_list_child(reading, mapping, field->key, 0, SL_QUIZ_ITEMS);
    int *const chosen = sl_field_at(field, record), i = 0;
    (void)unread;
    for (const sl_node *node = list ? list->first : NULL; node; node = node->next, i++) {
        int number = 0;
        if (!sl_whole_read(node, 0, SL_MOST_CHOICES, &number, reading->error)) {
            return false;
        }
        chosen[i] = number == 0 ? SL_NO_ANSWER : number - 1;
    }
    return list != NULL;
}

static const sl_field quiz_fields[] = {
    SL_FIELD(sl_quiz_record, edition, .key = "edition", .use = SL_REQUIRED, .wanted = "that of the quiz",
             .range = {.least = 1, .most = MOST_EDITION}),
    SL_FIELD(sl_quiz_record, answer, .key = "answers", .read = tier_read),
    SL_FIELD(sl_quiz_record, reason, .key = "reasons", .read = tier_read),
};
static const sl_fields quiz_rows = SL_FIELDS(sl_quiz_record, quiz_fields, .of = NULL);

static bool quiz_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                      const sl_node *node, void *answers)
{
    (void)mapping;
    quiz_clear(sl_field_at(field, answers));
    return !node || sl_fields_read(reading, node, &quiz_rows, NULL, true, sl_field_at(field, answers));
}

static bool records_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                         const sl_node *unread, void *into)
{
    sl_learner_answers *const answers = into;
    const sl_node *const list = sl_list_child(reading, mapping, field->key, 0, SL_MOST_RECORDS);
    (void)unread;
    for (const sl_node *node = list ? list->first : NULL; node; node = node->next) {
        if (!sl_fields_read(reading, node, &record_rows, NULL, true, &answers->record[answers->n_records])) {
            return false;
        }
        answers->n_records++;
    }
    return list != NULL;
}

static const sl_field answers_fields[] = {
    SL_FIELD(sl_learner_answers, code, .key = "code", .use = SL_REQUIRED,
             .wanted = "of a student or group, never a name", .read = code_read),
    SL_FIELD(sl_learner_answers, record, .key = "lessons", .read = records_read),
    SL_FIELD(sl_learner_answers, quiz[SL_QUIZ_BEFORE], .key = "quiz_before", .read = quiz_read),
    SL_FIELD(sl_learner_answers, quiz[SL_QUIZ_AFTER], .key = "quiz_after", .read = quiz_read),
};
static const sl_fields answers_rows = SL_FIELDS(sl_learner_answers, answers_fields, .of = NULL);

bool sl_learner_answers_load(sl_learner_answers *answers, const char *path, bool *absent, sl_error *error)
{
    static const char *const keys[] = {"kind", "version", "title", "origin"};
    static const sl_words head = {keys, 4};
    sl_error unheard = {.code = SL_OK};
    sl_arena kept = {0};
    const sl_reading reading = {.kept = &kept, .error = error ? error : &unheard};
    sl_yaml document = {0};
    sl_taught_header header;
    char *text = NULL;
    size_t length = 0;
    sl_error_clear(reading.error);
    if (absent) {
        *absent = false;
    }
    if (!sl_file_read(path, N_("a file of answers that is read"), &text, &length, absent, reading.error)) {
        return false;
    }
    sl_learner_answers read = {.n_records = 0};
    const bool good = sl_yaml_parse(&document, text, length, path, reading.error) &&
                      sl_taught_header_read(&reading, document.root, "answers", &header) &&
                      sl_fields_read(&reading, document.root, &answers_rows, &head, true, &read);
    if (good) {
        *answers = read;
    }
    sl_yaml_free(&document);
    sl_free(text);
    sl_arena_free(&kept);
    return good;
}

/* ---- keeping -------------------------------------------------------------------------------------- */

bool sl_learner_answers_start(sl_learner_answers *answers, const char *code, sl_error *error)
{
    if (!sl_name_is_good(code)) {
        sl_phrase found = {0};
        sl_phrase_quote(&found, code);
        return sl_fail(error, SL_ERR_USAGE, found.text,
                       "a code is made of a-z, 0-9 and hyphens, such as group-3, and is never a name");
    }
    *answers = (sl_learner_answers){.n_records = 0};
    snprintf(answers->code, sizeof answers->code, "%s", code);
    quiz_clear(&answers->quiz[SL_QUIZ_BEFORE]);
    quiz_clear(&answers->quiz[SL_QUIZ_AFTER]);
    return true;
}

sl_record *sl_learner_answers_record(sl_learner_answers *answers, const sl_lesson *lesson, sl_error *error)
{
    for (int i = 0; i < answers->n_records; i++) {
        sl_record *const record = &answers->record[i];
        if (strcmp(record->lesson, lesson->name) != 0) {
            continue;
        }
        if (record->edition != lesson->edition) {
            sl_fail(error, SL_ERR_INCONSISTENT, "these answers are to another edition of the lesson",
                    "begin with a new file of answers");
            return NULL;
        }
        return record;
    }
    if (answers->n_records == SL_MOST_RECORDS || !sl_name_is_good(lesson->name)) {
        sl_fail(error, SL_ERR_TOO_LARGE, "this file of answers takes no other lesson",
                "16 lessons, each in a folder whose name is made of a-z, 0-9 and hyphens");
        return NULL;
    }
    sl_record *const record = &answers->record[answers->n_records++];
    *record = (sl_record){.edition = lesson->edition};
    snprintf(record->lesson, sizeof record->lesson, "%s", lesson->name);
    return record;
}

int sl_record_choice(const sl_record *record, const char *key)
{
    for (int i = 0; i < record->n; i++) {
        if (strcmp(record->key[i], key) == 0) {
            return record->choice[i];
        }
    }
    return SL_NO_ANSWER;
}

/* ---- writing ------------------------------------------------------------------------------------------ */

static void put_tier(FILE *out, const char *key, const int chosen[SL_QUIZ_ITEMS])
{
    fprintf(out, "  %s: [", key);
    for (int i = 0; i < SL_QUIZ_ITEMS; i++) {
        fprintf(out, "%s%d", i == 0 ? "" : ", ", chosen[i] + 1);
    }
    fputs("]\n", out);
}

static void put_quiz(FILE *out, const char *key, const sl_quiz_record *record)
{
    if (record->edition > 0) {
        fprintf(out, "%s:\n  edition: %d\n", key, record->edition);
        put_tier(out, "answers", record->answer);
        put_tier(out, "reasons", record->reason);
    }
}

static void put_record(FILE *out, const sl_record *record)
{
    fprintf(out, "  - lesson: %s\n    edition: %d\n    page: %d\n    skipped: %s\n", record->lesson,
            record->edition, record->page, record->skipped ? "yes" : "no");
    fputs(record->n == 0 ? "    answers: {}\n" : "    answers:\n", out);
    for (int i = 0; i < record->n; i++) {
        fprintf(out, "      %s: %d\n", record->key[i], record->choice[i] + 1);
    }
}

bool sl_learner_answers_write(FILE *out, const sl_learner_answers *answers)
{
    fprintf(out, "kind: answers\nversion: 1\ntitle: Answers of %s\norigin: written by slowlift\ncode: %s\n",
            answers->code, answers->code);
    fputs(answers->n_records == 0 ? "lessons: []\n" : "lessons:\n", out);
    for (int i = 0; i < answers->n_records; i++) {
        put_record(out, &answers->record[i]);
    }
    put_quiz(out, "quiz_before", &answers->quiz[SL_QUIZ_BEFORE]);
    put_quiz(out, "quiz_after", &answers->quiz[SL_QUIZ_AFTER]);
    return ferror(out) == 0;
}

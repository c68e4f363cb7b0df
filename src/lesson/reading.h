/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the readers of lessons, quizzes and answers share. Order of a lesson: scenes, numbers,
 * claims, then every text, so that a text is filled in as it is read.
 */
#ifndef SLOWLIFT_LESSON_READING_H
#define SLOWLIFT_LESSON_READING_H

#include "scene/field.h"
#include "slowlift/lesson.h"

enum { SL_MOST_CALLED = 64, SL_LONGEST_LESSON_TEXT = 4000 };

struct sl_lesson_memory {
    sl_arena arena;
    int n_called;
    const char *of_scene[SL_MOST_CALLED], *called[SL_MOST_CALLED]; /* [n_called] */
};

/* Numbers and claims while a file is being read. */
typedef struct sl_figures {
    const sl_reading *reading;
    bool spanish;
    int n_scenes;
    sl_lesson_scene *scene; /* [n_scenes] borrowed; their spreads are run when they are asked for */
    int n;
    sl_number *number; /* [SL_MOST_NUMBERS] borrowed */
    bool used[SL_MOST_NUMBERS];
    int n_claims;
    sl_claim *claim; /* [SL_MOST_CLAIMS] borrowed */
} sl_figures;

/* words.c: the two languages that lessons are written in. */
extern const sl_words sl_language_words; /* en, es */

/* header.c: kind, version, title, origin, language, edition of a file that is not a model file. */
typedef struct sl_taught_header {
    const char *title, *origin;
    int language, edition;
} sl_taught_header;
bool sl_taught_header_read(const sl_reading *reading, const sl_node *root, const char *kind,
                           sl_taught_header *header);
/* A list under `key` of `least` to `most`; NULL with the error set. */
const sl_node *sl_list_child(const sl_reading *reading, const sl_node *mapping, const char *key, int least,
                             int most);
const sl_node *sl_needed_child(const sl_reading *reading, const sl_node *mapping, const char *key,
                               const char *wanted);

/* numbers.c */
bool sl_numbers_read(sl_figures *figures, const sl_node *list);
/* The number that the node names, marked as used. measured SL_AS_COUNT_OF: any. */
bool sl_number_named(sl_figures *figures, const sl_node *node, sl_measured measured, int *index);
/* Numbers that the author chose and nothing uses are typed by hand: refused. */
bool sl_numbers_all_used(const sl_figures *figures, const sl_node *list);
void sl_number_write(sl_number *number, bool spanish);
/* In which a bound of such a number is read. */
sl_range sl_measured_range(sl_measured measured);
bool sl_figure_name_check(const sl_reading *reading, const sl_node *node);
/* computed.c: a number out of a scene. */
bool sl_number_compute(sl_figures *figures, const sl_node *node, sl_number *number);
bool sl_scene_named(const sl_figures *figures, const sl_node *node, int *index);
bool sl_arm_named(const sl_figures *figures, int scene, const sl_node *node, int *index);
bool sl_zone_named(const sl_figures *figures, int scene, const sl_node *node, int *index);

/* claims.c */
bool sl_claims_read(sl_figures *figures, const sl_node *list);
bool sl_claim_named(const sl_figures *figures, const sl_node *node, int *index);

/* texts.c: filled in and kept. */
bool sl_filled_read(const sl_figures *figures, const sl_node *node, const char **text);
bool sl_passage_read(const sl_figures *figures, const sl_node *node, sl_passage *passage);
/* `proved`: the right answer needs a claim. */
bool sl_question_read(sl_figures *figures, const sl_node *node, const char *key, bool proved,
                      sl_question *question);
/* The same where `ask` and `answers` are not the only keys, which the caller has checked. */
bool sl_tier_read(sl_figures *figures, const sl_node *node, const char *key, bool proved,
                  sl_question *question);

/* translation.c: the same tree in another language. */
bool sl_translation_check(const sl_reading *reading, const sl_node *root, const sl_node *original);

#endif

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lessons: a question, a prediction with its reason, a run, a surprise, an explanation. A file
 * of kind lesson (docs/file-format.md, "Lesson") -> texts whose numbers come out of its scenes;
 * a session that leads through it; the answers that a student or group gave; what a class
 * answered.
 *
 * Invariant: a lesson that loads is true: every number was computed from its scenes on the way
 * in, every claim holds that should, and every text is filled in and ready to be shown. Nothing
 * here writes a file or asks anybody anything.
 */
#ifndef SLOWLIFT_LESSON_H
#define SLOWLIFT_LESSON_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "slowlift/caution.h"
#include "slowlift/error.h"
#include "slowlift/estimate.h"
#include "slowlift/report.h"
#include "slowlift/scene.h"
#include "slowlift/timeline.h"

#pragma GCC visibility push(default)

enum {
    SL_MOST_CHOICES = 6, /* answers of one question */
    SL_MOST_PARAGRAPHS = 16,
    SL_MOST_NUMBERS = 64,
    SL_MOST_CLAIMS = 48,
    SL_MOST_LESSON_SCENES = 6,
    SL_LESSON_RECALLS = 3,
    SL_MOST_EXITS = 4,
    SL_MOST_STOPS = 12,
    SL_MOST_OUTCOMES = 8,
    SL_MOST_LESSON_CAUTIONS = 12,
    SL_MOST_PAGES = 20,
    SL_QUIZ_ITEMS = 12,
    SL_LESSON_LONGEST_MIN = 45,
    SL_NUMBER_TEXT = 48 /* bytes of a number with its unit */
};

/* ---- numbers and claims -------------------------------------------------------------------- */

/* What a number measures, which decides how it is written. */
typedef enum sl_measured {
    SL_AS_SHARE,    /* 0..1; "25 %" */
    SL_AS_MINUTES,  /* given: "12 min"; computed: whole minutes around it, "12 to 13 min" */
    SL_AS_TIMES,    /* a ratio; "2.6 times" */
    SL_AS_COUNT,    /* "12" */
    SL_AS_STRENGTH, /* % of peroxide; "6 %" */
    SL_AS_GRAMS,    /* "11 g" */
    SL_AS_CELSIUS,  /* "24 °C" */
    SL_AS_KELVIN,   /* a difference, written "10 °C" as people say it */
    SL_AS_LEVELS,   /* "1.2 levels" */
    SL_AS_PACE,     /* share of what is left that goes in a minute; "11 % per minute" */
    SL_AS_ODDS,     /* of 20 model runs; "17 of 20" */
    SL_AS_ENERGY,   /* kJ/mol; "60 kJ/mol" */
    SL_AS_WORD,     /* a verdict; its word */
    SL_AS_COUNT_OF
} sl_measured;

typedef struct sl_number {
    const char *name;
    sl_measured measured;
    bool given;                /* chosen by the author, not computed */
    bool of_head;              /* of hair that counts as a head (leave.h): a factor may be made of it, and its
                                  text says no more than that */
    double value;              /* minutes, shares 0..1, ...; SL_AS_WORD: an sl_verdict */
    char text[SL_NUMBER_TEXT]; /* with its unit, in the lesson's language */
} sl_number;

typedef struct sl_claim {
    const char *name;
    int number;
    bool holds; /* as the file says and its scene bears out */
} sl_claim;

/* ---- texts ----------------------------------------------------------------------------------- */

typedef struct sl_passage {
    int n;
    const char *paragraph[SL_MOST_PARAGRAPHS]; /* [n] */
} sl_passage;

typedef struct sl_choice {
    const char *say;
    bool right;
    const char *thinks; /* the misconception behind it; NULL for the right one */
    const char *reply;  /* feedback */
    int claim;          /* that speaks for or against it; -1 none */
    int draws;          /* number to be drawn beside the result; -1 none */
} sl_choice;

typedef struct sl_question {
    const char *key; /* in files of answers: "recall-1", "prediction", "exit-2" */
    const char *ask;
    int n, right;                      /* index of the one right choice */
    sl_choice choice[SL_MOST_CHOICES]; /* [n] */
} sl_question;

/* ---- a lesson -------------------------------------------------------------------------------- */

typedef struct sl_lesson_scene {
    const char *name; /* as the lesson calls it */
    sl_scene *scene;
    sl_timeline *timeline;    /* of `scene`, without times of its own: read with sl_timeline_at */
    struct sl_spread *spread; /* of `scene`; NULL until a number asks for odds */
} sl_lesson_scene;

/* Strips side by side that differ in one thing. */
typedef struct sl_cases {
    sl_passage text;
    int scene, zone;
    int at; /* number: minutes since each arm's contact */
    int n_arms, arm[SL_MAX_ARMS];
    sl_question question;
} sl_cases;

typedef struct sl_lesson_run {
    int scene, zone;
    sl_quantity read;             /* what stands under each strip: colour left unless the lesson says */
    int beside;                   /* scene with the same arms and zones, shown at the same size; -1: none */
    int n_arms, arm[SL_MAX_ARMS]; /* all arms of the scene unless the lesson says which */
    int n_stops, stop[SL_MOST_STOPS]; /* numbers: minutes since each arm's contact, rising */
} sl_lesson_run;

typedef enum sl_page_kind {
    SL_PAGE_OBJECTIVE,
    SL_PAGE_RECALL,
    SL_PAGE_CASES,
    SL_PAGE_PREDICTION,
    SL_PAGE_REASON,
    SL_PAGE_RUN,
    SL_PAGE_SAW,
    SL_PAGE_EXPLAIN,
    SL_PAGE_TRANSFER,
    SL_PAGE_SWATCH,
    SL_PAGE_EXIT,
    SL_PAGE_END,
    SL_PAGE_KINDS
} sl_page_kind;

typedef struct sl_page {
    sl_page_kind kind;
    int question; /* index into lesson->question; -1: a page without a question */
} sl_page;

enum { SL_MOST_QUESTIONS = SL_LESSON_RECALLS + 5 + SL_MOST_EXITS };

typedef struct sl_lesson {
    const char *name; /* of its folder */
    const char *title, *origin, *language, *level;
    int edition, number, minutes;
    sl_passage objective, misconception, explain, swatch, teacher;
    int n_outcomes, n_cautions;
    const char *outcome[SL_MOST_OUTCOMES];          /* words of the competency */
    sl_caution_id caution[SL_MOST_LESSON_CAUTIONS]; /* to be read out */
    int n_scenes, n_numbers, n_claims;
    sl_lesson_scene scene[SL_MOST_LESSON_SCENES];
    sl_number numbers[SL_MOST_NUMBERS];
    sl_claim claim[SL_MOST_CLAIMS];
    sl_cases cases; /* its question stands in `question` too */
    sl_lesson_run run;
    int n_questions;
    sl_question question[SL_MOST_QUESTIONS]; /* in the order of the pages */
    int n_pages;
    sl_page page[SL_MOST_PAGES];
    struct sl_lesson_memory *memory; /* opaque */
} sl_lesson;

/* Read, compute and check the lesson at `path`; its scenes lie beside it, their parts come from
 * `resolver`. One in another language is held against lesson.yaml beside it. NULL with *error. */
sl_lesson *sl_lesson_load(const char *path, const sl_resolver *resolver, sl_error *error);
void sl_lesson_free(sl_lesson *lesson); /* NULL is allowed */
/* Its place in the course and its title, without computing anything. */
bool sl_lesson_head(const char *path, int *number, char *title, size_t title_size, sl_error *error);

/* What the class calls a scene of the lesson, an arm or a zone: the lesson's own word for it, else the
 * scene's. */
const char *sl_lesson_called(const sl_lesson *lesson, const char *name);
const char *sl_lesson_called_arm(const sl_lesson *lesson, const sl_arm *arm);
const char *sl_lesson_called_zone(const sl_lesson *lesson, const sl_zone *zone);
/* Colour left, base moved, cystine lost, ... of a scene of the lesson, minutes from contact. */
void sl_lesson_cell(const sl_lesson *lesson, int scene, int arm, int zone, double since_contact_min,
                    sl_cell *cell);
/* Index of a question by its key, or -1. */
int sl_lesson_question(const sl_lesson *lesson, const char *key);
const char *sl_page_word(sl_page_kind kind, const char *language);

/* Check a file of any kind: lesson, quiz, answers, or a model file as sl_file_check does.
 * *kind (may be NULL) is its word; title (of title_size bytes) may be NULL. */
bool sl_any_file_check(const char *path, const sl_resolver *resolver, const char **kind, char *title,
                       size_t title_size, sl_error *error);

/* ---- the quiz -------------------------------------------------------------------------------- */

/* Two tiers: an answer and its reason. Right only when both are. */
typedef struct sl_quiz_item {
    const char *name;
    sl_question answer, reason; /* keys: name, name-reason */
} sl_quiz_item;

typedef struct sl_quiz {
    const char *title, *origin, *language;
    int edition;
    sl_passage note; /* such as: not validated with students yet */
    int n_items;     /* SL_QUIZ_ITEMS */
    sl_quiz_item item[SL_QUIZ_ITEMS];
    int n_numbers;
    sl_number numbers[SL_MOST_NUMBERS];
    struct sl_lesson_memory *memory; /* opaque */
} sl_quiz;

sl_quiz *sl_quiz_load(const char *path, sl_error *error);
void sl_quiz_free(sl_quiz *quiz); /* NULL is allowed */

/* ---- answers --------------------------------------------------------------------------------- */

enum {
    SL_CODE_SIZE = 65,
    SL_MOST_RECORDS = 16, /* lessons in one file of answers */
    SL_NO_ANSWER = -1
};

/* What one student or group answered in one lesson. */
typedef struct sl_record {
    char lesson[SL_CODE_SIZE]; /* name of its folder */
    int edition;               /* of the lesson that was answered */
    int page;                  /* where to go on */
    bool skipped;              /* the educator opened the run without a prediction */
    int n;
    char key[SL_MOST_QUESTIONS][16];
    int choice[SL_MOST_QUESTIONS]; /* [n] 0-based */
} sl_record;

typedef struct sl_quiz_record {
    int edition;                                      /* of the quiz; 0: not taken */
    int answer[SL_QUIZ_ITEMS], reason[SL_QUIZ_ITEMS]; /* 0-based or SL_NO_ANSWER */
} sl_quiz_record;

typedef enum sl_quiz_time { SL_QUIZ_BEFORE, SL_QUIZ_AFTER, SL_QUIZ_TIMES } sl_quiz_time;

typedef struct sl_learner_answers {
    char code[SL_CODE_SIZE]; /* of a student or group: letters, digits, hyphens; never a name */
    int n_records;
    sl_record record[SL_MOST_RECORDS];
    sl_quiz_record quiz[SL_QUIZ_TIMES];
} sl_learner_answers;

bool sl_learner_answers_start(sl_learner_answers *answers, const char *code, sl_error *error);
/* *absent (may be NULL): there is no such file. */
bool sl_learner_answers_load(sl_learner_answers *answers, const char *path, bool *absent, sl_error *error);
/* False: the stream failed. */
bool sl_learner_answers_write(FILE *out, const sl_learner_answers *answers);
/* The record of a lesson, made when there is none. NULL: of another edition, or no room. */
sl_record *sl_learner_answers_record(sl_learner_answers *answers, const sl_lesson *lesson, sl_error *error);
int sl_record_choice(const sl_record *record, const char *key); /* or SL_NO_ANSWER */

/* ---- a session ------------------------------------------------------------------------------- */

typedef struct sl_session {
    const sl_lesson *lesson; /* borrowed */
    sl_record *record;       /* borrowed; every answer goes straight in */
    bool educator;           /* may open the run without a prediction */
    int page;
} sl_session;

/* Goes on at the record's page. */
sl_session sl_session_start(const sl_lesson *lesson, sl_record *record, bool educator);
const sl_page *sl_session_page(const sl_session *session);
/* NULL on a page without one. */
const sl_question *sl_session_question(const sl_session *session);
/* The given answer to this page's question, or SL_NO_ANSWER. */
int sl_session_answered(const sl_session *session);
/* The first answer counts: false when there is one, or no question, or no such choice. */
bool sl_session_answer(sl_session *session, int choice);
/* False: the run is locked (no prediction or no reason yet), a question is not answered, or
 * this is the end. *why (may be NULL) is what to say then, in the lesson's language. */
bool sl_session_next(sl_session *session, const char **why);
bool sl_session_back(sl_session *session);
/* Leave the page whatever is missing; only for the educator. */
bool sl_session_skip(sl_session *session);
/* Feedback to the answer given here; NULL: none given, or it would tell the run's result. */
const char *sl_session_feedback(const sl_session *session);
/* The prediction, once the run has been reached; NULL: none. */
const sl_choice *sl_session_predicted(const sl_session *session);
/* The number that the run gave, and the one that the prediction says (NULL: it says none); false: there is
 * no prediction, or the right one is no number. */
bool sl_session_compared(const sl_session *session, const sl_number **predicted, const sl_number **result);

/* ---- a class --------------------------------------------------------------------------------- */

typedef struct sl_class_question {
    int answered;
    int chose[SL_MOST_CHOICES];
} sl_class_question;

typedef struct sl_class {
    int n;                                         /* records of this lesson */
    sl_class_question question[SL_MOST_QUESTIONS]; /* as in lesson->question */
    int change[SL_MOST_CHOICES][SL_MOST_CHOICES];  /* [prediction][what they saw] */
    int right_before, right_after, both;           /* of those with prediction and `saw` */
} sl_class;

void sl_class_start(sl_class *class_);
/* Records of another edition are not counted: false. */
bool sl_class_add(sl_class *class_, const sl_lesson *lesson, const sl_record *record);

/* Items right in both tiers; -1: not taken to its end, or another edition's. */
int sl_quiz_score(const sl_quiz *quiz, const sl_quiz_record *record);
/* (post - pre) / (100 - pre), class means in per cent: Hake, R. R. 1998, Am. J. Phys. 66:64-74.
 * False: nothing could be gained (pre = 100). */
bool sl_normalised_gain(double pre_pct, double post_pct, double *gain);

typedef struct sl_quiz_class {
    int n_before, n_after, n_both; /* taken; means below are of those who took both */
    double pre_pct, post_pct;      /* 0..100 */
    int item_before[SL_QUIZ_ITEMS], item_after[SL_QUIZ_ITEMS]; /* right, of those who took both */
} sl_quiz_class;
void sl_quiz_class_add(sl_quiz_class *class_, const sl_quiz *quiz, const sl_learner_answers *answers);

#pragma GCC visibility pop

#endif

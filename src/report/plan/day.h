/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The day of the test in words. Minutes and seconds here are the bench's own clock, read off and
 * counted down; none is a prediction, and none is about a person.
 */
#ifndef SLOWLIFT_REPORT_DAY_H
#define SLOWLIFT_REPORT_DAY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "document/document.h"
#include "slowlift/clock.h"
#include "slowlift/model.h"

enum {
    SL_DAY_WORDS = 400,  /* bytes that hold any line of this part */
    SL_DAY_ON_TIME_S = 5 /* less than this early or late is called on time */
};

/* Opens every line of a day whose clock runs fast; "" where it does not. */
const char *sl_day_mark(bool rehearsed);

/* "4:05", "1:04:05"; without a sign. */
void sl_day_span(double seconds, char *text, size_t size);
/* "in 4:05", "now", "0:12 late". */
void sl_day_when(double in_s, char *text, size_t size);
/* What was done against what was planned: "on time", "0:12 late", "0:12 early". */
void sl_day_off(double late_s, char *text, size_t size);
/* "put the mix on"; "cut off, rinse 10 min piece" on a time ladder. brief: where room is short. */
void sl_day_verb(const sl_bench *bench, const sl_due *due, bool brief, char *text, size_t size);
/* "EK9: put the mix on, in 0:30". */
void sl_day_due(const sl_bench *bench, const sl_due *due, char *text, size_t size);
/* "EK9: on the hair 12:04", "EK9: waiting", "EK9: rinsed after 30:10, 0:10 late". */
void sl_day_state(const sl_bench *bench, int swatch, const sl_instant *now, char *text, size_t size);
/* "on hair 12:04", "waiting, mixed", "rinsed at 30:10, on time". */
void sl_day_state_brief(const sl_bench *bench, int swatch, const sl_instant *now, char *text, size_t size);
/* "label: at most 30 min from mixing, 17:56 left". */
void sl_day_label(const sl_bench *bench, int swatch, const sl_instant *now, char *text, size_t size);
/* Why the longer time was taken; "" where clocks agree. */
const char *sl_day_clocks(sl_clocks clocks);
const char *sl_day_stop_signs(void);      /* in full */
const char *sl_day_stop_signs_line(void); /* for one line of a screen */
const char *sl_day_done(sl_event_kind kind);
/* The same of a swatch before the event is folded: on a time ladder which piece was cut off. swatch: -1
 * for none. */
void sl_day_deed(const sl_bench *bench, int swatch, sl_event_kind kind, char *text, size_t size);

/* Reasons of a stop, notes that need no typing, and who was told of a stop, as keys 1, 2 ... */
enum { SL_DAY_REASONS = 9, SL_DAY_NOTES = 8, SL_DAY_TOLD = 5 };
sl_stop_reason sl_day_reason(int place, const char **words);
const char *sl_day_reason_words(sl_stop_reason reason);
sl_remark sl_day_note(int place);
sl_remark sl_day_told(int place);
const char *sl_day_remark(sl_remark remark); /* "" for none */

/* "K12, K13 and 2 more": of n codes; only the first SL_DAY_CODES need to be there. */
enum { SL_DAY_CODES = 8, SL_DAY_CODES_TEXT = 128 };
void sl_day_codes(const char *const *code, int n, char *text, size_t size);

/* ---- after a stop (day_stop.c) ---------------------------------------------------------------------- */

/* "Also on hair: K12. Rinse that too, somebody else." False: on nobody's. */
bool sl_day_also(const sl_bench *bench, char *text, size_t size);

/* What a bowl was filled out of. */
typedef enum sl_tub_kind { SL_TUB_POWDER, SL_TUB_DEVELOPER, SL_TUB_KINDS } sl_tub_kind;
typedef struct sl_tub {
    char lot[SL_CODE]; /* "": not known */
    int opened;        /* days since 1970-01-01; 0: not known */
} sl_tub;
typedef struct sl_tubs {
    sl_tub of[SL_TUB_KINDS];
    bool check; /* the swatch is a check swatch: one that is done alike time after time, to see the tub age */
} sl_tubs;
/* "Powder: lot P7, opened 2026-11-01." False: nothing is known of it. */
bool sl_day_tub_words(const sl_tubs *tubs, sl_tub_kind kind, char *text, size_t size);
/* All that is known of a day; borrowed. */
typedef struct sl_day_record {
    const sl_bench_swatch *swatch; /* [n] */
    const char *const *arm;        /* [n] names */
    int n;
    const sl_event *event; /* [n_events] */
    int n_events;
    const sl_scene *scene; /* NULL: it could not be read */
    const sl_tubs *tubs;   /* [n] */
} sl_day_record;

typedef void sl_day_tell(void *self, const char *sentence);
/* Whether any bowl of an arm has such a thing in it; scene NULL: it may. */
bool sl_day_bowl_holds(const sl_scene *scene, const char *arm, sl_tub_kind kind);
/* Of the swatches that `is` stands for (NULL: all) each tub and bottle that went into a bowl, once. */
void sl_day_each_tub(const sl_day_record *record, const bool *is, sl_day_tell *tell, void *self);

/* The application of an arm with this number, from 0; NULL: it has none, or the scene could not be read. */
const sl_step *sl_day_application(const sl_scene *scene, const char *arm, int round);
/* What is in a mix when it is fresh: "persulfates 22 %, hydrogen peroxide 2 %, pH about 10.1". */
void sl_day_mix_words(const sl_mix *mix, char *text, size_t size);
/* Whether a doctor will want to know what was in the bowl. */
bool sl_day_is_medical(sl_stop_reason reason);
/* The last stop; NULL: none. */
const sl_event *sl_day_last_stop(const sl_event *event, int n_events);
/* What a stop was about, a sentence a mix: of what it found on hair, else of all bowls in use (mixed, or on
 * other hair), else of all bowls of the day. `tell` is called for each. False: out of memory. */
bool sl_day_bowls(const sl_day_record *record, const sl_event *stop, sl_day_tell *tell, void *self);
/* ---- the summary (day_summary.c) ---------------------------------------------------------------------- */

enum { SL_DAY_DUE_SAID = 4 };
/* How the day went against its plan; borrowed. */
typedef struct sl_day_went {
    const char *title, *scene_name; /* of the test */
    const sl_bench *bench;
    sl_day_record record;
    const sl_instant *now;
    bool blind; /* codes alone, for a judge */
    bool rehearsed;
    int n_due; /* sentences: what is due after the day */
    char due[SL_DAY_DUE_SAID][SL_DAY_WORDS];
} sl_day_went;

/* Late and early, unequal time on the hair within an arm, age of the mix, what was weighed and how warm the
 * room was. of: sl_day_went. */
sl_document_sayer sl_day_say_went;
/* Every stop, for a doctor: when, why, what was in the bowl, how long the water ran, who was told
 * (day_stop.c). of: sl_day_went, whose bench is not asked. */
sl_document_sayer sl_day_say_stops;
/* What is ticked of the end of the day, and what is not. */
void sl_day_say_ticks(sl_document *document, const sl_bench *bench);
/* Begins a document about the day: its title, and that it was a rehearsal. */
void sl_day_begin_document(sl_document *document, const sl_day_went *went, sl_error *error);
/* Of the bowl of this application, from 0, with what the plan adds for what stays in it; 0: not known, or
 * plain water. */
double sl_day_planned_g(const sl_day_record *record, int swatch, int round);
/* What was weighed for a swatch, in the order in which it was. */
typedef void sl_day_weighed(void *self, int swatch, int round, double grams);
void sl_day_each_weighed(const sl_day_record *record, int swatch, sl_day_weighed *tell, void *self);

#endif

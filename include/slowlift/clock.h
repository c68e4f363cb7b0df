/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The clock of the day. Time is never kept running anywhere: every swatch's time is the
 * difference of two instants that were written down, so sleep, a changed clock, a crash and a
 * reboot cannot lose it. What the bench looks like follows from the list of events alone.
 *
 * Invariant: contact is never understated: where two clocks disagree the longer time counts, and
 * it is said that they did.
 */
#ifndef SLOWLIFT_CLOCK_H
#define SLOWLIFT_CLOCK_H

#include <stdbool.h>
#include <stdint.h>

#include "slowlift/error.h"

#pragma GCC visibility push(default)

/* ---- instants (instant.c) ----------------------------------------------------------------------- */

enum { SL_UUID = 37 }; /* bytes of a UUID as text (RFC 9562), its end included */

typedef struct sl_instant {
    int64_t boot_ns;       /* CLOCK_BOOTTIME: since this machine started, sleep included */
    int64_t wall_ns;       /* CLOCK_REALTIME: UTC since 1970; people and networks may change it */
    char boot_id[SL_UUID]; /* of this start of the machine; "" = not known */
} sl_instant;

/* The one function that asks the machine. Fails: SL_ERR_MISSING_PART when it has no such clock. */
bool sl_instant_now(sl_instant *now, sl_error *error);

/* The day of an instant where this machine stands, days since 1970-01-01. */
int sl_day_of_instant(const sl_instant *at);
/* Today there, the same number. SLOWLIFT_TODAY=2026-11-25 stands in for it, so
 * that tests do not age; what goes by it says which day it went by. Fails: SL_ERR_USAGE when that is no
 * day. */
bool sl_today(int *day, sl_error *error);

typedef enum sl_clocks {
    SL_CLOCKS_AGREE,    /* within SL_CLOCKS_APART_S */
    SL_CLOCKS_DISAGREE, /* someone set the wall clock; the longer time was taken */
    SL_CLOCKS_RESTARTED /* the machine was started in between: wall time, at least the time since */
} sl_clocks;
static const double SL_CLOCKS_APART_S = 2.0;

typedef struct sl_elapsed {
    double seconds; /* >= 0 */
    sl_clocks clocks;
} sl_elapsed;
sl_elapsed sl_elapsed_between(const sl_instant *from, const sl_instant *to);

/* ---- the bench (bench.c) ------------------------------------------------------------------------- */

#define SL_EVENT_LIST(ROW)                                                                                   \
    ROW(STARTED, "started")                                                                                  \
    ROW(MIXED, "mixed")                                                                                      \
    ROW(APPLIED, "applied")                                                                                  \
    ROW(LOOKED, "wiped and looked")                                                                          \
    ROW(FELT, "looked at skin, heat and stretch")                                                            \
    ROW(RINSED, "rinsed") /* first water */                                                                  \
    ROW(NOTED, "note")                                                                                       \
    ROW(STOPPED, "stop and rinse")                                                                           \
    ROW(WASHED_OUT, "washed out") /* after a stop: the water may be turned off */                            \
    ROW(UNDONE, "undone")                                                                                    \
    ROW(SOUND_HEARD, "sound heard")                                                                          \
    ROW(SOUND_NOT_HEARD, "sound not heard")
#define SL_EVENT_AS_ENUM(name, word) SL_EVENT_##name,
typedef enum sl_event_kind { SL_EVENT_LIST(SL_EVENT_AS_ENUM) SL_EVENT_KINDS } sl_event_kind;
#undef SL_EVENT_AS_ENUM
const char *sl_event_word(sl_event_kind kind);

#define SL_REASON_LIST(ROW)                                                                                  \
    ROW(GOAL, "goal")                                                                                        \
    ROW(LABEL, "label")                                                                                      \
    ROW(DAMAGE, "damage")                                                                                    \
    ROW(SKIN, "skin")                                                                                        \
    ROW(EYES, "eyes")                                                                                        \
    ROW(HEAT, "heat")                                                                                        \
    ROW(DRIED, "dried")                                                                                      \
    ROW(PLAN, "plan")                                                                                        \
    ROW(MISTAKE, "mistake")                                                                                  \
    ROW(UNSAID, "not said yet")
#define SL_REASON_AS_ENUM(name, word) SL_REASON_##name,
typedef enum sl_stop_reason { SL_REASON_LIST(SL_REASON_AS_ENUM) SL_STOP_REASONS } sl_stop_reason;
#undef SL_REASON_AS_ENUM
const char *sl_stop_reason_word(sl_stop_reason reason);

/* A note that needs no typing: kept by its word, told in the reader's language (report/plan/day.h). */
#define SL_REMARK_LIST(ROW)                                                                                  \
    ROW(NONE, "")                                                                                            \
    ROW(RAN, "mix ran or dripped")                                                                           \
    ROW(DRIED, "an edge dried")                                                                              \
    ROW(WARM, "it feels warm")                                                                               \
    ROW(FOAM, "foam or bubbles")                                                                             \
    ROW(ODD, "odd smell or colour")                                                                          \
    ROW(UNCOVERED, "the cover came off")                                                                     \
    ROW(MORE, "more mix was put on")                                                                         \
    ROW(PAPER, "see the paper")                                                                              \
    ROW(NO_SOUND, "no sound device")                                                                         \
    ROW(OPENED, "contents told") /* after a stop, to somebody who judged blind */                            \
    ROW(TOLD_EMERGENCY, "the emergency number was called")                                                   \
    ROW(TOLD_DOCTOR, "a doctor was told")                                                                    \
    ROW(TOLD_POISON, "poison information was told")                                                          \
    ROW(TOLD_IN_CHARGE, "who is in charge was told")                                                         \
    ROW(TOLD_NOBODY, "nobody was told yet")                                                                  \
    ROW(UNCLEAN, "not said to be clean") /* of an undone contact: its clock runs on */                       \
    ROW(CLEAN, "hair clean")             /* about the contact that was undone */                             \
    ROW(LEFT_OPEN, "leftover left open")                                                                     \
    ROW(EMPTIED, "leftover emptied")                                                                         \
    ROW(GRAMS, "grams weighed")                     /* value: of the bowl */                                 \
    ROW(ROOM, "room measured")                      /* value: C */                                           \
    ROW(SHOWN, "model shown")                       /* what it says of the swatch; never undone */           \
    ROW(END_LEFTOVERS, "leftovers open or emptied") /* from here on ticks at the end of the day */           \
    ROW(END_BENCH, "bench wiped")                                                                            \
    ROW(END_POWDER, "powder closed")                                                                         \
    ROW(END_WASTE, "waste out")                                                                              \
    ROW(END_HANDS, "hands washed")
#define SL_REMARK_AS_ENUM(name, word) SL_REMARK_##name,
typedef enum sl_remark { SL_REMARK_LIST(SL_REMARK_AS_ENUM) SL_REMARKS } sl_remark;
#undef SL_REMARK_AS_ENUM
const char *sl_remark_word(sl_remark remark);
enum { SL_DAY_TICKS = SL_REMARKS - SL_REMARK_END_LEFTOVERS };
sl_remark sl_remark_of_word(const char *word); /* SL_REMARK_NONE: no such word */

typedef struct sl_event {
    char id[SL_UUID];
    sl_event_kind kind;
    int swatch; /* -1: all that a stop finds on hair; else none */
    sl_instant at;
    sl_stop_reason reason; /* SL_EVENT_STOPPED */
    char about[SL_UUID];   /* SL_EVENT_UNDONE: the event that did not happen; SL_EVENT_STOPPED with a
                              reason: the stop whose reason this tells; SL_EVENT_NOTED: the stop after
                              which this was told; else "" */
    sl_remark remark;
    double value;     /* what was measured (SL_REMARK_GRAMS, SL_REMARK_ROOM); else 0 */
    double speed;     /* of a rehearsal's clock; 0: the real clock */
    bool was_due;     /* something of this kind was planned: */
    int late_s;       /* so much after the plan; before it: negative */
    sl_clocks clocks; /* of the time on the hair when it was kept */
    bool elsewhere;   /* by no key of this program: another one kept it while this one ran */
} sl_event;

enum { SL_BENCH_LOOKS = 12 }; /* that a swatch is planned to have */
enum { SL_BENCH_ROUNDS = 8 }; /* applications of a swatch, each with a mix of its own */

/* One application. */
typedef struct sl_bench_round {
    int after_s;      /* planned, from the first water of the one before to this contact */
    int dwell_s;      /* planned, from contact to first water */
    int label_s;      /* the label's longest time; 0: not entered */
    int mix_age_s;    /* planned age at contact */
    bool from_mixing; /* the label's time counts from mixing */
} sl_bench_round;

/* What is known of a swatch before the day. */
typedef struct sl_bench_swatch {
    char code[8];
    int contact_s;    /* planned, from the start of the day; -1: nothing is put on */
    int dwell_s;      /* planned, from contact to first water */
    int label_s;      /* the label's longest time; 0: not entered */
    bool from_mixing; /* that time counts from mixing */
    int mix_age_s;    /* planned age at contact: stands for a mixing that nobody wrote down */
    int n_looks, look_s[SL_BENCH_LOOKS]; /* wipe and look, from contact, rising */
    bool ladder;                         /* at look_s a piece is cut off and rinsed instead: no second kind of
                                            event, since one swatch has looks or pieces, never both */
    bool leaves_mix;                     /* what is left in its bowl goes on working: no plain water */
    bool on_person;                      /* hair of a person, or nobody can tell: the scene was not read */
    int n_more;
    sl_bench_round more[SL_BENCH_ROUNDS - 1]; /* [n_more] applications after the first */
} sl_bench_swatch;

/* The application with this number, from 0; after_s of the first: from the start of the day. */
sl_bench_round sl_bench_round_of(const sl_bench_swatch *swatch, int round);
/* As planned: from first contact to the contact of this application; and to the last first water. */
int sl_bench_round_from_s(const sl_bench_swatch *swatch, int round);
int sl_bench_span_s(const sl_bench_swatch *swatch);
/* As planned, time under mixes alone. */
int sl_bench_lying_s(const sl_bench_swatch *swatch);

typedef enum sl_swatch_stage { SL_STAGE_WAITING, SL_STAGE_ON_HAIR, SL_STAGE_RINSED } sl_swatch_stage;

/* What has happened to it. Between two applications it waits again. */
typedef struct sl_bench_state {
    sl_swatch_stage stage;
    int round;                                               /* the application that all below is about */
    int n_lain;                                              /* applications that were rinsed */
    double lain_s[SL_BENCH_ROUNDS];                          /* [n_lain] from contact to first water */
    double age_s[SL_BENCH_ROUNDS], after_s[SL_BENCH_ROUNDS]; /* [round + 1] of its mix at contact, -1 where
                                                                nobody wrote the mixing down; from the water
                                                                before, 0 of the first */
    bool over_label; /* one of them lay longer than its label allows */
    bool mixed, stopped;
    bool doubted;            /* its contact was undone, and nobody has said yet that the hair is clean */
    bool left_open, emptied; /* what was left in its bowl */
    sl_instant mixed_at, contact, water;
    int n_looks, n_felt;          /* since contact */
    int looked_s[SL_BENCH_LOOKS]; /* [n_looks], from contact, the first of them */
    sl_instant felt_at;
} sl_bench_state;

enum { SL_BENCH_MOST = 768 };

typedef struct sl_bench {
    int n;
    const sl_bench_swatch *swatch;       /* [n], borrowed */
    sl_bench_state state[SL_BENCH_MOST]; /* [n] */
    bool started, sound_tried, sound_heard;
    bool ticked[SL_DAY_TICKS]; /* at the end of the day, in the order of the remarks */
    sl_instant start;
    bool stopping;      /* the last stop's water still runs */
    char eyes[SL_UUID]; /* the stop whose reason is an eye: until its water is off the reason stays that,
                           whatever else is stopped; "" */
    sl_instant eyes_at; /* when that was; of a stop that was named only after another one, that one's */
    sl_instant stop_at;
    sl_stop_reason stop_reason;
} sl_bench;

/* The bench after these events, in the order in which they were kept. Events that were undone
 * leave no trace, but for a contact: its clock runs on until somebody says that the hair is clean (logs of
 * before version 4 let it go at once). A stop cannot be undone. Large: keep it off small stacks. */
void sl_bench_fold(sl_bench *bench, const sl_bench_swatch *swatch, int n, const sl_event *event,
                   int n_events);

/* The last deed or note that this program can take back, the day's start too until a mix was put on: nothing
 * before a stop, nothing that was taken back, and nobody else's. NULL: none. */
const sl_event *sl_bench_to_undo(const sl_event *event, int n_events);

/* The contact of a swatch that was undone and not said to be clean. NULL: none. */
const sl_event *sl_bench_doubted(const sl_event *event, int n_events, int swatch);

/* False: the same key for the same swatch again within SL_KEY_GUARD_S, or something that cannot
 * follow (rinsed before applied). A stop is always taken. */
static const double SL_KEY_GUARD_S = 0.7;
bool sl_bench_takes(const sl_bench *bench, const sl_event *last /* NULL: none */, const sl_event *next);

/* ---- what is due ------------------------------------------------------------------------------------ */

/* Looking at skin, heat and stretch begins at minute 2 to 3 and comes at most 5 minutes apart,
 * whatever the colour does (common practice, no source). */
enum { SL_FIRST_FELT_S = 120, SL_FELT_EVERY_S = 300, SL_EYES_S = 900 };

typedef struct sl_due {
    sl_event_kind kind; /* what to do: MIXED (where the label counts from mixing), APPLIED, LOOKED, FELT,
                           RINSED, NOTED */
    int swatch;
    double in_s;      /* until then; negative: late */
    bool by_label;    /* RINSED: the label's time, which comes before the planned one */
    sl_remark remark; /* NOTED: LEFT_OPEN or EMPTIED, of a leftover, which is never late */
} sl_due;

/* What is to be done next with what is left in the swatch's bowl; SL_REMARK_NONE: nothing. */
sl_remark sl_bench_leftover(const sl_bench *bench, int swatch);

/* Whole minutes from contact of the piece that is to be cut off next; -1: none. */
int sl_bench_piece_min(const sl_bench *bench, int swatch);

/* Everything that is to be done next, one of each kind for a swatch at most, soonest first;
 * at most `most`. Returns how many. */
int sl_bench_due(const sl_bench *bench, const sl_instant *now, sl_due *due, int most);

typedef struct sl_on_the_hair {
    sl_elapsed since;    /* contact to now, or to first water once rinsed */
    double label_left_s; /* of the label's time; meaningless unless has_label */
    bool has_label;
    double late_s; /* against the planned dwell: over (positive) or under, once rinsed */
} sl_on_the_hair;
/* False: it waits for its next application. */
bool sl_bench_on_hair(const sl_bench *bench, int swatch, const sl_instant *now, sl_on_the_hair *on);

/* Seconds of the arm's own course, for the model: as planned up to the last contact, and from there as it
 * went; once rinsed its first water. -1: never on hair. */
double sl_bench_course_s(const sl_bench *bench, int swatch, const sl_instant *now);

/* Water runs on an eye: nothing else calls, but for the label's end of hair of a person. */
bool sl_bench_eye(const sl_bench *bench);
/* Whether what is due may call now, should it be late. */
bool sl_bench_calls(const sl_bench *bench, const sl_due *due, const sl_instant *now);
/* Hair of persons on which a mix lies: codes of up to `most` swatches in turn. Returns how many there are. */
int sl_bench_on_persons(const sl_bench *bench, const char **code, int most);

/* Whether a mix lies on any swatch. */
bool sl_bench_any_on_hair(const sl_bench *bench);
/* How many of the ticks at the end of the day are missing. */
int sl_bench_unticked(const sl_bench *bench);

/* Seconds that the water of the last stop, or of an eye since its own, has run, and has to run (SL_EYES_S for
 * eyes, else 0: until it runs clear). False: no stop is open. */
bool sl_bench_stop_water(const sl_bench *bench, const sl_instant *now, double *runs_s, double *least_s);

#pragma GCC visibility pop

#endif

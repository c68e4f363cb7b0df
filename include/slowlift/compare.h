/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen on a day of strand tests, compared: means over swatches as over all blocks alike (blocks.h),
 * what lies before what, places, what went otherwise than planned, and how far judges agree. Definitions and
 * sources: docs/science.md, "Comparing what was seen".
 *
 * Invariant: the unit is the swatch. Judges, looks and colours of one swatch are never repeats.
 */
#ifndef SLOWLIFT_COMPARE_H
#define SLOWLIFT_COMPARE_H

#include "slowlift/graded.h"
#include "slowlift/log.h"
#include "slowlift/surprise.h"
#include "slowlift/timeline.h"

#pragma GCC visibility push(default)

/* On what a share of colour left rests. */
typedef enum sl_basis {
    SL_BASIS_GRADE,  /* the wipe grade's share (observation.h) */
    SL_BASIS_COLOUR, /* dE*ab to the undyed zone of the same swatch, over the same before contact
                        (the reading of minute 0) */
    SL_BASES
} sl_basis;

/* A mean over swatches. */
typedef struct sl_seen_mean {
    int n;           /* swatches */
    double mean, sd; /* SL_NOT_READ for n = 0; sd between swatches: -1 for n < 2 */
    double half;     /* half width of the 95 % interval by Student's t; -1 where nothing was repeated */
} sl_seen_mean;
sl_seen_mean sl_seen_mean_of(const double *value, int n);

/* Looks of one judge that got one grade. */
typedef struct sl_seen_grade {
    int judge; /* -1: none of those that are told apart */
    sl_wipe wipe;
    int many;
} sl_seen_grade;

/* One zone of one swatch at one moment, all looks together. */
typedef struct sl_seen_group {
    int swatch, zone;
    int first, n_grades;         /* among grades */
    double minute, hours;        /* SL_NOT_READ: at the end; at once */
    int n[SL_BASES];             /* looks */
    double left[SL_BASES];       /* share of colour left, or SL_NOT_READ */
    double L, a, b;              /* mean, or SL_NOT_READ */
    double start;                /* dE*ab to undyed before contact, or SL_NOT_READ */
    double level, stretch, feel; /* mean, or SL_NOT_READ; of words by their place in the list */
} sl_seen_group;

/* What the clock kept of a swatch. */
typedef struct sl_seen_bench {
    int arm;         /* of the scene; -1: no arm of that name */
    bool on, rinsed; /* contact, first water are known */
    double dwell_s;  /* contact to first water; under all its mixes together */
    int n_lain;
    double lain_s[SL_BENCH_ROUNDS];   /* [n_lain] under each of them */
    double older_s[SL_BENCH_ROUNDS];  /* [n_lain] at contact than planned; 0 where nobody wrote it down */
    double longer_s[SL_BENCH_ROUNDS]; /* [n_lain] than planned between the water before and its contact */
    bool mixed;                       /* its mixing is known */
    double mix_age_s, planned_age_s;  /* of the last mix, at contact */
    bool over_label;                  /* lay longer than its label's time */
    int n_pieces;                     /* of a ladder that were cut off */
    int piece_s[SL_BENCH_LOOKS];      /* [n_pieces] when, from contact */
    bool clocks_differ;               /* two clocks disagreed; the longer time was taken */
    double to_planned[SL_MAX_ZONES];  /* model's share left as planned over that with the times that it
                                         lay, rested and its mixes had; 1 where the model says nothing */
    double piece_to_planned[SL_MAX_ZONES]; /* the same of the piece whose minute is ranked: the model's share
                                              left when it is rinsed at that minute over that at the one
                                              at which it was cut off */
} sl_seen_bench;

/* By the order of its grades (graded.h), beside the mean of them. */
typedef struct sl_by_order {
    double left;      /* share; SL_NOT_READ where nothing was graded */
    double low, high; /* 95 % interval; SL_NOT_READ where nothing was repeated */
    int place;        /* as by means; 0 */
} sl_by_order;

typedef struct sl_seen_arm {
    sl_by_order by_order;
    sl_seen_mean seen[SL_BASES], at_planned[SL_BASES]; /* at the end; as the planned dwell would
                                                           have left it, by the model */
    sl_seen_mean later;          /* share left when looked at again after hours, less that at once */
    int place, place_at_planned; /* by chains of "before" (sl_strip_places); 0: nothing seen */
    double predicted;            /* by the model, at the end or the minute that is ranked; SL_NOT_READ */
} sl_seen_arm;

/* What is compared of hair beside colour left: by which word as it is and since minute 0, and half a step,
 * below which no swatch counts as scattering: of the chart, of dE*ab 2, of the words. Of each, less is nearer
 * to hair with nothing on it. */
#define SL_HAIR_LIST(ROW)                                                                                    \
    ROW(SL_HAIR_LEVEL, "level", "levels_lifted", 0.5) /* by eye, on the user's chart */                      \
    ROW(SL_HAIR_BASE, "lightness", "moved", 1.0)      /* L*, dE*ab of an undyed zone to itself */            \
    ROW(SL_HAIR_OFF, "from_undyed", "", 1.0) /* dE*ab of a dyed zone to undyed, where grades are ranked */   \
    ROW(SL_HAIR_STRETCH, "stretch", "", 0.5) /* words count by their place in the list */                    \
    ROW(SL_HAIR_FEEL, "feel", "", 0.5)
#define SL_HAIR_AS_ENUM(name, word, since, least) name,
typedef enum sl_hair_measure { SL_HAIR_LIST(SL_HAIR_AS_ENUM) SL_HAIR_MEASURES } sl_hair_measure;
#undef SL_HAIR_AS_ENUM
bool sl_hair_in_words(sl_hair_measure measure);

/* One of them in one zone: of undyed zones every strip, of dyed ones those whose colour is ranked. */
enum { SL_HAIR_WORDS = 5 };
typedef struct sl_seen_hair {
    sl_hair_measure measure;
    int zone;
    bool since_start; /* level, base: since minute 0, where every swatch was read then */
    sl_blocks blocks;
    int swatches[SL_MAX_ARMS][SL_HAIR_WORDS]; /* by word; between two words by the worse */
} sl_seen_hair;
const char *sl_hair_word(const sl_seen_hair *hair); /* "level", "levels_lifted" ... */

/* The same at equal colour left, of an undyed zone beside a dyed one. What a swatch showed when so much was
 * left is read off a line of it on ln(colour left), between its nearest looks on both sides; or is that of a
 * look at so much, or less by no more than colour left scatters at least. Never beyond what was seen. */
typedef struct sl_seen_paid {
    int zone, hair; /* the dyed one; which of the compare's hair */
    double left; /* share of colour left, of the grades', the least at which half of the strips meet, else at
                      which most do; SL_NOT_READ: no two */
    sl_blocks blocks; /* of all strips then */
    double
        lean[SL_MAX_ARMS]; /* by how much the blocks' means may be off, because a grade is coarse: a quarter
                              of what colour left scatters at least, by the slope of the line there */
    int fast, slow;        /* strips that meet: with least left at last, and with most; -1 */
    double model[SL_MAX_ARMS]; /* then, in the measure's unit; of words the share of cystine lost; or
                                  SL_NOT_READ */
} sl_seen_paid;

typedef enum sl_deviation_kind {
    SL_DEVIATION_LATE,
    SL_DEVIATION_EARLY,
    SL_DEVIATION_MIX_AGE,
    SL_DEVIATION_REST, /* between two applications */
    SL_DEVIATION_LABEL,
    SL_DEVIATION_STOPPED,
    SL_DEVIATION_CLOCKS,
    SL_DEVIATION_UNEQUAL, /* dwell within one arm */
    SL_DEVIATION_PIECE,   /* of a ladder, cut off early or late */
    SL_DEVIATION_GUMMY,   /* felt gummy, or broke when stretched */
    SL_DEVIATION_LOTS,    /* bowls of one arm came out of several tubs or bottles */
    SL_DEVIATION_NOTE
} sl_deviation_kind;
typedef struct sl_deviation {
    sl_deviation_kind kind;
    int swatch;              /* -1: of the whole test */
    double seconds;          /* off the plan */
    int piece_min;           /* SL_DEVIATION_PIECE: which */
    int application;         /* from 0: SL_DEVIATION_MIX_AGE, SL_DEVIATION_REST: whose */
    int zone;                /* where that changed most, by the model; -1 */
    double factor;           /* share left there as planned over that with this one thing as it was */
    sl_stop_reason reason;   /* SL_DEVIATION_STOPPED */
    sl_remark remark;        /* SL_DEVIATION_NOTE without words of its own */
    char note[SL_LOG_TITLE]; /* SL_DEVIATION_NOTE; SL_DEVIATION_LOTS: which */
} sl_deviation;
/* Smaller ones are no deviations (assumed). */
static const double SL_DWELL_OFF_S = 30.0, SL_MIX_AGE_OFF_S = 120.0;

/* Two judges of the same zone at the same moment. */
typedef struct sl_agreement {
    long pairs, equal;
    double table[SL_WIPES]
                [SL_WIPES]; /* pairs by the grades of the judge whose code comes first, and of the other */
    bool known;             /* false: no pair, or all grades alike */
    double kappa;           /* weighted by steps apart, */
    double kappa_error;     /* its standard error */
} sl_agreement;

typedef struct sl_judge_pair {
    int one, other;
    sl_agreement of;
} sl_judge_pair;

/* Standard errors in an offset_half. */
static const double SL_OFFSET_HALF = 1.96;
typedef struct sl_seen_judge {
    char code[SL_LOG_CODE];
    int looks;           /* that got a grade */
    int again;           /* degrees of freedom of looks that were repeated */
    sl_judge_learned is; /* judge.offset: of the root of a share, against the mean of these judges */
    bool learned;        /* else spread and lapse are assumed */
    double offset_half;  /* of the 95 % interval of the offset; -1: nobody else looked at the same */
} sl_seen_judge;

/* Weighted kappa of Cohen (1968, Psychological Bulletin 70, 213-220): 1 - sum v p_observed /
 * sum v p_chance, and its standard error (Fleiss, Cohen & Everitt 1969, Psychological Bulletin 72, 323-327).
 * count, disagreement: [n][n] by rows, n at most SL_WIPES, disagreement 0 on the diagonal.
 * False: chance alone could not disagree. */
bool sl_kappa(const double *count, const double *disagreement, int n, double *kappa, double *error);

/* Of all pairs of strips that were seen in the other order than the model has them, the strangest. */
typedef struct sl_odd_order {
    int zone, arm[2]; /* of which the first left less; zone -1: none was */
    int pairs;        /* in all zones */
    double chance;    /* at most so many tests show any pair as much against the model, 0..1 */
} sl_odd_order;

typedef struct sl_compare {
    sl_log_test test;
    sl_scene *scene;
    sl_timeline *timeline; /* of the scene */
    int n_blocks, n_swatches, n_groups, n_deviations;
    sl_log_swatch *swatches;
    sl_seen_bench *bench;     /* [n_swatches] */
    sl_seen_group *groups;    /* [n_groups] by swatch, zone, moment */
    sl_deviation *deviations; /* [n_deviations] */
    sl_seen_arm *arms;        /* [arm][zone] */
    sl_basis basis[SL_MAX_ZONES];
    double repeat_sd;   /* of one judge's grades of the same at the same moment; -1: too few looked again */
    int repeats;        /* degrees of freedom of that */
    double pooled_sd;   /* of a swatch about its arm and block, over all zones; -1 */
    double comparisons; /* as many alike a pair of arms in a zone is compared among (sl_before_together) */
    double even_below;  /* a smaller difference is told of no two arms; -1: none is */
    bool *before; /* [zone][arm][arm], then of hair and of what was paid: that the one lies before the other
                     (sl_before_together) */
    int n_hair, n_paid;
    sl_seen_hair *hair; /* [n_hair] by zone, measure */
    sl_seen_paid *paid; /* [n_paid] by zone, measure */
    struct {
        bool blocked; /* blocks join the arms */
        int freedom;
        double sd; /* of one swatch about its arm and block; -1 */
    } scatter[SL_MAX_ZONES];
    bool judges_usual;   /* nothing is learned of who looked */
    sl_agreement judges; /* all pairs together */
    int n_grades, n_judges, n_pairs;
    sl_seen_grade *grades;       /* [n_grades] of the groups */
    sl_seen_judge *judge;        /* [n_judges] by their codes, at most SL_JUDGES_MOST */
    sl_judge_pair *pairs;        /* [n_pairs] of judges that looked at the same */
    bool *before_by_order;       /* as before */
    sl_graded_scatter *by_order; /* [zone] */
    sl_odd_order odd;            /* of the end */
    long n_graded, n_uncovered;  /* readings with a grade; given after the model's word on it was shown */
    double asked_floor;          /* share; -1: not asked */
    int at_min;                  /* the whole minute that is ranked; -1: the end */
} sl_compare;

/* Repeats below this many degrees of freedom do not make a noise floor (assumed). */
enum { SL_REPEATS_LEAST = 5 };

/* floor: a smaller difference of two means is none, a share; -1: as the grades have steps, or an instrument's
 * readings scatter by themselves. */
bool sl_compare_read(sl_compare **compare, sl_log *log, const sl_log_test *test, double noise_floor,
                     sl_error *error);
void sl_compare_free(sl_compare *compare); /* NULL is allowed */
const sl_seen_arm *sl_compare_arm(const sl_compare *compare, int arm, int zone);
bool sl_compare_before(const sl_compare *compare, int zone, int less, int other);
bool sl_hair_before(const sl_compare *compare, int hair, int less, int other);
/* Of fast and slow: below 0 when the fast strip is told to have paid less, above 0: more; 0: even. */
int sl_paid_told(const sl_compare *compare, int paid);
/* By how much the fast strip's hair paid more than that of another that meets it, and the half width of the
 * 95 % interval of that; -1: nothing was repeated. */
double sl_paid_apart(const sl_seen_paid *paid, int other, double *half);
bool sl_compare_before_by_order(const sl_compare *compare, int zone, int less, int other);
/* Pairs that the means tell and the order of grades do not, and the other way round; where means are of
 * grades.
 */
typedef struct sl_told_otherwise {
    int by_means, by_order;
} sl_told_otherwise;
sl_told_otherwise sl_compare_otherwise(const sl_compare *compare, int zone);
/* One swatch's scatter counts as no less where so much is left: half a step of the grades, or what the
 * judge's own repeats scatter by; half the noise of an instrument; 0 where a floor was asked for. */
double sl_compare_least_sd(const sl_compare *compare, int zone, double left);
/* Whole minutes from contact, rising from 1, near which an arm was looked at on the way, on its
 * zone's basis: the first `most` of them; returns how many. */
enum { SL_COMPARE_MINUTES = 96 };
int sl_compare_minutes(const sl_compare *compare, int arm, int zone, int *minutes, int most);
/* Mean of the looks near one such minute. */
sl_seen_mean sl_compare_at(const sl_compare *compare, int arm, int zone, int minute);
/* Share of colour left by the model this long after contact, under the mix; the arm is predicted
 * (sl_timeline_predicted). */
double sl_compare_model_at(const sl_compare *compare, int arm, int zone, double minute);
int sl_compare_dwell_min(const sl_compare *compare, int arm); /* planned; 0: no swatch of it */
/* Whether any arm was seen in this zone. */
bool sl_compare_shows(const sl_compare *compare, int zone);

/* Whether pieces of the arm's swatches were cut off and rinsed on the way. */
bool sl_compare_ladder(const sl_compare *compare, int arm);

/* Rank what was seen near a whole minute from contact (1..SL_COMPARE_LATEST) in place of the end: means,
 * places and the model's number, of a piece that was rinsed then where a ladder was planned, else under the
 * mix. Pieces alone are taken to their planned time, and looks hours later stay out. */
enum { SL_COMPARE_LATEST = 1440 };
/* Whether anything is taken to its planned time: the end, or a ladder's piece. */
bool sl_compare_has_planned(const sl_compare *compare);
bool sl_compare_rank_at(sl_compare *compare, int minute, sl_error *error);

/* ---- rates (ladder.c) -------------------------------------------------------------------------- */

/* Share left = start * exp(-k t): k of a swatch is the least-squares slope of -ln(share left) on minutes.
 * Under the mix the start is 1, known. Rinsing and washing take a part of every piece of a ladder alike,
 * so that its start is fitted. Only an approximation: dye near the surface leaves before that in the core,
 * and the mix weakens. */
typedef enum sl_line_start { SL_START_KNOWN, SL_START_FITTED } sl_line_start;
typedef struct sl_rate {
    sl_seen_mean per_min; /* k of swatches that were seen at SL_RATE_TIMES whole minutes or more */
    double model_per_min; /* mean over the same swatches of the same slope of the model at the same
                             minutes; SL_NOT_READ */
    int left_out;         /* moments "as undyed": nothing left has no logarithm */
} sl_rate;
enum { SL_RATE_TIMES = 3 };
/* False: fewer than two points, all at one minute, or one with nothing left. */
bool sl_rate_of(sl_line_start start, const double *minute, const double *left, int n, double *per_min);
/* Of every arm and zone, [arm][zone]; freed with sl_free() of base/memory.h. */
bool sl_compare_rates(sl_rate **rates, const sl_compare *compare, sl_error *error);

/* ---- scatter (scatter.c) ----------------------------------------------------------------------- */

/* How swatches of one strip scatter about strip and block: by an instrument where anything was read by one,
 * else by grades, of which the judge's own scatter is taken out, and which never show less than is assumed.
 */
typedef struct sl_scatter {
    int freedom; /* degrees of freedom of the repeats; 0: nothing was repeated */
    bool by_grade;
    double sd;      /* share of colour left */
    sl_judge judge; /* as was learned of those who looked, offset 0; else as is assumed */
    double likely[SL_SEEING_SCATTERS],
        chance[SL_SEEING_SCATTERS]; /* what it may be, for so many degrees of
                                       freedom (chi^2), and how likely; sum 1 */
} sl_scatter;
/* Of one test; false: nothing was repeated. */
bool sl_scatter_of(sl_scatter *scatter, const sl_compare *compare);
/* Of all tests of a log but rehearsals. Fails: nothing was repeated. */
bool sl_log_scatter(sl_scatter *scatter, sl_log *log, sl_error *error);
void sl_seeing_by(sl_seeing *seeing, const sl_scatter *scatter);

/* A made-up day of strand tests in a new log, the same every time but for its ids and date: our own
 * invention, for trying things out. path: of the log; scene: file of the shipped eight arms. */
bool sl_log_example(const char *path, const char *scene, const sl_resolver *resolver, sl_error *error);

#pragma GCC visibility pop

#endif

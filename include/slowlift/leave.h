/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * May a minute that the model found be told, for whom, and up to when? Asked in one place: every
 * command, page, file, lesson and screen that could tell one calls sl_leave_of() first.
 *
 * Invariant: hair on a head, or as warm as on one, and anybody who brings a form get no minute
 * unless the form is clear (intake.h), the label's time stands in it, the scene lies where that
 * hair lies, goal and limits were written by hand, and a strand of that person's own hair was
 * counted with this arm's mix; and none later than the label or than that strand was watched.
 */
#ifndef SLOWLIFT_LEAVE_H
#define SLOWLIFT_LEAVE_H

#include "slowlift/error.h"
#include "slowlift/intake.h"
#include "slowlift/model.h"

#pragma GCC visibility push(default)

/* ---- the label's time ----------------------------------------------------------------------- */

typedef enum sl_label_source {
    SL_LABEL_NOT_ENTERED,
    SL_LABEL_OF_FILE,   /* label_longest of the mix */
    SL_LABEL_OF_OPTION, /* what the user said for every mix of the scene */
    SL_LABEL_OF_FORM    /* of the person */
} sl_label_source;

/* The one label that ends an arm first. */
typedef struct sl_label {
    double end_min; /* minutes from the arm's contact, 0 and up; HUGE_VAL: none was entered */
    sl_label_source source;
    bool from_contact;  /* its clock: application, else mixing */
    double stated_min;  /* the time as it was entered, by that clock */
    double mix_age_min; /* of the mix when it was put on */
    int step;           /* the application it ends; -1: none */
} sl_label;

/* Minutes from contact for which file and user let this mix stay on, when it is put on at this age:
 * 0 and up, HUGE_VAL when none is entered. Counted from mixing unless the file says from application. */
double sl_label_allowed_min(const sl_mix *mix, double mix_age_min);
/* Over the arm's applications, of file, user and form (NULL: nobody's): whichever ends first,
 * whether or not the mix is to stay on so long. */
sl_label sl_label_of(const sl_scene *scene, int arm, const sl_intake *form);
/* The label's time of the arm's mixes, minutes from contact: the earliest that an application
 * reaches. False: none is entered, or every mix is off before. */
bool sl_label_stop(const sl_scene *scene, int arm, double *minute);
/* Whether an application is to stay on longer than a label allows; *label: the first that is. */
bool sl_label_overrun(const sl_scene *scene, int arm, sl_label *label);

/* ---- the person ------------------------------------------------------------------------------ */

/* Whether the strand tried with an arm's mix counts, else the first thing that keeps it from it;
 * each with its words. Nothing known is no strand. */
#define SL_STRAND_LIST(X)                                                                                    \
    X(SL_STRAND_NONE, "no strand of this person's hair was tried with this mix")                             \
    X(SL_STRAND_TYPED, "it was only typed into a form and counts for nothing; a strand is read from a log")  \
    X(SL_STRAND_HEATED, "a strand of this person grew warm, fizzed, smoked or smelt")                        \
    X(SL_STRAND_BAD, "a strand of this person stayed long, felt like gum or broke")                          \
    X(SL_STRAND_MADE_UP, "the strand was made up for practice, and this person was not")                     \
    X(SL_STRAND_REAL, "this person was made up for practice, and the log is a real one")                     \
    X(SL_STRAND_REHEARSED, "the log is a rehearsal")                                                         \
    X(SL_STRAND_OTHER_PERSON, "it is not kept under this person's code")                                     \
    X(SL_STRAND_OTHER_MIX, "it was tried with another mix, or with several")                                 \
    X(SL_STRAND_OLDER_PACKET,                                                                                \
      "its packet was not opened on the day of the packet in use or later: what is fresher works faster")    \
    X(SL_STRAND_OTHER_PART, "it is not said to be from that part of the hair")                               \
    X(SL_STRAND_ON_HEAD, "nobody wrote that it was cut off")                                                 \
    X(SL_STRAND_OLD, "it was tried more than 14 days ago, or nobody knows when")                             \
    X(SL_STRAND_LATER, "it was tried after today: one of the two days is wrong")                             \
    X(SL_STRAND_HAIR_CHANGED, "something was done to the hair since, or nobody asked")                       \
    X(SL_STRAND_UNTIMED, "contact and first water are not both in the log")                                  \
    X(SL_STRAND_FEW_LOOKS, "it was not graded at two minutes at least")                                      \
    X(SL_STRAND_UNWASHED, "nobody wrote that it was washed and dried")                                       \
    X(SL_STRAND_UNGRADED, "it was not graded at the end")                                                    \
    X(SL_STRAND_UNFELT, "stretch and feel were not both written down at the end")                            \
    X(SL_STRAND_COUNTED, "")

#define SL_STRAND_AS_ENUM(name, words) name,
typedef enum sl_strand_worth { SL_STRAND_LIST(SL_STRAND_AS_ENUM) SL_STRAND_WORTHS } sl_strand_worth;
#undef SL_STRAND_AS_ENUM
const char *sl_strand_words(sl_strand_worth worth);

enum { SL_STRAND_LEAST_LOOKS = 2 };

typedef struct sl_strand {
    sl_strand_worth worth;
    int looks;                    /* at which it was graded, at different minutes */
    double watched_min;           /* the last of them, minutes from its contact */
    bool lacks[SL_STRAND_WORTHS]; /* all that keeps it from counting, `worth` among them */
    char test[9], code[8];        /* where it stands in a log; "" = in none */
    int day, of_day;              /* when it was tried, and the day by which that was judged; 0: none */
} sl_strand;

/* Somebody whose hair is asked about. NULL instead: cut swatches, nobody's. */
typedef struct sl_person {
    const sl_intake *form; /* NULL: not filled in */
    sl_strand strand[SL_MAX_ARMS];
} sl_person; /* start with {0} */

/* ---- leave ------------------------------------------------------------------------------------ */

/* Why not enough is known; each with its sentence. Those up to SL_UNKNOWN_STRAND are about leave, and
 * the first that holds is told first. */
#define SL_UNKNOWN_LIST(X)                                                                                   \
    X(SL_UNKNOWN_NOTHING, "")                                                                                \
    X(SL_UNKNOWN_PERSON, "hair on a head: fill in the form about the person first")                          \
    X(SL_UNKNOWN_WARM,                                                                                       \
      "hair as warm as on a head, or somebody's: it counts as a head, so fill in the form about the "        \
      "person first")                                                                                        \
    X(SL_UNKNOWN_FORM, "the form about the person is not clear: see what stops and what is missing")         \
    X(SL_UNKNOWN_PRACTICE, "a person made up for a class: the form can be tried, and no minute is given")    \
    X(SL_UNKNOWN_SOMEBODY_ELSE, "this scene is somebody else's: its person's code is not the form's")        \
    X(SL_UNKNOWN_PLACE,                                                                                      \
      "this scene does not lie where this person's hair lies: write \"lies: head\" or \"lies: wrapped\", "   \
      "and no temperature below 30 °C")                                                                      \
    X(SL_UNKNOWN_HEAT,                                                                                       \
      "the form says that no heat is added, and this scene is warmer than a body: one of them is wrong")     \
    X(SL_UNKNOWN_AIMS,                                                                                       \
      "for a person there are no usual limits: write the colour left, base moved and hair stress that you "  \
      "allow into the scene's aims")                                                                         \
    X(SL_UNKNOWN_STRAND, "no strand of this person's hair was counted for this strip's mix")                 \
    X(SL_UNKNOWN_ARM, "nothing can be asked of this strip: no mix, outside the model, or no goal is set")    \
    X(SL_UNKNOWN_MEMBERS, "too few model runs were counted; run more")                                       \
    X(SL_UNKNOWN_SURPRISE, "the model did not expect this; trust the cotton, not the model")                 \
    X(SL_UNKNOWN_AT_ODDS, "the things seen do not agree with each other in this model; look again")          \
    X(SL_UNKNOWN_TOO_FEW_AGREE, "too few model runs agree with what was seen; run more")

#define SL_UNKNOWN_AS_ENUM(name, words) name,
typedef enum sl_unknown { SL_UNKNOWN_LIST(SL_UNKNOWN_AS_ENUM) SL_UNKNOWNS } sl_unknown;
#undef SL_UNKNOWN_AS_ENUM
const char *sl_unknown_words(sl_unknown unknown);

typedef struct sl_leave {
    bool minutes;
    sl_unknown why;          /* when not; else SL_UNKNOWN_NOTHING */
    bool lacks[SL_UNKNOWNS]; /* all that is in the way, `why` among them */
    sl_strand_worth strand;  /* of the person's strand with this arm's mix */
    sl_place at;             /* for which minutes are solved */
    sl_label label;          /* the earliest that counts, also when there is no leave */
    double watched_min;      /* no later minute: how long the strand was watched; HUGE_VAL: swatches */
} sl_leave;

/* person NULL: cut swatches. Index of person->strand and of scene->arms is the same. */
sl_leave sl_leave_of(const sl_scene *scene, int arm, const sl_person *person);
/* When to look at a strand of a person's own hair, cut off and on the bench: two minutes, then every
 * five, never past the label's time. It comes from no model. Returns how many: 0 unless the strand is
 * what is missing, the form's label is entered and nothing else on the form stops; and of hair that answered
 * a mix with heat, on which nothing that oxidises goes again (common practice, no source). */
enum { SL_STRAND_FIRST_MIN = 2, SL_STRAND_EVERY_MIN = 5, SL_MOST_STRAND_LOOKS = 48 };
int sl_strand_looks(const sl_leave *leave, const sl_person *person, int look[SL_MOST_STRAND_LOOKS]);
/* The last minute from contact that may be told: of label and strand the earlier; HUGE_VAL: no end. */
double sl_leave_last_min(const sl_leave *leave);

#pragma GCC visibility pop

#endif

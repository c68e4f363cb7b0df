/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A short form about a person, and what its answers stop. Every question that is not answered
 * is missing, never taken for a no. The rules are common practice, no source. Files, questions on a
 * terminal, the window, text, JSON and docs/file-format.md all go by the one table here.
 *
 * Invariant: minutes are allowed only when nothing stops and nothing is missing.
 */
#ifndef SLOWLIFT_INTAKE_H
#define SLOWLIFT_INTAKE_H

#include <stdbool.h>

#include "slowlift/observation.h"

#pragma GCC visibility push(default)

typedef enum sl_reply { SL_REPLY_NONE, SL_REPLY_NO, SL_REPLY_YES, SL_REPLY_UNSURE, SL_REPLIES } sl_reply;

/* ---- what is asked --------------------------------------------------------------------------- */

/* The one table of the form. Each row: its name, what lets it pass, the caution that belongs to it (the
 * identifier in slowlift/cautions.def), its words, what must be done first, its key in a file. */

/* Answered yes, no or unsure; the reply that lets it pass. */
#define SL_INTAKE_REPLY_LIST(X)                                                                              \
    X(REACTED, SL_REPLY_NO, "REACTED", "ever reacted to lightening powder",                                  \
      "ask a doctor; keep this person away from powder", "reacted")                                          \
    X(ASTHMA, SL_REPLY_NO, "REACTED", "asthma, now or ever",                                                 \
      "ask a doctor; keep this person away from powder", "asthma")                                           \
    X(SULFITE, SL_REPLY_NO, "SULFITE", "ever reacted to sulfite, in food, wine, medicine or hair products",  \
      "ask a doctor; keep this person away from mixes with sulfite", "sulfite")                              \
    X(DOCTOR, SL_REPLY_NO, "DOCTOR", "pregnant, ill or on medicine", "ask a doctor", "doctor")               \
    X(ALERT, SL_REPLY_YES, "TESTS", "allergy alert (patch) test done as the label says, and clear",          \
      "do it as the label says and wait as long as it says; on skin that answers nothing is put",            \
      "allergy_test")                                                                                        \
    X(SCALP, SL_REPLY_NO, "SCALP", "scalp sore, cut, scratched or burning today",                            \
      "wait until the skin has healed; ask a doctor if it does not", "scalp")                                \
    X(METALLIC, SL_REPLY_NO, "METALLIC", "colour with metal salts in this hair",                             \
      "try the mix on cut-off hair, and put no oxidiser on hair that answers", "metallic")                   \
    X(HENNA, SL_REPLY_NO, "METALLIC", "henna in this hair",                                                  \
      "try the mix on cut-off hair, and put no oxidiser on hair that answers", "henna")                      \
    X(UNKNOWN_PAST, SL_REPLY_NO, "METALLIC", "hair whose past nobody knows",                                 \
      "try the mix on cut-off hair, and put no oxidiser on hair that answers", "unknown_past")               \
    X(TREATED, SL_REPLY_NO, "STRETCH", "chemically straightened, waved or lightened in the last weeks",      \
      "wait as long as the labels of both say, then try a strand", "treated")                                \
    X(LIQUIDS, SL_REPLY_YES, "SWATCH_ONLY", "label allows this liquid and ratio",                            \
      "read the label; until it allows the mix, cut swatches only", "liquids")                               \
    X(HEAT, SL_REPLY_NO, "HEAT", "added heat that the label does not ask for",                               \
      "leave the heat away, or find it on the label", "heat")                                                \
    X(DOER, SL_REPLY_NO, "REACTED", "whoever does it has reacted to such products, or has asthma",           \
      "somebody else mixes it and puts it on; ask a doctor", "doer_reacted")                                 \
    X(STRAND, SL_REPLY_YES, "HEAD", "strand of this person's own hair tried with this mix",                  \
      "try a strand of this person's hair with this mix and keep it in a log", "strand")                     \
    X(SINCE, SL_REPLY_NO, "HEAD", "anything done to this hair since that strand was cut",                    \
      "cut a new strand and try that", "since_strand")

/* Answered otherwise; how. */
#define SL_INTAKE_MORE_LIST(X)                                                                               \
    X(AGE, SL_ASK_YEARS, "AGE", "age in years",                                                              \
      "go by the law and the label; under age this is not done here", "age")                                 \
    X(LABEL, SL_ASK_MINUTES, "LABEL", "the label's longest time", "read it off the label and enter it",      \
      "label")                                                                                               \
    X(LIGHTENED, SL_ASK_EITHER, "TESTS", "lightened before",                                                 \
      "find out whether this hair was lightened before; a strand of it shows more than the answer",          \
      "lightened")                                                                                           \
    X(PERSON, SL_ASK_CODE, "HEAD", "this person's code",                                                     \
      "give a code, never a name, and keep the strand under it", "person")                                   \
    X(QUALIFIED, SL_ASK_CODE, "LICENCE", "code of who is qualified for this and in the room",                \
      "wait until somebody qualified is in the room", "qualified")                                           \
    X(PART, SL_ASK_PART, "HEAD", "part of the hair that it is for",                                          \
      "write front, crown, sides, back or nape, and cut the strand there", "part")                           \
    X(PACKET, SL_ASK_DAY, "FRESHNESS", "day on which the packet in use was opened",                          \
      "write it on the packet when it is opened", "packet_opened")                                           \
    X(SHOWED, SL_ASK_SHOWED, "HEAD", "what the strand showed",                                               \
      "try the strand no longer than the label's time; enter the minute and the grade it showed", "showed")

#define SL_INTAKE_AS_ENUM(name, ...) SL_INTAKE_##name,
typedef enum sl_intake_question { /* replies first: an index of sl_intake.reply */
                                  SL_INTAKE_REPLY_LIST(SL_INTAKE_AS_ENUM) SL_INTAKE_REPLIES,
                                  SL_INTAKE_BEFORE_MORE = SL_INTAKE_REPLIES - 1,
                                  SL_INTAKE_MORE_LIST(SL_INTAKE_AS_ENUM) SL_INTAKE_ASKED
} sl_intake_question;
#undef SL_INTAKE_AS_ENUM

typedef enum sl_ask {
    SL_ASK_REPLY,   /* yes, no, unsure: one of them lets it pass */
    SL_ASK_EITHER,  /* yes or no lets it pass */
    SL_ASK_YEARS,   /* a whole number of years */
    SL_ASK_MINUTES, /* a whole number of minutes */
    SL_ASK_CODE,    /* a code, never a name */
    SL_ASK_PART,    /* one of SL_HAIR_PART_LIST */
    SL_ASK_DAY,     /* a day */
    SL_ASK_SHOWED   /* grades of a strand with their minutes; nothing is asked when none is typed */
} sl_ask;

/* Where on the head the hair grows; along it the scene has zones. */
#define SL_HAIR_PART_LIST(X)                                                                                 \
    X(FRONT, "front") X(CROWN, "crown") X(SIDES, "sides") X(BACK, "back") X(NAPE, "nape")
#define SL_HAIR_PART_AS_ENUM(name, word) SL_HAIR_AT_##name,
typedef enum sl_hair_part {
    SL_HAIR_NOWHERE,
    SL_HAIR_PART_LIST(SL_HAIR_PART_AS_ENUM) SL_HAIR_PARTS
} sl_hair_part;
#undef SL_HAIR_PART_AS_ENUM
const char *const *sl_hair_part_words(void);         /* all but SL_HAIR_NOWHERE, in their order */
const char *sl_hair_part_word(sl_hair_part part);    /* of files; NULL for SL_HAIR_NOWHERE */
sl_hair_part sl_hair_part_of_word(const char *word); /* SL_HAIR_NOWHERE: no such word */

static const int SL_INTAKE_LEAST_AGE = 18; /* years; law and label differ from place to place (assumed) */

typedef struct sl_intake {
    int age_years;      /* 0 = not answered */
    double label_min;   /* the label's longest time, minutes; 0 = not entered */
    sl_reply lightened; /* before; changes what a strand shows, stops nothing unless unsure */
    sl_reply reply[SL_INTAKE_REPLIES];
    char person[SL_CODE];    /* "" = not answered */
    char qualified[SL_CODE]; /* the same */
    sl_hair_part part;
    int packet_day; /* days since 1970-01-01; 0 = not answered */
    /* What a strand of this person's own hair showed, as typed: none after the label's time.
     * `strand` of each is taken to be true. It weighs members; it is not a strand of a log. */
    sl_observations showed;
    bool practice; /* a person made up for a class: said on all that is made of it */
} sl_intake;       /* start with {0} */

typedef struct sl_intake_result {
    bool stopped[SL_INTAKE_ASKED], missing[SL_INTAKE_ASKED];
    int n_stopped, n_missing;
    bool minutes; /* nothing stops, nothing is missing */
} sl_intake_result;

sl_intake_result sl_intake_judge(const sl_intake *intake);
/* asked: 0..SL_INTAKE_ASKED-1 */
sl_ask sl_intake_ask_of(int asked);
sl_reply sl_intake_pass(int asked);   /* of SL_ASK_REPLY; else SL_REPLY_NONE */
const char *sl_intake_key(int asked); /* of files */
const char *sl_intake_words(int asked);
const char *sl_intake_first(int asked);   /* what must be done first */
const char *sl_intake_caution(int asked); /* identifier in cautions.def */

/* Every page, table and screen that holds anything of a practice person says so in these words. */
const char *sl_practice_words(void);

#pragma GCC visibility pop

#endif

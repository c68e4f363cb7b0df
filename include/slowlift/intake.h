/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A short form about a person, and what its answers stop. Every question that is not answered
 * is missing, never taken for a no. The rules are common practice, no source.
 *
 * Invariant: minutes are allowed only when nothing stops and nothing is missing.
 */
#ifndef SLOWLIFT_INTAKE_H
#define SLOWLIFT_INTAKE_H

#include <stdbool.h>

#include "slowlift/saw.h"

#pragma GCC visibility push(default)

typedef enum sl_reply { SL_REPLY_NONE, SL_REPLY_NO, SL_REPLY_YES, SL_REPLY_UNSURE, SL_REPLIES } sl_reply;

/* A question, the reply that lets it pass (or LIGHTENED: any but none), the caution that belongs to
 * it (the identifier in report/cautions.def), its words, and what must be done first. */
#define SL_INTAKE_LIST(X)                                                                                    \
    X(REACTED, SL_REPLY_NO, "REACTED", "ever reacted to lightening powder, or has asthma",                   \
      "ask a doctor first; keep this person away from powder")                                               \
    X(SCALP, SL_REPLY_NO, "SCALP", "scalp sore, cut, scratched or burning today",                            \
      "wait until the skin has healed; ask a doctor if it does not")                                         \
    X(METALLIC, SL_REPLY_NO, "METALLIC", "colour with metal salts in this hair",                             \
      "try the mix on cut-off hair first, and put no oxidiser on hair that answers")                         \
    X(HENNA, SL_REPLY_NO, "METALLIC", "henna in this hair",                                                  \
      "try the mix on cut-off hair first, and put no oxidiser on hair that answers")                         \
    X(UNKNOWN_PAST, SL_REPLY_NO, "METALLIC", "hair whose past nobody knows",                                 \
      "try the mix on cut-off hair first, and put no oxidiser on hair that answers")                         \
    X(LIQUIDS, SL_REPLY_YES, "SWATCH_ONLY", "label allows this liquid and ratio",                            \
      "read the label; until it allows the mix, cut swatches only")                                          \
    X(HEAT, SL_REPLY_NO, "HEAT", "added heat that the label does not ask for",                               \
      "leave the heat away, or find it on the label first")                                                  \
    X(STRAND, SL_REPLY_YES, "HEAD", "strand of this person's own hair tried with this mix",                  \
      "try a strand of this person's hair with this mix and enter what it showed")

#define SL_INTAKE_AS_ENUM(name, pass, caution, words, first) SL_INTAKE_##name,
typedef enum sl_intake_question { SL_INTAKE_LIST(SL_INTAKE_AS_ENUM) SL_INTAKE_REPLIES } sl_intake_question;
#undef SL_INTAKE_AS_ENUM
/* Beside the replies: four more things are asked. */
enum {
    SL_INTAKE_AGE = SL_INTAKE_REPLIES,
    SL_INTAKE_LABEL,
    SL_INTAKE_LIGHTENED,
    SL_INTAKE_SHOWED, /* what the strand showed */
    SL_INTAKE_ASKED
};

static const int SL_INTAKE_LEAST_AGE = 18; /* years; law and label differ from place to place (assumed) */
static const double SL_INTAKE_MOST_LABEL_MIN = 240.0; /* a longer time is a slip of the pen (assumed) */

typedef struct sl_intake {
    int age_years;      /* 0 = not answered */
    double label_min;   /* the label's longest time, minutes; 0 = not entered */
    sl_reply lightened; /* before; changes what a strand shows, stops nothing unless unsure */
    sl_reply reply[SL_INTAKE_REPLIES];
    /* What a strand of this person's own hair showed on the bench: at least one grade with its
     * minute, none later than the label's time. `strand` of each is taken to be true. */
    sl_saws showed;
} sl_intake; /* start with {0} */

typedef struct sl_intake_result {
    bool stopped[SL_INTAKE_ASKED], missing[SL_INTAKE_ASKED];
    int n_stopped, n_missing;
    bool minutes; /* nothing stops, nothing is missing */
} sl_intake_result;

sl_intake_result sl_intake_judge(const sl_intake *intake);
const char *sl_intake_words(int asked);   /* 0..SL_INTAKE_ASKED-1 */
const char *sl_intake_first(int asked);   /* what must be done first */
const char *sl_intake_caution(int asked); /* identifier in cautions.def */

#pragma GCC visibility pop

#endif

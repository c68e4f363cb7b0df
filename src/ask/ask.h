/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A test of one's own out of sixteen questions. The questions are rows, asked in their order by a terminal, a
 * page or a file of answers; each row reads its answer into one record, and one function makes the files of
 * that record.
 *
 * Invariant: what a row calls usual can be typed as it stands. A number that nobody gave is written with
 * "# assumed" and counted. Nothing here touches a disk.
 */
#ifndef SLOWLIFT_ASK_ASK_H
#define SLOWLIFT_ASK_ASK_H

#include "base/memory.h"
#include "document/document.h"
#include "scene/yaml/node.h"
#include "slowlift/model.h"
#include "slowlift/optics.h"
#include "slowlift/plan.h"
#include "slowlift/scene.h"

/* ---- the rows -------------------------------------------------------------------------------- */

#define SL_TOPIC_LIST(ROW)                                                                                   \
    ROW(QUESTION, "question")                                                                                \
    ROW(WHOSE, "whose")                                                                                      \
    ROW(ROOM, "room")                                                                                        \
    ROW(HAIR, "hair")                                                                                        \
    ROW(ROOT, "root")                                                                                        \
    ROW(COLOURS, "colours")                                                                                  \
    ROW(STRENGTH, "strength")                                                                                \
    ROW(ORDER, "order")                                                                                      \
    ROW(MIXES, "mixes")                                                                                      \
    ROW(BOWLS, "bowls")                                                                                      \
    ROW(CONTROLS, "controls")                                                                                \
    ROW(TIME, "time")                                                                                        \
    ROW(LEFT, "left")                                                                                        \
    ROW(LIMITS, "limits")                                                                                    \
    ROW(CLASS, "class")                                                                                      \
    ROW(FILE, "file")
#define SL_TOPIC_AS_ENUM(name, id) SL_TOPIC_##name,
typedef enum sl_topic { SL_TOPIC_LIST(SL_TOPIC_AS_ENUM) SL_TOPICS } sl_topic;
#undef SL_TOPIC_AS_ENUM

/* How strong a colour looks: the share of the way, in CIEDE2000, to the deepest colour that the dye gives
 * this hair (docs/science.md, "How strong a colour looks"; assumed). */
#define SL_STRENGTH_LIST(ROW)                                                                                \
    ROW(PASTEL, N_("pastel"), 0.25)                                                                          \
    ROW(MEDIUM, N_("medium"), 0.45)                                                                          \
    ROW(VIVID, N_("vivid"), 0.70)                                                                            \
    ROW(DEEP, N_("deep"), 0.85)
#define SL_STRENGTH_AS_ENUM(name, word, share) SL_STRENGTH_##name,
typedef enum sl_strength { SL_STRENGTH_LIST(SL_STRENGTH_AS_ENUM) SL_STRENGTHS } sl_strength;
#undef SL_STRENGTH_AS_ENUM

enum {
    SL_ASK_COLOURS = 7,  /* that a dye can have here */
    SL_ASK_MIXES = 5,    /* kinds of mix */
    SL_ASK_CONTROLS = 3, /* untreated, washing only, undyed with the strongest mix */
    SL_ASK_WORDS = 8,    /* that an answer can be made of, at most */
    SL_ASK_TEXT = 400,   /* bytes of an answer */
    SL_ASK_PATH = 512,   /* of the scene's file */
    SL_ASK_NAME = 41     /* of its stem, which names the other files too */
};

/* Each is mixed so long before it goes on (assumed). */
static const double SL_ASK_MIXED_MIN = 1.0;

/* A kind of mix that can be asked for. */
typedef struct sl_ask_mix {
    const char *word;   /* as it is typed; one of sl_ask_mix_words */
    const char *file;   /* of models/mixes, which it is like */
    const char *arm;    /* name of its strip; msgid */
    const char *liquid; /* key of its liquid's parts */
    int works;          /* the strongest has most */
} sl_ask_mix;
extern const sl_ask_mix sl_ask_mixes[SL_ASK_MIXES];
extern const char
    *const sl_ask_colours[SL_ASK_COLOURS + 1]; /* name of its dye in the set; msgid. Last: not known */
extern const char *const sl_ask_controls[SL_ASK_CONTROLS + 1]; /* msgid. Last: none */
extern const char *const sl_strength_words[SL_STRENGTHS];      /* msgid */
extern const double sl_strength_shares[SL_STRENGTHS];

/* A mix on this test's bench. */
typedef struct sl_ask_bowl {
    int mix;                       /* of sl_ask_mixes */
    double powder, liquid;         /* parts */
    double label_min;              /* 0: its label was not read yet */
    bool ratio_said, allowed, old; /* old: the packet has been open for long */
    char code[SL_CODE];            /* her own; "": none */
} sl_ask_bowl;

/* What was answered. */
typedef struct sl_new_test {
    bool given[SL_TOPICS]; /* somebody answered it; else it is as usual */
    int question;          /* 1..5 */
    int whose;             /* 1 cut swatches, 2 a strand of one person, 3 a head */
    char person[SL_CODE];
    double room_c;
    double level, natural_level; /* the same of natural hair */
    int root_level;              /* of the hair below permanent colour; 0: no root */
    int n_colours, colour[SL_ASK_COLOURS];
    sl_strength strength[SL_ASK_COLOURS];
    int first, last; /* of sl_ask_colours: which left first, and last, in her hands; -1: not known */
    int n_bowls;
    sl_ask_bowl bowl[SL_ASK_MIXES];
    bool control[SL_ASK_CONTROLS];
    double time_min;
    double left[SL_ASK_COLOURS]; /* share of the colour that may stay; 1: not wanted */
    double base_levels, stress, longest_min;
    int swatches, hands;
    double hair_g, class_min; /* class_min 0: no end */
    char file[SL_ASK_PATH], name[SL_ASK_NAME];
} sl_new_test;

/* The words that an answer can be made of, to be tapped: those by which the row reads it. */
typedef struct sl_ask_words {
    const char *const *word;  /* [n] msgids */
    const char *const *means; /* [n] msgids: what each stands for; NULL: they say it themselves */
    int n;                    /* up to SL_ASK_WORDS */
    int most;                 /* so many may stand in an answer */
    bool alone;               /* the last word stands alone */
    bool pairs;               /* of two neighbours one takes the place of the other */
} sl_ask_words;

typedef struct sl_ask_row {
    const char *id;      /* its key in a file of answers */
    const char *ask;     /* msgid */
    const char *explain; /* msgid; two lines */
    const char *usual;   /* msgid, or "" where one must be typed */
    /* In place of `usual` where it depends on what was answered before. */
    const char *(*usual_of)(const sl_new_test *asked, char text[SL_ASK_TEXT]);
    bool (*read)(const sl_node *node, sl_new_test *asked, sl_error *error);
    sl_ask_words words; /* n 0: none */
} sl_ask_row;
extern const sl_ask_row sl_ask_rows[SL_TOPICS];

/* The usual answer to a row, in the reader's language: to be read back by that row. */
const char *sl_ask_usual(sl_topic row, const sl_new_test *asked, char text[SL_ASK_TEXT]);
/* One answer; rows before it were read. False with what is wrong and what would be right. */
bool sl_ask_read(sl_topic row, const sl_node *node, bool given, sl_new_test *asked, sl_error *error);
/* What somebody typed. */
bool sl_ask_typed(sl_topic row, const char *text, bool given, sl_new_test *asked, sl_error *error);
/* Whether a word of the row belongs to this test: of an order, a colour that lies on the hair. */
bool sl_ask_offers(sl_topic row, int word, const sl_new_test *asked);
/* Whether it stands in an answer, and the answer once it was tapped: put in, or taken away where another is
 * left. */
bool sl_ask_holds(sl_topic row, int word, const char *answer);
void sl_ask_tap(sl_topic row, int word, const char *answer, char text[SL_ASK_TEXT]);
/* All rows from a file of answers: `id: answer`, the usual ones for those that it leaves out. file: where to
 * save, whatever stands there; NULL: not said. */
bool sl_ask_file(const char *path, const char *file, sl_new_test *asked, sl_error *error);

/* ---- the files (files.c) ------------------------------------------------------------------------ */

enum { SL_MADE_FILES = SL_ASK_MIXES + 3, SL_MADE_BYTES = 16384, SL_MADE_NAME = 64 };
typedef struct sl_made_file {
    char name[SL_MADE_NAME]; /* "mixes/my-test-water.yaml", beside the scene; the scene's own is "" */
    char text[SL_MADE_BYTES];
} sl_made_file;
typedef struct sl_made {
    sl_new_test asked;
    int n;
    sl_made_file file[SL_MADE_FILES]; /* the scene is the last */
    int n_assumed;
    sl_scene *scene; /* as these files read */
    sl_plan_fit fit; /* of the class; swatches 0: no plan is made of a person's hair */
} sl_made;

/* The files of these answers, read back; models: where the shipped ones are. sl_made_free() in any case. */
bool sl_ask_make(sl_made *made, const sl_resolver *models, sl_error *error);
/* Whether it failed because of hair that cannot be: SL_TOPIC_HAIR is asked again. */
bool sl_ask_hair_cannot_be(const sl_error *error);
void sl_made_free(sl_made *made); /* what it holds, not itself */

/* What the test is about, in the language in use. */
const char *sl_asked_title(const sl_new_test *asked);

/* How much of its first dye makes a zone look so strong: solved from the optics on the zone's hair. */
double sl_strength_amount(const sl_scene *scene, const sl_optics *optics, int zone, double share);

/* ---- what is told (told.c) ---------------------------------------------------------------------- */

sl_document_sayer sl_made_say; /* of an sl_made */

#endif

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What may stand under a key: a word of a closed list, yes or no, a text to keep, a name,
 * a number of the model with its grade and source. Everything that is kept is kept in the
 * reading's arena; nothing points into the file's tree.
 */
#ifndef SLOWLIFT_SCENE_VALUE_H
#define SLOWLIFT_SCENE_VALUE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/memory.h"
#include "base/plain_text.h"
#include "scene/yaml/node.h"
#include "scene/yaml/quantity.h"
#include "slowlift/model.h"
#include "slowlift/scene.h"

/* What every reading function needs. */
typedef struct sl_reading {
    sl_arena *kept;               /* what outlives the file's tree */
    const sl_resolver *resolver;  /* borrowed */
    struct sl_library *library;   /* of the files that it found; NULL where none can be named */
    struct sl_scene_parts *parts; /* of the scene that is read; NULL elsewhere */
    sl_error *error;              /* never NULL */
    sl_faults *faults;            /* of a check, which goes on behind a fault; NULL: the first one ends it */
} sl_reading;

/* After a refusal: whether the reading goes on behind it. Then it is kept, and *error cleared, so that a
 * failure without a code is one that was kept. */
bool sl_pass_over(const sl_reading *reading);

enum { SL_MAX_NAME = 64 };

extern const sl_words sl_grade_words, sl_dye_class_words, sl_mix_class_words, sl_mechanism_words,
    sl_reductant_words, sl_place_words, sl_kind_words;

/* The word's index in *index. */
bool sl_word_read(const sl_node *node, const sl_words *words, int *index, sl_error *error);
/* yes or no. */
bool sl_yes_read(const sl_node *node, bool *yes, sl_error *error);
/* Whether a text may stand there (base/plain_text.h). */
bool sl_text_check(const sl_node *node, sl_text_kind kind, sl_error *error);
/* A text of 1 to `most` bytes. */
bool sl_text_read(const sl_reading *reading, const sl_node *node, sl_text_kind kind, size_t most,
                  const char **text);
/* What names tell apart must look different: `name`, which was just read, against one that stands
 * already. `twin` and `likeness` say what is wrong when they are the same, or look so. */
bool sl_name_is_new(const sl_node *name, const char *other, const char *twin, const char *likeness,
                    sl_error *error);
/* A whole number. */
bool sl_whole_read(const sl_node *node, int least, int most, int *number, sl_error *error);
/* A name: letters a-z, digits and hyphens, 1 to SL_MAX_NAME. */
bool sl_name_check(const sl_node *node, const char *name, sl_error *error);
bool sl_name_read(const sl_reading *reading, const sl_node *node, const char **name);
bool sl_name_is_good(const char *name);
extern const char sl_name_form[]; /* what a name is made of, for messages */

/* A number of the model: "VALUE", graded as assumed, or {value, grade, source}. */
bool sl_param_read(const sl_reading *reading, const sl_node *node, const sl_range *range, sl_param *param);
/* The same for a rate constant, which may carry its own "activation". */
bool sl_rate_read(const sl_reading *reading, const sl_node *node, int channel, sl_rates *rates);
/* The key of a channel's rate constant. */
const char *sl_channel_key(int channel);
/* Whether every target has to give it; else it is 0 where a file is silent. */
bool sl_channel_required(int channel);
/* grade and source as keys of `mapping`; a published or computed grade needs a source. */
bool sl_grade_read(const sl_reading *reading, const sl_node *mapping, const char *grade_key,
                   const char *source_key, sl_param *param);

#endif

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a record of the model holds, listed once: a row for each member, in the order of its file. Which keys
 * a file may have, what is read from them, what a copy owns, what the fingerprint adds up and which number is
 * the weakest all go by these rows. A member with a mind of its own has a row with a function; that is all
 * the language there is.
 *
 * Invariant: the kind of a row follows from its member's type, and every byte of a record that is no padding
 * belongs to a row (tests/unit/test_every_byte.c), so that no member can be forgotten.
 */
#ifndef SLOWLIFT_SCENE_FIELD_H
#define SLOWLIFT_SCENE_FIELD_H

#include <stdint.h>

#include "scene/yaml/value.h"
#include "scene/yaml/wording.h"

typedef enum sl_field_kind {
    SL_FIELD_PARAM,   /* sl_param */
    SL_FIELD_NUMBER,  /* double */
    SL_FIELD_NUMBERS, /* double in an array of any shape */
    SL_FIELD_WHOLE,   /* int */
    SL_FIELD_YES,     /* bool */
    SL_FIELD_WORD,    /* an enum */
    SL_FIELD_TEXT,    /* const char * */
    SL_FIELD_WORDING, /* sl_wording, plain or by language */
    SL_FIELD_RATES,   /* sl_rates, under the keys of the three channels */
    SL_FIELD_BOUND,   /* sl_bound */
    SL_FIELD_WITHIN,  /* a record within this one */
    SL_FIELD_LIST,    /* several records of one sort, in an array or behind a pointer */
    SL_FIELD_OWN      /* anything else: only its own functions know it */
} sl_field_kind;

/* What a row is for, beside being read and copied. */
enum {
    SL_DRAWN_FROM = 1,     /* an ensemble depends on it: part of the fingerprint */
    SL_GRADED = 2,         /* it can be the weakest number of a scene */
    SL_GRADED_FIRST = 4,   /* so, and of equals it is named before the others of its record */
    SL_OF_LABEL = 8,       /* says how long, and nothing of what lies on the hair */
    SL_REQUIRED = 16,      /* must stand in a file that is like no other */
    SL_OWED = 32,          /* must have been said at last, by a record or by what it takes after */
    SL_DRAWN_REDUCING = 64 /* as SL_DRAWN_FROM, in scenes with a reducing agent; behind all else */
};

/* Rows are told (fingerprint, weakest number, JSON) by turn, the first first, and within a turn as they
 * stand: a file has another order than a fingerprint, which people keep. */
enum { SL_FIRST_TURN = -2, SL_LAST_TURN = 2 };

typedef struct sl_field sl_field;

/* Reads what stands under the row's key into the record; also called, with node NULL, when nothing does.
 * mapping: where the key belongs. A row without a key has one to check its section once that is read. */
typedef bool sl_field_reader(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                             const sl_node *node, void *record);
/* Adds the row's member to a fingerprint. */
typedef void sl_field_drawer(uint64_t *hash, const void *record);

struct sl_field {
    const char *member;  /* as model.h calls it; NULL: a key that no member keeps, or a check */
    const char *section; /* key of the mapping it stands in; NULL: the record's own */
    const char *key;     /* in a file; NULL: nobody writes it */
    const char *told;    /* member of the record's object in JSON; NULL: not told there */
    const char *words;   /* what people call it */
    const char *of;      /* " of eumelanin in ", where the record's own words do not do */
    const char *wanted;  /* in place of what was left out; NULL: one of the list */
    const char *needs;   /* keys of its record that its own reader needs; NULL: all before it; "": none */
    sl_field_kind kind;
    int turn;
    unsigned use; /* SL_DRAWN_FROM and its kin */
    size_t offset, size;
    sl_range range;               /* PARAM, NUMBER, BOUND; WHOLE: without a unit */
    const sl_words *list;         /* WORD; YES: no, then yes; others: for their reader */
    sl_text_kind text;            /* TEXT, WORDING */
    size_t most;                  /* TEXT, WORDING: bytes, of each language */
    const struct sl_fields *rows; /* WITHIN, LIST: of what it holds */
    size_t element;               /* LIST: bytes of one */
    size_t count;                 /* LIST: offset of the int that counts them */
    /* Whether it enters what a scene, or (scene NULL) the record itself is worked out with; NULL: always. */
    bool (*enters)(const sl_scene *scene, const void *record);
    bool (*tells)(const void *record); /* NULL: always told */
    sl_field_reader *read;             /* NULL: as its kind says */
    sl_field_drawer *draw;             /* NULL: as its kind says */
};

typedef struct sl_fields {
    const char *name;  /* of its type */
    const char *of;    /* " of the mix ": before the name of one; NULL: none is named as the weakest */
    const char
        *lacks; /* in place of a section that is left out; NULL: each may be, as one whose first row may */
    const char *form;  /* in place of a section that is no mapping; NULL: as of any mapping */
    size_t size;
    const sl_field *field; /* [n] */
    int n;
} sl_fields;

enum { SL_MOST_FIELDS = 192 };

/* How a member is read, by its type. */
// clang-format off
#define SL_FIELD_KIND(member) \
    _Generic((member), sl_param: SL_FIELD_PARAM, double: SL_FIELD_NUMBER, double *: SL_FIELD_NUMBERS, \
             double(*)[SL_STAGES]: SL_FIELD_NUMBERS, int: SL_FIELD_WHOLE, bool: SL_FIELD_YES, \
             unsigned: SL_FIELD_WORD, const char *: SL_FIELD_TEXT, sl_wording: SL_FIELD_WORDING, \
             sl_rates: SL_FIELD_RATES, sl_bound: SL_FIELD_BOUND, default: SL_FIELD_OWN)
// clang-format on
#define SL_FIELD_PLACE(type, place)                                                                          \
    .member = #place, .offset = offsetof(type, place), .size = sizeof(((type *)0)->place)

/* A row for a member; then what else is to be said of it, by name. */
#define SL_FIELD(type, place, ...)                                                                           \
    {                                                                                                        \
        .kind = SL_FIELD_KIND(((type *)0)->place), SL_FIELD_PLACE(type, place), __VA_ARGS__                  \
    }
/* For a member that is a record with rows of its own. */
#define SL_FIELD_WITHIN(type, place, its_rows, ...)                                                          \
    {                                                                                                        \
        .kind = SL_FIELD_WITHIN, .rows = &(its_rows), SL_FIELD_PLACE(type, place), __VA_ARGS__               \
    }
/* For a member that holds as many of them as n_place says. */
#define SL_FIELD_LIST(type, place, n_place, its_rows, ...)                                                   \
    {                                                                                                        \
        .kind = SL_FIELD_LIST, .rows = &(its_rows), .element = sizeof(((type *)0)->place[0]),                \
        .count = offsetof(type, n_place), SL_FIELD_PLACE(type, place), __VA_ARGS__                           \
    }
/* A key that no member keeps, or (without a key) a check. */
#define SL_FIELD_KEY(...)                                                                                    \
    {                                                                                                        \
        .kind = SL_FIELD_OWN, __VA_ARGS__                                                                    \
    }
#define SL_FIELDS(type, fields, ...)                                                                         \
    {                                                                                                        \
        .name = #type, .size = sizeof(type), .field = (fields),                                              \
        .n = (int)(sizeof(fields) / sizeof(fields)[0]), __VA_ARGS__                                          \
    }

/* Where a row's member is. */
void *sl_field_at(const sl_field *field, void *record);
const void *sl_field_in(const sl_field *field, const void *record);
/* LIST: whether they are behind a pointer, how many there are, and the first of them. */
bool sl_field_is_pointer(const sl_field *field);
int sl_field_count(const sl_field *field, const void *record);
const void *sl_field_first(const sl_field *field, const void *record);

/* Reads a mapping by the rows of its record: no other keys than theirs and `head` (NULL: none more), which
 * are somebody else's to read. whole: nothing was there before, so that what is SL_REQUIRED must be present.
 */
bool sl_fields_read(const sl_reading *reading, const sl_node *mapping, const sl_fields *fields,
                    const sl_words *head, bool whole, void *record);
/* One value as the kind of its row says. */
bool sl_field_read(const sl_reading *reading, const sl_field *field, const sl_node *node, void *record);

/* ---- fingerprints (fingerprint.c) ------------------------------------------------------------ */

void sl_draw_number(uint64_t *hash, double value);
void sl_draw_whole(uint64_t *hash, int value);
/* Of a row that an earlier one draws with its own. */
sl_field_drawer sl_drawn_before;

#endif

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What may be typed behind a command, as rows: an option has its name, its help and the function that reads
 * it in one place, and the command line (options.c), --help and the manual page (help.c, manual.c) and the
 * shells' completions (command/completion.c) all go by the rows.
 *
 * Invariant: a row's reader sets what its `place` is the offset of, and nothing else but `given`.
 */
#ifndef SLOWLIFT_FRONT_OPTION_H
#define SLOWLIFT_FRONT_OPTION_H

#include <getopt.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "slowlift/error.h"

/* What a word of the command line names: shells complete it, and a file may be called anything. */
typedef enum sl_wants {
    SL_WANTS_TEXT,   /* of one line */
    SL_WANTS_LINES,  /* of several, as notes have */
    SL_WANTS_FILE,   /* one that is there */
    SL_WANTS_NEW,    /* one that will be written */
    SL_WANTS_FOLDER, /* likewise, of a folder */
    SL_WANTS_SCENE,  /* a file, or a bare name that the model folders hold */
    SL_WANTS_LESSON,
    SL_WANTS_PRICES,
    SL_WANTS_LOG
} sl_wants;

/* Of a window or a picture. */
typedef struct sl_extent {
    int width, height;
} sl_extent;

/* A word out of a list. */
typedef struct sl_word_list {
    const char *of; /* "the light": msgid, of which list an unknown word is none */
    const char *const *word;
    int n;
} sl_word_list;

typedef struct sl_option sl_option;
/* Reads `text` (NULL of a flag) into *place; false with SL_ERR_USAGE, which names the option. */
typedef bool sl_option_reader(const sl_option *option, const char *text, void *place, sl_error *error);

struct sl_option {
    const char *name;  /* without its hyphens */
    char letter;       /* 0: none */
    const char *value; /* what stands for it in help: "SHARE", "45s"; msgid; NULL: it takes none */
    const char *usual; /* the value where none is typed ("--name" for "--name=60"); NULL: one has to be */
    const char *help;  /* what it does; msgid; NULL: it is told nowhere */
    sl_option_reader *read;
    size_t place;               /* in the record that is filled */
    size_t given;               /* of a bool that is set besides; SL_NO_FLAG: none */
    double least, most;         /* of numbers */
    const sl_word_list *choice; /* of words */
    sl_wants wants;
};
#define SL_NO_FLAG ((size_t)-1)
#define SL_OPTION(record, member, reader, ...)                                                               \
    {                                                                                                        \
        .place = offsetof(record, member), .read = (reader), .given = SL_NO_FLAG, __VA_ARGS__                \
    }
/* Likewise; `said` is set where the option is there. */
#define SL_OPTION_SAID(record, member, said, reader, ...)                                                    \
    {                                                                                                        \
        .place = offsetof(record, member), .read = (reader), .given = offsetof(record, said), __VA_ARGS__    \
    }

/* A row of a set whose record is one value. */
#define SL_OPTION_ALONE(reader, ...)                                                                         \
    {                                                                                                        \
        .place = 0, .read = (reader), .given = SL_NO_FLAG, __VA_ARGS__                                       \
    }

/* Rows that fill one record, which lies `within` the command's own. */
typedef struct sl_option_set {
    const sl_option *row; /* [n] */
    int n;
    size_t within;
} sl_option_set;
/* type: what the rows fill, and what the member has to be. */
#define SL_OPTION_SET(rows, type, record, member)                                                            \
    {                                                                                                        \
        (rows), (int)(sizeof(rows) / sizeof(rows)[0]),                                                       \
            offsetof(record, member) + 0 * _Generic(((record *)0)->member, type                              \
                                                    : (size_t)0)                                             \
    }
/* The command's own record. */
#define SL_OPTION_SET_OWN(rows)                                                                              \
    {                                                                                                        \
        (rows), (int)(sizeof(rows) / sizeof(rows)[0]), 0                                                     \
    }

enum { SL_MOST_USAGES = 5, SL_MOST_SETS = 8, SL_MOST_EXAMPLES = 3, SL_MOST_TYPED = 3, SL_MOST_WANTS = 2 };

typedef struct sl_example {
    const char *words;                /* a question that it answers; msgid */
    const char *typed[SL_MOST_TYPED]; /* commands, one after the other */
} sl_example;

/* Words that are no options: `least` to `most` texts, into an array of so many; a word that is not there is
 * NULL. */
typedef struct sl_typed_words {
    size_t place;
    int least, most; /* most 0: the command reads its words itself, from optind on */
} sl_typed_words;
#define SL_TYPED_WORDS(record, member, least, most)                                                          \
    {                                                                                                        \
        offsetof(record, member), (least), (most)                                                            \
    }

/* A command as people type it. */
typedef struct sl_command_line {
    const char *name;                  /* "run", "log add" */
    const char *line;                  /* what it does, in a few words; msgid */
    const char *usage[SL_MOST_USAGES]; /* what stands behind the name, a form each; NULL ends them */
    const char *about;                 /* msgid: paragraphs, parted by empty lines */
    /* NULL: it has no keys. Its i-th, in the reader's language; false: there are no more. */
    bool (*key)(int i, const char **key, const char **does);
    sl_option_set set[SL_MOST_SETS]; /* n 0 ends them */
    sl_typed_words words;
    sl_example example[SL_MOST_EXAMPLES];
    sl_wants wants[SL_MOST_WANTS]; /* its words; SL_WANTS_TEXT: nothing to complete */
} sl_command_line;

/* Row i of all its sets, NULL behind the last; *within (NULL: not asked): where its record lies. */
const sl_option *sl_option_row(const sl_command_line *line, int i, size_t *within);

/* ---- readers ------------------------------------------------------------------------------------- */

sl_option_reader sl_option_flag;    /* bool */
sl_option_reader sl_option_text;    /* const char *: the words as typed */
sl_option_reader sl_option_output;  /* const char *: and names what will be written (base/inputs.h) */
sl_option_reader sl_option_choice;  /* int or an enum: the place in the list */
sl_option_reader sl_option_count;   /* int */
sl_option_reader sl_option_whole;   /* long */
sl_option_reader sl_option_seed;    /* uint64_t */
sl_option_reader sl_option_number;  /* double */
sl_option_reader sl_option_grams;   /* double: "16g" */
sl_option_reader sl_option_share;   /* double, above 0 and below 1: "50%", "0.5" */
sl_option_reader sl_option_seconds; /* int: "45s", "1min" */
sl_option_reader sl_option_times;   /* sl_times (times.h) */

/* ---- rows that many commands have ------------------------------------------------------------------ */

typedef struct sl_result_wish {
    const char *output, *picture, *models; /* picture: what is drawn, by --picture or by how -o ends */
    bool csv, json;                        /* never both; by how -o ends, too */
} sl_result_wish;
extern const sl_option sl_form_options[2];     /* sl_result_wish: --csv, --json */
extern const sl_option sl_output_options[1];   /* sl_result_wish: -o of a command that tells a document */
extern const sl_option sl_data_options[1];     /* sl_result_wish: -o of one that tells machines alone */
extern const sl_option sl_picture_options[1];  /* sl_result_wish: --picture */
extern const sl_option sl_models_options[1];   /* const char *: --models */
extern const sl_option sl_log_test_options[1]; /* const char *: --test */
#define SL_MODELS_SET(record, member) SL_OPTION_SET(sl_models_options, const char *, record, member)
/* All of them but --picture, in a member `result` of the record; and with it. */
#define SL_RESULT_SETS(record)                                                                               \
    SL_OPTION_SET(sl_form_options, sl_result_wish, record, result),                                          \
        SL_OPTION_SET(sl_output_options, sl_result_wish, record, result),                                    \
        SL_MODELS_SET(record, result.models)
#define SL_DRAWN_RESULT_SETS(record)                                                                         \
    SL_RESULT_SETS(record), SL_OPTION_SET(sl_picture_options, sl_result_wish, record, result)

/* ---- reading ------------------------------------------------------------------------------------- */

/* Fills *asked by the options and words that stand in argv. How -o FILE ends says what is written: .pdf, .png
 * and .svg a drawing, .html a page, .csv and .json what machines read, anything else text; SL_ERR_USAGE where
 * the command has none of that, or another form was asked for. */
bool sl_options_read(const sl_command_line *line, int argc, char **argv, void *asked, sl_error *error);

/* The set that holds where this line's output goes; NULL: none does. */
const sl_option_set *sl_output_set(const sl_command_line *line);
/* As sl_options_read() settles it. */
bool sl_output_settle(const sl_command_line *line, void *asked, sl_error *error);
/* Whether the name ends as a picture does: .png, .svg, .pdf. */
bool sl_names_picture(const char *path);
bool sl_names_page(const char *path); /* .html */
/* Whether -o or --picture names a drawing: nothing else is read, and the next reading starts anew. */
bool sl_options_draw(const sl_command_line *line, int argc, char **argv);

/* Words that are no options, after sl_options_read(). */
int sl_words_left(int argc);

/* The file of a command that takes exactly one, where it reads its words itself; false with SL_ERR_USAGE. */
bool sl_one_file(const sl_command_line *line, int argc, char **argv, const char **file, sl_error *error);

/* SL_ERR_USAGE for a word that is none of known[n]; names the nearest. what: of which it is none, in English
 * ("the strip"). Always false. */
bool sl_word_refused(const char *what, const char *word, const char *const *known, int n, sl_error *error);
/* For a value that a reader does not take; `wanted` in English or translated. Always false. */
bool sl_value_refused(const sl_option *option, const char *text, const char *wanted, sl_error *error);

#endif

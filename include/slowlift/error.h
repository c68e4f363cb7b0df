/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What can go wrong, as plain data. Invariant: an sl_error owns no memory and is
 * complete by itself; the sentence a person reads is made from it in report.h, so
 * that it can be translated and so that the core never prints.
 */
#ifndef SLOWLIFT_ERROR_H
#define SLOWLIFT_ERROR_H

#include <stdbool.h>

#pragma GCC visibility push(default)

/* Every code with the template of its sentence (English; report.h fills in %f the
 * thing found, %w the thing wanted). One list, so that no code lacks a sentence. */
#define SL_ERROR_LIST(X)                                                                                     \
    X(SL_OK, "no error")                                                                                     \
    X(SL_ERR_NO_MEMORY, "out of memory while %f")                                                            \
    X(SL_ERR_CANNOT_READ, "cannot read the file: %f; %w")                                                    \
    X(SL_ERR_CANNOT_WRITE, "cannot write %f; %w")                                                            \
    X(SL_ERR_TOO_LARGE, "%f; the limit is %w")                                                               \
    X(SL_ERR_NOT_UTF8, "%f is not UTF-8 text; %w")                                                           \
    X(SL_ERR_BAD_TEXT, "%f may not stand here; %w")                                                          \
    X(SL_ERR_SYNTAX, "this is not well-formed: %f; %w")                                                      \
    X(SL_ERR_NOT_ALLOWED, "%f is not used in these files; %w")                                               \
    X(SL_ERR_UNKNOWN_KEY, "unknown key %f; %w")                                                              \
    X(SL_ERR_DUPLICATE_KEY, "the key %f stands here a second time; %w")                                      \
    X(SL_ERR_MISSING_KEY, "the key %f is missing; %w")                                                       \
    X(SL_ERR_WRONG_TYPE, "%f does not fit here; %w")                                                         \
    X(SL_ERR_BAD_NUMBER, "%f is not a number this program reads; %w")                                        \
    X(SL_ERR_BAD_UNIT, "%f has no unit that fits here; %w")                                                  \
    X(SL_ERR_OUT_OF_RANGE, "%f is out of range; %w")                                                         \
    X(SL_ERR_UNKNOWN_WORD, "unknown word %f; %w")                                                            \
    X(SL_ERR_WRONG_KIND, "this file is of kind %f; %w")                                                      \
    X(SL_ERR_NEWER_VERSION, "this file has format version %f; %w")                                           \
    X(SL_ERR_MISSING_REFERENCE, "nothing named %f was found; %w")                                            \
    X(SL_ERR_CYCLE, "%f refers back to itself; %w")                                                          \
    X(SL_ERR_INCONSISTENT, "%f; %w")                                                                         \
    X(SL_ERR_OUTSIDE_MODEL, "%f is outside this model; %w")                                                  \
    X(SL_ERR_SOLVER, "the solver could not go on: %f; %w")                                                   \
    X(SL_ERR_NOT_FINITE, "the solver produced a value that is not a number: %f; %w")                         \
    X(SL_ERR_USAGE, "%f; %w")                                                                                \
    X(SL_ERR_MISSING_PART, "a part of slowlift is missing: %f; %w")                                          \
    X(SL_ERR_ENDED, "the part that draws ended before its time (%f); %w")                                    \
    X(SL_ERR_NO_LOG, "this is no log of strand tests (%f); %w")                                              \
    X(SL_ERR_DAMAGED, "this log is damaged: %f; %w")                                                         \
    X(SL_ERR_STRANGE_LOG, "this log is not as slowlift makes it: %f; %w")                                    \
    X(SL_ERR_UNSAID, "something failed and did not say why: %f; %w")

#define SL_ERROR_AS_ENUM(code, sentence) code,
typedef enum sl_code { SL_ERROR_LIST(SL_ERROR_AS_ENUM) SL_CODE_COUNT } sl_code;
#undef SL_ERROR_AS_ENUM

enum { SL_ERROR_FILE_SIZE = 512, SL_ERROR_TEXT_SIZE = 320 };

typedef struct sl_error {
    sl_code code;
    int line;                        /* 1-based; 0 when no line applies */
    int column;                      /* 1-based, in characters; 0 when none applies */
    char file[SL_ERROR_FILE_SIZE];   /* path or name as the caller gave it; "" when none */
    char found[SL_ERROR_TEXT_SIZE];  /* what was wrong, printable UTF-8, cut if long */
    char wanted[SL_ERROR_TEXT_SIZE]; /* what would be right */
} sl_error;

/* Fill *error (which may be NULL) and return false, so that a refusal is one line:
 *     return sl_fail(error, SL_ERR_OUT_OF_RANGE, "14 %", "at most 12 %");
 * The place (file, line, column) is left as it was. Texts are copied and cut. A refusal without a
 * reason (SL_OK) becomes SL_ERR_UNSAID, so that no failure is ever shown as none. */
bool sl_fail(sl_error *error, sl_code code, const char *found, const char *wanted);

/* As sl_fail, and sets the place. line and column are 1-based, 0 for none. */
bool sl_fail_at(sl_error *error, sl_code code, const char *file, int line, int column, const char *found,
                const char *wanted);

/* Clear *error: code SL_OK, no place, no text. NULL is allowed. */
void sl_error_clear(sl_error *error);

/* The name of a code, such as "SL_ERR_SYNTAX"; never NULL. */
const char *sl_code_name(sl_code code);

/* The English template of a code's sentence; never NULL. */
const char *sl_code_sentence(sl_code code);

/* Call once at the start of a program, before any other function of the library:
 * turns off GSL's error handler, which is process-wide and would abort. */
void sl_start(void);

#pragma GCC visibility pop

#endif

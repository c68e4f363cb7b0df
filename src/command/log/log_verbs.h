/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What `slowlift log` can do. argv[0] is the verb.
 */
#ifndef SLOWLIFT_COMMAND_LOG_VERBS_H
#define SLOWLIFT_COMMAND_LOG_VERBS_H

#include "command/command.h"
#include "slowlift/log.h"

/* Each verb; a new one is a row here, and its function beside its rows. */
#define SL_LOG_VERBS(X)                                                                                      \
    X(new)                                                                                                   \
    X(add)                                                                                                   \
    X(note)                                                                                                  \
    X(dyed)                                                                                                  \
    X(bowl)                                                                                                  \
    X(strand)                                                                                                \
    X(list)                                                                                                  \
    X(drift)                                                                                                 \
    X(show)                                                                                                  \
    X(import)                                                                                                \
    X(export)                                                                                                \
    X(merge)                                                                                                 \
    X(check)                                                                                                 \
    X(forget)                                                                                                \
    X(backup)                                                                                                \
    X(rescue)
#define SL_LOG_VERB_DECLARE(name)                                                                            \
    extern const sl_command_line sl_log_##name##_typed;                                                      \
    sl_exit sl_command_log_##name(int argc, char **argv);
SL_LOG_VERBS(SL_LOG_VERB_DECLARE)
#undef SL_LOG_VERB_DECLARE
extern const sl_command sl_log_verbs[];
extern const int sl_n_log_verbs;

/* To print a receipt with a receipt's own words, and see it gone out: what cannot be acknowledged is not
 * kept. Always called inside a change of the log. */
bool sl_log_receipt_out(sl_error *error); /* log.c */
/* The end of a command that read a log: not all of it was read, where that is so. */
sl_exit sl_log_read_end(const sl_log *log, sl_exit code); /* log.c */

/* Keeps a note on the test that begins so; code: of one of its swatches, NULL: of the whole test. */
bool sl_log_note_keep(sl_log *log, const char *beginning, const char *code, const char *note,
                      sl_error *error); /* log_add.c */

/* int: a day until today, such as 2026-11-25, since 1970-01-01. */
sl_option_reader sl_log_past_day; /* log_strand.c */

/* Ends a verb that changes the log at `path`: opened where all was good until now, changed, and closed. The
 * receipt is given before the change is kept. */
typedef bool sl_log_changer(sl_log *log, void *self, sl_error *error);
sl_exit sl_log_change(bool good, const char *path, sl_log_changer *change, sl_log_receipt *receipt,
                      void *self, sl_error *error); /* log.c */

#endif

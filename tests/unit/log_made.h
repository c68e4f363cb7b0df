/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A folder of its own with a log of one test: the shipped eight arms, three blocks, whose first
 * swatch is HP5.
 */
#ifndef SLOWLIFT_TESTS_LOG_MADE_H
#define SLOWLIFT_TESTS_LOG_MADE_H

#include "slowlift/log.h"

typedef struct sl_log_made {
    char folder[64], path[96], other[96], csv[96]; /* other, csv: names that are free */
    char test[SL_UUID];
    sl_log *log;
    sl_log_swatch *swatches;
    int n;
} sl_log_made;

/* A scene whose one arm lies twice 20 min in plain water, with a rest between in which nothing leaves, by
 * first order. Invented. */
static const char log_made_twice[] =
    "kind: scene\nversion: 1\ntitle: Twice\norigin: our own invention\nlies: bench\nroom: 24 °C\n"
    "until: 75 min\nhair_mass: 2 g\ndyes: bright-one\nzones:\n"
    "  - {name: red, hair: prelight-9, dye: {red: 9}}\n  - {name: undyed, hair: prelight-9}\n"
    "application:\n  mix_per_hair: 6 g/g\n  mix_age: 1 min\n  hair: dry\n  covered: yes\n"
    "arms:\n  - name: twice\n    steps:\n      - {apply: plain-water, dwell: 20 min}\n"
    "      - rest: 10 min\n      - {apply: plain-water, dwell: 20 min, hair: damp}\n";

void log_made_begin(sl_log_made *made);
/* The same, planned as a time ladder. */
void log_made_begin_ladder(sl_log_made *made, const int *rung_min, int n_rungs);
/* Of another scene, a file; whatever code its first swatch has. */
void log_made_begin_scene(sl_log_made *made, const char *scene_path);
/* Of a scene that the test writes; n_rungs 0: no time ladder. */
void log_made_begin_text(sl_log_made *made, const char *scene, const int *rung_min, int n_rungs);
void log_made_end(sl_log_made *made);
/* Write bytes to made->csv. */
void log_made_write(const sl_log_made *made, const char *bytes, size_t length);
/* Change the log at `path` around its own guards, as no program of ours does: statements of SQLite. */
void log_made_change(const char *path, const char *statements);
/* The index of an arm's swatch in a block. */
int log_made_swatch(const sl_log_made *made, const char *arm, int block);
/* An event so many seconds after the day began, by both of its clocks; swatch -1: of all. note: NULL, or its
 * words. */
void log_made_happens(const sl_log_made *made, sl_event_kind kind, int swatch, int second, const char *note);
/* A reading of the swatch with this index. */
sl_log_reading log_made_reading(const sl_log_made *made, int swatch, const char *zone, sl_wipe grade);

/* The same by an instrument, D65 and 10 degrees, which graded nothing. */
sl_log_reading log_made_colour(const sl_log_made *made, int swatch, const char *zone, double L, double a,
                               double b);

/* Three readings of the first three swatches, the day begun and the first put on; the log is closed. */
void log_made_begin_closed(sl_log_made *made);
/* The first swatch as a strand of somebody's hair: put on after 2 minutes, half blue at 5, 10 and 15, rinsed
 * at 24. */
void log_made_strand(const sl_log_made *made);
/* So many readings, with notes that spreadsheets and CSV mistake. */
void log_made_add_some(const sl_log_made *made, sl_log *log, int n);
/* The whole log as CSV or JSON. */
void log_made_export(sl_log *log, char *text, size_t size, bool json);

/* A copy of the log as it is now in made->other, for another program to go on with. */
void log_made_copy(const sl_log_made *made);
/* Another plan of the eight arms, in so many blocks, into the log. */
void log_made_begin_other(const sl_log_made *made, int n_blocks, char id[SL_UUID]);
/* How many readings the log of one test has. */
long long log_made_readings(sl_log *log);
/* The first column of the first row that SQLite answers with. */
void log_made_text(const char *path, const char *ask, char *text, size_t size);

#endif

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the tables of reports say alike (document/table.h): whose hair the numbers are of, and what they are
 * worth.
 */
#ifndef SLOWLIFT_REPORT_TOLD_H
#define SLOWLIFT_REPORT_TOLD_H

#include "document/say.h"
#include "report/json_fields.h"
#include "slowlift/leave.h"
#include "slowlift/spread.h"

#define SL_COLUMN_lies(scene, person) {.key = "lies_for"},
#define SL_SAY_lies(scene, person) sl_row_text(row, "lies_for", sl_lies_for(scene, person));
#define SL_COLUMN_note(scene) {.key = "note"},
#define SL_SAY_note(scene) sl_row_note(row, scene);
/* What the rows of a record tell, all of it and of some turns. */
#define SL_COLUMN_fields(name, its_fields, of)                                                               \
    {.key = (name), .members = sl_json_fields, .fields = &(its_fields)},
#define SL_SAY_fields(name, its_fields, of) sl_row_members(row, name, of, SL_FIRST_TURN, SL_LAST_TURN);
#define SL_COLUMN_turns(name, its_fields, of, from, to) SL_COLUMN_fields(name, its_fields, of)
#define SL_SAY_turns(name, its_fields, of, from, to) sl_row_members(row, name, of, from, to);
/* What was drawn: in JSON its word and, of dyes, which; in CSV what the quantity is called. */
#define SL_COLUMN_drawn(scene, drawn) {.key = "drawn"}, {.key = "dye"}, {.key = "by"},
#define SL_SAY_drawn(scene, drawn)                                                                           \
    sl_row_text(row, "drawn", sl_doubt_word((drawn)->doubt));                                                \
    sl_row_text(row, "dye", sl_drawn_dye(scene, drawn));                                                     \
    sl_row_text(row, "by", sl_drawn_channel(drawn));
#define SL_COLUMN_drawn_line(scene, drawn) {.key = "quantity"},
#define SL_SAY_drawn_line(scene, drawn) sl_row_drawn(row, scene, drawn);

/* Of a dye its name, and of a channel its key in files; NULL: of none. */
const char *sl_drawn_dye(const sl_scene *scene, const sl_drawn *drawn);
const char *sl_drawn_channel(const sl_drawn *drawn);
/* What is drawn, for people and in their language, but for the dye that it may be of. */
void sl_drawn_say(const sl_drawn *drawn, char *text, size_t size);
/* Under "quantity": "index pH", "index dye: ...". */
void sl_row_drawn(sl_row *row, const sl_scene *scene, const sl_drawn *drawn);
/* Under "note": which of the scene's numbers is the weakest. */
void sl_row_note(sl_row *row, const sl_scene *scene);

/* The occasions, and that of a reducing mix where the scene holds one, whether its agent is known or not. */
unsigned sl_with_reducing(const sl_scene *scene, unsigned occasions);

#endif

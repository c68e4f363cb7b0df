/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The class pack: every sheet of a planned class, as one PDF, one SVG a page and one HTML page a
 * sheet. Invariant: its folder is complete or is not there; the same class gives the same bytes.
 */
#ifndef SLOWLIFT_PAPER_PACK_H
#define SLOWLIFT_PAPER_PACK_H

#include "paper/pages/pages.h"
#include "report/plan/plan.h"
#include "report/rank/map.h"
#include "report/rank/rank.h"

typedef struct sl_pack {
    const sl_plan_page *page;
    const sl_optics *dry;
    const sl_map *map; /* strength and time of one arm; NULL: no arm has a mix to change */
    sl_paper_format format;
    const char *language; /* of the HTML */
} sl_pack;

typedef struct sl_sheet {
    const char *name, *title;
    void (*write)(sl_document *document, const sl_pack *pack);
    unsigned occasions; /* sl_occasion: the cautions that it owes */
} sl_sheet;
extern const sl_sheet sl_sheets[];
extern const int sl_n_sheets;

/* Refuses a folder that holds anything but an older pack (folder.h). */
bool sl_paper_pack(const char *folder, const sl_pack *pack, sl_error *error);

/* ---- the sheets (sheets_*.c) ------------------------------------------------------------------ */

void sl_sheet_plan(sl_document *document, const sl_pack *pack);
void sl_sheet_shopping(sl_document *document, const sl_pack *pack);
void sl_sheet_dye_day(sl_document *document, const sl_pack *pack);
void sl_sheet_rota(sl_document *document, const sl_pack *pack);
void sl_sheet_tags(sl_document *document, const sl_pack *pack);
void sl_sheet_bowls(sl_document *document, const sl_pack *pack);
void sl_sheet_mixing(sl_document *document, const sl_pack *pack);
void sl_sheet_check(sl_document *document, const sl_pack *pack);
void sl_sheet_safety(sl_document *document, const sl_pack *pack);
void sl_sheet_board(sl_document *document, const sl_pack *pack);
void sl_sheet_student(sl_document *document, const sl_pack *pack);
void sl_sheet_educator(sl_document *document, const sl_pack *pack);
void sl_sheet_client(sl_document *document, const sl_pack *pack);
void sl_sheet_results(sl_document *document, const sl_pack *pack);
void sl_sheet_key(sl_document *document, const sl_pack *pack);

/* ---- numbers that sheets share (sheets_board.c) ------------------------------------------------ */

/* A table of the colour left in every zone at every arm's end (sl_arm_end_min). */
void sl_put_left_numbers(sl_document *document, const sl_pack *pack);

/* ---- words that sheets share (sheets_words.c) -------------------------------------------------- */

/* The title that a mix gives itself, or its name. */
/* The decimals that the scale shows. */
int sl_scale_decimals(const sl_plan_request *request);
/* A cell: as the scale shows it, or "-" for none. */
void sl_put_grams(sl_document *document, double grams, int decimals);
/* Nobody says that the label allows it. */
bool sl_is_swatch_only(const sl_mix *mix);
bool sl_plan_has_swatch_only(const sl_plan *plan);

#endif

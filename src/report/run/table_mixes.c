/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What each arm is: its mix by weight, the peroxide in the liquid after dilution and on
 * the hair, the grams for one swatch, pH, and when it is on the hair. One row for each
 * application, so that a second round stands under the first.
 */
#include <string.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/reading.h"
#include "report/run/table.h"
#include "slowlift/plan.h"

enum { ARM, MIX, PARTS, LIQUID, VOLUME, ON_HAIR, GRAMS, PH, CLOCK, MARK, COLUMNS, CELL_SIZE = 96 };

static const double waste_share = 0.10; /* what stays in bowl and brush: common practice, no source */

typedef struct sl_mix_row {
    char cell[COLUMNS][CELL_SIZE];
} sl_mix_row;

static const sl_mix_row headings = {{[ARM] = N_("arm"),
                                     [MIX] = N_("mix"),
                                     [PARTS] = N_("parts"),
                                     [LIQUID] = N_("liquid"),
                                     [VOLUME] = N_("vol"),
                                     [ON_HAIR] = N_("on hair"),
                                     [GRAMS] = N_("weigh g"),
                                     [PH] = N_("pH"),
                                     [CLOCK] = N_("min on"),
                                     [MARK] = ""}};

static void fill_application(sl_mix_row *row, const sl_scene *scene, const sl_step *step, double clock)
{
    const sl_mix *mix = &scene->mixes[step->mix];
    const sl_weighing weighing =
        sl_weigh(mix, &scene->chemistry, scene->hair_g, step->mix_g_per_g, waste_share);
    char one[24], two[24], three[24];
    snprintf(row->cell[MIX], CELL_SIZE, "%s", mix->name);
    sl_short_number(mix->powder_parts, 2, one, sizeof one);
    sl_short_number(mix->developer_parts, 2, two, sizeof two);
    sl_short_number(mix->water_parts, 2, three, sizeof three);
    snprintf(row->cell[PARTS], CELL_SIZE, "%s:%s:%s", one, two, three);
    sl_short_number(weighing.liquid_pct, 1, row->cell[LIQUID], CELL_SIZE);
    snprintf(row->cell[VOLUME], CELL_SIZE, "%.0f", weighing.liquid_vol);
    sl_short_number(weighing.on_hair_pct, 1, row->cell[ON_HAIR], CELL_SIZE);
    sl_short_number(weighing.powder_g, 1, one, sizeof one);
    sl_short_number(weighing.developer_g, 1, two, sizeof two);
    sl_short_number(weighing.water_g, 1, three, sizeof three);
    snprintf(row->cell[GRAMS], CELL_SIZE, "%s+%s+%s", one, two, three);
    if (mix->ph.value > 0.0) {
        sl_short_number(mix->ph.value, 1, row->cell[PH], CELL_SIZE);
    } else {
        snprintf(row->cell[PH], CELL_SIZE, "-");
    }
    sl_clock_time(SL_MINUTE_PLANNED, clock, one, sizeof one);
    sl_clock_time(SL_MINUTE_PLANNED, clock + step->duration_min, two, sizeof two);
    snprintf(row->cell[CLOCK], CELL_SIZE, "%s-%s", one, two);
    snprintf(row->cell[MARK], CELL_SIZE, "%s", mix->label_allows || mix->class_ == SL_MIX_WATER ? "" : "*");
}

/* Calls `use` with each row of the block in order. */
static void each_row(const sl_run_page *page, void (*use)(const sl_run_page *, const sl_mix_row *, void *),
                     void *with)
{
    const sl_scene *scene = page->scene;
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const sl_arm *treated = &scene->arms[arm];
        int applications = 0;
        for (int i = 0; i < treated->n_steps; i++) {
            if (treated->steps[i].kind == SL_STEP_APPLY) {
                sl_mix_row row = {{""}};
                snprintf(row.cell[ARM], CELL_SIZE, "%s",
                         applications == 0 ? sl_arm_title(treated) : _("  then"));
                fill_application(&row, scene, &treated->steps[i],
                                 treated->contact_min + sl_arm_minutes_before(treated, i));
                use(page, &row, with);
                applications++;
            }
        }
        if (applications == 0) {
            sl_mix_row row = {{""}};
            snprintf(row.cell[ARM], CELL_SIZE, "%s", sl_arm_title(treated));
            sl_washing_words(treated, row.cell[MIX], CELL_SIZE);
            use(page, &row, with);
        }
    }
}

static void widen(const sl_run_page *page, const sl_mix_row *row, void *with)
{
    (void)page;
    int *widths = with; /* [COLUMNS] */
    for (int column = 0; column < COLUMNS; column++) {
        const int width = sl_text_width(row->cell[column]);
        widths[column] = width > widths[column] ? width : widths[column];
    }
}

static int gap_before(int column)
{
    static const int gaps[COLUMNS] = {[ARM] = 1,     [MIX] = 2,   [PARTS] = 1, [LIQUID] = 2, [VOLUME] = 1,
                                      [ON_HAIR] = 2, [GRAMS] = 2, [PH] = 1,    [CLOCK] = 2,  [MARK] = 0};
    return gaps[column];
}

/* The part of a row that one page holds: the arm and the columns from `first` to `last`. */
typedef struct sl_mix_part {
    int first, last;
    const int *widths; /* [COLUMNS] */
} sl_mix_part;

static void put_cell(const sl_run_page *page, const sl_mix_row *row, int column, const sl_mix_part *part,
                     bool ends)
{
    sl_put_spaces(page->out, gap_before(column));
    if (column == ARM) {
        sl_put_title(page->out, row->cell[ARM], gap_before(ARM), part->widths[ARM]);
    } else if (ends && column == MIX) {
        fputs(row->cell[column], page->out);
    } else if (column == MIX) {
        sl_put_left(page->out, row->cell[column], part->widths[column]);
    } else {
        sl_put_right(page->out, row->cell[column], part->widths[column]);
    }
}

static void put_row(const sl_run_page *page, const sl_mix_row *row, void *with)
{
    const sl_mix_part *part = with;
    int last = part->last;
    while (last > part->first && row->cell[last][0] == '\0') {
        last--;
    }
    if (row->cell[last][0] == '\0') {
        return; /* an arm without mix has nothing in the second part */
    }
    put_cell(page, row, ARM, part, false);
    for (int column = part->first; column <= last; column++) {
        put_cell(page, row, column, part, column == last);
    }
    fputc('\n', page->out);
}

/* The last column of the part that begins with `first`. */
static int part_end(const sl_run_page *page, const int widths[COLUMNS], int first)
{
    int taken = gap_before(ARM) + widths[ARM];
    int column = first;
    while (column < COLUMNS) {
        taken += gap_before(column) + widths[column];
        if (taken > page->width && column > first) {
            break;
        }
        column++;
    }
    return column == MARK ? CLOCK - 1 : column - 1; /* the star stays beside its time */
}

void sl_put_mixes(const sl_run_page *page)
{
    char swatch[24], heading[128];
    sl_short_number(page->scene->hair_g, 1, swatch, sizeof swatch);
    snprintf(heading, sizeof heading,
             _("MIXES (parts and grams: powder, developer, water; one swatch of %s g of hair)"), swatch);
    sl_put_heading(page, heading);
    int widths[COLUMNS] = {0};
    sl_mix_row shown = headings;
    for (int c = 0; c < COLUMNS; c++) {
        snprintf(shown.cell[c], CELL_SIZE, "%s", _(headings.cell[c]));
    }
    widen(page, &shown, widths);
    each_row(page, widen, widths);
    widths[ARM] = page->arm_width;
    for (int first = MIX; first < COLUMNS;) {
        sl_mix_part part = {.first = first, .last = part_end(page, widths, first), .widths = widths};
        put_row(page, &shown, &part);
        each_row(page, put_row, &part);
        first = part.last + 1;
    }
    sl_put_paragraph(page->out, " ",
                     /* xgettext:no-c-format */
                     _("liquid: peroxide in the liquid after dilution, % and vol; on hair: in the whole "
                       "mix. Grams hold one tenth more for what stays in the bowl."),
                     page->width);
    bool starred = false;
    for (int i = 0; i < page->scene->n_mixes; i++) {
        const sl_mix *mix = &page->scene->mixes[i];
        starred = starred || (!mix->label_allows && mix->class_ != SL_MIX_WATER);
    }
    if (starred) {
        sl_put_paragraph(page->out, " * ",
                         _("not stated that the label allows this liquid and ratio: swatch only"),
                         page->width);
    }
}

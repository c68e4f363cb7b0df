/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The swatch board: room for each real swatch beside the strip that the model predicts for the end
 * of its last step. Invariant: a letter and a number stand on every zone of a strip, and the table
 * below has the same numbers.
 */
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "document/text.h"
#include "paper/draw/page.h"
#include "paper/pack/pack.h"
#include "report/reading.h"
#include "slowlift/what_if.h"
#include "swatch/strands.h"

enum { ABREAST = 4, ZONES_ABREAST = 9 };
static const double CAPTION = 42.0, LETTERS = 14.0, ROOM = 0.44, ZONE_HEIGHT = 20.0, LEAST_ZONE = 11.0;

typedef struct sl_board {
    const sl_pack *pack;
    int first; /* arm */
} sl_board;

static void cell_words(double left, char *words, size_t size)
{
    char percent[16];
    sl_percent(left, percent, sizeof percent);
    snprintf(words, size, left < 0.0 ? "-" : "%s", percent);
}

/* The number on a white plate, so that it reads on any colour and in black and white. */
static void draw_number(sl_canvas *canvas, double x, double y, double width, double zone, double left)
{
    const double size = fmin(8.5, 0.75 * zone), height = 1.25 * size, plate = 0.56 * width;
    const sl_paper_face face = {.size = size, .grey = 0.0, .align = PANGO_ALIGN_CENTER};
    char words[24];
    cell_words(left, words, sizeof words);
    sl_canvas_grey(canvas, 1.0);
    cairo_rectangle(canvas->cairo, x + 0.5 * (width - plate), y + 0.5 * (zone - height), plate, height);
    cairo_fill(canvas->cairo);
    sl_canvas_text(canvas, x, y + 0.5 * (zone - height), width, 1, face, words);
}

static void draw_strip(sl_canvas *canvas, const sl_pack *pack, int arm, double x, double y, double width,
                       double zone)
{
    const sl_scene *const scene = pack->page->plan->scene;
    const uint32_t seed = (uint32_t)arm + 1U;
    const sl_strands strands = sl_swatch_spread(SL_STRAND_CV, seed);
    double left[SL_MAX_ZONES];
    sl_strip_look look = {.bleed = SL_USUAL_BLEED};
    for (int z = 0; z < scene->n_zones; z++) {
        sl_cell cell;
        sl_timeline_at(pack->page->timeline, arm, z, sl_arm_end_min(scene, arm), pack->dry, &cell);
        sl_strand_colours(&strands, pack->dry, &cell.amounts, cell.colour.srgb, SL_VISION_FULL,
                          look.colour[z]);
        left[z] = cell.colour_left;
    }
    sl_hair_lines(canvas->cairo, x, y, width, zone * scene->n_zones, scene->n_zones, seed, &look);
    for (int z = 0; z < scene->n_zones; z++) {
        draw_number(canvas, x, y + z * zone, width, zone, left[z]);
    }
}

static void draw_room(sl_canvas *canvas, double x, double y, double width, double height, const char *words)
{
    const sl_paper_face face = {.size = 8.5, .grey = 0.3, .align = PANGO_ALIGN_CENTER};
    sl_canvas_grey(canvas, 0.3);
    cairo_set_line_width(canvas->cairo, 0.8);
    cairo_rectangle(canvas->cairo, x, y, width, height);
    cairo_stroke(canvas->cairo);
    sl_canvas_text(canvas, x + 2.0, y + 0.4 * height, width - 4.0, 0, face, words);
}

static void draw_arm(sl_canvas *canvas, const sl_pack *pack, int arm, double x, double y, double width,
                     double zone)
{
    static const sl_paper_face bold = {.size = 9.5, .bold = true, .grey = 0.0, .align = PANGO_ALIGN_LEFT};
    static const sl_paper_face face = {.size = 9.0, .grey = 0.0, .align = PANGO_ALIGN_LEFT};
    const sl_scene *const scene = pack->page->plan->scene;
    const double strip = ROOM * (width - LETTERS), high = zone * scene->n_zones, top = y + CAPTION;
    sl_canvas_text(canvas, x, y, width - 4.0, 2, bold, sl_arm_title(&scene->arms[arm]));
    sl_canvas_text(canvas, x, y + 26.0, width, 1, face, _("Code: __________"));
    for (int z = 0; z < scene->n_zones; z++) {
        const char letter[] = {(char)('A' + z % 26), '\0'};
        sl_canvas_text(canvas, x, top + (z + 0.5) * zone - 6.0, LETTERS, 1, face, letter);
    }
    draw_room(canvas, x + LETTERS, top, strip, high, _("tape the real swatch here"));
    if (sl_timeline_predicted(pack->page->timeline, arm)) {
        draw_strip(canvas, pack, arm, x + LETTERS + strip + 4.0, top, strip, zone);
    } else {
        draw_room(canvas, x + LETTERS + strip + 4.0, top, strip, high, _("outside this model"));
    }
}

static double zone_height(const sl_scene *scene)
{
    return fmax(LEAST_ZONE, fmin(ZONE_HEIGHT, 8.0 * ZONE_HEIGHT / scene->n_zones));
}

static void draw_board(sl_canvas *canvas, double x, double y, double width, double height, const void *with)
{
    const sl_board *const board = with;
    const sl_scene *const scene = board->pack->page->plan->scene;
    (void)height;
    for (int i = 0; i < ABREAST && board->first + i < scene->n_arms; i++) {
        draw_arm(canvas, board->pack, board->first + i, x + i * width / ABREAST, y, width / ABREAST,
                 zone_height(scene));
    }
}

/* Left of each zone, the letters of `from` to `to`. */
static void put_numbers(sl_document *document, const sl_pack *pack, int from, int to)
{
    const sl_scene *const scene = pack->page->plan->scene;
    sl_text_column columns[ZONES_ABREAST + 1] = {{N_("Strip"), 3.6, 0}};
    for (int z = from; z < to; z++) {
        char head[64];
        snprintf(head, sizeof head, "%c %s", 'A' + z % 26, sl_zone_title(&scene->zones[z]));
        columns[z - from + 1] = (sl_text_column){sl_document_keep(document, head), 1.3, SL_RIGHT | SL_OWN};
    }
    sl_document_table(document, _("The model's strips in numbers: colour left, % of the start"),
                      to - from + 1, columns, 0.0);
    for (int a = 0; a < scene->n_arms; a++) {
        sl_document_cell(document, "%s", sl_arm_title(&scene->arms[a]));
        for (int z = from; z < to; z++) {
            sl_cell cell;
            char words[24];
            sl_timeline_at(pack->page->timeline, a, z, sl_arm_end_min(scene, a), NULL, &cell);
            cell_words(cell.colour_left, words, sizeof words);
            sl_document_cell(document, "%s", sl_timeline_predicted(pack->page->timeline, a) ? words : "-");
        }
    }
}

void sl_put_left_numbers(sl_document *document, const sl_pack *pack)
{
    const int n = pack->page->plan->scene->n_zones;
    for (int from = 0; from < n; from += ZONES_ABREAST) {
        put_numbers(document, pack, from, from + ZONES_ABREAST < n ? from + ZONES_ABREAST : n);
    }
}

void sl_sheet_board(sl_document *document, const sl_pack *pack)
{
    const sl_scene *const scene = pack->page->plan->scene;
    const double height = CAPTION + zone_height(scene) * scene->n_zones;
    document->colours = true;
    sl_document_say(
        document, "%s",
        _("One board for each repeat: repeat number ______. Open the key first. Tape each real swatch, "
          "dry, beside the strip that the model predicts: washed and dry, too, root end up. "
          "Letters name the zones; numbers are colour left, % of the start."));
    for (int first = 0; first < scene->n_arms; first += ABREAST) {
        sl_board *const board =
            document->failed ? NULL
                             : sl_arena_new(&document->arena, 1, sizeof *board, "a board", document->error);
        document->failed = board == NULL;
        if (board != NULL) {
            *board = (sl_board){pack, first};
            sl_put_sketch(document, "", height, draw_board, board);
        }
    }
    sl_put_left_numbers(document, pack);
    sl_document_lines(document, 3, "%s",
                      _("Where do swatch and strip differ most, and what may be the reason?"));
}

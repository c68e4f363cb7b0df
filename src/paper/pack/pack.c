/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Writing a class pack: everything goes into a folder beside the one that was named, which then
 * takes its place in one step (folder.h).
 */
#include "paper/pack/pack.h"

#include <cairo-pdf.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "base/program.h"
#include "document/renderers.h"
#include "paper/folder.h"
#include "report/told.h"
#include "slowlift/report.h"

enum { PATH_SIZE = SL_TEMPORARY_PATH, MOST_SHEETS = 16 };
static const char PDF[] = "pack.pdf";

const sl_sheet sl_sheets[] = {
    {"plan", N_("Plan sheet"), sl_sheet_plan, SL_ON_MIXING | SL_ON_STRAND | SL_ON_CLASS},
    {"shopping", N_("Shopping list"), sl_sheet_shopping, SL_ON_KEEPING | SL_ON_LEFTOVERS},
    {"dye-day", N_("Dye day"), sl_sheet_dye_day, SL_ON_CLASS},
    {"rota", N_("Class rota"), sl_sheet_rota, SL_ON_NOTHING},
    {"tags", N_("Blind swatch tags"), sl_sheet_tags, SL_ON_NOTHING},
    {"bowls", N_("Bowl labels"), sl_sheet_bowls, SL_ON_NOTHING},
    {"mixing", N_("Mixing sheet"), sl_sheet_mixing, SL_ON_MIXING | SL_ON_KEEPING},
    {"check", N_("Look card"), sl_sheet_check, SL_ON_DAY},
    {"safety", N_("Hazard-sheet and gloves checklist"), sl_sheet_safety,
     SL_ON_MIXING | SL_ON_LEFTOVERS | SL_ON_CLASS},
    {"board", N_("Swatch board"), sl_sheet_board, SL_ON_OUTCOME},
    {"student", N_("Student sheet"), sl_sheet_student, SL_ON_NOTHING},
    {"educator", N_("Educator sheet"), sl_sheet_educator, SL_ON_SWATCHES | SL_ON_CLASS},
    {"client", N_("Client sheet: practice only"), sl_sheet_client, SL_ON_PERSON},
    {"results", N_("Result table and what the model expects"), sl_sheet_results, SL_ON_SWATCHES},
    {"key", N_("Key to the codes: fold and close"), sl_sheet_key, SL_ON_NOTHING},
};
const int sl_n_sheets = (int)(sizeof sl_sheets / sizeof sl_sheets[0]);

/* A pack that is being written. */
typedef struct sl_sheet_writer {
    const sl_pack *pack;
    sl_folder folder;
    sl_document document[MOST_SHEETS];
    sl_pages pages[MOST_SHEETS];
} sl_sheet_writer;

/* ---- files --------------------------------------------------------------------------------- */

static void outline(sl_canvas *canvas, const char *title, int page)
{
    char place[40];
    snprintf(place, sizeof place, "page=%d pos=[0 0]", page);
    cairo_pdf_surface_add_outline(canvas->surface, CAIRO_PDF_OUTLINE_ROOT, title, place, 0);
}

static bool write_pdf(sl_sheet_writer *writer, sl_error *error)
{
    const sl_pack *const pack = writer->pack;
    sl_canvas canvas;
    char path[PATH_SIZE + 64], title[512];
    int page = 0;
    snprintf(path, sizeof path, "%s/%s", writer->folder.beside.path, PDF);
    snprintf(title, sizeof title, _("%s: class pack"), sl_scene_title(pack->page->plan->scene));
    if (!sl_canvas_begin(&canvas, path, error) ||
        !sl_canvas_open(&canvas, pack->format.width, pack->format.height, title, error)) {
        return false;
    }
    for (int i = 0; i < sl_n_sheets; i++) {
        const sl_document *const document = &writer->document[i];
        sl_pages *const pages = &writer->pages[i];
        if (!sl_pages_lay(pages, document, &canvas, pack->format, error)) {
            sl_canvas_close(&canvas);
            return false;
        }
        outline(&canvas, document->title, page + 1);
        for (int p = 1; p <= pages->n; p++) {
            if (page++ > 0) {
                cairo_show_page(canvas.cairo);
            }
            sl_pages_draw(pages, &canvas, p);
        }
    }
    return sl_canvas_commit(&canvas, error);
}

static bool write_svg(const sl_sheet_writer *writer, int sheet, int page, sl_error *error)
{
    const sl_pack *const pack = writer->pack;
    const sl_document *const document = &writer->document[sheet];
    sl_canvas canvas;
    char path[PATH_SIZE + 64];
    snprintf(path, sizeof path, "%s/%02d-%s-%d.svg", writer->folder.beside.path, sheet + 1, document->name,
             page);
    if (!sl_canvas_begin(&canvas, path, error) ||
        !sl_canvas_open(&canvas, pack->format.width, pack->format.height, document->title, error)) {
        return false;
    }
    sl_pages_draw(&writer->pages[sheet], &canvas, page);
    return sl_canvas_commit(&canvas, error);
}

static bool write_html(const sl_sheet_writer *writer, int sheet, sl_error *error)
{
    const sl_document *const document = &writer->document[sheet];
    sl_save save;
    char path[PATH_SIZE + 64];
    snprintf(path, sizeof path, "%s/%02d-%s.html", writer->folder.beside.path, sheet + 1, document->name);
    if (!sl_save_open(&save, path, error)) {
        return false;
    }
    sl_document_html(save.stream, document, writer->pack->language);
    return sl_save_commit(&save, error);
}

static bool write_sheets(sl_sheet_writer *writer, sl_error *error)
{
    char note[512];
    bool good = true;
    sl_example_note(writer->pack->page->plan->scene, note, sizeof note);
    for (int i = 0; i < sl_n_sheets && good; i++) {
        sl_document *const document = &writer->document[i];
        sl_document_begin(document, sl_sheets[i].name, _(sl_sheets[i].title), error);
        sl_document_note(document, note);
        sl_sheets[i].write(document, writer->pack);
        const bool reads = sl_sheets[i].occasions != SL_ON_NOTHING;
        sl_document_end(document,
                        reads ? sl_with_reducing(writer->pack->page->plan->scene, sl_sheets[i].occasions)
                              : sl_sheets[i].occasions);
        good = !document->failed;
    }
    sl_progress progress = sl_progress_begin();
    good = good && write_pdf(writer, error);
    for (int i = 0; i < sl_n_sheets && good; i++) {
        if (sl_progress_due(&progress)) {
            sl_progress_say(&progress, _("slowlift: %3.0f %% of %d sheets (Ctrl-C stops)"),
                            100.0 * i / sl_n_sheets, sl_n_sheets);
        }
        good = write_html(writer, i, error);
        for (int page = 1; page <= writer->pages[i].n && good; page++) {
            good = write_svg(writer, i, page, error);
        }
    }
    sl_progress_end(&progress);
    for (int i = 0; i < sl_n_sheets; i++) {
        sl_pages_free(&writer->pages[i]);
        sl_document_free(&writer->document[i]);
    }
    return good;
}

bool sl_paper_pack(const char *folder, const sl_pack *pack, sl_error *error)
{
    sl_sheet_writer *const writer = sl_new(1, sizeof *writer, "writing a class pack", error);
    if (writer == NULL) {
        return false;
    }
    writer->pack = pack;
    bool good = sl_paper_has_font(error) && sl_folder_open(&writer->folder, folder, error);
    if (good) {
        good = write_sheets(writer, error) && sl_folder_commit(&writer->folder, error);
        if (!good) {
            sl_folder_abandon(&writer->folder, error);
        }
    }
    sl_free(writer);
    return good;
}

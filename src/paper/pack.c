/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Writing a class pack: everything goes into a folder beside the one that was named, which then
 * takes its place in one step (rename is atomic: POSIX.1-2008, rename()).
 */
#include "paper/pack.h"

#include <cairo-pdf.h>
#include <ctype.h>
#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/language.h"
#include "slowlift/report.h"

enum { PATH_SIZE = SL_SAVE_PATH_SIZE, MOST_SHEETS = 16 };
static const char PDF[] = "pack.pdf";

const sl_sheet sl_sheets[] = {
    {"plan", N_("Plan sheet"), sl_sheet_plan},
    {"shopping", N_("Shopping list"), sl_sheet_shopping},
    {"rota", N_("Class rota"), sl_sheet_rota},
    {"tags", N_("Blind swatch tags"), sl_sheet_tags},
    {"bowls", N_("Bowl labels"), sl_sheet_bowls},
    {"mixing", N_("Mixing sheet"), sl_sheet_mixing},
    {"check", N_("Check card"), sl_sheet_check},
    {"safety", N_("Safety-sheet and gloves checklist"), sl_sheet_safety},
    {"board", N_("Swatch board"), sl_sheet_board},
    {"student", N_("Student sheet"), sl_sheet_student},
    {"educator", N_("Educator sheet"), sl_sheet_educator},
    {"client", N_("Client sheet: practice only"), sl_sheet_client},
    {"results", N_("Result table and what the model expects"), sl_sheet_results},
    {"key", N_("Key to the codes: fold and close"), sl_sheet_key},
};
const int sl_n_sheets = (int)(sizeof sl_sheets / sizeof sl_sheets[0]);

/* A pack that is being written. */
typedef struct sl_writer {
    const sl_pack *pack;
    char folder[PATH_SIZE], beside[PATH_SIZE + 16];
    sl_handout handout[MOST_SHEETS];
} sl_writer;

static bool refuse(const char *path, int reason, sl_error *error)
{
    char quoted[SL_ERROR_TEXT_SIZE];
    snprintf(quoted, sizeof quoted, "\"%.200s\"", path);
    return sl_fail(error, SL_ERR_CANNOT_WRITE, quoted, strerror(reason));
}

/* ---- folders ------------------------------------------------------------------------------- */

static bool ends_in(const char *name, const char *end)
{
    const size_t length = strlen(name), tail = strlen(end);
    return length > tail && strcmp(name + length - tail, end) == 0;
}

/* "03-rota-1.svg", "03-rota.html" and the PDF. */
static bool is_ours(const char *name)
{
    const bool numbered =
        isdigit((unsigned char)name[0]) && isdigit((unsigned char)name[1]) && name[2] == '-';
    return strcmp(name, PDF) == 0 || (numbered && (ends_in(name, ".svg") || ends_in(name, ".html")));
}

static bool is_free(const char *folder, sl_error *error)
{
    DIR *const open = opendir(folder);
    if (open == NULL) {
        return errno == ENOENT || refuse(folder, errno, error);
    }
    bool good = true;
    const struct dirent *entry = NULL;
    while (good && (entry = readdir(open)) != NULL) {
        const char *const name = entry->d_name;
        if (strcmp(name, ".") != 0 && strcmp(name, "..") != 0 && !is_ours(name)) {
            char found[SL_ERROR_TEXT_SIZE];
            snprintf(found, sizeof found, _("the folder \"%.100s\" holds \"%.60s\", which is no sheet"),
                     folder, name);
            good = sl_fail(error, SL_ERR_USAGE, found, "name a new folder, an empty one or an older pack");
        }
    }
    closedir(open);
    return good;
}

static void remove_folder(const char *folder)
{
    DIR *const open = opendir(folder);
    const struct dirent *entry = NULL;
    while (open != NULL && (entry = readdir(open)) != NULL) {
        char path[PATH_SIZE + 300];
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        if (is_ours(entry->d_name)) {
            unlink(path);
        }
    }
    if (open != NULL) {
        closedir(open);
    }
    rmdir(folder);
}

static bool begin_folder(sl_writer *writer, const char *folder, sl_error *error)
{
    const int length = snprintf(writer->folder, sizeof writer->folder - 64, "%s", folder);
    if (length <= 0 || (size_t)length >= sizeof writer->folder - 64) {
        return refuse(folder, length == 0 ? ENOENT : ENAMETOOLONG, error);
    }
    for (int i = length - 1; i > 0 && writer->folder[i] == '/'; i--) {
        writer->folder[i] = '\0';
    }
    if (!is_free(writer->folder, error)) {
        return false;
    }
    snprintf(writer->beside, sizeof writer->beside, "%s.XXXXXX", writer->folder);
    if (mkdtemp(writer->beside) == NULL) {
        const int reason = errno;
        writer->beside[0] = '\0';
        return refuse(folder, reason, error);
    }
    const mode_t mask = umask(0);
    umask(mask);
    return chmod(writer->beside, 0777 & ~mask) == 0 || refuse(folder, errno, error);
}

/* An older pack steps aside first; when the new one cannot take its place, it comes back. */
static bool put_in_place(sl_writer *writer, sl_error *error)
{
    if (rename(writer->beside, writer->folder) == 0) {
        return true;
    }
    const int reason = errno;
    char old[PATH_SIZE + 16];
    snprintf(old, sizeof old, "%s.XXXXXX", writer->folder);
    if ((reason != ENOTEMPTY && reason != EEXIST) || mkdtemp(old) == NULL) {
        return refuse(writer->folder, reason, error);
    }
    if (rename(writer->folder, old) != 0) {
        rmdir(old);
        return refuse(writer->folder, errno, error);
    }
    if (rename(writer->beside, writer->folder) != 0) {
        const int why = errno;
        rename(old, writer->folder);
        return refuse(writer->folder, why, error);
    }
    remove_folder(old);
    return true;
}

/* ---- files --------------------------------------------------------------------------------- */

static void outline(sl_canvas *canvas, const char *title, int page)
{
    char place[40];
    snprintf(place, sizeof place, "page=%d pos=[0 0]", page);
    cairo_pdf_surface_add_outline(canvas->surface, CAIRO_PDF_OUTLINE_ROOT, title, place, 0);
}

static bool write_pdf(sl_writer *writer, sl_error *error)
{
    const sl_pack *const pack = writer->pack;
    sl_canvas canvas;
    char path[PATH_SIZE + 64], title[512];
    int page = 0;
    snprintf(path, sizeof path, "%s/%s", writer->beside, PDF);
    snprintf(title, sizeof title, _("%s: class pack"), pack->page->plan->scene->title);
    if (!sl_canvas_begin(&canvas, path, error) ||
        !sl_canvas_open(&canvas, pack->format.width, pack->format.height, title, error)) {
        return false;
    }
    for (int i = 0; i < sl_n_sheets; i++) {
        sl_handout *const handout = &writer->handout[i];
        if (!sl_handout_lay(handout, &canvas, pack->format)) {
            sl_canvas_close(&canvas);
            return false;
        }
        outline(&canvas, handout->title, page + 1);
        for (int p = 1; p <= handout->n_pages; p++) {
            if (page++ > 0) {
                cairo_show_page(canvas.cairo);
            }
            sl_handout_draw(handout, &canvas, pack->format, p);
        }
    }
    return sl_canvas_commit(&canvas, error);
}

static bool write_svg(const sl_writer *writer, int sheet, int page, sl_error *error)
{
    const sl_pack *const pack = writer->pack;
    const sl_handout *const handout = &writer->handout[sheet];
    sl_canvas canvas;
    char path[PATH_SIZE + 64];
    snprintf(path, sizeof path, "%s/%02d-%s-%d.svg", writer->beside, sheet + 1, handout->name, page);
    if (!sl_canvas_begin(&canvas, path, error) ||
        !sl_canvas_open(&canvas, pack->format.width, pack->format.height, handout->title, error)) {
        return false;
    }
    sl_handout_draw(handout, &canvas, pack->format, page);
    return sl_canvas_commit(&canvas, error);
}

static bool write_html(const sl_writer *writer, int sheet, sl_error *error)
{
    const sl_handout *const handout = &writer->handout[sheet];
    sl_save save;
    char path[PATH_SIZE + 64];
    snprintf(path, sizeof path, "%s/%02d-%s.html", writer->beside, sheet + 1, handout->name);
    if (!sl_save_open(&save, path, error)) {
        return false;
    }
    sl_handout_html(save.stream, handout, writer->pack->language);
    return sl_save_commit(&save, error);
}

static bool write_sheets(sl_writer *writer, sl_error *error)
{
    char note[512];
    bool good = true;
    sl_example_note(writer->pack->page->plan->scene, note, sizeof note);
    for (int i = 0; i < sl_n_sheets && good; i++) {
        sl_handout_begin(&writer->handout[i], sl_sheets[i].name, _(sl_sheets[i].title), note, error);
        sl_sheets[i].write(&writer->handout[i], writer->pack);
        good = !writer->handout[i].failed;
    }
    good = good && write_pdf(writer, error);
    for (int i = 0; i < sl_n_sheets && good; i++) {
        good = write_html(writer, i, error);
        for (int page = 1; page <= writer->handout[i].n_pages && good; page++) {
            good = write_svg(writer, i, page, error);
        }
    }
    for (int i = 0; i < sl_n_sheets; i++) {
        sl_handout_free(&writer->handout[i]);
    }
    return good;
}

bool sl_paper_pack(const char *folder, const sl_pack *pack, sl_error *error)
{
    sl_writer *const writer = sl_new(1, sizeof *writer, "writing a class pack", error);
    if (writer == NULL) {
        return false;
    }
    writer->pack = pack;
    const bool good = sl_paper_has_font(error) && begin_folder(writer, folder, error) &&
                      write_sheets(writer, error) && put_in_place(writer, error);
    if (!good && writer->beside[0] != '\0') {
        remove_folder(writer->beside);
    }
    sl_free(writer);
    return good;
}

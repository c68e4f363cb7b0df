/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sentence a person reads when something went wrong. Invariant: the text is always
 * terminated, and its length is what snprintf would have returned. An error without a
 * wish ("what would be right") ends before the template's semicolon.
 */
#include <string.h>

#include "base/language.h"
#include "base/plain_text.h"
#include "slowlift/report.h"

/* What is being written: the room left in `text`, and how long the whole would be. */
typedef struct sl_writing {
    char *text;
    size_t size, length;
} sl_writing;

static void put(sl_writing *out, const char *piece, size_t length)
{
    if (out->length < out->size) {
        const size_t room = out->size - out->length - 1;
        const size_t taken = length < room ? length : room;
        memcpy(out->text + out->length, piece, taken);
        out->text[out->length + taken] = '\0';
    }
    out->length += length;
}

/* What a message holds may come from anywhere: a file's name, an argument. */
static void put_text(sl_writing *out, const char *piece)
{
    const bool room = out->length < out->size;
    out->length += sl_text_show(piece, strlen(piece), SL_TEXT_LINE, room ? out->text + out->length : NULL,
                                room ? out->size - out->length : 0);
}

static void put_place(sl_writing *out, const sl_error *error)
{
    if (error->file[0] == '\0') {
        return;
    }
    put_text(out, error->file);
    char place[48];
    if (error->line > 0 && error->column > 0) {
        snprintf(place, sizeof place, ":%d:%d", error->line, error->column);
    } else if (error->line > 0) {
        snprintf(place, sizeof place, ":%d", error->line);
    } else {
        place[0] = '\0';
    }
    put_text(out, place);
    put_text(out, ": ");
}

/* Where the template ends: before "; %w" when there is no wish. */
static size_t used_length(const char *template, const sl_error *error)
{
    const char *wish = strstr(template, "; %w");
    if (wish != NULL && error->wanted[0] == '\0') {
        return (size_t)(wish - template);
    }
    return strlen(template);
}

/* What the C library says of a file, in English whatever the locale: for the catalogue. */
_Static_assert(sizeof((const char *const[]){
                   N_("No such file or directory"), N_("No space left on device"), N_("Permission denied"),
                   N_("Operation not permitted"), N_("Read-only file system"), N_("Is a directory"),
                   N_("Not a directory"), N_("Input/output error"), N_("File name too long"),
                   N_("File exists"), N_("Bad file descriptor"), N_("Too many open files"),
                   N_("Disk quota exceeded"), N_("File too large"), N_("Broken pipe")}) > 0,
               "");

int sl_error_sentence(const sl_error *error, char *text, size_t size)
{
    if (size > 0) {
        text[0] = '\0';
    }
    sl_writing out = {.text = text, .size = size, .length = 0};
    put_place(&out, error);
    const char *template = _(sl_code_sentence(error->code));
    const char *end = template + used_length(template, error);
    for (const char *at = template; at < end; at++) {
        if (at[0] == '%' && at[1] == 'f') {
            put_text(&out, _(error->found));
            at++;
        } else if (at[0] == '%' && at[1] == 'w') {
            put_text(&out, _(error->wanted));
            at++;
        } else {
            put(&out, at, 1);
        }
    }
    return (int)out.length;
}

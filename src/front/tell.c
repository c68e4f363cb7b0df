/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See tell.h.
 */
#include "front/tell.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/ioctl.h>

#include "base/language.h"

enum { WIDTH = 100, LEAST_WIDTH = 40 }; /* columns */

/* Of the terminal that is written to, by COLUMNS (POSIX, XBD 8.3) or by what it says; no more than reads
 * well. */
static int width_of(FILE *out)
{
    const char *const set = getenv("COLUMNS");
    struct winsize size = {.ws_col = 0};
    long columns = set ? strtol(set, NULL, 10) : 0;
    if (columns <= 0 && ioctl(fileno(out), TIOCGWINSZ, &size) == 0) {
        columns = size.ws_col;
    }
    if (columns <= 0 || columns > WIDTH) {
        return WIDTH;
    }
    return columns < LEAST_WIDTH ? LEAST_WIDTH : (int)columns;
}

typedef struct sl_telling {
    const sl_teller *teller;
    const void *of;
    const sl_result_wish *wish;
} sl_telling;

/* The first of these that is set names the characters of the terminal (POSIX, XBD 8.2). */
static bool speaks_utf8(void)
{
    static const char *const names[] = {"LC_ALL", "LC_CTYPE", "LANG"};
    const char *value = "";
    for (int i = 0; i < 3 && value[0] == '\0'; i++) {
        const char *const set = getenv(names[i]);
        value = set ? set : "";
    }
    const char *const charset = strchr(value, '.');
    return charset && (strncasecmp(charset, ".utf-8", 6) == 0 || strncasecmp(charset, ".utf8", 5) == 0);
}

static bool write_form(FILE *out, const void *what)
{
    const sl_telling *const telling = what;
    const sl_teller *const teller = telling->teller;
    const sl_result_wish *const wish = telling->wish;
    if (wish->csv) {
        return teller->csv ? teller->csv(out, telling->of) : sl_export_csv(out, teller->export, telling->of);
    }
    if (wish->json) {
        return teller->json ? teller->json(out, telling->of)
                            : sl_export_json(out, teller->export, telling->of);
    }
    sl_document document;
    sl_error error = {.code = SL_OK};
    teller->say(&document, telling->of, &error);
    if (!wish->output || !sl_names_page(wish->output) || document.failed) {
        const sl_terminal terminal = {
            .width = width_of(out), .depth = SL_SCIENCE, .colour = teller->colour, .ascii = !speaks_utf8()};
        return sl_document_print(out, &document, &terminal);
    }
    const bool good = sl_document_html(out, &document, sl_language());
    sl_document_free(&document);
    return good;
}

sl_document_drawer *sl_tell_drawer;

static sl_exit draw(const sl_telling *telling)
{
    sl_document document;
    sl_error error = {.code = SL_OK};
    telling->teller->say(&document, telling->of, &error);
    const bool good = sl_tell_drawer(telling->wish->picture, &document, &error);
    sl_document_free(&document);
    return good ? SL_EXIT_OK : sl_complain(&error);
}

sl_exit sl_tell(bool good, const sl_error *error, const sl_teller *teller, const void *of,
                const sl_result_wish *wish)
{
    const sl_telling telling = {teller, of, wish};
    return !good           ? sl_complain(error)
           : wish->picture ? draw(&telling)
                           : sl_write_result(wish->output, write_form, &telling);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See told.h.
 */
#include "report/told.h"
#include "slowlift/report.h"

void sl_row_note(sl_row *row, const sl_scene *scene)
{
    char note[320];
    sl_example_note(scene, note, sizeof note);
    sl_row_words(row, "note", "%s", note);
}

const char *sl_drawn_dye(const sl_scene *scene, const sl_drawn *drawn)
{
    return drawn->doubt == SL_DOUBT_DYE ? scene->dyes[drawn->dye].name : NULL;
}

void sl_row_drawn(sl_row *row, const sl_scene *scene, const sl_drawn *drawn)
{
    const char *const dye = sl_drawn_dye(scene, drawn);
    sl_row_words(row, "quantity", "index %s%s%s", sl_doubt_word(drawn->doubt), dye ? ": " : "",
                 dye ? dye : "");
}

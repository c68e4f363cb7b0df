/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See tubs.h.
 */
#include "log/day/tubs.h"

#include <string.h>

#include "base/append.h"
#include "base/calendar.h"
#include "base/code.h"
#include "base/memory.h"
#include "log/store/rescue.h"
#include "log/strand/pairs.h"

static const char lead[] = "bowl:";
static const struct {
    const char *lot, *opened;
} keys[SL_TUB_KINDS] = {[SL_TUB_POWDER] = {"powder_lot", "powder_opened"},
                        [SL_TUB_DEVELOPER] = {"developer_lot", "developer_opened"}};

void sl_tubs_note(const sl_tubs *tubs, char note[SL_TUBS_NOTE])
{
    char day[SL_DAY_TEXT];
    snprintf(note, SL_TUBS_NOTE, "%s", lead);
    for (int k = 0; k < SL_TUB_KINDS; k++) {
        const sl_tub *const tub = &tubs->of[k];
        if (tub->lot[0] != '\0') {
            sl_append(note, SL_TUBS_NOTE, " %s=%s", keys[k].lot, tub->lot);
        }
        if (tub->opened > 0) {
            sl_day_words(tub->opened, day);
            sl_append(note, SL_TUBS_NOTE, " %s=%s", keys[k].opened, day);
        }
    }
    sl_append(note, SL_TUBS_NOTE, "%s", tubs->check ? " check=yes" : "");
}

/* Another lot was opened on another day. */
static void take_lot(sl_tub *tub, const char *lot)
{
    if (lot[0] != '\0' && strlen(lot) < SL_CODE && sl_code_characters(lot) && strcmp(lot, tub->lot) != 0) {
        memcpy(tub->lot, lot, strlen(lot) + 1);
        tub->opened = 0;
    }
}

static void take(void *self, const char *key, const char *value)
{
    sl_tubs *const tubs = self;
    for (int k = 0; k < SL_TUB_KINDS; k++) {
        int day = 0;
        if (strcmp(key, keys[k].lot) == 0) {
            take_lot(&tubs->of[k], value);
        } else if (strcmp(key, keys[k].opened) == 0 && sl_day_read(value, &day)) {
            tubs->of[k].opened = day;
        }
    }
    tubs->check = tubs->check || (strcmp(key, "check") == 0 && strcmp(value, "yes") == 0);
}

bool sl_tubs_read(const char *note, sl_tubs *tubs)
{
    return sl_pairs_read(note, lead, take, tubs);
}

/* ---- of a test ------------------------------------------------------------------------------------- */

typedef struct sl_own_bowl {
    bool mixed;
    char own[4 * SL_TUBS_NOTE]; /* notes of its own, one behind the other */
} sl_own_bowl;

static bool read_all(sl_log *log, const char *test, const sl_log_swatch *swatches, int n, sl_own_bowl *bowl,
                     sl_tubs *tubs, sl_error *error)
{
    sl_tubs all = {.check = false};
    memset(bowl, 0, (size_t)n * sizeof *bowl);
    sl_statement ask = sl_sql(
        log,
        "SELECT swatch, kind, note FROM event WHERE test = ?1 AND kind IN ('note', 'mixed')" SL_NOT_UNDONE
        " ORDER BY kept",
        error);
    sl_put_text(&ask, test);
    while (sl_next_row(&ask)) {
        const int i = sl_log_swatch_of(swatches, n, sl_text_at(&ask, 0), 0);
        if (i < 0) {
            sl_tubs_read(sl_text_at(&ask, 2), &all);
        } else if (strcmp(sl_text_at(&ask, 1), "mixed") == 0) {
            tubs[i] = all;
            bowl[i].mixed = true;
        } else if (strncmp(sl_text_at(&ask, 2), lead, sizeof lead - 1) == 0) {
            sl_append(bowl[i].own, sizeof bowl[i].own, " %s", sl_text_at(&ask, 2) + sizeof lead - 1);
        }
    }
    for (int i = 0; i < n; i++) {
        tubs[i] = bowl[i].mixed ? tubs[i] : all;
    }
    return sl_sql_leave(&ask);
}

bool sl_log_tubs(sl_log *log, const char *test, const sl_log_swatch *swatches, int n, sl_tubs **tubs,
                 sl_error *error)
{
    static const char doing[] = "reading what was in the bowls";
    sl_own_bowl *const bowl = sl_new((size_t)n + 1, sizeof *bowl, doing, error);
    sl_tubs *const found = bowl ? sl_new((size_t)n + 1, sizeof *found, doing, error) : NULL;
    const bool good =
        found && (read_all(log, test, swatches, n, bowl, found, error) ||
                  (sl_log_fall_back(log, error) && read_all(log, test, swatches, n, bowl, found, error)));
    for (int i = 0; good && i < n; i++) {
        sl_pairs_read(bowl[i].own, "", take, &found[i]);
    }
    sl_free(bowl);
    if (good) {
        *tubs = found;
    } else {
        sl_free(found);
    }
    return good;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See pairs.h.
 */
#include "log/strand/pairs.h"

#include <string.h>

bool sl_pairs_read(const char *note, const char *lead, sl_pair_taker *take, void *self)
{
    char pair[64];
    const size_t begin = strlen(lead);
    if (strncmp(note, lead, begin) != 0) {
        return false;
    }
    for (const char *at = note + begin; *at != '\0';) {
        at += strspn(at, " ");
        const size_t length = strcspn(at, " ");
        char *value = NULL;
        if (length < sizeof pair) {
            memcpy(pair, at, length);
            pair[length] = '\0';
            value = strchr(pair, '=');
        }
        if (value) {
            *value = '\0';
            take(self, pair, value + 1);
        }
        at += length;
    }
    return true;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See code.h.
 */
#include "base/code.h"

#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "slowlift/model.h"

static const char allowed[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_.";

bool sl_code_characters(const char *text)
{
    return text[strspn(text, allowed)] == '\0';
}

bool sl_code_check(const char *what, const char *code, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    const size_t length = strlen(code);
    if (length > 0 && length < SL_CODE && sl_code_characters(code)) {
        return true;
    }
    if (strchr(code, ' ')) {
        snprintf(found, sizeof found, _("%s looks like a name: \"%.40s\""), _(what), code);
    } else {
        snprintf(found, sizeof found, _("%s is not a code: \"%.40s\""), _(what), code);
    }
    return sl_fail(error, SL_ERR_INCONSISTENT, found,
                   "use a code of up to 32 letters, digits, - _ . without a space: no names are kept");
}

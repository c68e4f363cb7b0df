/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Error records and the start of the library. Texts are cut at a whole UTF-8 character,
 * so that a message is never half a letter.
 */
#include "slowlift/error.h"

#include <assert.h>
#include <gsl/gsl_errno.h>
#include <string.h>

static const char *const code_names[] = {
#define AS_NAME(code, sentence) #code,
    SL_ERROR_LIST(AS_NAME)
#undef AS_NAME
};

static const char *const code_sentences[] = {
#define AS_SENTENCE(code, sentence) sentence,
    SL_ERROR_LIST(AS_SENTENCE)
#undef AS_SENTENCE
};

static void copy_cut(char *to, size_t size, const char *from)
{
    const char *const text = from ? from : "";
    size_t length = strlen(text);
    if (length >= size) {
        length = size - 1;
        while (length > 0 && ((unsigned char)text[length] & 0xC0U) == 0x80U) {
            length--;
        }
    }
    memcpy(to, text, length);
    to[length] = '\0';
}

bool sl_fail(sl_error *error, sl_code code, const char *found, const char *wanted)
{
    if (error) {
        error->code = code == SL_OK ? SL_ERR_UNSAID : code;
        copy_cut(error->found, sizeof error->found, found);
        copy_cut(error->wanted, sizeof error->wanted, wanted);
    }
    return false;
}

bool sl_fail_at(sl_error *error, sl_code code, const char *file, int line, int column, const char *found,
                const char *wanted)
{
    if (error) {
        copy_cut(error->file, sizeof error->file, file);
        error->line = line;
        error->column = column;
    }
    return sl_fail(error, code, found, wanted);
}

void sl_error_clear(sl_error *error)
{
    if (error) {
        *error = (sl_error){.code = SL_OK};
    }
}

const char *sl_code_name(sl_code code)
{
    assert(code < SL_CODE_COUNT);
    return code_names[code];
}

const char *sl_code_sentence(sl_code code)
{
    assert(code < SL_CODE_COUNT);
    return code_sentences[code];
}

void sl_start(void)
{
    gsl_set_error_handler_off();
}

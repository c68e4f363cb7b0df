/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A file of answers: opened, or begun under the code that its name gives.
 */
#include "front/kept.h"

#include <string.h>

#include "base/inputs.h"
#include "base/language.h"
#include "lesson/answers_save.h"

/* group-3 of folder/group-3.yaml. */
static bool code_of(const char *path, char code[SL_CODE_SIZE])
{
    const char *const slash = strrchr(path, '/');
    const char *const base = slash != NULL ? slash + 1 : path;
    const size_t length = strcspn(base, ".");
    if (length >= SL_CODE_SIZE) {
        return false;
    }
    memcpy(code, base, length);
    code[length] = '\0';
    return true;
}

bool sl_kept_open(sl_kept *kept, const char *path, sl_error *error)
{
    bool absent = false;
    char code[SL_CODE_SIZE] = "";
    *kept = (sl_kept){.path = path};
    if (path == NULL) {
        return sl_learner_answers_start(&kept->answers, "nobody", error);
    }
    if (!sl_input_replaced(path, N_("the file of answers"), error)) {
        return false;
    }
    if (sl_learner_answers_load(&kept->answers, path, &absent, error)) {
        return true;
    }
    if (!absent) {
        return false;
    }
    sl_error_clear(error);
    if (!code_of(path, code)) {
        return sl_fail(error, SL_ERR_USAGE, "the name of the answer file is too long",
                       "call it by a code such as group-3.yaml");
    }
    return sl_learner_answers_start(&kept->answers, code, error) &&
           sl_learner_answers_save(&kept->answers, path, error);
}

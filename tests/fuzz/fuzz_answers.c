/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The input is what a student or a group answered. What was read and is written must read the same again.
 */
#include "frame.h"

#include "slowlift/lesson.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    sl_error error = {.code = SL_OK};
    sl_learner_answers answers;
    frame_input("input.yaml", bytes, size);
    if (!sl_learner_answers_load(&answers, "input.yaml", NULL, &error)) {
        frame_refused(&error);
        return 0;
    }
    char *text = NULL;
    size_t length = 0;
    FILE *const out = open_memstream(&text, &length);
    if (!out || !sl_learner_answers_write(out, &answers) || fclose(out) != 0) {
        abort();
    }
    sl_learner_answers again;
    frame_input("input.yaml", (const uint8_t *)text, length);
    if (!sl_learner_answers_load(&again, "input.yaml", NULL, &error) ||
        again.n_records != answers.n_records || strcmp(again.code, answers.code) != 0) {
        abort();
    }
    free(text);
    return 0;
}

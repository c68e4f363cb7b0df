/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The input is the concept quiz, in English or, as its name says, in Spanish beside the shipped one.
 */
#include "frame.h"

#include "slowlift/lesson.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    static const char *const paths[] = {SLOWLIFT_SOURCE "/lessons/input.yaml",
                                        SLOWLIFT_SOURCE "/lessons/quiz.es.yaml"};
    for (size_t i = 0; i < 2; i++) {
        sl_error error = {.code = SL_OK};
        frame_input(paths[i], bytes, size);
        sl_quiz *const quiz = sl_quiz_load(paths[i], &error);
        if (!quiz) {
            frame_refused(&error);
        }
        sl_quiz_free(quiz);
    }
    return 0;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The input is the concept quiz, in English or, as its name says, in Spanish beside the shipped one.
 */
#include "frame.h"

#include "slowlift/lesson.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    const bool spanish = memmem(bytes, size, "language: es", 12) != NULL;
    static const char *const paths[] = {SLOWLIFT_SOURCE "/lessons/input.yaml",
                                        SLOWLIFT_SOURCE "/lessons/quiz.es.yaml"};
    const char *const path = paths[spanish ? 1 : 0];
    sl_error error = {.code = SL_OK};
    frame_input(path, bytes, size);
    sl_quiz *const quiz = sl_quiz_load(path, &error);
    if (!quiz) {
        frame_refused(&error);
    }
    sl_quiz_free(quiz);
    return 0;
}

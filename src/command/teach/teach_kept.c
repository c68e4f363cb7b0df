/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Answers kept on disk while a lesson goes on, and lines read from the keyboard.
 */
#include <stdlib.h>
#include <string.h>

#include "base/plain_text.h"
#include "command/teach/teach.h"
#include "lesson/answers_save.h"
#include "lesson/words.h"
#include "slowlift/report.h"

void sl_kept_save(sl_kept *kept, const char *language)
{
    sl_error error = {.code = SL_OK};
    if (kept->path == NULL) {
        return;
    }
    kept->unsaved = !sl_learner_answers_save(&kept->answers, kept->path, &error);
    if (kept->unsaved) {
        fflush(stdout);
        sl_complain(&error);
        fprintf(stderr, "%s\n", sl_lesson_said(SL_SAID_NOT_SAVED, language));
    }
}

sl_exit sl_kept_close(sl_kept *kept, const char *language)
{
    if (kept->path == NULL) {
        return SL_EXIT_OK;
    }
    sl_kept_save(kept, language);
    if (!kept->unsaved) {
        printf("%s ", sl_lesson_said(SL_SAID_SAVED, language));
        sl_text_put(stdout, kept->path);
        putchar('\n');
        return SL_EXIT_OK;
    }
    printf("\n");
    sl_learner_answers_write(stdout, &kept->answers);
    return SL_EXIT_PART;
}

bool sl_line_read(char *line, size_t size)
{
    fflush(stdout);
    if (fgets(line, (int)size, stdin) == NULL) {
        return false;
    }
    const size_t length = strcspn(line, "\r\n");
    if (line[length] == '\0' && length + 1 == size) { /* longer than anything that is asked for */
        int rest = 0;
        while ((rest = getchar()) != EOF && rest != '\n') {
        }
    }
    line[length] = '\0';
    return true;
}

int sl_line_number(const char *line, int n)
{
    const char *const digits = line + strspn(line, " ");
    const size_t length = strspn(digits, "0123456789");
    if (length == 0 || length > 2 || digits[length + strspn(digits + length, " ")] != '\0') {
        return 0;
    }
    const int number = (int)strtol(digits, NULL, 10);
    return number >= 1 && number <= n ? number : 0;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The end of a command: what went wrong, and whether everything was written.
 */
#include <errno.h>
#include <string.h>

#include "base/language.h"
#include "base/save.h"
#include "front/complain.h"
#include "slowlift/report.h"

static sl_exit exit_of(sl_code code)
{
    if (code == SL_ERR_USAGE) {
        return SL_EXIT_USAGE;
    }
    if (code == SL_ERR_NO_MEMORY || code == SL_ERR_CANNOT_WRITE || code == SL_ERR_MISSING_PART ||
        code == SL_ERR_ENDED || code == SL_ERR_UNSAID) {
        return SL_EXIT_PART;
    }
    return SL_EXIT_MODEL;
}

sl_exit sl_complain(const sl_error *error)
{
    char sentence[SL_ERROR_FILE_SIZE + 3 * SL_ERROR_TEXT_SIZE];
    sl_error unsaid = *error;
    if (error->code == SL_OK) { /* a failure that nobody explained is still one */
        sl_fail(&unsaid, SL_ERR_UNSAID, _("a step of this command"), _("nothing of it counts; try again"));
    }
    sl_error_sentence(&unsaid, sentence, sizeof sentence);
    fprintf(stderr, "slowlift: %s\n", sentence);
    return exit_of(unsaid.code);
}

sl_exit sl_finish_output(bool good)
{
    int reason = good ? 0 : errno;
    errno = 0;
    if (fflush(stdout) != 0) {
        reason = errno;
        good = false;
    }
    good = good && ferror(stdout) == 0;
    /* Some file systems say only at close that the disk was full. */
    errno = 0;
    if (fclose(stdout) != 0 && good) {
        reason = errno;
        good = false;
    }
    if (good || reason == EPIPE) {
        return SL_EXIT_OK;
    }
    sl_error error = {.code = SL_OK};
    if (reason == ENOMEM) { /* of the writer: no stream says that */
        sl_fail(&error, SL_ERR_NO_MEMORY, "telling the result", "");
    } else {
        sl_fail(&error, SL_ERR_CANNOT_WRITE, "the result",
                reason != 0 ? strerror(reason) : "the output failed");
    }
    return sl_complain(&error);
}

sl_exit sl_write_result(const char *output, sl_result_writer *write, const void *what)
{
    sl_error error = {.code = SL_OK};
    sl_save save;
    if (!output) {
        errno = 0;
        return sl_finish_output(write(stdout, what));
    }
    if (!sl_save_open(&save, output, &error)) {
        return sl_complain(&error);
    }
    if (!write(save.stream, what) && !ferror(save.stream)) { /* the stream keeps what failed of itself */
        sl_save_abandon(&save);
        sl_fail(&error, SL_ERR_NO_MEMORY, "telling the result", "");
        return sl_complain(&error);
    }
    return sl_save_commit(&save, &error) ? SL_EXIT_OK : sl_complain(&error);
}

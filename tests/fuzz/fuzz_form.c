/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The input is a form about a person, held against the arms and zones of a shipped scene; what was read can
 * be judged.
 */
#include "frame.h"

#include "slowlift/intake.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    sl_error error = {.code = SL_OK};
    sl_intake intake;
    frame_input("input.yaml", bytes, size);
    if (!sl_intake_load("input.yaml", frame_scene("way-short"), &intake, &error)) {
        frame_refused(&error);
        return 0;
    }
    const sl_intake_result judged = sl_intake_judge(&intake);
    if (judged.n_missing < 0 || judged.n_missing > SL_INTAKE_ASKED) {
        abort();
    }
    return 0;
}

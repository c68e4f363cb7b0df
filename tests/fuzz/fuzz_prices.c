/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The input is a shelf's prices.
 */
#include "frame.h"

#include "slowlift/cost.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    sl_error error = {.code = SL_OK};
    sl_prices prices;
    frame_input("input.yaml", bytes, size);
    if (!sl_prices_load("input.yaml", &prices, &error)) {
        frame_refused(&error);
    }
    return 0;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See parts.h.
 */
#include "front/work/parts.h"

#include "base/save.h"

bool part_save(const char *path, const sl_spread *spread, const sl_scene *scene, sl_error *error)
{
    sl_save save;
    sl_error why = {.code = SL_OK};
    if (!sl_save_open(&save, path, error)) {
        return false;
    }
    if (!sl_part_write(save.stream, spread, scene, &why) && why.code != SL_OK) {
        sl_save_abandon(&save);
        return sl_fail_at(error, why.code, path, 0, 0, why.found, why.wanted);
    }
    return sl_save_commit(&save, error); /* a stream that failed is refused there */
}

bool parts_merge(sl_spread **sum, const sl_scene *scene, const char *const paths[], int n, sl_error *error)
{
    sl_spread *whole = NULL;
    bool good = sl_part_load(&whole, scene, paths[0], error);
    for (int i = 1; good && i < n; i++) {
        sl_spread *part = NULL;
        good = sl_part_load(&part, scene, paths[i], error);
        sl_error why = {.code = SL_OK};
        if (good && !sl_spread_add(whole, part, &why)) {
            good = sl_fail_at(error, why.code, paths[i], 0, 0, why.found, why.wanted);
        }
        sl_spread_free(part);
    }
    if (!good) {
        sl_spread_free(whole);
        return false;
    }
    sl_spread_free(*sum);
    *sum = whole;
    return true;
}

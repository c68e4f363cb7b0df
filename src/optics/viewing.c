/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words for how hair is looked at, and the mix that lies on it. Invariant: light mixes by its
 * amount, so a veil is a mean of tristimulus values and never of sRGB bytes.
 */
#include <assert.h>

#include "base/language.h"
#include "slowlift/optics.h"

const char *sl_light_word(sl_light light)
{
    static const char *const words[SL_LIGHT_COUNT] = {
        [SL_LIGHT_D65] = N_("daylight (D65)"),
        [SL_LIGHT_A] = N_("lamp light (A)"),
        [SL_LIGHT_WARM_LED] = N_("warm white LED (LED-B1)"),
    };
    assert(light >= 0 && light < SL_LIGHT_COUNT);
    return words[light];
}

const char *sl_look_word(sl_look look)
{
    static const char *const words[SL_LOOK_COUNT] = {
        [SL_LOOK_DRY] = N_("dry"), [SL_LOOK_WET] = N_("wet"), [SL_LOOK_UNDER_MIX] = N_("under the mix")};
    assert(look >= 0 && look < SL_LOOK_COUNT);
    return words[look];
}

const char *sl_observer_word(sl_observer observer)
{
    static const char *const words[SL_OBSERVER_COUNT] = {
        [SL_OBSERVER_2_DEGREE] = N_("2 degree observer"),
        [SL_OBSERVER_10_DEGREE] = N_("10 degree observer"),
    };
    assert(observer >= 0 && observer < SL_OBSERVER_COUNT);
    return words[observer];
}

sl_srgb8 sl_veil(const sl_mix *mix, sl_srgb8 hair)
{
    const double cover = mix->veil_cover;
    assert(cover >= 0.0 && cover <= 1.0);
    if (!(cover > 0.0)) {
        return hair;
    }
    const sl_xyz veil = sl_xyz_of_lab((sl_lab){mix->veil_lab[0], mix->veil_lab[1], mix->veil_lab[2]});
    const sl_xyz below = sl_xyz_of_srgb8(hair);
    const sl_xyz seen = {
        cover * veil.X + (1.0 - cover) * below.X,
        cover * veil.Y + (1.0 - cover) * below.Y,
        cover * veil.Z + (1.0 - cover) * below.Z,
    };
    return sl_srgb8_of_xyz(seen, NULL);
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which cautions are owed, by what happens where something is read.
 */
#include "document/document.h"

static const unsigned owed_on[SL_CAUTION_COUNT] = {[SL_CAUTION_ESTIMATE] = SL_ON_OUTCOME | SL_ON_HAIR,
                                                   [SL_CAUTION_LABEL] = SL_ON_OUTCOME | SL_ON_HAIR |
                                                                        SL_ON_MIXING | SL_ON_KEEPING,
                                                   [SL_CAUTION_DUST] = SL_ON_HAIR | SL_ON_MIXING,
                                                   [SL_CAUTION_REACTED] = SL_ON_MIXING | SL_ON_PERSON,
                                                   [SL_CAUTION_TESTS] = SL_ON_STRAND | SL_ON_PERSON,
                                                   [SL_CAUTION_SCALP] = SL_ON_HAIR,
                                                   [SL_CAUTION_HEAT] = SL_ON_HAIR | SL_ON_WARMTH,
                                                   [SL_CAUTION_EYES] = SL_ON_MIXING | SL_ON_DAY,
                                                   [SL_CAUTION_CLOSED] = SL_ON_HAIR | SL_ON_MIXING,
                                                   [SL_CAUTION_METALLIC] = SL_ON_PERSON | SL_ON_DAY,
                                                   [SL_CAUTION_MIXING] = SL_ON_MIXING,
                                                   [SL_CAUTION_METAL] = SL_ON_MIXING,
                                                   [SL_CAUTION_SWATCH_ONLY] = SL_ON_UNLABELLED,
                                                   [SL_CAUTION_AGE] = SL_ON_CLASS | SL_ON_PERSON,
                                                   [SL_CAUTION_LICENCE] = SL_ON_CLASS | SL_ON_PERSON,
                                                   [SL_CAUTION_FRESHNESS] = SL_ON_KEEPING,
                                                   [SL_CAUTION_STRETCH] = SL_ON_LOOK | SL_ON_DAY,
                                                   [SL_CAUTION_DISPOSAL] = SL_ON_LEFTOVERS,
                                                   [SL_CAUTION_DOCTOR] = SL_ON_PERSON,
                                                   [SL_CAUTION_HEAD] = SL_ON_SWATCHES | SL_ON_PERSON};

bool sl_occasion_owes(unsigned occasions, sl_caution_id id)
{
    return (occasions & (owed_on[id] | SL_ON_ALL)) != 0;
}

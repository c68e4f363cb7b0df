/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/arm_table.h"

#include <stdio.h>

#include "base/language.h"

void sl_arm_place_words(int place, bool tie, char *text, size_t size)
{
    snprintf(text, size, tie ? _("%d even") : "%d", place);
}

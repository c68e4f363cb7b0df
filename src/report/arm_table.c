/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/arm_table.h"

#include <stdio.h>

#include "base/language.h"
#include "document/text.h"

enum { LEAST_NAME = 12, LEAST_PLACE = 7 };

int sl_arm_titles_width(const sl_scene *scene, int most)
{
    int widest = LEAST_NAME;
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const int width = sl_text_width(sl_arm_title(&scene->arms[arm]));
        widest = width > widest ? width : widest;
    }
    return widest < most ? widest : most;
}

void sl_arm_place_words(int place, bool tie, char *text, size_t size)
{
    snprintf(text, size, tie ? _("%d tie") : "%d", place);
}

int sl_arm_places_width(void)
{
    char widest[48];
    sl_arm_place_words(SL_MAX_ARMS, true, widest, sizeof widest);
    const int width = sl_text_width(widest) + 1;
    return width > LEAST_PLACE ? width : LEAST_PLACE;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Finding the face. Invariant: both paths come from the same family.
 */
#include "view/draw/face.h"

#include <fontconfig/fontconfig.h>
#include <stdio.h>
#include <string.h>

/* The best match of `family` at `weight`; false when fontconfig offers another family
 * and `any` is false. */
static bool match(const char *family, int weight, bool any, char *path, size_t size)
{
    FcPattern *pattern = FcPatternCreate();
    FcPatternAddString(pattern, FC_FAMILY, (const FcChar8 *)family);
    FcPatternAddInteger(pattern, FC_WEIGHT, weight);
    FcPatternAddInteger(pattern, FC_SLANT, FC_SLANT_ROMAN);
    FcPatternAddBool(pattern, FC_SCALABLE, FcTrue);
    FcConfigSubstitute(NULL, pattern, FcMatchPattern);
    FcDefaultSubstitute(pattern);
    FcResult result = FcResultNoMatch;
    FcPattern *found = FcFontMatch(NULL, pattern, &result);
    bool good = false;
    FcChar8 *got_family = NULL;
    FcChar8 *file = NULL;
    if (found != NULL && FcPatternGetString(found, FC_FAMILY, 0, &got_family) == FcResultMatch &&
        FcPatternGetString(found, FC_FILE, 0, &file) == FcResultMatch &&
        (any || strcmp((const char *)got_family, family) == 0)) {
        good = snprintf(path, size, "%s", (const char *)file) < (int)size;
    }
    if (found != NULL) {
        FcPatternDestroy(found);
    }
    FcPatternDestroy(pattern);
    return good;
}

bool sl_face_find(sl_face *face, sl_error *error)
{
    static const char *const families[] = {"Inter", "DejaVu Sans", "sans"};
    if (!FcInit()) {
        return sl_fail(error, SL_ERR_MISSING_PART, "fontconfig could not start", "see its configuration");
    }
    bool found = false;
    for (int i = 0; i < 3 && !found; i++) {
        const bool any = i == 2;
        found = match(families[i], FC_WEIGHT_REGULAR, any, face->regular, sizeof face->regular) &&
                match(families[i], FC_WEIGHT_BOLD, any, face->bold, sizeof face->bold);
    }
    FcFini();
    return found ||
           sl_fail(error, SL_ERR_MISSING_PART, "no typeface", "install fonts-inter or fonts-dejavu-core");
}

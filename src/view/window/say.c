/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See say.h.
 */
#include "view/window/say.h"

#include <stdio.h>
#include <string.h>

static bool press(const sl_sayer *sayer, const char *name, sl_error *error)
{
    SDL_Event event = {.type = SDL_KEYDOWN};
    const bool shift = strncmp(name, "shift+", 6) == 0, control = strncmp(name, "ctrl+", 5) == 0;
    event.key.state = SDL_PRESSED;
    event.key.keysym.mod = shift ? KMOD_LSHIFT : control ? KMOD_LCTRL : KMOD_NONE;
    event.key.keysym.sym = SDL_GetKeyFromName(name + (shift ? 6 : control ? 5 : 0));
    if (event.key.keysym.sym == SDLK_UNKNOWN) {
        return sl_fail(error, SL_ERR_USAGE, name, "name keys such as Return, W, shift+Right, ctrl+=");
    }
    sayer->take(sayer->self, &event);
    return true;
}

bool sl_say_all(const sl_sayer *sayer, const char *keys, sl_error *error)
{
    bool good = sayer->tell(sayer->self, "start", error);
    while (good && *keys != '\0' && !sayer->left(sayer->self)) {
        char name[32];
        const size_t length = strcspn(keys, ",");
        snprintf(name, sizeof name, "%.*s", (int)SDL_min(length, sizeof name - 1), keys);
        keys += length + (keys[length] == ',');
        good =
            press(sayer, name, error) && (sayer->left(sayer->self) || sayer->tell(sayer->self, name, error));
    }
    return good;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Alarms that are heard: beeps of a generated sine. Invariant: a computer without sound is no
 * error; whoever asks is told.
 */
#ifndef SLOWLIFT_VIEW_DAY_SOUND_H
#define SLOWLIFT_VIEW_DAY_SOUND_H

#include <SDL.h>
#include <stdbool.h>
#include <stdint.h>

enum { SL_SOUND_RATE = 22050 }; /* samples a second */

typedef struct sl_day_sound {
    SDL_AudioDeviceID device; /* 0: there is none */
} sl_day_sound;

bool sl_day_sound_start(sl_day_sound *sound); /* false: no sound here */
void sl_day_sound_stop(sl_day_sound *sound);
/* So many beeps, unless some are still sounding. */
void sl_day_sound_beep(const sl_day_sound *sound, int beeps);

/* One beep with the silence after it; at most `most` samples. Returns how many. */
int sl_day_sound_wave(int16_t *samples, int most);

#endif

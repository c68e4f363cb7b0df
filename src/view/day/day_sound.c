/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * 880 Hz and its octave: where hearing is good and small loudspeakers are too. Each beep rises
 * and falls over 10 ms, so that it does not click.
 */
#include "view/day/day_sound.h"

#include <fcntl.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const double PI = 3.14159265358979323846;
static const double BEEP_S = 0.16, SILENCE_S = 0.12, RAMP_S = 0.010, TONE_HZ = 880.0, LOUD = 0.7;

int sl_day_sound_wave(int16_t *samples, int most)
{
    const int n = (int)((BEEP_S + SILENCE_S) * SL_SOUND_RATE);
    for (int i = 0; i < n && i < most; i++) {
        const double t = (double)i / SL_SOUND_RATE;
        const double ramp = fmax(0.0, fmin(1.0, fmin(t, BEEP_S - t) / RAMP_S));
        const double wave = 0.7 * sin(2.0 * PI * TONE_HZ * t) + 0.3 * sin(4.0 * PI * TONE_HZ * t);
        samples[i] = (int16_t)lround(32767.0 * LOUD * ramp * wave);
    }
    return n < most ? n : most;
}

/* Sound libraries write to stderr what they look for in vain; the window says it in one line.
 * Returns what stderr was. */
static int hush(void)
{
    fflush(stderr);
    const int kept = dup(STDERR_FILENO);
    const int nothing = open("/dev/null", O_WRONLY | O_CLOEXEC);
    if (kept >= 0 && nothing >= 0) {
        dup2(nothing, STDERR_FILENO);
    }
    if (nothing >= 0) {
        close(nothing);
    }
    return kept;
}

static void speak_again(int kept)
{
    if (kept >= 0) {
        dup2(kept, STDERR_FILENO);
        close(kept);
    }
}

bool sl_day_sound_start(sl_day_sound *sound)
{
    SDL_AudioSpec wish;
    memset(&wish, 0, sizeof wish);
    wish.freq = SL_SOUND_RATE;
    wish.format = AUDIO_S16SYS;
    wish.channels = 1;
    wish.samples = 1024;
    sound->device = 0;
    const int kept = hush();
    if (SDL_InitSubSystem(SDL_INIT_AUDIO) == 0) {
        sound->device = SDL_OpenAudioDevice(NULL, 0, &wish, NULL, 0);
    }
    speak_again(kept);
    if (sound->device != 0) {
        SDL_PauseAudioDevice(sound->device, 0);
    }
    return sound->device != 0;
}

void sl_day_sound_stop(sl_day_sound *sound)
{
    if (sound->device != 0) {
        SDL_CloseAudioDevice(sound->device);
    }
    sound->device = 0;
}

void sl_day_sound_beep(const sl_day_sound *sound, int beeps)
{
    int16_t wave[SL_SOUND_RATE / 2];
    if (sound->device == 0 || SDL_GetQueuedAudioSize(sound->device) > 0) {
        return;
    }
    const int n = sl_day_sound_wave(wave, (int)(sizeof wave / sizeof wave[0]));
    for (int i = 0; i < beeps; i++) {
        SDL_QueueAudio(sound->device, wave, (Uint32)n * (Uint32)sizeof wave[0]);
    }
}

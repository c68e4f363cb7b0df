/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The input is a part of an ensemble without its checksum, which is made here, so that what it protects is
 * reached. What was read can be written, and reads again as the same.
 */
#include "frame.h"

#include "slowlift/part.h"

enum { CHECKSUM_LINE = 26 };

static sl_spread *read_back(const char *text, size_t length)
{
    sl_spread *part = NULL;
    sl_error error = {.code = SL_OK};
    if (!sl_part_parse(&part, frame_scene("way-short"), text, length, "input", &error)) {
        frame_refused(&error);
        return NULL;
    }
    return part;
}

static char *written(const sl_spread *part, size_t *length)
{
    char *text = NULL;
    sl_error error = {.code = SL_OK};
    FILE *const out = open_memstream(&text, length);
    if (!out || !sl_part_write(out, part, frame_scene("way-short"), &error) || fclose(out) != 0) {
        abort();
    }
    return text;
}

/* Parts of small ensembles of the scene, with something seen and without. */
void fuzz_seeds(const char *folder)
{
    static const sl_observations observations = {
        .n = 1, .observation = {{.arm = 1, .zone = -1, .minute = 3.0, .wipe = SL_WIPE_HALF}}};
    for (int i = 0; i < 4; i++) {
        const sl_spread_request request = {.members = i < 2 ? 64 : 256,
                                           .seed = (uint64_t)i,
                                           .threads = 1,
                                           .observations = i % 2 == 1 ? &observations : NULL};
        char path[512];
        sl_error error = {.code = SL_OK};
        sl_spread *spread = NULL;
        size_t length = 0;
        snprintf(path, sizeof path, "%s/members-%d", folder, i);
        FILE *const out = fopen(path, "wb");
        if (!out || !sl_spread_run(&spread, frame_scene("way-short"), &request, &error)) {
            fprintf(stderr, "%s: %s; %s\n", path, error.found, error.wanted);
            exit(EXIT_FAILURE);
        }
        char *const text = written(spread, &length);
        fwrite(text, 1, length - CHECKSUM_LINE, out);
        fclose(out);
        free(text);
        sl_spread_free(spread);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    char *const text = malloc(size + CHECKSUM_LINE + 1);
    if (!text) {
        return 0;
    }
    if (size > 0) {
        memcpy(text, bytes, size);
    }
    snprintf(text + size, CHECKSUM_LINE + 1, "checksum %016llx\n",
             (unsigned long long)sl_fnv(SL_FNV_START, bytes, size));
    sl_spread *const part = read_back(text, size + CHECKSUM_LINE);
    if (part) {
        size_t length = 0, length_again = 0;
        char *const once = written(part, &length);
        sl_spread *const again = read_back(once, length);
        char *const twice = again ? written(again, &length_again) : NULL;
        if (!twice || length != length_again || memcmp(once, twice, length) != 0) {
            abort();
        }
        free(once);
        free(twice);
        sl_spread_free(again);
    }
    sl_spread_free(part);
    free(text);
    return 0;
}

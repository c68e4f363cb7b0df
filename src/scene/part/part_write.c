/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An ensemble's counts as lines of text, each a word and whole numbers; doubles by their bits, so
 * that no locale and no rounding comes between. Empty bins are left out. The format is described in
 * docs/file-format.md, "Parts"; part_file.c reads it.
 */
#include <inttypes.h>
#include <stdarg.h>
#include <string.h>

#include "slowlift/part.h"

typedef struct part_writer {
    FILE *out;
    uint64_t hash;
    bool good;
} part_writer;

__attribute__((format(printf, 2, 3))) static void put(part_writer *writer, const char *format, ...)
{
    char text[256];
    va_list arguments;
    va_start(arguments, format);
    const int length = vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    writer->good = writer->good && length >= 0 && (size_t)length < sizeof text &&
                   fwrite(text, 1, (size_t)length, writer->out) == (size_t)length;
    writer->hash = length > 0 ? sl_fnv(writer->hash, text, (size_t)length) : writer->hash;
}

static uint64_t bits_of(double value)
{
    uint64_t bits = 0;
    memcpy(&bits, &value, sizeof bits);
    return bits;
}

static void put_bins(part_writer *writer, const char *word, const uint64_t *bins, int n)
{
    put(writer, "%s", word);
    for (int i = 0; i < n; i++) {
        if (bins[i] > 0) {
            put(writer, " %d:%" PRIu64, i, bins[i]);
        }
    }
    put(writer, "\n");
}

static void put_arm(part_writer *writer, const sl_spread *spread, const char *word, int number,
                    const sl_arm_spread *arm)
{
    put(writer, "%s %d\n", word, number);
    put_bins(writer, "early", arm->early, spread->seconds + 1);
    put_bins(writer, "open-early", arm->open_early, spread->seconds + 1);
    put_bins(writer, "late", arm->late, spread->seconds + 1);
    put_bins(writer, "last-zone", arm->last_zone, spread->n_zones);
    put_bins(writer, "left", arm->left_hundredths, 101);
    put(writer, "late-by");
    for (int i = 0; i < SL_STOPS; i++) {
        put(writer, " %" PRId64, arm->late_by[i]);
    }
    put(writer, "\nmargin %" PRId64 " %" PRId64 "\n", arm->sum_s, arm->square_s2);
    for (int d = 0; d < spread->plan.n; d++) {
        put(writer, "bins %d", d);
        for (int b = 0; b < SL_INDEX_BINS; b++) {
            put(writer, " %" PRId64 " %" PRId64 " %" PRId64, arm->index_count[d][b], arm->index_sum_s[d][b],
                arm->index_open[d][b]);
        }
        put(writer, "\n");
    }
}

static void put_head(part_writer *writer, const sl_spread *spread, const sl_scene *scene)
{
    put(writer,
        "slowlift-part %d\nprogram " SLOWLIFT_VERSION "\nscene %016" PRIx64 "\nseed %" PRIu64
        "\nmembers %ld\n",
        SL_PART_VERSION, sl_scene_fingerprint(scene), spread->seed, spread->members);
    for (int i = 0; i < spread->n_ranges; i++) {
        put(writer, "range %ld %ld\n", spread->range[i].first, spread->range[i].members);
    }
    for (int d = 0; d < spread->plan.n; d++) {
        const sl_drawn *const drawn = &spread->plan.drawn[d];
        put(writer, "drawn %d %d %016" PRIx64 " %d\n", (int)drawn->doubt, drawn->dye, bits_of(drawn->spread),
            (int)drawn->grade);
    }
}

static void put_seen(part_writer *writer, const sl_seen *seen)
{
    for (int i = 0; i < seen->observations.n; i++) {
        const sl_observation *const observation = &seen->observations.observation[i];
        put(writer, "saw %d %d %016" PRIx64 " %d %d %ld\n", observation->arm, observation->zone,
            bits_of(observation->minute), (int)observation->wipe, observation->strand ? 1 : 0,
            seen->agree[i]);
    }
    if (seen->observations.n > 0) {
        put(writer, "weights %d %" PRId64 " %" PRId64 " %ld %ld\n", seen->scale, seen->weight, seen->square,
            seen->capped, seen->agree_all);
    }
}

bool sl_part_write(FILE *out, const sl_spread *spread, const sl_scene *scene, sl_error *error)
{
    if (spread->stopped) {
        return sl_fail(error, SL_ERR_INCONSISTENT, "this part was stopped before its end", "run it again");
    }
    part_writer writer = {.out = out, .hash = SL_FNV_START, .good = true};
    put_head(&writer, spread, scene);
    put_seen(&writer, &spread->seen);
    for (int a = 0; a < spread->n_arms; a++) {
        if (spread->arms[a].asked) {
            put_arm(&writer, spread, "arm", a, &spread->arms[a]);
        }
        if (spread->arms[a].asked && spread->weighed) {
            put_arm(&writer, spread, "weighed", a, &spread->weighed[a]);
        }
    }
    put(&writer, "checksum %016" PRIx64 "\n", writer.hash);
    return writer.good;
}

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A part read back: strict, line by line, the checksum first. See part_write.c for the lines.
 * Invariant: no count is taken that does not add up with the others.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "base/plain_file.h"
#include "estimate/counts.h"
#include "scene/part/part_lines.h"
#include "slowlift/part.h"

enum { CHECKSUM_LINE = 26 };
static const sl_file_most part_most = {64 << 20, "64 MiB"};

/* What stands before the counts. */
typedef struct part_head {
    uint64_t seed;
    int64_t members;
    int n_ranges;
    sl_member_range range[SL_MOST_RANGES];
    sl_seen seen;
} part_head;

/* ---- the head --------------------------------------------------------------------------------- */

static bool read_scene(part_reader *r)
{
    uint64_t fingerprint = 0;
    if (!part_want_line(r, "scene") || !part_hex(r, &fingerprint) || !part_line_ends(r)) {
        return false;
    }
    return fingerprint == sl_scene_fingerprint(r->scene) ||
           part_refuse(r, SL_ERR_INCONSISTENT, "this part is of another scene",
                       "run every part on the same scene and models");
}

static bool read_program(part_reader *r)
{
    static const char own[] = " " SLOWLIFT_VERSION "\n";
    const size_t length = strlen(own);
    if (!part_want_line(r, "program")) {
        return false;
    }
    if ((size_t)(r->end - r->at) < length || memcmp(r->at, own, length) != 0) {
        return part_refuse(r, SL_ERR_INCONSISTENT, "this part was counted by another version of the program",
                           "run every part with one version");
    }
    r->at += length;
    return true;
}

static bool read_seed(part_reader *r, uint64_t *seed)
{
    return part_want_line(r, "seed") && (part_skip(r, ' ') || part_malformed(r)) &&
           (part_digits(r, seed) || part_malformed(r)) && part_line_ends(r);
}

static bool read_ranges(part_reader *r, part_head *head)
{
    int64_t sum = 0;
    int64_t after = -1; /* the least first member of the next */
    while (part_line_is(r, "range")) {
        int64_t first = 0;
        int64_t members = 0;
        if (head->n_ranges == SL_MOST_RANGES ||
            !part_whole(r, after + 1, INT32_MAX * INT64_C(1000), &first) ||
            !part_whole(r, 1, head->members - sum, &members) || !part_line_ends(r)) {
            return part_malformed(r);
        }
        head->range[head->n_ranges++] = (sl_member_range){(long)first, (long)members};
        after = first + members;
        sum += members;
    }
    return sum == head->members || part_malformed(r);
}

static bool read_plan(part_reader *r, const sl_draw_plan *plan)
{
    for (int d = 0; d < plan->n; d++) {
        const sl_drawn *const drawn = &plan->drawn[d];
        int doubt = 0;
        int dye = 0;
        int grade = 0;
        double spread = 0.0;
        if (!part_want_line(r, "drawn") || !part_small(r, 0, SL_DOUBTS - 1, &doubt) ||
            !part_small(r, -1, INT16_MAX, &dye) || !part_number(r, &spread) ||
            !part_small(r, 0, SL_GRADE_COUNT - 1, &grade) || !part_line_ends(r)) {
            return false;
        }
        if (doubt != (int)drawn->doubt || dye != drawn->dye || grade != (int)drawn->grade ||
            fabs(spread - drawn->spread) > 0.0) {
            return part_refuse(r, SL_ERR_INCONSISTENT, "this part drew something else",
                               "run every part with one version of the program");
        }
    }
    return true;
}

static bool read_saw(part_reader *r, sl_seen *seen, int64_t members)
{
    sl_observation observation = {0};
    int wipe = 0;
    int strand = 0;
    int64_t agree = 0;
    if (seen->observations.n == SL_MOST_OBSERVATIONS || !part_small(r, 0, SL_MAX_ARMS, &observation.arm) ||
        !part_small(r, -1, SL_MAX_ZONES, &observation.zone) || !part_number(r, &observation.minute) ||
        !part_small(r, 0, SL_WIPES - 1, &wipe) || !part_small(r, 0, 1, &strand) ||
        !part_whole(r, 0, members, &agree) || !part_line_ends(r)) {
        return part_malformed(r);
    }
    observation.wipe = (sl_wipe)wipe;
    observation.strand = strand == 1;
    seen->agree[seen->observations.n] = (long)agree;
    seen->observations.observation[seen->observations.n++] = observation;
    return true;
}

static bool read_seen(part_reader *r, sl_seen *seen, int64_t members)
{
    while (part_line_is(r, "saw")) {
        if (!read_saw(r, seen, members)) {
            return false;
        }
    }
    if (seen->observations.n == 0) {
        return true;
    }
    sl_error why = {0};
    if (!sl_observations_check(&seen->observations, r->scene, &why)) {
        return part_refuse(r, SL_ERR_INCONSISTENT, why.found, why.wanted);
    }
    int64_t capped = 0;
    int64_t agree_all = 0;
    const bool good = part_want_line(r, "weights") && part_small(r, -2000, 2000, &seen->scale) &&
                      part_whole(r, 0, members * SL_MOST_WEIGHT, &seen->weight) &&
                      part_whole(r, 0, INT64_MAX, &seen->square) && part_whole(r, 0, members, &capped) &&
                      part_whole(r, 0, members, &agree_all) && part_line_ends(r);
    seen->capped = (long)capped;
    seen->agree_all = (long)agree_all;
    return good;
}

static bool read_head(part_reader *r, part_head *head, const sl_draw_plan *plan)
{
    return read_program(r) && read_scene(r) && read_seed(r, &head->seed) && part_want_line(r, "members") &&
           part_whole(r, 1, INT32_MAX, &head->members) && part_line_ends(r) && read_ranges(r, head) &&
           read_plan(r, plan) && read_seen(r, &head->seen, head->members);
}

/* ---- counts ------------------------------------------------------------------------------------- */

/* total < 0: the bins need not sum to anything. */
static bool read_bins(part_reader *r, const char *word, uint64_t *bins, int n, int64_t total)
{
    uint64_t sum = 0;
    int next = 0;
    if (!part_want_line(r, word)) {
        return false;
    }
    while (!part_skip(r, '\n')) {
        int64_t bin = 0;
        uint64_t count = 0;
        if (!part_whole(r, next, n - 1, &bin) || !part_skip(r, ':') || !part_digits(r, &count) ||
            count > INT64_MAX) {
            return part_malformed(r);
        }
        bins[bin] = count;
        sum += count;
        next = (int)bin + 1;
    }
    return total < 0 || sum == (uint64_t)total || part_malformed(r);
}

static bool read_margins(part_reader *r, const sl_spread *spread, sl_arm_spread *arm, int64_t total)
{
    int64_t sum = 0;
    if (!part_want_line(r, "late-by")) {
        return false;
    }
    for (int i = 0; i < SL_STOPS; i++) {
        if (!part_whole(r, 0, total, &arm->late_by[i])) {
            return false;
        }
        sum += arm->late_by[i];
    }
    if (sum != total || !part_line_ends(r) || !part_want_line(r, "margin") ||
        !part_whole(r, -INT64_MAX, INT64_MAX, &arm->sum_s) || !part_whole(r, 0, INT64_MAX, &arm->square_s2) ||
        !part_line_ends(r)) {
        return part_malformed(r);
    }
    for (int d = 0; d < spread->plan.n; d++) {
        int number_of = 0;
        int64_t in_bins = 0;
        if (!part_want_line(r, "bins") || !part_small(r, d, d, &number_of)) {
            return false;
        }
        for (int b = 0; b < SL_INDEX_BINS; b++) {
            if (!part_whole(r, 0, total, &arm->index_count[d][b]) ||
                !part_whole(r, -INT64_MAX, INT64_MAX, &arm->index_sum_s[d][b]) ||
                !part_whole(r, 0, arm->index_count[d][b], &arm->index_open[d][b])) {
                return false;
            }
            in_bins += arm->index_count[d][b];
        }
        if (in_bins != total || !part_line_ends(r)) {
            return part_malformed(r);
        }
    }
    return true;
}

static bool read_arm(part_reader *r, const sl_spread *spread, const char *word, int arm,
                     sl_arm_spread *counts, int64_t total)
{
    int number_of = 0;
    const int bins = spread->seconds + 1;
    if (!part_want_line(r, word) || !part_small(r, arm, arm, &number_of) || !part_line_ends(r) ||
        !read_bins(r, "early", counts->early, bins, total) ||
        !read_bins(r, "open-early", counts->open_early, bins, -1) ||
        !read_bins(r, "late", counts->late, bins, total) ||
        !read_bins(r, "last-zone", counts->last_zone, spread->n_zones, total) ||
        !read_bins(r, "left", counts->left_hundredths, 101, total) ||
        !read_margins(r, spread, counts, total)) {
        return false;
    }
    counts->open = 0;
    for (int i = 0; i < bins; i++) {
        if (counts->open_early[i] > counts->early[i]) {
            return part_malformed(r);
        }
        counts->open += (int64_t)counts->open_early[i];
    }
    return true;
}

static bool read_counts(part_reader *r, sl_spread *spread)
{
    for (int a = 0; a < spread->n_arms; a++) {
        if (!spread->arms[a].asked) {
            continue;
        }
        if (!read_arm(r, spread, "arm", a, &spread->arms[a], spread->members) ||
            (spread->weighed &&
             !read_arm(r, spread, "weighed", a, &spread->weighed[a], spread->seen.weight))) {
            return false;
        }
    }
    if (r->at != r->end) {
        r->line++;
        return part_malformed(r);
    }
    return true;
}

/* ---- the whole ------------------------------------------------------------------------------------ */

static bool read_version(part_reader *r)
{
    int version = 0;
    if (!part_line_is(r, "slowlift-part")) {
        r->line = 1;
        return part_refuse(r, SL_ERR_SYNTAX, "this is no part of an ensemble",
                           "name files that --part has written");
    }
    if (!part_small(r, 1, INT16_MAX, &version) || !part_line_ends(r)) {
        return false;
    }
    char found[16];
    snprintf(found, sizeof found, "%d", version);
    return version == SL_PART_VERSION ||
           part_refuse(r, SL_ERR_NEWER_VERSION, found, "run it again with this version of the program");
}

static bool checksum_fits(part_reader *r, const char *text, size_t length)
{
    char wanted[CHECKSUM_LINE + 1];
    int last = 0;
    for (size_t i = 0; i < length; i++) {
        last += text[i] == '\n' ? 1 : 0;
    }
    const uint64_t hash = sl_fnv(SL_FNV_START, text, (size_t)(r->end - text));
    snprintf(wanted, sizeof wanted, "checksum %016llx\n", (unsigned long long)hash);
    if (memcmp(r->end, wanted, CHECKSUM_LINE) == 0) {
        return true;
    }
    r->line = last > 0 ? last : 1;
    return part_refuse(r, SL_ERR_SYNTAX, "the checksum does not fit: this part was cut short or changed",
                       "run this part again");
}

bool sl_part_parse(sl_spread **part, const sl_scene *scene, const char *text, size_t length, const char *name,
                   sl_error *error)
{
    const size_t tail = length < CHECKSUM_LINE ? length : CHECKSUM_LINE;
    part_reader r = {.scene = scene, .name = name, .at = text, .end = text + (length - tail), .error = error};
    part_head head = {0};
    const sl_draw_plan plan = sl_draw_plan_of(scene);
    if (!read_version(&r)) {
        return false;
    }
    const int line = r.line;
    if (!checksum_fits(&r, text, length)) {
        return false;
    }
    r.line = line;
    if (!read_head(&r, &head, &plan)) {
        return false;
    }
    sl_spread *const spread = spread_new(scene, &plan, head.seed, &head.seen.observations, error);
    if (!spread) {
        return false;
    }
    spread->seen = head.seen;
    spread->members = spread->asked_for = (long)head.members;
    spread->n_ranges = head.n_ranges;
    memcpy(spread->range, head.range, sizeof head.range);
    if (!read_counts(&r, spread)) {
        sl_spread_free(spread);
        return false;
    }
    sl_spread_free(*part);
    *part = spread;
    return true;
}

bool sl_part_load(sl_spread **part, const sl_scene *scene, const char *path, sl_error *error)
{
    char *text = NULL;
    size_t length = 0;
    if (!sl_plain_file_read(path, N_("a part that is added up"), part_most, &text, &length, NULL, error)) {
        return false;
    }
    const bool good = sl_part_parse(part, scene, text, length, path, error);
    sl_free(text);
    return good;
}

sl_member_range sl_part_range(long members, int number, int parts)
{
    const long each = members / parts;
    const long over = members % parts; /* the first parts take one more */
    const long before = number - 1;
    return (sl_member_range){before * each + (before < over ? before : over), each + (before < over ? 1 : 0)};
}

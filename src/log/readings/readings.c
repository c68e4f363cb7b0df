/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings: their words, what one must say, and keeping them.
 */
#include <errno.h>
#include <sha256.h>
#include <stdio.h>
#include <string.h>
#include <time.h>
#include <uuid/uuid.h>

#include "base/append.h"
#include "base/code.h"
#include "base/language.h"
#include "base/plain_file.h"
#include "base/plain_text.h"
#include "log/readings/reading_columns.h"
#include "log/store/iso_time.h"
#include "log/store/writer.h"

#define SL_AS_WORD(word) word,
static const char *const cottons[] = {SL_COTTON_LIST(SL_AS_WORD)};
static const char *const feels[] = {SL_FEEL_LIST(SL_AS_WORD)};
static const char *const stretches[] = {SL_STRETCH_LIST(SL_AS_WORD)};
static const char *const outcomes[] = {SL_OUTCOME_LIST(SL_AS_WORD)};
#undef SL_AS_WORD

static const struct {
    const char *name;
    const char *const *word; /* NULL: those of observation.h */
    int n;
} lists[SL_SAIDS] = {{"grade", NULL, SL_WIPES},
                     {"cotton", cottons, (int)(sizeof cottons / sizeof cottons[0])},
                     {"feel", feels, (int)(sizeof feels / sizeof feels[0])},
                     {"stretch", stretches, (int)(sizeof stretches / sizeof stretches[0])},
                     {"outcome", outcomes, (int)(sizeof outcomes / sizeof outcomes[0])}};

const char *sl_said_name(sl_said what)
{
    return lists[what].name;
}

const char *sl_said_word(sl_said what, int word)
{
    if (word < 0 || word >= lists[what].n) {
        return NULL;
    }
    return lists[what].word ? lists[what].word[word] : sl_wipe_word((sl_wipe)word);
}

int sl_said_of_word(sl_said what, const char *word)
{
    for (int i = 0; i < lists[what].n; i++) {
        if (strcmp(sl_said_word(what, i), word) == 0) {
            return i;
        }
    }
    return SL_NOT_SAID;
}

sl_log_reading sl_log_reading_begin(void)
{
    sl_log_reading reading = {.minute = SL_NOT_READ,
                              .hours_after = SL_NOT_READ,
                              .blind = SL_NOT_SAID,
                              .uncovered = SL_NOT_SAID,
                              .L = SL_NOT_READ,
                              .a = SL_NOT_READ,
                              .b = SL_NOT_READ,
                              .sd_L = SL_NOT_READ,
                              .sd_a = SL_NOT_READ,
                              .sd_b = SL_NOT_READ,
                              .level = SL_NOT_READ};
    for (int i = 0; i < SL_SAIDS; i++) {
        reading.said[i] = SL_NOT_SAID;
    }
    return reading;
}

bool sl_log_code_check(const char *what, const char *code, sl_error *error)
{
    return sl_code_check(what, code, error);
}

static bool was_read(double value)
{
    return value > SL_NOT_READ;
}

bool sl_reading_says(const sl_log_reading *reading)
{
    for (int i = 0; i < SL_SAIDS; i++) {
        if (reading->said[i] != SL_NOT_SAID) {
            return true;
        }
    }
    return was_read(reading->L) || was_read(reading->level) || reading->tone[0] || reading->photo[0] ||
           reading->note[0];
}

bool sl_reading_check(const sl_log_reading *reading, sl_error *error)
{
    const bool L = was_read(reading->L), a = was_read(reading->a), b = was_read(reading->b);
    if (!sl_log_code_check("the judge's code", reading->judge, error)) {
        return false;
    }
    if (L != a || a != b) {
        return sl_fail(error, SL_ERR_INCONSISTENT, "L, a and b are not all there", "give all three or none");
    }
    if (L && (!reading->illuminant[0] || !reading->observer[0])) {
        return sl_fail(error, SL_ERR_INCONSISTENT, "L, a, b without illuminant and observer",
                       "numbers of a colour mean nothing without them, such as D65 and 10");
    }
    if (reading->observer[0] && strcmp(reading->observer, "2") != 0 && strcmp(reading->observer, "10") != 0) {
        return sl_fail(error, SL_ERR_INCONSISTENT, "an observer that is not known",
                       "write 2 or 10 (degrees)");
    }
    if ((reading->photo[0] != '\0') != (reading->photo_sha256[0] != '\0')) {
        return sl_fail(error, SL_ERR_INCONSISTENT, "a photo and its SHA-256 belong together",
                       "give both, or take the photo with slowlift log add --photo");
    }
    if (!sl_reading_says(reading)) {
        return sl_fail(error, SL_ERR_INCONSISTENT, "a reading that says nothing",
                       "give at least a grade, another word, L a b, a level, a photo or a note");
    }
    return true;
}

/* ---- ids ----------------------------------------------------------------------------------------------- */

static uint64_t bits_of(const unsigned char *bytes, int n)
{
    uint64_t bits = 0;
    for (int i = 0; i < n; i++) {
        bits = bits << 8 | bytes[i];
    }
    return bits;
}

static void put_bits(unsigned char *bytes, int n, uint64_t bits)
{
    for (int i = n - 1; i >= 0; i--, bits >>= 8) {
        bytes[i] = (unsigned char)(bits & 0xffU);
    }
}

/* Ids that grow: many at once stand side by side in the log's index, which random ones would have
 * written all over again and again. */
static void next_id(sl_id_row *ids, char id[SL_UUID])
{
    uuid_t bytes;
    struct timespec now;
    clock_gettime(CLOCK_REALTIME, &now);
    const uint64_t ms = (uint64_t)now.tv_sec * 1000U + (uint64_t)now.tv_nsec / 1000000U;
    if (ms > ids->ms) {
        uuid_generate_random(bytes);
        *ids = (sl_id_row){ms, bits_of(bytes, 2) & 0xfffU, bits_of(bytes + 8, 8) >> 3};
    } else {
        ids->tail++; /* 61 random bits of 62: it cannot run over within a millisecond */
    }
    put_bits(bytes, 6, ids->ms);
    put_bits(bytes + 6, 2, 0x7000U | ids->high);
    put_bits(bytes + 8, 8, 0x8000000000000000U | ids->tail);
    uuid_unparse_lower(bytes, id);
}

/* ---- writing ----------------------------------------------------------------------------------------- */

void sl_writer_open(sl_writer *writer, sl_log *log, sl_error *error)
{
    char names[512], text[2048];
    *writer = (sl_writer){.log = log, .error = error};
    sl_column_names("", names, sizeof names);
    snprintf(text, sizeof text, "INSERT INTO reading (%s) VALUES (?", names);
    for (int i = 1; i < SL_READING_COLUMNS; i++) {
        sl_append(text, sizeof text, ",?");
    }
    sl_append(text, sizeof text, ") ON CONFLICT (id) DO NOTHING");
    writer->put = sl_sql(log, text, error);
    snprintf(text, sizeof text, "SELECT count(*) FROM reading WHERE %s IS ?", sl_reading_columns[0].name);
    for (int i = 1; i < SL_READING_COLUMNS; i++) {
        sl_append(text, sizeof text, " AND %s IS ?", sl_reading_columns[i].name);
    }
    writer->same = sl_sql(log, text, error);
    writer->replaced = sl_sql(log, "SELECT swatch FROM reading WHERE id = ?", error);
}

static bool same_is_there(sl_writer *writer, const sl_log_reading *reading)
{
    char found[SL_ERROR_TEXT_SIZE];
    sl_sql_again(&writer->same);
    sl_columns_put(&writer->same, reading);
    if (!sl_next_row(&writer->same)) {
        return false;
    }
    snprintf(found, sizeof found, _("the reading %s is in the log with other content"), reading->id);
    const bool same = sl_int_at(&writer->same, 0) == 1;
    sl_sql_again(&writer->same);
    if (!same) {
        return sl_fail(writer->error, SL_ERR_INCONSISTENT, found,
                       "correct a reading by a new one that replaces it");
    }
    return true;
}

static bool can_replace(sl_writer *writer, const sl_log_reading *reading)
{
    sl_sql_again(&writer->replaced);
    sl_put_text(&writer->replaced, reading->replaces);
    const bool there = sl_next_row(&writer->replaced);
    const bool fits = there && strcmp(sl_text_at(&writer->replaced, 0), reading->swatch) == 0;
    sl_sql_again(&writer->replaced);
    if (writer->replaced.bad || fits) {
        return !writer->replaced.bad;
    }
    return sl_fail(writer->error, SL_ERR_MISSING_REFERENCE, reading->replaces,
                   "a correction names the reading of the same swatch that it replaces, and comes after it");
}

bool sl_writer_put(sl_writer *writer, sl_log_reading *reading, bool *there)
{
    if (reading->id[0] == '\0') {
        next_id(&writer->ids, reading->id);
    }
    *there = false;
    if (reading->replaces[0] != '\0' && !can_replace(writer, reading)) {
        return false;
    }
    sl_sql_again(&writer->put);
    sl_columns_put(&writer->put, reading);
    if (!sl_sql_step(&writer->put)) {
        return false;
    }
    *there = sqlite3_changes(writer->log->base) == 0;
    return !*there || same_is_there(writer, reading);
}

bool sl_readings_count(sl_log *log, int64_t *last, sl_error *error)
{
    return sl_sql_number(log, "SELECT max(kept) FROM reading", last, error);
}

bool sl_readings_added(sl_log *log, int64_t last, int64_t n, sl_error *error)
{
    char text[96];
    int64_t there = 0;
    snprintf(text, sizeof text, "SELECT count(*) FROM reading NOT INDEXED WHERE kept > %lld",
             (long long)last);
    if (!sl_sql_number(log, text, &there, error)) {
        return false;
    }
    if (there == n) {
        return true;
    }
    return sl_fail_at(error, SL_ERR_STRANGE_LOG, log->path, 0, 0,
                      _("readings that were put into it are not there"), _("none was kept"));
}

bool sl_writer_close(sl_writer *writer)
{
    const bool put = sl_sql_leave(&writer->put), same = sl_sql_leave(&writer->same);
    return sl_sql_leave(&writer->replaced) && put && same;
}

static bool zone_is_there(sl_log *log, const sl_log_reading *reading, sl_error *error)
{
    sl_statement ask = sl_sql(
        log,
        "SELECT 1 FROM swatch JOIN zone ON zone.test = swatch.test WHERE swatch.id = ? AND zone.name = ?",
        error);
    sl_put_text(&ask, reading->swatch);
    sl_put_text(&ask, reading->zone);
    const bool there = sl_next_row(&ask);
    if (!sl_sql_leave(&ask)) {
        return false;
    }
    if (!there) {
        return sl_fail(error, SL_ERR_MISSING_REFERENCE, reading->zone,
                       "name a swatch of this log and a zone of its scene");
    }
    return true;
}

static bool now_words(char text[SL_TIME_TEXT], sl_error *error)
{
    sl_instant now;
    if (!sl_instant_now(&now, error)) {
        return false;
    }
    sl_time_words(now.wall_ns, text);
    return true;
}

static bool time_of_first(sl_log *log, sl_log_reading *reading, sl_error *error)
{
    sl_statement ask = sl_sql(log, "SELECT at FROM reading WHERE id = ?", error);
    sl_put_text(&ask, reading->id);
    if (sl_next_row(&ask)) {
        sl_copy_at(&ask, 0, reading->at, sizeof reading->at);
    }
    return sl_sql_leave(&ask);
}

bool sl_reading_settle_time(sl_log *log, sl_log_reading *reading, const char *now, sl_error *error)
{
    if (reading->at[0] == '\0' && reading->id[0] != '\0' && !time_of_first(log, reading, error)) {
        return false;
    }
    if (reading->at[0] == '\0') {
        snprintf(reading->at, sizeof reading->at, "%s", now);
    }
    return true;
}

static bool settle_time(sl_log *log, sl_log_reading *reading, sl_error *error)
{
    int64_t at = 0;
    char now[SL_TIME_TEXT] = "";
    return (reading->at[0] != '\0' || now_words(now, error)) &&
           sl_reading_settle_time(log, reading, now, error) && sl_time_read(reading->at, &at, error);
}

/* Cells of CSV were looked at as they came in; this is for readings from elsewhere. */
static bool texts_check(const sl_log_reading *reading, sl_error *error)
{
    char written[SL_COLUMN_WRITTEN];
    for (int i = 0; i < SL_READING_COLUMNS; i++) {
        const char *const text = sl_reading_columns[i].kind == SL_COLUMN_TEXT
                                     ? sl_column_text(&sl_reading_columns[i], reading, written)
                                     : NULL;
        if (text && !sl_text_accept(text, strlen(text), SL_TEXT_FILE, error)) {
            return false;
        }
    }
    return true;
}

static bool put_all(sl_log *log, sl_log_reading *readings, int n, int *n_there, sl_error *error)
{
    sl_writer writer;
    bool good = true, there = false;
    sl_writer_open(&writer, log, error);
    for (int i = 0; good && i < n; i++) {
        sl_log_reading *const reading = &readings[i];
        good = settle_time(log, reading, error) && sl_reading_check(reading, error) &&
               texts_check(reading, error) && zone_is_there(log, reading, error) &&
               sl_writer_put(&writer, reading, &there);
        *n_there += there ? 1 : 0;
    }
    return sl_writer_close(&writer) && good;
}

bool sl_log_add_again(sl_log *log, sl_log_reading *readings, int n, int *n_there, sl_error *error)
{
    int64_t last = 0;
    *n_there = 0;
    if (!sl_sql_begin(log, error)) {
        return false;
    }
    const bool good = sl_readings_count(log, &last, error) && put_all(log, readings, n, n_there, error) &&
                      sl_readings_added(log, last, n - *n_there, error);
    return sl_sql_end(log, good, error);
}

bool sl_log_add(sl_log *log, sl_log_reading *readings, int n, sl_error *error)
{
    int n_there = 0;
    return sl_log_add_again(log, readings, n, &n_there, error);
}

bool sl_photo_hash(const char *path, char hash[SL_SHA256_TEXT], sl_error *error)
{
    char bytes[16384];
    SHA2_CTX sum;
    size_t n = 0;
    static const sl_file_most most = {256LL << 20, "256 MiB"};
    FILE *const file = sl_plain_file_open(path, N_("the photo"), most, NULL, error);
    if (!file) {
        return false;
    }
    SHA256Init(&sum);
    while ((n = fread(bytes, 1, sizeof bytes, file)) > 0) {
        SHA256Update(&sum, (const unsigned char *)bytes, n);
    }
    const bool good = ferror(file) == 0;
    fclose(file);
    SHA256End(&sum, hash);
    if (!good) {
        return sl_fail_at(error, SL_ERR_CANNOT_READ, path, 0, 0, strerror(errno), "");
    }
    return true;
}

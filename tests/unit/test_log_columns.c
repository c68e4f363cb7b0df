/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each column of what goes out of a log, comes into one, or goes from one into another: no two of a row say
 * the same, so that none can stand for its neighbour.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "log_made.h"
#include "suite.h"

static sl_log_made made;

static void holds_text(const char *text, const char *wanted)
{
    ck_assert_msg(strstr(text, wanted) != NULL, "\"%s\" in \"%s\"", wanted, text);
}

static int times_in(const char *text, const char *words)
{
    int n = 0;
    for (const char *at = text; (at = strstr(at, words)) != NULL; at += strlen(words)) {
        n++;
    }
    return n;
}

#define HASH "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef"

/* No two columns say the same. */
static sl_log_reading told_in_full(int swatch)
{
    sl_log_reading reading = log_made_colour(&made, swatch, "violet", 61.5, -3.25, 0.1);
    static const int said[SL_SAIDS] = {SL_WIPE_GHOST, 1, 2, 3, 4};
    memcpy(reading.said, said, sizeof said);
    reading.minute = 7.25;
    reading.hours_after = 24.0;
    reading.blind = 0;
    reading.uncovered = 0;
    reading.sd_L = 0.5;
    reading.sd_a = 1.0 / 3.0;
    reading.sd_b = 0.0;
    reading.n = 1000;
    reading.level = 8.5;
    snprintf(reading.id, sizeof reading.id, "%s", "aaaaaaaa-0000-4000-8000-000000000001");
    snprintf(reading.judge, sizeof reading.judge, "%s", "j7");
    snprintf(reading.at, sizeof reading.at, "%s", "2026-11-25T14:05:30+01:00");
    snprintf(reading.geometry, sizeof reading.geometry, "%s", "45/0");
    snprintf(reading.tone, sizeof reading.tone, "%s", "@warm");
    snprintf(reading.photo, sizeof reading.photo, "%s", "a, b.jpg");
    snprintf(reading.photo_sha256, sizeof reading.photo_sha256, "%s", HASH);
    snprintf(reading.note, sizeof reading.note, "%s", "a \"wet\" one");
    return reading;
}

/* docs/log.md: columns in this order; words of lists by observation.h and log.h; 15 digits where they say the
 * number, and else 17 (IEEE 754: a third is 0.33333333333333331). */
START_TEST(a_column_of_a_reading_goes_out_as_another_or_comes_back_so)
{
    static char out[65536], wanted[1400], kept[900];
    static const char columns[] =
        "SELECT id || '|' || zone || '|' || minute || '|' || hours_after || '|' || judge || '|' || blind ||"
        " '|' || at || '|' || grade || '|' || cotton || '|' || feel || '|' || stretch || '|' || outcome ||"
        " '|' || L || '|' || a || '|' || b || '|' || sd_L || '|' || (sd_a = 1.0 / 3.0) || '|' || sd_b ||"
        " '|' || n || '|' || illuminant || '|' || observer || '|' || geometry || '|' || level || '|' ||"
        " tone || '|' || photo || '|' || photo_sha256 || '|' || note || '|' || coalesce(replaces, '-')"
        " || '|' || uncovered"
        " FROM reading WHERE kept = 1";
    sl_log *other = NULL;
    sl_log_count count;
    log_made_begin(&made);
    log_made_copy(&made);
    sl_log_reading reading = told_in_full(3), correction = log_made_reading(&made, 3, "red", SL_WIPE_HALF);
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    snprintf(correction.id, sizeof correction.id, "%s", "aaaaaaaa-0000-4000-8000-000000000002");
    snprintf(correction.replaces, sizeof correction.replaces, "%s", reading.id);
    snprintf(correction.at, sizeof correction.at, "%s", "2026-11-25T14:06:00Z");
    ck_assert(sl_log_add(made.log, &correction, 1, NULL));
    log_made_export(made.log, out, sizeof out, false);
    snprintf(
        wanted, sizeof wanted,
        "test,arm,id,swatch,zone,minute,hours_after,judge,blind,at,grade,cotton,feel,stretch,outcome,"
        "L,a,b,sd_L,sd_a,sd_b,n,illuminant,observer,geometry,level,tone,photo,photo_sha256,note,replaces,"
        "uncovered"
        "\n%s,%s,aaaaaaaa-0000-4000-8000-000000000001,%s,violet,7.25,24,j7,no,"
        "2026-11-25T14:05:30+01:00,ghost only,faint,rough,breaks,none,61.5,-3.25,0.1,0.5,"
        "0.33333333333333331,0,1000,D65,10,45/0,8.5,'@warm,\"a, b.jpg\"," HASH ",\"a \"\"wet\"\" one\",,no\n"
        "%s,%s,aaaaaaaa-0000-4000-8000-000000000002,%s,red,,,j1,,2026-11-25T14:06:00Z,about half"
        ",,,,,,,,,,,,,,,,,,,,aaaaaaaa-0000-4000-8000-000000000001,\n",
        made.test, made.swatches[3].arm, made.swatches[3].bench.code, made.test, made.swatches[3].arm,
        made.swatches[3].bench.code);
    ck_assert_str_eq(out, wanted);
    log_made_write(&made, out, strlen(out));
    ck_assert(sl_log_open(&other, made.other, SL_LOG_WRITE, NULL));
    ck_assert(sl_log_import_csv(other, made.csv, NULL, false, &count, NULL));
    ck_assert(count.readings == 2 && count.there == 0 && count.tests == 0 && count.events == 0);
    sl_log_close(other);
    static const char same[] =
        "aaaaaaaa-0000-4000-8000-000000000001|violet|7.25|24.0|j7|0|2026-11-25T14:05:30+01:00|ghost only|"
        "faint|rough|breaks|none|61.5|-3.25|0.1|0.5|1|0.0|1000|D65|10|45/0|8.5|@warm|a, b.jpg|" HASH
        "|a \"wet\" one|-|0";
    log_made_text(made.path, columns, kept, sizeof kept);
    ck_assert_str_eq(kept, same);
    log_made_text(made.other, columns, kept, sizeof kept);
    ck_assert_str_eq(kept, same);
    log_made_text(made.other, "SELECT replaces FROM reading WHERE kept = 2", kept, sizeof kept);
    ck_assert_str_eq(kept, reading.id);
    log_made_text(made.other,
                  "SELECT s.code FROM reading r JOIN swatch s ON s.id = r.swatch WHERE r.kept = 1", kept,
                  sizeof kept);
    ck_assert_str_eq(kept, made.swatches[3].bench.code);
    log_made_end(&made);
}
END_TEST

START_TEST(a_member_of_a_reading_s_json_is_another_or_stands_where_nothing_was_said)
{
    static char out[65536], wanted[1400];
    log_made_begin(&made);
    sl_log_reading reading = told_in_full(3);
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    sl_log_reading little = log_made_reading(&made, 4, "red", SL_WIPE_NO_CHANGE);
    snprintf(little.id, sizeof little.id, "%s", "aaaaaaaa-0000-4000-8000-000000000002");
    snprintf(little.at, sizeof little.at, "%s", "2026-11-25T14:06:00Z");
    little.blind = little.uncovered = 1;
    ck_assert(sl_log_add(made.log, &little, 1, NULL));
    log_made_export(made.log, out, sizeof out, true);
    snprintf(
        wanted, sizeof wanted,
        "{\"id\": \"aaaaaaaa-0000-4000-8000-000000000001\", \"swatch\": \"%s\", \"zone\": \"violet\", "
        "\"minute\": 7.25, \"hours_after\": 24, \"judge\": \"j7\", \"blind\": false, "
        "\"at\": \"2026-11-25T14:05:30+01:00\", \"grade\": \"ghost only\", \"cotton\": \"faint\", "
        "\"feel\": \"rough\", \"stretch\": \"breaks\", \"outcome\": \"none\", \"L\": 61.5, \"a\": -3.25, "
        "\"b\": 0.1, \"sd_L\": 0.5, \"sd_a\": 0.333333333, \"sd_b\": 0, \"n\": 1000, "
        "\"illuminant\": \"D65\", \"observer\": \"10\", \"geometry\": \"45/0\", \"level\": 8.5, "
        "\"tone\": \"@warm\", \"photo\": \"a, b.jpg\", \"photo_sha256\": \"" HASH
        "\", \"note\": \"a \\\"wet\\\" one\", \"uncovered\": false}",
        made.swatches[3].bench.code);
    holds_text(out, wanted);
    snprintf(wanted, sizeof wanted,
             "{\"id\": \"aaaaaaaa-0000-4000-8000-000000000002\", \"swatch\": \"%s\", \"zone\": \"red\", "
             "\"judge\": \"j1\", \"blind\": true, \"at\": \"2026-11-25T14:06:00Z\", "
             "\"grade\": \"no change\", \"uncovered\": true}",
             made.swatches[4].bench.code);
    holds_text(out, wanted);
    log_made_end(&made);
}
END_TEST

/* Nanoseconds as text; what is null in the log is null here. */
START_TEST(a_member_of_an_event_s_json_is_another)
{
    static char out[65536], text[700];
    static const char *const events[] = {
        "{\"id\": \"bbbbbbbb-0000-4000-8000-000000000001\", \"swatch\": null, \"kind\": \"started\", "
        "\"at\": \"2026-11-25T09:00:00Z\", \"boot_ns\": \"11\", \"wall_ns\": \"9007199254740993\", "
        "\"boot_id\": \"one\", \"reason\": null, \"about\": null, \"note\": null, \"clocks\": null, "
        "\"remark\": null, \"speed\": 60.5, \"late_s\": null}",
        "{\"id\": \"bbbbbbbb-0000-4000-8000-000000000002\", \"swatch\": \"HP5\", \"kind\": \"rinsed\", "
        "\"at\": \"2026-11-25T09:10:00Z\", \"boot_ns\": \"-12\", \"wall_ns\": \"22\", "
        "\"boot_id\": \"two\", \"reason\": \"goal\", \"about\": \"bbbbbbbb-0000-4000-8000-000000000001\", "
        "\"note\": \"two\\nlines\", \"clocks\": \"restarted\", \"remark\": \"foam or bubbles\", "
        "\"speed\": null, \"late_s\": -240}"};
    log_made_begin(&made);
    snprintf(text, sizeof text,
             "INSERT INTO event (id, test, swatch, kind, at, boot_ns, wall_ns, boot_id, reason, about, note,"
             " clocks, remark, speed, late_s) VALUES ('bbbbbbbb-0000-4000-8000-000000000001', '%s', NULL,"
             " 'started', '2026-11-25T09:00:00Z', 11, 9007199254740993, 'one', NULL, NULL, NULL, NULL, NULL,"
             " 60.5, NULL), ('bbbbbbbb-0000-4000-8000-000000000002', '%s', '%s', 'rinsed',"
             " '2026-11-25T09:10:00Z', -12, 22, 'two', 'goal', 'bbbbbbbb-0000-4000-8000-000000000001',"
             " 'two' || char(10) || 'lines', 'restarted', 'foam or bubbles', NULL, -240)",
             made.test, made.test, made.swatches[0].id);
    log_made_change(made.path, text);
    log_made_export(made.log, out, sizeof out, true);
    for (int i = 0; i < 2; i++) {
        holds_text(out, events[i]);
    }
    ck_assert(strstr(out, events[0]) < strstr(out, events[1])); /* as they were kept */
    log_made_end(&made);
}
END_TEST

START_TEST(a_member_of_a_swatch_s_json_is_another)
{
    static const struct {
        const char *set, *json;
    } cases[] = {{"contact_s = 0, dwell_s = 61, mix_age_s = 62, label_s = 1, label_from = 'mixing',"
                  " looks_min = '5,10', ladder_min = ''",
                  "\"contact_s\": 0, \"dwell_s\": 61, \"mix_age_s\": 62, \"label_s\": 1, "
                  "\"label_from\": \"mixing\", \"looks_min\": [5, 10], \"ladder_min\": []}"},
                 {"contact_s = NULL, dwell_s = 0, mix_age_s = 0, label_s = NULL,"
                  " label_from = 'application', looks_min = '', ladder_min = ''",
                  "\"contact_s\": null, \"dwell_s\": 0, \"mix_age_s\": 0, \"label_s\": null, "
                  "\"label_from\": \"application\", \"looks_min\": [], \"ladder_min\": []}"},
                 {"contact_s = 63, dwell_s = 1800, looks_min = '', ladder_min = '5,20'",
                  "\"contact_s\": 63, \"dwell_s\": 1800, \"mix_age_s\": 0, \"label_s\": null, "
                  "\"label_from\": \"application\", \"looks_min\": [], \"ladder_min\": [5, 20]}"}};
    static char out[65536], text[400];
    log_made_begin(&made);
    const sl_log_swatch *const swatch = &made.swatches[10];
    ck_assert(swatch->block != swatch->place);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        snprintf(text, sizeof text, "UPDATE swatch SET %s WHERE id = '%s'", cases[i].set, swatch->id);
        log_made_change(made.path, text);
        log_made_export(made.log, out, sizeof out, true);
        snprintf(text, sizeof text,
                 "{\"id\": \"%s\", \"code\": \"%s\", \"arm\": \"%s\", \"block\": %d, \"place\": %d, %s",
                 swatch->id, swatch->bench.code, swatch->arm, swatch->block, swatch->place, cases[i].json);
        holds_text(out, text);
    }
    log_made_end(&made);
}
END_TEST

/* Of three tests the first, the middle one, the last, or all. */
START_TEST(a_test_that_was_not_asked_for_goes_out_or_one_that_was_does_not)
{
    static char ids[3][SL_UUID];
    log_made_begin(&made);
    memcpy(ids[0], made.test, SL_UUID);
    log_made_begin_other(&made, 3, ids[1]);
    log_made_begin_other(&made, 2, ids[2]);
    for (int wanted = -1; wanted < 3; wanted++) {
        static char out[1 << 17];
        FILE *const stream = fmemopen(out, sizeof out, "wb");
        ck_assert(sl_log_export_json(made.log, wanted < 0 ? NULL : ids[wanted], stream, NULL));
        fclose(stream);
        for (int i = 0; i < 3; i++) {
            char member[160];
            snprintf(member, sizeof member, "\n   \"id\": \"%s\",\n", ids[i]);
            ck_assert_int_eq(times_in(out, member), wanted < 0 || wanted == i);
        }
        ck_assert_int_eq(times_in(out, "\"title\": \"Monday\""), wanted <= 0);
        ck_assert_int_eq(times_in(out, "\"operator\": \"op-1\""), wanted <= 0);
        ck_assert_int_eq(times_in(out, "\"operator\": \"op-2\""), wanted < 0 ? 2 : wanted > 0 ? 1 : 0);
        ck_assert_int_eq(times_in(out, "\"scene\": \"eight-arms\""), wanted < 0 ? 3 : 1);
        ck_assert_int_eq(times_in(out, "\"readings\": []"), wanted < 0 ? 3 : 1);
        ck_assert_int_eq(times_in(out, "\"kind\": \"log of strand tests\""), 1);
        ck_assert_int_eq(times_in(out, "\"version\": 6"), 1);
        ck_assert_int_eq(times_in(out, "\"cautions\": ["), 1);
    }
    log_made_end(&made);
}
END_TEST

/* Each character for which a cell is put into quotation marks, alone. */
START_TEST(a_cell_goes_out_bare_that_others_would_part)
{
    static const struct {
        const char *note, *cell;
    } cases[] = {{"a,b", "\"a,b\""},   {"a;b", "\"a;b\""},          {"a\"b", "\"a\"\"b\""},
                 {"a\nb", "\"a\nb\""}, {"-a;\"b", "\"'-a;\"\"b\""}, {"-ab", "'-ab"},
                 {"a-b c", "a-b c"}};
    static char out[8192];
    log_made_begin(&made);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char line[120];
        sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
        snprintf(reading.note, sizeof reading.note, "%s", cases[i].note);
        ck_assert(sl_log_add(made.log, &reading, 1, NULL));
        log_made_export(made.log, out, sizeof out, false);
        snprintf(line, sizeof line, ",,%s,,\n", cases[i].cell);
        ck_assert_str_eq(out + strlen(out) - strlen(line), line);
    }
    log_made_end(&made);
}
END_TEST

/* A column of each table is another there: the row is named, and nothing of the log is taken. */
START_TEST(a_row_that_is_another_there_is_merged_or_told_as_a_row_of_another_table)
{
    static const struct {
        const char *change, *one;
        const char *id; /* what names it */
    } cases[] = {{"UPDATE test SET title = 'Other'", "test", "SELECT id FROM test"},
                 {"UPDATE scene_file SET text = text || '#' WHERE place = 2", "file of a scene",
                  "SELECT id FROM test"},
                 {"UPDATE zone SET name = 'other' WHERE place ="
                  " (SELECT min(place) FROM zone WHERE name NOT IN ('red', 'violet'))",
                  "zone", "SELECT id FROM test"},
                 {"UPDATE swatch SET mix_age_s = 7 WHERE code = 'HP5'", "swatch",
                  "SELECT id FROM swatch WHERE code = 'HP5'"},
                 {"UPDATE event SET late_s = 7", "event", "SELECT id FROM event"},
                 {"UPDATE reading SET feel = 'rough' WHERE kept = 2", "reading",
                  "SELECT id FROM reading WHERE kept = 2"},
                 {"UPDATE import SET name = 'other.csv'", "import", "SELECT id FROM import"}};
    static const char text[] = "swatch,zone,judge,grade\nHP5,red,j1,slight\n";
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char id[SL_UUID + 8], found[160];
        sl_error error = {.code = SL_OK};
        sl_log_count count = {.readings = 9};
        log_made_begin(&made);
        log_made_write(&made, text, sizeof text - 1);
        ck_assert(sl_log_import_csv(made.log, made.csv, NULL, false, &count, NULL));
        log_made_add_some(&made, made.log, 2);
        log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
        log_made_copy(&made);
        log_made_change(made.other, cases[i].change);
        log_made_add_some(&made, made.log, 2); /* and the other lacks these */
        ck_assert(!sl_log_merge(made.log, made.other, &count, &error));
        log_made_text(made.path, cases[i].id, id, sizeof id);
        snprintf(found, sizeof found, "the %s %s has one content here and another there", cases[i].one, id);
        ck_assert_str_eq(error.found, found);
        ck_assert(error.code == SL_ERR_INCONSISTENT && error.line == 0 && error.column == 0);
        ck_assert(count.tests + count.swatches + count.events + count.readings + count.there == 0);
        ck_assert_int_eq((int)log_made_readings(made.log), 5);
        log_made_end(&made);
    }
}
END_TEST

/* Tests, swatches, events and readings count; files of a scene, zones and imports come with them. */
START_TEST(a_merge_counts_rows_that_were_there_or_are_none)
{
    sl_log *into = NULL;
    sl_log_count count;
    char id[SL_UUID];
    log_made_begin(&made);
    log_made_begin_other(&made, 2, id);
    log_made_add_some(&made, made.log, 5);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, 0, 60, NULL);
    ck_assert(sl_log_open(&into, made.other, SL_LOG_MAKE, NULL));
    ck_assert(sl_log_merge(into, made.path, &count, NULL));
    ck_assert(count.tests == 2 && count.swatches == made.n + 16 && count.events == 2);
    ck_assert(count.readings == 5 && count.there == 0);
    ck_assert(sl_log_merge(into, made.path, &count, NULL));
    ck_assert(count.tests == 0 && count.swatches == 0 && count.events == 0 && count.readings == 0);
    ck_assert_int_eq((int)count.there, 2 + made.n + 16 + 2 + 5);
    log_made_add_some(&made, made.log, 3);
    ck_assert(sl_log_merge(into, made.path, &count, NULL));
    ck_assert(count.tests == 0 && count.swatches == 0 && count.events == 0 && count.readings == 3);
    ck_assert_int_eq((int)count.there, 2 + made.n + 16 + 2 + 5);
    sl_log_close(into);
    log_made_end(&made);
}
END_TEST

START_SUITE("log columns")
ADD(a_column_of_a_reading_goes_out_as_another_or_comes_back_so)
ADD(a_member_of_a_reading_s_json_is_another_or_stands_where_nothing_was_said)
ADD(a_member_of_an_event_s_json_is_another)
ADD(a_member_of_a_swatch_s_json_is_another)
ADD(a_test_that_was_not_asked_for_goes_out_or_one_that_was_does_not)
ADD(a_cell_goes_out_bare_that_others_would_part)
ADD(a_row_that_is_another_there_is_merged_or_told_as_a_row_of_another_table)
ADD(a_merge_counts_rows_that_were_there_or_are_none)
END_SUITE

#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Logs as nobody should meet them: each made from a good one, with what is to come of it.

    make_hostile_logs.py GOOD.db FOLDER        writes them all, and a table of them to stdout

A case says how many of the good log's readings are to be read (`rows`; None: some of them, and never
another), and whether a note may be written into it (`writes`). Read whole: exit 0. In part: exit not 0, and
the rows that can be read. Refused: exit not 0, and no row.
"""
import os
import random
import shutil
import sqlite3
import struct
import sys

CASES = []
GOOD_ROWS = 340
GUARD = ("CREATE TRIGGER {0}_stays BEFORE UPDATE ON {0} BEGIN SELECT RAISE(ABORT, 'rows of this log are never changed');"
         " END")


def case(outcome, rows=None, writes=False, what=None):
    """outcome: whole, part, refused. The function's name is the case's, its first line what it is."""
    def keep(make):
        CASES.append({"name": make.__name__, "what": what or make.__doc__, "outcome": outcome, "writes": writes,
                      "rows": GOOD_ROWS if outcome == "whole" else 0 if outcome == "refused" else rows, "make": make})
        return make
    return keep


def sql(path, *texts):
    """SQL by a program that knows nothing of us: foreign keys off, CHECKs off, the schema writable."""
    base = sqlite3.connect(path, isolation_level=None)
    base.create_collation("unheard", lambda a, b: (a > b) - (a < b))
    base.execute("PRAGMA journal_mode = DELETE")
    base.execute("PRAGMA ignore_check_constraints = ON")
    for text in texts:
        base.executescript(text)
    base.close()


def schema(path, *texts):
    sql(path, "PRAGMA writable_schema = ON;" + ";".join(texts))


def changed(path, text):
    """An UPDATE around the trigger that refuses it, which then stands as before."""
    table = text.split()[1]
    sql(path, f"DROP TRIGGER {table}_stays", text, GUARD.format(table))


def reading(path, **values):
    """One more reading, like the first but for these."""
    base = sqlite3.connect(path, isolation_level=None)
    base.execute("PRAGMA ignore_check_constraints = ON")
    names = [row[1] for row in base.execute("PRAGMA table_info(reading)")]
    row = dict(zip(names, base.execute("SELECT * FROM reading ORDER BY kept LIMIT 1").fetchone()))
    row.update(kept=None, id="0aaaaaaa-0000-4000-8000-000000000001")
    row.update(values)
    base.execute(f"INSERT INTO reading VALUES ({','.join('?' * len(names))})", [row[name] for name in names])
    base.close()


def loosened(path, table, make):
    """The table without STRICT while `make` writes, and as it was afterwards."""
    before = ask(path, "SELECT sql FROM sqlite_schema WHERE name = ?", table)
    put = f"UPDATE sqlite_schema SET sql = ? WHERE name = '{table}'"
    for text, then in ((before.replace(") STRICT", ")"), make), (before, None)):
        base = sqlite3.connect(path, isolation_level=None)
        base.execute("PRAGMA writable_schema = ON")
        base.execute(put, (text,))
        base.close()
        if then:
            then()


def remade(path, table, change):
    """The table by another CREATE, with its old rows."""
    base = sqlite3.connect(path, isolation_level=None)
    base.execute("PRAGMA legacy_alter_table = ON")
    before = base.execute("SELECT sql FROM sqlite_schema WHERE name = ?", (table,)).fetchone()[0]
    base.executescript(f"ALTER TABLE {table} RENAME TO old_{table}; {change(before)};")
    names = ",".join(row[1] for row in base.execute(f"PRAGMA table_info({table})"))
    base.executescript(f"INSERT INTO {table} ({names}) SELECT {names} FROM old_{table}; DROP TABLE old_{table}")
    base.close()


def pages(path):
    with open(path, "rb") as file:
        head = file.read(100)
    size = struct.unpack(">H", head[16:18])[0]
    return 65536 if size == 1 else size


def put_bytes(path, at, these):
    with open(path, "r+b") as file:
        file.seek(at)
        file.write(these)


def get_bytes(path, at, n):
    with open(path, "rb") as file:
        file.seek(at)
        return file.read(n)


def ask(path, text, *values):
    base = sqlite3.connect(path)
    found = base.execute(text, values).fetchall()[0][0]
    base.close()
    return found


def root(path, name):
    return ask(path, "SELECT rootpage FROM sqlite_schema WHERE name = ?", name)


# ---- triggers --------------------------------------------------------------------------------------------------

@case("whole")
def trigger_ignores_events(path):
    """a trigger that swallows events"""
    sql(path, "CREATE TRIGGER x BEFORE INSERT ON event BEGIN SELECT RAISE(IGNORE); END")


@case("whole")
def trigger_ignores_readings(path):
    """a trigger that swallows readings"""
    sql(path, "CREATE TRIGGER x BEFORE INSERT ON reading BEGIN SELECT RAISE(IGNORE); END")


@case("whole")
def trigger_rewrites(path):
    """a trigger that changes what was written"""
    sql(path, "DROP TRIGGER event_stays",
        "CREATE TRIGGER x AFTER INSERT ON event BEGIN UPDATE event SET note = 'never' WHERE kept = new.kept; END")


@case("whole")
def trigger_deletes(path):
    """a trigger that removes what was written"""
    sql(path, "DROP TRIGGER event_is_kept",
        "CREATE TRIGGER x AFTER INSERT ON event BEGIN DELETE FROM event WHERE kept = new.kept; END")


@case("whole")
def trigger_aborts(path):
    """a trigger that refuses all"""
    sql(path, "CREATE TRIGGER x BEFORE INSERT ON event BEGIN SELECT RAISE(ABORT, 'all is well'); END")


@case("whole")
def trigger_endless(path):
    """a trigger whose statement never ends"""
    sql(path, "CREATE TRIGGER x BEFORE INSERT ON event BEGIN SELECT max(a) FROM (WITH RECURSIVE n(a) AS (SELECT 1"
        " UNION ALL SELECT a + 1 FROM n) SELECT a FROM n); END")


@case("whole")
def trigger_missing(path):
    """one of the triggers that guard rows is gone"""
    sql(path, "DROP TRIGGER reading_stays")


@case("whole")
def trigger_toothless(path):
    """a guard of the right name that guards nothing"""
    sql(path, "DROP TRIGGER reading_stays", "CREATE TRIGGER reading_stays BEFORE UPDATE ON reading BEGIN SELECT 1; END")


@case("part", 0)
def trigger_instead_of(path):
    """a view for the readings, with a trigger that takes what is written to it"""
    sql(path, "PRAGMA legacy_alter_table = ON; ALTER TABLE reading RENAME TO hidden;"
        "CREATE VIEW reading AS SELECT * FROM hidden;"
        "CREATE TRIGGER x INSTEAD OF INSERT ON reading BEGIN SELECT 1; END")


# ---- views and tables ------------------------------------------------------------------------------------------

@case("part", 0)
def view_of_readings(path):
    """a view in place of the readings"""
    sql(path, "PRAGMA legacy_alter_table = ON; ALTER TABLE reading RENAME TO hidden;"
        "CREATE VIEW reading AS SELECT * FROM hidden")


@case("part", 0)
def view_endless_readings(path):
    """a view without an end in place of the readings"""
    sql(path, "DROP TABLE reading", "CREATE VIEW reading AS WITH RECURSIVE n(kept) AS (SELECT 1 UNION ALL SELECT kept + 1"
        " FROM n) SELECT kept, 'x' AS id, 'x' AS swatch FROM n")


@case("part", 0)
def view_endless_tests(path):
    """a view without an end in place of the tests"""
    sql(path, "DROP TABLE test", "CREATE VIEW test AS WITH RECURSIVE n(id) AS (SELECT 1 UNION ALL SELECT id + 1 FROM n)"
        " SELECT id, id AS title, id AS operator, id AS made, id AS scene_name, id AS scene_sha256 FROM n")


@case("whole")
def view_more(path):
    """a view besides"""
    sql(path, "CREATE VIEW mine AS SELECT * FROM reading")


@case("whole")
def table_more(path):
    """a table besides"""
    sql(path, "CREATE TABLE mine (a)")


@case("whole")
def table_of_escapes(path):
    """a table whose name drives a terminal"""
    sql(path, 'CREATE TABLE "a\x1b[31m\u202eb" (a)')


@case("whole")
def tables_by_hundreds(path):
    """three hundred tables besides"""
    sql(path, "BEGIN;" + ";".join(f"CREATE TABLE more_{i} (a)" for i in range(300)) + ";COMMIT")


@case("part", 0)
def table_virtual(path):
    """a table of a module that is not there in place of the readings"""
    sql(path, "DROP TABLE reading")
    schema(path, "INSERT INTO sqlite_schema VALUES ('table','reading','reading',0,"
           "'CREATE VIRTUAL TABLE reading USING unheard(a)')")


@case("part", 0)
def table_full_text(path):
    """a table for searching text in place of the readings"""
    sql(path, "DROP TABLE reading", "CREATE VIRTUAL TABLE reading USING fts5(id, swatch, zone)")


@case("part", 0)
def table_without_numbers(path):
    """readings in a table whose rows have no numbers"""
    remade(path, "reading", lambda text: text.replace("kept INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE",
                                                      "kept INTEGER, id TEXT PRIMARY KEY NOT NULL")
           .replace(") STRICT", ") STRICT, WITHOUT ROWID"))


@case("part", 0)
def columns_called_numbers(path):
    """columns that take all names of a row's number"""
    sql(path, "ALTER TABLE reading ADD COLUMN rowid TEXT", "ALTER TABLE reading ADD COLUMN _rowid_ TEXT",
        "ALTER TABLE reading ADD COLUMN oid TEXT")


@case("part", GOOD_ROWS)
def table_import_missing(path):
    """the table of imports is gone"""
    sql(path, "DROP TABLE import")


@case("part", 0)
def table_test_missing(path):
    """the table of tests is gone"""
    sql(path, "DROP TABLE test")


@case("part", 0)
def table_swatch_missing(path):
    """the table of swatches is gone"""
    sql(path, "DROP TABLE swatch")


@case("part", 0)
def tables_all_missing(path):
    """a log's head and no table"""
    with open(path, "wb"):
        pass
    sql(path, "PRAGMA application_id = 0x736c6f77; PRAGMA user_version = 4; CREATE TABLE a (a); DROP TABLE a")


# ---- columns ---------------------------------------------------------------------------------------------------

@case("whole")
def column_more(path):
    """a column more"""
    sql(path, "ALTER TABLE reading ADD COLUMN mood TEXT")


@case("whole")
def column_computed(path):
    """a column more that is computed"""
    sql(path, "ALTER TABLE reading ADD COLUMN twice REAL GENERATED ALWAYS AS (minute * 2) VIRTUAL")


@case("part", GOOD_ROWS)
def column_computed_in_place(path):
    """a computed column in place of the grade"""
    remade(path, "reading", lambda text: text.replace(" grade TEXT CHECK", " grade TEXT AS ('slight') CHECK"))


@case("part", GOOD_ROWS)
def column_renamed(path):
    """the column of notes has another name"""
    sql(path, "ALTER TABLE reading RENAME COLUMN note TO remark")


@case("part", 0)
def column_renamed_that_is_needed(path):
    """the column of zones has another name"""
    sql(path, "ALTER TABLE reading RENAME COLUMN zone TO area")


@case("whole")
def table_not_strict(path):
    """a table that takes every type"""
    remade(path, "reading", lambda text: text.replace(") STRICT", ")"))


@case("whole")
def table_without_checks(path):
    """a table that takes every grade"""
    remade(path, "reading", lambda text: text.replace("CHECK (length(judge) BETWEEN 1 AND 32)", ""))


@case("whole")
def index_missing(path):
    """an index is gone"""
    sql(path, "DROP INDEX reading_of_swatch")


@case("whole")
def index_on_an_expression(path):
    """an index over something that is computed"""
    sql(path, "CREATE INDEX mine ON reading (abs(minute))")


@case("whole")
def index_of_unheard_order(path):
    """an index by an order that SQLite does not know"""
    sql(path, "CREATE INDEX mine ON reading (note COLLATE unheard)")


@case("whole")
def column_of_unheard_order(path):
    """a column by an order that SQLite does not know"""
    sql(path, "ALTER TABLE reading ADD COLUMN mood TEXT COLLATE unheard")


@case("whole")
def statistics(path):
    """SQLite's statistics, as ANALYZE leaves them"""
    sql(path, "ANALYZE")


# ---- values: the tables are ours to the letter ------------------------------------------------------------------

@case("part", GOOD_ROWS, True)
def blob_for_text(path):
    """bytes where words should be"""
    loosened(path, "reading", lambda: reading(path, note=b"\x00\x01"))


@case("part", GOOD_ROWS, True)
def text_for_number(path):
    """words where a number should be"""
    loosened(path, "reading", lambda: reading(path, minute="soon"))


@case("part", GOOD_ROWS, True)
def zone_of_nobody(path):
    """a reading of a zone that the scene lacks"""
    reading(path, zone="elbow")


@case("part", GOOD_ROWS, True)
def half_a_colour(path):
    """L without a and b, as a number that is none leaves it"""
    reading(path, L=50.0, a=float("nan"), b=float("nan"), illuminant="D65", observer="10")


@case("part", GOOD_ROWS, True)
def huge_count(path):
    """more instrument readings than there can be"""
    reading(path, n=2**62)


@case("part", GOOD_ROWS, True)
def minute_without_end(path):
    """an infinite minute"""
    reading(path, minute=float("inf"))


@case("part", GOOD_ROWS, True)
def minute_before_contact(path):
    """a minute below zero"""
    reading(path, minute=-3.0)


@case("part", GOOD_ROWS, True)
def unheard_grade(path):
    """a grade that is none"""
    reading(path, grade="lovely")


@case("part", GOOD_ROWS, True)
def time_that_is_none(path):
    """a reading at no time there is"""
    reading(path, at="2026-99-99Tnoon")


@case("part", GOOD_ROWS, True)
def time_of_the_moon(path):
    """a reading in the year 9999"""
    reading(path, at="9999-12-31T23:59:59Z")


@case("part", GOOD_ROWS, True)
def judge_by_name(path):
    """a judge's name where a code belongs"""
    reading(path, judge="Ada L")


@case("part", GOOD_ROWS, True)
def id_that_is_none(path):
    """36 letters that are no id"""
    reading(path, id="x" * 36)


@case("part", GOOD_ROWS, True)
def text_with_an_end_inside(path):
    """a note with a zero byte in it"""
    reading(path, note="a\0b")


@case("part", GOOD_ROWS, True)
def note_too_long(path):
    """a note of 800 bytes"""
    reading(path, note="\U0001f600" * 200)


@case("part", GOOD_ROWS, True)
def photo_of_three_megabytes(path):
    """a photo's name of 3 MB"""
    reading(path, photo="x" * 3000000, photo_sha256="0" * 64)


@case("part", GOOD_ROWS, True)
def photo_of_six_megabytes(path):
    """a photo's name of 6 MB"""
    reading(path, photo="x" * 6000000, photo_sha256="0" * 64)


@case("part", GOOD_ROWS, True)
def swatch_of_nobody(path):
    """a reading of a swatch that is not there"""
    reading(path, swatch="0aaaaaaa-0000-4000-8000-00000000000f")


@case("part", GOOD_ROWS, True)
def number_below_zero(path):
    """a row with a number that SQLite never gives"""
    reading(path, kept=-5)


@case("part", GOOD_ROWS)
def last_number(path):
    """the last number there is, after which SQLite gives them out at random"""
    sql(path, "INSERT INTO event SELECT 9223372036854775807, '0aaaaaaa-0000-4000-8000-000000000002', test, swatch, kind,"
        " boot_ns, wall_ns, boot_id, at, reason, about, note, speed, late_s, clocks, remark, deed, value FROM event LIMIT 1")


@case("part", GOOD_ROWS)
def event_before_time(path):
    """an event at the smallest number of 64 bits"""
    changed(path, "UPDATE event SET boot_ns = -9223372036854775807 - 1 WHERE kept = 1")


@case("part", GOOD_ROWS)
def event_of_unheard_kind(path):
    """an event of a kind that is none"""
    changed(path, "UPDATE event SET kind = 'exploded' WHERE kept = 1")


@case("part", GOOD_ROWS)
def event_about_itself(path):
    """an event that undoes one that is not there"""
    changed(path, "UPDATE event SET about = '0aaaaaaa-0000-4000-8000-00000000000f' WHERE kept = 1")


@case("part", None)
def swatch_of_no_test(path):
    """a swatch of a test that is not there"""
    changed(path, "UPDATE swatch SET test = '0aaaaaaa-0000-4000-8000-00000000000f' WHERE block = 0 AND place = 0")


@case("part", GOOD_ROWS)
def dwell_of_a_century(path):
    """a swatch that stays on for a century"""
    changed(path, "UPDATE swatch SET dwell_s = 3153600000 WHERE block = 0 AND place = 0"
            " AND NOT EXISTS (SELECT 1 FROM reading WHERE reading.swatch = swatch.id)")


@case("whole", writes=True)
def corrections_in_a_circle(path):
    """two readings that correct each other, and one itself"""
    changed(path, "UPDATE reading SET replaces = (SELECT id FROM reading r WHERE r.kept = 5 - reading.kept)"
            " WHERE kept IN (2, 3)")
    changed(path, "UPDATE reading SET replaces = id WHERE kept = 4")


@case("part", None)
def ids_twice(path):
    """two readings of one id"""
    remade(path, "reading", lambda text: text.replace("id TEXT NOT NULL UNIQUE", "id TEXT NOT NULL"))
    sql(path, "UPDATE reading SET id = (SELECT id FROM reading WHERE kept = 7) WHERE kept = 8")


@case("whole", writes=True)
def scene_changed(path):
    """a scene that is not the one whose hash is kept"""
    changed(path, "UPDATE scene_file SET text = text || '\n# more' WHERE place = 0")


@case("whole", writes=True)
def title_of_escapes(path):
    """a title that drives a terminal, turns writing round and is no UTF-8"""
    changed(path, "UPDATE test SET title = 'a' || char(27) || '[2J' || char(8238) || CAST(x'ff' AS TEXT)")


@case("whole", writes=True)
def operator_of_escapes(path):
    """an operator who drives a terminal"""
    changed(path, "UPDATE test SET operator = char(27) || ']0;me' || char(7)")


@case("whole", writes=True)
def notes_of_escapes(path):
    """notes that drive a terminal"""
    changed(path, "UPDATE event SET note = char(27) || '[31m' || char(8203) || CAST(x'fe' AS TEXT)")


@case("whole", writes=True)
def arms_of_escapes(path):
    """a strip that drives a terminal"""
    changed(path, "UPDATE swatch SET arm = char(27) || '[31m' || char(13) || char(10) || 'x'")


@case("whole", writes=True)
def note_of_brackets(path):
    """a note of two hundred brackets"""
    changed(path, "UPDATE event SET note = replace(hex(zeroblob(100)), '0', '[')")


# ---- the head --------------------------------------------------------------------------------------------------

def version_case(number, outcome):
    def make(path):
        sql(path, f"PRAGMA user_version = {number}")
    make.__name__ = f"version_{number}".replace("-", "minus_")
    case(outcome, what=f"user_version {number}")(make)


for VERSION, OUTCOME in ((-1, "refused"), (-2147483648, "refused"), (0, "refused"), (1, "whole"), (7, "refused"),
                         (2147483647, "refused")):
    version_case(VERSION, OUTCOME)


def application_case(number):
    def make(path):
        sql(path, f"PRAGMA application_id = {number}")
    make.__name__ = f"application_{number}".replace("-", "minus_")
    case("refused", what=f"application_id {number}")(make)


for APPLICATION in (0, -1, 252006673):
    application_case(APPLICATION)


@case("whole")
def text_in_utf16(path):
    """a log whose text is in UTF-16"""
    good = sqlite3.connect(path)
    lines = list(good.iterdump())
    good.close()
    os.unlink(path)
    base = sqlite3.connect(path, isolation_level=None)
    base.execute("PRAGMA encoding = 'UTF-16le'")
    base.executescript("".join(line + "\n" for line in lines))
    base.executescript("PRAGMA application_id = 0x736c6f77; PRAGMA user_version = 4")
    base.close()


@case("whole", writes=True)
def pages_of_512(path):
    """small pages"""
    sql(path, "PRAGMA page_size = 512; VACUUM")


@case("whole", writes=True)
def pages_of_65536(path):
    """large pages"""
    sql(path, "PRAGMA page_size = 65536; VACUUM")


@case("whole", writes=True)
def vacuum_by_itself(path):
    """a file that shrinks by itself"""
    sql(path, "PRAGMA auto_vacuum = 1; VACUUM")


# ---- pages -----------------------------------------------------------------------------------------------------

def page_case(place):
    def make(path):
        size = pages(path)
        n = os.path.getsize(path) // size
        page = 2 + place * (n - 2) // 20
        put_bytes(path, (page - 1) * size, bytes([0xFF if place % 2 else 0]) * size)
    make.__name__ = f"page_gone_{place}"
    case("part", None, what=f"a page that cannot be read, at {5 * place} % of the file")(make)


for PLACE in range(20):
    page_case(PLACE)


@case("part", None)
def half_a_file(path):
    """the first half of a log"""
    os.truncate(path, os.path.getsize(path) // 2 // 4096 * 4096)


@case("refused")
def one_page(path):
    """the first page of a log"""
    os.truncate(path, 4096)


@case("refused")
def fifty_bytes(path):
    """the first fifty bytes of a log"""
    os.truncate(path, 50)


@case("refused")
def no_bytes(path):
    """an empty file"""
    os.truncate(path, 0)


@case("refused")
def first_page_gone(path):
    """a first page that holds only its head"""
    put_bytes(path, 100, bytes(3996))


@case("refused")
def head_gone(path):
    """a first page without its head"""
    put_bytes(path, 0, bytes(100))


@case("refused")
def schema_of_nonsense(path):
    """a table whose CREATE is none"""
    schema(path, "UPDATE sqlite_schema SET sql = 'CREATE TABLE reading (((' WHERE name = 'reading'")


@case("part", 0)
def root_of_another(path):
    """readings on the pages of the events"""
    schema(path, f"UPDATE sqlite_schema SET rootpage = {root(path, 'event')} WHERE name = 'reading'")


@case("whole")
def index_on_the_table(path):
    """an index on the pages of its table"""
    schema(path, f"UPDATE sqlite_schema SET rootpage = {root(path, 'reading')} WHERE name = 'reading_of_swatch'")


@case("part", None)
def pages_in_a_circle(path):
    """every branch of the readings leads to the same page"""
    size, page = pages(path), root(path, "reading")
    at = (page - 1) * size
    n = struct.unpack(">H", get_bytes(path, at + 3, 2))[0]
    cells = struct.unpack(f">{n}H", get_bytes(path, at + 12, 2 * n))
    first = get_bytes(path, at + cells[0], 4)
    for cell in cells:
        put_bytes(path, at + cell, first)
    put_bytes(path, at + 8, first)


@case("part", 0, True)
def root_leads_to_itself(path):
    """the root of the readings leads to itself"""
    size, page = pages(path), root(path, "reading")
    at = (page - 1) * size
    n = struct.unpack(">H", get_bytes(path, at + 3, 2))[0]
    for cell in struct.unpack(f">{n}H", get_bytes(path, at + 12, 2 * n)):
        put_bytes(path, at + cell, struct.pack(">I", page))
    put_bytes(path, at + 8, struct.pack(">I", page))


@case("part", GOOD_ROWS)
def text_without_end(path):
    """a scene's text whose pages lead to themselves"""
    size = pages(path)
    n = os.path.getsize(path) // size
    text = ask(path, "SELECT text FROM scene_file WHERE name = 'oxidation'")
    middle = text.encode()[1500:1560]  # on the first page of those that follow the row's own
    for page in range(2, n + 1):
        if middle in get_bytes(path, (page - 1) * size, size):
            put_bytes(path, (page - 1) * size, struct.pack(">I", page))


# ---- what lies beside it ---------------------------------------------------------------------------------------

@case("whole", writes=True)
def wal_of_nonsense(path):
    """a write-ahead log of random bytes beside it"""
    sql(path, "PRAGMA journal_mode = WAL")
    with open(path + "-wal", "wb") as file:
        file.write(random.Random(1).randbytes(20000))


@case("whole", writes=True)
def wal_of_another(path):
    """the write-ahead log of another log beside it"""
    other = path + ".other"
    shutil.copy(path, other)
    base = sqlite3.connect(other, isolation_level=None)
    base.execute("PRAGMA journal_mode = WAL")
    base.execute("INSERT INTO import VALUES (NULL, '0aaaaaaa-0000-4000-8000-000000000003', ?, 'x', '2026-01-01T00:00:00Z',"
                 " 0)", ("0" * 64,))
    wal = get_bytes(other + "-wal", 0, 1 << 20)
    base.close()
    os.unlink(other)
    sql(path, "PRAGMA journal_mode = WAL")
    with open(path + "-wal", "wb") as file:
        file.write(wal[:24] + bytes(8) + wal[32:])


@case("whole", writes=True)
def journal_of_nonsense(path):
    """a journal of random bytes beside it"""
    with open(path + "-journal", "wb") as file:
        file.write(random.Random(2).randbytes(8192))


@case("refused")
def folder(path):
    """a folder"""
    os.unlink(path)
    os.mkdir(path)


@case("refused")
def pipe(path):
    """a pipe that nobody writes to"""
    os.unlink(path)
    os.mkfifo(path)


@case("refused")
def device(path):
    """a device without end"""
    os.unlink(path)
    os.symlink("/dev/zero", path)


@case("refused")
def link_to_itself(path):
    """a link that leads to itself"""
    os.unlink(path)
    os.symlink(path, path)


@case("refused")
def not_there(path):
    """no file at all"""
    os.unlink(path)


@case("refused")
def words(path):
    """a file of words"""
    with open(path, "w") as file:
        file.write("swatch,zone,judge,grade\n" * 500)


@case("refused")
def chance(path):
    """a file of random bytes"""
    with open(path, "wb") as file:
        file.write(random.Random(3).randbytes(100000))


@case("refused")
def another_database(path):
    """somebody else's SQLite file"""
    os.unlink(path)
    sql(path, "CREATE TABLE reading (id, swatch)")


def make_all(good, into):
    """Yields (case, path); each is made when it is asked for."""
    for one in CASES:
        path = os.path.join(into, one["name"] + ".db")
        shutil.copy(good, path)
        one["make"](path)
        yield one, path


def table():
    """As it stands in docs/log.md."""
    read = {"whole": "whole", "part": "in part", "refused": "refused"}
    lines = ["| log | read | written to |", "|---|---|---|"]
    for one in CASES:
        rows = {None: "", GOOD_ROWS: ", all readings", 0: ", no reading"}[one["rows"]] if one["outcome"] == "part" else ""
        lines.append(f"| {one['what']} | {read[one['outcome']]}{rows} | {'yes' if one['writes'] else 'no'} |")
    return "\n".join(lines)


if __name__ == "__main__":
    os.makedirs(sys.argv[2], exist_ok=True)
    for _ in make_all(sys.argv[1], sys.argv[2]):
        pass
    print(table())

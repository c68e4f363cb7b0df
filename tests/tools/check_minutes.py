#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every minute that is printed names its kind (base/minute.h): none is put into words or under a machine's key past it.

    check_minutes.py SOURCE        reads src/; says file, line and what to do instead
    check_minutes.py --self-test

What is looked at are the calls in the text. A conversion before " min" is an argument of sl_minute_words(), or a text that was filled
by it in the same function; a machine's key that ends in _min goes to sl_minute_key(), or is the key of a column that says whose minutes
it holds (document/table.h). Functions that hand a text or a key of their
own on to one of these are found, not listed.
"""
import os
import re
import sys

WORDS = {"sl_minute_words": 1}  # at which place the text stands that is filled
KEYS = {"sl_minute_key": 1, "sl_json_minute": 1}  # at which place the key stands
THROUGH = {"_", "N_", "sl_plural"}  # they choose a text's language
NO_MINUTE = {"sl_json_null"}  # says that there is none
FILES = {"sl_node_child", "sl_needed_child", "sl_node_refuse_missing", "strcmp"}  # keys of a file that is read
# Each with its reason.
EXCEPTIONS = {
    "src/ask/files.c": "lines of a scene's file, which is read back",
    "src/ask/read.c": "a usual answer, which is read back",
    "src/front/times.c": "says again what was typed as a time, before anything is computed",
    "src/paper/draw/group.c": "times of a list, each a span of its own, with one unit behind them all",
    "src/kinetics/solver.c": "where a solver gave up, for whoever mends it: no minute of anybody's hair",
    "src/log/store/export.c": "columns of a log that are read back: a mark would change what is kept",
    "src/log/store/log_tests.c": "columns of a log",
}
LITERAL = re.compile(r'"(?:[^"\\\n]|\\.)*"')
SKIPPED = re.compile(LITERAL.pattern + r"|'(?:[^'\\\n]|\\.)*'|/\*.*?\*/|//[^\n]*", re.S)
TOKEN = re.compile(SKIPPED.pattern + r"|(\w+)\(|[(\[{]|[)\]}]|,", re.S)
CONVERSION = re.compile(r"%[-+ #0]*[\d*]*(?:\.[\d*]+)?(?:hh|h|ll|l|z)?([diufgeaxXcsp])")
KEY = re.compile(r"(?<![a-z0-9_])(?!(?:\w*_)?per_min\b)[a-z0-9_]*_min\b")

# Columns of tables for machines: in a list, and by hand.
SAID = re.compile(r'\bSAY\((\w+), "(\w*)"')
COLUMN = re.compile(r'\{\.key = "(\w*)"([^{}]*)\}')
KINDS = {"planned", "clock", "outcome", "minutes", "planned_rows", "three"}


def columns_without_kind(text):
    """(line, what to do) of each column whose key is of minutes and that does not say whose."""
    for found in SAID.finditer(text):
        if KEY.search(found[2]) and found[1] not in KINDS:
            yield text.count("\n", 0, found.start()) + 1, f'the column "{found[2]}" says whose minutes it holds: {", ".join(sorted(KINDS))}'
    for found in COLUMN.finditer(text):
        if KEY.search(found[1]) and not re.search(r"\.kind = SL_ENTRY_(?:PLANNED|CLOCK|OUTCOME)\b", found[2]):
            yield text.count("\n", 0, found.start()) + 1, f'the column "{found[1]}" says whose minutes it holds: .kind = SL_ENTRY_...'


class Call:
    def __init__(self, name, start):
        self.name, self.arguments, self.at = name, [], start

    def end_argument(self, end):
        self.arguments.append((self.at, end))
        self.at = end + 1


class Function:
    """A definition as clang-format lays it out: its parameters, the calls and literals in it."""

    def __init__(self, text, found, end):
        self.text, self.name, self.static = text, found[1], found[0].startswith("static")
        self.parameters = [word.strip() for word in re.sub(r"\([^()]*\)", "", found[2]).split(",")]
        self.calls, self.literals = [], []
        stack = []
        for token in TOKEN.finditer(text, found.end(), end):
            c = token[0]
            if c[0] == '"':
                self.literals.append(token)
            elif c[-1] in "([{" and c[0] not in "/'":
                stack.append(Call(token[1] if token[1] not in ("if", "while", "for", "switch", "return", "sizeof") else None, token.end()))
            elif c in ")]}" and stack:
                call = stack.pop()
                call.end_argument(token.start())
                if call.name:
                    self.calls.append(call)
            elif c == "," and stack:
                stack[-1].end_argument(token.start())

    def word(self, call, place):
        """The variable that an argument begins with."""
        if place >= len(call.arguments):
            return ""
        return re.match(r"\W*(\w*)", self.text[slice(*call.arguments[place])])[1]

    def parameter(self, word, kind):
        """The place of the parameter of that name, when it is declared so."""
        for place, declared in enumerate(self.parameters):
            if re.search(rf"\b{word}(?:\[[^\]]*\])?$", declared) and re.match(kind, declared):
                return place
        return None

    def around(self, literal):
        """(call, place) that a literal is an argument of."""
        inside = [(b - a, call, place) for call in self.calls if call.name not in THROUGH
                  for place, (a, b) in enumerate(call.arguments) if a <= literal.start() and literal.end() <= b]
        return min(inside, key=lambda one: one[0])[1:] if inside else (None, 0)


def functions(text):
    for found in re.finditer(r"^(?:static )?[a-z][^;{}=()]*?\b(\w+)\(([^;{}]*)\)\n\{\n", text, re.M):
        yield Function(text, found, text.find("\n}", found.end()))


def handing(sources, seeds, kind):
    """{(file or None, name): place}: `seeds`, and all that hand a parameter of theirs to one."""
    known = {(None, name): place for name, place in seeds.items()}
    more = True
    while more:
        more = False
        for file, functions_of in sources.items():
            for function in functions_of:
                key = (file if function.static else None, function.name)
                for call in function.calls if key not in known else []:
                    place = known.get((file, call.name), known.get((None, call.name)))
                    own = function.parameter(function.word(call, place), kind) if place is not None else None
                    if own is not None:
                        known[key], more = own, True
    return known


class Rules:
    def __init__(self, texts):
        self.texts = texts
        self.sources = {file: list(functions(text)) for file, text in texts.items()}
        self.words, self.keys = handing(self.sources, WORDS, r"char\b"), handing(self.sources, KEYS, r"const char\b")

    @staticmethod
    def place(known, file, call):
        return known.get((file, call.name), known.get((None, call.name))) if call else None

    def filled(self, file, function, argument):
        return any(self.place(self.words, file, call) is not None and
                   function.word(call, self.place(self.words, file, call)) == argument for call in function.calls)

    def of_literal(self, file, function, literal):
        call, at = function.around(literal)
        told = literal[0][1:-1]
        key = KEY.search(told)
        if key and call and call.name not in NO_MINUTE | FILES and self.place(self.keys, file, call) != at:
            yield f'the key "{key[0]}" goes through sl_minute_key()'
        if call and call.name == "sl_minute_words":
            return
        if re.fullmatch(r"\d+ min|[ \u00a0]min", told):
            yield f'"{told}" goes through sl_minute_words()'
        conversions = list(CONVERSION.finditer(told.replace("%%", "\0\0")))
        for n, conversion in enumerate(conversions):
            after = told[conversion.end():]
            if not re.match(r"(?:[ \u00a0]|%%)*min\b(?!/)", after) or not call:
                continue
            argument = function.text[slice(*call.arguments[at + 1 + n])].strip() if at + 1 + n < len(call.arguments) else ""
            if conversion[1] != "s" or not re.fullmatch(r"\w+(?:\[\w+\])?", argument) or not self.filled(file, function, re.match(r"\w+", argument)[0]):
                yield f'"{told[max(0, conversion.start() - 20):conversion.end() + 4]}" goes through sl_minute_words()'

    def faults(self):
        """(file, line, what to do) of every minute without a kind."""
        for file, text in self.texts.items():
            for line, advice in columns_without_kind(text):
                yield file, line, advice
        for file, found in self.sources.items():
            for function in found:
                for literal in function.literals:
                    for advice in self.of_literal(file, function, literal):
                        yield file, function.text.count("\n", 0, literal.start()) + 1, advice


def self_test():
    head = "static void say(FILE *out, double at)\n{\n    char text[40];\n"
    bad = ['    fprintf(out, _("after %.0f min"), at);\n', '    fprintf(out, "%s min", number);\n', '    snprintf(text, sizeof text, "%g min", at);\n',
           '    sl_json_number(out, "goal_min", at);\n', '    fputs("arm,time_min,value\\n", out);\n', '    put(out, N_("5 min"));\n',
           '    sl_minute_words(SL_MINUTE_MODEL, text, sizeof text, "%g", at);\n    fprintf(out, "%s to %s min", text, other);\n',
           '    sl_minute_words(SL_MINUTE_MODEL, text, sizeof text, "%g", at);\n    fprintf(out, ok ? "%s" : "%g min", text, at);\n',
           '    other(at, text, sizeof text);\n    fprintf(out, "%s min", text);\n']
    good = ['    sl_minute_words(SL_MINUTE_MODEL, text, sizeof text, _("%.0f min"), at);\n', '    fprintf(out, "%.0f minutes of fame, %g mine", at, at);\n',
            '    sl_minute_words(SL_MINUTE_CLOCK, text, sizeof text, "%.0f", at);\n    fprintf(out, _("%s min late"), text);\n',
            '    sl_json_minute(out, "goal_min", SL_MINUTE_MODEL, at);\n', '    sl_json_number(out, "rate_per_min", at);\n',
            '    /* "%g min" */\n', '    sl_json_null(out, "goal_min");\n', '    planned(at, text, sizeof text);\n    fprintf(out, "%s min", text);\n',
            '    put(out, sl_minute_key(SL_MINUTE_MODEL, "goal_min", text), at);\n']
    hands = "static void planned(double at, char *text, size_t size)\n{\n    sl_minute_words(SL_MINUTE_PLANNED, text, size, \"%g\", at);\n}\n\n"
    wrong = [line for line in bad if not list(Rules({"a.c": hands + head + line + "}\n"}).faults())]
    wrong += [line for line in good if list(Rules({"a.c": hands + head + line + "}\n"}).faults())]
    columns = {'SAY(number, "goal_min", at)': 1, 'SAY(outcome, "goal_min", at)': 0, 'SAY(number, "rate_per_min", at)': 0, '{.key = "stop_min"},': 1,
               '{.key = "stop_min", .kind = SL_ENTRY_OUTCOME},': 0, '{.key = "stop_min", .kind = SL_ENTRY_RECORD},': 1}
    wrong += [text for text, faults in columns.items() if len(list(columns_without_kind(text))) != faults]
    print("".join(wrong) or "every fault is seen, and nothing else")
    return 1 if wrong else 0


def main():
    if sys.argv[1] == "--self-test":
        return self_test()
    texts = {}
    for folder, _, names in os.walk(os.path.join(sys.argv[1], "src")):
        for name in sorted(names):
            if name.endswith(".c"):
                path = os.path.join(folder, name)
                with open(path, encoding="utf-8") as file:
                    texts[os.path.relpath(path, sys.argv[1])] = file.read()
    every = sorted(set(Rules(texts).faults()))
    found = [fault for fault in every if fault[0] not in EXCEPTIONS]
    for name, line, advice in found:
        print(f"{name}:{line}: {advice}")
    stale = EXCEPTIONS.keys() - {fault[0] for fault in every}
    print(f"{len(texts)} files, {len(found)} minutes without a kind, {len(EXCEPTIONS)} exceptions, needed for nothing: {sorted(stale)}")
    return 1 if found or stale or len(texts) < 100 else 0


if __name__ == "__main__":
    sys.exit(main())

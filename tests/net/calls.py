# SPDX-License-Identifier: GPL-3.0-or-later
"""What the net calls: every command, by scene, with its forms.

A call is (name, words, form) and, where it needs them, options: width of the paragraphs, what is typed, files that
are copied first because the command writes into them, and what is masked because it is never twice the same.
"""

SCENES = {  # name: (file, an arm, a zone, options of what-if)
    "way-wide": ("models/scenes/way-wide.yaml", "powder + 3 %", "blue"),  # a goal for all colours
    "zone-goals": ("models/scenes/zone-goals.yaml", "powder + 6 %", "yellow"),  # a goal for each
    "eight-arms": ("models/scenes/eight-arms.yaml", "powder + 6 %", "violet"),  # controls, and no goal
    "head": ("scenes/head.yaml", "powder + 3 %", "blue"),  # where hair lies on a head
    "twice": ("scenes/twice.yaml", "twice, 15 min each", "red"),  # two applications
    "no-goal": ("scenes/no-goal.yaml", "diluted 6 %", "azul añil"),  # two zones, a warm bench, a mix not predicted
}
QUICK_SCENES = ("head", "twice")
SLOW = ("teach", "help", "compare")  # left out of the quick look
WIDTHS = (60, 100)
LANGUAGES = ("en", "es")
DRAWS = ["--members", "100", "--threads", "1"]
LESSONS = ("came-back colours-differ fair-test freshness half-life limits repeats slower speed-and-end stagger warmth "
           "water when-waiting-ends").split()

IDENTITY = (r"\b[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}\b|(?<![\w.#-])[0-9a-f]{8}(?![\w.-])", "<id>")
MOMENT = (r"\b20\d\d-\d\d-\d\d(?:[T ]\d\d:\d\d(?::\d\d)?(?:\.\d+)?(?:Z|[+-]\d\d:\d\d)?)?", "<date>")
CLOCK = (r"\b\d{1,2}:\d\d(?::\d\d)?\b", "<clock>")
# Said where the disk has not answered by the next key: of a busy machine, and of no text.
PACE = (r"(?ms)^(?:Something is not written yet\..*?prints it\.|THE LOG CANNOT BE WRITTEN: it is slow.*?on paper too\.|"
        r"The log can be written again;.*?is in it\.|Algo no está escrito todavía\..*?lo imprime\.|"
        r"NO SE PUEDE ESCRIBIR EL REGISTRO: tarda.*?en papel\.|El registro se puede escribir otra vez;.*?en él\.)\n", "")
DAY = (IDENTITY, PACE, MOMENT, CLOCK)


class Call:
    def __init__(self, name, words, form="text", width=None, typed="", copies=(), masks=(), outputs=()):
        self.name, self.words, self.form, self.width = name, words, form, width
        self.typed, self.copies, self.masks, self.outputs = typed, copies, masks, outputs

    def has_widths(self):
        """Printed to a terminal, whose width it may go by; what is typed goes to a program without one."""
        return self.form == "text" and not self.typed


def of_scene(scene):
    """{command: [calls]} of one scene."""
    file, arm, zone = SCENES[scene]
    at = ["--at", "0min..20min/10min"]
    grades = ["--saw", f"10 slight {zone}", "--saw", f"15 about half {zone}"]
    form = ["--person", "forms/nothing-stops.yaml"]
    calls = {
        "run": [Call("run", ["run", file]), Call("run colours", ["run", file, "--at", "15min", "--colours"]),
                Call("run contact", ["run", file, "--at", "15min", "--clock", "contact", "--zone", zone, "--share", "40%"]),
                Call("run csv", ["run", file, "--csv"], "csv"), Call("run json", ["run", file, *at, "--json"], "json")],
        "limits": [Call("limits", ["limits", file, *DRAWS]), Call("limits science", ["limits", file, *DRAWS, "--arm", arm, "--science"]),
                   Call("limits goal", ["limits", file, *DRAWS, "--arm", arm, "--goal", "50%", "--label", "30min"]),
                   Call("limits saw", ["limits", file, *DRAWS, "--arm", arm, *grades]),
                   Call("limits person", ["limits", file, *DRAWS, "--arm", arm, *form]),
                   Call("limits person stopped", ["limits", file, *DRAWS, "--arm", arm, "--person", "forms/henna.yaml"]),
                   Call("limits csv", ["limits", file, *DRAWS, "--csv"], "csv"),
                   Call("limits json", ["limits", file, *DRAWS, "--json"], "json"),
                   Call("limits person json", ["limits", file, *DRAWS, "--arm", arm, *form, "--json"], "json")],
        "answer": [Call("answer", ["answer", file, *DRAWS]),
                   Call("answer same colour", ["answer", file, *DRAWS, "--zone", zone, "--same-colour", "--science"]),
                   Call("answer strip prices", ["answer", file, *DRAWS, "--strip", arm, "--label", "30min", "--prices", "school"]),
                   Call("answer saw", ["answer", file, *DRAWS, "--strip", arm, *grades]),
                   Call("answer person", ["answer", file, *DRAWS, *form]),
                   Call("answer json", ["answer", file, *DRAWS, "--json"], "json"),
                   Call("answer person json", ["answer", file, *DRAWS, *form, "--json"], "json")],
        "rank": [Call("rank", ["rank", file, *DRAWS]), Call("rank csv", ["rank", file, *DRAWS, "--csv"], "csv"),
                 Call("rank zone", ["rank", file, *DRAWS, "--zone", zone, "--at", "10min", "--share", "60%", "--science"]),
                 Call("rank json", ["rank", file, *DRAWS, "--json"], "json")],
        "what-if": [Call("what-if one", ["what-if", file, "--arm", arm, "--time", "10min"]),
                    Call("what-if two", ["what-if", file, "--arm", arm, "--strength", "3%", "--warmer", "-4K"]),
                    Call("what-if rounds", ["what-if", file, "--arm", arm, "--rounds", "2x10min"]),
                    Call("what-if csv", ["what-if", file, "--arm", arm, "--age", "10min", "--csv"], "csv"),
                    Call("what-if json", ["what-if", file, "--arm", arm, "--grams", "4", "--json"], "json")],
        "map": [Call("map", ["map", file, "--arm", arm]),
                Call("map stress", ["map", file, "--arm", arm, "--x", "age:0..20min", "--show", "stress"]),
                Call("map csv", ["map", file, "--arm", arm, "--csv"], "csv"),
                Call("map json", ["map", file, "--arm", arm, "--show", "base", "--json"], "json")],
        "search": [Call("search", ["search", file, "--allowed", "powder-3", "--allowed", "powder-6"]),
                   Call("search none", ["search", file]),
                   Call("search csv", ["search", file, "--allowed", "powder-3", "--csv"], "csv"),
                   Call("search json", ["search", file, "--allowed", "powder-3", "--json"], "json")],
        "plan": [Call("plan", ["plan", file, "--repeats", "2", "--people", "2"]),
                 Call("plan looks", ["plan", file, "--repeats", "1", "--looks", "5min,10min,90min", "--seed", "7", "--class", "50min", "--who", "k1"]),
                 Call("plan ladder", ["plan", file, "--repeats", "1", "--ladder", "5min,10min"]),
                 Call("plan blind", ["plan", file, "--blind", "--key", "key.csv"], outputs=("key.csv",)),
                 Call("plan csv", ["plan", file, "--repeats", "1", "--csv"], "csv"),
                 Call("plan json", ["plan", file, "--repeats", "1", "--class", "30min", "--json"], "json")],
        "mix": [Call("mix", ["mix", file, "--arm", arm, "--hair", "16g"]),
                Call("mix json", ["mix", file, "--arm", arm, "--hair", "16g", "--waste", "0%", "--json"], "json")],
        "cost": [Call("cost", ["cost", "school", "--scene", file, "--people", "2"]),
                 Call("cost json", ["cost", "school", "--scene", file, "--people", "2", "--json"], "json"),
                 Call("cost csv", ["cost", "school", "--scene", file, "--people", "2", "--csv"], "csv")],
        "check": [Call("check", ["check", file])],
        "log": [Call("log new", ["log", "new", "new.db", file, "--repeats", "2", "--people", "2", "--operator", "op-1"], masks=(IDENTITY, MOMENT)),
                Call("log show", ["log", "show", "new.db"], masks=(IDENTITY, MOMENT)),
                Call("log show blind", ["log", "show", "new.db", "--blind"], masks=(IDENTITY, MOMENT)),
                Call("day", ["day", "new.db", "--plain"], width=78, typed="l\np\n?\nm\nl\nu\nq\n", masks=DAY),
                Call("day measured", ["day", "new.db", "--plain"], width=78, typed="g\n2\nm\n20.5\n22\na\nj\nq\nq\n", masks=DAY),
                Call("day summary", ["day", "new.db", "--summary"], width=78, masks=DAY),
                Call("compare", ["compare", "new.db"], masks=(IDENTITY, MOMENT))],
    }
    return calls


def of_none():
    """{(command, what): [calls]} of those that ask for no scene of ours."""
    helps = [Call(f"{command} --help", [command, "--help"], "lines") for command in
             "answer check run limits rank what-if map search plan mix cost day log compare report watch picture pack teach list cautions quick-start".split()]
    week = "log/class-1.db"
    copy = ((week, "kept.db"),)
    ladder = (("log/ladder-2.db", "kept.db"),)
    rehearsal = (("log/rehearsal-1.db", "kept.db"),)
    shelf = (("log/ladder-2.db", "shelf-2.db"), ("log/rehearsal-4.db", "shelf-3.db"), ("log/looks.csv", "none.db"))
    logs = [Call("show", ["log", "show", "kept.db"], copies=copy, masks=(MOMENT,)),
            Call("show blind", ["log", "show", "kept.db", "--blind"], copies=copy, masks=(MOMENT,)),
            Call("list", ["log", "list", "--all"], copies=copy + shelf),
            Call("list csv", ["log", "list", "--all", "--csv"], "csv", copies=copy + shelf),
            Call("list json", ["log", "list", "--all", "--json"], "json", copies=copy + shelf, masks=((r'"today": "[^"]*"', '"today": "<date>"'),)),
            Call("add", ["log", "add", "kept.db", "--swatch", "EK9", "--zone", "red", "--judge", "j2", "--grade", "about half"],
                 copies=copy, masks=(IDENTITY, MOMENT)),
            Call("note", ["log", "note", "kept.db", "a draught by the window"], copies=copy, masks=(IDENTITY, MOMENT)),
            Call("drift", ["log", "drift"], copies=copy + shelf),
            Call("drift csv", ["log", "drift", "--csv"], "csv", copies=copy + shelf),
            Call("drift json", ["log", "drift", "--json"], "json", copies=copy + shelf),
            Call("bowl", ["log", "bowl", "kept.db", "--powder-lot", "P7", "--powder-opened", "2026-11-01"], copies=copy),
            Call("forget", ["log", "forget", "kept.db", "j1"], copies=copy),
            Call("forget nobody", ["log", "forget", "kept.db", "nobody"], copies=copy),
            Call("import", ["log", "import", "kept.db", "log/looks.csv"], copies=copy, masks=(IDENTITY, MOMENT)),
            Call("export csv", ["log", "export", "kept.db", "--csv"], "csv", copies=copy),
            Call("export json", ["log", "export", "kept.db", "--json"], "json", copies=copy),
            Call("ladder export csv", ["log", "export", "kept.db", "--csv"], "csv", copies=ladder),
            Call("merge", ["log", "merge", "kept.db", "log/ladder-2.db"], copies=copy, masks=(IDENTITY, MOMENT))]
    compares = [Call("example", ["compare", "--example"], masks=(IDENTITY, MOMENT)),
                Call("example csv", ["compare", "--example", "--csv"], "csv", masks=(IDENTITY, MOMENT)),
                Call("example json", ["compare", "--example", "--json"], "json", masks=(IDENTITY, MOMENT)),
                Call("class", ["compare", "kept.db"], copies=copy, masks=(MOMENT,)),
                Call("ladder", ["compare", "kept.db"], copies=ladder, masks=(MOMENT,)),
                Call("ladder at", ["compare", "kept.db", "--at", "10min"], copies=ladder, masks=(MOMENT,)),
                Call("ladder json", ["compare", "kept.db", "--json"], "json", copies=ladder, masks=(MOMENT,)),
                Call("rehearsal", ["compare", "kept.db"], copies=rehearsal, masks=(MOMENT,)),
                Call("school", ["compare", "--example-school", "school", "--zone", "blue"], masks=(IDENTITY, MOMENT)),
                Call("school across json", ["compare", "--example-school", "school", "--across", "--json"], "json", masks=(IDENTITY, MOMENT))]
    days = [Call("ladder", ["day", "kept.db"], width=78, typed="l\np\n1\na\nl\nw\nu\nn\n1\ns\nq\n", copies=ladder, masks=DAY),
            Call("class", ["day", "kept.db", "--blind"], width=78, typed="l\np\nm\na\nf\n1\nr\nq\n", copies=copy, masks=DAY),
            Call("ladder summary", ["day", "kept.db", "--summary"], width=78, copies=ladder, masks=(MOMENT,)),
            Call("rehearsal summary", ["day", "kept.db", "--summary"], copies=rehearsal, masks=(MOMENT,))]
    papers = [Call("class", ["report", "kept.db"], copies=copy, masks=(MOMENT,)),
              Call("school", ["report", "kept.db", "--school"], copies=copy, masks=(MOMENT,)),
              Call("labels", ["report", "kept.db", "--labels"], copies=copy, masks=(MOMENT,)),
              Call("accident", ["report", "kept.db", "--accident"], copies=rehearsal, masks=(MOMENT,)),
              Call("no", ["report", "kept.db", "--no", "forms/henna.yaml"], copies=copy, masks=(MOMENT,)),
              Call("no strand", ["report", "kept.db", "--client", "forms/nothing-stops.yaml"], copies=copy)]
    mixes = [Call("let down", ["mix", "--have", "6%", "--want", "3%", "--liquid", "60g"]),
             Call("let down far", ["mix", "--have", "12%", "--want", "1.5%"]),
             Call("cost", ["cost", "school", "--powder", "20g", "--developer", "40g"]),
             Call("cost csv", ["cost", "school", "--powder", "20g", "--developer", "40g", "--csv"], "csv")]
    wrong = [Call("nothing", []), Call("unknown command", ["runn", "x"]), Call("unknown option", ["run", "eight-arms", "--jsn"]),
             Call("a time without unit", ["run", "eight-arms", "--at", "5"]), Call("no file", ["run"]),
             Call("no such file", ["run", "none.yaml"]), Call("no such arm", ["what-if", "eight-arms", "--arm", "powdr", "--time", "5min"]),
             Call("above the law", ["mix", "--have", "15%", "--want", "3%"]), Call("a form that is none", ["limits", "way-wide", "--person", "models/scenes/way-wide.yaml"]),
             Call("asked, and nothing answered", ["limits", "way-wide", *DRAWS, "--person", "ask"]),
             Call("asked", ["limits", "way-wide", *DRAWS, "--arm", "powder + 3 %", "--person", "ask"],
                  typed="34\n45\nno\nno\nno\nno\nno\nno\nyes\nno\nyes\n10 about half blue\n\n")]
    lessons = {("teach", name): [Call("played", ["teach", name], width=78, typed="\n1\n\n" * 14 + "\n" * 20),
                                 Call("educator", ["teach", name, "--educator"], width=78, typed="\nt\ns\n" * 16),
                                 Call("numbers", ["check", "--numbers", f"lessons/{name}/lesson.yaml"])] for name in LESSONS}
    return lessons | {
        ("help", "commands"): [Call("--help", ["--help"], "lines"), *helps],
        ("quick-start", "all"): [Call("quick-start", ["quick-start"])],
        ("cautions", "all"): [Call("cautions", ["cautions"], "bare", width=80)],
        ("list", "all"): [Call("list", ["list"], "lines")],
        ("log", "kept"): logs,
        ("compare", "kept"): compares,
        ("day", "kept"): days,
        ("report", "kept"): papers,
        ("mix", "let-down"): mixes,
        ("wrong", "calls"): wrong,
        ("teach", "class"): [Call("class", ["teach", "--class", "lessons/class-example", "half-life"]),
                             Call("class csv", ["teach", "--class", "lessons/class-example", "half-life", "--csv"], "csv"),
                             Call("gain", ["teach", "--class", "lessons/class-example"]),
                             Call("quiz", ["teach", "--quiz", "before", "--answers", "group-9.yaml"], width=78, typed="1\n\n" * 14)],
    }

/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See quick_start.h. On paper the break falls between its two pages, whatever the language.
 */
#include "report/quick_start.h"

#include "base/language.h"

/* What is typed is no language's; what it gives is. */
typedef struct typed {
    const char *command, *gives;
} typed;

static void put_table(sl_document *document, const char *caption, const char *head, const typed *row, int n)
{
    const sl_text_column columns[] = {{N_("type"), 5.0, SL_NAME}, {head, 5.0, 0}};
    sl_document_table(document, caption, 2, columns, 0.0);
    for (int i = 0; i < n; i++) {
        sl_document_cell(document, "%s", row[i].command);
        sl_document_cell(document, "%s", _(row[i].gives));
    }
}

static const char *const pressed[] = {
    N_("P plays and stops. The bar below the strips is the clock: click it, or use Left and Right."),
    N_("C compares at the same colour left: now the minutes differ, and what base and hair paid."),
    N_("Up and Down choose a zone, a click chooses a strip."),
    N_("W asks what if: turn strength, water, warmth or time, and see the strip before and after."),
    N_("E tells how long: when to look, when to rinse by, and in how many of 20 model runs."),
    N_("F1 has every key, K every caution."),
};

static const typed asked[] = {
    {"slowlift answer eight-arms", N_("one page: which mix, how long, what it costs the hair, how sure")},
    {"slowlift answer eight-arms -o page.pdf", N_("the same to print")},
    {"slowlift teach half-life", N_("a lesson; slowlift list names all of them")},
};

static const typed job[] = {
    {"slowlift new", N_("sixteen questions; ? explains, and out comes your scene, my-test.yaml")},
    {"slowlift answer my-test.yaml", N_("what the model expects")},
    {"slowlift plan my-test.yaml --class 90min", N_("who does what when; does it fit")},
    {"slowlift pack my-test.yaml -o papers", N_("tags, labels, look cards and sheets to print")},
    {"slowlift log new tests.db my-test.yaml --operator op-1", N_("begins the log: codes, never names")},
    {"slowlift day tests.db --rehearse", N_("a dry run on a copy, 60 times as fast")},
    {"slowlift day tests.db", N_("the day: one key for each thing done; S is STOP AND RINSE")},
    {"slowlift log export tests.db --blank -o seen.csv", N_("a table for the grades of your judges")},
    {"slowlift log import tests.db seen.csv", N_("keeps what was seen")},
    {"slowlift compare tests.db", N_("what was seen, beside what the model said")},
    {"slowlift report tests.db -o report.pdf", N_("all of it on paper")},
};

static void say_words(sl_document *document)
{
    sl_document_row(document, _("colour left"), "%s",
                    _("the share of a zone's dye that is still in the hair"));
    sl_document_row(document, _("base moved"), "%s", _("the hair's own colour, gone lighter, in levels"));
    sl_document_row(document, _("hair stress"), "%s",
                    _("the share of the hair's own cross-links that were lost"));
    sl_document_row(document, _("rinse by"), "%s",
                    _("the earliest of the limits: the label's time, base, hair stress"));
    sl_document_row(document, _("in time"), "%s",
                    _("in how many of 20 model runs, each with other numbers, the goal comes before every "
                      "limit"));
    sl_document_row(document, _("assumed"), "%s",
                    _("nobody measured that number; each page names the weakest it rests on"));
}

void sl_quick_start_say(sl_document *document, const void *of, sl_error *error)
{
    (void)of;
    sl_document_begin(document, "quick-start", _("Quick start"), error);
    sl_document_say(
        document, "%s",
        _("slowlift compares mixes that take direct dye out of hair, on swatches that you cut and "
          "dyed: what leaves when, what base and hair pay for it, and what changes with strength, "
          "water, warmth or time."));
    sl_document_say(
        document, "%s",
        _("It is a model that was never tried on hair: trust order and reasons, not minutes. For "
          "a person's head it gives none without the label's time, a form on which nothing stops, "
          "and a strand of that person's hair."));
    sl_document_heading(document, _("Look: the window"));
    sl_document_say(
        document, "%s",
        _("Choose slowlift in the menu of programs: its start page has an example, a new test, lessons "
          "and help. Or type slowlift watch eight-arms."));
    for (size_t i = 0; i < sizeof pressed / sizeof pressed[0]; i++) {
        sl_document_item(document, "%s", _(pressed[i]));
    }
    sl_document_heading(document, _("Ask: the terminal"));
    put_table(document, "", N_("what you get"), asked, (int)(sizeof asked / sizeof asked[0]));
    sl_document_say(document, "%s",
                    _("Behind every command: --help, --language es for Spanish, -o FILE.pdf or .html for "
                      "paper."));
    sl_document_break(document);
    sl_document_heading(document, _("Do: a whole test, from nothing to a report"));
    put_table(document, "", N_("what it does"), job, (int)(sizeof job / sizeof job[0]));
    sl_document_say(document, "%s",
                    _("Mixing, putting on, looking and rinsing are yours, by the label. Cut hair and gloves "
                      "first; a strand test decides, never this program."));
    sl_document_heading(document, _("Words"));
    say_words(document);
    sl_document_heading(document, _("When something is wrong"));
    sl_document_item(document, "%s",
                     _("A message names the file, the line and what would be right. Nothing is written over, "
                       "and a log keeps what was kept, whatever happens to the machine."));
    sl_document_item(document, "%s",
                     _("slowlift check FILE says whether a file is right, or where it is not."));
    sl_document_item(document, "%s",
                     _("In the folder docs: guide.md has every command, window.md the window, teach.md the "
                       "lessons, science.md where each number comes from."));
    sl_document_end(document, SL_ON_HAIR);
}

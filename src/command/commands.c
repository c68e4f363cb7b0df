/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The commands and their help. Each help has a worked example that docs/guide.md shows
 * with its output.
 */
#include <string.h>

#include "base/language.h"
#include "command/command.h"

static const char help_check[] =
    N_("Usage: slowlift check [--models DIR] [--numbers] FILE...\n"
       "\n"
       "Reads files of any kind (scene, hair, dyes, mix, chemistry, chart, intake, lesson, quiz,\n"
       "answers), with all that they refer to, and says the first thing that is wrong in each:\n"
       "file:line:column, what is wrong, what would be right. A lesson is run, and refused when its\n"
       "scene does not bear out what it claims.\n"
       "\n"
       "  --models DIR   look here first for what the files refer to\n"
       "  --numbers      list what a lesson's numbers are\n"
       "\n"
       "Example: you changed a scene and want to know whether it still reads.\n"
       "  slowlift check models/scenes/eight-arms.yaml\n");

static const char help_run[] =
    N_("Usage: slowlift run [OPTIONS] FILE\n"
       "\n"
       "Computes a scene and prints a table: what each arm is, what is left of each zone's\n"
       "colour, how far base and hair have gone, and the arms at the same colour left.\n"
       "\n"
       "  --at TIMES     when to look: 5min,10min or 0min..60min/1min (units: s, min, h)\n"
       "                 table: 5, 10, 20, 30 min; --csv and --json: from 0 min\n"
       "  --clock WORD   scene (one clock for all, the usual) or contact (each arm's own)\n"
       "  --zone NAME    zone of the comparison at the same colour left\n"
       "  --share SHARE  its colour left there, such as 50% (the usual)\n"
       "  --colours      colours in words too: level and tone by the scene's chart\n"
       "  --between A/Z --and A/Z   two zones (arm/zone) compared in words\n"
       "  --light WORD   daylight (the usual), lamp or led: the light of every colour\n"
       "  --observer N   2 (the usual) or 10 degrees\n"
       "  --look WORD    dry (the usual) or wet hair\n"
       "  --csv          long CSV: arm,zone,time_min,quantity,value\n"
       "  --json         JSON, with provenance\n"
       "  -o FILE        write there instead of to stdout; an old file is replaced whole\n"
       "  --models DIR   look here first for hair, dyes, mixes, chemistry and charts\n"
       "\n"
       "Example: what is left of each colour after 10 and 20 minutes?\n"
       "  slowlift run models/scenes/eight-arms.yaml --at 10min,20min\n"
       "Example: how do two strips differ, under a lamp?\n"
       "  slowlift run eight-arms --between \"powder + water/red\" --and \"powder + 6 %/red\" --light lamp\n"
       "Example: every minute for a spreadsheet.\n"
       "  slowlift run models/scenes/eight-arms.yaml --csv --at 0min..60min/1min -o arms.csv\n");

static const char help_limits[] =
    N_("Usage: slowlift limits [OPTIONS] FILE\n"
       "\n"
       "When to look, when to stop, and how sure the model is, for every arm of a scene that sets\n"
       "a goal (aims): one of the words roomy, tight, doubtful, not in time or cannot say, with the\n"
       "checks to make. Thousands of model runs, each with numbers drawn as widely as their grades\n"
       "are weak. It never times a person's hair without a clear form and a strand of that hair.\n"
       "\n"
       "  --arm NAME       this arm alone\n"
       "  --saw \"MINUTE GRADE [ZONE]\"   what the cotton showed at the bowl, as often as you look;\n"
       "                   no change, slight, about half, mostly gone, ghost only, as undyed\n"
       "  --person FILE    a form about a person (kind: intake), or the word ask: asked here\n"
       "  --strand LOG[:TEST[:SWATCH]]   the strand of that person's hair, as a log keeps it; no minute\n"
       "                   later than it was watched (slowlift log strand)\n"
       "  --goal SHARE     colour left to wait for, such as 25%, instead of the scene's\n"
       "  --label TIME     the label's longest time, counted from mixing, such as 30min\n"
       "  --members N      model runs (2000)       --seed N   of their draws (1)\n"
       "  --threads N      at once (as many as there are processors); the result is the same\n"
       "  --science        the odds' interval, and the indices behind \"measure next\"\n"
       "  --csv, --json    for machines, with decimals\n"
       "  -o FILE          write there; an old file is replaced whole\n"
       "  --part K/N -o FILE   count one part of N, on any machine; then\n"
       "  --merge SCENE FILE...   add the parts up: the same bytes as the whole at once\n"
       "  --models DIR     look here first for hair, dyes, mixes and chemistry\n"
       "\n"
       "Ctrl-C stops the count; what was counted is printed, said to be partial, and exit is 4.\n"
       "\n"
       "Example: when shall I look?\n"
       "  slowlift limits way-wide --arm \"powder + 3 %\"\n"
       "Example: after fifteen minutes it is still about half there. Now what?\n"
       "  slowlift limits way-wide --arm \"powder + 3 %\" --saw \"15 about half\"\n");

static const char help_rank[] =
    N_("Usage: slowlift rank [OPTIONS] FILE\n"
       "\n"
       "Which arm does best in which colour: for each zone the arms at the same time on the hair and\n"
       "at the same colour left, with ties where nine in ten model runs do not agree; speed, end point and\n"
       "selectivity apart; why the first comes first; and the arms that no other beats in colour\n"
       "left and hair stress together. Swatches on a bench only.\n"
       "\n"
       "  --at TIME        time on the hair (20min)     --share SHARE   colour left (50%)\n"
       "  --zone NAME      this zone alone; for a picture the usual is the first one\n"
       "  --surprise \"ARM beats ARM in ZONE\"   how often the model runs show that, and what decides it\n"
       "  --members N      model runs (2000)            --seed N        of their draws (1)\n"
       "  --threads N      at once; the result is the same\n"
       "  --science        indices behind what decides a surprise\n"
       "  --csv, --json    for machines, with decimals\n"
       "  -o FILE          write there; rank.png, .svg or .pdf is a picture of colour left against\n"
       "                   hair stress (so is --picture FILE)\n"
       "  --models DIR     look here first for hair, dyes, mixes and chemistry\n"
       "\n"
       "Ctrl-C stops the count; what was counted is printed, said to be partial, and exit is 4.\n"
       "\n"
       "Example: which one gets the violet out, and at what price?\n"
       "  slowlift rank eight-arms --zone violet\n"
       "Example: students saw water beat 3 % in the blue. How odd is that?\n"
       "  slowlift rank eight-arms --zone blue --surprise \"powder + water beats powder + 3 % in blue\"\n");

static const char help_what_if[] =
    N_("Usage: slowlift what-if --arm NAME CHANGE... [--csv | --json] [--models DIR] FILE\n"
       "\n"
       "One arm as the file says and changed, side by side, once it is washed and dry: colour\n"
       "left, base and hair stress, and on the bench the minutes to the goal. One change at a\n"
       "time tells what did it.\n"
       "\n"
       "  --strength 3%   developer, at most 12 %\n"
       "  --water 2       parts of water        --ratio 3   parts of liquid for one of powder\n"
       "  --time 20min    first application     --age 10min from mixing to contact\n"
       "  --warmer -4K    warmer or cooler      --grams 4   grams of mix for one of hair\n"
       "  --covered no    left open to dry\n"
       "  --rounds 2x15min   fresh rounds, a rinse between, against one of as long; by itself\n"
       "\n"
       "Example: what would 3 % have done where 6 % was used?\n"
       "  slowlift what-if eight-arms --arm \"powder + 6 %\" --strength 3%\n");

static const char help_map[] =
    N_("Usage: slowlift map --arm NAME [OPTIONS] FILE\n"
       "\n"
       "What comes of one arm over two of its settings, such as strength and time: colour left, base\n"
       "or hair stress once washed and dry, where the goal is reached, and where that is inside every\n"
       "limit that the scene sets. Swatches on a bench only.\n"
       "\n"
       "  --x SETTING:FROM..TO   across (strength:0..12%)    --y SETTING:FROM..TO   up (time:5..60min);\n"
       "                   strength, water, ratio, warmer, time, age, grams, as for what-if\n"
       "  --show WORD      left (colour left, the usual), base or stress\n"
       "  --zone NAME      colour left of this zone; the usual is the one that holds most\n"
       "  --csv, --json    every point, with decimals\n"
       "  -o FILE          write there; map.png, .svg or .pdf is a picture with lines of equal value,\n"
       "                   what lies inside the limits hatched (so is --picture FILE)\n"
       "  --models DIR     look here first for hair, dyes, mixes and chemistry\n"
       "\n"
       "Example: strength against time, for the class.\n"
       "  slowlift map way-wide --arm \"powder + 3 %\" -o map.pdf\n");

static const char help_search[] =
    N_("Usage: slowlift search [--allowed MIX]... [--csv | --json] [-o FILE] [--models DIR] FILE\n"
       "\n"
       "Mixes to try on a strand: for each mix that is marked as allowed by its label, the strength and\n"
       "the time that reach the scene's goal with the least hair stress, inside every limit that it\n"
       "sets, without added heat, at most 12 %. Or none, and says so. Swatches on a bench only.\n"
       "\n"
       "  --allowed MIX   you read the label, and it allows this mix; as \"label_allows: yes\" in its file\n"
       "  --csv, --json   for machines, with decimals\n"
       "  -o FILE         write there\n"
       "\n"
       "Example: what might be tried first?\n"
       "  slowlift search way-wide --allowed powder-3 --allowed powder-6\n");

static const char help_plan[] =
    N_("Usage: slowlift plan [OPTIONS] FILE\n"
       "\n"
       "A fair plan of the scene's comparison on the bench: swatches in blocks and random order, who\n"
       "does what when, what to weigh, what is missing, what mistakes would cost by the model, and how\n"
       "small a difference it can see.\n"
       "\n"
       "  --repeats N    swatches of each arm, 1 to 12 (3); a block holds every arm once\n"
       "  --people N     pairs of hands, 1 to 8 (1)\n"
       "  --apply 45s    seconds of one person for one swatch; --remove 45s, --look 20s, --mix 60s\n"
       "  --looks TIMES  wipe and look at these minutes after contact, such as 5min,10min\n"
       "  --ladder TIMES a piece of each swatch is cut off and rinsed at each: rates, not ends alone\n"
       "  --scale 0.1g   step of the scale      --waste 10%    mix made beyond need\n"
       "  --spread 5%    how far swatches of one mix scatter, for what looks like a tie (assumed)\n"
       "  --seed N       order and codes\n"
       "  --blind        codes alone, for a judge; needs --key\n"
       "  --key FILE     what the codes mean, to be kept from the judge\n"
       "  --csv, --json, -o FILE, --models DIR   as for run\n"
       "\n"
       "Example: five repeats, two people.\n"
       "  slowlift plan eight-arms --repeats 5 --people 2\n"
       "Example: what the judge gets.\n"
       "  slowlift plan eight-arms --blind --key key.csv\n");

static const char help_mix[] =
    N_("Usage: slowlift mix --arm NAME --hair GRAMS [OPTIONS] FILE\n"
       "       slowlift mix --have 6% --want 3% [--liquid 60g]\n"
       "\n"
       "What to weigh for an arm's mix and some hair, with the peroxide in liquid and paste and the\n"
       "scale's error; or how much water lets a developer down.\n"
       "\n"
       "  --hair 16g     the hair it is for       --grams 4     grams of mix for one of hair\n"
       "  --waste 10%    for what stays in the bowl              --scale 0.1g  step of the scale\n"
       "  --have, --want the developer there is, and the one that is wanted\n"
       "  --json, --models DIR   as for run\n"
       "\n"
       "Example: powder and 3 % for eight swatches of 2 g.\n"
       "  slowlift mix eight-arms --arm \"powder + 3 %\" --hair 16g\n"
       "Example: only 6 % on the shelf.\n"
       "  slowlift mix --have 6% --want 3% --liquid 60g\n");

static const char help_cost[] =
    N_("Usage: slowlift cost [OPTIONS] PRICES\n"
       "\n"
       "What one use costs out of packets and out of a tub, what is thrown away counted in, from how\n"
       "many real uses a tub is cheaper, and what powder that has lost strength does.\n"
       "\n"
       "  --powder 20g --developer 40g   of one use, as weighed\n"
       "  --scene SCENE  the class's comparison and one of its swatches; --repeats N (3)\n"
       "  --per-week 2   uses of an opened tub in a week\n"
       "  --csv, --json, --models DIR   as for run\n"
       "\n"
       "Example: one client, and the class.\n"
       "  slowlift cost school --powder 20g --developer 40g --scene eight-arms\n");

static const char help_day[] =
    N_("Usage: slowlift day [OPTIONS] LOG [TEST]\n"
       "\n"
       "The clock of the day, on a terminal: what is next with its countdown, every swatch's own time\n"
       "from contact to first water, one key for each thing done, each kept in the log at once. It goes\n"
       "on after sleep, a crash, a kill or a restart; where clocks disagree the longer time counts, and\n"
       "it says so. TEST: the beginning of a test's id; not needed where there is one.\n"
       "\n"
       "  space or s   STOP AND RINSE, all that is on hair: kept first, asked afterwards\n"
       "  x            the chosen swatch alone           o  water off\n"
       "  a  applied   w  wiped and looked   f  felt: skin, heat, stretch   r  rinsed   m  mixed\n"
       "               (time ladder: w  the piece is cut off and rinsed)\n"
       "  n  note      t  in your own words  u  undo     1 2 3, c  choose another swatch\n"
       "  l  all of them    p  the model's word    b  bell    ?  help    q  leave; the clock goes on\n"
       "  d  for a doctor, after a stop: what was in the bowls, also in a blind test; who was told\n"
       "\n"
       "Without a terminal: a key and Enter, and a swatch's code may follow, such as: a EK9\n"
       "\n"
       "  --blind      for a judge: neither arms nor the model are told\n"
       "  --plain      no lines at the foot that are drawn over each second (screen readers)\n"
       "  --summary    no clock: how the day went; late, early, unequal time on hair, age of the mix\n"
       "  --stops      no clock: a sheet of every stop for a doctor: when, why, what was in the bowl,\n"
       "               how long water ran, who was told\n"
       "\n"
       "SLOWLIFT_DAY_SPEED=60 makes a rehearsal, a minute each second. Never for real hair.\n"
       "\n"
       "Example: the bowls are on the counter.\n"
       "  slowlift log new strands.db eight-arms --repeats 3 --operator op-1\n"
       "  slowlift day strands.db\n"
       "Example: how did it go?\n"
       "  slowlift day strands.db --summary\n");

static const char help_log[] =
    N_("Usage: slowlift log new LOG SCENE --operator CODE [--title WORDS] [options of slowlift plan]\n"
       "       slowlift log show LOG [TEST] [--blind]\n"
       "       slowlift log add LOG --swatch CODE --zone NAME --judge CODE [WHAT WAS SEEN]\n"
       "       slowlift log note LOG WORDS [--test TEST] [--swatch CODE]\n"
       "       slowlift log strand LOG --swatch CODE [--test TEST] [WHAT IS NOTED OF A STRAND]\n"
       "       slowlift log import LOG FILE.csv [--test TEST] [--again]\n"
       "       slowlift log export LOG [TEST] [--csv | --json] [-o FILE]\n"
       "       slowlift log merge LOG OTHER\n"
       "       slowlift log check LOG\n"
       "       slowlift log backup LOG -o FILE\n"
       "       slowlift log rescue LOG -o FILE\n"
       "\n"
       "Strand tests kept in one file (SQLite; docs/log.md): the scene as it was, swatches, what\n"
       "happened, every reading. Nothing in it is ever changed; a mistake is corrected by a reading\n"
       "that replaces it. Codes, never names. TEST: the beginning of a test's id; not needed where\n"
       "there is one.\n"
       "\n"
       "  --grade WORD     no change, slight, about half, mostly gone, ghost only, as undyed\n"
       "  --cotton WORD, --feel WORD, --stretch WORD, --outcome WORD   words of the record form\n"
       "  --L 62.1 --a 3.2 --b 18 --illuminant D65 --observer 10   an instrument's mean; with\n"
       "                   --sd_L, --sd_a, --sd_b, --n, --geometry\n"
       "  --level 8 --tone WORD   by eye, on your own chart\n"
       "  --photo FILE     kept by name and SHA-256, not in the log\n"
       "  --minute 15      a piece wiped or cut 15 minutes after contact; else at the end\n"
       "  --hours_after 24 looked at again a day after the water\n"
       "  --blind yes, --at TIME, --note WORDS, --replaces ID\n"
       "  --id UUID        a reading that is sent again with the same id is kept once\n"
       "\n"
       "A swatch that is a strand of somebody's hair:\n"
       "  --person CODE --part WORD   whose, and front, crown, sides, back or nape\n"
       "  --cut --packet-opened DAY   it was cut off; when its packet was opened\n"
       "  --washed-and-dried          before it was graded at the end\n"
       "  --warm, --fizzed, --smelt   what it did under the mix; never taken back\n"
       "  --practice                  made up for a class\n"
       "\n"
       "A file of CSV is taken whole or not at all; what is wrong is named with line and column.\n"
       "What cannot be acknowledged, as on a closed or full output, is not kept.\n"
       "check looks over a log; backup copies it into a new file and reads it back; rescue copies\n"
       "what can be read of a damaged one into a new log.\n"
       "\n"
       "Example: a class of strand tests begins, and judge j2 looks.\n"
       "  slowlift log new strands.db eight-arms --repeats 3 --operator op-1\n"
       "  slowlift log add strands.db --swatch EK9 --zone red --judge j2 --grade \"about half\"\n"
       "Example: the readings for a spreadsheet, and two logs into one.\n"
       "  slowlift log export strands.db -o readings.csv\n"
       "  slowlift log merge strands.db other.db\n"
       "Example: a copy on a stick at the end of the day.\n"
       "  slowlift log backup strands.db -o /media/stick/strands-monday.db\n");

static const char help_compare[] =
    N_("Usage: slowlift compare LOG [TEST] [OPTIONS]\n"
       "       slowlift compare --example [NEW-LOG] [OPTIONS]\n"
       "\n"
       "What was seen on a day of strand tests: for each colour the arms with their mean over\n"
       "swatches, its 95 % interval and ties; the same as the planned time would have left it, by the\n"
       "model; how fast it left, where swatches were looked at three times or more; what went\n"
       "otherwise than planned; how far judges agree; and a summary to be read aloud.\n"
       "TEST: the beginning of a test's id; not needed where there is one.\n"
       "\n"
       "  --example        a made-up day, our own invention; kept where a new log is named\n"
       "  --at 10min       rank what was seen at that minute in place of the end: pieces of a time\n"
       "                   ladder, or looks under the mix\n"
       "  --zone NAME      this zone alone; for a picture the usual is the first one seen\n"
       "  --floor SHARE    means closer than this tie (10%); else from looks that were repeated,\n"
       "                   or a step of the grades\n"
       "  --csv, --json    for machines, with decimals\n"
       "  -o FILE          write there; seen.png, .svg or .pdf is a picture of what was seen over\n"
       "                   the curves that the model predicts (so is --picture FILE)\n"
       "  --models DIR     with --example: look here first\n"
       "\n"
       "Example: Monday's strands, and a picture of the blue.\n"
       "  slowlift compare strands.db\n"
       "  slowlift compare strands.db --zone blue -o blue.pdf\n");

static const char help_watch[] =
    N_("Usage: slowlift watch [OPTIONS] FILE\n"
       "       slowlift watch --lesson NAME [OPTIONS]\n"
       "       slowlift watch --day LOG [--test ID] [OPTIONS]\n"
       "       slowlift watch --seen LOG [--test ID] [OPTIONS]\n"
       "\n"
       "Opens the window: strips side by side that change with time. Needs a display and the\n"
       "program slowlift-watch. In the window F1 shows the keys; docs/window.md lists them.\n"
       "\n"
       "  --theme WORD    light, dark or high-contrast\n"
       "  --vision WORD   full, protan, deutan, tritan or grey: whose eyes\n"
       "  --light WORD    daylight, lamp or led\n"
       "  --look WORD     dry, wet or mix (as it lies at its moment)\n"
       "  --observer N    2 or 10 degrees\n"
       "  --text PERCENT  size of the text, 100 to 200\n"
       "  --size WxH      size of the window, at least 900x600\n"
       "  --at MIN        minute of the scene to begin at\n"
       "  --models DIR    look here first for hair, dyes, mixes and chemistry\n"
       "  --lesson NAME   a lesson, as slowlift teach has it, in place of a scene\n"
       "  --answers FILE  keep the answers there\n"
       "  --class FOLDER  with --lesson: what a class answered\n"
       "  --educator      S leaves a step as it is, N shows the notes\n"
       "  --classroom     letters for a whole room\n"
       "  --language XX   of the lesson: en or es\n"
       "  --day LOG       the clock of the day of a test that slowlift log keeps; Space: STOP AND RINSE\n"
       "  --seen LOG      the scene of a test of the log, and what was seen over what the model predicts\n"
       "  --strand LOG    strands of people's hair, for the form (F)\n"
       "  --test ID       which test of the log, by the beginning of its id\n"
       "\n"
       "Example:\n"
       "  slowlift watch models/scenes/eight-arms.yaml\n"
       "  slowlift watch --lesson half-life --answers group-3.yaml\n");

static const char help_picture[] =
    N_("Usage: slowlift picture [OPTIONS] -o OUT FILE\n"
       "       slowlift picture [OPTIONS] --frames FOLDER FILE\n"
       "\n"
       "Draws a sheet of the strips at some times, one moment, an animation, or numbered\n"
       "pictures for slides. Needs the program slowlift-paper, no display.\n"
       "\n"
       "  -o OUT         sheet.png, sheet.svg or sheet.pdf; film.webp is an animation; an old\n"
       "                 file is replaced whole\n"
       "  --frames DIR   frame-0001.png, frame-0002.png ... in a new or empty folder\n"
       "  --at TIMES     when to look, as for run (the usual: 0, 5, 10, 20, 30 min)\n"
       "  --size WxH     one moment as a picture of so many pixels; frames and animations are\n"
       "                 1280x720 unless this says otherwise\n"
       "  --each TIME    how long each picture of an animation stands (the usual: 500ms)\n"
       "  --light WORD, --observer N   as for run; named at the foot\n"
       "  --look WORD    dry (the usual), wet or mix (as it lies at its moment)\n"
       "  --vision WORD  full, protan, deutan, tritan or grey: whose eyes\n"
       "  --theme WORD   light or dark, for a screen\n"
       "  --models DIR   look here first for hair, dyes, mixes and chemistry\n"
       "\n"
       "Example: a sheet to print for Monday, and half an hour in 16 seconds.\n"
       "  slowlift picture models/scenes/eight-arms.yaml --at 0min,10min,20min -o sheet.pdf\n"
       "  slowlift picture eight-arms --at 0min..30min/1min -o film.webp\n");

static const char help_pack[] =
    N_("Usage: slowlift pack [OPTIONS] FILE -o FOLDER\n"
       "\n"
       "Prints a class: plan, shopping list, rota, tags, bowl labels, mixing sheet, check card, safety\n"
       "checklist, swatch board, sheets for students and educator, a client sheet for practice, the\n"
       "model's results, and the key to the codes on a page of its own. FOLDER gets pack.pdf with all\n"
       "of them, one .svg for each page and one .html for each sheet, which a screen reader reads.\n"
       "A folder that holds anything but an older pack is refused. Swatches on a bench only.\n"
       "\n"
       "  --paper WORD     a4 (the usual) or letter\n"
       "  --blind          arms are named only where mixes are made, for the educator and in the key\n"
       "  --repeats N, --people N, --seed N, --looks TIMES, --ladder TIMES, --apply, --remove,\n"
       "  --look, --mix, --scale, --waste, --spread   as for slowlift plan\n"
       "  --models DIR     look here first for hair, dyes, mixes and chemistry\n"
       "\n"
       "Example: everything to copy for four people and three repeats.\n"
       "  slowlift pack eight-arms --repeats 3 --people 4 -o monday\n");

static const char help_teach[] =
    N_("Usage: slowlift teach LESSON [--answers FILE] [--educator] [--language WORD]\n"
       "       slowlift teach --quiz before|after --answers FILE [--language WORD]\n"
       "       slowlift teach --class FOLDER [LESSON] [--csv]\n"
       "\n"
       "A lesson, one step at a time, in plain lines: recall, compare, predict with a reason, run,\n"
       "say what you saw, explain. The run is locked until there are a prediction and a reason.\n"
       "\n"
       "  --answers FILE   keep the answers here and go on here later; call the file by a code,\n"
       "                   such as group-3.yaml, never by a name\n"
       "  --educator       s leaves a step open, t shows the notes\n"
       "  --language WORD  en (the usual) or es\n"
       "  --quiz WORD      the twelve questions before or after the course\n"
       "  --class FOLDER   sum up the files of answers in a folder: who chose what is never shown,\n"
       "                   how many did is; with the quiz, the class gain\n"
       "  --csv            that summary for a spreadsheet\n"
       "  --models DIR     look here first for models; lessons lie in the folder beside them\n"
       "\n"
       "While it runs: the number of an answer, Enter to go on, b to go back, q to stop.\n"
       "\n"
       "Example: a group begins the first lesson.\n"
       "  slowlift teach half-life --answers class/group-3.yaml\n"
       "Example: what did the class predict?\n"
       "  slowlift teach --class class half-life\n");

static const char help_list[] =
    N_("Usage: slowlift list [--models DIR]\n"
       "\n"
       "Lists the model files that would be found, by kind, with the titles that they give\n"
       "themselves. A file that does not read is listed with \"slowlift check\" to ask why.\n"
       "\n"
       "Example:\n"
       "  slowlift list\n");

static const char help_cautions[] =
    N_("Usage: slowlift cautions\n"
       "\n"
       "Prints every caution. Those that cannot be switched off stand below every table.\n"
       "\n"
       "Example: print them for the wall.\n"
       "  slowlift cautions | lpr\n");

const sl_command sl_commands[] = {
    {"check", N_("say whether model files are right"), help_check, sl_command_check},
    {"run", N_("compute a scene: table, CSV or JSON"), help_run, sl_command_run},
    {"limits", N_("when to look and when to stop"), help_limits, sl_command_limits},
    {"rank", N_("which arm does best in which colour"), help_rank, sl_command_rank},
    {"what-if", N_("one arm before and after a change"), help_what_if, sl_command_what_if},
    {"map", N_("one arm over two of its settings"), help_map, sl_command_map},
    {"search", N_("mixes to try on a strand, or none"), help_search, sl_command_search},
    {"plan", N_("swatches, order, timetable, grams"), help_plan, sl_command_plan},
    {"mix", N_("what to weigh; how to let a developer down"), help_mix, sl_command_mix},
    {"cost", N_("what a use costs, and old powder"), help_cost, sl_command_cost},
    {"day", N_("the clock of the day: one key for all that is done"), help_day, sl_command_day},
    {"log", N_("strand tests kept: readings, notes, CSV, JSON"), help_log, sl_command_log},
    {"compare", N_("what was seen: means, ties, what went wrong"), help_compare, sl_command_compare},
    {"watch", N_("show a scene in a window"), help_watch, sl_command_watch},
    {"picture", N_("draw a scene: a sheet, slides, an animation"), help_picture, sl_command_picture},
    {"pack", N_("print a class: every sheet to copy"), help_pack, sl_command_pack},
    {"teach", N_("a lesson in the terminal; what a class answered"), help_teach, sl_command_teach},
    {"list", N_("list the model files there are"), help_list, sl_command_list},
    {"cautions", N_("print every caution"), help_cautions, sl_command_cautions},
};
const int sl_n_commands = (int)(sizeof sl_commands / sizeof sl_commands[0]);

const sl_command *sl_command_find(const char *name)
{
    for (int i = 0; i < sl_n_commands; i++) {
        if (strcmp(sl_commands[i].name, name) == 0) {
            return &sl_commands[i];
        }
    }
    return NULL;
}

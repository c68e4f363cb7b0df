#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# The command line as a shell sees it: exit codes, refusals, what goes to stdout and what to stderr, the same bytes, full disks,
# Ctrl-C. What is said is held by the net (tests/net), and is not looked at here.
# usage: test_command.sh BUILD SOURCE
set -u
build=$1
source=$2
slowlift=$build/slowlift
scene=$source/models/scenes/eight-arms.yaml
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
unset NO_COLOR SLOWLIFT_MODELS
failures=0
checks=0

# expect CODE NAME COMMAND...: runs it, keeps stdout and stderr in $folder/out and $folder/err
expect() {
    local code=$1 name=$2
    shift 2
    "$@" >"$folder/out" 2>"$folder/err" </dev/null
    local got=$?
    ok "$name (exit $got, wanted $code)" test "$got" -eq "$code"
}
ok() {
    local name=$1
    shift
    checks=$((checks + 1))
    if ! "$@"; then
        failures=$((failures + 1))
        echo "false: $name"
        head -c 600 "$folder/err"
    fi
}
out_has() { grep -qF -- "$1" "$folder/out"; }
err_has() { grep -qF -- "$1" "$folder/err"; }
patiently() { /usr/bin/python3 "$source/tests/tools/patience.py" "$1"; }
# counts PID: waits until it listens to Ctrl-C and has worked for a second of its own time, or is gone
counts() { patiently "! test -e /proc/$1/stat || { grep -q '^SigCgt:.*[2367abef]\$' /proc/$1/status && awk '{exit !(\$14 + \$15 >= 100)}' /proc/$1/stat; }"; }
# at_terminal COMMAND: runs it on a terminal, and Ctrl-C comes once it has said how far it is
at_terminal() {
    rm -f "$folder/pid"
    : >"$folder/out"
    env --default-signal=INT script -qec "echo \$\$ >$folder/pid; exec $1" /dev/null >"$folder/out" </dev/null &
    local terminal=$!
    patiently "test -s $folder/pid && { grep -q '% of' $folder/out || ! test -e /proc/\$(cat $folder/pid); }"
    kill -INT "$(cat "$folder/pid")"
    wait $terminal
}
out_empty() { [ ! -s "$folder/out" ]; }
err_empty() { [ ! -s "$folder/err" ]; }
err_is_one_line() { [ "$(wc -l <"$folder/err")" -eq 1 ]; }

# ---- without a command, help, version ----------------------------------------------------
expect 2 "no arguments is a usage error" "$slowlift"
ok "it says how to begin, on stderr" err_has "slowlift answer eight-arms"
ok "and nothing on stdout" out_empty
expect 0 "--help is a result" "$slowlift" --help
ok "help goes to stdout" out_has "Exit codes"
ok "and nothing to stderr" err_empty
expect 0 "--version" "$slowlift" --version
ok "the version is named" grep -qE '^slowlift [0-9]+\.[0-9]+\.[0-9]+$' "$folder/out"
for command in check run limits rank what-if map search watch picture teach list cautions; do
    expect 0 "$command --help" "$slowlift" "$command" --help
    ok "$command --help has a worked example" out_has "Example"
    ok "$command --help uses no banned word" bash -c "! grep -qiE 'safe|guarantee|perfect' '$folder/out'"
done

# ---- refusals ------------------------------------------------------------------------------
expect 2 "an unknown command" "$slowlift" runn "$scene"
ok "the nearest command is named" err_has '"run"'
expect 2 "an unknown option" "$slowlift" run --jsn "$scene"
ok "the nearest option is named" err_has '"json"'
ok "nothing on stdout" out_empty
expect 2 "an unknown letter" "$slowlift" run -q "$scene"
expect 2 "an option without its value" "$slowlift" run "$scene" --at
expect 2 "a value where none belongs" "$slowlift" run --csv=yes "$scene"
expect 2 "no file" "$slowlift" run
expect 2 "two files" "$slowlift" run "$scene" "$scene"
expect 2 "a time without unit" "$slowlift" run "$scene" --at 5
ok "and it says how to write it" err_has "5min"
for wrong in "" "," "5min," "5mins" "-5min" "nanmin" "1e999min" "5,5min" "10min..5min" "0min..5min/0min" \
    "0min..60min/1s/2" "0h..24h/1s"; do
    expect 2 "--at '$wrong'" "$slowlift" run "$scene" --at "$wrong"
    ok "one line about '$wrong'" err_is_one_line
done
expect 2 "a time past the end" "$slowlift" run "$scene" --at 10h
ok "the end is named" err_has "ends at"
expect 2 "one person as two pairs of hands" "$slowlift" plan eight-arms --who k1,k1
ok "and it says how to write it" err_has "each person once"
expect 2 "a share above all" "$slowlift" run "$scene" --share 120%
expect 2 "an unknown clock" "$slowlift" run "$scene" --clock contct
ok "the nearest clock is named" err_has '"contact"'
expect 2 "an unknown zone" "$slowlift" run "$scene" --zone violett
ok "the nearest zone is named" err_has '"violet"'
expect 2 "CSV and JSON together" "$slowlift" run "$scene" --csv --json
expect 2 "an unknown light" "$slowlift" run "$scene" --light lmp
ok "the nearest light is named" err_has '"lamp"'
expect 2 "an unknown observer" "$slowlift" run "$scene" --observer 4
expect 2 "an unknown look" "$slowlift" run "$scene" --look wett
ok "the nearest look is named" err_has '"wet"'
expect 2 "one zone to compare" "$slowlift" run "$scene" --between "powder + 6 %/red"
ok "it says how to name two" err_has "--and STRIP/ZONE"
expect 2 "a zone without its arm" "$slowlift" run "$scene" --between red --and red
ok "it says how to write it" err_has "STRIP/ZONE"
expect 2 "an arm misspelt" "$slowlift" run "$scene" --between "powdr + 6 %/red" --and "powder + 6 %/red"
ok "the nearest arm is named" err_has '"powder + 6 %"'
expect 2 "a zone misspelt" "$slowlift" run "$scene" --between "powder + 6 %/red" --and "powder + 6 %/violt"
ok "the nearest zone is named" err_has '"violet"'
expect 2 "words for a machine" "$slowlift" run "$scene" --colours --csv
expect 2 "no model folder of that name" "$slowlift" run "$scene" --models "$folder/none"

# ---- files ---------------------------------------------------------------------------------
expect 1 "a file that is not there" "$slowlift" run "$folder/none.yaml"
ok "it is named" err_has "none.yaml"
ok "in one line" err_is_one_line
mkdir -p "$folder/near/scenes"
cp "$scene" "$folder/near/scenes/my-test.yaml"
cp "$scene" "$folder/near/beside.yaml"
: >"$folder/near/strands.db"
# near TYPED NAME CODE COMMAND...: refused in that folder with NAME as what is near
near() {
    local typed=$1 name=$2 code=$3
    shift 3
    expect "$code" "$* $typed" env -C "$folder/near" "$slowlift" "$@" "$typed"
    ok "\"$name\" is near $typed" err_has "near it: \"$name\""
    ok "in one line" err_is_one_line
}
near eight-arm eight-arms 1 run
near eight eight-arms 1 rank
near models/scene/eihgt-arms.yaml eight-arms 1 check
near my-test scenes/my-test.yaml 1 run
near ./scenes/my-test ./scenes/my-test.yaml 1 limits
[ ! -x "$build/slowlift-watch" ] || near beside beside.yaml 1 watch # a build without the window says that first
near eight-arm eight-arms 1 pack -o x
near eight-arm eight-arms 1 picture -o x.png
near eight-arm eight-arms 1 log new x.db --operator op-1
near schol school 1 cost --powder 2g
near warmt warmth 2 teach
near strand.db strands.db 1 log show
expect 1 "a name like none" env -C "$folder/near" "$slowlift" run zzzzz
ok "it says where names are" err_has "slowlift list"
ok "and no name" bash -c "! grep -q 'near it' '$folder/err'"
expect 1 "a folder as file" "$slowlift" run "$folder"
ok "in one line" err_is_one_line
printf 'kind: scene\nversion: 1\ntitle: x\norigin: here\nquestoin: y\n' >"$folder/wrong.yaml"
expect 1 "a file with a wrong key" "$slowlift" run "$folder/wrong.yaml"
ok "place and nearest key are named" err_has 'wrong.yaml:5:1: unknown key "questoin"'
ok "nothing on stdout" out_empty
expect 1 "check says the same" "$slowlift" check "$scene" "$folder/wrong.yaml"
ok "the right file is confirmed on stdout" out_has "reads (scene)"
ok "the wrong one on stderr" err_has "questoin"
# root may read everything, so root becomes nobody for this one
cp "$scene" "$folder/closed.yaml"
chmod 000 "$folder/closed.yaml"
chmod 711 "$folder"
nobody=()
[ "$(id -u)" -ne 0 ] || nobody=(setpriv --reuid=65534 --regid=65534 --clear-groups)
if "${nobody[@]}" "$slowlift" --version >/dev/null 2>&1; then
    expect 1 "a file that may not be read" "${nobody[@]}" "$slowlift" run "$folder/closed.yaml"
    ok "it says why" err_has "Permission denied"
fi
mapfile -t models < <(find "$source/models" -name '*.yaml' | sort)
expect 0 "every model file that is shipped reads" "$slowlift" check "${models[@]}"
ok "each has its line" test "$(wc -l <"$folder/out")" -eq "${#models[@]}"
# Two arms of 50 min, the second 45 s later; its clock stops at 70 min
warns() { # N NAME SED: so many lines warn, and it is no fault
    sed -e "$3" "$source/models/scenes/way-wide.yaml" >"$folder/warned.yaml"
    expect 0 "$2" env SLOWLIFT_MODELS="$folder/labelled:$source/models" "$slowlift" check --models "$folder/labelled" "$folder/warned.yaml"
    ok "$2: $1 warnings" test "$(grep -c 'warned.yaml: warning: ' "$folder/err")" -eq "$1"
}
mkdir -p "$folder/labelled/mixes"
warns 0 "nothing to warn of" 's/x/x/'
warns 0 "the clock stops when the last mix is off" 's/until: 70 min/until: 3045 s/'
warns 1 "until before the second mix is off" 's/until: 70 min/until: 50.5 min/'
warns 2 "until before both are off" 's/until: 70 min/until: 40 min/'
warns 1 "a goal that is reached at the start" 's/colour_left: 40 %/zones: {violet: {near_undyed: 60}}/'
warns 0 "a goal that is not" 's/colour_left: 40 %/zones: {violet: {near_undyed: 8}}/'
printf 'label_longest: 51 min\n' | cat "$source/models/mixes/powder-3.yaml" - >"$folder/labelled/mixes/powder-3.yaml"
warns 0 "a label as long as time and the age of the mix" 's/x/x/'
printf 'label_longest: 50 min\n' | cat "$source/models/mixes/powder-3.yaml" - >"$folder/labelled/mixes/powder-3.yaml"
warns 1 "a label from mixing, which is a minute before" 's/x/x/'
ok "it is named" err_has "powder + 3 %"

# ---- results -------------------------------------------------------------------------------
expect 0 "run" "$slowlift" run "$scene"
ok "nothing on stderr" err_empty
ok "no colour into a pipe" bash -c "! grep -q $'\033' '$folder/out'"
ok "no banned word" bash -c "! grep -qiE 'safe|guarantee|perfect|will be removed' '$folder/out'"
expect 0 "a bare name is looked up" env -C / "$slowlift" run eight-arms
expect 0 "a range of times" "$slowlift" run "$scene" --csv --at "0min..10min/30 s"
ok "21 times" /usr/bin/python3 -c "
import csv, sys
sys.exit(len({row[2] for row in csv.reader(open(sys.argv[1], newline=''))}) != 22)" "$folder/out"
expect 0 "CSV" "$slowlift" run "$scene" --csv
ok "CSV of six columns" /usr/bin/python3 -c "
import csv, sys
rows = list(csv.reader(open(sys.argv[1], newline='')))
sys.exit(any(len(row) != 6 for row in rows) or len(rows) < 100)" "$folder/out"
ok "nothing on stderr" err_empty
expect 0 "CSV under a lamp" "$slowlift" run "$scene" --csv --light lamp --observer 10 --look wet
ok "the light, observer and look are said" err_has "10 degree observer, wet"
ok "and that no screen is calibrated" err_has "not calibrated"
expect 0 "JSON under a lamp" "$slowlift" run "$scene" --json --light led
ok "it says so itself" out_has '"light": "warm white LED'
mkdir -p "$folder/other/scenes"
sed 's/^until:/chart: generous\nuntil:/' "$scene" >"$folder/other/scenes/other.yaml"
expect 0 "another chart" "$slowlift" run "$folder/other/scenes/other.yaml" --colours
ok "it is the one named" out_has 'the chart "generous"'
expect 0 "a zone with an oxidative dye alone is compared" "$slowlift" compare --example --zone root
ok "and ranked" out_has 'In root'
expect 0 "an undyed zone is compared" "$slowlift" compare --example --zone undyed
ok "by its hair" out_has 'What hair paid in undyed'
ok "and its heading stands above something" out_has 'hair alone is compared'
mkdir "$folder/examples"
expect 2 "an example of which something is refused" "$slowlift" compare --example "$folder/examples/a.db" --zone nix
expect 2 "and a year of them" "$slowlift" compare --example-school "$folder/examples/year" --zone nix
ok "leave nothing, so that the same names may be tried again" test -z "$(ls -A "$folder/examples")"
expect 0 "which works" "$slowlift" compare --example "$folder/examples/a.db" --zone red
expect 0 "for a year too" "$slowlift" compare --example-school "$folder/examples/year" --zone red
ok "and all of it stays" test "$(ls "$folder/examples" "$folder/examples/year" | tr '\n' ' ')" = \
    "$folder/examples: a.db year  $folder/examples/year: after.db before.db truth.csv "
expect 2 "but has no colour to draw" "$slowlift" compare --example --zone undyed -o "$folder/undyed.svg"
expect 0 "two zones compared" "$slowlift" run "$scene" --between "untreated/violet" --and "powder + 6 %/violet"
ok "in words" out_has '"untreated/violet" is darker'
ok "and numbers" out_has "CIEDE2000"
expect 3 "list without any models" env -C / bash -c "cp '$slowlift' '$folder/alone' && '$folder/alone' list"

# ---- outputs -------------------------------------------------------------------------------
expect 0 "-o" "$slowlift" run "$scene" --csv -o "$folder/arms.csv"
ok "nothing on stdout" out_empty
ok "the file is there" test -s "$folder/arms.csv"
chmod 640 "$folder/arms.csv"
expect 0 "-o over an old file" "$slowlift" run "$scene" -o "$folder/arms.csv"
ok "its mode is kept" test "$(stat -c %a "$folder/arms.csv")" = 640
ok "nothing is left beside it" test "$(find "$folder" -name 'arms.csv*' | wc -l)" -eq 1
ln -s arms.csv "$folder/link.csv"
expect 0 "-o through a link" "$slowlift" run "$scene" --csv -o "$folder/link.csv"
ok "the link stays" test -L "$folder/link.csv"
expect 3 "-o into a folder that is not there" "$slowlift" run "$scene" -o "$folder/none/x.csv"
expect 3 "-o onto a folder" "$slowlift" run "$scene" -o "$folder"
expect 3 "-o onto a full disk" "$slowlift" run "$scene" -o /dev/full
ok "it says why" err_has "No space left"
for what in "run $scene" "run $scene --csv" "run $scene --json" list cautions --help --version "run --help"; do
    # shellcheck disable=SC2086
    "$slowlift" $what >/dev/full 2>"$folder/err"
    ok "a full disk is exit 3: $what" test $? -eq 3
    ok "it says why: $what" err_has "No space left"
done
set -o pipefail
"$slowlift" run "$scene" --csv --at 0min..60min/1min 2>"$folder/err" | head -n 1 >"$folder/out"
ok "a reader that stops early is no error" test $? -eq 0
ok "nothing is said of it" err_empty
set +o pipefail
if script -qec true /dev/null </dev/null >/dev/null 2>&1; then # needs a pseudo-terminal; a bare chroot has none
    TERM=xterm script -qec "$slowlift run $scene" /dev/null >"$folder/out" </dev/null
    ok "a terminal gets colour" grep -q $'\033\[38;2' "$folder/out"
    TERM=xterm NO_COLOR=1 script -qec "$slowlift run $scene" /dev/null >"$folder/out" </dev/null
    ok "NO_COLOR is honoured" bash -c "! grep -q $'\033' '$folder/out'"
fi

# ---- limits ----------------------------------------------------------------------------------
wide=$source/models/scenes/way-wide.yaml
forms=$source/models/forms
three=(--arm "powder + 3 %")
expect 0 "plain dots" env LC_ALL=C "$slowlift" limits "$wide"
ok "of ASCII" grep -qE 'in time: +#*\.* the goal' "$folder/out"
expect 0 "round dots" env LC_ALL=C.UTF-8 "$slowlift" limits "$wide"
ok "of UTF-8" out_has "●"
for threads in 1 2 8; do
    expect 0 "limits with $threads threads" "$slowlift" limits "$wide" --json --threads "$threads" -o "$folder/limits.$threads"
    ok "the same bytes with $threads threads" cmp -s "$folder/limits.1" "$folder/limits.$threads"
done
expect 0 "another seed" "$slowlift" limits "$wide" --json --seed 2
ok "draws anew" bash -c "! cmp -s '$folder/limits.1' '$folder/out'"
expect 0 "few members" "$slowlift" limits "$wide" --members 50
ok "are not enough" out_has "too few model runs"
expect 0 "goal and label" "$slowlift" limits eight-arms --goal 50% --label 30min
ok "the label binds" out_has "the label's time"
expect 0 "no goal" "$slowlift" limits eight-arms --members 200
ok "it says that one is assumed" out_has "usual: the file names none"
expect 0 "a goal of its own" "$slowlift" limits eight-arms --members 200 --goal 50%
ok "nothing is assumed then" bash -c "! grep -q 'nobody set a goal' '$folder/out'"
for wrong in "--arm powdr" "--members 0" "--members -5" "--members 1e4" "--seed -1" "--threads 0" "--part 3/2" "--part 1" \
    "--goal 140%" "--label 30" "--label -3min" "--csv --json" "--part 1/2" "--merge" "--saw 10"; do
    # shellcheck disable=SC2086
    expect 2 "limits $wrong" "$slowlift" limits "$wide" $wrong
    ok "one line about $wrong" err_is_one_line
done

# what the cotton showed
expect 0 "something seen" "$slowlift" limits "$wide" "${three[@]}" --json --saw "12 min mostly gone" --saw "5 min slight blue"
/usr/bin/python3 -c "
import json, sys
before, after = (json.load(open(name))['arms'] for name in sys.argv[1:])
sys.exit(not after[0]['odds'] > [arm for arm in before if arm['arm'] == after[0]['arm']][0]['odds'] + 0.05)" \
    "$folder/limits.1" "$folder/out"
ok "moves the count" test $? -eq 0
expect 0 "something seen late" "$slowlift" limits "$wide" "${three[@]}" --saw "15 about half"
ok "looks come after it" bash -c "grep -E '^   look:' '$folder/out' | grep -qvE ' ([0-9]|1[0-5])(,| min)'"
expect 0 "something the model does not expect" "$slowlift" limits "$wide" "${three[@]}" --saw "3 as undyed"
ok "is said, without a time" out_has "cannot say"
for wrong in "10 haf" "-5 slight" "slight" "10 slight bleu" "10 slight undyed" "1000 slight" "" "nan slight"; do
    expect 2 "--saw '$wrong'" "$slowlift" limits "$wide" "${three[@]}" --saw "$wrong"
    ok "one line about '$wrong'" err_is_one_line
done
expect 2 "something seen in an unnamed bowl" "$slowlift" limits "$wide" --saw "10 slight"
ok "it asks for the arm" err_has "--arm NAME"

# a person
sed 's/^lies: .*/lies: head/' "$wide" >"$folder/head.yaml"
for key in age label lightened person qualified part packet_opened reacted asthma sulfite doctor allergy_test scalp metallic henna \
    unknown_past treated liquids heat doer_reacted strand since_strand; do
    sed "/^$key:/d" "$forms/nothing-stops.yaml" >"$folder/form.yaml"
    expect 0 "a form without $key" "$slowlift" limits "$folder/head.yaml" --models "$source/models" --person "$folder/form.yaml"
    ok "is missing" grep -q '^ missing:' "$folder/out"
    ok "and has no checks" bash -c "! grep -q 'check:' '$folder/out'"
done
sed 's/^henna: no/henna: perhaps/' "$forms/nothing-stops.yaml" >"$folder/form.yaml"
expect 1 "an answer that is none" "$slowlift" limits "$wide" --person "$folder/form.yaml"
ok "it says which there are" err_has "no, yes, unsure"
expect 1 "a form that is a scene" "$slowlift" limits "$wide" --person "$wide"
expect 1 "a form with an arm of another scene" "$slowlift" limits way-none --person "$forms/nothing-stops.yaml"
expect 1 "no such form" "$slowlift" limits "$wide" --person "$folder/none.yaml"
expect 0 "nobody answers" "$slowlift" limits "$wide" "${three[@]}" --person ask
ok "everything is missing" test "$(grep -c '^ missing:' "$folder/out")" -ge 11
expect 2 "a form asked about no arm of two" "$slowlift" limits "$wide" --person ask
ok "it asks for the arm first" err_has "--arm NAME"
{
    printf '%s\n' no no no no yes no no no no no yes no maybe no yes no 34 45.5 45 no "Ada L" made-up-1 teacher-1 moon nape \
        yesterday 2026-11-20 "10 about half blue"
} |
    "$slowlift" limits "$wide" "${three[@]}" --person ask >"$folder/asked" 2>"$folder/err"
ok "a form answered on the spot" test $? -eq 0
ok "what is no answer is asked again" err_has "write yes, no or unsure"
ok "a name is no code" err_has "no names are kept"
sed '/^practice/d' "$forms/nothing-stops.yaml" >"$folder/real.yaml" # nobody is asked whether they were made up
"$slowlift" limits "$wide" "${three[@]}" --person "$folder/real.yaml" >"$folder/out"
ok "counts as the same form in a file" cmp -s "$folder/asked" "$folder/out"

expect 0 "in another language" "$slowlift" run "$source/models/scenes/eight-arms.yaml" --models "$source/models" --language es
ok "the mix whose number is the weakest is called by its title" out_has 'pH de la mezcla "Polvo removedor y agua'

# a strand of a log
"$slowlift" log new "$folder/strand.db" "$wide" --models "$source/models" --operator op-1 >/dev/null
strand=$(sqlite3 "$folder/strand.db" "SELECT code FROM swatch WHERE arm = 'powder + 3 %' LIMIT 1")
expect 0 "a strand is noted" "$slowlift" log strand "$folder/strand.db" --swatch "$strand" --person made-up-1 --part nape --cut
ok "in words that machines read" test "$(sqlite3 "$folder/strand.db" "SELECT note FROM event")" = "strand: person=made-up-1 part=nape cut=yes"
expect 2 "nothing about it" "$slowlift" log strand "$folder/strand.db" --swatch "$strand"
expect 2 "no such part" "$slowlift" log strand "$folder/strand.db" --swatch "$strand" --part moon
expect 2 "a packet of tomorrow" env SLOWLIFT_TODAY=2026-11-29 "$slowlift" log strand "$folder/strand.db" --swatch "$strand" --packet-opened 2026-11-30
expect 0 "with it, a person" env SLOWLIFT_TODAY=2026-11-29 "$slowlift" limits "$folder/head.yaml" --models "$source/models" "${three[@]}" \
    --person "$folder/real.yaml" --strand "$folder/strand.db:$(sqlite3 "$folder/strand.db" 'SELECT substr(id, 1, 8) FROM test'):$strand"
ok "all that it lacks is told" test "$(grep -c '^   lacking:' "$folder/out")" -ge 5
ok "by the day that was set" out_has "judged by 2026-11-29"
ok "no check" bash -c "! grep -q 'check:' '$folder/out'"
expect 2 "a strand of nobody" "$slowlift" limits "$wide" --strand "$folder/strand.db"
expect 1 "a strand of no log" "$slowlift" limits "$wide" "${three[@]}" --person "$folder/real.yaml" --strand "$folder/none.db"

# parts, full disks, Ctrl-C
for part in 1 2 3; do
    expect 0 "part $part of 3" "$slowlift" limits "$wide" --part "$part/3" -o "$folder/part-$part"
done
expect 0 "the parts added up" "$slowlift" limits --json --merge "$wide" "$folder/part-3" "$folder/part-1" "$folder/part-2"
ok "are the bytes of the whole" cmp -s "$folder/limits.1" "$folder/out"
expect 0 "without the second" "$slowlift" limits --merge "$wide" "$folder/part-1" "$folder/part-3"
ok "what is missing is said" err_has "in none of these parts"
expect 1 "a part twice" "$slowlift" limits --merge "$wide" "$folder/part-1" "$folder/part-1"
expect 1 "a part of another scene" "$slowlift" limits --merge way-short "$folder/part-1"
expect 1 "a part that is none" "$slowlift" limits --merge "$wide" "$wide"
expect 1 "a part that is not there" "$slowlift" limits --merge "$wide" "$folder/none"
expect 2 "parts cannot be counted otherwise" "$slowlift" limits --seed 3 --merge "$wide" "$folder/part-1"
head -c 400 "$folder/part-1" >"$folder/part-cut"
expect 1 "a part cut short" "$slowlift" limits --merge "$wide" "$folder/part-cut"
expect 3 "a part on a full disk" "$slowlift" limits "$wide" --part 1/2 -o /dev/full
for form in "" --csv --json; do
    # shellcheck disable=SC2086
    "$slowlift" limits "$wide" $form >/dev/full 2>"$folder/err"
    ok "a full disk is exit 3: limits $form" test $? -eq 3
done
rm "$folder"/part-*
seq 1 4 | xargs -P 2 -I '{}' "$slowlift" limits "$wide" --threads 1 --part '{}/4' -o "$folder/part-{}" # as the guide says
expect 0 "four parts by two workers" "$slowlift" limits --json --merge "$wide" "$folder"/part-*
ok "are the bytes of the whole too" cmp -s "$folder/limits.1" "$folder/out"
if script -qec true /dev/null </dev/null >/dev/null 2>&1; then
    at_terminal "$slowlift limits $wide --members 100000000"
    ok "a terminal is told how far a long count is" grep -q '% of 100000000 model runs' "$folder/out"
    ok "and what Ctrl-C left" grep -q 'PARTIAL: ' "$folder/out"
    mkdir "$folder/drawn"
    for target in "-o $folder/drawn/film.webp" "--frames $folder/drawn/reel"; do
        at_terminal "$slowlift picture $scene --at 0min..30min/1s $target"
        ok "Ctrl-C is exit 4: picture $target" test $? -eq 4
        ok "a terminal is told how far it is: $target" grep -q '% of 1801 pictures' "$folder/out"
        ok "nothing half written is left: $target" test -z "$(ls -A "$folder/drawn")"
    done
    script -qec "$slowlift picture $scene -o $folder/drawn/sheet.png" /dev/null >"$folder/out" </dev/null
    ok "a terminal is told what was written" grep -q 'sheet.png" is written' "$folder/out"
fi
"$slowlift" limits "$wide" --members 100000000 >"$folder/out" 2>"$folder/err" &
counting=$!
counts $counting
kill -INT $counting
wait $counting
ok "Ctrl-C is exit 4" test $? -eq 4
ok "what was counted is said to be partial" grep -q '^ PARTIAL: ' "$folder/out"
ok "on stderr too" err_has "partial"

# ---- comparing, maps, searching ---------------------------------------------------------------
rank() { "$slowlift" rank "$scene" --members 200 "$@"; }
wide="$source/models/scenes/way-wide.yaml"
for form in "" --csv --json; do
    # shellcheck disable=SC2086
    "$slowlift" rank "$scene" $form --members 1000000 >"$folder/out" 2>"$folder/err" &
    counting=$!
    counts $counting
    kill -INT $counting
    wait $counting
    ok "Ctrl-C is exit 4: rank $form" test $? -eq 4
    ok "what was ranked is said to be partial: rank $form" \
        grep -qE '^ PARTIAL: |,partial,1,|"partial": true' "$folder/out"
    ok "on stderr too: rank $form" err_has "partial"
done
if script -qec true /dev/null </dev/null >/dev/null 2>&1; then
    at_terminal "$slowlift rank $scene --members 1000000"
    ok "a terminal is told how far a long ranking is" grep -q '% of 1000000 model runs' "$folder/out"
fi
expect 0 "the same members on one thread" rank --csv --threads 1
cp "$folder/out" "$folder/one"
expect 0 "and on three" rank --csv --threads 3
ok "give the same bytes" cmp -s "$folder/one" "$folder/out"
expect 0 "a surprise" rank --zone blue --surprise "powder + water beats powder + 6 % in blue"
ok "that the model does not show" out_has "in 0 of 200 model runs"
expect 2 "a surprise that names no zone" rank --surprise "powder + water beats powder + 6 %"
ok "it shows the form" err_has "STRIP beats STRIP in ZONE"
expect 2 "an arm that beats itself" rank --surprise "powder + water beats powder + water in blue"
expect 2 "a zone without a direct dye" rank --zone root
expect 2 "two times at once" rank --at 5min,10min
expect 2 "no time at all" rank --at 0min
expect 2 "a time after the end" rank --at 10h
expect 2 "too few members" rank --members 5
expect 2 "CSV and a picture" rank --csv --picture "$folder/x.png"
expect 2 "a picture of no known kind" rank --picture "$folder/x.bmp"
expect 0 "a map as CSV" "$slowlift" map "$wide" --arm "powder + 3 %" --x ratio:1..4 --y warmer:-5..5K --csv
ok "its head" bash -c "head -n 1 '$folder/out' | grep -qx 'ratio,warmer,colour_left,base_moved,cystine_lost,goal,inside,lies_for'"
expect 2 "a map without an arm" "$slowlift" map "$wide"
expect 2 "a map over one setting twice" "$slowlift" map "$wide" --arm "powder + 3 %" --x time:5..10min --y time:5..60min
expect 2 "a map over more than 12 %" "$slowlift" map "$wide" --arm "powder + 3 %" --x strength:0..20%
expect 2 "a setting that is not known" "$slowlift" map "$wide" --arm "powder + 3 %" --x strenth:0..6%
ok "the nearest is named" err_has '"strength"'
expect 2 "an axis backwards" "$slowlift" map "$wide" --arm "powder + 3 %" --x strength:9..3%
expect 2 "an axis without a unit" "$slowlift" map "$wide" --arm "powder + 3 %" --x strength:3..9
expect 2 "what is not shown" "$slowlift" map "$wide" --arm "powder + 3 %" --show tone

expect 2 "a mix that is not known" "$slowlift" search "$wide" --allowed powder-9
expect 0 "a search without a goal" "$slowlift" search "$scene"
ok "it says that one is assumed" out_has "usual: the file names none"

expect 2 "rounds and another change" "$slowlift" what-if "$wide" --arm "powder + 3 %" --rounds 2x15min --strength 6%
for rounds in 1x15min 2x 2x15 x15min 2x90min 99x1min two; do
    expect 2 "rounds as $rounds" "$slowlift" what-if "$wide" --arm "powder + 3 %" --rounds "$rounds"
done

# ---- the other programs ----------------------------------------------------------------------
mkdir "$folder/bin" && cp "$slowlift" "$folder/bin/"
expect 3 "watch without its program" "$folder/bin/slowlift" watch "$scene"
ok "the missing part is named" err_has "slowlift-watch"
expect 3 "picture without its program" "$folder/bin/slowlift" picture "$scene" -o "$folder/x.png"
ok "the missing part is named" err_has "slowlift-paper"
if [ -x "$build/slowlift-paper" ]; then
    for end in png svg pdf; do
        expect 0 "picture as $end" "$slowlift" picture "$scene" -o "$folder/one.$end"
        expect 0 "and again" "$slowlift" picture "$scene" -o "$folder/two.$end"
        ok "the same $end twice" cmp -s "$folder/one.$end" "$folder/two.$end"
    done
    ok "a PNG is a PNG" grep -q $'^\x89PNG' "$folder/one.png"
    ok "a PDF is a PDF" grep -aq '^%PDF-1' "$folder/one.pdf"
    ok "an SVG is XML" /usr/bin/python3 -c "import sys, xml.dom.minidom as m; m.parse(sys.argv[1])" "$folder/one.svg"
    expect 2 "a picture of no known kind" "$slowlift" picture "$scene" -o "$folder/x.bmp"
    expect 2 "a picture without a name" "$slowlift" picture "$scene"
    expect 0 "a picture in another light" "$slowlift" picture "$scene" --light lamp --look wet -o "$folder/lamp.png"
    expect 2 "a look that is not known" "$slowlift" picture "$scene" --look soggy -o "$folder/x.png"
    expect 2 "too many moments" "$slowlift" picture "$scene" -o "$folder/x.png" --at 0min..60min/1min
    expect 3 "a picture into a folder that is not there" "$slowlift" picture "$scene" -o "$folder/none/x.png"
    expect 3 "a picture on a full disk" bash -c "ln -sf /dev/full '$folder/full.png'; '$slowlift' picture '$scene' -o '$folder/full.png'"
    ok "it says why" err_has "No space left"
    printf '<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig><cachedir>%s</cachedir></fontconfig>' \
        "$folder" >"$folder/fonts.conf"
    expect 3 "no font" env FONTCONFIG_FILE="$folder/fonts.conf" "$slowlift" picture "$scene" -o "$folder/x.png"
    ok "it says which to install" err_has "fonts-inter"
fi

# ---- plan, mix, cost ---------------------------------------------------------------------------
expect 0 "a plan" "$slowlift" plan "$scene" --people 2 --looks 5min,10min
cp "$folder/out" "$folder/plan"
expect 0 "the same plan again" "$slowlift" plan "$scene" --people 2 --looks 5min,10min
ok "has the same bytes" cmp -s "$folder/out" "$folder/plan"
expect 2 "a blind plan without a key" "$slowlift" plan "$scene" --blind
expect 3 "a key that cannot be written" "$slowlift" plan "$scene" --blind --key "$folder/none/key.csv"
ok "gives out no plan" out_empty
expect 2 "looks and a ladder" "$slowlift" plan "$scene" --ladder 5min --looks 5min
expect 2 "seconds without a unit" "$slowlift" plan "$scene" --apply 45
expect 2 "half a minute" "$slowlift" plan "$scene" --looks 5.5min
expect 2 "one person, two rounds" "$slowlift" plan second-round --models "$source/models"
ok "it says what to do" err_has "second pair of hands"
expect 2 "a developer let up" "$slowlift" mix --have 3% --want 6%
expect 2 "a mix of nothing" "$slowlift" mix "$scene" --arm untreated --hair 16g
expect 2 "a cost of nothing" "$slowlift" cost "$source/models/prices/school.yaml"
expect 1 "prices that are not there" "$slowlift" cost nowhere --powder 3g
expect 3 "a plan on a full disk" bash -c "'$slowlift' plan '$scene' > /dev/full"

echo "$checks checks, $failures false"
[ "$failures" -eq 0 ]

#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# The gate as a shell sees it: a scene is made to count as a head in every way there is, and no command
# tells a minute of the model; the label that ends first holds, by whatever door it came in.
# usage: test_gate.sh BUILD SOURCE
set -u
slowlift=$1/slowlift
export SLOWLIFT_MODELS=$2/models LC_ALL=C.UTF-8
wide=$SLOWLIFT_MODELS/scenes/way-wide.yaml
clear=$SLOWLIFT_MODELS/forms/nothing-stops.yaml
arm="powder + 3 %"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
failures=0
checks=0
ok() {
    local name=$1
    shift
    checks=$((checks + 1))
    if ! "$@"; then
        failures=$((failures + 1))
        echo "false: $name"
        head -c 400 "$folder/err"
    fi
}
# call CODE NAME COMMAND...: keeps stdout and stderr
call() {
    local code=$1 name=$2
    shift 2
    "$slowlift" "$@" >"$folder/out" 2>"$folder/err" </dev/null
    local got=$?
    ok "$name (exit $got, wanted $code)" test "$got" -eq "$code"
}
has() { tr '\n' ' ' <"$folder/out" | tr -s ' ' | grep -qF -- "$1"; }
lacks() { ! has "$1"; }
empty() { [ ! -s "$folder/out" ]; }
one_sentence() { [ "$(wc -l <"$folder/err")" -eq 1 ]; }
no_outcome() { # of limits, whatever its form
    lacks " check: " && lacks " goal: does" && lacks " stop: " && lacks " look: " && lacks "_min," && lacks "goal_min" && lacks "stop_min"
}

sed 's/^lies: .*/lies: head/' "$wide" >"$folder/head.yaml"
sed 's/^lies: .*/lies: wrapped/' "$wide" >"$folder/wrapped.yaml"
sed 's/^room: .*/room: 35 °C/' "$wide" >"$folder/warm-room.yaml"
sed 's/^room: .*/&\ntemperature: [[0 min, 24 °C], [20 min, 30 °C]]/' "$wide" >"$folder/warmed.yaml"
sed 's/^room: .*/&\nperson: K12/' "$wide" >"$folder/somebody.yaml"

for scene in head wrapped warm-room warmed somebody; do
    file=$folder/$scene.yaml
    call 0 "run of $scene" run "$file"
    ok "run of $scene never says that it is of swatches on a bench" lacks "lies: swatches on a bench"
    for refused in "run --csv" "run --json" "run --csv --at 0min..60min/1min" "run --json --at 15min" rank "rank --csv" "rank --json" \
        search "search --csv --allowed powder-3" "search --json --allowed powder-3"; do
        # shellcheck disable=SC2086
        call 2 "$refused of $scene" $refused "$file"
        ok "$refused of $scene writes nothing" empty
        ok "$refused of $scene says why in a sentence" one_sentence
    done
    for form in "" --csv --json; do
        # shellcheck disable=SC2086
        call 2 "map $form of $scene" map $form --arm "$arm" "$file"
        ok "map $form of $scene writes nothing" empty
        # shellcheck disable=SC2086
        call 0 "limits $form of $scene" limits $form --members 120 "$file"
        ok "limits $form of $scene tells no minute" no_outcome
        # shellcheck disable=SC2086
        call 0 "limits $form of $scene, with a form" limits $form --members 120 --arm "$arm" --person "$clear" "$file"
        ok "limits $form of $scene with a form tells no minute" no_outcome
        # shellcheck disable=SC2086
        call 0 "what-if $form of $scene" what-if $form --arm "$arm" --strength 6% "$file"
        ok "what-if $form of $scene has no minute" bash -c "! grep -E 'goal_min\": [0-9]|goal_min,|goal, minutes' '$folder/out'"
        ok "what-if $form of $scene has no share at the planned time" bash -c "! grep -E 'colour_left,|\"value\": [0-9]|colour left, .* %' '$folder/out'"
    done
    for with in "" "--person $clear"; do
        for form in "" --json "--same-colour" "--same-colour --json" --science; do
            # shellcheck disable=SC2086
            call 0 "answer $form $with of $scene" answer $form $with --members 120 "$file"
            ok "answer $form $with of $scene tells no minute" bash -c "! grep -E 'rinse by|Rinsed|_min\": [0-9]|looks\": \[[0-9]' '$folder/out'"
            ok "answer $form $with of $scene tells no share" bash -c "! grep -E '\"p50\"|gets_there\": [0-9]' '$folder/out'"
        done
    done
    call 0 "run of $scene" run --at 15min "$file"
    ok "run of $scene compares at the same colour" has "AT THE SAME COLOUR LEFT"
    ok "run of $scene tells nothing by the minute" lacks "SAME MINUTE"
    ok "run of $scene has no goal after minutes" lacks "goal after"
    ok "run of $scene is no page of swatches" lacks "CUT SWATCHES"
done

# a bench by name
call 0 "a clear form on the bench" limits --members 120 --arm "$arm" --person "$clear" "$wide"
ok "tells no minute: the scene must lie where that hair lies" no_outcome
ok "says so" has "does not lie where this person's hair lies"
ok "says when to look at a strand, of no model" has "at 2, 7, 12, 17, 22, 27, 32, 37 and 42 min"
sed 's/^lies: .*/lies: head/;s/^room: .*/&\ntemperature: [[0 min, 60 °C]]/' "$wide" >"$folder/hot.yaml"
call 0 "60 °C, and no heat on the form" limits --members 120 --arm "$arm" --person "$clear" "$folder/hot.yaml"
ok "tells no minute" no_outcome
ok "says that form and scene disagree" has "one of them is wrong"
call 0 "a bench made as warm as a head by a what-if" what-if --arm "$arm" --warmer 8K "$wide"
ok "keeps directions" has "HAIR ON A HEAD"
ok "and no minute" lacks "goal, minutes"
call 2 "and of its time nothing is asked" what-if --arm "$arm" --warmer 8K --time 10min "$wide"
ok "in a sentence" one_sentence
call 2 "a map that reaches a head's warmth" map --arm "$arm" --x warmer:0..8K "$wide"
call 0 "swatches on the bench" run "$wide"
ok "are called so" has "CUT SWATCHES on a bench, 24 °C. Not for a head."
ok "beside no factor of a head" lacks "times as fast"

# the label that ends first
mkdir -p "$folder/five/mixes"
sed '/^label_/d' "$SLOWLIFT_MODELS/mixes/powder-3.yaml" >"$folder/five/mixes/powder-3.yaml"
echo 'label_longest: 5 min' >>"$folder/five/mixes/powder-3.yaml"
five=(--models "$folder/five" --members 120 --arm "$arm")
call 0 "a later --label" limits "${five[@]}" --label 60min "$wide"
ok "does not undo the mix's own" has "at 4 min; mostly the label's time, 5 min from mixing by the mix's file"
ok "of a goal that comes too late no minute is told" has "does not come in time"
call 0 "an earlier --label" limits "${five[@]}" --label 3min "$wide"
ok "holds" has "3 min from mixing by --label"
call 0 "run past its label" run --models "$folder/five" "$wide"
ok "says so" has "\"$arm\" is to stay on for 50 min, and its label ends it after 4"
ok "calls it wide no more" bash -c "! grep -E '^ powder \+ 3 % +wide' '$folder/out'"
for what in "what-if --time 45min" "map --y time:10..60min" "rank --members 100"; do
    # shellcheck disable=SC2086
    if [ "${what%% *}" = rank ]; then call 0 "$what past the label" $what --models "$folder/five" "$wide"; else call 0 "$what past the label" $what --arm "$arm" --models "$folder/five" "$wide"; fi
    ok "$what says so" has "its label ends it after 4"
done
call 0 "a map's limits" map --arm "$arm" --models "$folder/five" "$wide"
ok "list the label" has "the label's time, 5 min from mixing"
call 0 "a search" search --models "$folder/five" "$wide"
ok "names what is planned past its label" has "its label ends it after 4"
ok "a label that was entered is not called missing" lacks "the time of \"Removal powder and 3 % developer, 1 to 2\" is not entered"
sed 's/mix_age: 1 min/mix_age: 30 min/' "$wide" >"$folder/old.yaml"
call 0 "a mix older than its label" limits --members 120 --arm "$arm" --label 20min "$folder/old.yaml"
ok "was over before contact, by its clock" has "before contact: the label's time, 20 min from mixing by --label; the mix is 30 min old"
ok "is no minute" lacks "at 0 min"

echo "$checks checks, $failures false"
[ "$failures" -eq 0 ]

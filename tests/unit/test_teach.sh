#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# `slowlift teach` as a shell sees it: exit codes, messages, answers kept when the disk will not take them.
# usage: test_teach.sh BUILD SOURCE
set -u
slowlift=$1/slowlift
source=$2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
failures=0

# expect CODE NAME TYPED COMMAND...
expect() {
    local code=$1 name=$2 typed=$3
    shift 3
    printf '%b' "$typed" | "$@" >"$folder/out" 2>"$folder/err"
    local got=$?
    ok "$name (exit $got, wanted $code)" test "$got" -eq "$code"
}
ok() {
    local name=$1
    shift
    if ! "$@"; then
        failures=$((failures + 1))
        echo "false: $name"
        head -c 600 "$folder/err"
    fi
}
out_has() { grep -qF -- "$1" "$folder/out"; }
err_has() { grep -qF -- "$1" "$folder/err"; }

expect 2 "a lesson that is not there" "" "$slowlift" teach half-lif
ok "it is named" err_has 'no lesson "half-lif"'
expect 2 "no lesson" "" "$slowlift" teach
expect 2 "a language that is not there" "" "$slowlift" teach half-life --language fr
expect 2 "a quiz without a file" "" "$slowlift" teach --quiz before
expect 2 "a name as a code" "" "$slowlift" teach half-life --answers "$folder/Ana.yaml"
ok "no file was made" test ! -e "$folder/Ana.yaml"
expect 2 "--csv without a class" "" "$slowlift" teach half-life --csv
expect 2 "a class that is not there" "" "$slowlift" teach --class "$folder/none"
expect 2 "an empty class" "" "$slowlift" teach --class "$folder"

# a folder that cannot be written to is known before the first answer
expect 3 "a folder that is not there" "\n1\n" "$slowlift" teach half-life --answers "$folder/none/group-1.yaml"
ok "it is said which" err_has "none/group-1.yaml"
ok "no question was asked" bash -c "! grep -q 'Step' '$folder/out'"

# the folder goes while the lesson is on: said, tried again, and in the end printed
patiently() { /usr/bin/python3 "$source/tests/tools/patience.py" "$1"; }
mkdir "$folder/class"
{
    printf '\n1\n'
    patiently "grep -q 'recall-1: 1' $folder/class/group-1.yaml"
    mv "$folder/class" "$folder/gone"
    printf '\n2\n\nq\n'
} | "$slowlift" teach half-life --answers "$folder/class/group-1.yaml" >"$folder/out" 2>"$folder/err"
ok "a lost folder ends with code 3" test "${PIPESTATUS[1]}" -eq 3
ok "it is said at once" err_has "The answers are not on the disk yet"
ok "the first answer is printed" out_has "recall-1: 1"
ok "the second too" out_has "recall-2: 2"
ok "the old file stands whole" "$slowlift" check "$folder/gone/group-1.yaml"

# the same, and the folder comes back: nothing is lost
{
    printf '\n'
    patiently "test -e $folder/gone/group-2.yaml"
    mv "$folder/gone" "$folder/lost"
    printf '2\n'
    patiently "grep -q 'not on the disk yet' $folder/err"
    mv "$folder/lost" "$folder/gone"
    printf '\nq\n'
} | "$slowlift" teach half-life --answers "$folder/gone/group-2.yaml" >"$folder/out" 2>"$folder/err"
ok "a folder that comes back ends well" test "${PIPESTATUS[1]}" -eq 0
ok "and holds the answer" grep -q "recall-1: 2" "$folder/gone/group-2.yaml"

# only the educator opens the run
expect 0 "s without being the educator" "s\nq\n" "$slowlift" teach half-life
ok "is refused" out_has "Only the educator"
expect 0 "s as the educator" "s\ns\ns\ns\ns\ns\ns\n\n\nq\n" "$slowlift" teach half-life --educator
ok "comes to the run" out_has "There was no prediction."
expect 0 "t as the educator" "t\nq\n" "$slowlift" teach half-life --educator
ok "shows the notes" out_has "Notes for the educator"

# a class with a file that is none: said, and the rest is counted
cp "$source"/lessons/class-example/*.yaml "$folder/lost" 2>/dev/null || { mkdir "$folder/lost"; cp "$source"/lessons/class-example/*.yaml "$folder/lost"; }
echo "kind: answers" >"$folder/lost/broken.yaml"
expect 1 "a class with a broken file" "" "$slowlift" teach --class "$folder/lost" half-life
ok "names it" err_has "broken.yaml"
ok "and counts the others" out_has "Students or groups: 4"
sed 's/edition: 1/edition: 9/' "$folder/lost/group-1.yaml" >"$folder/lost/broken.yaml"
expect 0 "a class as a page" "" "$slowlift" teach --class "$source/lessons/class-example" half-life -o "$folder/class.html"
ok "is HTML" grep -q '<h2>Lesson 1: How a colour fades</h2>' "$folder/class.html"
expect 2 "a lesson into a file" "" "$slowlift" teach half-life -o "$folder/class.html"
expect 0 "a class with another edition" "" "$slowlift" teach --class "$folder/lost" half-life
ok "says so" err_has "another edition"

sed 's/lesson: half-life/lesson: unheard-of/' "$folder/lost/group-1.yaml" >"$folder/lost/broken.yaml"
expect 1 "a class with a lesson that is not there" "" "$slowlift" teach --class "$folder/lost"
ok "names it" err_has "unheard-of"
ok "and counts the others" out_has "Students or groups: 4"

# the quiz, from a folder of its own; right answers are first and second, so "1 1" is half right
mkdir "$folder/own" "$folder/own/lessons" "$folder/quiz"
cp -r "$source/models" "$folder/own/models"
cp "$source/tests/files/lesson/quiz.yaml" "$folder/own/lessons/quiz.yaml"
half=$(printf '1\\n1\\n%.0s' 1 2 3 4 5 6 7 8 9 10 11 12)
five=$(printf '1\\n2\\n%.0s' 1 2 3 4 5)
seven=$(printf '1\\n2\\n%.0s' 1 2 3 4 5 6 7)
quiz() { "$slowlift" teach --quiz "$@" --models "$folder/own/models" --answers "$folder/quiz/group-1.yaml"; }
class() { "$slowlift" teach --class "$folder/quiz" --models "$folder/own/models"; }
expect 0 "the quiz before" "$half" quiz before
ok "gives no feedback" bash -c "! grep -q 'So it is' '$folder/out'"
expect 0 "the quiz after, stopped after five items" "${five}q\n" quiz after
expect 0 "a class whose second quiz is not done" "" class
ok "has no gain yet" bash -c "! grep -q 'Class gain' '$folder/out'"
expect 0 "the quiz after, gone on" "9\nx\n$seven" quiz after
ok "begins at the sixth" bash -c "! grep -q 'Step 5 of' '$folder/out' && grep -q 'Step 6 of 12' '$folder/out'"
ok "asks again for what is no answer" out_has "There is no such answer"
expect 0 "a class with both" "" class
ok "right answers for wrong reasons do not count" grep -qE '^ *item-one +0 +1$' "$folder/out"
ok "has its gain" out_has "Class gain: 1.00 = "
ok "and says how far the items were tried out" out_has "note:    Not tried out with anyone."

expect 0 "the numbers of a lesson" "" "$slowlift" check --numbers "$source/lessons/half-life/lesson.yaml"
ok "are listed with their unit" out_has "double_wait: 20 min (20)"
expect 0 "the lessons are listed" "" "$slowlift" list
ok "by name and title" out_has "half-life"
echo "$failures failures"
test "$failures" -eq 0

#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# One ensemble in parts by two workers under engines that already exist, xargs and (where it is
# installed) GNU parallel: the merged answer is the whole one, to the byte.
# usage: test_engines.sh BUILD SOURCE
set -u
build=$1
source=$2
slowlift=$build/slowlift
scene=$source/models/scenes/way-wide.yaml
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
unset SLOWLIFT_MODELS
failures=0

fail() {
    printf 'not ok: %s\n' "$1"
    failures=$((failures + 1))
}
# refused NAME WORD COMMAND...: exits with an error, one line of it that holds WORD
refused() {
    local name=$1 word=$2
    shift 2
    if "$@" >"$folder/out" 2>"$folder/err"; then
        fail "$name is refused"
    fi
    [ ! -s "$folder/out" ] || fail "$name prints nothing on stdout"
    grep -q -- "$word" "$folder/err" || fail "$name says: $word (said: $(head -1 "$folder/err"))"
}

export slowlift scene folder
part() { # WHERE K N
    "$slowlift" limits --members 1003 --seed 7 --threads 1 --saw "15 about half" --arm "powder + 3 %" \
        --part "$2/$3" -o "$folder/$1-$2.part" "$scene"
}
export -f part
whole() {
    "$slowlift" limits --members 1003 --seed 7 --threads 2 --saw "15 about half" --arm "powder + 3 %" "$@" "$scene"
}
merged() { # FORM WHERE
    "$slowlift" limits --arm "powder + 3 %" "$1" --merge "$scene" "$folder/$2"-*.part
}
for form in --json --csv --science; do
    whole "$form" >"$folder/whole$form" || fail "the whole run as $form"
done

same() { # WHERE
    local form
    for form in --json --csv --science; do
        merged "$form" "$1" >"$folder/merged" || fail "$1: merging as $form"
        cmp "$folder/whole$form" "$folder/merged" || fail "$1: $form of the parts is that of the whole"
    done
}
seq 4 | xargs -P 2 -I '{}' bash -c 'part xargs {} 4' || fail "xargs ran every part"
same xargs
if command -v parallel >/dev/null; then
    parallel --will-cite -j 2 part parallel '{}' 5 ::: 1 2 3 4 5 || fail "GNU parallel ran every part"
    same parallel
else
    echo "GNU parallel is not installed: left out"
fi

refused "a part given twice" "xargs-2.part: .*same model runs" "$slowlift" limits --merge "$scene" \
    "$folder"/xargs-1.part "$folder"/xargs-2.part "$folder"/xargs-2.part
cp "$folder/xargs-2.part" "$folder/damaged.part"
printf 'x' | dd of="$folder/damaged.part" bs=1 seek=900 conv=notrunc status=none
refused "a damaged part" "damaged.part:[0-9]*: .*checksum" \
    "$slowlift" limits --merge "$scene" "$folder/xargs-1.part" "$folder/damaged.part"
refused "a part of another scene" "another scene" \
    "$slowlift" limits --merge "$source/models/scenes/way-short.yaml" "$folder/xargs-1.part"
refused "a part that is not there" "none.part" "$slowlift" limits --merge "$scene" "$folder/none.part"
[ "$failures" -eq 0 ]

#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Makes the log of an invented class with a time ladder that tests and the guide read: two arms, three
# blocks, pieces at 5, 10 and 20 min, the rest rinsed at 30. A file of each version of the tables is kept
# for good.
# usage: make_kept_ladder.sh SLOWLIFT OUT.db
set -eu
slowlift=$1
out=$2
rm -f "$out"
"$slowlift" log new "$out" way-short --repeats 3 --ladder 5min,10min,20min,30min --operator op-1 \
    --title "Tuesday's ladder, invented"
csv=$(mktemp)
trap 'rm -f "$csv"' EXIT
{
    echo "swatch,zone,judge,blind,at,minute,grade,outcome"
    sqlite3 -separator ' ' "$out" "SELECT code, block, arm FROM swatch ORDER BY block, place" |
        while read -r code block arm; do
            zone=$(sqlite3 "$out" "SELECT name FROM zone WHERE name != 'undyed' ORDER BY place LIMIT 1")
            case "$arm $block" in
                *3*2) grades="slight|about half|about half|mostly gone" ;;
                *3*1) grades="slight|slight|about half|about half" ;;
                *3*) grades="slight|slight|about half|mostly gone" ;;
                *2) grades="slight|mostly gone|ghost only|as undyed" ;;
                *1) grades="about half|mostly gone|mostly gone|ghost only" ;;
                *) grades="about half|mostly gone|ghost only|ghost only" ;;
            esac
            minute=1
            for at in 5 10 20 ""; do
                echo "$code,$zone,j1,yes,2026-11-24T16:1$block:0$minute+01:00,$at,$(cut -d'|' -f$minute <<<"$grades"),"
                minute=$((minute + 1))
            done
        done
} >"$csv"
"$slowlift" log import "$out" "$csv"
"$slowlift" log show "$out"

#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Makes the log of an invented class that tests and the guide read: two arms, three blocks, two
# judges. A file of each version of the tables is kept for good, so that a newer program is seen to
# read it.
# usage: make_kept_log.sh SLOWLIFT OUT.db
set -eu
slowlift=$1
out=$2
rm -f "$out"
"$slowlift" log new "$out" way-short --repeats 3 --looks 10min --operator op-1 --title "Monday, invented"
test=$(sqlite3 "$out" "SELECT id FROM test")
csv=$(mktemp)
trap 'rm -f "$csv"' EXIT
{
    echo "swatch,zone,judge,blind,at,minute,grade,cotton,outcome"
    sqlite3 -separator ' ' "$out" "SELECT code, block, arm FROM swatch ORDER BY block, place" |
        while read -r code block arm; do
            zone=$(sqlite3 "$out" "SELECT name FROM zone WHERE name != 'undyed' ORDER BY place LIMIT 1")
            case "$arm $block" in
                *3*1) one="mostly gone" two="about half" ;;
                *3*) one="about half" two="about half" ;;
                *2) one="ghost only" two="mostly gone" ;;
                *) one="ghost only" two="ghost only" ;;
            esac
            echo "$code,$zone,j1,yes,2026-11-23T15:1$block:00+01:00,10,slight,clear,"
            echo "$code,$zone,j1,yes,2026-11-23T16:1$block:00+01:00,,$one,faint,partial"
            echo "$code,$zone,j2,yes,2026-11-23T16:1$block:30+01:00,,$two,faint,partial"
        done
} >"$csv"
"$slowlift" log import "$out" "$csv"
"$slowlift" log show "$out" "$test"

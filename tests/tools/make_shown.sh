#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Makes the log of a rehearsed day on which a second judge graded a swatch after the model's word on it had been
# shown: what tests read of tables of version 6. Kept for good; a newer program is seen to read it.
# usage: make_shown.sh SLOWLIFT OUT.db
set -eu
slowlift=$1
out=$2
rm -f "$out"
"$slowlift" log new "$out" way-short --repeats 1 --operator op-1 --title "Shown, invented"
code=$(sqlite3 "$out" "SELECT code FROM swatch WHERE contact_s >= 0 ORDER BY contact_s LIMIT 1")
zone=$(sqlite3 "$out" "SELECT name FROM zone WHERE name != 'undyed' ORDER BY place LIMIT 1")
day() { # KEYS...: one a second, since a key that comes twice within one is taken once
    for key in "$@"; do
        echo "$key"
        sleep 1.1
    done | "$slowlift" day "$out" --language en $fast
}
fast=--rehearse=60
day g "m $code" "" "a $code" "r $code" q
mv "${out%.db}.rehearsal.db" "$out"
fast=
"$slowlift" log add "$out" --swatch "$code" --zone "$zone" --judge j1 --grade slight
day "p $code" q
"$slowlift" log add "$out" --swatch "$code" --zone "$zone" --judge j2 --grade "about half"

#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Makes the log of a day that was rehearsed in Spanish, judged blind, and stopped for an eye: what tests
# read of tables of version 5 (earlier ones made rehearsal-3.db and rehearsal-4.db). Kept for good; a newer program is seen to read it.
# usage: make_rehearsal.sh SLOWLIFT OUT.db
set -eu
slowlift=$1
out=$2
rm -f "$out"
"$slowlift" log new "$out" way-short --repeats 1 --operator op-1 --title "Ensayo, inventado"
code=$(sqlite3 "$out" "SELECT code FROM swatch WHERE contact_s >= 0 ORDER BY contact_s LIMIT 1")
say() { echo "$1"; sleep 1; } # a key that comes twice within a second is taken once
{
    say g
    say "m $code"
    say ""
    say 21.5
    say "a $code"
    say "e $code"
    say u
    say u
    say "y $code"
    say "a $code"
    say n
    say 3
    say stop
    say 1
    say 2
    say o
    say o
    say q
} | "$slowlift" day "$out" --rehearse=600 --blind --language es
mv "${out%.db}.rehearsal.db" "$out"

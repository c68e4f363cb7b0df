#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Installed to a prefix and run from elsewhere, everything still finds everything.
# usage: test_installed.sh BUILD SOURCE
set -eu
build=$1
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
unset SLOWLIFT_MODELS
cmake --install "$build" --prefix "$folder/first" >"$folder/log" || { cat "$folder/log"; exit 1; }
mv "$folder/first" "$folder/moved here" # and it may be moved
prefix="$folder/moved here"
cd /
"$prefix/bin/slowlift" run eight-arms >"$folder/table"
grep -q "at 20 min" "$folder/table"
if [ -d "$build/locale" ]; then
    "$prefix/bin/slowlift" run eight-arms --language es | grep -q "a los 20 min"
fi
"$prefix/bin/slowlift" list | grep -qF "$prefix/share/slowlift/models"
"$prefix/bin/slowlift" teach half-life </dev/null | grep -q "Step 1 of"
if [ -x "$build/slowlift-paper" ]; then
    "$prefix/bin/slowlift" picture eight-arms -o "$folder/sheet.png"
    test -s "$folder/sheet.png"
fi
# a scene of one's own, in a folder that has no models
cp "$prefix/share/slowlift/models/scenes/eight-arms.yaml" "$folder/mine.yaml"
"$prefix/bin/slowlift" run "$folder/mine.yaml" >"$folder/mine"
cmp "$folder/table" "$folder/mine"
# a program of somebody else
cat >"$folder/other.c" <<'END'
#include <slowlift/model.h>
#include <slowlift/caution.h>
#include <slowlift/report.h>
#include <stdio.h>
int main(void)
{
    sl_start();
    printf("%.1f %s\n", sl_volume_strength(6.0), sl_caution_text(SL_CAUTION_CLOSED)->signal);
    return 0;
}
END
if [ -n "$(find "$prefix" -name libslowlift.so)" ]; then
    library=$(dirname "$(find "$prefix" -name libslowlift.so | head -n 1)")
    "${CC:-cc}" ${CFLAGS:-} -std=c17 -I"$prefix/include" "$folder/other.c" -L"$library" -lslowlift -o "$folder/other"
    LD_LIBRARY_PATH=$library "$folder/other" | grep -qx "19.8 DANGER"
fi

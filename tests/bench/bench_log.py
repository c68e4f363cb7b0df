#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A million readings into a log and out again: makes the log and the file, then runs log_bench.

    bench_log.py LOG_MAKER LOG_READINGS LOG_BENCH [READINGS]
"""
import os
import subprocess
import sys
import tempfile

MAKER, READINGS, BENCH = sys.argv[1:4]
COUNT = sys.argv[4] if len(sys.argv) > 4 else "1000000"

with tempfile.TemporaryDirectory() as folder:
    log, path = os.path.join(folder, "strands.db"), os.path.join(folder, "readings.csv")
    subprocess.run([MAKER, log], check=True, stdout=subprocess.DEVNULL)
    with open(path, "w") as out:
        subprocess.run([READINGS, log, COUNT, "j"], check=True, stdout=out)
    print(f"{os.path.getsize(path) / 2**20:.0f} MiB of CSV", flush=True)
    subprocess.run([BENCH, log, path], check=True)
    print(f"the log has {os.path.getsize(log) / 2**20:.0f} MiB")

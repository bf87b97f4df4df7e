"""Checks the pitch of recorded strings where a folder of recordings with its sustain.tsv is at hand.

    python3 real_strings.py CLI FOLDER

The reference is sustain.tsv: sustain pitches measured by another method, with their own standard errors. Exit code 77
and one line where the folder is not there.
"""
import csv
import os
import statistics
import subprocess
import sys
import tempfile

# |error| in cents: median and the share of 90 %, at 1 s.
BELOW_300_HZ = (0.2, 0.6)
ALL_MEDIAN = 0.4


def main():
    cli, folder = sys.argv[1:3]
    if not os.path.exists(os.path.join(folder, "sustain.tsv")):
        print(f"skipped: no recordings of real strings in {folder}")
        return 77
    here = os.path.dirname(os.path.abspath(__file__))
    with tempfile.TemporaryDirectory() as out:
        subprocess.run([sys.executable, os.path.join(here, "run.py"), "singles", "--set", "real", "--recordings", folder,
                        "--cli", cli, "--out", out], check=True)
        with open(os.path.join(out, "singles-real", "rows.csv")) as file:
            rows = [row for row in csv.DictReader(file) if float(row["window_s"]) == 1.0]
    errors = [(float(row["hz"]), abs(float(row["error_cents"]))) for row in rows if row["error_cents"]]
    low = sorted(error for hz, error in errors if hz < 300)
    median = statistics.median(error for _, error in errors)
    ninety = low[int(0.9 * (len(low) - 1))]
    print(f"1 s: median of all {median:.3f} cent; below 300 Hz {statistics.median(low):.3f}, 90 % {ninety:.3f}")
    good = (len(errors) == len(rows) > 0 and median <= ALL_MEDIAN
            and statistics.median(low) <= BELOW_300_HZ[0] and ninety <= BELOW_300_HZ[1])
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())

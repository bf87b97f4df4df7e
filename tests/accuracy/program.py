"""Runs the program under test on a batch and reads its lines back."""
import json
import subprocess
import time


def run_batch(cli, kind, list_path, expected_rows):
    """All JSON lines of `cli KIND --batch LIST --json`, the wall time and the processor time in seconds."""
    import resource

    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    began = time.monotonic()
    done = subprocess.run([cli, kind, "--batch", list_path, "--json"], capture_output=True, text=True)
    wall = time.monotonic() - began
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    if done.returncode not in (0, 3, 4):
        raise SystemExit(f"{cli} {kind} ended with {done.returncode}: {done.stderr.strip()[-2000:]}")
    rows = [json.loads(line) for line in done.stdout.splitlines() if line.strip()]
    if len(rows) != expected_rows:
        raise SystemExit(f"{cli} {kind} printed {len(rows)} lines, {expected_rows} were asked for: {done.stderr.strip()[-2000:]}")
    return rows, wall, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime

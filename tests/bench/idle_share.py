"""What the window costs while nothing sounds: how soon it answers after its start, what it and each of its threads take of
a core, how often they are woken, how much memory it holds. At the microphone (which hears silence) and at the virtual
instrument.

    bash tests/support/virtual_microphone.sh run bash tests/support/with_display.sh \\
        python3 tests/bench/idle_share.py build/package/bin/quillbench [SECONDS [microphone|virtual ...]]

Another listener that asks the sound server for small pieces makes it wake everybody as often; the one that keeps the
virtual microphone running asks for 10 ms and is therefore ended first.
"""
import os
import pathlib
import subprocess
import sys
import tempfile
import time

TICK = os.sysconf("SC_CLK_TCK")
SETTLES_S = 40.0  # what rests after a while does by then


def tasks(pid):
    """Name, processor seconds and wake-ups of each thread."""
    found = {}
    for task in pathlib.Path(f"/proc/{pid}/task").iterdir():
        name, _, rest = (task / "stat").read_text().partition("(")[2].rpartition(")")
        fields = rest.split()
        # schedstat counts nanoseconds; stat only ticks, of which a thread that often sleeps is charged too few.
        spent = int((task / "schedstat").read_text().split()[0]) / 1e9
        woken = next(int(line.split()[1]) for line in (task / "status").read_text().splitlines()
                     if line.startswith("voluntary_ctxt_switches"))
        found[int(task.name)] = (name, spent, (int(fields[11]) + int(fields[12])) / TICK, woken)
    return found


def resident_megabytes(pid):
    line = next(one for one in pathlib.Path(f"/proc/{pid}/status").read_text().splitlines() if one.startswith("VmRSS"))
    return int(line.split()[1]) / 1024


def colour():
    """Of the window's middle left edge; it changes when the window does what a key asks."""
    return subprocess.run(["import", "-window", "root", "-crop", "1x1+4+400", "txt:-"], stdout=subprocess.PIPE,
                          text=True, check=True).stdout


def start(program, folder, source):
    process = subprocess.Popen([program, "--settings-dir", str(folder), "--source", source, "--instrument", "double-8-8-4"])
    return process


def seconds_to_answer(program, folder):
    """From the start until a key that asks for the dark appearance has changed what is seen."""
    began = time.monotonic()
    process = start(program, folder, "virtual")
    shown = subprocess.run(["xdotool", "search", "--sync", "--onlyvisible", "--pid", str(process.pid)], check=True,
                           stdout=subprocess.PIPE, text=True).stdout.split()[0]
    seen = time.monotonic() - began
    subprocess.run(["xdotool", "windowfocus", shown], check=False)
    before = colour()
    while colour() == before:
        subprocess.run(["xdotool", "key", "F4"], check=True)
        if time.monotonic() - began > 20.0:
            raise RuntimeError("the window does not answer")
    answered = time.monotonic() - began
    subprocess.run(["xdotool", "key", "F3"], check=True)
    time.sleep(0.5)
    process.terminate()
    process.wait()
    return seen, answered


def idle(program, folder, source, seconds):
    process = start(program, folder, source)
    time.sleep(SETTLES_S)
    before = tasks(process.pid)
    began = time.monotonic()
    time.sleep(seconds)
    after = tasks(process.pid)
    passed = time.monotonic() - began
    memory = resident_megabytes(process.pid)
    process.terminate()
    process.wait()
    print(f"{source}: {memory:.0f} MB; per cent of a core (by the kernel's ticks), wake-ups a second")
    total = [0.0, 0.0, 0.0]
    for task, (name, spent, ticks, woken) in after.items():
        _, spent0, ticks0, woken0 = before.get(task, (name, 0.0, 0.0, 0))
        row = [100 * (spent - spent0) / passed, 100 * (ticks - ticks0) / passed, (woken - woken0) / passed]
        total = [a + b for a, b in zip(total, row)]
        if row[2] > 0.2 or row[0] > 0.02:
            print(f"  {name:18} {row[0]:6.2f} ({row[1]:.2f}) {row[2]:7.1f}")
    print(f"  {'all':18} {total[0]:6.2f} ({total[1]:.2f}) {total[2]:7.1f}")


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    seconds = float(sys.argv[2]) if len(sys.argv) > 2 else 30.0
    sources = sys.argv[3:] or ["microphone", "virtual"]
    reader = pathlib.Path(os.environ["VIRTUAL_MICROPHONE_DIR"]) / "reader.pid"
    subprocess.run(["kill", reader.read_text().strip()], check=True)
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        for run in range(5):
            seen, answered = seconds_to_answer(program, folder)
            print(f"start: seen after {seen:.2f} s, answers after {answered:.2f} s")
        for source in sources:
            idle(program, folder, source, seconds)


main()

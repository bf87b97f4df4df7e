"""Manual pages and completions say what the programs' own --help says, no more and no less.

    python3 reference.py QUILLBENCH QUILLBENCH_CLI FOLDER_OF_REFERENCE
"""

import os
import pathlib
import re
import shutil
import subprocess
import sys

WINDOW, COMMAND_LINE, FOLDER = sys.argv[1:4]
MADE = pathlib.Path(FOLDER)
OPTION = re.compile(r"(?<![\w-])(--?[a-z][a-z0-9-]*)")


def output(*command, **more):
    return subprocess.run(command, check=True, stdout=subprocess.PIPE, text=True, **more).stdout


def options_in(help_text):
    """The options that a line of --help begins with."""
    names = set()
    for line in help_text.splitlines():
        if line.startswith("  -"):
            head = re.split(r"\s{2,}|(?<=\w) (?=[<A-Z\[:])", line.strip())[0]
            names.update(OPTION.findall(head))
    return names


def subcommands_in(help_text):
    _, _, listed = help_text.partition("\nSubcommands:\n")
    return re.findall(r"^  ([a-z][a-z-]*)", listed, re.MULTILINE)


def commands(path=()):
    """Every command with its --help, the program itself first."""
    text = output(COMMAND_LINE, *path, "--help")
    yield path, text
    for child in subcommands_in(text):
        yield from commands((*path, child))


def plain(page):
    text = page.read_text().replace("\\-", "-").replace("\\(aq", "'")
    return re.sub(r"\\f[BIR]", " ", text)


def manual_of_the_command_line(all_commands):
    page = plain(MADE / "quillbench-cli.1")
    sections = dict(re.findall(r'^\.SS "([a-z ]+)"\n(.*?)(?=^\.S[SH])', page, re.MULTILINE | re.DOTALL))
    assert not re.search(r"@[A-Z]+@", page), "a mark of the template was not filled in"
    for path, text in all_commands[1:]:
        section = sections.pop(" ".join(path))
        named = {name for line in section.splitlines() if line.startswith(" -") for name in OPTION.findall(line)}
        assert named | {"-h", "--help"} == options_in(text), (path, named ^ options_in(text))
    assert not sections, f"the manual has sections for what is no command: {sections.keys()}"


def manual_of_the_window():
    page = plain(MADE / "quillbench.1")
    section = page.partition(".SH OPTIONS")[2].partition(".SH")[0]
    named = {name for line in section.splitlines() if line.startswith(".B") for name in OPTION.findall(line)
             if not line.startswith(".B quillbench-cli")}
    offered = options_in(output(WINDOW, "--help", env={**os.environ, "LC_ALL": "C.UTF-8"}))
    assert named == offered, named ^ offered


def pages_are_sound():
    if shutil.which("groff") is None:
        print("not looked at: groff is not here")
        return
    for name in ("quillbench.1", "quillbench-cli.1"):
        # Lines that will not break, such as long lists of ids, are no fault.
        run = subprocess.run(["groff", "-man", "-Tutf8", "-ww", "-Wbreak", "-z", str(MADE / name)],
                             stderr=subprocess.PIPE, text=True)
        assert run.returncode == 0 and not run.stderr, run.stderr


def offered_by_bash(words):
    """What stands after a Tab at the end of `words`."""
    script = (f'source "{MADE}/bash"; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _quillbench_cli; '
              'printf "%s\\n" "${COMPREPLY[@]}"')
    return set(output("bash", "-c", script, "bash", *words, cwd=MADE).split())


def bash_completes(all_commands):
    for path, text in all_commands:
        typed = ["quillbench-cli", *path]
        assert offered_by_bash([*typed, "-"]) == options_in(text), (path, offered_by_bash([*typed, "-"]))
        if children := set(subcommands_in(text)):
            assert offered_by_bash([*typed, ""]) == children, path
    temperaments = offered_by_bash(["quillbench-cli", "measure", "a.wav", "--temperament", ""])
    listed = output(COMMAND_LINE, "temperament", "--json")
    assert len(temperaments & set(re.findall(r'"id":"([^"]+)"', listed))) > 20
    assert offered_by_bash(["quillbench-cli", "string", "--material", "ir"]) == {"iron"}
    assert offered_by_bash(["quillbench-cli", "measure", "--note", ""]) == set(), "a note is no file"
    assert "bash" in offered_by_bash(["quillbench-cli", "measure", "ba"]), "a recording is a file"
    assert offered_by_bash(["quillbench-cli", "log", "ve"]) == {"verify"}


def others_can_read_theirs(all_commands):
    for shell, name in (("zsh", "zsh"), ("fish", "fish")):
        text = (MADE / name).read_text()
        for path, help_text in all_commands:
            for option in options_in(help_text):
                wanted = option if shell == "zsh" else option.removeprefix("--")
                assert wanted in text, (shell, path, option)
        if shutil.which(shell) is None:
            print(f"not run: {shell} is not here")
            continue
        subprocess.run([shell, "-n", str(MADE / name)], check=True)


all_of_them = list(commands())
assert len(all_of_them) > 20
manual_of_the_command_line(all_of_them)
manual_of_the_window()
pages_are_sound()
bash_completes(all_of_them)
others_can_read_theirs(all_of_them)
print(f"{len(all_of_them)} commands, as --help has them")

"""Whether the window speaks German throughout.

    python3 check.py LUPDATE SOURCE_DIR WORK_DIR

Every text of the sources stands translated in resources/translations/quillbench_de.ts and nothing there is left over;
placeholders, spaces and line ends are alike; the engine's phrases are still what the engine says; the fault finder's
book is German throughout. Every complaint names the text. Mend: `ninja translations` in the build folder brings the .ts
up to the sources; then translate what it lists.
"""
import json
import re
import shutil
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

LONGEST_TEXT = 200  # bytes, what a field of the fault book may hold


def messages(file):
    for context in ElementTree.parse(file).getroot().findall("context"):
        for message in context.findall("message"):
            translation = message.find("translation")
            forms = [form.text or "" for form in translation.findall("numerusform")] or [translation.text or ""]
            yield context.find("name").text, message.find("source").text or "", translation.get("type"), forms


def against_sources(lupdate, source, work):
    kept = source / "resources/translations/quillbench_de.ts"
    fresh = work / "fresh_de.ts"
    shutil.copy(kept, fresh)
    subprocess.run(
        [lupdate, "-silent", "-locations", "none", "-disable-heuristic", "sametext", "-disable-heuristic",
         "similartext", "-I", ".", "app", "-ts", str(fresh)],
        cwd=source, check=True, stderr=subprocess.DEVNULL)
    for context, text, state, forms in messages(fresh):
        if state in ("vanished", "obsolete"):
            yield f"not in the sources any more: {context} | {text!r}"
        elif state == "unfinished" or not all(forms):
            yield f"not translated: {context} | {text!r}"


def marks(text):
    return sorted(re.findall(r"%(?:n|L?\d)", text))


def alike(source):
    for context, text, _, forms in messages(source / "resources/translations/quillbench_de.ts"):
        for form in forms:
            where = f"{context} | {text!r} | {form!r}"
            if marks(text) != marks(form):
                yield f"other placeholders: {where}"
            if form and (text[0] == " ", text[-1] == " ") != (form[0] == " ", form[-1] == " "):
                yield f"other spaces at the ends: {where}"
            if text.endswith("\n") != form.endswith("\n"):
                yield f"other end of line: {where}"
            if '"' in form or ("'" in form and context != "Core"):
                yield f"a straight quotation mark or apostrophe: {where}"
            if re.search(r"(?<!&)&(?!&)", text) and not re.search(r"&\w", form):
                yield f"no key letter: {where}"


def engine_texts(source):
    """All that stands in quotation marks in the engine's sources, literals that follow each other as one."""
    found = []
    for room in ("core", "audio", "app/formats", "app/storage"):
        for file in sorted((source / room).rglob("*.[ch]pp")):
            code = re.sub(r"(?m)^\s*//.*$", "", file.read_text(encoding="utf-8"))
            for run in re.finditer(r'"(?:[^"\\\n]|\\.)*"(?:\s*"(?:[^"\\\n]|\\.)*")*', code):
                text = "".join(re.findall(r'"((?:[^"\\\n]|\\.)*)"', run.group()))
                text = re.sub(r"\\u([0-9a-f]{4})", lambda code_point: chr(int(code_point.group(1), 16)), text)
                found.append(text.replace('\\"', '"'))
    found += [file.read_text(encoding="utf-8") for file in sorted((source / "app").glob("application*.cpp"))]
    book = json.loads((source / "resources/faults.json").read_text(encoding="utf-8"))
    found += [cause["source"] for symptom in book["symptoms"] for cause in symptom["causes"]]
    return "\n".join(found)


def still_said(source):
    said = engine_texts(source)
    for context, text, _, _ in messages(source / "resources/translations/quillbench_de.ts"):
        if context != "Core":
            continue
        for part in re.split(r"%\d", text):
            if part.strip(" '") not in said:  # what is put in may come with its space
                yield f"the engine does not say {part!r} any more: {text!r}"


def fault_book(source):
    book = json.loads((source / "resources/faults.json").read_text(encoding="utf-8"))
    wanted = [(caution, ("text",)) for caution in book["cautions"]]
    for symptom in book["symptoms"]:
        wanted.append((symptom, ("title", "signs")))
        wanted += [(cause, ("cause", "look", "remedy")) for cause in symptom["causes"]]
    for entry, fields in wanted:
        for field in fields:
            german = entry.get(field + "_de", "")
            if not german:
                yield f"faults.json: no {field}_de beside {entry[field]!r}"
            elif len(german.encode()) > LONGEST_TEXT:
                yield f"faults.json: more than {LONGEST_TEXT} bytes: {german!r}"


def main():
    lupdate, source, work = sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3])
    work.mkdir(parents=True, exist_ok=True)
    complaints = [*against_sources(lupdate, source, work), *alike(source), *still_said(source), *fault_book(source)]
    for complaint in complaints:
        print(complaint)
    count = sum(1 for _ in messages(source / "resources/translations/quillbench_de.ts"))
    print(f"{count} texts, {len(complaints)} complaints")
    return 1 if complaints or count < 1000 else 0


if __name__ == "__main__":
    sys.exit(main())

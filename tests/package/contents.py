"""The Debian package: what it holds, what it needs, and whether a desktop accepts it. Without root, without network.

    python3 contents.py BUILD_FOLDER SOURCE_FOLDER VERSION
"""

import configparser
import gzip
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as xml

BUILD, SOURCE, VERSION = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2]), sys.argv[3]
SKIPPED = 77

FILES = {
    "usr/bin/quillbench",
    "usr/bin/quillbench-cli",
    "usr/share/applications/quillbench.desktop",
    "usr/share/bash-completion/completions/quillbench-cli",
    "usr/share/doc/quillbench/changelog.gz",
    "usr/share/doc/quillbench/copyright",
    "usr/share/fish/vendor_completions.d/quillbench-cli.fish",
    "usr/share/icons/hicolor/scalable/apps/quillbench.svg",
    "usr/share/man/man1/quillbench-cli.1.gz",
    "usr/share/man/man1/quillbench.1.gz",
    "usr/share/metainfo/quillbench.metainfo.xml",
    "usr/share/mime/packages/quillbench.xml",
    "usr/share/zsh/vendor-completions/_quillbench-cli",
}
# By the library each is in (packages of Debian 12), and the type that the window is set in.
NEEDED = {"libc6", "libstdc++6", "libqt6core6", "libqt6gui6", "libqt6widgets6", "libqt6svg6", "libqt6network6",
          "libportaudio2", "libsndfile1", "libsqlite3-0", "fonts-dejavu-core"}
LICENCES = {"Qt": "LGPL-3", "libsndfile": "LGPL-2.1+", "PortAudio": "Expat", "KissFFT": "BSD-3-clause",
            "SQLite": "public-domain", "CLI11": "BSD-3-clause", "JSON for Modern C++": "Expat", "Eigen": "MPL-2.0"}


def output(*command):
    return subprocess.run(command, check=True, stdout=subprocess.PIPE, text=True).stdout


def made_in(folder):
    log = folder / "cpack.log"
    with log.open("w") as out:
        done = subprocess.run(["cpack", "--config", BUILD / "CPackConfig.cmake", "-G", "DEB", "-B", folder],
                              cwd=BUILD, stdout=out, stderr=out, env={**os.environ, "SOURCE_DATE_EPOCH": "1700000000"})
    assert done.returncode == 0, log.read_text()
    (package,) = folder.glob("*.deb")
    return package


def list_is_whole(package):
    members = [line.split(None, 5) for line in output("dpkg-deb", "-c", package).splitlines()]
    files = {path.removeprefix("./"): mode for mode, owner, size, day, hour, path in members if not path.endswith("/")}
    assert files.keys() == FILES, files.keys() ^ FILES
    for path, mode in files.items():
        assert mode == ("-rwxr-xr-x" if "/bin/" in path else "-rw-r--r--"), (path, mode)
    assert all(owner == "root/root" for mode, owner, *rest in members)
    # Owner, permissions and times of the machine that made it are not in it.
    assert {day for mode, owner, size, day, *rest in members} == {"2023-11-14"}


def fields_are_right(package):
    fields = dict(line.split(": ", 1) for line in output("dpkg-deb", "-f", package).splitlines()
                  if re.match(r"[A-Z][\w-]*: ", line))
    assert fields["Package"] == "quillbench" and fields["Version"] == VERSION
    assert fields["Section"] == "sound"
    needed = {re.match(r"[^ (:]+", one.strip())[0] for one in fields["Depends"].split(",")}
    assert NEEDED <= needed, NEEDED - needed
    assert not [one for one in needed if one.endswith("-dev")], needed
    assert {"libasound2-plugins", "speech-dispatcher", "qt6-translations-l10n"} <= set(
        fields["Recommends"].split(", "))


def licences_are_named(root):
    text = (root / "usr/share/doc/quillbench/copyright").read_text()
    paragraphs = text.split("\n\n")
    for library, licence in LICENCES.items():
        (own,) = [one for one in paragraphs if f"\nComment: {library}" in one]
        assert f"\nLicense: {licence}" in own, (library, licence)
    for licence in set(LICENCES.values()) - {"public-domain"}:
        assert any(one.startswith(f"License: {licence}\n") for one in paragraphs), licence
    changes = gzip.decompress((root / "usr/share/doc/quillbench/changelog.gz").read_bytes()).decode()
    assert changes.startswith(f"quillbench ({VERSION}) "), "the changelog is of another version"


def desktop_accepts(root):
    share = root / "usr/share"
    entry = configparser.RawConfigParser(delimiters="=", interpolation=None)
    entry.optionxform = str
    entry.read(share / "applications/quillbench.desktop", encoding="utf-8")
    menu = entry["Desktop Entry"]
    assert (root / "usr/bin" / menu["Exec"].split()[0]).is_file()
    assert (share / f"icons/hicolor/scalable/apps/{menu['Icon']}.svg").is_file()
    namespace = {"m": "http://www.freedesktop.org/standards/shared-mime-info"}
    types = xml.parse(share / "mime/packages/quillbench.xml").getroot().findall("m:mime-type", namespace)
    ours = {one.get("type") for one in types}
    assert ours <= set(menu["MimeType"].split(";"))
    info = xml.parse(share / "metainfo/quillbench.metainfo.xml").getroot()
    assert {one.text for one in info.findall("provides/mediatype")} == ours
    assert info.findtext("launchable") == "quillbench.desktop"
    assert info.find("releases/release").get("version") == VERSION, "the newest release is another version"
    # Each kind that the program writes is told by its first bytes.
    assert ours == {f"application/x-quillbench-{kind}+json" for kind in ("instrument", "temperament", "logbook")}
    xml.parse(share / "icons/hicolor/scalable/apps/quillbench.svg")


def judged_by_others(root):
    share = root / "usr/share"
    for tool, arguments in {
            "desktop-file-validate": [share / "applications/quillbench.desktop"],
            # A name made of a domain would need one that is ours.
            "appstreamcli": ["validate", "--no-net", "--override=cid-desktopapp-is-not-rdns=info",
                             share / "metainfo/quillbench.metainfo.xml"],
            "update-mime-database": [share / "mime"]}.items():
        if shutil.which(tool) is None:
            print(f"not looked at: {tool} is not here")
            continue
        done = subprocess.run([tool, *arguments], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
        assert done.returncode == 0, done.stdout


def main():
    missing = [tool for tool in ("cpack", "dpkg-deb", "dpkg-shlibdeps") if shutil.which(tool) is None]
    if missing:
        print(f"skipped: {', '.join(missing)} not here")
        sys.exit(SKIPPED)
    with tempfile.TemporaryDirectory() as name:
        package = made_in(pathlib.Path(name))
        root = pathlib.Path(name) / "root"
        subprocess.run(["dpkg-deb", "-x", package, root], check=True)
        list_is_whole(package)
        fields_are_right(package)
        licences_are_named(root)
        desktop_accepts(root)
        judged_by_others(root)
    print("the package is as it should be")


main()

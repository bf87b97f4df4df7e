#!/usr/bin/env bash
# Installs the Debian package in a fresh Debian root, runs both programs there as an ordinary person, removes it and
# looks for what is left. Needs root and the network; the mirror is the one of this machine's own apt.
#   bash tests/package/fresh_root.sh build/package/quillbench_0.1.0_amd64.deb
# The root is kept as a tar file beside the package, so that the next run needs only the packages that are missing.
set -euo pipefail

package=$(realpath "${1:?give the .deb}")
keep=$(dirname "$package")/fresh-root.tar
[ "$(id -u)" -eq 0 ] || { echo "fresh_root: run as root" >&2; exit 2; }
command -v mmdebstrap >/dev/null || { echo "fresh_root: apt install mmdebstrap" >&2; exit 2; }

say() { printf '== %s\n' "$*" >&2; }
fail() { printf 'fresh_root: %s\n' "$*" >&2; exit 1; }

codename=$(. /etc/os-release && echo "$VERSION_CODENAME")
# Of this machine's sources those of the distribution itself: other archives have no business in a fresh root.
mapfile -t sources < <(grep -lsE "\\b$codename\\b.*\\bmain\\b|^Suites:.*\\b$codename\\b" \
    /etc/apt/sources.list /etc/apt/sources.list.d/*.list /etc/apt/sources.list.d/*.sources)
[ "${#sources[@]}" -gt 0 ] || fail "this machine's apt names no archive of $codename"

if [ ! -f "$keep" ]; then
    say "a fresh $codename"
    mmdebstrap --quiet --mode=root --variant=apt "$codename" "$keep.new" "${sources[@]}" --format=tar
    mv "$keep.new" "$keep"
fi
root=$(mktemp -d)
leave() {
    umount "$root/proc" 2>/dev/null || true
    rm -rf --one-file-system "$root"
}
trap leave EXIT
tar -xf "$keep" -C "$root"
mount -t proc proc "$root/proc" 2>/dev/null || say "no /proc in the root"
[ -e "$root/dev/null" ] || mknod -m 666 "$root/dev/null" c 1 3
cp /etc/resolv.conf "$root/etc/resolv.conf"

inside() {
    chroot "$root" env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin DEBIAN_FRONTEND=noninteractive LC_ALL=C.UTF-8 "$@"
}
person() { # as somebody without privileges, in an empty home
    inside setpriv --reuid=1000 --regid=1000 --clear-groups \
        env HOME=/home/person QT_QPA_PLATFORM=offscreen sh -c "cd; $1"
}
files() { # caches and the package manager's own books aside
    (cd "$root" && find . -xdev \( -path ./proc -o -path ./dev -o -path ./tmp -o -path ./var/cache \
        -o -path ./var/lib/apt -o -path ./var/lib/dpkg -o -path ./var/log -o -path ./home \) -prune -o -print) | sort
}

install -d -o 1000 -g 1000 "$root/home/person"
inside apt-get update -qq
files > "$root/tmp/before"

say "install"
cp "$package" "$root/tmp/quillbench.deb"
inside apt-get install -y -qq --no-install-recommends /tmp/quillbench.deb > "$root/tmp/install.log" 2>&1 ||
    { tail -20 "$root/tmp/install.log" >&2; fail "cannot be installed"; }

say "run"
version=$(dpkg-deb -f "$package" Version)
[ "$(person 'quillbench-cli --version')" = "$version" ] || fail "quillbench-cli --version is not $version"
[ "$(person 'quillbench --version')" = "$version" ] || fail "quillbench --version is not $version"
person 'quillbench-cli simulate --instrument double-8-8-4 --play "A3:8@0.5+2.5" --detune "8:A3=+4.2" a.wav &&
    quillbench-cli measure a.wav --note A3 --temperament vallotti --json' | tee /dev/stderr |
    grep -q '"status":"ok"' || fail "a string that it sounds itself is not measured"
person 'quillbench-cli demo --instrument spinet' >&2 || fail "the demo does not tune its octave"
person 'quillbench --screenshot-after 3 window.png a.wav' || fail "the window does not open"
inside test -s /home/person/window.png || fail "the window made no picture"
person 'quillbench-cli log list' >&2 || fail "the logbook that the window kept cannot be read"
cp "$root/home/person/window.png" "$(dirname "$package")/fresh-root-window.png"
other=$(cd "$root/home/person" && find . -mindepth 1 -maxdepth 1 ! -name .config ! -name .local ! -name .cache \
    ! -name a.wav ! -name a.truth.json ! -name window.png)
[ -z "$other" ] || fail "the home folder holds $other"

say "remove"
inside apt-get purge -y -qq quillbench > "$root/tmp/remove.log" 2>&1 || fail "cannot be removed"
inside apt-get autoremove --purge -y -qq >> "$root/tmp/remove.log" 2>&1
left=$(cd "$root" && find . -xdev \( -path ./proc -o -path ./tmp -o -path ./home \) -prune -o \
    -iname '*quillbench*' -print)
[ -z "$left" ] || fail "left behind: $left"
inside dpkg-query -W quillbench >/dev/null 2>&1 && fail "dpkg still knows it"
files | comm -13 "$root/tmp/before" - > "$root/tmp/more"
say "files of the dependencies that stayed: $(wc -l < "$root/tmp/more")"
grep -v -E '^\./(etc|var|run|usr/share/mime|usr/share/fonts|usr/share/icons)(/|$)' "$root/tmp/more" | head -20 >&2 || true
inside test -s /home/person/.local/share/quillbench/logbook.sqlite || fail "the person's logbook went with it"
say "installs, runs and removes cleanly; the person's logbook stays"

#!/usr/bin/env bash
# Sets Quillbench up on Debian 12.
#   bash cmake/quickstart.sh run     install what is missing, build, open the window (without a display: the demo)
#   bash cmake/quickstart.sh test    install what the tests need too, build, check and test everything
set -euo pipefail
cd "$(dirname "$0")/.."

build_packages=(
    g++ cmake ninja-build pkg-config
    qt6-base-dev qt6-svg-dev qt6-tools-dev qt6-tools-dev-tools qt6-l10n-tools qt6-translations-l10n libqt6opengl6-dev qt6-qpa-plugins fonts-dejavu-core
    portaudio19-dev libasound2-plugins libkissfft-dev libsndfile1-dev libsqlite3-dev
    libeigen3-dev libcli11-dev nlohmann-json3-dev
)
test_packages=(
    catch2 clang-14 clang-tidy-14 clang-format-14 libclang-rt-14-dev
    pulseaudio pulseaudio-utils xvfb xauth xdotool imagemagick dbus at-spi2-core
    python3 python3-numpy python3-scipy python3-gi gir1.2-atspi-2.0 locales util-linux
    dpkg-dev desktop-file-utils appstream shared-mime-info groff-base
)

say() { printf '== %s\n' "$*" >&2; }

# Installs by package name what dpkg does not have; asks for nothing when all is there.
install_missing() {
    local package missing=()
    for package in "$@"; do
        [ "$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing+=("$package")
    done
    [ "${#missing[@]}" -gt 0 ] || return 0
    say "installing: ${missing[*]}"
    local as_root=()
    [ "$(id -u)" -eq 0 ] || as_root=(sudo)
    "${as_root[@]}" apt-get update -qq
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
        apt-get install -y -qq --no-install-recommends "${missing[@]}" >&2
}

# Configures a preset once; ninja configures again by itself when a CMake file changes.
configure() {
    [ -f "build/$1/build.ninja" ] || { say "configuring $1"; cmake --preset "$1" >&2; }
}

build() {
    configure "$1"
    say "building $1"
    cmake --build --preset "$@" >&2
}

case "${1:-}" in
run)
    install_missing "${build_packages[@]}"
    [ -f build/release/build.ninja ] || cmake --preset release -DQUILLBENCH_BUILD_TESTS=OFF >&2
    say "building release"
    cmake --build --preset release --target quillbench quillbench-cli >&2
    if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
        exec build/release/bin/quillbench "${@:2}"
    fi
    say "no display: the virtual instrument is tuned by a scripted player instead"
    exec build/release/bin/quillbench-cli demo "${@:2}"
    ;;
test)
    install_missing "${build_packages[@]}" "${test_packages[@]}"

    say "format"
    git ls-files '*.hpp' '*.cpp' | xargs clang-format-14 --dry-run -Werror

    build asan # with clang-tidy on every room that changed, and the fuzz targets
    # The whole suite once more in a locale with decimal commas and an odd time zone.
    [ -d build/locale/de_DE.UTF-8 ] || { mkdir -p build/locale && localedef -i de_DE -f UTF-8 build/locale/de_DE.UTF-8; }
    LOCPATH="$PWD/build/locale" LC_ALL=de_DE.UTF-8 TZ=Pacific/Chatham ctest --preset asan -j2

    build tsan
    # Address randomisation off: the thread sanitizer of GCC 12 needs its fixed places in memory.
    setarch -R ctest --preset tsan

    cmake --preset release -DQUILLBENCH_BUILD_TESTS=ON > build/release-configure.log
    build release
    ctest --preset release -j2
    ;;
*)
    echo "usage: bash cmake/quickstart.sh run|test" >&2
    exit 2
    ;;
esac

#!/usr/bin/env bash
# A microphone and a loudspeaker without hardware: a private PulseAudio whose null sink is heard by its source.
#   virtual_microphone.sh run COMMAND...   starts it, runs COMMAND with it, ends it; the exit code is COMMAND's,
#                                          or 77 where PulseAudio is not installed
# Inside COMMAND:
#   virtual_microphone.sh play FILE        plays a sound file into the microphone, returns when it is played
#   virtual_microphone.sh kill             ends the sound server as a crash would
#   virtual_microphone.sh start            starts it again
#   virtual_microphone.sh freeze | thaw    stops and continues its process
#   virtual_microphone.sh suspend | resume the microphone sends nothing, the server lives
# PortAudio finds the devices `vmic` (input) and `default` (both) through ALSA and no others. Everything lives in a
# temporary folder; only processes that were started here are ended, by their id.
set -u

skip() { echo "skipped: $1" >&2; exit 77; }

server_pid() { cat "$VIRTUAL_MICROPHONE_DIR/server.pid" 2>/dev/null; }
reader_pid() { cat "$VIRTUAL_MICROPHONE_DIR/reader.pid" 2>/dev/null; }

prepare() {
    export VIRTUAL_MICROPHONE_DIR=$1
    mkdir -p "$1/run" "$1/state"
    chmod 700 "$1/run"
    cat > "$1/client.conf" <<CONF
autospawn = no
enable-shm = no
CONF
    cat > "$1/server.pa" <<CONF
.fail
load-module module-native-protocol-unix auth-anonymous=1 socket=$1/run/native
load-module module-null-sink sink_name=vspk format=float32le rate=${VIRTUAL_MICROPHONE_RATE:-48000} channels=1 channel_map=mono
load-module module-remap-source source_name=vmic master=vspk.monitor
set-default-sink vspk
set-default-source vmic
CONF
    cat > "$1/asound.conf" <<CONF
pcm.vmic { type pulse server "unix:$1/run/native" device "vmic" hint { show on description "Virtual microphone" } }
ctl.vmic { type pulse server "unix:$1/run/native" }
pcm.!default { type pulse server "unix:$1/run/native" hint { show on description "Default" } }
ctl.!default { type pulse server "unix:$1/run/native" }
CONF
    unset PULSE_SINK PULSE_SOURCE
    export PULSE_RUNTIME_PATH=$1/run PULSE_STATE_PATH=$1/state PULSE_SERVER=unix:$1/run/native PULSE_COOKIE=$1/cookie
    export PULSE_CLIENTCONFIG=$1/client.conf ALSA_CONFIG_PATH=$1/asound.conf JACK_NO_START_SERVER=1
}

start() {
    local dir=$VIRTUAL_MICROPHONE_DIR
    pulseaudio --daemonize=no --fail=yes -n --file="$dir/server.pa" --exit-idle-time=-1 --disallow-exit=yes \
        --use-pid-file=no --disable-shm=yes --realtime=no --high-priority=no --log-target=stderr --log-level=notice \
        < /dev/null > "$dir/server.log" 2>&1 &
    echo $! > "$dir/server.pid"
    disown
    local _
    for _ in $(seq 100); do
        kill -0 "$(server_pid)" 2>/dev/null || { cat "$dir/server.log" >&2; return 1; }
        if pactl list short sources 2>/dev/null | grep -q '\bvmic\b'; then
            # Somebody always listens, so that the source runs and the first callback comes at once.
            parec --device=vmic --latency-msec=10 < /dev/null > /dev/null 2>&1 &
            echo $! > "$dir/reader.pid"
            disown
            return 0
        fi
        sleep 0.1
    done
    echo "the sound server was not ready within 10 s" >&2
    return 1
}

end_process() { # ID SIGNAL: and wait until it is gone, whoever its parent is
    [ -n "$1" ] || return 0
    kill "-$2" "$1" 2>/dev/null || return 0
    local _
    for _ in $(seq 50); do
        kill -0 "$1" 2>/dev/null || return 0
        case $(ps -o stat= -p "$1" 2>/dev/null) in Z*) return 0 ;; esac
        sleep 0.05
    done
    kill -KILL "$1" 2>/dev/null
}

forget() {
    end_process "$(reader_pid)" TERM
    rm -f "$VIRTUAL_MICROPHONE_DIR"/{server.pid,reader.pid} "$VIRTUAL_MICROPHONE_DIR/run/native"
}

case ${1:-} in
run)
    shift
    for tool in pulseaudio pactl parec paplay; do
        command -v "$tool" > /dev/null || skip "$tool is not installed (packages pulseaudio, pulseaudio-utils)"
    done
    ls /usr/lib/*/alsa-lib/libasound_module_pcm_pulse.so > /dev/null 2>&1 ||
        skip "ALSA's way to PulseAudio is not installed (package libasound2-plugins)"
    dir=$(mktemp -d)
    prepare "$dir"
    trap 'kill -CONT "$(server_pid)" 2>/dev/null; end_process "$(server_pid)" TERM; forget; rm -rf "$dir"' EXIT
    start || exit 1
    "$@"
    exit $?
    ;;
play) exec paplay --device=vspk --latency-msec=200 "$2" ;;
kill) end_process "$(server_pid)" KILL; forget ;;
start) start ;;
freeze) kill -STOP "$(server_pid)" ;;
thaw) kill -CONT "$(server_pid)" ;;
suspend) pactl suspend-source vmic 1 ;;
resume) pactl suspend-source vmic 0 ;;
*) sed -n '2,14p' "$0" >&2; exit 2 ;;
esac

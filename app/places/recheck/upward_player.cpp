#include "app/places/recheck/upward_player.hpp"

#include <utility>

namespace quillbench {

namespace {

constexpr int kMiddleC = 60; // MIDI note
constexpr int kLowMilliseconds = 1000;
constexpr int kHighMilliseconds = 700;

} // namespace

UpwardPlayer::UpwardPlayer(VirtualPlayer& player, QObject* parent)
    : QObject(parent),
      player_(player) {
    timer_.setSingleShot(true);
    timer_.setTimerType(Qt::PreciseTimer);
    connect(&timer_, &QTimer::timeout, this, &UpwardPlayer::next);
}

int UpwardPlayer::millisecondsFor(const Note& note) {
    return note.midiNumber() > kMiddleC ? kHighMilliseconds : kLowMilliseconds;
}

void UpwardPlayer::play(const Instrument& instrument, std::vector<std::size_t> keys) {
    stop();
    compass_ = instrument.compass;
    keys_ = std::move(keys);
    at_ = 0;
    if (!keys_.empty() && player_.playing()) {
        next();
        Q_EMIT playingChanged(true);
    }
}

void UpwardPlayer::next() {
    if (down_) {
        player_.keyUp(*down_);
        down_.reset();
    }
    if (at_ >= keys_.size() || !player_.playing()) {
        Q_EMIT playingChanged(false);
        return;
    }
    down_ = keys_[at_++];
    player_.keyDown(*down_);
    timer_.start(millisecondsFor(compass_.keys[*down_].note));
}

void UpwardPlayer::stop() {
    timer_.stop();
    if (down_) {
        player_.keyUp(*down_);
        down_.reset();
        Q_EMIT playingChanged(false);
    }
}

} // namespace quillbench

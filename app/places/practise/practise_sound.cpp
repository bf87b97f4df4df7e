#include "app/places/practise/practise_sound.hpp"

#include "audio/playback_stream.hpp"
#include "audio/sound_worker.hpp"
#include "audio/virtual_source.hpp"
#include "core/support/contract.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <algorithm>
#include <chrono>
#include <utility>

namespace quillbench {

namespace {

constexpr double kLowestRateHz = 44'100.0;
constexpr double kHighestRateHz = 96'000.0;
/// Strings that are damped are gone by then.
constexpr auto kFadesWithin = std::chrono::milliseconds(400);
/// Of the silence before a pluck so much is played.
constexpr Seconds kLead{0.001};
/// A loudspeaker that rested plays some hundredths of a second late: nobody listens any more by then.
constexpr Seconds kLoudspeakerRestsAfter{60.0};

/// The hand touches the strings before it plucks, and the analysis wants to hear silence; the learner waits for neither.
FrameCount skipped(SampleRate rate) {
    return rate.frames(kPluckAfter - kLead);
}

} // namespace

PractiseSound::PractiseSound(SoundWorker& worker, QObject* parent) : PractiseSound(parent) {
    worker_ = &worker;
}

PractiseSound::PractiseSound(QObject* parent)
    : QObject(parent),
      output_(std::make_shared<PracticeOutput>(outputRate_)) {
    leaving_.setSingleShot(true);
    leaving_.setInterval(kFadesWithin);
    connect(&leaving_, &QTimer::timeout, this, &PractiseSound::silence);
}

PractiseSound::~PractiseSound() {
    silence();
}

/// The loudspeaker first: it would miss its renderer.
void PractiseSound::silence() {
    if (playback_) {
        playback_->stop();
    }
    if (source_) {
        source_->stop();
    }
}

void PractiseSound::setRate(SampleRate rate) {
    rate_ = SampleRate(std::clamp(rate.hz(), kLowestRateHz, kHighestRateHz));
}

/// Everything anew at another rate, silent.
void PractiseSound::openAt(SampleRate rate) {
    silence();
    source_.reset();
    pair_.reset();
    outputRate_ = rate;
    output_ = std::make_shared<PracticeOutput>(rate);
    output_->setLevel(level_);
    if (worker_ != nullptr) {
        PlaybackSettings settings;
        settings.rate = rate;
        playback_ = std::make_shared<PlaybackStream>(*worker_, settings);
    }
}

void PractiseSound::enter() {
    leaving_.stop();
    if (worker_ == nullptr) {
        return;
    }
    if (!playback_) {
        openAt(rate_);
    }
    playback_->start();
    if (source_) {
        (void)source_->start();
    }
}

void PractiseSound::leave() {
    damp();
    leaving_.start();
}

void PractiseSound::play(const PracticePair& pair) {
    if (!(pair.settings.sampleRate == outputRate_)) {
        openAt(pair.settings.sampleRate);
        if (playback_) {
            playback_->start();
        }
    }
    VirtualInstrument fresh(*pair.instrument, pair.settings);
    for (const VirtualCommand& command : pluckBoth(pair, firstPluck(pair))) {
        fresh.apply(command);
    }
    std::vector<float> before(static_cast<std::size_t>(skipped(outputRate_).value()));
    fresh.render(before);
    pair_ = pair;
    if (!source_) {
        source_ = std::make_unique<VirtualSource>(
            std::make_unique<VirtualInstrument>(std::move(fresh)),
            outputRate_,
            worker_ == nullptr ? Pace::AsTaken : Pace::RealTime,
            playback_,
            [output = output_](std::span<float> samples) { output->process(samples); });
        source_->setRestsAfter(kLoudspeakerRestsAfter);
        (void)source_->start(); // a virtual source always starts
        return;
    }
    source_->inspect([this, &fresh](VirtualInstrument& sounding) {
        std::vector<float> tail(static_cast<std::size_t>(output_->fade().value()));
        sounding.render(tail);
        output_->addTail(tail);
        output_->addSound({});
        sounding = std::move(fresh);
    });
}

void PractiseSound::pluckAgain() {
    EXPECTS(pair_.has_value());
    send(pluckBoth(*pair_, FrameIndex()));
}

void PractiseSound::damp() {
    if (pair_) {
        send(dampBoth(*pair_, FrameIndex()));
    }
}

void PractiseSound::playInstead(std::vector<float> sound) {
    if (!source_) {
        return;
    }
    if (!sound.empty()) {
        damp();
    }
    source_->inspect([this, &sound](VirtualInstrument&) { output_->addSound(std::move(sound)); });
}

void PractiseSound::turnPin(double degrees) {
    if (pair_) {
        send(VirtualCommand::Kind::TurnPin, pinOf(*pair_), degrees);
    }
}

void PractiseSound::letGo() {
    turnPin(0.0);
}

void PractiseSound::setLevel(double decibels) {
    level_ = decibels;
    if (source_) {
        source_->inspect([this, decibels](VirtualInstrument&) { output_->setLevel(decibels); });
    } else {
        output_->setLevel(decibels);
    }
}

void PractiseSound::hearOnly(std::optional<Hertz> centre) {
    if (source_) {
        source_->inspect([this, centre](VirtualInstrument&) { output_->hearOnly(centre); });
    } else {
        output_->hearOnly(centre);
    }
}

Hertz PractiseSound::pinRests() const {
    EXPECTS(source_ != nullptr);
    Hertz rests;
    source_->inspect(
        [&](const VirtualInstrument& sounding) { rests = sounding.restPitch(pinOf(*pair_)); });
    return rests;
}

Cents PractiseSound::centsPerDegree() const {
    EXPECTS(source_ != nullptr);
    Cents cents;
    source_->inspect(
        [&](const VirtualInstrument& sounding) { cents = sounding.centsPerDegree(pinOf(*pair_)); });
    return cents;
}

Seconds PractiseSound::delay() const {
    return kLead + (playback_ ? playback_->latency() : Seconds(0.0));
}

EngineState PractiseSound::state() const {
    return playback_ ? playback_->state() : EngineState{};
}

void PractiseSound::send(const std::vector<VirtualCommand>& commands) {
    for (const VirtualCommand& command : commands) {
        // A second's worth of key presses never fills the queue of 1024.
        (void)source_->send(command);
    }
}

void PractiseSound::send(VirtualCommand::Kind kind, StringId string, double amount) {
    VirtualCommand command;
    command.kind = kind;
    command.string = string;
    command.amount = amount;
    send({command});
}

} // namespace quillbench

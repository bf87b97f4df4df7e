#pragma once

#include "core/analysis/analyser.hpp"
#include "core/instrument/examples.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace quillbench::test {

/// Plays pairs of strings on a virtual instrument in equal temperament at its own standard, some strings out of tune,
/// and listens to them.
class PairPlayer {
public:
    explicit PairPlayer(std::string_view example, std::uint64_t seed = 7, double noiseDb = -75.0)
        : instrument_(*findExample(example)) {
        settings_.seed = seed;
        settings_.room.noise = Decibel::fromAmplitude(std::pow(10.0, noiseDb / 20.0));
        for (std::size_t c = 0; c < instrument_.choirs.size(); ++c) {
            std::vector<Hertz> pitches;
            for (std::size_t s = 0; s < instrument_.choirs[c].strings.size(); ++s) {
                pitches.push_back(nominalPitch(instrument_, {c, s}));
            }
            settings_.pitches.push_back(pitches);
        }
        settings_.registersOn.assign(instrument_.registers.size(), false);
    }

    [[nodiscard]] StringId string(std::string_view choir, std::string_view note) const {
        return *stringOf(instrument_, *choirOf(instrument_, choir), *parseNote(note));
    }

    PairPlayer& detune(StringId string, double cents) {
        Hertz& pitch = settings_.pitches[string.choir][string.course];
        pitch = transpose(pitch, Cents(cents));
        return *this;
    }

    /// A register at the beginning.
    PairPlayer& on(std::string_view choir) {
        settings_.registersOn[*soloRegister(instrument_, *choirOf(instrument_, choir))] = true;
        return *this;
    }

    PairPlayer& turn(std::string_view choir, bool on, double at) {
        VirtualCommand command;
        command.kind = on ? VirtualCommand::Kind::RegisterOn : VirtualCommand::Kind::RegisterOff;
        command.reg = *soloRegister(instrument_, *choirOf(instrument_, choir));
        return send(command, at);
    }

    PairPlayer& couple(double at) {
        VirtualCommand command;
        command.kind = VirtualCommand::Kind::Couple;
        return send(command, at);
    }

    PairPlayer& key(std::string_view note, double at, double held) {
        VirtualCommand command;
        command.kind = VirtualCommand::Kind::KeyDown;
        command.key = *keyOf(instrument_.compass, *parseNote(note));
        send(command, at);
        command.kind = VirtualCommand::Kind::KeyUp;
        return send(command, at + held);
    }

    /// The pin turns evenly, by `cents` in all.
    PairPlayer& pull(StringId string, double from, double to, double cents) {
        pulls_.push_back({string, from, to, cents});
        return *this;
    }

    /// Strings of these choirs are listened for.
    [[nodiscard]] std::shared_ptr<AnalysisTarget>
    target(const std::vector<std::string_view>& choirs) const {
        auto target = std::make_shared<AnalysisTarget>();
        for (const std::string_view id : choirs) {
            const std::size_t choir = *choirOf(instrument_, id);
            for (std::size_t course = 0; course < instrument_.choirs[choir].strings.size();
                 ++course) {
                target->strings.push_back(
                    {{choir, course}, nominalPitch(instrument_, {choir, course}), 0.0});
            }
        }
        target->pairs = true;
        return target;
    }

    /// The sound of all that was asked for; plucks() is then known.
    std::vector<float> play(double seconds) {
        virtual_ = std::make_unique<VirtualInstrument>(instrument_, settings_);
        for (const Pull& pull : pulls_) {
            const double degrees = pull.cents / virtual_->centsPerDegree(pull.string).value();
            const int steps = static_cast<int>((pull.to - pull.from) * 50.0);
            for (int i = 0; i < steps; ++i) {
                VirtualCommand command;
                command.kind = VirtualCommand::Kind::TurnPin;
                command.string = pull.string;
                command.amount = degrees / steps;
                send(command, pull.from + (pull.to - pull.from) * i / steps);
            }
        }
        std::stable_sort(commands_.begin(), commands_.end(), [](const auto& a, const auto& b) {
            return a.at < b.at;
        });
        for (const VirtualCommand& command : commands_) {
            (void)virtual_->apply(command);
        }
        std::vector<float> sound(static_cast<std::size_t>(seconds * settings_.sampleRate.hz()));
        for (std::size_t i = 0; i < sound.size(); i += 480) {
            virtual_->render(
                std::span(sound).subspan(i, std::min<std::size_t>(480, sound.size() - i)));
            while (const auto record = virtual_->takePluck()) {
                plucks_.push_back(*record);
            }
        }
        return sound;
    }

    [[nodiscard]] const std::vector<PluckRecord>& plucks() const { return plucks_; }

    /// The true beat of the last plucks of two strings, as if both rang on.
    [[nodiscard]] std::optional<double>
    beat(StringId lower, int lowerPartial, StringId upper, int upperPartial) const {
        const PluckRecord* a = lastOf(lower);
        const PluckRecord* b = lastOf(upper);
        if (a == nullptr || b == nullptr) {
            return std::nullopt;
        }
        const auto pair = virtual_->coincidentPair(*a, lowerPartial, *b, upperPartial);
        return pair ? std::optional(pair->beat().perSecond()) : std::nullopt;
    }

    [[nodiscard]] const Instrument& instrument() const { return instrument_; }

    [[nodiscard]] Hertz restPitch(StringId string) const { return virtual_->restPitch(string); }

private:
    struct Pull {
        StringId string;
        double from;
        double to;
        double cents;
    };

    PairPlayer& send(VirtualCommand command, double at) {
        command.at = FrameIndex(settings_.sampleRate.frames(Seconds(at)).value());
        commands_.push_back(command);
        return *this;
    }

    [[nodiscard]] const PluckRecord* lastOf(StringId string) const {
        for (auto i = plucks_.rbegin(); i != plucks_.rend(); ++i) {
            if (i->string == string) {
                return &*i;
            }
        }
        return nullptr;
    }

    const Instrument& instrument_;
    VirtualSettings settings_;
    std::vector<VirtualCommand> commands_;
    std::vector<Pull> pulls_;
    std::vector<PluckRecord> plucks_;
    std::unique_ptr<VirtualInstrument> virtual_;
};

/// What an analyser said about pairs while it heard a sound.
struct PairsHeard {
    std::vector<PairHeard> shots; ///< one a snapshot that had a pair sounding
    std::vector<FrameIndex> at;
    std::vector<PairReading> finished;
    std::vector<StringReading> strings; ///< finished readings of single plucks
};

/// What is listened for from an instant on: registers are drawn in between.
struct TargetFrom {
    double at = 0.0;
    std::shared_ptr<const AnalysisTarget> target;
};

inline PairsHeard listenToPairs(const std::vector<float>& sound,
                                const std::vector<TargetFrom>& targets,
                                const std::vector<std::size_t>& blocks = {256}) {
    Analyser analyser(SampleRate(48000.0), {});
    std::size_t nextTarget = 0;
    PairsHeard heard;
    std::size_t at = 0;
    for (std::size_t i = 0; at < sound.size(); ++i) {
        std::size_t count = std::min(blocks[i % blocks.size()], sound.size() - at);
        if (nextTarget < targets.size()) {
            const auto from = static_cast<std::size_t>(targets[nextTarget].at * 48000.0);
            if (at == from) {
                analyser.setTarget(targets[nextTarget++].target);
            } else {
                count = std::min(count, from - at);
            }
        }
        const auto shot = analyser.push({FrameIndex(static_cast<std::int64_t>(at)),
                                         std::span(sound).subspan(at, count),
                                         false});
        at += count;
        if (!shot) {
            continue;
        }
        if (shot->pair && shot->pair->sounding) {
            heard.shots.push_back(*shot->pair);
            heard.at.push_back(shot->upTo);
        }
        if (shot->finishedPair) {
            heard.finished.push_back(*shot->finishedPair);
        }
        if (shot->finished) {
            heard.strings.push_back(*shot->finished);
        }
    }
    return heard;
}

} // namespace quillbench::test

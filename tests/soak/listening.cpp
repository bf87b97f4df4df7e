// soak_listening HOURS [SEED]: so many hours' worth of playing, faster than real time: the virtual instrument's first
// choir up and down, a key every three seconds, each string out of tune by its own amount, through the engine that the
// window uses. Prints a line an hour: keys played, last words heard, wrong strings, errors, memory. Ends with 1 where a
// pluck had no last word, more than one in a thousand was taken for another string, or memory grew.
#include "audio/analysis_engine.hpp"
#include "audio/virtual_source.hpp"
#include "core/instrument/examples.hpp"
#include "core/support/random.hpp"
#include "core/virtual/virtual_instrument.hpp"
#include "tests/soak/memory.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <variant>
#include <vector>

using namespace quillbench;
using soak::residentMegabytes;

namespace {

constexpr SampleRate kRate{48000.0};
constexpr Seconds kApart{3.0};
constexpr Seconds kHeld{2.7};

struct Counts {
    std::int64_t played = 0;
    std::int64_t lastWords = 0;
    std::int64_t withPitch = 0;
    std::int64_t wrong = 0;
    std::int64_t gaps = 0;
    std::vector<double> errors; ///< cents against the sustain pitch, absolute
};

/// Its first register alone, in a room with noise.
class Playing {
public:
    explicit Playing(std::uint64_t seed) : random_(seed) {
        VirtualSettings settings;
        settings.sampleRate = kRate;
        settings.seed = seed;
        settings.room.noise = Decibel::fromAmplitude(3e-4);
        settings.registersOn.assign(instrument_.registers.size(), false);
        settings.registersOn[0] = true;
        auto target = std::make_shared<AnalysisTarget>();
        for (std::size_t c = 0; c < instrument_.choirs.size(); ++c) {
            std::vector<Hertz> pitches;
            for (std::size_t s = 0; s < instrument_.choirs[c].strings.size(); ++s) {
                const Hertz nominal = nominalPitch(instrument_, {c, s});
                pitches.push_back(transpose(nominal, Cents(random_.uniform(-15.0, 15.0))));
                if (c == instrument_.registers[0].choir) {
                    target->strings.push_back({{c, s}, nominal, 0.0});
                }
            }
            settings.pitches.push_back(pitches);
        }
        keys_ = target->strings.size();
        source_ = std::make_shared<VirtualSource>(
            std::make_unique<VirtualInstrument>(instrument_, settings), kRate, Pace::AsTaken);
        engine_ = std::make_unique<AnalysisEngine>(source_);
        engine_->setTarget(std::move(target));
    }

    /// One key, heard to its end.
    void step(Counts& counts) {
        send(VirtualCommand::Kind::KeyDown, Seconds(0.1));
        send(VirtualCommand::Kind::KeyUp, Seconds(0.1) + kHeld);
        ++counts.played;
        (void)engine_->advance(kRate.frames(kApart));
        source_->inspect([&](VirtualInstrument& sounding) {
            while (const auto pluck = sounding.takePluck()) {
                last_ = pluck->string;
                sustain_ = sounding.truth(*pluck).sustain;
            }
        });
        for (const EngineEvent& event : engine_->drainEvents()) {
            hear(event, counts);
        }
        turn_ = (turn_ + 1) % (2 * keys_ - 2);
    }

private:
    void send(VirtualCommand::Kind kind, Seconds after) {
        VirtualCommand command;
        command.kind = kind;
        command.at = source_->now() + kRate.frames(after);
        command.manual = instrument_.registers[0].manual;
        command.key = turn_ < keys_ ? turn_ : 2 * keys_ - 2 - turn_;
        if (!source_->send(command)) {
            std::abort();
        }
    }

    void hear(const EngineEvent& event, Counts& counts) const {
        if (std::holds_alternative<GapEvent>(event)) {
            ++counts.gaps;
        }
        const auto* reading = std::get_if<StringReading>(&event);
        if (reading == nullptr) {
            return;
        }
        ++counts.lastWords;
        if (reading->standing == Standing::Nothing) {
            return;
        }
        ++counts.withPitch;
        if (reading->string != last_) {
            ++counts.wrong;
        } else {
            counts.errors.push_back(std::fabs(interval(sustain_, reading->pitch).value()));
        }
    }

    Random random_;
    const Instrument& instrument_ = exampleInstruments().front();
    std::shared_ptr<VirtualSource> source_;
    std::unique_ptr<AnalysisEngine> engine_;
    std::size_t keys_ = 0;
    std::size_t turn_ = 0;
    StringId last_;
    Hertz sustain_;
};

double quantile(std::vector<double>& values, double share) {
    if (values.empty()) {
        return 0.0;
    }
    const auto at = values.begin() +
                    static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), at, values.end());
    return *at;
}

} // namespace

int main(int argc, char** argv) {
    const int hours = argc > 1 ? std::atoi(argv[1]) : 0;
    if (hours < 1) {
        std::fprintf(stderr, "usage: soak_listening HOURS [SEED]; at least one hour\n");
        return 2;
    }
    Playing playing(argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1);
    const auto steps = static_cast<int>(3600.0 / kApart.count());
    Counts whole;
    double early = 0.0;
    std::printf("hour  keys  last words  with pitch  wrong  gaps  error median/95 %%, cents  MB\n");
    for (int hour = 1; hour <= hours; ++hour) {
        whole.errors.clear();
        for (int i = 0; i < steps; ++i) {
            playing.step(whole);
        }
        const double megabytes = residentMegabytes();
        early = hour == 1 ? megabytes : early;
        std::printf("%4d %5lld %11lld %11lld %6lld %5lld %8.3f/%.3f %19.1f\n",
                    hour,
                    static_cast<long long>(whole.played),
                    static_cast<long long>(whole.lastWords),
                    static_cast<long long>(whole.withPitch),
                    static_cast<long long>(whole.wrong),
                    static_cast<long long>(whole.gaps),
                    quantile(whole.errors, 0.5),
                    quantile(whole.errors, 0.95),
                    megabytes);
        (void)std::fflush(stdout);
    }
    const bool sound = whole.lastWords == whole.played && whole.gaps == 0 &&
                       1000 * whole.wrong <= whole.played && residentMegabytes() < early + 2.0;
    return sound ? 0 : 1;
}

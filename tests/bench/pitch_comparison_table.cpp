// The sustain pitch as read here and by a general-purpose library's methods from the same sounds: those are given the
// onset, their octave is folded, and the median over the window is taken.
#include "core/dsp/single_string.hpp"
#include "tests/bench/limit_string.hpp"

#include <aubio/aubio.h>

#include <cstdio>
#include <cstdlib>
#include <memory>
#include <span>
#include <string>

namespace {

using namespace quillbench;
using bench::LimitString;

constexpr std::array<double, 4> kWindows{0.3, 0.5, 1.0, 2.0};
constexpr std::array<const char*, 4> kMethods{"yin", "yinfft", "mcomb", "fcomb"};
constexpr unsigned kBuffer = 4096;
constexpr unsigned kHop = 512;
constexpr double kLost = 600.0; // cents: the most that folding leaves

struct FreePitch {
    void operator()(aubio_pitch_t* pitch) const { del_aubio_pitch(pitch); }
};

struct FreeVector {
    void operator()(fvec_t* vector) const { del_fvec(vector); }
};

double medianOf(std::vector<double> values, double part = 0.5) {
    std::sort(values.begin(), values.end());
    return values[static_cast<std::size_t>(part * static_cast<double>(values.size() - 1) + 0.5)];
}

/// |error| in cents of a library method's median over `sound`, which begins at the pluck.
double errorOf(const char* method, std::span<const float> sound, double truth, unsigned rate) {
    const std::unique_ptr<aubio_pitch_t, FreePitch> pitch(
        new_aubio_pitch(method, kBuffer, kHop, rate));
    const std::unique_ptr<fvec_t, FreeVector> in(new_fvec(kHop));
    const std::unique_ptr<fvec_t, FreeVector> out(new_fvec(1));
    std::vector<double> cents;
    for (std::size_t at = 0; at + kHop <= sound.size(); at += kHop) {
        std::copy_n(sound.data() + at, kHop, in->data);
        aubio_pitch_do(pitch.get(), in.get(), out.get());
        const double hz = static_cast<double>(out->data[0]);
        if (at + kHop >= kBuffer && hz > 0.0) { // the buffer is full of the note
            cents.push_back(std::remainder(std::log(hz / truth) / bench::kCent, 1200.0));
        }
    }
    return cents.empty() ? kLost : std::abs(medianOf(cents));
}

struct Errors {
    std::array<std::vector<double>, kMethods.size() + 1> byMethod; ///< ours last

    void print(const std::string& name) const {
        std::printf("%-16s", name.c_str());
        for (const std::vector<double>& errors : byMethod) {
            std::printf("  %7.3f/%7.2f", medianOf(errors), medianOf(errors, 0.95));
        }
        std::puts("");
    }
};

} // namespace

int main(int argc, char** argv) {
    const int trials = argc > 1 ? std::atoi(argv[1]) : 8;
    if (trials < 1) {
        std::fputs("usage: pitch_comparison_table [TRIALS an octave], a whole number from 1 on\n",
                   stderr);
        return 2;
    }
    const SampleRate rate(48000.0);
    std::array<Errors, kWindows.size()> byWindow;
    std::array<Errors, 6> byOctave; // at 1 s
    Random random(5);
    for (std::size_t octave = 0; octave < byOctave.size(); ++octave) {
        const double hz = 58.0 * std::exp2(static_cast<double>(octave));
        for (int trial = 0; trial < trials; ++trial) {
            const LimitString drawn =
                bench::drawString(hz * std::exp2(random.uniform(-0.3, 0.3)),
                                  random.uniform(10.0, 40.0),
                                  static_cast<std::uint64_t>(trial) + 100 * (octave + 1));
            const double truth = drawn.sustainHz();
            const auto sound = drawn.string.render();
            ListeningFor what;
            what.target = Hertz(truth * std::exp2(random.uniform(-25.0, 25.0) / 1200.0));
            const auto begin = static_cast<std::size_t>(drawn.string.before * rate.hz());
            const auto readings = readingsAfter(
                FrameIndex(static_cast<std::int64_t>(begin)), what, sound, rate, kWindows);
            for (std::size_t w = 0; w < kWindows.size(); ++w) {
                const auto part = std::span<const float>(sound).subspan(
                    begin, static_cast<std::size_t>(kWindows[w] * rate.hz()));
                for (std::size_t m = 0; m <= kMethods.size(); ++m) {
                    const double error =
                        m < kMethods.size()
                            ? errorOf(kMethods[m], part, truth, 48000)
                            : std::abs(std::log(readings[w].pitch.value() / truth) / bench::kCent);
                    byWindow[w].byMethod[m].push_back(error);
                    if (w == 2) {
                        byOctave[octave].byMethod[m].push_back(error);
                    }
                }
            }
        }
    }
    std::printf("|error| in cents, median/95 %%\n%-16s", "");
    for (const char* method : kMethods) {
        std::printf("  %15s", method);
    }
    std::printf("  %15s\n", "quillbench");
    for (std::size_t w = 0; w < kWindows.size(); ++w) {
        byWindow[w].print(std::to_string(kWindows[w]).substr(0, 3) + " s");
    }
    for (std::size_t octave = 0; octave < byOctave.size(); ++octave) {
        const int low = static_cast<int>(41.0 * std::exp2(static_cast<double>(octave)));
        byOctave[octave].print("1 s, " + std::to_string(low) + "-" + std::to_string(2 * low) +
                               " Hz");
    }
    return 0;
}

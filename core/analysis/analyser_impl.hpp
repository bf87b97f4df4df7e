#pragma once

#include "core/analysis/analyser.hpp"
#include "core/analysis/beat_listener.hpp"
#include "core/analysis/key_recogniser.hpp"
#include "core/analysis/microphone_monitor.hpp"
#include "core/analysis/pair_ear.hpp"
#include "core/analysis/second_string.hpp"
#include "core/dsp/pluck_detector.hpp"
#include "core/dsp/string_listener.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

namespace quillbench {

namespace detail {

/// Everything happens at ticks of the sound, so that blocks do not matter.
inline constexpr double kTicksPerSecond = 120.0;

inline constexpr int kTicksPerSnapshot = 4;

/// Sound that is kept: what the recogniser and the listener want before a pluck, and its late recognition.
inline constexpr Seconds kHistory{1.6};

inline constexpr std::size_t kLevelTicks = 6;

inline constexpr std::size_t kSlowFallTicks = 36;

inline constexpr std::size_t kRecentReadings = 8;

/// The plectrum rests on the string up to this long before the next pluck: what was heard then is not used.
inline constexpr Seconds kTouch{0.025};

/// Two keys that are meant to sound together go down within this.
inline constexpr Seconds kTogether{0.5};

/// Two keys played together are told apart this long after the pluck (look 2 of the recogniser).
inline constexpr int kChordLook = 2;

inline std::uint32_t bit(Warning warning) {
    return static_cast<std::uint32_t>(warning);
}

} // namespace detail

/// What the ear is made of. analyser.cpp hears plucks one by one, analyser_pairs.cpp two strings together.
struct Analyser::Impl {
    Impl(SampleRate nominal, ClockCalibration clock)
        : rate(nominal.corrected(clock)),
          nominalRate(nominal),
          detector(nominal),
          recogniser(nominal),
          listener(rate),
          secondStrings(rate),
          pairEar(rate),
          microphone(nominal),
          beats(nominal, rate),
          tickFrames(static_cast<std::int64_t>(nominal.hz() / detail::kTicksPerSecond)),
          keep(static_cast<std::size_t>(detail::kHistory.count() * nominal.hz())) {
        history.reserve(2 * keep + static_cast<std::size_t>(tickFrames));
    }

    /// A beginning of sound of which it is not known yet whether it is a pluck.
    struct Candidate {
        FrameIndex at;
        FrameIndex steadyFrom;
        double rise = 0;
        int look = 0;
        KeyVerdict verdict;
        std::optional<StringReading> before; ///< last reading of the pluck before it
        std::optional<FrameIndex> beside;    ///< another one, too near to be known by itself
    };

    /// The last pluck.
    struct Current {
        FrameIndex at;
        std::optional<StringId> string;
        std::uint32_t warnings = 0;
        Cents range;
        double alsoSounding = 0; ///< as ListeningFor's
        bool again = false;      ///< the same string was plucked just before
        bool aloneSince = false; ///< no other string was plucked shortly before
        bool lookedForSecond = false;
        Seconds earliest{0}; ///< first reading, after the pluck
        bool listening = false;
        bool ended = false;
        bool lookedForChord = true; ///< no second key is to be looked for any more
        FrameIndex chordFrom;       ///< the recogniser's steadyFrom
        Hertz pitch;                ///< as recognised
        std::optional<StringReading> reading;
    };

    /// A string that was plucked before the last pluck.
    struct Earlier {
        ExpectedString string;
        Hertz pitch;
        FrameIndex at;
        double before = 0; ///< its own partials then, dB
    };

    [[nodiscard]] Seconds since(FrameIndex at) const { return nominalRate.duration(next - at); }

    /// Whether there is so much sound from `at` on by the true clock, in which windows are counted.
    [[nodiscard]] bool holds(FrameIndex at, Seconds sound) const {
        return rate.duration(next - at) >= sound;
    }

    [[nodiscard]] SoundBlock soundFrom(FrameIndex at) const {
        const FrameIndex from = std::max(at, historyStart);
        const auto offset = static_cast<std::size_t>((from - historyStart).value());
        return {from, std::span<const float>(history).subspan(offset), false};
    }

    void restart(FrameIndex first);
    void append(std::span<const float> samples);
    void tick();
    void onOnset(const Onset& onset);
    void lookAtCandidate();
    void confirm();
    void startListening(const ExpectedString& string);
    void read();
    void end(std::optional<StringReading> reading);
    void lookForSecondString();
    [[nodiscard]] double fallOver(std::size_t ticks) const;
    void watchLevel(std::span<const float> samples);
    void rememberEarlier();
    void pairWithSameKey(const ExpectedString& string);
    void pairWithEarlier(const ExpectedString& string);
    [[nodiscard]] std::optional<StringId> otherOfPair() const;
    [[nodiscard]] bool askedTogether(StringId one, StringId other) const;
    [[nodiscard]] std::optional<std::array<const ExpectedString*, 2>> askedPair() const;
    [[nodiscard]] bool bothSound(const ExpectedString& lower, const ExpectedString& upper) const;
    void learnLevels();
    void leavePartner();
    [[nodiscard]] bool partnerHidden(const ExpectedString& string) const;
    void pairWithOneBeside(const ExpectedString& string);
    [[nodiscard]] bool twoStringsBegan(FrameIndex one, FrameIndex other) const;
    [[nodiscard]] Decibel powerOver(FrameIndex from, FrameCount length) const;
    void lookForChord();
    void beginPair(const ExpectedString& one,
                   FrameIndex onePluck,
                   const ExpectedString& other,
                   FrameIndex otherPluck);
    void checkEarlier();
    [[nodiscard]] double ownLevel(const Earlier& of, Hertz other, FrameIndex until) const;
    [[nodiscard]] const ExpectedString* expected(StringId id) const;
    [[nodiscard]] std::optional<StringReading> readingBefore(FrameIndex at) const;
    [[nodiscard]] StringReading withWarnings(StringReading reading) const;
    [[nodiscard]] AnalysisSnapshot snapshot();

    SampleRate rate; ///< by the calibrated clock: for frequencies
    SampleRate nominalRate;
    PluckDetector detector;
    KeyRecogniser recogniser;
    StringListener listener;
    SecondStringFinder secondStrings;
    PairEar pairEar;
    MicrophoneMonitor microphone;
    BeatListener beats;
    std::int64_t tickFrames;
    std::size_t keep;

    std::shared_ptr<const AnalysisTarget> target;
    std::vector<float> history;
    FrameIndex historyStart;
    FrameIndex next;
    FrameIndex tickEnd;
    bool started = false;
    int ticksToSnapshot = detail::kTicksPerSnapshot;
    std::uint64_t snapshotsDue = 0; ///< since listening began
    bool due = false;               ///< a snapshot is to be returned

    std::optional<Candidate> candidate;
    std::optional<Current> current;
    std::optional<Earlier> former;  ///< the pluck before, while it may sound on
    std::optional<Earlier> partner; ///< the earlier string of the pair that is listened to
    Hertz partnerOf;                ///< pitch of the other one
    double mostFall = 0;            ///< dB: more, and the partner was damped
    std::uint64_t plucks = 0;
    bool damped = false;   ///< a damper ended the last pluck, or a gap: it is not known to sound on
    FrameIndex otherUntil; ///< since then one string alone was plucked, again and again
    FrameIndex begin;      ///< of the unbroken sound
    FrameIndex steadyFrom; ///< the last pluck, or the beginning of the sound
    std::array<StringReading, detail::kRecentReadings> recent{};
    std::size_t recentCount = 0;
    std::size_t recentNewest = 0;
    FixedVector<StringReading, 8> waiting; ///< finished, not yet told
    std::array<double, detail::kLevelTicks + detail::kSlowFallTicks> tickPower{};
    std::size_t levelTick = 0;
    std::uint64_t sequence = 0;
    std::uint64_t gaps = 0;
};

} // namespace quillbench

#include "app/places/practise/practise_memory.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace quillbench {

namespace {

constexpr std::array<std::string_view, kExerciseKinds> kKindWords{
    "count", "which-way", "bring-together", "leave-a-little", "compare"};
constexpr std::array<std::string_view, kPracticeIntervals> kIntervalWords{"unison",
                                                                          "four-foot",
                                                                          "octave",
                                                                          "fifth",
                                                                          "fourth",
                                                                          "major-third",
                                                                          "major-sixth",
                                                                          "minor-third",
                                                                          "minor-sixth"};
constexpr std::array<std::string_view, kPracticeSources> kSourceWords{"virtual", "bearings", "own"};
constexpr std::string_view kFromAbove = "from-above";
constexpr std::string_view kSettled = "settled";
constexpr std::int64_t kDayMs = 86400000;
constexpr std::int64_t kMinuteMs = 60000;

template <typename Kind, std::size_t Count>
std::string wordOf(const std::array<std::string_view, Count>& words, Kind kind) {
    return std::string(words[static_cast<std::size_t>(kind)]);
}

template <typename Kind, std::size_t Count>
bool meant(const std::array<std::string_view, Count>& words, std::string_view word, Kind& kind) {
    const auto found = std::find(words.begin(), words.end(), word);
    kind = static_cast<Kind>(std::distance(words.begin(), found));
    return found != words.end();
}

/// Days since 1970-01-01, before it too.
std::int64_t dayOf(const Instant& at) {
    const std::int64_t wall = at.milliseconds + at.offsetMinutes * kMinuteMs;
    return wall >= 0 ? wall / kDayMs : -((kDayMs - 1 - wall) / kDayMs);
}

std::string pathWords(const PracticeTrial& trial) {
    std::string words;
    if (trial.fromAbove) {
        words = kFromAbove;
    }
    if (trial.settled) {
        words += words.empty() ? "" : " ";
        words += kSettled;
    }
    return words;
}

} // namespace

PractiseRecord recordOf(const PracticeTrial& trial, const Note& lowerKey, const Instant& at) {
    PractiseRecord record;
    record.kind = wordOf(kKindWords, trial.kind);
    record.interval = wordOf(kIntervalWords, trial.interval);
    record.note = toAscii(lowerKey);
    record.source = wordOf(kSourceWords, trial.source);
    record.level = trial.level;
    if (isAnswered(trial.kind)) {
        record.answer = trial.right ? "right" : "wrong";
    } else {
        record.answer = "set";
        record.leftBeats = trial.leftBeats;
        record.leftCents = trial.leftCents;
        record.path = pathWords(trial);
    }
    record.beatHz = trial.beat;
    record.beatHzU = trial.beatUncertainty;
    record.at = at;
    return record;
}

std::optional<PracticeTrial> trialOf(const PractiseRecord& record) {
    PracticeTrial trial;
    const Result<Note> lowerKey = parseNote(record.note);
    const bool known = lowerKey && meant(kKindWords, record.kind, trial.kind) &&
                       meant(kIntervalWords, record.interval, trial.interval) &&
                       meant(kSourceWords, record.source, trial.source);
    const bool whole =
        known && record.level > 0.0 &&
        (isAnswered(trial.kind) ? record.answer == "right" || record.answer == "wrong"
                                : record.leftBeats.has_value() && record.leftCents.has_value());
    if (!whole) {
        return std::nullopt;
    }
    trial.day = dayOf(record.at);
    trial.earRegister = registerOf(*lowerKey);
    trial.level = record.level;
    trial.right = record.answer == "right";
    trial.leftBeats = record.leftBeats.value_or(0.0);
    trial.leftCents = record.leftCents.value_or(0.0);
    trial.fromAbove = record.path.find(kFromAbove) != std::string::npos;
    trial.settled = record.path.find(kSettled) != std::string::npos;
    trial.beat = record.beatHz;
    trial.beatUncertainty = record.beatHzU;
    return trial;
}

std::map<PracticeInterval, std::vector<SettingLeft>>
settingsByEar(const std::vector<LeftByEar>& left) {
    std::map<PracticeInterval, std::vector<SettingLeft>> settings;
    for (const LeftByEar& one : left) {
        PracticeInterval interval{};
        if (meant(kIntervalWords, one.interval, interval)) {
            settings[interval].push_back({one.session, one.left, one.uncertainty});
        }
    }
    return settings;
}

std::vector<PracticeTrial> trialsOf(std::vector<PractiseRecord> records) {
    std::stable_sort(
        records.begin(), records.end(), [](const PractiseRecord& one, const PractiseRecord& other) {
            return one.at.milliseconds < other.at.milliseconds;
        });
    std::vector<PracticeTrial> trials;
    trials.reserve(records.size());
    for (const PractiseRecord& record : records) {
        if (const auto trial = trialOf(record)) {
            trials.push_back(*trial);
        }
    }
    return trials;
}

} // namespace quillbench

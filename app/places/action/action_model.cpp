#include "app/places/action/action_model.hpp"

#include "app/text/format.hpp"
#include "core/action/pressed_key.hpp"
#include "core/dsp/stagger/resample.hpp"
#include "core/dsp/stagger/stagger_listener.hpp"
#include "core/dsp/string_listener.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace quillbench {

namespace {

constexpr Seconds kSoloBefore{0.25};
constexpr Seconds kSoloAfter{0.9};
constexpr Seconds kSoloSounds{0.04};
constexpr Seconds kAttackRoom{0.6};
constexpr Seconds kDamperWait{3.5};  // after a pluck whose end was not heard
constexpr Seconds kAfterDamper{1.0}; // of sound after a pluck that was damped
constexpr Seconds kBeforeNext{0.02};
constexpr Seconds kPressQuiet{1.2};
constexpr Seconds kStrokesQuiet{2.0};
constexpr Seconds kLongestGroup{10.0};
constexpr Seconds kGroupBefore{1.5}; // strokes too quick to be recognised are not told of
constexpr Seconds kPressBefore{0.4};
constexpr Seconds kBeforeTouch{0.05}; // no plectrum rests on its string that long
constexpr Seconds kAllSound{0.2};     // after the last pluck of a slow press that was told
constexpr int kStrokesAsked = 10;
constexpr Seconds kSameRow{5.0};
constexpr double kKnockDb = 10.0; // so much softer than the plucks of its row

double loudestOf(const RepetitionReading& reading) {
    double loudest = -300.0;
    for (const RepeatedPluck& pluck : reading.plucks) {
        loudest = std::max(loudest, pluck.level);
    }
    return loudest;
}

double ratioOf(Footage footage) {
    return std::exp2(static_cast<double>(octavesAbove(footage)));
}

} // namespace

/// Plucks that belong together: one slow press, or one key struck again and again.
struct ActionModel::Group {
    FrameIndex first;
    FrameIndex last;
    std::map<std::size_t, int> keys; ///< how often each was recognised
};

ActionModel::ActionModel(TuningModel& tuning, QObject* parent) : QObject(parent), tuning_(tuning) {
    connect(&tuning_, &TuningModel::chosen, this, &ActionModel::forgetInstrument);
    connect(&tuning_, &TuningModel::registrationChanged, this, [this] {
        dropGroup();
        damperListener_.dropAwaited();
        Q_EMIT changed();
    });
}

ActionModel::~ActionModel() = default;

void ActionModel::setSound(SoundBetween sound) {
    sound_ = std::move(sound);
}

void ActionModel::sourceChanged() {
    now_ = FrameIndex();
    dropGroup();
    damperListener_.dropAwaited();
    pluckSeen_ = 0;
    heardKey_.reset();
}

void ActionModel::forgetInstrument() {
    if (tuning_.choice().instrument == instrument_) {
        return;
    }
    instrument_ = tuning_.choice().instrument;
    sitting_.forget();
    pressListener_.forget();
    damperListener_.forget();
    sourceChanged();
    lastWords_.clear();
    Q_EMIT changed();
}

void ActionModel::choose(ActionTask task) {
    if (task == task_) {
        return;
    }
    task_ = task;
    dropGroup();
    damperListener_.dropAwaited();
    lastWords_.clear();
    Q_EMIT changed();
}

void ActionModel::setMicrophoneMoved(bool moved) {
    place_ = moved ? 1 : 0;
    Q_EMIT changed();
}

void ActionModel::beginAgain() {
    sitting_.forget(task_, registerAlone(), tuning_.registration().on.to_ullong());
    Q_EMIT changed();
}

std::vector<StaggerRow> ActionModel::rowsOn() const {
    std::vector<StaggerRow> rows;
    if (!tuning_.ready()) {
        return rows;
    }
    const Instrument& instrument = tuning_.instrument();
    const std::size_t middle = instrument.compass.keys.size() / 2;
    for (const KeyPluck& pluck :
         plucksOf(instrument, tuning_.registration(), tuning_.manual(), middle)) {
        const JackRegister& row = instrument.registers[pluck.reg];
        rows.push_back({pluck.reg, row.stagger, row.adjusters});
    }
    return rows;
}

std::optional<std::size_t> ActionModel::registerAlone() const {
    const std::vector<StaggerRow> rows = rowsOn();
    return rows.size() == 1 ? std::optional(rows.front().reg) : std::nullopt;
}

std::shared_ptr<const AnalysisTarget> ActionModel::target() const {
    auto target = std::make_shared<AnalysisTarget>();
    if (!tuning_.ready()) {
        return target;
    }
    std::vector<std::size_t> choirs;
    for (const StaggerRow& row : rowsOn()) {
        const std::size_t choir = tuning_.instrument().registers[row.reg].choir;
        if (std::find(choirs.begin(), choirs.end(), choir) == choirs.end()) {
            choirs.push_back(choir);
        }
    }
    for (const std::size_t choir : choirs) {
        for (std::size_t course = 0; course < tuning_.instrument().choirs[choir].strings.size();
             ++course) {
            const StringFacts facts = tuning_.factsOf({choir, course});
            target->strings.push_back({{choir, course}, facts.target, facts.inharmonicity});
        }
    }
    return target;
}

std::optional<std::size_t> ActionModel::keyOfCourse(std::size_t course) const {
    return keyAt(tuning_.instrument(), course, tuning_.position());
}

std::optional<std::size_t>
ActionModel::keyBy(const KeptSound& sound, FrameIndex begins, FrameIndex sounds) const {
    const std::vector<StaggerRow> rows = rowsOn();
    if (rows.empty() || sound.samples.empty() || begins < sound.first) {
        return std::nullopt;
    }
    const Instrument& instrument = tuning_.instrument();
    const auto lowest =
        std::min_element(rows.begin(), rows.end(), [&](const StaggerRow& a, const StaggerRow& b) {
            const auto footage = [&](const StaggerRow& row) {
                return instrument.choirs[instrument.registers[row.reg].choir].footage;
            };
            return octavesAbove(footage(a)) < octavesAbove(footage(b));
        });
    const std::size_t choir = instrument.registers[lowest->reg].choir;
    std::vector<KeySound> keys;
    keys.reserve(instrument.compass.keys.size());
    for (std::size_t key = 0; key < instrument.compass.keys.size(); ++key) {
        const std::size_t course = courseOf(instrument, key, tuning_.position());
        if (course < instrument.choirs[choir].strings.size()) {
            const StringFacts facts = tuning_.factsOf({choir, course});
            keys.push_back({key, facts.target, facts.inharmonicity});
        }
    }
    return keys.empty() ? std::nullopt
                        : pressedKey(sound.samples,
                                     sound.rate,
                                     sound.rate.duration(begins - sound.first),
                                     sound.rate.duration(sounds - sound.first),
                                     keys);
}

void ActionModel::hear(const StringReading& reading) {
    if (!tuning_.ready()) {
        return;
    }
    group(reading.pluck);
    if (reading.standing == Standing::Nothing) {
        if (const auto reg = registerAlone(); reg && task_ == ActionTask::Stagger) {
            keepSolo(reading, *reg);
            Q_EMIT changed();
        } else if (!group_) {
            say(tr("That was not recognised: play it again, one key alone."));
        }
        return;
    }
    const auto key = keyOfCourse(reading.string.course);
    if (!key) {
        return;
    }
    heardKey_ = key;
    if (group_) {
        ++group_->keys[*key];
    }
    const auto reg = registerAlone();
    if (!reg || tuning_.instrument().registers[*reg].choir != reading.string.choir) {
        return;
    }
    if (task_ != ActionTask::Repetition) {
        keepSolo(reading, *reg);
    }
    if (task_ == ActionTask::Evenness) {
        keepVoice(reading, *key, *reg);
    }
    if (task_ == ActionTask::Dampers) {
        awaitDamper(reading, *key, *reg);
    }
    Q_EMIT changed();
}

void ActionModel::keepSolo(const StringReading& reading, std::size_t reg) {
    if (!sound_) {
        return;
    }
    const SampleRate rate = sound_(reading.pluck, reading.pluck).rate;
    const KeptSound heard = sound_(reading.pluck - rate.frames(kSoloBefore),
                                   reading.pluck + rate.frames(std::min(kSoloAfter, reading.used)));
    if (rate.duration(FrameCount(static_cast<std::int64_t>(heard.samples.size()))) <
        kSoloBefore + Seconds(0.3)) {
        return;
    }
    // The octave of a 4′ is easily taken for another key.
    const auto key = keyBy(heard, reading.pluck, reading.pluck + rate.frames(kSoloSounds));
    if (!key) {
        return;
    }
    const std::vector<double> slow = resample(heard.samples, rate.hz(), kSoloRate);
    std::vector<float> solo(slow.size());
    std::transform(
        slow.begin(), slow.end(), solo.begin(), [](double x) { return static_cast<float>(x); });
    sitting_.setSolo(reg, *key, std::make_shared<const std::vector<float>>(std::move(solo)));
}

void ActionModel::keepVoice(const StringReading& reading, std::size_t key, std::size_t reg) {
    auto voice = voiceOf(reading);
    if (!voice) {
        say(reading.has(Warning::Clipped)
                ? tr("%1 was too loud for the microphone: move it back, play again.")
                      .arg(noteText(tuning_.instrument().compass.keys[key].note))
                : tr("%1 was too short or not clear: hold it a second.")
                      .arg(noteText(tuning_.instrument().compass.keys[key].note)));
        return;
    }
    if (sound_) {
        const SampleRate rate = sound_(reading.pluck, reading.pluck).rate;
        const KeptSound heard = sound_(reading.pluck - rate.frames(Seconds(0.05)),
                                       reading.pluck + rate.frames(kAttackRoom));
        const auto at = (reading.pluck - heard.first).value();
        if (at >= 0 && static_cast<std::size_t>(at) < heard.samples.size()) {
            voice->attack = attackNoise(heard.samples,
                                        rate,
                                        static_cast<std::size_t>(at),
                                        reading.pitch,
                                        reading.inharmonicity);
        }
    }
    sitting_.addVoice(reg, {key, place_, *voice});
    lastWords_.clear();
}

void ActionModel::advance(const AnalysisSnapshot& snapshot) {
    now_ = snapshot.upTo;
    takePresses();
    takeDampers();
    if (snapshot.pluckNumber != pluckSeen_ && snapshot.pluck) {
        pluckSeen_ = snapshot.pluckNumber;
        damperListener_.plucked(*snapshot.pluck);
        group(*snapshot.pluck);
    }
    if (group_ && snapshot.recognised) {
        if (const auto key = keyOfCourse(snapshot.recognised->course)) {
            ++group_->keys[*key];
        }
    }
    if (!sound_) {
        return;
    }
    const SampleRate rate = sound_(now_, now_).rate;
    if (group_) {
        const Seconds quiet = task_ == ActionTask::Stagger ? kPressQuiet : kStrokesQuiet;
        if (rate.duration(now_ - group_->last) > quiet ||
            rate.duration(now_ - group_->first) > kLongestGroup) {
            hearGroup();
        }
    }
    hearDampers();
}

void ActionModel::awaitDamper(const StringReading& reading, std::size_t key, std::size_t reg) {
    const SampleRate rate = sound_ ? sound_(reading.pluck, reading.pluck).rate : SampleRate();
    const bool damped = reading.used < StringListener::kLongest - Seconds(0.05);
    const Seconds until = damped ? reading.used + kAfterDamper : kDamperWait;
    damperListener_.await(
        {reading.pluck, key, reg, reading.pitch, reading.pluck + rate.frames(until), std::nullopt});
}

void ActionModel::hearDampers() {
    const SampleRate rate = sound_(now_, now_).rate;
    for (const DamperListener::Over& one : damperListener_.over(now_, rate.frames(kBeforeNext))) {
        const KeptSound heard = sound_(one.pluck.pluck - rate.frames(kSoloBefore), one.upTo);
        if (!damperListener_.listen(one, heard)) {
            say(tr("Too quick after the last: leave a second of silence after each key."));
        }
    }
}

void ActionModel::takeDampers() {
    for (const HeardDamper& damper : damperListener_.take()) {
        if (!damper.release.found && !damper.held) {
            continue; // the next key came before anything could be said
        }
        DampedPluck pluck = dampedPluck(damper.key, damper.pluck, damper.release);
        pluck.fall = damper.fall;
        sitting_.addDamper(damper.reg, pluck);
        say(damper.release.found
                ? QString()
                : tr("No damper was heard on %1: strike it short, and let go.")
                      .arg(noteText(tuning_.instrument().compass.keys[damper.key].note)));
    }
}

void ActionModel::group(FrameIndex pluck) {
    const bool grouped = (task_ == ActionTask::Stagger && rowsOn().size() > 1) ||
                         (task_ == ActionTask::Repetition && registerAlone());
    if (!grouped || pluck <= groupedUpTo_) {
        return;
    }
    if (!group_) {
        group_ = std::make_unique<Group>(Group{pluck, pluck, {}});
    }
    group_->first = std::min(group_->first, pluck);
    group_->last = std::max(group_->last, pluck);
}

void ActionModel::dropGroup() {
    group_.reset();
    strokesHeard_.reset();
    groupedUpTo_ = now_;
}

void ActionModel::hearGroup() {
    const std::unique_ptr<Group> group = std::exchange(group_, nullptr);
    const SampleRate rate = sound_(now_, now_).rate;
    const bool slow = task_ == ActionTask::Stagger;
    // What is told of this only now was part of it: a key that comes up, a last word that dates a pluck anew.
    groupedUpTo_ = group->last + rate.frames(slow ? kPressQuiet : kStrokesQuiet);
    const FrameIndex heardTo = std::min(now_, group->last + rate.frames(kStrokesQuiet));
    const KeptSound heard = sound_(group->first - rate.frames(kGroupBefore), heardTo);
    if (heard.samples.empty()) {
        return;
    }
    auto key = keyBy(heard,
                     group->first - rate.frames(kBeforeTouch),
                     slow ? group->last + rate.frames(kAllSound) : group->first);
    if (!key && !group->keys.empty()) {
        // Of octaves heard as often the lower is the key: a 4′ sounds like the key above.
        key = std::max_element(group->keys.begin(),
                               group->keys.end(),
                               [](const auto& a, const auto& b) { return a.second < b.second; })
                  ->first;
    }
    if (!key) {
        say(tr("That was not recognised: play it again, one key alone."));
        return;
    }
    heardKey_ = key;
    if (slow) {
        // Without the damper of the press before.
        hearSlowPress(*key, sound_(group->first - rate.frames(kPressBefore), heardTo));
    } else {
        hearStrokes(*key, heard);
    }
}

void ActionModel::hearSlowPress(std::size_t key, KeptSound sound) {
    const Instrument& instrument = tuning_.instrument();
    const std::size_t course = courseOf(instrument, key, tuning_.position());
    PressAsked press;
    press.key = key;
    press.on = tuning_.registration().on.to_ullong();
    press.rows = rowsOn();
    for (const StaggerRow& row : press.rows) {
        const std::size_t choir = instrument.registers[row.reg].choir;
        if (course >= instrument.choirs[choir].strings.size()) {
            return;
        }
        StaggeredChoir asked;
        asked.ratio = ratioOf(instrument.choirs[choir].footage);
        press.question.key = Hertz(tuning_.targetOf({choir, course}).value() / asked.ratio);
        if (const SoloKept solo = sitting_.solo(row.reg, key)) {
            press.solos.push_back(solo);
            asked.solo = SoloSound{*solo, SampleRate(kSoloRate)};
        }
        press.question.choirs.tryPush(asked);
    }
    pressListener_.listen(std::move(press), std::move(sound));
}

void ActionModel::takePresses() {
    for (const DecidedPress& decided : pressListener_.take()) {
        const std::size_t heard = decided.press.plucks.size();
        const QString name = noteText(tuning_.instrument().compass.keys[decided.press.key].note);
        if (heard > 0) {
            sitting_.addPress(decided.on, decided.press);
        }
        const QString counted = tr("%1: %2 of %3 plucks.").arg(name).arg(heard).arg(decided.rows);
        say(heard == 0 ? tr("No pluck was heard: press %1 again, slowly.").arg(name)
            : decided.known
                ? counted
                : tr("%1 Play it with each register alone first, then which is which is surer.")
                      .arg(counted));
    }
}

void ActionModel::waitForPresses() const {
    pressListener_.finish();
    damperListener_.finish();
}

/// A jack that hangs knocks at every further stroke: no new row of the same key.
bool ActionModel::knocksOnly(std::size_t key, const RepetitionReading& reading) const {
    if (reading.plucks.empty()) {
        return true;
    }
    const SampleRate rate = sound_(now_, now_).rate;
    return strokesHeard_ && strokesHeard_->key == key &&
           rate.duration(now_ - strokesHeard_->upTo) < kSameRow &&
           loudestOf(reading) < strokesHeard_->loudest - kKnockDb;
}

void ActionModel::hearStrokes(std::size_t key, const KeptSound& sound) {
    const auto reg = registerAlone();
    if (!reg) {
        return;
    }
    const std::size_t course = courseOf(tuning_.instrument(), key, tuning_.position());
    const StringId string{tuning_.instrument().registers[*reg].choir, course};
    const RepetitionReading reading =
        hearRepetition(sound.samples, sound.rate, tuning_.targetOf(string), kStrokesAsked);
    if (!knocksOnly(key, reading)) {
        sitting_.setRepetition(*reg, key, reading);
        strokesHeard_ = {key, now_, loudestOf(reading)};
    }
    say({});
}

void ActionModel::say(const QString& words) {
    lastWords_ = words;
    Q_EMIT changed();
}

EvennessReport ActionModel::evenness() const {
    return sitting_.evenness(registerAlone());
}

std::map<std::size_t, EvennessReport> ActionModel::otherRegisters(std::size_t reg) const {
    return sitting_.otherRegisters(reg);
}

DampingMap ActionModel::damping() const {
    return sitting_.damping(registerAlone());
}

StaggerMap ActionModel::stagger() const {
    return sitting_.stagger(tuning_.registration().on.to_ullong(), rowsOn());
}

std::map<std::size_t, RepetitionReading> ActionModel::repetition() const {
    return sitting_.repetition(registerAlone());
}

std::size_t ActionModel::keysKnownAlone() const {
    return tuning_.ready()
               ? sitting_.keysKnownAlone(rowsOn(), tuning_.instrument().compass.keys.size())
               : 0;
}

} // namespace quillbench

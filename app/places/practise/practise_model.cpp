#include "app/places/practise/practise_model.hpp"

#include "app/places/practise/practise_sound.hpp"
#include "core/practise/slow_breath.hpp"

#include <QThreadPool>
#include <algorithm>
#include <cmath>
#include <utility>

namespace quillbench {

namespace {

constexpr int kLookEveryMs = 33;
constexpr Seconds kSlowBeatSound{9.0}; // below one beat a second three crests are heard in it
constexpr Seconds kUsualSound{6.0};
constexpr double kSlowBeat = 1.0;
constexpr Seconds kCompared{2.5}; // of the first sound, then the second comes
constexpr Cents kHair{0.3};
constexpr Cents kWell{3.0};
constexpr Cents kUnknownDegree{10.0}; // before the first sound
constexpr double kLeastMoved = 0.02;  // cents: less is the rounding of a reading

} // namespace

PractiseModel::PractiseModel(PractiseSound& sound,
                             const Instrument& instrument,
                             TunedScale scale,
                             std::uint64_t seed,
                             Workshop workshop,
                             QObject* parent)
    : QObject(parent),
      sound_(sound),
      instrument_(instrument),
      scale_(std::move(scale)),
      seed_(seed),
      workshop_(std::move(workshop)) {
    timer_.setInterval(kLookEveryMs);
    connect(&timer_, &QTimer::timeout, this, &PractiseModel::look);
    sound_.setLevel(levelDb_);
}

PractiseModel::Workshop PractiseModel::threads() {
    return
        [](std::function<void()> work) { QThreadPool::globalInstance()->start(std::move(work)); };
}

void PractiseModel::setScale(const TunedScale& scale) {
    scale_ = scale;
    ahead_.reset();
    if (bearings_) {
        setPlan(true);
    } else if (exercise_) {
        ask();
    }
}

void PractiseModel::wish(const ExerciseWish& wish) {
    wish_ = wish;
    bearings_.reset();
    if (own_ && wish_.kind == ExerciseKind::Compare) {
        own_.reset(); // the program plays nothing there
        Q_EMIT targetChanged();
    }
    takeStock();
    ask();
}

bool PractiseModel::turnsPin() const {
    return wish_.kind != ExerciseKind::Count && wish_.kind != ExerciseKind::Compare;
}

void PractiseModel::ask() {
    sound_.damp();
    sound_.playInstead({});
    sound_.hearOnly(std::nullopt);
    phase_ = PractisePhase::Asked;
    sincePluck_.invalidate();
    taps_.clear();
    answered_ = BeatDirection::Unknown;
    comparing_ = false;
    compared_ = false;
    turned_ = 0.0;
    handOn_ = false;
    lettingGo_ = false;
    stands_.clear();
    path_ = {};
    partialAlone_ = false;
    slowly_ = false;
    helped_ = false;
    score_.reset();
    right_.reset();
    measured_.reset();
    job_.reset();
    pair_.reset();
    second_.reset();
    bothHeard_ = false;
    if (bearings_) {
        askStep();
        return;
    }
    prepare();
    Q_EMIT changed();
}

Seconds PractiseModel::length() const {
    const bool slow =
        exercise_ && exercise_->multiple * std::abs(exercise_->beat.perSecond()) < kSlowBeat;
    return slow ? kSlowBeatSound : kUsualSound;
}

void PractiseModel::play() {
    if (!pair_ && !(own_ && exercise_)) {
        return;
    }
    slowly_ = false;
    if (own_) {
        own_->begin();
    } else {
        sound_.play(*pair_);
        comparing_ = second_.has_value();
    }
    sincePluck_.start();
    timer_.start();
    if (phase_ != PractisePhase::Uncovered) {
        phase_ = PractisePhase::Listening;
        taps_.clear();
        turned_ = 0.0;
        handOn_ = false;
        lettingGo_ = false;
        // Of the string whose pin is turned: wide is sharp of the upper, flat of the lower.
        const double way = pair_ && pinOf(*pair_) == pair_->lower ? -1.0 : 1.0;
        stands_ = {PinStand{Cents(way * centsOf((exercise_->beat - exercise_->wanted).perSecond())),
                            false}};
    }
    Q_EMIT changed();
}

void PractiseModel::playSecond() {
    if (second_ && phase_ != PractisePhase::Asked) {
        comparing_ = false;
        bothHeard_ = true;
        sound_.play(*second_);
        sincePluck_.start();
        timer_.start();
        Q_EMIT changed();
    }
}

void PractiseModel::pluck() {
    if (own_) {
        return; // the learner plucks
    }
    if (phase_ == PractisePhase::Asked || !turnsPin() || sound_.source() == nullptr) {
        play();
        return;
    }
    slowly_ = false;
    sound_.playInstead({});
    sound_.pluckAgain();
    sincePluck_.start();
    Q_EMIT changed();
}

std::optional<Seconds> PractiseModel::sounding() const {
    if (!sincePluck_.isValid()) {
        return std::nullopt;
    }
    const Seconds since(static_cast<double>(sincePluck_.nsecsElapsed()) * 1e-9);
    return own_ ? since : since - sound_.delay();
}

void PractiseModel::tap() {
    if (const auto at = sounding()) {
        tapAt(*at);
    }
}

void PractiseModel::tapAt(Seconds at) {
    if (wish_.kind != ExerciseKind::Count || phase_ != PractisePhase::Listening || slowly_ ||
        (!taps_.empty() && at < taps_.back())) {
        return;
    }
    taps_.push_back(at);
    Q_EMIT changed();
}

std::optional<TappedRate> PractiseModel::tapped() const {
    return rateOfTaps(taps_, beatsPerTap_);
}

void PractiseModel::setBeatsPerTap(int beats) {
    if (phase_ == PractisePhase::Uncovered || beats == beatsPerTap_) {
        return;
    }
    beatsPerTap_ = std::clamp(beats, 1, 4);
    Q_EMIT changed();
}

void PractiseModel::answer(BeatDirection direction) {
    if (wish_.kind == ExerciseKind::WhichWay && phase_ == PractisePhase::Listening &&
        (direction == BeatDirection::Wide || direction == BeatDirection::Narrow)) {
        answered_ = direction;
        content();
    }
}

void PractiseModel::stepPin(PractiseStep step, int way) {
    const Cents cents = (step == PractiseStep::Hair ? kHair : kWell) * (way < 0 ? -1.0 : 1.0);
    turnPin(cents.value() / centsPerDegree().value());
}

void PractiseModel::turnPin(double degrees) {
    if (own_ || atCheck() || !turnsPin() || phase_ != PractisePhase::Listening) {
        return;
    }
    sound_.turnPin(degrees);
    turned_ += degrees;
    handOn_ = true;
    Q_EMIT changed();
}

Cents PractiseModel::centsPerDegree() const {
    return sound_.source() == nullptr ? kUnknownDegree : sound_.centsPerDegree();
}

void PractiseModel::letGo() {
    if (!turnsPin() || phase_ != PractisePhase::Listening || !handOn_) {
        return;
    }
    watchPin();
    sound_.letGo();
    handOn_ = false;
    lettingGo_ = true;
    Q_EMIT changed();
}

void PractiseModel::watchPin() {
    if (own_ || !turnsPin() || phase_ != PractisePhase::Listening || stands_.empty()) {
        return;
    }
    const StringId pin = pinOf(*pair_);
    const Hertz began = pair_->settings.pitches[pin.choir][pin.course];
    const Cents now = stands_.front().deviation + interval(began, sound_.pinRests());
    if (abs(now - stands_.back().deviation).value() > kLeastMoved || lettingGo_) {
        stands_.push_back({now, lettingGo_});
        lettingGo_ = false;
    }
}

bool PractiseModel::content() {
    if (phase_ != PractisePhase::Listening || (wish_.kind == ExerciseKind::Count && !tapped()) ||
        (wish_.kind == ExerciseKind::WhichWay && answered_ == BeatDirection::Unknown) ||
        (wish_.kind == ExerciseKind::Compare && !compared_)) {
        return false;
    }
    watchPin();
    if (bearings_) {
        leaveStep();
        return true;
    }
    phase_ = PractisePhase::Measuring;
    if (!own_ && !isAnswered(wish_.kind)) {
        PracticePair left = *pair_;
        left.settings.pitches[left.upper.choir][left.upper.course] = sound_.pinRests();
        pair_ = left;
        measureNow(left);
    }
    look();
    Q_EMIT changed();
    return true;
}

void PractiseModel::hearPartialAlone(bool alone) {
    if (!pair_ || alone == partialAlone_) {
        return;
    }
    partialAlone_ = alone;
    helped_ = helped_ || (alone && phase_ != PractisePhase::Uncovered);
    const Hertz lower = pair_->settings.pitches[pair_->lower.choir][pair_->lower.course];
    sound_.hearOnly(
        alone ? std::optional(lower * (intervalOf(pair_->interval).pair.ofLower * pair_->multiple))
              : std::nullopt);
    Q_EMIT changed();
}

/// Where the ear is sent a tone swells and sinks as the breath did.
void PractiseModel::playSlowly() {
    if (sound_.source() == nullptr) {
        return;
    }
    const Hertz lower = pair_->settings.pitches[pair_->lower.choir][pair_->lower.course];
    const Hertz heard = lower * (intervalOf(pair_->interval).pair.ofLower * pair_->multiple);
    comparing_ = false;
    sound_.hearOnly(std::nullopt);
    partialAlone_ = false;
    sound_.playInstead(
        slowBreath(measured_->breath.breath, heard, kSlowBreath, pair_->settings.sampleRate));
    sincePluck_.start();
    timer_.start();
}

void PractiseModel::showSlowly(bool slowly) {
    if (own_ || slowly == slowly_ || (slowly && (!measured_ || !pair_))) {
        return;
    }
    slowly_ = slowly;
    if (slowly) {
        playSlowly();
    } else {
        sound_.playInstead({});
        sincePluck_.invalidate();
    }
    helped_ = helped_ || (slowly && phase_ != PractisePhase::Uncovered);
    Q_EMIT changed();
}

void PractiseModel::setLevel(double decibels) {
    levelDb_ = std::clamp(decibels, kQuietestDb, kLoudestDb);
    sound_.setLevel(levelDb_);
    Q_EMIT changed();
}

void PractiseModel::enter() {
    sound_.enter();
    if (!exercise_) {
        ask();
    }
}

void PractiseModel::leave() {
    comparing_ = false;
    sound_.leave();
    sincePluck_.invalidate();
    if (!job_) {
        timer_.stop();
    }
}

void PractiseModel::setOwn(std::optional<OwnStrings> own) {
    sound_.damp();
    own_ = std::move(own);
    bearings_.reset();
    if (own_ && wish_.kind == ExerciseKind::Compare) {
        wish_.kind = ExerciseKind::Count; // the program plays nothing there
        takeStock();
    }
    ask();
    if (!own_) {
        Q_EMIT targetChanged();
    }
}

void PractiseModel::followOwn(const PairHeard& heard) {
    if (own_ && phase_ != PractisePhase::Asked && phase_ != PractisePhase::Uncovered) {
        const bool before = own_->sounding();
        own_->follow(heard);
        look();
        if (before != own_->sounding()) {
            Q_EMIT changed();
        }
    }
}

void PractiseModel::hearOwn(const PairReading& reading) {
    if (own_ && phase_ != PractisePhase::Asked && phase_ != PractisePhase::Uncovered) {
        own_->hear(reading);
        look();
        Q_EMIT changed();
    }
}

void PractiseModel::look() {
    watchPin();
    if (own_ && phase_ == PractisePhase::Measuring) {
        measured_ = own_->measured();
    }
    if (job_) {
        if (const auto done = job_->look()) {
            measured_ = done;
            job_.reset();
        }
    }
    if (phase_ == PractisePhase::Measuring && measured_) {
        uncover();
    }
    const auto at = sounding();
    if (comparing_ && at && *at > kCompared) {
        playSecond();
    } else if (!own_ && at && *at > (slowly_ ? length() / kSlowBreath : length()) &&
               (slowly_ || !turnsPin())) {
        sound_.damp();
        sincePluck_.invalidate();
        Q_EMIT changed();
    }
    if (slowly_ && sincePluck_.isValid()) {
        Q_EMIT changed(); // the picture goes on
    }
    if (!job_ && !sincePluck_.isValid()) {
        timer_.stop();
    }
}

void PractiseModel::uncover() {
    phase_ = PractisePhase::Uncovered;
    switch (wish_.kind) {
    case ExerciseKind::Count:
        judgeCount();
        break;
    case ExerciseKind::WhichWay:
        judgeDirection();
        break;
    case ExerciseKind::Compare:
        judgeComparison();
        break;
    case ExerciseKind::BringTogether:
    case ExerciseKind::LeaveALittle:
        judgeSetting();
        break;
    }
    prepareAhead();
    Q_EMIT changed();
}

/// Where the ear stands with what is wished for.
void PractiseModel::takeStock() {
    standings_ = standingsOf(trials_, wish_.kind);
    weeks_ = weeksOf(trials_, wish_.kind, wish_.interval);
    habitHere_.reset();
    habitByEar_.reset();
    if (!isAnswered(wish_.kind)) {
        habitHere_ = habitOf(settingsOf(trials_, wish_.kind, wish_.interval));
        const auto byEar = byEar_.find(wish_.interval);
        habitByEar_ = byEar == byEar_.end() ? std::nullopt : habitOf(byEar->second);
    }
}

void PractiseModel::remember(EarHistory history) {
    const bool same = history.trials.size() == before_; // the logbook is only added to
    before_ = history.trials.size();
    history.trials.insert(history.trials.end(),
                          trials_.end() - static_cast<std::ptrdiff_t>(ownTrials_),
                          trials_.end());
    trials_ = std::move(history.trials);
    byEar_ = std::move(history.byEar);
    takeStock();
    if (same) {
        Q_EMIT changed();
        return;
    }
    staircases_.clear();
    if (phase_ == PractisePhase::Asked && exercise_) {
        ask();
    } else {
        Q_EMIT changed();
    }
}

} // namespace quillbench

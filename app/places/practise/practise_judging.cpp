#include "app/places/practise/practise_model.hpp"

#include <QDate>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr std::int64_t kDayOne = 2440588; // Julian day number of 1970-01-01
constexpr double kSureTo = 0.05;          // of the rate, or
constexpr double kSureAnyway = 0.05;      // a second, at the partials that are heard
constexpr double kCountedTo = 0.10;       // of the rate: a count is right within as much
constexpr double kMistaken = 3.0;         // standard deviations

std::int64_t today() {
    return QDate::currentDate().toJulianDay() - kDayOne;
}

} // namespace

/// Of a width at the lowest partials that meet.
double PractiseModel::centsOf(double beats) const {
    const Hertz lower = pair_
                            ? pair_->settings.pitches[pair_->lower.choir][pair_->lower.course]
                            : targetPitch(instrument(), exercise_->lower, [this](const Note& note) {
                                  return scale_.pitchOf(note);
                              });
    return beats / hertzPerCent(lower * intervalOf(intervalOf(exercise_->interval)).pair.ofLower);
}

PractiseModel::Judged PractiseModel::judgedOwn() const {
    const BeatReading& reading = measured_->reading;
    const double times = exercise_->multiple;
    const bool told =
        wish_.kind == ExerciseKind::Count
            ? reading.beatUncertainty <=
                  std::max(kCountedTo * std::abs(reading.beat.perSecond()), kSureAnyway / times)
            : reading.direction != BeatDirection::Unknown;
    return Judged{
        reading.beat * times, reading.beatUncertainty * times, false, told && !reading.weak};
}

PractiseModel::Judged PractiseModel::judgedBy() const {
    if (own_) {
        return judgedOwn();
    }
    const BeatReading& reading = measured_->reading;
    const BeatRate motion = measured_->truth.value_or(exercise_->beat);
    const double rate = std::abs(motion.perSecond());
    const bool told = reading.direction != BeatDirection::Unknown;
    const BeatRate beat =
        told ? reading.beat : BeatRate(std::copysign(reading.beat.perSecond(), motion.perSecond()));
    const double times = exercise_->multiple;
    const bool sure = reading.found &&
                      reading.beatUncertainty <= std::max(kSureTo * rate, kSureAnyway / times) &&
                      std::abs((beat - motion).perSecond()) <=
                          kMistaken * reading.beatUncertainty + kSureTo * kSureAnyway;
    return sure ? Judged{beat * times, reading.beatUncertainty * times, false, true}
                : Judged{motion * times, 0.0, true, true};
}

void PractiseModel::judgeCount() {
    const auto counted = tapped();
    const Judged judged = judgedBy();
    if (!counted || !judged.sure || std::abs(judged.beat.perSecond()) <= 0.0) {
        return;
    }
    score_ = scoreCount(*counted, judged.beat, judged.uncertainty);
    if (score_->verdict == CountVerdict::OtherPartials ||
        score_->verdict == CountVerdict::TooVague) {
        return;
    }
    right_ = score_->verdict == CountVerdict::Right;
    if (helped_) {
        return;
    }
    PracticeTrial trial;
    trial.level = std::abs(judged.beat.perSecond());
    trial.right = *right_;
    keep(trial);
}

void PractiseModel::judgeDirection() {
    const Judged judged = judgedBy();
    const bool still = own_ && measured_->reading.direction == BeatDirection::Pure;
    if (!judged.sure || still) {
        return;
    }
    const bool wide = (own_ ? judged.beat : exercise_->beat) > BeatRate(0.0);
    right_ = (answered_ == BeatDirection::Wide) == wide;
    if (helped_) {
        return;
    }
    PracticeTrial trial;
    trial.level =
        own_ ? std::abs(centsOf(judged.beat.perSecond() / exercise_->multiple)) : exercise_->level;
    trial.right = *right_;
    keep(trial);
}

void PractiseModel::judgeSetting() {
    path_ = own_ ? PinPath{} : gradePath(stands_);
    if (helped_ || !judgedBy().sure) {
        return;
    }
    const BeatRate left = judgedBy().beat - exercise_->wanted * exercise_->multiple;
    PracticeTrial trial;
    trial.level = exercise_->level;
    trial.leftBeats = left.perSecond();
    trial.leftCents = centsOf(left.perSecond() / exercise_->multiple);
    trial.fromAbove = path_.fromAbove;
    trial.settled = path_.settled;
    keep(trial);
}

void PractiseModel::answerFaster(bool second) {
    if (wish_.kind == ExerciseKind::Compare && phase_ == PractisePhase::Listening && bothHeard_) {
        saidSecond_ = second;
        compared_ = true;
        content();
    }
}

void PractiseModel::judgeComparison() {
    right_ = saidSecond_ == (abs(exercise_->second) > abs(exercise_->beat));
    if (helped_) {
        return;
    }
    PracticeTrial trial;
    trial.level = exercise_->level;
    trial.right = *right_;
    keep(trial);
}

void PractiseModel::keep(const PracticeTrial& trial) {
    PracticeTrial kept = trial;
    kept.source = own_ ? PracticeSource::Own : PracticeSource::Virtual;
    kept.kind = exercise_->kind;
    const Judged judged = judgedBy();
    kept.beat = judged.beat.perSecond();
    kept.beatUncertainty = judged.uncertainty;
    const auto staircase = staircases_.find({kept.kind, exercise_->interval});
    if (staircase != staircases_.end() && !own_) {
        staircase->second.answered(kept.right);
    }
    keepAs(kept, *exercise_);
    takeStock();
}

void PractiseModel::keepAs(const PracticeTrial& trial, const Exercise& exercise) {
    PracticeTrial kept = trial;
    kept.day = today();
    kept.interval = exercise.interval;
    kept.earRegister = registerOf(exercise.lowerKey);
    trials_.push_back(kept);
    ++ownTrials_;
    Q_EMIT practised(kept, exercise.lowerKey);
}

} // namespace quillbench

#include "app/places/practise/practise_model.hpp"
#include "app/places/practise/practise_sound.hpp"

namespace quillbench {

void PractiseModel::setPlan(bool plan) {
    stepPaths_.clear();
    helpedSteps_.clear();
    if (!plan) {
        bearings_.reset();
        ask();
        return;
    }
    own_.reset();
    wish_.kind = ExerciseKind::LeaveALittle;
    bearings_.emplace(instrument_, scale_, computedPlan(scale_), ++seed_, sound_.rate());
    takeStock();
    ask();
    Q_EMIT targetChanged();
}

bool PractiseModel::atCheck() const {
    return bearings_ && !bearings_->done() && !bearings_->sets(bearings_->at());
}

/// The step of the plan as a question.
void PractiseModel::askStep() {
    exercise_.reset();
    if (!bearings_->done()) {
        exercise_ = bearings_->exercise();
        pair_ = bearings_->pair(bearings_->at());
    }
    Q_EMIT changed();
}

/// Nothing is uncovered before the end: the next step relies on this one as it was left.
void PractiseModel::leaveStep() {
    const StringId pin = pinOf(*pair_);
    const Hertz stood = pair_->settings.pitches[pin.choir][pin.course];
    bearings_->leave(sound_.source() == nullptr ? stood : sound_.pinRests());
    stepPaths_.push_back(gradePath(stands_));
    if (helped_) {
        helpedSteps_.insert(stepPaths_.size() - 1);
    }
    ask();
    if (bearings_->done()) {
        phase_ = PractisePhase::Uncovered;
        keepPlan();
        Q_EMIT changed();
        return;
    }
    play();
}

void PractiseModel::stepBack() {
    if (!bearings_ || bearings_->done() || bearings_->at() == 0) {
        return;
    }
    bearings_->back();
    stepPaths_.pop_back();
    helpedSteps_.erase(stepPaths_.size());
    ask();
    play();
}

void PractiseModel::keepPlan() {
    for (const BearingLeft& left : bearings_->left()) {
        if (!bearings_->sets(left.step) || helpedSteps_.count(left.step) > 0) {
            continue;
        }
        const Exercise exercise = bearings_->question(left.step);
        PracticeTrial trial;
        trial.source = PracticeSource::Bearings;
        trial.kind = abs(exercise.wanted) < kStillBeat ? ExerciseKind::BringTogether
                                                       : ExerciseKind::LeaveALittle;
        trial.level = exercise.level;
        trial.leftBeats = left.left.perSecond() * exercise.multiple;
        trial.leftCents = left.interval.value();
        trial.fromAbove = stepPaths_[left.step].fromAbove;
        trial.settled = stepPaths_[left.step].settled;
        trial.beat = (exercise.wanted + left.left).perSecond() * exercise.multiple;
        keepAs(trial, exercise);
    }
    takeStock();
}

} // namespace quillbench

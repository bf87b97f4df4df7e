#include "app/places/practise/practise_model.hpp"
#include "app/places/practise/practise_sound.hpp"

#include <tuple>

namespace quillbench {

namespace {

/// A sitting begins a little on the easy side of where the ear stands.
constexpr double kEasierStart = 1.25;

/// The strings take a tenth of a second to find.
QuestionMade madeOf(const Instrument& instrument,
                    const Exercise& exercise,
                    const TunedScale& scale,
                    SampleRate rate) {
    const auto pitchOfKey = [&scale](const Note& note) { return scale.pitchOf(note); };
    QuestionMade made{exercise, pairOf(instrument, exercise, pitchOfKey, rate), std::nullopt};
    if (exercise.kind == ExerciseKind::Compare) {
        Exercise second = exercise;
        second.beat = exercise.second;
        made.second = pairOf(instrument, second, pitchOfKey, rate);
    }
    return made;
}

bool isSameQuestion(const Exercise& one, const Exercise& other) {
    const auto told = [](const Exercise& exercise) {
        return std::tie(exercise.seed,
                        exercise.kind,
                        exercise.interval,
                        exercise.lower,
                        exercise.upper,
                        exercise.level,
                        exercise.beat);
    };
    return told(one) == told(other);
}

} // namespace

double PractiseModel::startLevel() const {
    const DifficultyScale scale = scaleOf(wish_.kind);
    const double easier = scale.easiest > scale.hardest ? kEasierStart : 1.0 / kEasierStart;
    for (const EarStanding& standing : standings_) {
        if (standing.interval == wish_.interval &&
            (!wish_.earRegister || standing.earRegister == *wish_.earRegister)) {
            return standing.threshold.level * easier;
        }
    }
    return scale.easiest > scale.hardest ? 2.0 * scale.usual : 0.25 * scale.usual;
}

double PractiseModel::nextLevel() {
    if (!isAnswered(wish_.kind)) {
        return scaleOf(wish_.kind).usual;
    }
    return staircases_.try_emplace({wish_.kind, wish_.interval}, scaleOf(wish_.kind), startLevel())
        .first->second.level();
}

std::optional<Exercise> PractiseModel::draw(std::uint64_t seed) {
    return drawExercise(
        instrument(),
        wish_,
        nextLevel(),
        [this](const Note& note) { return scale_.pitchOf(note); },
        seed);
}

/// Draws the next question and makes its strings.
void PractiseModel::prepare() {
    exercise_ = draw(++seed_);
    if (own_) {
        if (wish_.interval == PracticeInterval::FourFoot) {
            exercise_.reset(); // from one key the analysis does not part them
        }
        if (exercise_) {
            own_->ask(*exercise_);
            Q_EMIT targetChanged();
        }
    } else if (exercise_) {
        std::optional<QuestionMade> made = ahead_ ? ahead_->look() : std::nullopt;
        if (!made || !isSameQuestion(made->exercise, *exercise_)) {
            made = madeOf(instrument_, *exercise_, scale_, sound_.rate());
        }
        pair_ = made->pair;
        second_ = made->second;
        if (isAnswered(wish_.kind)) {
            measureNow(*pair_);
        }
    }
    ahead_.reset();
}

/// The next question, while this one is looked at: it shall sound as soon as it is asked for.
void PractiseModel::prepareAhead() {
    ahead_.reset();
    const auto next = own_ || bearings_ ? std::nullopt : draw(seed_ + 1);
    if (!next) {
        return;
    }
    ahead_ = std::make_shared<Awaited<QuestionMade>>();
    workshop_([ahead = ahead_,
               &instrument = instrument_,
               exercise = *next,
               scale = scale_,
               rate = sound_.rate()] { ahead->give(madeOf(instrument, exercise, scale, rate)); });
}

void PractiseModel::measureNow(const PracticePair& pair) {
    measured_.reset();
    job_ = std::make_shared<Awaited<PracticeMeasured>>();
    workshop_([job = job_, pair, length = length()] { job->give(measure(pair, length)); });
    timer_.start();
}

} // namespace quillbench

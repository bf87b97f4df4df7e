#pragma once

#include "app/places/practise/awaited.hpp"
#include "app/places/practise/own_strings.hpp"
#include "core/practise/habits.hpp"
#include "core/practise/pin_path.hpp"
#include "core/practise/practice_bearings.hpp"
#include "core/practise/practice_output.hpp"
#include "core/practise/practice_pair.hpp"
#include "core/practise/progress.hpp"
#include "core/practise/staircase.hpp"
#include "core/practise/tapping.hpp"
#include "core/temperament/temperament.hpp"

#include <QElapsedTimer>
#include <QObject>
#include <QTimer>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <vector>

namespace quillbench {

class PractiseSound;

/// A question with its strings.
struct QuestionMade {
    Exercise exercise;
    PracticePair pair;
    std::optional<PracticePair> second; ///< Compare: what sounds after `pair`
};

/// How far an exercise has come.
enum class PractisePhase {
    Asked,     ///< a question stands; nothing sounded yet
    Listening, ///< it sounds, the learner works
    Measuring, ///< answered; the analysis still listens
    Uncovered, ///< what was to be heard is shown
};

/// What the logbook knows of an ear.
struct EarHistory {
    std::vector<PracticeTrial> trials; ///< of before this sitting, oldest first
    std::map<PracticeInterval, std::vector<SettingLeft>>
        byEar; ///< what was left in sessions tuned by ear
};

/// The breath shown and played as a hint runs at this part of its speed.
inline constexpr double kSlowBreath = 1.0 / 3.0;

/// How far the hand turns the pin in one step, as at the virtual instrument of a session.
enum class PractiseStep { Hair, Well };

/// The place where beats are learned: one question after another, answered before anything is shown. What is played,
/// what is measured and what is true come from one PracticePair. **Thread** GUI.
class PractiseModel : public QObject {
    Q_OBJECT

public:
    /// Does work somewhere else, or here and now.
    using Workshop = std::function<void(std::function<void()>)>;

    /// `sound` must outlive this; `seed` decides all questions, the first of which is asked by enter(). **Range** the instrument has an 8′ choir.
    PractiseModel(PractiseSound& sound,
                  const Instrument& instrument,
                  TunedScale scale,
                  std::uint64_t seed,
                  Workshop workshop,
                  QObject* parent = nullptr);

    /// A workshop of threads.
    [[nodiscard]] static Workshop threads();

    /// The one that questions are about: the virtual one, or the learner's own.
    [[nodiscard]] const Instrument& instrument() const {
        return own_ ? own_->instrument() : instrument_;
    }

    /// From now on what the learner plays on an instrument is judged; nothing: back to the virtual one. A new question.
    void setOwn(std::optional<OwnStrings> own);

    [[nodiscard]] const std::optional<OwnStrings>& own() const { return own_; }

    /// A whole bearing plan of the temperament, step by step, graded at its end; false: single questions again.
    void setPlan(bool plan);

    [[nodiscard]] const std::optional<PracticeBearings>& bearings() const { return bearings_; }

    /// A step of the plan that is only listened to.
    [[nodiscard]] bool atCheck() const;

    /// How the pin came to its place in each step that was left.
    [[nodiscard]] const std::vector<PinPath>& stepPaths() const { return stepPaths_; }

    /// Back to the step before. Nothing without a plan, or after its end.
    void stepBack();

    /// Compare: the first or the second sound is said to be faster.
    void answerFaster(bool second);

    /// Compare: the second sound, before its time too. **Range** the first was played.
    void playSecond();

    /// Compare: the second one was heard to begin.
    [[nodiscard]] bool bothHeard() const { return bothHeard_; }

    [[nodiscard]] bool saidSecond() const { return saidSecond_; }

    /// Two strings of the learner's instrument: as they sound, and the last word on them.
    void followOwn(const PairHeard& heard);
    void hearOwn(const PairReading& reading);

    [[nodiscard]] const TunedScale& scale() const { return scale_; }

    /// Another temperament or pitch: a new question.
    void setScale(const TunedScale& scale);

    /// What is asked from now on: a new question. A wish that cannot be met leaves no question (exercise() empty).
    void wish(const ExerciseWish& wish);

    [[nodiscard]] const ExerciseWish& wished() const { return wish_; }

    [[nodiscard]] const std::optional<Exercise>& exercise() const { return exercise_; }

    /// The two strings of the question, as they stood when it was asked; nothing on the learner's instrument.
    [[nodiscard]] const std::optional<PracticePair>& pair() const { return pair_; }

    [[nodiscard]] PractisePhase phase() const { return phase_; }

    /// Another question of the same kind.
    void ask();

    /// The strings as they were at first, from the beginning; taps of before are forgotten.
    void play();

    /// Both strings plucked as they stand now; before the first play(): that.
    void pluck();

    /// A tap now, or `at` after the pluck was heard. Ignored unless a count is on.
    void tap();
    void tapAt(Seconds at);

    [[nodiscard]] const std::vector<Seconds>& taps() const { return taps_; }

    /// How many beats each tap stands for, 1 … 4.
    void setBeatsPerTap(int beats);

    [[nodiscard]] int beatsPerTap() const { return beatsPerTap_; }

    /// WhichWay: the answer, which uncovers. Wide or Narrow.
    void answer(BeatDirection direction);

    [[nodiscard]] BeatDirection answered() const { return answered_; }

    /// Turns the pin: way > 0 sharpens.
    void stepPin(PractiseStep step, int way);

    /// A turn of the pin by hand; positive sharpens.
    void turnPin(double degrees);

    /// What a degree does to the upper string where the pin follows.
    [[nodiscard]] Cents centsPerDegree() const;

    void letGo();

    /// Degrees since the question was asked.
    [[nodiscard]] double turned() const { return turned_; }

    /// The learner is content: what was to be heard is measured and shown. False where there is nothing to judge yet
    /// (a count of fewer than three taps, a direction that was not answered).
    bool content();

    /// Hints. An exercise with hints is not counted.
    void hearPartialAlone(bool alone);
    void showSlowly(bool slowly);

    [[nodiscard]] bool partialAlone() const { return partialAlone_; }

    [[nodiscard]] bool shownSlowly() const { return slowly_; }

    [[nodiscard]] bool helped() const { return helped_; }

    void setLevel(double decibels);

    [[nodiscard]] double level() const { return levelDb_; }

    /// Comes to the place, and leaves it.
    void enter();
    void leave();

    /// Seconds since the pluck was heard, or nothing.
    [[nodiscard]] std::optional<Seconds> sounding() const;

    /// How long the sound of a question lasts.
    [[nodiscard]] Seconds length() const;

    /// What the analysis says of the sound; while Measuring and before, where it has come already.
    [[nodiscard]] const std::optional<PracticeMeasured>& measured() const { return measured_; }

    /// The beat that answers are judged by.
    struct Judged {
        BeatRate beat; ///< where the ear is sent to listen; + = wide
        double uncertainty = 0.0;
        bool byMotion = false; ///< the analysis was not sure: by the strings' own motion
        bool sure = true;      ///< false: nothing can be judged by it
    };

    /// The measured beat, where the analysis is sure to a twentieth and not mistaken; else the true one. Of the
    /// learner's instrument nothing is true but what was measured: it is sure, or not.
    /// **Range** measured().
    [[nodiscard]] Judged judgedBy() const;

    /// Uncovered: the count's worth; what was left over (measured less wanted); how the pin came there.
    [[nodiscard]] const std::optional<CountScore>& score() const { return score_; }

    [[nodiscard]] std::optional<TappedRate> tapped() const;

    [[nodiscard]] const PinPath& path() const { return path_; }

    /// Uncovered, Count and WhichWay: nothing where it is not counted.
    [[nodiscard]] std::optional<bool> right() const { return right_; }

    /// All that was practised and counts, oldest first.
    [[nodiscard]] const std::vector<PracticeTrial>& trials() const { return trials_; }

    /// What was practised before this sitting, in the place of what was remembered. A question that nobody listened to
    /// yet is asked anew, as hard as these say.
    void remember(EarHistory history);

    [[nodiscard]] const std::vector<EarStanding>& standings() const { return standings_; }

    /// The interval that is wished for, week by week, all registers together.
    [[nodiscard]] const std::vector<WeekStanding>& weeks() const { return weeks_; }

    /// What this ear leaves of that interval: at practice, and in sessions tuned by ear. Of the kinds set by the pin.
    [[nodiscard]] const std::optional<EarHabit>& habitAtPractice() const { return habitHere_; }

    [[nodiscard]] const std::optional<EarHabit>& habitInSessions() const { return habitByEar_; }

    /// Looks at pin and measurement, as the timer does.
    void look();

Q_SIGNALS:
    void changed();
    /// The analysis should listen for something else: own()->target().
    void targetChanged();
    /// An exercise was done and counts; with the key of its lower string.
    void practised(const quillbench::PracticeTrial& trial, const quillbench::Note& lowerKey);

private:
    [[nodiscard]] bool turnsPin() const;
    void playSlowly();
    [[nodiscard]] double startLevel() const;
    void measureNow(const PracticePair& pair);
    void watchPin();
    void uncover();
    void judgeCount();
    void judgeDirection();
    void judgeSetting();
    void judgeComparison();
    void askStep();
    void leaveStep();
    void keepPlan();
    void keepAs(const PracticeTrial& trial, const Exercise& exercise);
    void prepare();
    void prepareAhead();
    [[nodiscard]] double nextLevel();
    [[nodiscard]] std::optional<Exercise> draw(std::uint64_t seed);
    [[nodiscard]] Judged judgedOwn() const;
    [[nodiscard]] double centsOf(double beats) const;
    void keep(const PracticeTrial& trial);
    void takeStock();

    PractiseSound& sound_;
    const Instrument& instrument_;
    TunedScale scale_;
    std::uint64_t seed_;
    Workshop workshop_;
    ExerciseWish wish_;
    std::optional<Exercise> exercise_;
    std::optional<OwnStrings> own_;
    std::optional<PracticeBearings> bearings_;
    std::vector<PinPath> stepPaths_;
    std::set<std::size_t> helpedSteps_;  ///< with a hint: not counted
    std::optional<PracticePair> second_; ///< Compare: what sounds after pair_
    std::shared_ptr<Awaited<QuestionMade>> ahead_;
    bool bothHeard_ = false;
    bool saidSecond_ = false;
    bool compared_ = false;  ///< it was said
    bool comparing_ = false; ///< the second sound is to come
    std::optional<PracticePair> pair_;
    PractisePhase phase_ = PractisePhase::Asked;
    std::shared_ptr<Awaited<PracticeMeasured>> job_;
    std::optional<PracticeMeasured> measured_;
    QTimer timer_;
    QElapsedTimer sincePluck_;
    std::vector<Seconds> taps_;
    int beatsPerTap_ = 1;
    BeatDirection answered_ = BeatDirection::Unknown;
    double turned_ = 0.0;
    bool handOn_ = false;
    bool lettingGo_ = false;
    std::vector<PinStand> stands_;
    PinPath path_;
    bool partialAlone_ = false;
    bool slowly_ = false;
    bool helped_ = false;
    double levelDb_ = kQuietStartDb;
    std::optional<CountScore> score_;
    std::optional<bool> right_;
    std::vector<PracticeTrial> trials_;
    std::size_t before_ = 0;    ///< so many of them are of before this sitting,
    std::size_t ownTrials_ = 0; ///< and so many of it
    std::map<PracticeInterval, std::vector<SettingLeft>> byEar_;
    std::vector<EarStanding> standings_;
    std::vector<WeekStanding> weeks_;
    std::optional<EarHabit> habitHere_;
    std::optional<EarHabit> habitByEar_;
    std::map<std::pair<ExerciseKind, PracticeInterval>, Staircase> staircases_;
};

} // namespace quillbench

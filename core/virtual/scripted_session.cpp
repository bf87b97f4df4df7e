#include "core/virtual/scripted_session.hpp"

#include "core/support/contract.hpp"
#include "core/support/median.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace quillbench {

namespace {

constexpr Seconds kBetweenPlucks{0.25}; ///< the hand moves to the hammer, or rests
constexpr Seconds kKeyDown{2.4};
constexpr Seconds kSweepKeyDown{0.7};
constexpr Seconds kAfterRelease{0.1};
constexpr Seconds kPatience{3.0};    ///< for the last word on a pluck
constexpr Seconds kLatestPluck{0.3}; ///< after the key went down
constexpr Cents kFarFromTarget{5.0};
/// A pin that followed by less than this part of what was asked wants more.
constexpr double kStuck = 0.4;
constexpr double kMostStiff = 12.0;
/// A pin that sticks is helped by so much at the most: it may let go at once.
constexpr double kMostHelpDegrees = 0.1;
/// Whether a pin followed is told from moves that stand out of the readings' noise by so much.
constexpr double kAboveNoise = 1.5;
/// Nearer than this two readings are one: numbers written and read again.
constexpr Cents kSameReading{1e-9};

SampleRate rateOf(const ScriptedSettings& settings) {
    return settings.instrument.sampleRate;
}

} // namespace

ScriptedSession::ScriptedSession(const Instrument& instrument,
                                 TuningPlan plan,
                                 ScriptedSettings settings)
    : instrument_(instrument),
      settings_(std::move(settings)),
      plan_(std::make_shared<const TuningPlan>(std::move(plan))),
      history_(begin(plan_)),
      virtual_(instrument, settings_.instrument),
      analyser_(rateOf(settings_), ClockCalibration{}),
      player_(settings_.seed, settings_.spread),
      ear_(settings_.seed),
      hand_(settings_.seed) {
    for (const TuningStep& step : plan_->steps) {
        if (step.work == StepWork::Set) {
            strings_.push_back({step.string, step.facts.target, step.facts.inharmonicity});
            before_[step.string] = virtual_.restPitch(step.string);
        }
    }
}

void ScriptedSession::happen(const SessionEvent& event) {
    const bool heard =
        std::holds_alternative<Heard>(event.what) || std::holds_alternative<HeardPair>(event.what);
    touches_ += heard ? 0U : 1U;
    history_.apply(event);
    if (settings_.keep) {
        settings_.keep(event);
    }
}

Seconds ScriptedSession::playing() const {
    return rateOf(settings_).duration(virtual_.now() - FrameIndex(0));
}

bool ScriptedSession::hasFalseBeat(StringId string) const {
    const auto& faults = settings_.instrument.faults;
    return std::any_of(faults.begin(), faults.end(), [string](const StringFault& fault) {
        return fault.kind == StringFault::Kind::FalseBeat && fault.string == string;
    });
}

bool ScriptedSession::run(const std::function<void(const ScriptedSession&)>& after) {
    while (plucks_ < settings_.mostPlucks) {
        const auto asked = session().asked();
        if (!asked) {
            return true;
        }
        const bool bearings = plan_->steps[*asked].phase <= Phase::Bearings;
        if (settings_.byEar && (session().way == Way::ByEar) == bearings) {
            happen(GoBy{bearings ? Way::ByMeter : Way::ByEar});
        }
        const Guidance guidance = guide(session());
        if (guidance.ask == Ask::AsNear) {
            happen(Accept{});
            continue;
        }
        if (guidance.ask == Ask::RepeatChoir) {
            happen(SecondPass{});
            ++secondPasses_;
            continue;
        }
        if (lookAtNeighbour_) {
            // Whoever was told that the hammer sat on another pin plays that string too.
            lookAtNeighbour_ = false;
            const StringId neighbour{plan_->steps[*asked].string.choir,
                                     plan_->steps[*asked].string.course - 1};
            const auto step = plan_->stepOf(neighbour);
            if (step) {
                happen(GoTo{*step, virtual_.now()});
            }
            play(step.value_or(*asked), neighbour);
        } else if (guidance.referenceFirst && wantsReference(*asked)) {
            play(*asked, plan_->steps[*asked].pair->against);
        } else if (session().covered(*asked)) {
            workByEar(*asked, guidance);
            playPair(*asked);
            judgeByEar(*asked);
        } else {
            work(*asked, guidance);
            play(*asked, session().stringToPlay(*asked));
            feel(*asked);
        }
        mishaps();
        if (after) {
            after(*this);
        }
    }
    return !session().asked();
}

/// Whoever is asked for the other string again and again stops listening to that.
bool ScriptedSession::wantsReference(std::size_t step) {
    constexpr std::size_t kMostTimes = 4;
    if (referenceOf_ != step) {
        referenceOf_ = step;
        referencePlayed_ = 0;
    }
    return ++referencePlayed_ <= kMostTimes;
}

void ScriptedSession::command(VirtualCommand what) {
    what.at = virtual_.now();
    virtual_.apply(what);
}

void ScriptedSession::draw(const Drawing& drawing) {
    if (drawn_ == drawing) {
        return;
    }
    for (std::size_t row = 0; row < instrument_.registers.size(); ++row) {
        VirtualCommand what;
        what.kind = drawing.registration.on[row] ? VirtualCommand::Kind::RegisterOn
                                                 : VirtualCommand::Kind::RegisterOff;
        what.reg = row;
        command(what);
    }
    for (std::size_t choir = 0; choir < instrument_.choirs.size(); ++choir) {
        VirtualCommand what;
        const bool felt =
            std::find(drawing.felt.begin(), drawing.felt.end(), choir) != drawing.felt.end();
        what.kind = felt ? VirtualCommand::Kind::LayFelt : VirtualCommand::Kind::TakeFelt;
        what.string.choir = choir;
        command(what);
    }
    VirtualCommand what;
    what.kind = drawing.registration.coupled ? VirtualCommand::Kind::Couple
                                             : VirtualCommand::Kind::Uncouple;
    command(what);
    drawn_ = drawing;
}

void ScriptedSession::comeTo(std::size_t step, const Guidance& guidance) {
    asked_.reset();
    if (guidance.ask == Ask::NotMoving || guidance.ask == Ask::OtherMoved) {
        ++guardStops_;
        if (onWrongPin_) {
            onWrongPin_ = false;
            lookAtNeighbour_ = true;
            wrongPinPlucks_ = plucksOf_[step];
        }
        stiff_ = std::min(2.0 * stiff_, kMostStiff);
    }
    if (guidance.step == step && plan_->steps[step].setsString() && atPin_ != step) {
        atPin_ = step;
        handTime_ += kFindPin;
        stiff_ = 1.0;
        turnedHere_ = false;
        onWrongPin_ = false;
    }
}

void ScriptedSession::work(std::size_t step, const Guidance& guidance) {
    comeTo(step, guidance);
    if (guidance.step != step || !plan_->steps[step].setsString()) {
        return;
    }
    // What was not heard well is played again before anything is moved.
    if (const auto degrees =
            guidance.hearing == Hearing::Good ? player_.turn(guidance) : std::nullopt) {
        turn(step, *degrees);
    }
}

void ScriptedSession::turn(std::size_t step, Degree degrees) {
    const TuningStep& one = plan_->steps[step];
    handTime_ += kTurn;
    if (!turnedHere_) {
        turnedHere_ = true;
        onWrongPin_ = wrongPinNow(step);
    }
    StringId pin = one.string;
    if (onWrongPin_) {
        --pin.course;
    }
    VirtualCommand what;
    what.kind = VirtualCommand::Kind::TurnPin;
    what.string = pin;
    // The hand feels where the pin begins to follow: half the play away, after it was let go.
    const double asked =
        degrees.value() + std::copysign(0.5 * settings_.instrument.pins.backlash, degrees.value());
    what.amount = std::clamp(asked * stiff_, asked - kMostHelpDegrees, asked + kMostHelpDegrees);
    command(what);
    what.amount = 0.0;
    command(what);
    asked_ = degrees.value();
    if (*asked_ > 0.0) {
        highest_ = std::max(highest_, interval(one.facts.target, virtual_.restPitch(one.string)));
    }
}

bool ScriptedSession::wrongPinNow(std::size_t step) const {
    const auto& from = settings_.mishaps.wrongPin;
    const std::vector<Mark>& marks = session().progress[step].marks;
    return from && step >= *from && !wrongPinPlucks_ && plan_->steps[step].string.course > 0 &&
           !marks.empty() && marks.back().good && abs(marks.back().deviation) > kFarFromTarget;
}

void ScriptedSession::feel(std::size_t step) {
    const auto& marks = session().progress[step].marks;
    const auto& perDegree = plan_->steps[step].facts.centsPerDegree;
    if (!asked_ || marks.size() < 2 || !perDegree || session().hearing != Hearing::Good) {
        return;
    }
    const Mark& before = marks[marks.size() - 2];
    const double wanted = *asked_ * *perDegree;
    const double noise = std::hypot(before.uncertainty.value(), marks.back().uncertainty.value());
    if (std::abs(wanted) < kAboveNoise * noise) {
        return;
    }
    const double moved = (marks.back().deviation - before.deviation).value();
    const double followed = moved / wanted;
    if (followed < kStuck) {
        stiff_ = std::min(1.6 * stiff_, kMostStiff);
    } else if (followed > 1.3) {
        stiff_ = std::max(0.5, stiff_ / 1.5);
    }
}

void ScriptedSession::play(std::size_t step, StringId string) {
    const TuningStep& one = plan_->steps[step];
    const Drawing& drawing = session().drawingOf(step);
    draw(drawing);
    listensToPair_ = false;
    analyser_.setTarget(std::make_shared<const AnalysisTarget>(listenFor(session(), strings_)));
    hear(kBetweenPlucks);
    playedAt_ = virtual_.now();
    heard_ = false;
    const std::size_t reopenedBefore = session().countOf(StepState::Settled);
    VirtualCommand what;
    const auto key = keyAt(instrument_, string.course, settings_.instrument.position);
    // A string that no key reaches where the keyboard stands is plucked by hand.
    const bool byKey = key && drawing.registration.position == settings_.instrument.position;
    what.kind = byKey ? VirtualCommand::Kind::KeyDown : VirtualCommand::Kind::PluckString;
    what.manual = drawing.manual;
    what.key = key.value_or(one.key);
    what.string = string;
    command(what);
    hear(one.work == StepWork::Sweep ? kSweepKeyDown : kKeyDown);
    what.kind = byKey ? VirtualCommand::Kind::KeyUp : VirtualCommand::Kind::DampString;
    command(what);
    waitForWord();
    countPluck(step);
    reopened_ += session().countOf(StepState::Settled) < reopenedBefore ? 1U : 0U;
    while (virtual_.takePluck()) {
    }
}

/// The hand does nothing before what was played has been read.
void ScriptedSession::waitForWord() {
    const FrameIndex patienceEnds = virtual_.now() + rateOf(settings_).frames(kPatience);
    do {
        hear(kAfterRelease);
    } while (!heard_ && virtual_.now() < patienceEnds);
}

void ScriptedSession::countPluck(std::size_t step) {
    ++plucks_;
    ++plucksOf_[step];
}

void ScriptedSession::hear(Seconds time) {
    std::array<float, 256> block{};
    const FrameIndex end = virtual_.now() + rateOf(settings_).frames(time);
    while (virtual_.now() < end) {
        const FrameIndex first = virtual_.now();
        virtual_.render(block);
        if (const auto snapshot = analyser_.push({first, block, false})) {
            take(*snapshot);
        }
    }
}

void ScriptedSession::take(const AnalysisSnapshot& snapshot) {
    if (snapshot.finished) {
        // A knock before or after the pluck is heard as well, and is not what was waited for.
        const FrameCount late = snapshot.finished->pluck - playedAt_;
        heard_ = heard_ || (!listensToPair_ && late >= FrameCount(0) &&
                            late < rateOf(settings_).frames(kLatestPluck));
        happen(Heard{*snapshot.finished,
                     snapshot.finished->deviationUncertainty,
                     rateOf(settings_).duration(snapshot.finished->pluck - FrameIndex(0))});
    }
    if (snapshot.finishedPair && !snapshot.finishedPair->moving) {
        heard_ = true;
        happen(heardPair(*snapshot.finishedPair,
                         rateOf(settings_).duration(snapshot.finishedPair->pluck - FrameIndex(0))));
    }
}

void ScriptedSession::slip(StringId string) {
    slipped_ = true;
    VirtualCommand what;
    what.kind = VirtualCommand::Kind::TurnPin;
    what.string = string;
    what.amount = -(settings_.mishaps.slipBy / virtual_.centsPerDegree(string).value()).value() -
                  settings_.instrument.pins.backlash;
    command(what);
    what.amount = 0.0;
    command(what);
}

/// Only the events survive; what was known is made again from them.
void ScriptedSession::cutPower() {
    const Session before = session();
    const std::vector<SessionEvent> events =
        settings_.takeUp ? settings_.takeUp() : history_.events();
    history_ = replay(begin(plan_), events);
    analyser_ = Analyser(rateOf(settings_), ClockCalibration{});
    drawn_.reset();
    atPin_.reset();
    const Session& now = session();
    bool same = now.current == before.current && now.decisions == before.decisions;
    for (std::size_t i = 0; same && i < now.progress.size(); ++i) {
        const StepProgress& step = now.progress[i];
        const StepProgress& stood = before.progress[i];
        same = step.state == stood.state && step.marks.size() == stood.marks.size() &&
               step.kept.has_value() == stood.kept.has_value() &&
               (!step.kept || abs(step.kept->deviation - stood.kept->deviation) < kSameReading);
    }
    tookUpWhole_ = same;
}

void ScriptedSession::mishaps() {
    const ScriptedMishaps& planned = settings_.mishaps;
    if (planned.slips && !slipped_) {
        const auto step = plan_->stepOf(*planned.slips);
        if (step && session().progress[*step].state == StepState::Settled) {
            slip(*planned.slips);
        }
    }
    if (planned.powerCut == plucks_) {
        cutPower();
    }
}

/// Plucks the strings unheard, one after the other.
std::vector<PluckRecord> ScriptedSession::pluckUnheard(std::span<const StringId> strings,
                                                       int blocksApart) {
    for (std::size_t i = 0; i < strings.size(); ++i) {
        rest(i > 0 ? blocksApart : 0);
        VirtualCommand what;
        what.kind = VirtualCommand::Kind::PluckString;
        what.string = strings[i];
        command(what);
    }
    rest(8); // past the plectrum's rest on the string
    std::vector<PluckRecord> plucked;
    while (const auto pluck = virtual_.takePluck()) {
        plucked.push_back(*pluck);
    }
    EXPECTS(plucked.size() == strings.size());
    return plucked;
}

/// Time passes unheard.
void ScriptedSession::rest(int blocks) {
    std::array<float, 256> block{};
    for (int i = 0; i < blocks; ++i) {
        virtual_.render(block);
    }
}

void ScriptedSession::damp() {
    VirtualCommand what;
    what.kind = VirtualCommand::Kind::DampAll;
    command(what);
    rest(250);
    while (virtual_.takePluck()) {
    }
}

/// Both strings of a pair as they are played, one first or the other: by one key as registers are staggered, up to 0.04 s
/// apart, by two keys up to 0.16 s.
void ScriptedSession::judge(const TuningStep& step, JudgedString& one) {
    constexpr int kJudgingPlucks = 9;
    const bool oneKey = step.pair && step.pair->key == step.key;
    const int pause = oneKey ? 2 : 7; // blocks: 11 or 37 ms
    std::vector<double> pitches;
    std::vector<double> widths;
    std::vector<double> beats;
    for (int i = 0; i < kJudgingPlucks; ++i) {
        std::vector<StringId> strings{step.string};
        if (step.pair) {
            strings.insert(i % 2 == 0 ? strings.end() : strings.begin(), step.pair->against);
        }
        const auto plucked = pluckUnheard(strings, pause * (i / 2));
        const auto pluckOf = [&plucked](StringId string) -> const PluckRecord& {
            return *std::find_if(
                plucked.begin(), plucked.end(), [string](const PluckRecord& pluck) {
                    return pluck.string == string;
                });
        };
        const PluckRecord& own = pluckOf(step.string);
        pitches.push_back(interval(step.facts.target, virtual_.truth(own).sustain).value());
        if (step.pair) {
            const PluckRecord& other = pluckOf(step.pair->against);
            const PluckRecord& lower = step.pair->tunedIsUpper ? other : own;
            const PluckRecord& upper = step.pair->tunedIsUpper ? own : other;
            if (const auto meeting = virtual_.coincidentPair(
                    lower, step.pair->pair.ofLower, upper, step.pair->pair.ofUpper)) {
                widths.push_back((meeting->width() - step.pair->width).value());
                beats.push_back((meeting->beat() - step.pair->beat).perSecond());
            }
        }
        damp();
    }
    one.after = Cents(medianOf(pitches));
    if (!widths.empty()) {
        const auto [least, most] = std::minmax_element(widths.begin(), widths.end());
        one.pairRange = Cents(*most - *least);
        one.pairWidth = Cents(medianOf(widths));
        one.pairBeat = BeatRate(medianOf(beats));
    }
}

std::vector<JudgedString> ScriptedSession::judge() {
    std::vector<JudgedString> judged;
    damp();
    for (std::size_t i = 0; i < plan_->steps.size(); ++i) {
        const TuningStep& step = plan_->steps[i];
        if (step.work != StepWork::Set) {
            continue;
        }
        JudgedString one;
        one.step = i;
        one.before = interval(step.facts.target, before_.at(step.string));
        one.plucks = plucksOf_[i];
        judge(step, one);
        judged.push_back(one);
    }
    return judged;
}

} // namespace quillbench

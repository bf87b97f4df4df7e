#include "core/workflow/plan_builder.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace quillbench::detail {

namespace {

constexpr double kSamePitchCents = 0.01;
/// Faster beats are roughness and compare badly ([Houtsma1987]: easily heard below 10 a second).
constexpr double kFastestCompared = 10.0;

/// A test of an octave: a third key at `semitones` from its lower end; both intervals feel alike when the octave is
/// pure at the pair named. **Source** identities of partials; wording common practice, no source.
struct OctaveTest {
    int semitones;
    IntervalKind withLower;
    IntervalKind withUpper;
};

constexpr std::array kTests{
    OctaveTest{-4, IntervalKind::MajorThird, IntervalKind::Tenth},     // 4:2
    OctaveTest{3, IntervalKind::MinorThird, IntervalKind::MajorSixth}, // 6:3
    OctaveTest{5, IntervalKind::Fourth, IntervalKind::Fifth},          // 4:2
    OctaveTest{7, IntervalKind::Fifth, IntervalKind::Fourth}};         // 6:3

std::optional<IntervalCheck> checkBetween(
    const PlanBuilder& builder, StringId a, StringId b, IntervalKind kind, StringId beingSet) {
    const auto ready = [&](StringId string) { return string == beingSet || builder.isSet(string); };
    if (!ready(a) || !ready(b)) {
        return std::nullopt;
    }
    const Hertz ha = builder.facts(a).target;
    const Hertz hb = builder.facts(b).target;
    IntervalCheck check{ha <= hb ? a : b, ha <= hb ? b : a, kind, {}};
    check.beat = beatRate(kind, std::min(ha, hb), std::max(ha, hb));
    return check;
}

/// The slowest test whose keys are there and set, two intervals; empty where none can be compared.
std::vector<IntervalCheck>
checksOf(const PlanBuilder& builder, StringId lower, StringId upper, StringId beingSet) {
    const Instrument& instrument = builder.instrument();
    const int position = builder.options().position;
    const Note low = keyNote(instrument, lower, position);
    std::vector<IntervalCheck> best;
    double slowest = kFastestCompared;
    for (const OctaveTest& test : kTests) {
        for (std::size_t key = 0; key < instrument.compass.keys.size(); ++key) {
            if (instrument.compass.keys[key].note.midiNumber() !=
                low.midiNumber() + test.semitones) {
                continue;
            }
            const StringId third{lower.choir, courseOf(instrument, key, position)};
            const auto a = checkBetween(builder, lower, third, test.withLower, beingSet);
            const auto b = checkBetween(builder, third, upper, test.withUpper, beingSet);
            const double speed =
                a && b ? std::max(std::abs(a->beat.perSecond()), std::abs(b->beat.perSecond()))
                       : kFastestCompared;
            if (speed < slowest) {
                slowest = speed;
                best = {*a, *b};
            }
        }
    }
    return best;
}

/// The string an octave away, of the very same note, that is set already.
std::optional<StringId> octavePartner(const PlanBuilder& builder, StringId string, int position) {
    const Hertz target = builder.facts(string).target;
    const auto& strings = builder.instrument().choirs[string.choir].strings;
    for (std::size_t course = 0; course < strings.size(); ++course) {
        const StringId other{string.choir, course};
        if (!builder.isSet(other) || !keyAt(builder.instrument(), course, position)) {
            continue;
        }
        const double away = std::abs(interval(target, builder.facts(other).target).value());
        if (std::abs(away - 1200.0) < kSamePitchCents) {
            return other;
        }
    }
    return std::nullopt;
}

void addByOctave(PlanBuilder& builder, StringId string) {
    TuningStep step = builder.stepFor(string, Phase::Outward, StepWork::Set);
    const int position = step.alone.registration.position;
    if (const auto partner = octavePartner(builder, string, position)) {
        step.pair = builder.aimAt(step, *partner, IntervalKind::Octave, BeatRate(0.0));
        step.pair->measured = true;
        if (position == builder.options().position) {
            const bool upper = step.pair->tunedIsUpper;
            step.checks =
                checksOf(builder, upper ? *partner : string, upper ? string : *partner, string);
        }
    }
    builder.add(std::move(step));
}

/// Courses of the reference that are not set yet, in the order wanted.
std::vector<std::size_t> outwardOrder(const PlanBuilder& builder) {
    const std::size_t choir = builder.options().reference;
    const std::size_t count = builder.instrument().choirs[choir].strings.size();
    std::vector<std::size_t> inside;
    std::vector<std::size_t> below;
    std::vector<std::size_t> above;
    const int low = builder.options().bearingsFrom.midiNumber();
    for (std::size_t course = 0; course < count; ++course) {
        const StringId string{choir, course};
        if (builder.isSetForGood(string) || !builder.reachOf(string)) {
            continue;
        }
        const int midi =
            keyNote(builder.instrument(), string, builder.options().position).midiNumber();
        (midi < low ? below : midi > low + 12 ? above : inside).push_back(course);
    }
    std::reverse(below.begin(), below.end());
    std::vector<std::size_t> order = inside;
    const auto append = [&](const std::vector<std::size_t>& part) {
        order.insert(order.end(), part.begin(), part.end());
    };
    switch (builder.options().outward) {
    case Outward::DownThenUp:
        append(below);
        append(above);
        break;
    case Outward::UpThenDown:
        append(above);
        append(below);
        break;
    case Outward::ByTurns:
        for (std::size_t i = 0; i < std::max(below.size(), above.size()); ++i) {
            if (i < below.size()) {
                order.push_back(below[i]);
            }
            if (i < above.size()) {
                order.push_back(above[i]);
            }
        }
        break;
    }
    return order;
}

Phase phaseOf(Footage footage) {
    switch (footage) {
    case Footage::Four:
        return Phase::FourFoot;
    case Footage::Sixteen:
        return Phase::SixteenFoot;
    case Footage::Eight:
        break;
    }
    return Phase::Unison;
}

std::optional<IntervalKind> intervalAcross(int octaves) {
    switch (std::abs(octaves)) {
    case 0:
        return IntervalKind::Unison;
    case 1:
        return IntervalKind::Octave;
    case 2:
        return IntervalKind::Fifteenth;
    default:
        return std::nullopt;
    }
}

/// The choir to tune another one to: one that sounds with it from one key at the least trouble, nearest in pitch.
std::size_t partnerChoir(const PlanBuilder& builder, std::size_t choir) {
    const Instrument& instrument = builder.instrument();
    std::optional<std::size_t> best;
    int least = 0;
    for (const std::size_t other : builder.choirsInOrder()) {
        if (other == choir) {
            break; // those after it are not set yet
        }
        const int octaves = octavesAbove(instrument.choirs[choir].footage) -
                            octavesAbove(instrument.choirs[other].footage);
        const int trouble =
            troubleOf(drawingFor(instrument, {other, choir}, builder.options().position)) +
            1000 * std::max(0, std::abs(octaves) - 1);
        if (!best || trouble < least) {
            best = other;
            least = trouble;
        }
    }
    return *best;
}

} // namespace

void addOutward(PlanBuilder& builder) {
    for (const std::size_t course : outwardOrder(builder)) {
        addByOctave(builder, {builder.options().reference, course});
    }
}

void addChoir(PlanBuilder& builder, std::size_t choir) {
    const Instrument& instrument = builder.instrument();
    const std::size_t other = partnerChoir(builder, choir);
    const auto kind = intervalAcross(octavesAbove(instrument.choirs[choir].footage) -
                                     octavesAbove(instrument.choirs[other].footage));
    std::vector<std::size_t> courses = builder.coursesInOrder();
    for (std::size_t course = 0; course < instrument.choirs[choir].strings.size(); ++course) {
        if (std::find(courses.begin(), courses.end(), course) == courses.end()) {
            courses.push_back(course); // the reference has no string there
        }
    }
    for (const std::size_t course : courses) {
        const StringId string{choir, course};
        if (course >= instrument.choirs[choir].strings.size() || !builder.reachOf(string)) {
            continue;
        }
        TuningStep step =
            builder.stepFor(string, phaseOf(instrument.choirs[choir].footage), StepWork::Set);
        const StringId against{other, course};
        if (kind && builder.isSetForGood(against)) {
            step.pair = builder.aimAt(step, against, *kind, BeatRate(0.0));
            step.pair->measured = true;
            step.together = builder.quietened(
                drawingFor(instrument, {other, choir}, step.alone.registration.position));
        }
        builder.add(std::move(step));
    }
}

} // namespace quillbench::detail

#include "core/support/random.hpp"
#include "core/temperament/bearings.hpp"
#include "core/temperament/beat_table.hpp"
#include "core/temperament/catalogue.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>
#include <set>

using namespace quillbench;

namespace {

TunedScale tuned(const std::string& id, double a4Hz = 415.0) {
    const Temperament* found = findTemperament(id);
    INFO(id);
    REQUIRE(found != nullptr);
    return {*found, ReferencePitch{Hertz(a4Hz)}};
}

struct Followed {
    std::map<std::string, double> hz; ///< where each note ends up
    std::set<std::string> temporary;  ///< notes that were left uncorrected
    double worstSecond = 0; ///< how far the second interval of a share was from what was said
    double fastest = 0;     ///< of the tuning steps
};

/// A tuner who does exactly what the plan says, by the beats alone, and refuses to use what is not set.
Followed follow(const BearingPlan& plan, const TunedScale& scale) {
    Followed result;
    const auto pitchOfSet = [&](const Note& note) {
        const auto found = result.hz.find(toAscii(note));
        INFO(plan.id << ": " << toAscii(note) << " is used before it is set");
        REQUIRE(found != result.hz.end());
        return Hertz(found->second);
    };
    for (const BearingStep& step : plan.steps) {
        INFO(plan.id << ": " << inWords(step));
        const std::string name = toAscii(step.tune);
        const bool above = step.tune.midiNumber() >= step.against.midiNumber();
        if (step.fromStandard) {
            result.hz[name] = scale.pitchOf(step.tune).value();
            continue;
        }
        const Hertz against = pitchOfSet(step.against);
        if (step.kind == StepKind::Check) {
            const Hertz own = pitchOfSet(step.tune);
            CHECK(result.temporary.count(name) == 0);
            CHECK(result.temporary.count(toAscii(step.against)) == 0);
            const BeatRate heard = above ? beatRate(step.interval, against, own)
                                         : beatRate(step.interval, own, against);
            CHECK(heard.perSecond() == Approx(step.beat.perSecond()).margin(1e-6));
            continue;
        }
        const Hertz pitch = above ? upperAtBeat(step.interval, against, step.beat)
                                  : lowerAtBeat(step.interval, against, step.beat);
        CHECK(pitch.value() == Approx(step.pitch.value()).epsilon(1e-12));
        result.fastest = std::max(result.fastest, std::abs(step.beat.perSecond()));
        CHECK((step.kind == StepKind::Share) == step.alike.has_value());
        if (step.alike) {
            const Hertz with = pitchOfSet(step.alike->with);
            const bool over = step.tune.midiNumber() >= step.alike->with.midiNumber();
            const BeatRate heard = over ? beatRate(step.alike->interval, with, pitch)
                                        : beatRate(step.alike->interval, pitch, with);
            result.worstSecond = std::max(
                result.worstSecond, std::abs(heard.perSecond() - step.alike->beat.perSecond()));
            result.fastest = std::max(result.fastest, std::abs(step.alike->beat.perSecond()));
        }
        if (step.kind == StepKind::Temporary) {
            CHECK(step.beat == BeatRate(0.0));
            result.temporary.insert(name);
        } else {
            // A note is set for good once, or corrected after it was temporary.
            CHECK((result.hz.count(name) == 0 || result.temporary.count(name) == 1));
            result.temporary.erase(name);
        }
        result.hz[name] = pitch.value();
    }
    return result;
}

void checkFollowed(const BearingPlan& plan, const TunedScale& scale) {
    INFO(scale.temperament.id() << " " << plan.id);
    const Followed result = follow(plan, scale);
    CHECK(result.temporary.empty());
    CHECK(result.worstSecond < 1e-6);
    std::set<PitchClass> set;
    for (const auto& [name, hz] : result.hz) {
        const Note note = *parseNote(name);
        set.insert(note.pitchClass);
        CHECK(std::abs(interval(scale.pitchOf(note), Hertz(hz)).value()) < 1e-9);
    }
    CHECK(set.size() == scale.temperament.notes().size());
}

bool inRange(const BearingPlan& plan, int lowest) {
    for (const BearingStep& step : plan.steps) {
        const int midi = step.tune.midiNumber();
        if (midi < lowest || midi > lowest + 19) {
            return false;
        }
    }
    return true;
}

} // namespace

TEST_CASE("the computed plan of every temperament leads to it", "[unit]") {
    for (const Temperament& each : catalogue()) {
        for (const double a4Hz : {392.0, 415.0, 440.0}) {
            for (const auto range : {BearingRange::F3ToC5, BearingRange::C3ToG4}) {
                const TunedScale scale{each, ReferencePitch{Hertz(a4Hz)}};
                const BearingPlan plan = computedPlan(scale, range);
                checkFollowed(plan, scale);
                INFO(each.id() << " " << a4Hz);
                const int lowest = range == BearingRange::F3ToC5 ? 53 : 48;
                CHECK(inRange(plan, lowest));
                const Followed result = follow(plan, scale);
                CHECK(result.fastest <= 10.0);
                // All thirteen keys of the octave.
                for (const Note& key : keysBetween(
                         each,
                         Note{pitchClassAtFifth(range == BearingRange::F3ToC5 ? -1 : 0), 3},
                         Note{pitchClassAtFifth(range == BearingRange::F3ToC5 ? -1 : 0), 4})) {
                    CHECK(result.hz.count(toAscii(key)) == 1);
                }
            }
        }
    }
}

TEST_CASE("published plans lead to their temperaments", "[unit]") {
    int plans = 0;
    for (const Temperament& each : catalogue()) {
        const TunedScale scale{each, ReferencePitch{Hertz(415.0)}};
        for (const PublishedPlan& known : publishedPlansFor(each)) {
            const auto plan = publishedPlan(scale, known.id);
            REQUIRE(plan.hasValue());
            checkFollowed(*plan, scale);
            CHECK(follow(*plan, scale).fastest <= 10.0);
            CHECK_FALSE(plan->source.empty());
            ++plans;
        }
    }
    CHECK(plans == 8 + 7);
    const auto refused = publishedPlan(tuned("vallotti"), "dom-bedos");
    REQUIRE_FALSE(refused.hasValue());
    CHECK(refused.error().text.find("vallotti-from-f-a") != std::string::npos);
}

TEST_CASE("random temperaments, roots and references have a plan that leads to them", "[unit]") {
    Random random(11);
    for (int i = 0; i < 300; ++i) {
        std::vector<Tempering> fifths(11);
        for (Tempering& each : fifths) {
            each.plain = Cents(random.uniform(-7.0, 4.0));
            if (random.uniform() < 0.4) {
                each.plain = Cents(0.0);
            }
        }
        const auto made = Temperament::fromFifths(
            {}, pitchClassAtFifth(static_cast<int>(random.uniform(-7.0, 1.0))), fifths);
        REQUIRE(made.hasValue());
        const Note note{made->notes()[static_cast<std::size_t>(random.uniform(0.0, 12.0))],
                        static_cast<std::int8_t>(random.uniform(2.0, 7.0))};
        const TunedScale scale{*made, ReferencePitch{Hertz(random.uniform(250.0, 500.0)), note}};
        const TunedScale sane{
            *made, ReferencePitch{transpose(Hertz(415.0), made->offsetFromEqual(note.pitchClass))}};
        const TunedScale& used =
            note.octave == 4 && note.pitchClass.letter == Letter::A ? scale : sane;
        checkFollowed(computedPlan(used), used);
        checkFollowed(computedPlan(scale), scale);
    }
}

TEST_CASE("split sharps are set after the twelve", "[unit]") {
    for (const char* id : {"meantone-quarter", "meantone-fifth", "meantone-third"}) {
        const auto split =
            findTemperament(id)->extended(*parsePitchClass("Ab"), *parsePitchClass("A#"));
        REQUIRE(split.hasValue());
        const TunedScale scale{*split, ReferencePitch{Hertz(415.0)}};
        checkFollowed(computedPlan(scale), scale);
        checkFollowed(computedPlan(scale, BearingRange::C3ToG4), scale);
    }
}

TEST_CASE("a good tuner's ways are found", "[unit]") {
    const auto sequence = [](const std::string& id) {
        std::string text;
        for (const BearingStep& step : computedPlan(tuned(id)).steps) {
            if (step.kind != StepKind::Check) {
                text += std::string(nameOf(step.kind)) + " " + toAscii(step.tune) + " ";
            }
        }
        return text;
    };
    // Common practice, no source: in quarter-comma meantone F comes pure from A, then halves between pure C and D.
    const std::string meantone = sequence("meantone-quarter");
    INFO(meantone);
    CHECK(meantone.find("tune F3") != std::string::npos);
    CHECK(meantone.find("share G3") != std::string::npos);
    int counted = 0;
    for (const BearingStep& step : computedPlan(tuned("meantone-quarter")).steps) {
        counted += step.kind == StepKind::Tune && step.beat != BeatRate(0.0) ? 1 : 0;
    }
    CHECK(counted == 0);
    // Vallotti as on hpschd.nu: F–A counted near 2.8 at 415, pure fifths to B, E shared between A and B.
    const BearingPlan vallotti = computedPlan(tuned("vallotti"));
    INFO(sequence("vallotti"));
    int pureFifths = 0;
    bool third = false;
    bool sharedE = false;
    for (const BearingStep& step : vallotti.steps) {
        const bool fifth =
            step.interval == IntervalKind::Fifth || step.interval == IntervalKind::Fourth;
        pureFifths += step.kind == StepKind::Tune && fifth && step.beat == BeatRate(0.0) ? 1 : 0;
        third = third || (step.kind == StepKind::Tune && toAscii(step.tune) == "F3" &&
                          std::abs(step.beat.perSecond() - 2.807693) < 1e-5);
        sharedE = sharedE || (step.kind == StepKind::Share && toAscii(step.tune) == "E4");
    }
    CHECK(pureFifths == 6);
    CHECK(third);
    CHECK(sharedE);
}

TEST_CASE("Lehman's D-G beats three against two of C-G", "[unit]") {
    // B. Lehman's practical instructions: triplets against duplets while C and D are pure for now.
    const auto plan = publishedPlan(tuned("lehman", 440.0), "lehman-practical");
    REQUIRE(plan.hasValue());
    for (const BearingStep& step : plan->steps) {
        if (step.kind == StepKind::Share && toAscii(step.tune) == "G3") {
            CHECK(abs(step.alike->beat).perSecond() / abs(step.beat).perSecond() ==
                  Approx(1.5).margin(0.03));
        }
    }
}

TEST_CASE("every step is said in one plain sentence", "[unit]") {
    const auto said = [](const char* id, const char* note, StepKind kind) {
        for (const BearingStep& step : computedPlan(tuned(id)).steps) {
            if (toAscii(step.tune) == note && step.kind == kind) {
                return inWords(step);
            }
        }
        return std::string("no such step");
    };
    CHECK(said("vallotti", "A4", StepKind::Tune) ==
          "Set A4 to the pitch standard, 415.00 Hz, without beats.");
    CHECK(said("vallotti", "A3", StepKind::Tune) == "Tune A3 below A4: an octave, beatless.");
    CHECK(said("vallotti", "F3", StepKind::Tune) ==
          "Tune F3 below A3: a major third, 2.8 beats a second wide; first pure, then F3 a little "
          "lower.");
    CHECK(said("vallotti", "C4", StepKind::Temporary) ==
          "For now, tune C4 above F3 as a fifth, beatless; it is corrected later.");
    CHECK(said("equal", "E4", StepKind::Tune) ==
          "Tune E4 above A3: a fifth, 0.7 beats a second narrow (one beat in 1.4 s); first pure, "
          "then E4 a little lower.");
    for (const Temperament& each : catalogue()) {
        for (const BearingStep& step : computedPlan({each, {}}).steps) {
            const std::string sentence = inWords(step);
            CHECK(sentence.back() == '.');
            CHECK(sentence.size() < 220);
        }
    }
}

#include "core/instrument/material.hpp"
#include "core/instrument/string.hpp"
#include "core/support/contract.hpp"
#include "core/virtual/instrument_body.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

// Common practice, no source.
constexpr double kLeastPluckTravel = 1.6; // millimetres of key travel
constexpr double kTopLength = 330.0;      // millimetres, of an 8′ string at c″
constexpr Millimetre kUsualPin{4.5};      // diameter

/// The plucking point moves away from the nut more slowly than strings grow: about with the cube root.
double pluckPointAt(const JackRegister& row, const StringMake& make) {
    const double fraction = row.pluckPoint * std::pow(make.length.value() / kTopLength, -0.65);
    return std::clamp(fraction, 0.03, 0.5);
}

VoiceFacts factsOf(const StringMake& make,
                   const StringState& state,
                   Hertz pitch,
                   const JackRegister& row,
                   SampleRate rate) {
    VoiceFacts facts;
    facts.pitch = pitch;
    facts.inharmonicity = state.inharmonicity;
    facts.stiffnessOverTension =
        1000.0 * materialOf(make).youngModulus.value() / state.stress.value();
    facts.lengthMetres = make.length.value() / 1000.0;
    facts.pluckPoint = pluckPointAt(row, make);
    facts.rateHz = rate.hz();
    return facts;
}

/// By which a choir is plucked usually: not a lute's.
JackRegister usualRow(const Instrument& instrument, std::size_t choir) {
    const auto row =
        std::find_if(instrument.registers.begin(),
                     instrument.registers.end(),
                     [choir](const JackRegister& one) { return one.choir == choir && !one.lute; });
    return row == instrument.registers.end() ? JackRegister() : *row;
}

} // namespace

std::uint64_t seedOf(std::uint64_t seed, std::uint64_t what, std::uint64_t which) {
    return Random(seed ^ (what << 48U) ^ (which * 0x9e3779b97f4a7c15U)).bits();
}

VirtualInstrument::Body::Body(const Instrument& made, const VirtualSettings& settings)
    : instrument(made),
      rate(settings.sampleRate),
      seed(settings.seed),
      soundingLimit(settings.soundingLimit),
      actionNoise(settings.actionNoise),
      kelvinPerHour(settings.room.kelvinPerHour),
      pins(settings.pins),
      registersOn(settings.registersOn),
      keys(made.compass.keys.size()),
      knocks(settings.sampleRate),
      room(settings.room, settings.sampleRate, Random(seedOf(settings.seed, 1, 0))) {
    EXPECTS(rate.hz() >= 8000.0 && rate.hz() <= 192000.0);
    EXPECTS(settings.pitches.size() == made.choirs.size());
    EXPECTS(registersOn.empty() || registersOn.size() == made.registers.size());
    EXPECTS(soundingLimit > 0);
    registersOn.resize(made.registers.size(), settings.registersOn.empty());
    keyDown.resize(made.manuals.size() * keys, false);
    const SoundboardCurve soundboard(Random(seedOf(seed, 2, 0)));

    for (std::size_t choir = 0; choir < made.choirs.size(); ++choir) {
        makeChoir(settings, choir, soundboard);
    }
    jacks.resize(made.registers.size() * keys);
    handShape.resize(courses.size());
    for (std::size_t reg = 0; reg < made.registers.size(); ++reg) {
        findHandShapes(made.registers[reg]);
        makeJacks(settings, reg);
    }
    waiting.reserve(kMostWaitingCommands + kMostScheduled);
    playing.reserve(courses.size());
    couplings.reserve(kMostCouplings);
}

void VirtualInstrument::Body::makeChoir(const VirtualSettings& settings,
                                        std::size_t choir,
                                        const SoundboardCurve& soundboard) {
    const std::vector<StringMake>& strings = instrument.choirs[choir].strings;
    EXPECTS(settings.pitches[choir].size() == strings.size());
    firstCourse.push_back(courses.size());
    const JackRegister row = usualRow(instrument, choir);
    for (std::size_t s = 0; s < strings.size(); ++s) {
        const StringMake& make = strings[s];
        const Hertz pitch = settings.pitches[choir][s];
        EXPECTS(pitch.value() >= 10.0 && pitch.value() <= 8000.0);
        const StringState state = stringState(make, pitch);
        const std::uint64_t which = choir * 1000 + s;
        VoiceFacts facts = factsOf(make, state, pitch, row, rate);
        Course course{.id = {choir, s},
                      .motion = {},
                      .pin = TuningPin(pins, Random(seedOf(seed, 3, which))),
                      .reference = pitch,
                      .inharmonicity = state.inharmonicity,
                      .perDegree = state.centsPerDegree.value_or(
                          quillbench::centsPerDegree(materialOf(make), make, pitch, kUsualPin)),
                      .perKelvin = state.centsPerKelvin};
        for (const StringFault& fault : settings.faults) {
            if (fault.string == course.id) {
                spoil(course, facts, fault);
            }
        }
        course.motion = VibratingString(
            drawVoice(facts, soundboard, Random(seedOf(seed, 4, which))), rate.hz());
        courses.push_back(course);
        refreshDamping(courses.back());
        retune(courses.back());
    }
}

void VirtualInstrument::Body::spoil(Course& course, VoiceFacts& facts, const StringFault& fault) {
    switch (fault.kind) {
    case StringFault::Kind::FalseBeat:
        facts.falseBeatCents = fault.amount;
        break;
    case StringFault::Kind::Broken:
        course.broken = true;
        break;
    case StringFault::Kind::HangingJack:
        course.hanging = true;
        break;
    case StringFault::Kind::LateDamper:
        course.lateDamper = fault.amount;
        break;
    case StringFault::Kind::StrayJack:
        course.stray = fault.amount;
        break;
    case StringFault::Kind::WeakPlectrum:
        course.weakness = fault.amount;
        break;
    case StringFault::Kind::EarlyDamper:
        course.brushes = fault.amount;
        break;
    case StringFault::Kind::PartialDamper:
        course.held = 1.0 - fault.amount;
        break;
    }
}

void VirtualInstrument::Body::makeJacks(const VirtualSettings& settings, std::size_t reg) {
    const JackRegister& row = instrument.registers[reg];
    for (std::size_t key = 0; key < keys; ++key) {
        const std::size_t at = indexOf({row.choir, courseOf(instrument, key, settings.position)});
        if (at >= courses.size()) {
            continue;
        }
        Jack& jack = jacks[reg * keys + key];
        jack.exists = true;
        jack.course = at;
        Random random(seedOf(seed, 5, reg * 1000 + key));
        jack.pluckTravel =
            std::max(kLeastPluckTravel, row.stagger + courses[at].stray + 0.08 * random.normal());
        jack.shape = shapeAt(row, courses[at]);
    }
}

VirtualInstrument::Body::Shape VirtualInstrument::Body::shapeAt(const JackRegister& row,
                                                                const Course& course) const {
    const StringMake& make = instrument.choirs[row.choir].strings[course.id.course];
    return pluckShape(pluckPointAt(row, make), course.motion.modes() / 2, course.reference);
}

/// Of every string, also of those that no key reaches where the keyboard stands.
void VirtualInstrument::Body::findHandShapes(const JackRegister& row) {
    for (std::size_t at = firstCourse[row.choir];
         at < courses.size() && courses[at].id.choir == row.choir;
         ++at) {
        if (!handShape[at] || !row.lute) {
            handShape[at] = shapeAt(row, courses[at]);
        }
    }
}

} // namespace quillbench

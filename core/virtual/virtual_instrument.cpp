#include "core/virtual/virtual_instrument.hpp"

#include "core/instrument/material.hpp"
#include "core/instrument/string.hpp"
#include "core/support/contract.hpp"
#include "core/support/random.hpp"
#include "core/virtual/knock.hpp"
#include "core/virtual/room_sound.hpp"
#include "core/virtual/string_voice.hpp"
#include "core/virtual/sustain_truth.hpp"
#include "core/virtual/tuning_pin.hpp"
#include "core/virtual/vibrating_string.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr Seconds kSustainFrom{0.10};
constexpr Seconds kSustainTo{2.5};
constexpr double kLogCent = std::numbers::ln2 / 1200.0;
constexpr std::size_t kMostWaiting = 4096;
constexpr std::size_t kMostScheduled = 8192; // three for each jack of a whole instrument at once
constexpr std::size_t kMostRecords = 64;
constexpr std::size_t kMostCouplings = 2048;

// The action, in millimetres of key travel and seconds; common practice, no source.
constexpr double kLiftTravel = 0.8;    // the damper leaves the string
constexpr double kContactTravel = 0.7; // the plectrum touches so much before it lets go
constexpr double kLeastPluckTravel = 1.6;
constexpr double kOrdinarySpeed = 0.5;
constexpr double kFastestMillimetres = 200.0; // a second
constexpr double kFallSeconds = 0.025;        // a jack falls until its damper touches
constexpr double kContactLoss = 400.0;        // 1/s while the plectrum touches
constexpr double kFadeLoss = 300.0;           // 1/s of a string that has to make room

constexpr double kHammerSeconds = 0.4; // without a turn: the hand is off the hammer
constexpr double kTopLength = 330.0;   // millimetres, of an 8′ string at c″
constexpr Millimetre kUsualPin{4.5};   // diameter

constexpr KnockKind kPlectrumTouch{Hertz(2600.0), 0.8, Seconds(0.012), 0.0012};
constexpr KnockKind kPlectrumRelease{Hertz(3200.0), 1.2, Seconds(0.020), 0.0030};
constexpr KnockKind kBoardThump{Hertz(190.0), 0.5, Seconds(0.11), 0.0035};
constexpr KnockKind kKeyBed{Hertz(130.0), 0.6, Seconds(0.09), 0.0030};
constexpr KnockKind kJackFall{Hertz(850.0), 1.0, Seconds(0.05), 0.0030};

std::uint64_t seedOf(std::uint64_t seed, std::uint64_t what, std::uint64_t which) {
    return Random(seed ^ (what << 48U) ^ (which * 0x9e3779b97f4a7c15U)).bits();
}

/// The plucking point moves away from the nut more slowly than strings grow: about with the cube root.
double pluckPointAt(const JackRegister& row, const StringMake& make) {
    const double fraction = row.pluckPoint * std::pow(make.length.value() / kTopLength, -0.65);
    return std::clamp(fraction, 0.03, 0.5);
}

} // namespace

struct VirtualInstrument::Body {
    /// One string with its pin, its faults and what lies on it.
    struct Course {
        StringId id;
        VibratingString motion;
        TuningPin pin;
        Hertz reference; ///< rest pitch with the pin at 0, nothing pressed, nothing warmed
        double inharmonicity = 0.0; ///< at the reference
        Cents perDegree;            ///< at the reference
        Cents perKelvin;
        double pressed = 0.0;    ///< cents
        double driftAtTune = 0;  ///< cents already in the rest pitch
        std::uint32_t turns = 0; ///< of its pin; a later one keeps the hammer on
        int lifted = 0;          ///< jacks that hold their damper away
        bool felted = false;     ///< felt lies between it and its neighbour
        bool byHand = false;     ///< a hand-plucked string is free until it is damped
        bool touched = false;    ///< a plectrum lies on it
        bool fading = false;
        bool playing = false; ///< moves audibly
        bool plucked = false; ///< since it was last damped
        bool broken = false;
        bool hanging = false;  ///< its jack hangs after a pluck
        double lateDamper = 0; ///< seconds
        double brushes = 0.0;  ///< of the damper's grip, with the key down
        double held = 1.0;     ///< by the damper, of the motion along the soundboard
        double weakness = 1.0;
        double stray = 0.0; ///< millimetres of key travel by which its jacks pluck late

        [[nodiscard]] bool free() const { return !felted && (lifted > 0 || byHand); }
    };

    /// One jack: a register at a key.
    using Shape = std::array<double, StringVoice::kMaxModes / 2>; ///< how a pluck divides

    struct Jack {
        std::size_t course = 0; ///< index into courses
        bool exists = false;
        int holders = 0;        ///< manuals that hold it up
        std::uint32_t lift = 0; ///< counts rises; a pluck of an older rise is void
        bool up = false;        ///< its damper is off the string
        bool hangs = false;
        double pluckTravel = 0; ///< millimetres
        Shape shape{};
    };

    enum class Doing { Command, Lift, Touch, Pluck, Fall, HandPluck, LetPinGo };

    struct Event {
        FrameIndex at;
        std::uint64_t order = 0;
        Doing doing = Doing::Command;
        VirtualCommand command;
        std::size_t target = 0; ///< jack or course
        std::uint32_t lift = 0;
        double strength = 1.0;
    };

    struct Later {
        // Commands go before what the action does at the same frame, so that nothing depends on when
        // a command was handed over.
        bool operator()(const Event& a, const Event& b) const {
            if (a.at != b.at) {
                return a.at > b.at;
            }
            const bool aCommand = a.doing == Doing::Command;
            const bool bCommand = b.doing == Doing::Command;
            return aCommand != bCommand ? bCommand : a.order > b.order;
        }
    };

    /// A string that rings shakes another whose partial lies close.
    struct Coupling {
        std::size_t from = 0;
        std::size_t fromMode = 0;
        std::size_t to = 0;
        std::size_t toMode = 0;
        double rate = 0.0; ///< 1/s
    };

    Body(const Instrument& instrument, const VirtualSettings& settings);

    Instrument instrument;
    SampleRate rate;
    std::uint64_t seed;
    std::size_t soundingLimit;
    bool actionNoise;
    double kelvinPerHour;
    PinBehaviour pins;
    std::vector<Course> courses;
    std::vector<std::size_t> firstCourse; ///< of each choir
    std::vector<Jack> jacks;              ///< [register · keys + key]
    std::vector<bool> registersOn;
    std::vector<bool> keyDown; ///< [manual · keys + key]
    bool coupled = false;
    std::size_t keys;
    std::vector<std::optional<Shape>>
        handShape; ///< of each course: a hand plucks where a jack would
    Knocks knocks;
    RoomSound room;
    FrameIndex now;
    FrameIndex segmentStart;
    bool segmentOpen = false;
    std::vector<std::size_t> playing;
    std::vector<Coupling> couplings;
    bool couplingsStale = false;
    std::vector<Event> waiting; ///< a heap, the earliest first
    std::uint64_t commandsTaken = 0;
    std::uint64_t eventsMade = 0;
    std::uint64_t plucksMade = 0;
    std::uint64_t knocksMade = 0;
    std::array<PluckRecord, kMostRecords> records{};
    std::size_t firstRecord = 0;
    std::size_t recordCount = 0;
    VibratingString::Rows rows{};

    [[nodiscard]] std::size_t indexOf(StringId string) const {
        if (string.choir >= firstCourse.size() ||
            string.course >= instrument.choirs[string.choir].strings.size()) {
            return courses.size();
        }
        return firstCourse[string.choir] + string.course;
    }

    bool take(const VirtualCommand& command);
    void schedule(Event event);
    void releaseAll();
    void perform(const Event& event);
    void performCommand(const VirtualCommand& command);
    void pressKey(std::size_t manual, std::size_t key, double speed);
    void releaseKey(std::size_t manual, std::size_t key);
    void raise(std::size_t jack, double millimetresPerSecond);
    void drop(std::size_t jack);
    void pluck(Course& course, const Shape& shape, double strength);
    [[nodiscard]] Shape shapeAt(const JackRegister& row, const Course& course) const;
    void findHandShapes(const JackRegister& row);
    void damp(Course& course);
    void refreshDamping(Course& course);
    void retune(Course& course);
    void knock(const KnockKind& kind, double gain);
    void wake(std::size_t index);
    void findCouplings();
    void limitPolyphony();
    void openSegment();
    void closeSegment();
    [[nodiscard]] VibratingString stringAt(const PluckRecord& pluck) const;
    [[nodiscard]] bool reaches(const JackRegister& row, std::size_t manual) const;
    [[nodiscard]] double driftCents(const Course& course) const;
    [[nodiscard]] Hertz restOf(const Course& course) const;
    [[nodiscard]] double inharmonicityAt(const Course& course, Hertz rest) const;

    [[nodiscard]] FrameIndex after(double seconds) const {
        return now + rate.frames(Seconds(seconds));
    }
};

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

    for (std::size_t c = 0; c < made.choirs.size(); ++c) {
        EXPECTS(settings.pitches[c].size() == made.choirs[c].strings.size());
        firstCourse.push_back(courses.size());
        const auto row =
            std::find_if(made.registers.begin(), made.registers.end(), [c](const JackRegister& r) {
                return r.choir == c && !r.lute;
            });
        const JackRegister plain;
        for (std::size_t s = 0; s < made.choirs[c].strings.size(); ++s) {
            const StringMake& make = made.choirs[c].strings[s];
            const Hertz pitch = settings.pitches[c][s];
            EXPECTS(pitch.value() >= 10.0 && pitch.value() <= 8000.0);
            const StringState state = stringState(make, pitch);
            const std::uint64_t which = c * 1000 + s;
            VoiceFacts facts;
            facts.pitch = pitch;
            facts.inharmonicity = state.inharmonicity;
            facts.stiffnessOverTension =
                1000.0 * materialOf(make).youngModulus.value() / state.stress.value();
            facts.lengthMetres = make.length.value() / 1000.0;
            facts.pluckPoint = pluckPointAt(row == made.registers.end() ? plain : *row, make);
            facts.rateHz = rate.hz();
            Course course{.id = {c, s},
                          .motion = {},
                          .pin = TuningPin(pins, Random(seedOf(seed, 3, which))),
                          .reference = pitch,
                          .inharmonicity = state.inharmonicity,
                          .perDegree = state.centsPerDegree.value_or(
                              quillbench::centsPerDegree(materialOf(make), make, pitch, kUsualPin)),
                          .perKelvin = state.centsPerKelvin};
            for (const StringFault& fault : settings.faults) {
                if (fault.string != course.id) {
                    continue;
                }
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
            course.motion = VibratingString(
                drawVoice(facts, soundboard, Random(seedOf(seed, 4, which))), rate.hz());
            courses.push_back(course);
            refreshDamping(courses.back());
            retune(courses.back());
        }
    }

    jacks.resize(made.registers.size() * keys);
    handShape.resize(courses.size());
    for (std::size_t r = 0; r < made.registers.size(); ++r) {
        const JackRegister& row = made.registers[r];
        findHandShapes(row);
        for (std::size_t k = 0; k < keys; ++k) {
            const std::size_t at = indexOf({row.choir, courseOf(made, k, settings.position)});
            if (at >= courses.size()) {
                continue;
            }
            Jack& jack = jacks[r * keys + k];
            jack.exists = true;
            jack.course = at;
            Random random(seedOf(seed, 5, r * 1000 + k));
            jack.pluckTravel = std::max(kLeastPluckTravel,
                                        row.stagger + courses[at].stray + 0.08 * random.normal());
            jack.shape = shapeAt(row, courses[at]);
        }
    }

    waiting.reserve(kMostWaiting + kMostScheduled);
    playing.reserve(courses.size());
    couplings.reserve(kMostCouplings);
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

bool VirtualInstrument::Body::take(const VirtualCommand& command) {
    if (waiting.size() >= kMostWaiting) {
        return false;
    }
    Event event;
    event.at = std::max(command.at, now);
    event.order = commandsTaken++;
    event.command = command;
    waiting.push_back(event);
    std::push_heap(waiting.begin(), waiting.end(), Later{});
    return true;
}

void VirtualInstrument::Body::schedule(Event event) {
    if (waiting.size() < kMostWaiting + kMostScheduled) {
        event.order = eventsMade++;
        waiting.push_back(event);
        std::push_heap(waiting.begin(), waiting.end(), Later{});
    }
}

double VirtualInstrument::Body::driftCents(const Course& course) const {
    const double hours = static_cast<double>(now.value()) / rate.hz() / 3600.0;
    return course.perKelvin.value() * kelvinPerHour * hours;
}

Hertz VirtualInstrument::Body::restOf(const Course& course) const {
    // Tension grows in proportion to the wire wound up, the pitch with its root.
    const double perDegree = 2.0 * course.perDegree.value() * kLogCent;
    const double tension = std::max(1.0 + perDegree * course.pin.angle(), 0.01);
    const double cents = course.pressed + driftCents(course);
    return Hertz(course.reference.value() * std::sqrt(tension) * std::exp(cents * kLogCent));
}

double VirtualInstrument::Body::inharmonicityAt(const Course& course, Hertz rest) const {
    const double ratio = course.reference / rest;
    return course.inharmonicity * ratio * ratio;
}

void VirtualInstrument::Body::retune(Course& course) {
    const Hertz rest = restOf(course);
    course.driftAtTune = driftCents(course);
    course.motion.tune(rest, inharmonicityAt(course, rest));
    couplingsStale = true;
}

void VirtualInstrument::Body::refreshDamping(Course& course) {
    const double extra = (course.touched ? kContactLoss : 0.0) + (course.fading ? kFadeLoss : 0.0);
    course.motion.damp(course.free() ? course.brushes : 1.0, extra, course.held);
    couplingsStale = true;
}

void VirtualInstrument::Body::knock(const KnockKind& kind, double gain) {
    if (!actionNoise) {
        return;
    }
    KnockKind scaled = kind;
    scaled.level *= gain;
    knocks.start(scaled, seedOf(seed, 6, knocksMade++));
}

void VirtualInstrument::Body::wake(std::size_t index) {
    Course& course = courses[index];
    if (!course.playing) {
        course.playing = true;
        playing.push_back(index);
    }
}

bool VirtualInstrument::Body::reaches(const JackRegister& row, std::size_t manual) const {
    return row.manual == manual || row.dogleg || (coupled && manual == 0);
}

void VirtualInstrument::Body::pressKey(std::size_t manual, std::size_t key, double speed) {
    if (manual * keys + key >= keyDown.size() || keyDown[manual * keys + key]) {
        return;
    }
    keyDown[manual * keys + key] = true;
    const double part = speed > 0.0 ? std::min(speed, 1.0) : kOrdinarySpeed;
    knock(kKeyBed, part / kOrdinarySpeed);
    for (std::size_t r = 0; r < instrument.registers.size(); ++r) {
        if (jacks[r * keys + key].exists && reaches(instrument.registers[r], manual)) {
            raise(r * keys + key, kFastestMillimetres * part);
        }
    }
}

void VirtualInstrument::Body::releaseKey(std::size_t manual, std::size_t key) {
    if (manual * keys + key >= keyDown.size()) {
        return;
    }
    const bool wasDown = keyDown[manual * keys + key];
    keyDown[manual * keys + key] = false;
    for (std::size_t r = 0; r < instrument.registers.size(); ++r) {
        const std::size_t jack = r * keys + key;
        if (!jacks[jack].exists || !reaches(instrument.registers[r], manual)) {
            continue;
        }
        if (wasDown) {
            drop(jack);
        }
        Course& course = courses[jacks[jack].course];
        if (course.byHand) {
            damp(course);
        }
    }
}

void VirtualInstrument::Body::releaseAll() {
    for (std::size_t manual = 0; manual < instrument.manuals.size(); ++manual) {
        for (std::size_t key = 0; key < keys; ++key) {
            if (keyDown[manual * keys + key]) {
                releaseKey(manual, key);
            }
        }
    }
    for (Course& course : courses) {
        if (course.byHand) {
            course.touched = false;
            damp(course);
        }
    }
}

void VirtualInstrument::Body::raise(std::size_t index, double millimetresPerSecond) {
    Jack& jack = jacks[index];
    if (++jack.holders > 1 || jack.hangs) {
        return;
    }
    ++jack.lift;
    const Course& course = courses[jack.course];
    Event event;
    event.target = index;
    event.lift = jack.lift;
    event.at = after(kLiftTravel / millimetresPerSecond);
    event.doing = Doing::Lift;
    schedule(event);
    if (!registersOn[index / keys] || course.broken) {
        return;
    }
    event.at = after((jack.pluckTravel - kContactTravel) / millimetresPerSecond);
    event.doing = Doing::Touch;
    schedule(event);
    event.at = after(jack.pluckTravel / millimetresPerSecond);
    event.doing = Doing::Pluck;
    schedule(event);
}

void VirtualInstrument::Body::drop(std::size_t index) {
    Jack& jack = jacks[index];
    if (jack.holders == 0 || --jack.holders > 0 || jack.hangs) {
        return;
    }
    ++jack.lift;
    Course& course = courses[jack.course];
    if (course.touched) {
        course.touched = false;
        refreshDamping(course);
    }
    Event event;
    event.target = index;
    event.lift = jack.lift;
    event.at = after(kFallSeconds + course.lateDamper);
    event.doing = Doing::Fall;
    schedule(event);
}

void VirtualInstrument::Body::pluck(Course& course, const Shape& shape, double strength) {
    course.touched = false;
    course.fading = false;
    course.plucked = true;
    refreshDamping(course);
    retune(course);
    // No two plucks are quite alike.
    Random random(seedOf(seed, 7, plucksMade++));
    const double given = strength * course.weakness * course.motion.voice().displacement *
                         (1.0 + 0.02 * random.normal());
    course.motion.pluck(shape, given);
    wake(firstCourse[course.id.choir] + course.id.course);
    knock(kPlectrumRelease, strength);
    knock(kBoardThump, strength);

    PluckRecord& record = records[(firstRecord + recordCount) % kMostRecords];
    if (recordCount == kMostRecords) {
        firstRecord = (firstRecord + 1) % kMostRecords;
    } else {
        ++recordCount;
    }
    record.at = now;
    record.string = course.id;
    record.strength = given;
    record.rest = restOf(course);
    record.inharmonicity = inharmonicityAt(course, record.rest);
    record.modes = course.motion.modes();
    for (std::size_t m = 0; m < record.modes; ++m) {
        record.state[2 * m] = course.motion.mode(m).real();
        record.state[2 * m + 1] = course.motion.mode(m).imag();
    }
}

void VirtualInstrument::Body::damp(Course& course) {
    course.byHand = false;
    if (!course.free()) {
        course.plucked = false;
    }
    refreshDamping(course);
}

void VirtualInstrument::Body::perform(const Event& event) {
    switch (event.doing) {
    case Doing::Command:
        performCommand(event.command);
        return;
    case Doing::LetPinGo: {
        Course& course = courses[event.target];
        if (course.turns == event.lift) {
            course.pin.letGo();
            retune(course);
        }
        return;
    }
    case Doing::HandPluck: {
        Course& course = courses[event.target];
        if (const auto& shape = handShape[event.target]; course.touched && course.byHand && shape) {
            pluck(course, *shape, event.strength);
        }
        return;
    }
    case Doing::Lift:
    case Doing::Touch:
    case Doing::Pluck:
    case Doing::Fall:
        break;
    }
    Jack& jack = jacks[event.target];
    Course& course = courses[jack.course];
    if (event.lift != jack.lift) {
        return;
    }
    if (event.doing == Doing::Lift) {
        if (!jack.up) {
            jack.up = true;
            ++course.lifted;
            refreshDamping(course);
        }
    } else if (event.doing == Doing::Touch) {
        course.touched = true;
        refreshDamping(course);
        knock(kPlectrumTouch, 1.0);
    } else if (event.doing == Doing::Pluck) {
        pluck(course, jack.shape, event.strength);
        jack.hangs = course.hanging;
    } else {
        if (jack.up) {
            jack.up = false;
            --course.lifted;
        }
        knock(kJackFall, 1.0);
        damp(course);
    }
}

void VirtualInstrument::Body::performCommand(const VirtualCommand& command) {
    using Kind = VirtualCommand::Kind;
    const std::size_t at = indexOf(command.string);
    const bool named = at < courses.size();
    switch (command.kind) {
    case Kind::KeyDown:
        if (command.key < keys) {
            pressKey(command.manual, command.key, command.amount);
        }
        break;
    case Kind::KeyUp:
        if (command.key < keys) {
            releaseKey(command.manual, command.key);
        }
        break;
    case Kind::PluckString:
        if (named && !courses[at].broken) {
            courses[at].byHand = true;
            courses[at].touched = true;
            refreshDamping(courses[at]);
            knock(kPlectrumTouch, 1.0);
            Event event;
            event.at = after(VirtualInstrument::kHandContact.count());
            event.doing = Doing::HandPluck;
            event.target = at;
            event.strength = command.amount > 0.0 ? std::min(command.amount, 1.0) : 1.0;
            schedule(event);
        }
        break;
    case Kind::DampString:
        if (named) {
            courses[at].touched = false;
            knock(kJackFall, 1.0);
            damp(courses[at]);
        }
        break;
    case Kind::RegisterOn:
    case Kind::RegisterOff:
        if (command.reg < registersOn.size()) {
            registersOn[command.reg] = command.kind == Kind::RegisterOn;
        }
        break;
    case Kind::Couple:
        coupled = instrument.coupler != Coupler::None;
        break;
    case Kind::Uncouple:
        coupled = false;
        break;
    case Kind::TurnPin:
        if (named) {
            Event event;
            event.lift = ++courses[at].turns;
            event.target = at;
            event.doing = Doing::LetPinGo;
            event.at = now;
            if (std::abs(command.amount) > 0.0) {
                courses[at].pin.turn(command.amount);
                retune(courses[at]);
                event.at = after(kHammerSeconds);
            }
            schedule(event);
        }
        break;
    case Kind::PressString:
        if (named) {
            courses[at].pressed = std::clamp(command.amount, 0.0, 400.0);
            retune(courses[at]);
        }
        break;
    case Kind::LayFelt:
    case Kind::TakeFelt:
        for (Course& course : courses) {
            if (course.id.choir == command.string.choir) {
                course.felted = command.kind == Kind::LayFelt;
                refreshDamping(course);
            }
        }
        break;
    case Kind::DampAll:
        releaseAll();
        break;
    }
}

VibratingString VirtualInstrument::Body::stringAt(const PluckRecord& pluck) const {
    const std::size_t at = indexOf(pluck.string);
    EXPECTS(at < courses.size());
    VibratingString string(courses[at].motion.voice(), rate.hz());
    string.tune(pluck.rest, pluck.inharmonicity);
    for (std::size_t m = 0; m < pluck.modes; ++m) {
        string.setMode(m, {pluck.state[2 * m], pluck.state[2 * m + 1]});
    }
    return string;
}

void VirtualInstrument::Body::findCouplings() {
    // A string that is free and was not plucked takes from each that was, partial by partial where both lie
    // close. The rate is a part of both decays, which are losses into the same bridge [Weinreich1977]; a
    // plucked string takes nothing, so that its pitch stays what its truth says.
    constexpr double kPart = 0.25;
    constexpr double kFarthestHz = 15.0;
    couplings.clear();
    for (std::size_t to = 0; to < courses.size(); ++to) {
        const Course& taker = courses[to];
        if (!taker.free() || taker.plucked || taker.broken) {
            continue;
        }
        for (const std::size_t from : playing) {
            const Course& giver = courses[from];
            if (from == to || !giver.plucked) {
                continue;
            }
            const VibratingString& a = giver.motion;
            const VibratingString& b = taker.motion;
            for (std::size_t m = 0; m < a.modes(); m += 2) {
                const double ratio = a.restAngle(m) / b.restAngle(0);
                const auto number = static_cast<std::size_t>(std::lround(ratio));
                if (number == 0 || 2 * number > b.modes() || couplings.size() == kMostCouplings) {
                    continue;
                }
                const std::size_t n = 2 * (number - 1);
                const double apart = std::abs(a.restAngle(m) - b.restAngle(n)) * rate.hz() /
                                     (2.0 * std::numbers::pi);
                if (apart < kFarthestHz) {
                    const double shared =
                        kPart * std::sqrt(a.voice().decay[m] * b.voice().decay[n]);
                    couplings.push_back({from, m, to, n, shared});
                }
            }
        }
    }
}

void VirtualInstrument::Body::limitPolyphony() {
    if (playing.size() <= soundingLimit) {
        return;
    }
    std::size_t staying = 0;
    Course* quietest = nullptr;
    double least = 0.0;
    for (const std::size_t index : playing) {
        Course& course = courses[index];
        if (course.fading) {
            continue;
        }
        ++staying;
        const double power = course.motion.power();
        if (quietest == nullptr || power < least) {
            quietest = &course;
            least = power;
        }
    }
    if (staying > soundingLimit && quietest != nullptr) {
        quietest->fading = true;
        quietest->plucked = false;
        refreshDamping(*quietest);
    }
}

void VirtualInstrument::Body::openSegment() {
    limitPolyphony();
    if (couplingsStale) {
        findCouplings();
        couplingsStale = false;
    }
    for (const std::size_t index : playing) {
        Course& course = courses[index];
        course.motion.openSegment((driftCents(course) - course.driftAtTune) * kLogCent);
    }
    segmentStart = now;
    segmentOpen = true;
}

void VirtualInstrument::Body::closeSegment() {
    if (!segmentOpen) {
        return;
    }
    segmentOpen = false;
    const auto frames = static_cast<std::size_t>((now - segmentStart).value());
    const double seconds = static_cast<double>(frames) / rate.hz();
    for (const std::size_t index : playing) {
        courses[index].motion.closeSegment(frames);
    }
    for (const Coupling& coupling : couplings) {
        const Course& giver = courses[coupling.from];
        if (giver.playing) {
            Course& taker = courses[coupling.to];
            taker.motion.addToMode(coupling.toMode,
                                   coupling.rate * seconds * giver.motion.mode(coupling.fromMode));
            wake(coupling.to);
        }
    }
    const auto still = [this](std::size_t index) {
        Course& course = courses[index];
        course.playing = course.motion.prune();
        if (!course.playing && course.fading) {
            course.fading = false;
            refreshDamping(course);
        }
        return !course.playing;
    };
    playing.erase(std::remove_if(playing.begin(), playing.end(), still), playing.end());
}

VirtualInstrument::VirtualInstrument(const Instrument& instrument, const VirtualSettings& settings)
    : body_(std::make_unique<Body>(instrument, settings)) {
}

VirtualInstrument::VirtualInstrument(VirtualInstrument&&) noexcept = default;

VirtualInstrument& VirtualInstrument::operator=(VirtualInstrument&&) noexcept = default;

VirtualInstrument::~VirtualInstrument() = default;

bool VirtualInstrument::apply(const VirtualCommand& command) noexcept {
    return body_->take(command);
}

void VirtualInstrument::render(std::span<float> into) noexcept {
    Body& body = *body_;
    constexpr auto kGrid = static_cast<std::int64_t>(VibratingString::kSegment);
    while (!into.empty()) {
        while (!body.waiting.empty() && body.waiting.front().at <= body.now) {
            body.closeSegment();
            std::pop_heap(body.waiting.begin(), body.waiting.end(), Body::Later{});
            const Body::Event event = body.waiting.back();
            body.waiting.pop_back();
            body.perform(event);
        }
        if (!body.segmentOpen) {
            body.openSegment();
        }
        std::int64_t frames = kGrid - body.now.value() % kGrid;
        frames = std::min(frames, static_cast<std::int64_t>(into.size()));
        if (!body.waiting.empty()) {
            frames = std::min(frames, (body.waiting.front().at - body.now).value());
        }
        const auto count = static_cast<std::size_t>(frames);
        const std::span rows(body.rows.data(), count);
        for (auto& row : rows) {
            row = VibratingString::Lanes{};
        }
        for (const std::size_t index : body.playing) {
            body.courses[index].motion.addTo(rows);
        }
        for (std::size_t k = 0; k < count; ++k) {
            double sum = 0.0;
            for (std::size_t lane = 0; lane < VibratingString::kLanes; ++lane) {
                sum += body.rows[k][lane];
            }
            into[k] = static_cast<float>(sum);
        }
        body.knocks.addTo(into.first(count));
        body.room.addTo(into.first(count));
        into = into.subspan(count);
        body.now = body.now + FrameCount(frames);
        if (body.now.value() % kGrid == 0) {
            body.closeSegment();
        }
    }
}

FrameIndex VirtualInstrument::now() const noexcept {
    return body_->now;
}

bool VirtualInstrument::sounds() const noexcept {
    return !body_->playing.empty() || !body_->waiting.empty() || body_->knocks.sound();
}

Hertz VirtualInstrument::restPitch(StringId string) const {
    const std::size_t at = body_->indexOf(string);
    EXPECTS(at < body_->courses.size());
    return body_->restOf(body_->courses[at]);
}

Cents VirtualInstrument::centsPerDegree(StringId string) const {
    const std::size_t at = body_->indexOf(string);
    EXPECTS(at < body_->courses.size());
    const Body::Course& course = body_->courses[at];
    const double ratio = course.reference / body_->restOf(course);
    return course.perDegree * (ratio * ratio);
}

bool VirtualInstrument::registerOn(std::size_t reg) const {
    EXPECTS(reg < body_->registersOn.size());
    return body_->registersOn[reg];
}

std::optional<PluckRecord> VirtualInstrument::takePluck() noexcept {
    Body& body = *body_;
    if (body.recordCount == 0) {
        return std::nullopt;
    }
    const PluckRecord& record = body.records[body.firstRecord];
    body.firstRecord = (body.firstRecord + 1) % kMostRecords;
    --body.recordCount;
    return record;
}

PluckTruth VirtualInstrument::truth(const PluckRecord& pluck) const {
    const VibratingString string = body_->stringAt(pluck);
    PluckTruth truth;
    truth.rest = pluck.rest;
    truth.inharmonicity = pluck.inharmonicity;
    truth.partials = meanFrequencies(string, body_->rate, kSustainFrom, kSustainTo);
    const double f0 = pluck.rest.value() / std::sqrt(1.0 + pluck.inharmonicity);
    StiffComb comb{Hertz(f0), pluck.inharmonicity};
    if (!truth.partials.empty()) {
        comb = fitStiffComb(truth.partials, comb);
    }
    truth.sustain = comb.f0 * std::sqrt(1.0 + comb.inharmonicity);
    truth.glide = Cents(std::log1p(string.sharpness()) / kLogCent);
    truth.start = truth.glide + interval(truth.sustain, truth.rest);
    return truth;
}

std::optional<CoincidentPair> VirtualInstrument::coincidentPair(const PluckRecord& lower,
                                                                int lowerPartial,
                                                                const PluckRecord& upper,
                                                                int upperPartial) const {
    const FrameIndex later = std::max(lower.at, upper.at);
    const auto mean = [&](const PluckRecord& pluck, int number) -> std::optional<Hertz> {
        const Seconds waited = body_->rate.duration(later - pluck.at);
        for (const auto& partial : meanFrequencies(
                 body_->stringAt(pluck), body_->rate, waited + kSustainFrom, waited + kSustainTo)) {
            if (partial.number == number) {
                return partial.mean;
            }
        }
        return std::nullopt;
    };
    const std::optional<Hertz> low = mean(lower, lowerPartial);
    const std::optional<Hertz> high = mean(upper, upperPartial);
    if (!low || !high) {
        return std::nullopt;
    }
    return CoincidentPair{*low, *high};
}

} // namespace quillbench

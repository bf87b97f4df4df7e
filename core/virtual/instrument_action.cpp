#include "core/virtual/instrument_body.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

// The action, in millimetres of key travel and seconds; common practice, no source.
constexpr double kLiftTravel = 0.8;    // the damper leaves the string
constexpr double kContactTravel = 0.7; // the plectrum touches so much before it lets go
constexpr double kOrdinarySpeed = 0.5;
constexpr double kFastestMillimetres = 200.0; // a second
constexpr double kFallSeconds = 0.025;        // a jack falls until its damper touches

constexpr double kHammerSeconds = 0.4; // without a turn: the hand is off the hammer

constexpr KnockKind kPlectrumTouch{Hertz(2600.0), 0.8, Seconds(0.012), 0.0012};
constexpr KnockKind kPlectrumRelease{Hertz(3200.0), 1.2, Seconds(0.020), 0.0030};
constexpr KnockKind kBoardThump{Hertz(190.0), 0.5, Seconds(0.11), 0.0035};
constexpr KnockKind kKeyBed{Hertz(130.0), 0.6, Seconds(0.09), 0.0030};
constexpr KnockKind kJackFall{Hertz(850.0), 1.0, Seconds(0.05), 0.0030};

} // namespace

bool VirtualInstrument::Body::take(const VirtualCommand& command) {
    if (waiting.size() >= kMostWaitingCommands) {
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
    if (waiting.size() < kMostWaitingCommands + kMostScheduled) {
        event.order = eventsMade++;
        waiting.push_back(event);
        std::push_heap(waiting.begin(), waiting.end(), Later{});
    }
}

void VirtualInstrument::Body::performDue() {
    while (!waiting.empty() && waiting.front().at <= now) {
        closeSegment();
        std::pop_heap(waiting.begin(), waiting.end(), Later{});
        const Event event = waiting.back();
        waiting.pop_back();
        perform(event);
    }
}

void VirtualInstrument::Body::knock(const KnockKind& kind, double gain) {
    if (!actionNoise) {
        return;
    }
    KnockKind scaled = kind;
    scaled.level *= gain;
    knocks.start(scaled, seedOf(seed, 6, knocksMade++));
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

void VirtualInstrument::Body::pluckByHand(std::size_t course, double strength) {
    courses[course].byHand = true;
    courses[course].touched = true;
    refreshDamping(courses[course]);
    knock(kPlectrumTouch, 1.0);
    Event event;
    event.at = after(VirtualInstrument::kHandContact.count());
    event.doing = Doing::HandPluck;
    event.target = course;
    event.strength = strength;
    schedule(event);
}

void VirtualInstrument::Body::turnPin(std::size_t course, double degrees) {
    Event event;
    event.lift = ++courses[course].turns;
    event.target = course;
    event.doing = Doing::LetPinGo;
    event.at = now;
    if (std::abs(degrees) > 0.0) {
        courses[course].pin.turn(degrees);
        retune(courses[course]);
        event.at = after(kHammerSeconds);
    }
    schedule(event);
}

void VirtualInstrument::Body::layFelt(std::size_t choir, bool lies) {
    for (Course& course : courses) {
        if (course.id.choir == choir) {
            course.felted = lies;
            refreshDamping(course);
        }
    }
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
            pluckByHand(at, command.amount > 0.0 ? std::min(command.amount, 1.0) : 1.0);
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
            turnPin(at, command.amount);
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
        layFelt(command.string.choir, command.kind == Kind::LayFelt);
        break;
    case Kind::DampAll:
        releaseAll();
        break;
    }
}

} // namespace quillbench

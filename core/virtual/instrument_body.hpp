#pragma once

#include "core/support/random.hpp"
#include "core/virtual/knock.hpp"
#include "core/virtual/room_sound.hpp"
#include "core/virtual/string_voice.hpp"
#include "core/virtual/tuning_pin.hpp"
#include "core/virtual/vibrating_string.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <array>
#include <cstdint>
#include <numbers>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

inline constexpr double kLogCent = std::numbers::ln2 / 1200.0; ///< natural logarithm of a cent
inline constexpr std::size_t kMostWaitingCommands = 4096;
/// Three for each jack of a whole instrument at once.
inline constexpr std::size_t kMostScheduled = 8192;
inline constexpr std::size_t kMostRecords = 64;     ///< plucks not yet taken
inline constexpr std::size_t kMostCouplings = 2048; ///< strings that ring along, partial by partial

/// A seed of its own for each thing that chance decides: `what` it is, and `which` of them.
[[nodiscard]] std::uint64_t seedOf(std::uint64_t seed, std::uint64_t what, std::uint64_t which);

/// What VirtualInstrument consists of, for the sources of this room alone. How it is made: instrument_making.cpp; keys,
/// jacks, plectra and commands: instrument_action.cpp; what strings do: instrument_strings.cpp. Nothing in it allocates
/// once it is made.
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

    using Shape = std::array<double, StringVoice::kMaxModes / 2>; ///< how a pluck divides

    /// One jack: a register at a key.
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

    /// As VirtualInstrument's (instrument_making.cpp).
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

    // What happens when (instrument_action.cpp).
    bool take(const VirtualCommand& command);
    void schedule(Event event);
    /// Everything up to now; a segment ends where something happens.
    void performDue();
    void releaseAll();
    void perform(const Event& event);
    void performCommand(const VirtualCommand& command);
    void pressKey(std::size_t manual, std::size_t key, double speed);
    void releaseKey(std::size_t manual, std::size_t key);
    void raise(std::size_t jack, double millimetresPerSecond);
    void drop(std::size_t jack);
    void pluck(Course& course, const Shape& shape, double strength);
    void makeChoir(const VirtualSettings& settings,
                   std::size_t choir,
                   const SoundboardCurve& soundboard);
    void makeJacks(const VirtualSettings& settings, std::size_t reg);
    static void spoil(Course& course, VoiceFacts& facts, const StringFault& fault);
    [[nodiscard]] Shape shapeAt(const JackRegister& row, const Course& course) const;
    void findHandShapes(const JackRegister& row);
    void damp(Course& course);
    void refreshDamping(Course& course);
    void retune(Course& course);
    void pluckByHand(std::size_t course, double strength);
    void turnPin(std::size_t course, double degrees);
    void layFelt(std::size_t choir, bool lies);
    void knock(const KnockKind& kind, double gain);
    void wake(std::size_t index);
    void findCouplings();
    void limitPolyphony();
    void openSegment();
    void closeSegment();
    /// The strings that move, into samples of the open segment.
    void addStrings(std::span<float> into);
    [[nodiscard]] VibratingString stringAt(const PluckRecord& pluck) const;
    [[nodiscard]] bool reaches(const JackRegister& row, std::size_t manual) const;
    [[nodiscard]] double driftCents(const Course& course) const;
    [[nodiscard]] Hertz restOf(const Course& course) const;
    [[nodiscard]] double inharmonicityAt(const Course& course, Hertz rest) const;

    [[nodiscard]] FrameIndex after(double seconds) const {
        return now + rate.frames(Seconds(seconds));
    }
};

} // namespace quillbench

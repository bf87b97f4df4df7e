#pragma once

#include "app/models/tuning_model.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <QObject>
#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <set>
#include <utility>
#include <vector>

namespace quillbench {

class VirtualSource;

/// How far the hand turns a pin in one step, told in cents of the string under it.
enum class PinStep { Coarse, Fine };

[[nodiscard]] constexpr Cents sizeOf(PinStep step) {
    return step == PinStep::Coarse ? Cents(3.0) : Cents(0.3);
}

/// A virtual instrument that nobody has tuned for a while: its strings lie within ±`spread` of what the model wants,
/// from a seed. **Range** model.ready(), spread ≤ 45 cents.
[[nodiscard]] VirtualSettings
mistuned(const TuningModel& model, SampleRate rate, std::uint64_t seed, Cents spread);

/// The player at the virtual instrument: plucks keys and turns the pin of the string that is worked at.
/// **Thread** GUI.
class VirtualPlayer : public QObject {
    Q_OBJECT

public:
    explicit VirtualPlayer(const TuningModel& model, QObject* parent = nullptr);

    /// Null: there is no virtual instrument; what is asked for is then ignored.
    void setInstrument(VirtualSource* source);

    [[nodiscard]] bool playing() const { return source_ != nullptr; }

    /// The registers that the model has on sound, no others.
    void drawRegisters();

    /// A key that is down already is let go first: every call plucks.
    void keyDown(std::size_t key);
    void keyUp(std::size_t key);

    /// How fast keys go down from now on: a part of 200 mm of key travel a second in (0, 1]; 0: as usual.
    void setKeySpeed(double part) { keySpeed_ = part; }

    /// The string whose pin the hammer is on: that of the key plucked last, or of a step chosen by hand.
    /// **Range** model.ready().
    [[nodiscard]] StringId atHand() const;

    /// The hammer goes to the next string of the same key.
    void changePin();

    /// Turns the pin at hand: positive sharpens.
    void turnPin(double degrees);
    void turnPinBy(Cents cents);
    void stepPin(PinStep step, int direction);

    /// A string drifts by itself; its pin is where it was.
    void driftBy(StringId string, Cents cents);

    /// The hand lets the hammer go.
    void letGo();

    /// How far a degree moves the string at hand, in cents.
    [[nodiscard]] double centsPerDegree() const;

    /// How far the pin at hand was turned since the instrument was set.
    [[nodiscard]] double turned() const;

Q_SIGNALS:
    void pinTurned();

private:
    void send(const VirtualCommand& command);
    void layFelt();
    void followChoice();
    void sendKey(VirtualCommand::Kind kind, std::size_t key);
    void sendString(VirtualCommand::Kind kind, StringId string);
    [[nodiscard]] std::vector<StringId> shiftedStrings(std::size_t key) const;

    const TuningModel& model_;
    double keySpeed_ = 0.0;
    VirtualSource* source_ = nullptr;
    std::set<std::size_t> down_;                           ///< keys that are held
    std::map<std::size_t, std::vector<StringId>> shifted_; ///< held where the keyboard was slid to
    std::deque<VirtualCommand> waiting_; ///< what the queue had no room for, in order
    std::vector<std::size_t> felt_;      ///< choirs between whose strings it lies
    std::map<std::pair<std::size_t, std::size_t>, double> degrees_; ///< turned, by choir and course
    std::optional<StringId> atHand_; ///< nothing plucked or chosen yet: the session's step
};

} // namespace quillbench

#pragma once

#include "app/models/tuning_model.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <QObject>
#include <cstdint>
#include <deque>
#include <set>

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

    /// Only the choir that is tuned sounds.
    void drawRegisters();

    /// A key that is down already is let go first: every call plucks.
    void keyDown(std::size_t key);
    void keyUp(std::size_t key);

    /// The pin of the current step's string: positive sharpens.
    void turnPin(double degrees);
    void turnPinBy(Cents cents);
    void stepPin(PinStep step, int direction);

    /// The hand lets the hammer go.
    void letGo();

    /// How far a degree moves the string at hand, in cents.
    [[nodiscard]] double centsPerDegree() const;

    /// How far the pin of the current string was turned since the instrument was set.
    [[nodiscard]] double turned() const;

Q_SIGNALS:
    void pinTurned();

private:
    void send(const VirtualCommand& command);
    void sendKey(VirtualCommand::Kind kind, std::size_t key);

    const TuningModel& model_;
    VirtualSource* source_ = nullptr;
    std::set<std::size_t> down_;         ///< keys that are held
    std::deque<VirtualCommand> waiting_; ///< what the queue had no room for, in order
    std::vector<double> degrees_;        ///< by course of the choir that is tuned
};

} // namespace quillbench

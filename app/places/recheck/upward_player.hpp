#pragma once

#include "app/models/virtual_player.hpp"
#include "core/instrument/instrument.hpp"

#include <QObject>
#include <QTimer>
#include <cstddef>
#include <optional>
#include <vector>

namespace quillbench {

/// Plays keys of the virtual instrument one after the other, each as long as a recheck wants it: a second a note, 0.7 s
/// above c′. **Thread** GUI.
class UpwardPlayer : public QObject {
    Q_OBJECT

public:
    explicit UpwardPlayer(VirtualPlayer& player, QObject* parent = nullptr);

    /// Begins; what was being played ends. **Range** keys of the instrument that the player plays.
    void play(const Instrument& instrument, std::vector<std::size_t> keys);

    void stop();

    [[nodiscard]] bool playing() const { return down_.has_value(); }

    /// How long a key is held. **Source** common practice, no source.
    [[nodiscard]] static int millisecondsFor(const Note& note);

Q_SIGNALS:
    void playingChanged(bool playing);

private:
    void next();

    VirtualPlayer& player_;
    QTimer timer_;
    Compass compass_;
    std::vector<std::size_t> keys_;
    std::size_t at_ = 0;
    std::optional<std::size_t> down_;
};

} // namespace quillbench

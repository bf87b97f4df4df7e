#pragma once

#include "core/units/frames.hpp"

#include <QObject>
#include <QProcess>
#include <QString>
#include <QTimer>
#include <optional>

namespace quillbench {

/// Says aloud what to do, for people who look at the pins: through the desktop's speech service (`spd-say` of
/// speech-dispatcher), where that is installed. Never while a string sounds, but for a danger; what is heard meanwhile is
/// not the instrument's. **Thread** GUI.
class Speaker : public QObject {
    Q_OBJECT

public:
    /// `program` says its last argument, in the language of the window, and ends when it was said.
    explicit Speaker(QString program = QStringLiteral("spd-say"), QObject* parent = nullptr);
    ~Speaker() override;

    [[nodiscard]] bool available() const;

    /// Off at first. What is being said is cut short when it is turned off.
    void turn(bool on);

    [[nodiscard]] bool on() const { return on_; }

    /// Says it when nothing sounds; of several that wait the newest, and nothing twice in a row. A danger is said at once,
    /// and cuts short what is being said. Empty: nothing waits any more.
    void say(const QString& text, bool danger);

    /// What the analysis has heard up to now, and whether a string sounds. Frames that go back are another source's.
    void follow(FrameIndex heardUpTo, bool sounding);

    [[nodiscard]] bool speaking() const { return process_.state() != QProcess::NotRunning; }

    /// Whether a pluck fell into what was said, or its echo.
    [[nodiscard]] bool drownedOut(FrameIndex pluck, SampleRate rate) const;

private:
    void speak();
    void cutShort();

    QString program_;
    bool on_ = false;
    QString waits_;
    QString said_;
    bool danger_ = false;
    bool sounding_ = false;
    FrameIndex heardUpTo_;
    QProcess process_;
    QTimer quiet_;                   ///< runs since nothing sounds
    std::optional<FrameIndex> from_; ///< of what was said last
    FrameIndex until_;
};

} // namespace quillbench

#pragma once

#include "app/models/choices.hpp"
#include "audio/pitch_listener.hpp"
#include "core/support/result.hpp"
#include "core/temperament/heard_standard.hpp"

#include <QDialog>
#include <QStringList>
#include <QTimer>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

class QLabel;
class QPushButton;

namespace quillbench {

class SoundPicker;

/// Hears at which pitch another instrument stands: its A, or all twelve notes one after another. **Thread** GUI; the
/// listening has one of its own.
class HearPitchDialog : public QDialog {
    Q_OBJECT

public:
    /// Gives the sound of a microphone or a recording, and its clock.
    struct Sound {
        std::shared_ptr<AudioSource> source;
        ClockCalibration clock;
    };

    using OpenSound = std::function<Result<Sound>(const SourceChoice&)>;

    /// `source`: what is listened to now. `devices`: names of the inputs. Twelve notes are compared with `temperament`.
    /// **Range** standardHz: of the session.
    HearPitchDialog(const SourceChoice& source,
                    const QStringList& devices,
                    OpenSound open,
                    const Temperament& temperament,
                    double standardHz,
                    QWidget* parent = nullptr);
    ~HearPitchDialog() override;

    /// Begins to listen anew, or ends it.
    void listen(bool on);

    /// What was heard so far.
    [[nodiscard]] const std::optional<HeardStandard>& heard() const { return heard_; }

    /// It was accepted to be tuned at now, not only kept for the first look.
    [[nodiscard]] bool tuneAtOnce() const { return atOnce_; }

private:
    void build(const QStringList& devices, const SourceChoice& source);
    void sourcePicked();
    void look();
    void hear(const PitchHearing& hearing);
    void showHeard();

    OpenSound open_;
    Temperament temperament_;
    double standardHz_;
    std::unique_ptr<PitchListener> listener_;
    std::optional<HeardStandard> heard_;
    bool atOnce_ = false;
    QTimer timer_;
    SoundPicker* source_ = nullptr;
    QPushButton* listen_ = nullptr;
    QPushButton* keep_ = nullptr;
    QPushButton* tune_ = nullptr;
    QLabel* figure_ = nullptr;
    QLabel* state_ = nullptr;
    QLabel* notes_ = nullptr;
    QLabel* from_ = nullptr;
};

} // namespace quillbench

#pragma once

#include "app/models/choices.hpp"
#include "app/text/note_names.hpp"
#include "app/text/translation.hpp"
#include "core/units/frames.hpp"

#include <QSettings>
#include <QString>
#include <memory>
#include <optional>

namespace quillbench {

/// The state of the last session and what the person prefers, in one INI file.
/// **Thread** GUI.
class SettingsStore {
public:
    /// `folder` empty: the platform's place for settings. It is made when something is first kept.
    explicit SettingsStore(const QString& folder);

    [[nodiscard]] TuningChoice tuning() const;
    void keep(const TuningChoice& choice);

    /// The options alone: of the session to come, while another is under way.
    void keep(const SessionOptions& options);

    [[nodiscard]] SourceChoice source() const;
    void keep(const SourceChoice& choice);

    [[nodiscard]] Appearance appearance() const;
    void keep(Appearance appearance);

    [[nodiscard]] Language language() const;
    void keep(Language language);

    /// Nothing: as is usual in the language.
    [[nodiscard]] std::optional<NoteNaming> noteNaming() const;
    void keep(const std::optional<NoteNaming>& naming);

    /// How far a device's clock runs from true. A device that was never calibrated: 0 ± 50 ppm, which covers ordinary
    /// sound cards (common practice, no source).
    [[nodiscard]] ClockCalibration calibration(const QString& device) const;
    void keep(const QString& device, const ClockCalibration& calibration);

    /// Which channel of a device, at which rate. One that was never chosen: the first, at 48 kHz.
    [[nodiscard]] InputChoice input(const QString& device) const;
    void keep(const QString& device, const InputChoice& input);

    /// Where another instrument was last heard to stand.
    [[nodiscard]] std::optional<HeardPitch> heardPitch() const;
    void keep(const HeardPitch& heard);

    [[nodiscard]] QByteArray windowGeometry() const;
    void keepWindowGeometry(const QByteArray& geometry);

    /// Cautions that are shown until they were read once.
    [[nodiscard]] bool wasRead(const QString& caution) const;
    void keepRead(const QString& caution);

    /// Whether what to do is said aloud.
    [[nodiscard]] bool speaks() const;
    void keepSpeaks(bool speaks);

    /// Whether high contrast, or less motion, was chosen or refused; nothing: as the desktop wants it.
    [[nodiscard]] std::optional<bool> highContrast() const;
    [[nodiscard]] std::optional<bool> lessMotion() const;
    void keepHighContrast(bool on);
    void keepLessMotion(bool on);

    /// Whether the questions of a first start need not be asked: they were, or something was chosen before.
    [[nodiscard]] bool wasAsked() const;
    void keepAsked();

    /// Where recordings go when kept with one key.
    [[nodiscard]] QString recordingsFolder() const;

private:
    [[nodiscard]] SessionOptions sessionOptions() const;
    [[nodiscard]] Cents tolerance(const char* name, Cents usual) const;

    QString folder_;
    std::unique_ptr<QSettings> file_;
};

} // namespace quillbench

#include "app/models/settings_store.hpp"

#include <QDir>
#include <QStandardPaths>
#include <algorithm>

namespace quillbench {

namespace {

constexpr double kUncalibratedPpm = 50.0;
constexpr int kMostChannels = 256;
constexpr double kLowestRateHz = 44100.0;
constexpr double kHighestRateHz = 192000.0;

QString key(const char* name) {
    return QString::fromLatin1(name);
}

/// Device names hold slashes, which QSettings takes for groups.
QString deviceKey(const char* group, const QString& device, const char* field) {
    const QString safe = QString::fromLatin1(
        (device.isEmpty() ? QByteArrayLiteral("default") : device.toUtf8()).toPercentEncoding());
    return QStringLiteral("%1/%2/%3").arg(key(group), safe, key(field));
}

} // namespace

SettingsStore::SettingsStore(const QString& folder)
    : folder_(folder.isEmpty() ? QStandardPaths::writableLocation(QStandardPaths::AppConfigLocation)
                               : folder),
      file_(std::make_unique<QSettings>(QDir(folder_).filePath(key("quillbench.ini")),
                                        QSettings::IniFormat)) {
    if (!folder.isEmpty()) {
        return;
    }
    folder_.clear();
}

TuningChoice SettingsStore::tuning() const {
    TuningChoice choice;
    choice.instrument = file_->value(key("tuning/instrument"), key("double-8-8-4")).toString();
    choice.choir = file_->value(key("tuning/choir"), key("8")).toString();
    choice.temperament = file_->value(key("tuning/temperament"), key("vallotti")).toString();
    bool number = false;
    const double a4 = file_->value(key("tuning/a4_hz"), choice.a4Hz).toDouble(&number);
    choice.a4Hz = number ? std::clamp(a4, kLowestStandardHz, kHighestStandardHz) : choice.a4Hz;
    choice.lowest = file_->value(key("tuning/lowest"), key("C3")).toString();
    choice.order = file_->value(key("tuning/order"), key("from-a")).toString() == key("chromatic")
                       ? StepOrder::Chromatic
                       : StepOrder::FromA;
    choice.position = file_->value(key("tuning/position"), 0).toInt();
    choice.extent = file_->value(key("tuning/extent")).toString() == key("whole") ? Extent::Whole
                                                                                  : Extent::Octave;
    SessionParts& parts = choice.parts;
    parts.runThrough = file_->value(key("tuning/run_through"), parts.runThrough).toBool();
    parts.warmUp = file_->value(key("tuning/warm_up"), parts.warmUp).toBool();
    parts.firstLook = file_->value(key("tuning/first_look"), parts.firstLook).toBool();
    parts.recheck = file_->value(key("tuning/recheck"), parts.recheck).toBool();
    choice.options = sessionOptions();
    return choice;
}

Cents SettingsStore::tolerance(const char* name, Cents usual) const {
    bool number = false;
    const double kept = file_->value(key(name), usual.value()).toDouble(&number);
    return number ? Cents(std::clamp(kept, kLeastToleranceCents, kMostToleranceCents)) : usual;
}

SessionOptions SettingsStore::sessionOptions() const {
    SessionOptions options;
    options.leftAlone = file_->value(key("tuning/left_alone")).toStringList();
    const QString outward = file_->value(key("tuning/outward")).toString();
    options.outward = outward == key("up-then-down") ? Outward::UpThenDown
                      : outward == key("by-turns")   ? Outward::ByTurns
                                                     : Outward::DownThenUp;
    options.approach = file_->value(key("tuning/approach")).toString() == key("from-below")
                           ? Approach::FromBelow
                           : Approach::SettleDown;
    Tolerances& tolerances = options.tolerances;
    tolerances.bearings = tolerance("tuning/bearings_cents", tolerances.bearings);
    tolerances.extremes = tolerance("tuning/extremes_cents", tolerances.extremes);
    tolerances.unisons = tolerance("tuning/unisons_cents", tolerances.unisons);
    options.felt = file_->value(key("tuning/felt"), options.felt).toBool();
    return options;
}

void SettingsStore::keep(const SessionOptions& options) {
    file_->setValue(key("tuning/left_alone"), options.leftAlone);
    file_->setValue(key("tuning/outward"),
                    options.outward == Outward::UpThenDown ? key("up-then-down")
                    : options.outward == Outward::ByTurns  ? key("by-turns")
                                                           : key("down-then-up"));
    file_->setValue(key("tuning/approach"),
                    options.approach == Approach::FromBelow ? key("from-below")
                                                            : key("settle-down"));
    file_->setValue(key("tuning/bearings_cents"), options.tolerances.bearings.value());
    file_->setValue(key("tuning/extremes_cents"), options.tolerances.extremes.value());
    file_->setValue(key("tuning/unisons_cents"), options.tolerances.unisons.value());
    file_->setValue(key("tuning/felt"), options.felt);
}

void SettingsStore::keep(const TuningChoice& choice) {
    file_->setValue(key("tuning/instrument"), choice.instrument);
    file_->setValue(key("tuning/choir"), choice.choir);
    file_->setValue(key("tuning/temperament"), choice.temperament);
    file_->setValue(key("tuning/a4_hz"),
                    choice.afterLook ? choice.afterLook->standardHz : choice.a4Hz);
    file_->setValue(key("tuning/lowest"), choice.lowest);
    file_->setValue(key("tuning/order"),
                    choice.order == StepOrder::Chromatic ? key("chromatic") : key("from-a"));
    file_->setValue(key("tuning/position"), choice.position);
    file_->setValue(key("tuning/extent"),
                    choice.extent == Extent::Whole ? key("whole") : key("octave"));
    file_->setValue(key("tuning/run_through"), choice.parts.runThrough);
    file_->setValue(key("tuning/warm_up"), choice.parts.warmUp);
    file_->setValue(key("tuning/first_look"), choice.parts.firstLook);
    file_->setValue(key("tuning/recheck"), choice.parts.recheck);
    keep(choice.options);
}

SourceChoice SettingsStore::source() const {
    SourceChoice choice;
    if (file_->value(key("sound/source")).toString() == key("microphone")) {
        choice.kind = SourceKind::Microphone;
        choice.device = file_->value(key("sound/device")).toString();
    }
    return choice;
}

void SettingsStore::keep(const SourceChoice& choice) {
    // A recording is looked at once; the next start is on what was used before it.
    if (choice.kind == SourceKind::File) {
        return;
    }
    file_->setValue(key("sound/source"),
                    choice.kind == SourceKind::Microphone ? key("microphone") : key("virtual"));
    file_->setValue(key("sound/device"), choice.device);
}

Appearance SettingsStore::appearance() const {
    const QString text = file_->value(key("window/appearance")).toString();
    return text == key("dark")    ? Appearance::Dark
           : text == key("light") ? Appearance::Light
                                  : Appearance::AsSystem;
}

void SettingsStore::keep(Appearance appearance) {
    file_->setValue(key("window/appearance"),
                    appearance == Appearance::Dark    ? key("dark")
                    : appearance == Appearance::Light ? key("light")
                                                      : key("system"));
}

Language SettingsStore::language() const {
    return languageOf(file_->value(key("window/language")).toString());
}

void SettingsStore::keep(Language language) {
    file_->setValue(key("window/language"), languageCode(language));
}

std::optional<NoteNaming> SettingsStore::noteNaming() const {
    const QString words = file_->value(key("window/note_words")).toString();
    const QString octaves = file_->value(key("window/octaves")).toString();
    if (words.isEmpty()) {
        return std::nullopt;
    }
    return NoteNaming{words == key("german")    ? NoteWords::German
                      : words == key("solfege") ? NoteWords::Solfege
                                                : NoteWords::Letters,
                      octaves == key("helmholtz") ? OctaveSigns::Helmholtz
                                                  : OctaveSigns::Scientific};
}

void SettingsStore::keep(const std::optional<NoteNaming>& naming) {
    if (!naming) {
        file_->remove(key("window/note_words"));
        file_->remove(key("window/octaves"));
        return;
    }
    file_->setValue(key("window/note_words"),
                    naming->words == NoteWords::German    ? key("german")
                    : naming->words == NoteWords::Solfege ? key("solfege")
                                                          : key("letters"));
    file_->setValue(key("window/octaves"),
                    naming->octaves == OctaveSigns::Helmholtz ? key("helmholtz")
                                                              : key("scientific"));
}

ClockCalibration SettingsStore::calibration(const QString& device) const {
    return ClockCalibration{
        file_->value(deviceKey("calibration", device, "ppm"), 0.0).toDouble(),
        file_->value(deviceKey("calibration", device, "ppm_uncertainty"), kUncalibratedPpm)
            .toDouble()};
}

void SettingsStore::keep(const QString& device, const ClockCalibration& calibration) {
    file_->setValue(deviceKey("calibration", device, "ppm"), calibration.ppm);
    file_->setValue(deviceKey("calibration", device, "ppm_uncertainty"),
                    calibration.ppmUncertainty);
}

InputChoice SettingsStore::input(const QString& device) const {
    InputChoice input;
    input.channel = std::clamp(
        file_->value(deviceKey("input", device, "channel"), 1).toInt() - 1, 0, kMostChannels - 1);
    bool number = false;
    const double rate =
        file_->value(deviceKey("input", device, "rate_hz"), input.rate.hz()).toDouble(&number);
    input.rate = number ? SampleRate(std::clamp(rate, kLowestRateHz, kHighestRateHz)) : input.rate;
    return input;
}

void SettingsStore::keep(const QString& device, const InputChoice& input) {
    file_->setValue(deviceKey("input", device, "channel"), input.channel + 1);
    file_->setValue(deviceKey("input", device, "rate_hz"), input.rate.hz());
}

std::optional<HeardPitch> SettingsStore::heardPitch() const {
    HeardPitch heard;
    bool number = false;
    heard.a4Hz = file_->value(key("heard/a4_hz")).toDouble(&number);
    heard.uncertainty = Cents(file_->value(key("heard/cents_u")).toDouble());
    heard.ofTwelve = file_->value(key("heard/of_twelve"), false).toBool();
    heard.at = file_->value(key("heard/at")).toDateTime();
    const bool possible = number && heard.a4Hz >= kLowestStandardHz &&
                          heard.a4Hz <= kHighestStandardHz && heard.at.isValid() &&
                          heard.uncertainty >= Cents(0.0) && heard.uncertainty < Cents(1200.0);
    return possible ? std::optional(heard) : std::nullopt;
}

void SettingsStore::keep(const HeardPitch& heard) {
    file_->setValue(key("heard/a4_hz"), heard.a4Hz);
    file_->setValue(key("heard/cents_u"), heard.uncertainty.value());
    file_->setValue(key("heard/of_twelve"), heard.ofTwelve);
    file_->setValue(key("heard/at"), heard.at);
}

QByteArray SettingsStore::windowGeometry() const {
    return file_->value(key("window/geometry")).toByteArray();
}

void SettingsStore::keepWindowGeometry(const QByteArray& geometry) {
    file_->setValue(key("window/geometry"), geometry);
}

bool SettingsStore::wasRead(const QString& caution) const {
    return file_->value(key("cautions/") + caution, false).toBool();
}

void SettingsStore::keepRead(const QString& caution) {
    file_->setValue(key("cautions/") + caution, true);
}

bool SettingsStore::speaks() const {
    return file_->value(key("window/speaks"), false).toBool();
}

void SettingsStore::keepSpeaks(bool speaks) {
    file_->setValue(key("window/speaks"), speaks);
}

std::optional<bool> SettingsStore::highContrast() const {
    const QVariant kept = file_->value(key("window/high_contrast"));
    return kept.isValid() ? std::optional(kept.toBool()) : std::nullopt;
}

std::optional<bool> SettingsStore::lessMotion() const {
    const QVariant kept = file_->value(key("window/less_motion"));
    return kept.isValid() ? std::optional(kept.toBool()) : std::nullopt;
}

void SettingsStore::keepHighContrast(bool on) {
    file_->setValue(key("window/high_contrast"), on);
}

void SettingsStore::keepLessMotion(bool on) {
    file_->setValue(key("window/less_motion"), on);
}

bool SettingsStore::wasAsked() const {
    return file_->value(key("window/asked"), false).toBool() ||
           file_->contains(key("tuning/instrument")) || file_->contains(key("sound/source"));
}

void SettingsStore::keepAsked() {
    file_->setValue(key("window/asked"), true);
}

QString SettingsStore::recordingsFolder() const {
    if (!folder_.isEmpty()) {
        return QDir(folder_).filePath(key("recordings"));
    }
    return QDir(QStandardPaths::writableLocation(QStandardPaths::MusicLocation))
        .filePath(key("Quillbench"));
}

} // namespace quillbench

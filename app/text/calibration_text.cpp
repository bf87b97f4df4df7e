#include "app/text/calibration_text.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct CalibrationText {
    Q_DECLARE_TR_FUNCTIONS(CalibrationText)
};

/// Cents of one part per million; what a reading is good for.
constexpr double kCentsPerPpm = 1200.0 / 0.6931471805599453 * 1e-6;
/// A thousandth of a cent: nothing that is tuned asks for more.
constexpr double kSurePpm = 0.6;

QString number(double value, int decimals) {
    return QLocale().toString(value, 'f', decimals);
}

/// As many decimals as the uncertainty deserves.
int decimalsFor(double uncertainty) {
    return std::clamp(static_cast<int>(std::ceil(-std::log10(std::max(uncertainty, 1e-3)))), 1, 3);
}

QString known(const ClockHearing& hearing) {
    const double ppm = hearing.best->ppmUncertainty;
    const QString text =
        CalibrationText::tr("Heard steadily for %1 s; known to %2 cent.")
            .arg(number(hearing.steady.count(), 0), number(std::max(ppm * kCentsPerPpm, 1e-4), 4));
    return ppm < kSurePpm
               ? CalibrationText::tr("%1 That is sure enough: keep it.").arg(text)
               : CalibrationText::tr("%1 It grows surer as long as the tone goes on.").arg(text);
}

} // namespace

QString calibrationFigure(const ClockHearing& hearing) {
    if (!hearing.best) {
        return QStringLiteral("–");
    }
    const double uncertainty = hearing.best->ppmUncertainty;
    const int decimals = decimalsFor(uncertainty);
    const QString size = number(std::abs(hearing.best->ppm), decimals);
    const QString sign = hearing.best->ppm < 0.0 ? QStringLiteral("\u2212") : QStringLiteral("+");
    const double shown =
        std::ceil(uncertainty * std::pow(10.0, decimals)) / std::pow(10.0, decimals);
    return CalibrationText::tr("%1%2 ± %3 ppm").arg(sign, size, number(shown, decimals));
}

QString calibrationState(const ClockHearing& hearing, double toneHz) {
    QString text;
    switch (hearing.standing) {
    case ClockHearing::Standing::Waiting:
        text = hearing.source.error ? errorText(*hearing.source.error)
                                    : CalibrationText::tr("Waiting for sound.");
        break;
    case ClockHearing::Standing::Following:
        text = CalibrationText::tr("A steady tone near %1 Hz; five seconds are needed at least.")
                   .arg(number(toneHz, 1));
        break;
    case ClockHearing::Standing::NotHeard:
        text = CalibrationText::tr("No steady tone near %1 Hz is heard: it is too soft, its "
                                   "loudness varies, or its pitch does. Bring it closer and keep "
                                   "the room quiet.")
                   .arg(number(toneHz, 1));
        break;
    case ClockHearing::Standing::WrongTone:
        text = coreText(hearing.why);
        break;
    case ClockHearing::Standing::Known:
        return known(hearing);
    }
    return hearing.best ? CalibrationText::tr("%1 What was measured before stands.").arg(text)
                        : text;
}

QString calibrationBefore() {
    return CalibrationText::tr("Let the tone sound, then listen. Ten seconds give a first value; "
                               "it grows surer as long as the tone goes on.");
}

QString virtualNeedsNoCalibration() {
    return CalibrationText::tr(
        "The virtual instrument counts its own samples and has no clock that "
        "could be wrong. Choose the microphone that you tune with.");
}

} // namespace quillbench

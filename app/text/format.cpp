#include "app/text/format.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <cmath>

namespace quillbench {

namespace {

struct FormatText {
    Q_DECLARE_TR_FUNCTIONS(FormatText)
};

constexpr double kWholeCentsFrom = 100.0;
constexpr QChar kMinus(0x2212);

double tenths(double value) {
    return std::round(value * 10.0) / 10.0;
}

} // namespace

QString toQString(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

QString sizeInCents(Cents cents) {
    const double size = abs(cents).value();
    return QLocale().toString(size, 'f', size >= kWholeCentsFrom ? 0 : 1);
}

QString signedCents(Cents cents) {
    const double shown = tenths(cents.value());
    if (std::abs(shown) < 0.05) {
        return sizeInCents(Cents(0.0));
    }
    return (shown < 0.0 ? QString(kMinus) : QStringLiteral("+")) + sizeInCents(cents);
}

QString signedTenths(double difference) {
    const double shown = tenths(difference);
    const QString sign = shown < 0.0 ? QString(kMinus) : QStringLiteral("+");
    return (std::abs(shown) < 0.05 ? QString() : sign) +
           QLocale().toString(std::abs(shown), 'f', 1);
}

QString plusMinus(Cents uncertainty) {
    const double up = std::max(0.1, std::ceil(uncertainty.value() * 10.0 - 1e-9) / 10.0);
    return QStringLiteral("± ") + QLocale().toString(up, 'f', up >= kWholeCentsFrom ? 0 : 1);
}

QString sharpOrFlat(Cents deviation) {
    const double shown = tenths(deviation.value());
    if (std::abs(shown) < 0.05) {
        return FormatText::tr("in tune");
    }
    return shown > 0.0 ? FormatText::tr("sharp") : FormatText::tr("flat");
}

QString hertzText(Hertz frequency) {
    return FormatText::tr("%1 Hz").arg(QLocale().toString(frequency.value(), 'f', 2));
}

QString degreesText(double degrees) {
    const double size = std::abs(degrees);
    if (size < 0.1) {
        return FormatText::tr("less than %1°").arg(QLocale().toString(0.1, 'f', 1));
    }
    return FormatText::tr("%1°").arg(QLocale().toString(size, 'f', size < 10.0 ? 1 : 0));
}

} // namespace quillbench

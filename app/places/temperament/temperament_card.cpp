#include "app/places/temperament/temperament_card.hpp"

#include "app/paint/theme.hpp"
#include "app/places/temperament/circle_view.hpp"
#include "app/places/temperament/temperament_text.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "core/temperament/beat_table.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <QPagedPaintDevice>
#include <QPainter>

namespace quillbench {

namespace {

struct TemperamentCard {
    Q_DECLARE_TR_FUNCTIONS(TemperamentCard)
};

constexpr double kCardMillimetre = kPrintDots / 25.4;
constexpr double kCardMargin = 9.0; // mm
constexpr double kCardTextMm = 2.9; // height of ordinary type

/// Ink on white: paper has its own colour.
Theme paperTheme() {
    Theme theme = Theme::light();
    theme.paper = Qt::white;
    theme.sheet = Qt::white;
    theme.ink = Qt::black;
    return theme;
}

/// Writes downwards; everything in dots.
struct CardWriter {
    QPainter& painter;
    QRectF area;
    double y = 0.0;

    void setType(double millimetres, bool bold = false) {
        QFont font = painter.font();
        font.setPixelSize(static_cast<int>(millimetres * kCardMillimetre));
        font.setBold(bold);
        painter.setFont(font);
    }

    void write(const QString& text) {
        const QRectF room(area.left(), y, area.width(), area.bottom() - y);
        const QRectF needed = painter.boundingRect(room, Qt::TextWordWrap, text);
        painter.drawText(room, Qt::TextWordWrap, text);
        y = needed.bottom() + 0.4 * kCardMillimetre;
    }
};

void writeNotes(CardWriter& card, const TunedScale& scale, const QRectF& box) {
    const std::vector<Note> keys =
        keysBetween(scale.temperament, Note{{Letter::C, 0}, 4}, Note{{Letter::B, 0}, 4});
    const double line = box.height() / static_cast<double>(keys.size() + 1);
    card.setType(std::min(kCardTextMm, line / kCardMillimetre * 0.75));
    const double column = box.width() / 3.0;
    const auto row =
        [&](std::size_t i, const QString& note, const QString& cents, const QString& hz) {
            const double top = box.top() + line * static_cast<double>(i);
            card.painter.drawText(
                QRectF(box.left(), top, column, line), Qt::AlignLeft | Qt::AlignVCenter, note);
            card.painter.drawText(QRectF(box.left() + column * 0.6, top, column, line),
                                  Qt::AlignRight | Qt::AlignVCenter,
                                  cents);
            card.painter.drawText(QRectF(box.left() + column * 1.8, top, column * 1.2, line),
                                  Qt::AlignRight | Qt::AlignVCenter,
                                  hz);
        };
    row(0, QString(), TemperamentCard::tr("cents*"), TemperamentCard::tr("Hz"));
    for (std::size_t i = 0; i < keys.size(); ++i) {
        row(i + 1,
            noteText(keys[i]),
            signedCents(scale.temperament.offsetFromEqual(keys[i].pitchClass)),
            QLocale().toString(scale.pitchOf(keys[i]).value(), 'f', 2));
    }
}

/// The steps of the plan in the largest type in which they fit above the footnote, with its checks where there is room.
void writeBearings(CardWriter& card, const BearingPlan& plan, double bottom) {
    constexpr double kLargest = 2.9;         // mm
    constexpr double kLeastWithChecks = 2.3; // mm; smaller is not read from the stool
    constexpr double kLeast = 1.6;
    constexpr double kFiner = 0.1;
    constexpr int kSizes = 14;
    for (int i = 0; i < kSizes; ++i) {
        const double size = kLargest - kFiner * i;
        for (const bool checks : {true, false}) {
            if (checks && size < kLeastWithChecks) {
                continue;
            }
            QString text;
            int number = 0;
            for (const BearingStep& step : plan.steps) {
                if (checks || step.kind != StepKind::Check) {
                    text += TemperamentCard::tr("%1. %2\n").arg(++number).arg(bearingText(step));
                }
            }
            card.setType(size);
            const QRectF room(card.area.left(), card.y, card.area.width(), bottom - card.y);
            const QRectF needed = card.painter.boundingRect(room, Qt::TextWordWrap, text.trimmed());
            if (needed.bottom() <= bottom || (size <= kLeast + kFiner / 2.0 && !checks)) {
                card.painter.drawText(room, Qt::TextWordWrap, text.trimmed());
                return;
            }
        }
    }
}

void paintCard(QPainter& painter, const QRectF& page, const TemperamentModel& model) {
    const double margin = kCardMargin * kCardMillimetre;
    CardWriter card{painter, page.adjusted(margin, margin, -margin, -margin), page.top() + margin};
    const TunedScale scale = model.scale();
    const TemperamentDescription& about = scale.temperament.description();
    painter.setPen(Qt::black);
    card.setType(6.0, true);
    card.write(coreText(about.name));
    card.setType(kCardTextMm);
    card.write(TemperamentCard::tr("a\u2032 = %1").arg(hertzText(Hertz(model.a4Hz()))));
    card.write(aboutText(about).front());
    const double side = card.area.width() * 0.58;
    paintCircle(painter,
                QRectF(card.area.left() - side * 0.06, card.y, side, side),
                circlePicture(model),
                paperTheme(),
                model.fifths().size(),
                false);
    painter.setPen(Qt::black);
    writeNotes(card,
               scale,
               QRectF(card.area.left() + side * 0.99,
                      card.y + side * 0.06,
                      card.area.right() - card.area.left() - side * 0.99,
                      side * 0.88));
    card.y += side + kCardMillimetre;
    painter.setPen(Qt::black);
    card.setType(kCardTextMm * 1.15, true);
    card.write(TemperamentCard::tr("The bearings"));
    const double footnote = 4.5 * kCardMillimetre;
    writeBearings(card, computedPlan(scale), card.area.bottom() - footnote);
    card.y = card.area.bottom() - footnote + kCardMillimetre;
    card.setType(kCardTextMm * 0.75);
    card.write(TemperamentCard::tr(
        "* from equal temperament, A = 0. P Pythagorean comma, S syntonic comma; "
        "below each fraction its cents."));
}

} // namespace

Printout temperamentCard(const TemperamentModel& model) {
    const auto paint = [&model](QPagedPaintDevice& device) -> Result<void> {
        device.setPageMargins(QMarginsF());
        QPainter painter;
        if (!painter.begin(&device)) {
            return nothingPrints();
        }
        paintCard(painter, QRectF(0.0, 0.0, device.width(), device.height()), model);
        if (!painter.end()) {
            return printingStopped();
        }
        return {};
    };
    return {coreText(model.temperament().description().name), QPageSize::A5, paint};
}

} // namespace quillbench

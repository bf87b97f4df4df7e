#include "app/views/place_bar.hpp"

#include "app/views/screen_reader.hpp"
#include "core/support/contract.hpp"

#include <QIcon>
#include <QKeySequence>
#include <QToolButton>
#include <QVBoxLayout>
#include <iterator>

namespace quillbench {

namespace {

struct PlaceSign {
    QString name;
    QString purpose;
    QString icon;
};

constexpr int kSign = 40;       // pixels of an icon
constexpr int kLowSign = 28;    // in a small window
constexpr int kLowWindow = 800; // a narrower window has no room for names

PlaceSign signOf(Place place) {
    switch (place) {
    case Place::Instrument:
        return {PlaceBar::tr("Instrument"),
                PlaceBar::tr("Choirs, registers and strings"),
                QStringLiteral("instrument")};
    case Place::Temperament:
        return {PlaceBar::tr("Temperament"),
                PlaceBar::tr("Choose, compare and make temperaments"),
                QStringLiteral("temperament")};
    case Place::Tune:
        return {PlaceBar::tr("Tune"),
                PlaceBar::tr("Tune an octave or the whole instrument"),
                QStringLiteral("tune")};
    case Place::Recheck:
        return {PlaceBar::tr("Recheck"),
                PlaceBar::tr("Hear what moved since it was tuned"),
                QStringLiteral("recheck")};
    case Place::Action:
        return {PlaceBar::tr("Action"),
                PlaceBar::tr("Plucks, plectra, dampers and faults"),
                QStringLiteral("action")};
    case Place::Practise:
        return {PlaceBar::tr("Practise"),
                PlaceBar::tr("Learn to hear beats"),
                QStringLiteral("practise")};
    case Place::Logbook:
        return {PlaceBar::tr("Logbook"), PlaceBar::tr("What was done"), QStringLiteral("logbook")};
    }
    return {};
}

} // namespace

PlaceBar::PlaceBar(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("places"));
    setAccessibleName(tr("Places"));
    setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Preferred);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(6, 10, 6, 10);
    column->addStretch(1);
}

void PlaceBar::add(Place place) {
    EXPECTS(!buttons_.contains(place));
    const PlaceSign sign = signOf(place);
    const int number = static_cast<int>(place) + 1;
    auto* button = new QToolButton(this);
    button->setText(sign.name);
    button->setIcon(QIcon(QStringLiteral(":/icons/%1.svg").arg(sign.icon)));
    button->setCheckable(true);
    presentAs(button, QAccessible::RadioButton);
    button->setAutoExclusive(true);
    button->setAutoRaise(true);
    button->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    button->setShortcut(QKeySequence(Qt::CTRL | static_cast<Qt::Key>(Qt::Key_0 + number)));
    button->setToolTip(tr("%1 (Ctrl+%2)").arg(sign.purpose).arg(number));
    connect(button, &QToolButton::clicked, this, [this, place] { Q_EMIT chosen(place); });
    const auto at = buttons_.emplace(place, button).first;
    static_cast<QVBoxLayout*>(layout())->insertWidget(
        static_cast<int>(std::distance(buttons_.begin(), at)), button);
    for (const auto& [each, inOrder] : buttons_) {
        inOrder->raise(); // told in the order in which they stand
    }
    fit();
}

QSize PlaceBar::minimumSizeHint() const {
    const int places = static_cast<int>(buttons_.size());
    return {kLowSign + 24, places * (kLowSign + 14) + 12};
}

void PlaceBar::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fit();
}

/// The names give way where they would not all be seen; they stay in the tips and for screen readers.
void PlaceBar::fit() {
    const int names = QFontMetrics(font()).lineSpacing();
    const int wanted = static_cast<int>(buttons_.size()) * (kSign + names + 18) + 20;
    const bool low = height() < wanted || window()->width() < kLowWindow;
    layout()->setSpacing(low ? 2 : 6);
    layout()->setContentsMargins(6, low ? 4 : 10, 6, low ? 4 : 10);
    for (const auto& [place, button] : buttons_) {
        button->setToolButtonStyle(low ? Qt::ToolButtonIconOnly : Qt::ToolButtonTextUnderIcon);
        button->setIconSize(low ? QSize(kLowSign, kLowSign) : QSize(kSign, kSign));
    }
}

void PlaceBar::show(Place place) {
    buttons_.at(place)->setChecked(true);
}

} // namespace quillbench

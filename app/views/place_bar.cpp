#include "app/views/place_bar.hpp"

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
        return {
            PlaceBar::tr("Tune"), PlaceBar::tr("Tune the first octave"), QStringLiteral("tune")};
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
    button->setIconSize(QSize(40, 40));
    button->setToolButtonStyle(Qt::ToolButtonTextUnderIcon);
    button->setCheckable(true);
    button->setAutoExclusive(true);
    button->setAutoRaise(true);
    button->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    button->setShortcut(QKeySequence(Qt::CTRL | static_cast<Qt::Key>(Qt::Key_0 + number)));
    button->setToolTip(tr("%1 (Ctrl+%2)").arg(sign.purpose).arg(number));
    connect(button, &QToolButton::clicked, this, [this, place] { Q_EMIT chosen(place); });
    const auto at = buttons_.emplace(place, button).first;
    static_cast<QVBoxLayout*>(layout())->insertWidget(
        static_cast<int>(std::distance(buttons_.begin(), at)), button);
}

void PlaceBar::show(Place place) {
    buttons_.at(place)->setChecked(true);
}

} // namespace quillbench

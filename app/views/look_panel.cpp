#include "app/views/look_panel.hpp"

#include "app/text/format.hpp"
#include "app/views/screen_reader.hpp"

#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLocale>
#include <QPushButton>
#include <cmath>

namespace quillbench {

namespace {

constexpr double kSecondsPerMinute = 60.0;
constexpr Cents kRaises(10.0); // more than a string is ever taken above its target

QString costText(const PitchOffer& offer, std::size_t strings) {
    return LookPanel::tr("%1 of %2 strings, on average %3 cents, at most %4 up; %5 min")
        .arg(QLocale().toString(std::lround(offer.strings)),
             QLocale().toString(static_cast<qulonglong>(strings)),
             sizeInCents(offer.averageMove),
             sizeInCents(offer.furthestUp),
             QLocale().toString(std::lround(offer.time.count() / kSecondsPerMinute)));
}

void nameButton(QPushButton* button, const QString& text, const QString& cost) {
    const QKeySequence key = button->shortcut(); // a new text takes it away
    button->setText(QStringLiteral("%1 (%2)").arg(text, key.toString(QKeySequence::NativeText)));
    button->setShortcut(key);
    button->setAccessibleName(text);
    button->setAccessibleDescription(cost);
}

} // namespace

LookPanel::LookPanel(QWidget* parent) : QWidget(parent), words_(new QLabel(this)) {
    setObjectName(QStringLiteral("firstLook"));
    setAccessibleName(tr("First look"));
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(16, 2, 16, 2);
    grid->setHorizontalSpacing(12);
    grid->setVerticalSpacing(2);
    grid->setColumnStretch(1, 1);
    words_->setObjectName(QStringLiteral("firstLookWords"));
    words_->setTextFormat(Qt::PlainText);
    words_->setWordWrap(true);
    presentAsAnnouncement(words_);
    grid->addWidget(words_, 0, 0, 1, 2);
    stay_ = addChoice(grid, 1, "stayAtStandard", costOfStaying_);
    stay_->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_F10));
    alone_.button = addChoice(grid, 2, "goOnAtPitch", alone_.cost);
    alone_.button->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_F11));
    asHeard_.button = addChoice(grid, 3, "goOnAsHeard", asHeard_.cost);
    asHeard_.button->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_F12));
    connect(stay_, &QPushButton::clicked, this, &LookPanel::standardChosen);
    for (const Choice* choice : {&alone_, &asHeard_}) {
        connect(choice->button, &QPushButton::clicked, this, [this, choice] {
            Q_EMIT pitchChosen(choice->shift);
        });
    }
}

QPushButton* LookPanel::addChoice(QGridLayout* grid, int row, const char* name, QLabel*& cost) {
    auto* button = new QPushButton(this);
    button->setObjectName(QString::fromLatin1(name));
    button->setAutoDefault(false);
    button->installEventFilter(this);
    cost = new QLabel(this);
    cost->setTextFormat(Qt::PlainText);
    cost->setWordWrap(true);
    grid->addWidget(button, row, 0);
    grid->addWidget(cost, row, 1);
    return button;
}

void LookPanel::show(const LookOffers& offers, double standardHz) {
    const QString staying = costText(offers.standard, offers.strings);
    nameButton(stay_, tr("Stay at %1").arg(hertzText(Hertz(standardHz))), staying);
    costOfStaying_->setText(staying);
    const auto pitchAt = [standardHz](Cents shift) {
        return hertzText(Hertz(standardShifted(standardHz, shift)));
    };
    alone_.button->setVisible(offers.alone.has_value());
    alone_.cost->setVisible(offers.alone.has_value());
    if (offers.alone) {
        alone_.shift = offers.alone->shift;
        present(alone_,
                tr("Tune at %1").arg(pitchAt(alone_.shift)),
                tr("%1 cents: %2")
                    .arg(signedCents(alone_.shift), costText(*offers.alone, offers.strings)));
    }
    asHeard_.button->setVisible(offers.asHeard.has_value());
    asHeard_.cost->setVisible(offers.asHeard.has_value());
    if (offers.asHeard) {
        asHeard_.shift = offers.asHeard->shift;
        present(asHeard_,
                tr("As heard, %1").arg(pitchAt(asHeard_.shift)),
                tr("%1 %2 cents: %3")
                    .arg(signedCents(asHeard_.shift),
                         plusMinus(offers.asHeard->shiftUncertainty),
                         costText(*offers.asHeard, offers.strings)));
    }
    setVisible(true);
    const QString heard = QLocale().toString(static_cast<qulonglong>(offers.heard));
    const QString words =
        offers.alone
            ? tr("Strings heard: %1. Whoever plays on stays at the standard.").arg(heard)
            : tr("Strings heard: %1. No other pitch leaves more strings alone.").arg(heard);
    const auto rises = [](const std::optional<PitchOffer>& offer) {
        return offer && offer->shift > kRaises;
    };
    sayIn(
        words_,
        rises(offers.alone) || rises(offers.asHeard)
            ? tr("%1 Before an old instrument is raised ask its maker or a conservator.").arg(words)
            : words);
}

void LookPanel::present(Choice& choice, const QString& text, const QString& cost) {
    nameButton(choice.button, text, cost);
    choice.cost->setText(cost);
}

/// On a button the space bar presses it; elsewhere it keeps the string.
bool LookPanel::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride &&
        static_cast<QKeyEvent*>(event)->key() == Qt::Key_Space) {
        event->accept();
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace quillbench

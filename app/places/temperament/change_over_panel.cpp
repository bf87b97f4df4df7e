#include "app/places/temperament/change_over_panel.hpp"

#include "app/paint/theme.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/views/screen_reader.hpp"

#include <QEvent>
#include <QGridLayout>
#include <QKeySequence>
#include <QLabel>
#include <QLocale>
#include <QPushButton>
#include <QResizeEvent>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr int kAcross = 12; // pixels between the button and what it costs
constexpr int kDown = 2;

QString countText(std::size_t count) {
    return QLocale().toString(static_cast<qulonglong>(count));
}

QString minutesText(Seconds time) {
    constexpr double kSeconds = 60.0;
    return QLocale().toString(std::lround(time.count() / kSeconds));
}

QString wayText(const ChangeOver& way, std::size_t strings) {
    constexpr Cents kShownAsNone(0.05);
    const QString up = way.furthestUp < kShownAsNone
                           ? ChangeOverPanel::tr("none up")
                           : ChangeOverPanel::tr("at most %1 up").arg(sizeInCents(way.furthestUp));
    return ChangeOverPanel::tr("%1 of %2 strings, on average %3 cents, %4; %5 min")
        .arg(countText(way.strings.size()),
             countText(strings),
             sizeInCents(way.averageMove),
             up,
             minutesText(way.time));
}

QString standsText(const ChangeOverOffer& offer) {
    const QString in = ChangeOverPanel::tr("%1 at %2")
                           .arg(coreText(offer.standsIn.temperament.description().name),
                                hertzText(offer.standsIn.reference.hz));
    return offer.known == 0
               ? ChangeOverPanel::tr("From %1, taken as in tune, to this").arg(in)
               : ChangeOverPanel::tr("From %1 (where %2 of %3 strings were heard) to this")
                     .arg(in, countText(offer.known), countText(offer.strings));
}

} // namespace

ChangeOverPanel::ChangeOverPanel(QWidget* parent)
    : QWidget(parent),
      words_(new QLabel(this)),
      back_(new QLabel(this)),
      care_(new QLabel(this)),
      shift_(new QPushButton(this)),
      shifted_(new QLabel(this)) {
    setObjectName(QStringLiteral("changeOver"));
    setAccessibleName(tr("Change-over"));
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(kAcross);
    grid->setVerticalSpacing(kDown);
    grid->setColumnStretch(1, 1);
    const auto name = [](QLabel* label, const char* called) {
        label->setObjectName(QString::fromLatin1(called));
        label->setTextFormat(Qt::PlainText);
        label->setWordWrap(true);
    };
    name(words_, "changeOverWords");
    name(shifted_, "changeOverShifted");
    name(back_, "changeOverBack");
    name(care_, "changeOverCare");
    presentAsAnnouncement(words_);
    care_->setText(tr("A string rises far: before an old instrument is retuned ask its maker or a "
                      "conservator; see Change of pitch under Instrument, and keep the eyes away "
                      "from strings under tension."));
    shift_->setObjectName(QStringLiteral("shiftWhole"));
    shift_->setAutoDefault(false);
    grid->addWidget(words_, 0, 0, 1, 2);
    grid->addWidget(shift_, 1, 0);
    grid->addWidget(shifted_, 1, 1);
    grid->addWidget(back_, 2, 0, 1, 2);
    grid->addWidget(care_, 3, 0, 1, 2);
    grid->setRowStretch(4, 1);
    colourCare();
    showNone();
    connect(shift_, &QPushButton::clicked, this, [this] { Q_EMIT pitchWanted(pitch_); });
}

void ChangeOverPanel::showNone() {
    sayIn(words_,
          tr("The instrument stands in this. What it costs to go to another is told here: "
             "strings, cents, minutes, the way back."));
    for (QWidget* one : {static_cast<QWidget*>(back_),
                         static_cast<QWidget*>(care_),
                         static_cast<QWidget*>(shift_),
                         static_cast<QWidget*>(shifted_)}) {
        one->setVisible(false);
    }
    keepRoom();
}

void ChangeOverPanel::show(const ChangeOverOffer& offer) {
    const ChangeOver& there = offer.held.there;
    sayIn(words_,
          there.strings.empty()
              ? tr("%1: every string is near enough already.").arg(standsText(offer))
              : tr("%1: %2.").arg(standsText(offer), wayText(there, offer.strings)));
    back_->setVisible(!there.strings.empty());
    back_->setText(tr("The way back: %1.").arg(wayText(offer.held.back, offer.strings)));
    care_->setVisible(offer.farUp);
    shift_->setVisible(offer.shifted.has_value());
    shifted_->setVisible(offer.shifted.has_value());
    if (offer.shifted) {
        showShift(*offer.shifted, offer);
    }
    keepRoom();
}

void ChangeOverPanel::showShift(const ShiftOffer& shift, const ChangeOverOffer& offer) {
    const ChangeOver& there = offer.held.there;
    pitch_ = shift.a4Hz;
    const QString text = tr("Shift the whole to %1").arg(hertzText(Hertz(shift.a4Hz)));
    const QKeySequence key(Qt::CTRL | Qt::Key_F11); // as at Tune after a first look
    shift_->setText(QStringLiteral("%1 (%2)").arg(text, key.toString(QKeySequence::NativeText)));
    shift_->setShortcut(key); // a new text takes it away
    shift_->setAccessibleName(text);
    const QString cost = tr("%1 cents: %2; spares %3 strings, %4 min.")
                             .arg(signedCents(shift.there.shift),
                                  wayText(shift.there, offer.strings),
                                  countText(there.strings.size() - shift.there.strings.size()),
                                  minutesText(there.time - shift.there.time));
    shift_->setAccessibleDescription(cost);
    shifted_->setText(cost);
}

void ChangeOverPanel::colourCare() {
    QPalette danger = palette();
    danger.setColor(QPalette::WindowText, themeOf(palette()).danger);
    care_->setPalette(danger);
}

int ChangeOverPanel::heightOfAll() const {
    const int button = shift_->sizeHint().width() + kAcross;
    const int shiftRow =
        std::max(shift_->sizeHint().height(), shifted_->heightForWidth(width() - button));
    return words_->heightForWidth(width()) + shiftRow + back_->heightForWidth(width()) +
           care_->heightForWidth(width()) + 3 * kDown;
}

/// Room grows with what is said and is not given back before the width is another.
void ChangeOverPanel::keepRoom() {
    setMinimumHeight(std::max(minimumHeight(), heightOfAll()));
}

void ChangeOverPanel::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    if (event->size().width() != event->oldSize().width()) {
        setMinimumHeight(heightOfAll());
    }
}

void ChangeOverPanel::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    // A page is told of new colours before what stands in it has them.
    if (event->type() == QEvent::PaletteChange) {
        colourCare();
    }
}

} // namespace quillbench

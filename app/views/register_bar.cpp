#include "app/views/register_bar.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/written_text.hpp"

#include <QHBoxLayout>
#include <QLabel>
#include <QSignalBlocker>
#include <QToolButton>

namespace quillbench {

namespace {

/// On or off is said by a sign too: shades of a button are lost two metres away.
void signState(QToolButton* button) {
    const bool on = button->isChecked();
    const QKeySequence key = button->shortcut(); // a new text takes it away
    button->setText((on ? QStringLiteral("\u25CF ") : QStringLiteral("\u25CB ")) +
                    button->accessibleName());
    button->setShortcut(key);
    QFont font = button->font();
    font.setBold(on);
    button->setFont(font);
}

} // namespace

RegisterBar::RegisterBar(QWidget* parent) : QWidget(parent), row_(new QHBoxLayout(this)) {
    setObjectName(QStringLiteral("registers"));
    setAccessibleName(tr("Registers"));
    row_->setContentsMargins(16, 0, 16, 0);
    row_->setSpacing(6);
    row_->addWidget(new QLabel(tr("Registers:"), this));
    row_->addStretch(1);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void RegisterBar::build(const Instrument& instrument) {
    delete buttons_;
    registers_.clear();
    coupler_ = nullptr;
    buttons_ = new QWidget(this);
    auto* inside = new QHBoxLayout(buttons_);
    inside->setContentsMargins(0, 0, 0, 0);
    inside->setSpacing(6);
    const auto add = [&](const QString& text, const QKeySequence& key) {
        auto* button = new QToolButton(buttons_);
        button->setAccessibleName(text);
        button->setCheckable(true);
        button->setShortcut(key);
        signState(button);
        button->setToolTip(
            tipText(tr("%1 on or off (%2)").arg(text, key.toString(QKeySequence::NativeText))));
        connect(button, &QToolButton::toggled, this, [this, button] {
            signState(button);
            tellWhatIsOn();
        });
        inside->addWidget(button);
        return button;
    };
    for (std::size_t reg = 0; reg < instrument.registers.size(); ++reg) {
        const int digit = static_cast<int>(reg) + 1;
        registers_.push_back(
            add(coreText(instrument.registers[reg].name),
                digit <= 8 ? QKeySequence(Qt::ALT | (Qt::Key_0 + digit)) : QKeySequence()));
    }
    if (instrument.coupler == Coupler::Shove || instrument.coupler == Coupler::Lever) {
        coupler_ = add(tr("coupler"), QKeySequence(Qt::ALT | Qt::Key_9));
    }
    row_->insertWidget(1, buttons_);
}

void RegisterBar::show(const Instrument& instrument, const Registration& registration) {
    QString id = toQString(instrument.id) + QString::number(static_cast<int>(instrument.coupler));
    for (const JackRegister& reg : instrument.registers) {
        id += QLatin1Char('/') + toQString(reg.name);
    }
    if (id != instrument_) {
        instrument_ = id;
        build(instrument);
    }
    registration_ = registration;
    for (std::size_t reg = 0; reg < registers_.size(); ++reg) {
        const QSignalBlocker quiet(registers_[reg]);
        registers_[reg]->setChecked(registration.on[reg]);
        signState(registers_[reg]);
    }
    if (coupler_ != nullptr) {
        const QSignalBlocker quiet(coupler_);
        coupler_->setChecked(registration.coupled);
        signState(coupler_);
    }
}

void RegisterBar::tellWhatIsOn() {
    for (std::size_t reg = 0; reg < registers_.size(); ++reg) {
        registration_.on[reg] = registers_[reg]->isChecked();
    }
    registration_.coupled = coupler_ != nullptr && coupler_->isChecked();
    Q_EMIT drawn(registration_);
}

} // namespace quillbench

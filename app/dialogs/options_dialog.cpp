#include "app/dialogs/options_dialog.hpp"

#include "app/dialogs/fit_dialog.hpp"
#include "app/text/format.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLabel>
#include <QPushButton>

namespace quillbench {

namespace {

constexpr int kOptionsWidth = 460;
constexpr double kToleranceStepCents = 0.1;

QDoubleSpinBox* toleranceBox(QWidget* parent, const char* name) {
    auto* box = new QDoubleSpinBox(parent);
    box->setObjectName(QString::fromLatin1(name));
    box->setRange(kLeastToleranceCents, kMostToleranceCents);
    box->setDecimals(1);
    box->setSingleStep(kToleranceStepCents);
    box->setPrefix(QStringLiteral("\u00b1 "));
    box->setSuffix(OptionsDialog::tr(" cents"));
    return box;
}

QComboBox* listBox(QWidget* parent, const char* name) {
    auto* box = new QComboBox(parent);
    box->setObjectName(QString::fromLatin1(name));
    return box;
}

QLabel* wrapped(QWidget* parent, const QString& text) {
    auto* label = new QLabel(text, parent);
    label->setWordWrap(true);
    return label;
}

} // namespace

OptionsDialog::OptionsDialog(const SessionOptions& options,
                             const Instrument& instrument,
                             std::size_t first,
                             QWidget* parent)
    : QDialog(parent),
      outward_(listBox(this, "outward")),
      approach_(listBox(this, "approach")),
      bearings_(toleranceBox(this, "bearingsTolerance")),
      extremes_(toleranceBox(this, "extremesTolerance")),
      unisons_(toleranceBox(this, "unisonsTolerance")),
      felt_(new QCheckBox(tr("&Felt between the strings that are off"), this)) {
    setObjectName(QStringLiteral("optionsDialog"));
    setWindowTitle(tr("More of a whole session"));
    auto* form = new QFormLayout(this);
    addChoirs(*form, instrument, first);
    addWays(*form);
    addTolerances(*form);
    addFelt(*form);
    form->addRow(wrapped(this,
                         tr("A session in which something was done keeps its plan; what is "
                            "chosen here then counts from the next one on. An octave alone takes "
                            "the way to the target, the tolerance of the bearings and felt.")));
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel, this);
    QPushButton* usual = buttons->addButton(tr("As &usual"), QDialogButtonBox::ResetRole);
    usual->setObjectName(QStringLiteral("asUsual"));
    usual->setAutoDefault(false);
    form->addRow(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(usual, &QPushButton::clicked, this, [this] { show(SessionOptions{}); });
    // At the ends a plan never asks for more than in the bearings.
    connect(bearings_, &QDoubleSpinBox::valueChanged, extremes_, &QDoubleSpinBox::setMinimum);
    orderTabs();
    show(options);
    fitToWords(*this, kOptionsWidth);
}

/// From top to bottom.
void OptionsDialog::orderTabs() {
    std::vector<QWidget*> way(choirs_.begin(), choirs_.end());
    way.insert(way.end(), {outward_, approach_, bearings_, extremes_, unisons_, felt_});
    for (std::size_t next = 1; next < way.size(); ++next) {
        setTabOrder(way[next - 1], way[next]);
    }
    way.front()->setFocus();
}

/// Each choir but the one that is tuned first.
void OptionsDialog::addChoirs(QFormLayout& form, const Instrument& instrument, std::size_t first) {
    choirs_.reserve(instrument.choirs.size());
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        if (choir == first) {
            continue;
        }
        auto* box =
            new QCheckBox(tr("Leave the %1 alone").arg(choirText(instrument.choirs[choir])), this);
        box->setObjectName(toQString(instrument.choirs[choir].id));
        form.addRow(choirs_.empty() ? tr("Choirs") : QString(), box);
        choirs_.push_back(box);
    }
    if (!choirs_.empty()) {
        form.addRow(QString(),
                    wrapped(this,
                            tr("The one chosen under Choir, here the %1, is tuned first.")
                                .arg(choirText(instrument.choirs[first]))));
    }
}

void OptionsDialog::addWays(QFormLayout& form) {
    outward_->addItem(tr("down, then up"), static_cast<int>(Outward::DownThenUp));
    outward_->addItem(tr("up, then down"), static_cast<int>(Outward::UpThenDown));
    outward_->addItem(tr("by turns, a key below and a key above"),
                      static_cast<int>(Outward::ByTurns));
    form.addRow(tr("From the bearings &outward"), outward_);
    approach_->addItem(tr("a little above, then down into it"),
                       static_cast<int>(Approach::SettleDown));
    approach_->addItem(tr("from below, slackened first where it is sharp"),
                       static_cast<int>(Approach::FromBelow));
    form.addRow(tr("&To the target"), approach_);
}

void OptionsDialog::addTolerances(QFormLayout& form) {
    form.addRow(tr("Settled in the &bearings within"), bearings_);
    const QString never = tr("Never less than in the bearings");
    extremes_->setToolTip(never);
    extremes_->setAccessibleDescription(never);
    form.addRow(tr("at both &ends of the compass"), extremes_);
    form.addRow(tr("another choir &against the first"), unisons_);
}

void OptionsDialog::addFelt(QFormLayout& form) {
    const QString reason =
        tr("A silenced string rings along and moves what is read by up to two cents.");
    felt_->setObjectName(QStringLiteral("felt"));
    felt_->setToolTip(reason);
    felt_->setAccessibleDescription(reason);
    form.addRow(felt_);
    form.addRow(wrapped(this, reason));
}

void OptionsDialog::show(const SessionOptions& options) {
    for (QCheckBox* choir : choirs_) {
        choir->setChecked(options.leftAlone.contains(choir->objectName()));
    }
    outward_->setCurrentIndex(outward_->findData(static_cast<int>(options.outward)));
    approach_->setCurrentIndex(approach_->findData(static_cast<int>(options.approach)));
    bearings_->setValue(options.tolerances.bearings.value());
    extremes_->setValue(options.tolerances.extremes.value());
    unisons_->setValue(options.tolerances.unisons.value());
    felt_->setChecked(options.felt);
}

SessionOptions OptionsDialog::options() const {
    SessionOptions options;
    for (const QCheckBox* choir : choirs_) {
        if (choir->isChecked()) {
            options.leftAlone << choir->objectName();
        }
    }
    options.outward = static_cast<Outward>(outward_->currentData().toInt());
    options.approach = static_cast<Approach>(approach_->currentData().toInt());
    options.tolerances.bearings = Cents(bearings_->value());
    options.tolerances.extremes = Cents(extremes_->value());
    options.tolerances.unisons = Cents(unisons_->value());
    options.felt = felt_->isChecked();
    return options;
}

} // namespace quillbench

#include "app/places/action/action_tools.hpp"

#include <QGridLayout>
#include <QKeySequence>
#include <QLabel>
#include <QToolButton>

namespace quillbench {

namespace {

constexpr int kToolsInOneRowFrom = 1000; // of the page's width
constexpr int kToolsInARow = 3;

} // namespace

QToolButton*
actionButton(QWidget* parent, const QString& text, const QString& help, const QKeySequence& key) {
    auto* made = new QToolButton(parent);
    made->setText(text);
    made->setShortcut(key);
    made->setToolTip(ActionTools::tr("%1 (%2)").arg(help, key.toString(QKeySequence::NativeText)));
    made->setAccessibleDescription(help);
    return made;
}

ActionTools::ActionTools(QLabel* told, QWidget* parent)
    : QWidget(parent),
      grid_(new QGridLayout(this)),
      told_(told) {
    grid_->setContentsMargins(0, 0, 0, 0);
    moved_ = add(tr("Microphone moved"),
                 tr("The microphone stands half a metre from where it stood: play the keys again"),
                 QKeySequence(Qt::CTRL | Qt::Key_M));
    moved_->setCheckable(true);
    keep_ = add(tr("Keep for comparison"),
                tr("Keep how this register sounds today, to see what its plectra lose"),
                QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_K));
    faults_ = add(tr("Faults to find"),
                  tr("Give the virtual instrument faults, for practice"),
                  QKeySequence(Qt::CTRL | Qt::Key_F));
    faults_->setCheckable(true);
    const QToolButton* again = add(tr("Begin again"),
                                   tr("Forget what was measured here with these registers"),
                                   QKeySequence(QKeySequence::New));
    const QToolButton* paper =
        add(tr("Print…"), tr("The worksheet on one page"), QKeySequence(QKeySequence::Print));
    const QToolButton* tidy = add(tr("Remove done"),
                                  tr("Take what is done off the worksheet"),
                                  QKeySequence(Qt::CTRL | Qt::Key_D));
    connect(moved_, &QToolButton::clicked, this, &ActionTools::microphoneMoved);
    connect(keep_, &QToolButton::clicked, this, &ActionTools::keepWanted);
    connect(faults_, &QToolButton::clicked, this, &ActionTools::faultsWanted);
    connect(again, &QToolButton::clicked, this, &ActionTools::againWanted);
    connect(paper, &QToolButton::clicked, this, &ActionTools::printWanted);
    connect(tidy, &QToolButton::clicked, this, &ActionTools::tidyWanted);
    arrange(0);
}

QToolButton* ActionTools::add(const QString& text, const QString& help, const QKeySequence& key) {
    buttons_.push_back(actionButton(this, text, help, key));
    return buttons_.back();
}

void ActionTools::arrange(int width) {
    const bool oneRow = width >= kToolsInOneRowFrom;
    while (QLayoutItem* item = grid_->takeAt(0)) {
        delete item;
    }
    grid_->addWidget(told_, 0, 0, 1, oneRow ? 1 : kToolsInARow);
    for (int i = 0; i < static_cast<int>(buttons_.size()); ++i) {
        QToolButton* button = buttons_[static_cast<std::size_t>(i)];
        oneRow ? grid_->addWidget(button, 0, i + 1)
               : grid_->addWidget(button, 1 + i / kToolsInARow, i % kToolsInARow);
    }
    grid_->setColumnStretch(0, oneRow ? 1 : 0);
}

void ActionTools::showEvenness(bool evenness) {
    moved_->setVisible(evenness);
    keep_->setVisible(evenness);
}

void ActionTools::setKeepable(bool keepable) {
    keep_->setEnabled(keepable);
}

void ActionTools::showFaults(bool shown) {
    faults_->setVisible(shown);
}

} // namespace quillbench

#include "app/places/temperament/recognised_panel.hpp"

#include "app/places/temperament/temperament_model.hpp"
#include "app/places/temperament/temperament_tables.hpp"
#include "app/places/temperament/temperament_text.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"

#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

namespace quillbench {

RecognisedPanel::RecognisedPanel(const TemperamentModel& model, QWidget* parent)
    : QWidget(parent),
      model_(model),
      verdict_(new QLabel(this)),
      nearest_(readingTable(this, "nearestTable", tr("Nearest temperaments"))),
      lay_(new QPushButton(tr("&Look at the nearest"), this)),
      fifths_(readingTable(this, "heardFifths", tr("Fifths as heard"))) {
    verdict_->setObjectName(QStringLiteral("recognised"));
    verdict_->setTextFormat(Qt::PlainText);
    verdict_->setWordWrap(true);
    verdict_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    nearest_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(8, 8, 8, 8);
    column->addWidget(verdict_);
    column->addWidget(nearest_, 2);
    column->addWidget(lay_);
    column->addWidget(fifths_, 3);
    connect(lay_, &QPushButton::clicked, this, [this] {
        const Result<Recognition> found = model_.recognise();
        if (found && !found->matches.empty()) {
            Q_EMIT nearestWanted(toQString(found->matches.front().temperament->id()));
        }
    });
}

void RecognisedPanel::showModel() {
    const Result<Recognition> found = model_.recognise();
    nearest_->setVisible(found.hasValue());
    fifths_->setVisible(found.hasValue());
    lay_->setVisible(found.hasValue());
    if (!found) {
        verdict_->setText(
            tr("Play the twelve notes of an octave at Tune, a string at a time on the choir "
               "chosen there; what they are tuned to is told here.\n%1")
                .arg(errorText(found.error())));
        return;
    }
    verdict_->setText(recognitionText(*found).join(QLatin1Char('\n')));
    fillNearest(*nearest_, *found);
    nearest_->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
    fillRecognised(*fifths_, *found);
}

} // namespace quillbench

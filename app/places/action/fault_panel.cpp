#include "app/places/action/fault_panel.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/translation.hpp"

#include <QComboBox>
#include <QFile>
#include <QLabel>
#include <QTextBrowser>
#include <QVBoxLayout>
#include <algorithm>

namespace quillbench {

namespace {

QString stepName(FaultStep step) {
    switch (step) {
    case FaultStep::Climate:
        return FaultPanel::tr("Climate and place");
    case FaultStep::Register:
        return FaultPanel::tr("Register travel");
    case FaultStep::Height:
        return FaultPanel::tr("Keyboard height");
    case FaultStep::Cleaning:
        return FaultPanel::tr("Cleaning");
    case FaultStep::Jack:
        return FaultPanel::tr("Jack");
    case FaultStep::Plectrum:
        break;
    }
    return FaultPanel::tr("Plectrum");
}

QString handName(FaultHand who) {
    switch (who) {
    case FaultHand::Anyone:
        return FaultPanel::tr("anyone");
    case FaultHand::Owner:
        return FaultPanel::tr("a careful owner");
    case FaultHand::Technician:
        return FaultPanel::tr("a technician");
    case FaultHand::Maker:
        break;
    }
    return FaultPanel::tr("a maker or conservator");
}

QString undoName(FaultUndo undo) {
    switch (undo) {
    case FaultUndo::Yes:
        return FaultPanel::tr("can be undone");
    case FaultUndo::Partly:
        return FaultPanel::tr("can be undone in part");
    case FaultUndo::No:
        break;
    }
    return FaultPanel::tr("cannot be undone");
}

QString escaped(const std::string& text) {
    return toQString(text).toHtmlEscaped();
}

/// Whether the rows of the instrument have adjusting screws.
bool hasAdjusters(const ActionModel& action) {
    if (!action.tuning().ready()) {
        return false;
    }
    const auto& rows = action.tuning().instrument().registers;
    return std::any_of(
        rows.begin(), rows.end(), [](const JackRegister& row) { return row.adjusters; });
}

} // namespace

FaultPanel::FaultPanel(const ActionModel& action, QWidget* parent)
    : QWidget(parent),
      action_(action),
      symptoms_(new QComboBox(this)),
      page_(new QTextBrowser(this)) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(symptoms_);
    column->addWidget(page_, 1);
    symptoms_->setObjectName(QStringLiteral("symptoms"));
    symptoms_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    symptoms_->setMinimumContentsLength(16);
    symptoms_->setAccessibleName(tr("Fault finder: what is wrong"));
    page_->setAccessibleName(tr("Causes and what to do"));
    page_->setOpenLinks(false);
    QFile file(QStringLiteral(":/faults.json"));
    const bool opened = file.open(QIODevice::ReadOnly);
    Result<FaultBook> book =
        parseFaultBook(file.readAll().toStdString(), languageCode(spokenLanguage()).toStdString());
    if (!opened || !book) {
        page_->setPlainText(book ? tr("The fault finder's book is missing.")
                                 : errorText(book.error()));
        return;
    }
    book_ = std::move(*book);
    for (const FaultSymptom& symptom : book_.symptoms) {
        symptoms_->addItem(toQString(symptom.title), toQString(symptom.id));
    }
    connect(symptoms_, &QComboBox::currentIndexChanged, this, &FaultPanel::build);
    build();
}

void FaultPanel::showSymptom(const QString& id) {
    const int index = symptoms_->findData(id);
    if (index >= 0) {
        symptoms_->setCurrentIndex(index);
    }
}

void FaultPanel::showKey(std::optional<std::size_t> key) {
    key_ = key;
    build();
}

QString FaultPanel::text() const {
    return page_->toPlainText();
}

void FaultPanel::build() {
    const FaultSymptom* symptom = book_.find(symptoms_->currentData().toString().toStdString());
    if (symptom == nullptr) {
        return;
    }
    const QString html = page(*symptom);
    if (html != page_->property("page").toString()) {
        page_->setProperty("page", html);
        page_->setHtml(html);
    }
}

QString FaultPanel::page(const FaultSymptom& symptom) const {
    const bool adjusters = hasAdjusters(action_);
    const bool keyed = key_ && action_.tuning().ready();
    const std::vector<KeyEvidence> evidence =
        keyed ? evidenceOf(action_, *key_) : std::vector<KeyEvidence>();
    const auto measured = [&](FaultMeasure which) {
        QString lines;
        for (const KeyEvidence& one : evidence) {
            if (one.measure == which) {
                lines += QStringLiteral("<br><b>%1</b>")
                             .arg(tr("Measured on %1: %2")
                                      .arg(keyName(action_, *key_), one.text)
                                      .toHtmlEscaped());
            }
        }
        return lines;
    };
    QString html = QStringLiteral("<p>%1</p>").arg(escaped(symptom.signs));
    html += QStringLiteral("<p><b>%1</b></p><ol>").arg(tr("Causes, the likeliest first"));
    for (const FaultCause& cause : symptom.causes) {
        if (cause.adjusters && !adjusters) {
            continue;
        }
        html += QStringLiteral("<li>%1 <i>%2</i>%3</li>")
                    .arg(escaped(cause.cause),
                         escaped(cause.look),
                         cause.measured ? measured(*cause.measured) : QString());
    }
    html += QStringLiteral("</ol><p><b>%1</b></p><ol>").arg(tr("What to do, in this order"));
    for (const FaultCause& cause : inOrderOfCare(symptom, adjusters)) {
        html += QStringLiteral("<li>%1: %2 <i>(%3)</i></li>")
                    .arg(stepName(cause.step).toHtmlEscaped(),
                         escaped(cause.remedy),
                         tr("%1; %2; source: %3")
                             .arg(handName(cause.who),
                                  undoName(cause.undo),
                                  coreText(cause.source).toHtmlEscaped()));
    }
    html += QStringLiteral("</ol>");
    for (const FaultCaution& caution : book_.cautions) {
        if (caution.id != "screws" || adjusters) {
            html += QStringLiteral("<p>⚠ %1</p>").arg(escaped(caution.text));
        }
    }
    return html;
}

} // namespace quillbench

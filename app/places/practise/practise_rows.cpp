#include "app/places/practise/practise_rows.hpp"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

namespace quillbench {

QComboBox* addBox(QWidget* parent,
                  QHBoxLayout* row,
                  const QString& caption,
                  const char* name,
                  std::vector<QLabel*>& captions) {
    auto* box = new QComboBox(parent);
    box->setObjectName(QString::fromLatin1(name));
    box->setAccessibleName(QString(caption).remove(QLatin1Char('&')));
    auto* label = new QLabel(caption, parent);
    label->setBuddy(box);
    captions.push_back(label);
    row->addWidget(label);
    row->addWidget(box);
    return box;
}

QPushButton* addButton(QWidget* parent, QHBoxLayout* row, const char* name, const QString& text) {
    auto* button = new QPushButton(text, parent);
    button->setObjectName(QString::fromLatin1(name));
    button->setFocusPolicy(Qt::TabFocus);
    button->setAutoDefault(false);
    row->addWidget(button);
    return button;
}

void RowFit::fit(QWidget& row,
                 const QString& what,
                 int room,
                 const std::function<void(bool)>& arrange) {
    if (!wide_.contains(what)) {
        arrange(false);
        row.layout()->invalidate();
        wide_[what] = row.layout()->sizeHint().width();
    }
    arrange(wide_[what] > room);
}

} // namespace quillbench

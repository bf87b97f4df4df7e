#include "app/places/temperament/bearings_panel.hpp"
#include "app/places/temperament/catalogue_panel.hpp"
#include "app/places/temperament/change_over_panel.hpp"
#include "app/places/temperament/circle_view.hpp"
#include "app/places/temperament/recognised_panel.hpp"
#include "app/places/temperament/temperament_page.hpp"
#include "app/places/temperament/temperament_tables.hpp"
#include "app/places/temperament/thirds_view.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/views/screen_reader.hpp"
#include "core/temperament/catalogue.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>
#include <QVBoxLayout>

namespace quillbench {

namespace {

constexpr int kTemperamentGap = 8;

QLabel* plainLabel(QWidget* parent, const char* name) {
    auto* label = new QLabel(parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    return label;
}

} // namespace

void TemperamentPage::buildAll() {
    auto* column = new QVBoxLayout(content_);
    column->setContentsMargins(16, 8, 16, 8);
    column->setSpacing(kTemperamentGap);
    buildTop();
    columns_ = new QBoxLayout(QBoxLayout::LeftToRight);
    columns_->setSpacing(2 * kTemperamentGap);
    column->addLayout(columns_, 1);
    list_ = new CataloguePanel(model_, content_);
    columns_->addWidget(list_, 3);
    buildBench();
    buildTabs();
    changeOver_ = new ChangeOverPanel(content_);
    column->addWidget(changeOver_);
    told_ = plainLabel(content_, "temperamentTold");
    presentAsAnnouncement(told_);
    column->addWidget(told_);
}

void TemperamentPage::buildTop() {
    auto* row = new QHBoxLayout;
    row->setSpacing(kTemperamentGap);
    static_cast<QVBoxLayout*>(content_->layout())->addLayout(row);
    a4_ = new QDoubleSpinBox(content_);
    a4_->setObjectName(QStringLiteral("temperamentPitch"));
    a4_->setRange(kLowestStandardHz, kHighestStandardHz);
    a4_->setDecimals(2);
    a4_->setSuffix(tr(" Hz"));
    a4_->setAccessibleName(tr("Pitch of a\u2032 at which beats are told"));
    auto* pitchLabel = new QLabel(tr("&a\u2032"), content_);
    pitchLabel->setBuddy(a4_);
    compare_ = new QComboBox(content_);
    compare_->setObjectName(QStringLiteral("compareWith"));
    compare_->setAccessibleName(tr("Compare with"));
    compare_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    compare_->setMinimumContentsLength(8);
    compare_->addItem(tr("nothing"), QString());
    for (const Temperament& one : catalogue()) {
        compare_->addItem(coreText(one.description().name), toQString(one.id()));
    }
    auto* compareLabel = new QLabel(tr("&Compare with"), content_);
    compareLabel->setBuddy(compare_);
    tune_ = new QPushButton(tr("&Tune with this"), content_);
    tune_->setObjectName(QStringLiteral("tuneWithThis"));
    tune_->setAccessibleDescription(tr("Goes to Tune with this temperament at this pitch"));
    row->addWidget(pitchLabel);
    row->addWidget(a4_);
    row->addWidget(compareLabel);
    row->addWidget(compare_, 1);
    row->addStretch(1);
    row->addWidget(tune_);
}

void TemperamentPage::buildBench() {
    auto* column = new QVBoxLayout;
    columns_->addLayout(column, 5);
    circle_ = new CircleView(content_);
    column->addWidget(circle_, 1);
    QLabel* commas = plainLabel(content_, "commas");
    commas->setText(tr("P Pythagorean comma, S syntonic comma; below each fraction its cents."));
    commas->setAlignment(Qt::AlignHCenter);
    column->addWidget(commas);
    auto* form = new QFormLayout;
    form->setVerticalSpacing(4);
    column->addLayout(form);
    name_ = new QLineEdit(content_);
    name_->setObjectName(QStringLiteral("temperamentName"));
    name_->setMaxLength(120);
    form->addRow(tr("&Name"), name_);
    fifthLabel_ = new QLabel(content_);
    fifth_ = new QLineEdit(content_);
    fifth_->setObjectName(QStringLiteral("chosenFifth"));
    fifth_->setToolTip(
        tr("A fraction of the Pythagorean (P) or syntonic (S) comma such as -1/6P or "
           "-1/4S, cents such as -3.9c, a ratio such as 392/393, or 0 for pure"));
    fifthLabel_->setBuddy(fifth_);
    pure_ = new QPushButton(tr("P&ure"), content_);
    close_ = new QPushButton(tr("Ta&ke what is left"), content_);
    close_->setToolTip(tr("This fifth takes what the others leave, so that the circle closes"));
    form->addRow(fifthLabel_, fifth_);
    undo_ = new QPushButton(tr("Un&do"), content_);
    redo_ = new QPushButton(tr("&Redo"), content_);
    auto* open = new QPushButton(tr("O&pen\u2026"), content_);
    auto* save = new QPushButton(tr("Sav&e as\u2026"), content_);
    auto* card = new QPushButton(tr("Card A&5\u2026"), content_);
    card->setToolTip(tr("A card to stand on the instrument: on paper or as PDF"));
    const auto addRow = [column](std::initializer_list<QPushButton*> buttons) {
        auto* row = new QHBoxLayout;
        for (QPushButton* button : buttons) {
            row->addWidget(button);
        }
        column->addLayout(row);
    };
    addRow({pure_, close_, undo_, redo_});
    addRow({open, save, card});
    connect(open, &QPushButton::clicked, this, &TemperamentPage::openFile);
    connect(save, &QPushButton::clicked, this, &TemperamentPage::saveFile);
    connect(card, &QPushButton::clicked, this, &TemperamentPage::printCard);
}

void TemperamentPage::buildTabs() {
    tabs_ = new QTabWidget(content_);
    tabs_->setObjectName(QStringLiteral("temperamentTabs"));
    tabs_->setMinimumHeight(300);
    columns_->addWidget(tabs_, 6);
    const auto add = [this](const QString& title) {
        auto* sheet = new QWidget(tabs_);
        auto* column = new QVBoxLayout(sheet);
        column->setContentsMargins(8, 8, 8, 8);
        tabs_->addTab(sheet, title);
        return column;
    };
    QVBoxLayout* thirds = add(tr("Th&irds"));
    minor_ = new QCheckBox(tr("&Minor thirds"), tabs_);
    thirds_ = new ThirdsView(tabs_);
    thirds->addWidget(minor_);
    thirds->addWidget(thirds_, 1);
    notes_ = readingTable(tabs_, "noteTable", tr("Notes in cents and hertz"));
    add(tr("Notes"))->addWidget(notes_);
    beats_ = readingTable(tabs_, "beatTable", tr("Beats a second, plus is wide"));
    QVBoxLayout* beats = add(tr("&Beats"));
    QLabel* beatsNote = plainLabel(tabs_, "beatsNote");
    beatsNote->setText(tr("Beats a second over each key: + wide, \u2212 narrow. Pale: too fast to "
                          "count."));
    beats->addWidget(beatsNote);
    beats->addWidget(beats_);
    bearings_ = new BearingsPanel(model_, tabs_);
    tabs_->addTab(bearings_, tr("Bearin&gs"));
    recognised_ = new RecognisedPanel(model_, tabs_);
    tabs_->addTab(recognised_, tr("What is this?"));
}

} // namespace quillbench

#include "app/places/recheck/recheck_page.hpp"

#include "app/models/picture_maker.hpp"
#include "app/places/logbook/row_table.hpp"
#include "app/places/recheck/drift_pictures.hpp"
#include "app/places/recheck/drift_view.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/views/level_view.hpp"
#include "app/views/screen_reader.hpp"
#include "app/views/sentence.hpp"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QEvent>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QSpinBox>
#include <QVBoxLayout>
#include <algorithm>

namespace quillbench {

namespace {

constexpr double kDaysToPass = 21.0;
constexpr int kListWidth = 250;

QLabel* recheckWords(QWidget* parent, const char* name) {
    auto* label = new QLabel(parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setAlignment(Qt::AlignTop | Qt::AlignLeft); // where nothing stands below it
    return label;
}

} // namespace

RecheckPage::RecheckPage(RecheckModel& model,
                         LiveModel& live,
                         VirtualPlayer& player,
                         QWidget* parent)
    : QWidget(parent),
      model_(model),
      live_(live),
      player_(player),
      upward_(player),
      choir_(new QComboBox(this)),
      tolerance_(new QDoubleSpinBox(this)),
      minutes_(new QSpinBox(this)),
      again_(new QPushButton(tr("&Begin again"), this)),
      play_(new QPushButton(tr("&Play it for me"), this)),
      days_(new QPushButton(tr("Three wee&ks on"), this)),
      sentence_(new Sentence(this, "recheckSentence")),
      drift_(new DriftView(this)),
      advice_(recheckWords(this, "advice")),
      list_(new RowTable(QStringLiteral("shortList"),
                         tr("Strings worth the hammer, in the order of what they gain"),
                         {tr("String"), tr("Turn by"), tr("Stands at")},
                         this)),
      findings_(recheckWords(this, "findings")),
      level_(new LevelView(this)) {
    setObjectName(QStringLiteral("recheckPage"));
    setAccessibleName(tr("Recheck"));
    setFocusPolicy(Qt::StrongFocus);
    list_->setNumbers({1, 2});
    buildChoices();
    buildLayout();
    connectModels();
    showPlayer();
    if (model_.tuning().ready()) {
        showChoirs();
    }
}

void RecheckPage::buildChoices() {
    choir_->setObjectName(QStringLiteral("recheckChoir"));
    choir_->setAccessibleName(tr("Choir"));
    choir_->setAccessibleDescription(tr("The choir that is played upwards"));
    tolerance_->setObjectName(QStringLiteral("recheckTolerance"));
    tolerance_->setAccessibleName(tr("An interval may be out by"));
    tolerance_->setRange(1.0, 10.0);
    tolerance_->setSingleStep(0.5);
    tolerance_->setDecimals(1);
    tolerance_->setSuffix(tr(" cents"));
    tolerance_->setValue(model_.tolerance().value());
    minutes_->setObjectName(QStringLiteral("recheckMinutes"));
    minutes_->setAccessibleName(tr("Minutes there are for the hammer"));
    minutes_->setAccessibleDescription(
        tr("The list then names the strings that gain most in that time, at your own speed"));
    minutes_->setToolTip(minutes_->accessibleDescription());
    minutes_->setRange(0, 600);
    minutes_->setSpecialValueText(tr("no limit"));
    minutes_->setMinimumWidth(70);
    minutes_->setSuffix(tr(" minutes"));
    minutes_->setValue(model_.minutes());
    again_->setAccessibleDescription(tr("Forgets what was heard and begins a new recheck"));
    play_->setAccessibleDescription(tr("Plays the choir of the virtual instrument upwards"));
    days_->setAccessibleDescription(tr("Lets the strings of the virtual instrument drift"));
    play_->setObjectName(QStringLiteral("playUpwards"));
    days_->setObjectName(QStringLiteral("letDaysPass"));
}

void RecheckPage::buildLayout() {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(16, 8, 16, 4);
    column->setSpacing(4);
    auto* choices = new QHBoxLayout;
    auto* choirCaption = new QLabel(tr("&Choir"), this);
    choirCaption->setBuddy(choir_);
    auto* toleranceCaption = new QLabel(tr("An &interval may be out by"), this);
    toleranceCaption->setBuddy(tolerance_);
    toleranceCaption->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    toleranceCaption->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    choices->addWidget(choirCaption);
    choices->addWidget(choir_);
    choices->addSpacing(12);
    choices->addWidget(toleranceCaption, 1);
    choices->addWidget(tolerance_);
    choices->addSpacing(12);
    choices->addWidget(again_);
    choices->addWidget(play_);
    choices->addWidget(days_);
    column->addLayout(choices);
    column->addWidget(sentence_);
    auto* middle = new QHBoxLayout;
    middle->setSpacing(12);
    auto* pictures = new QVBoxLayout;
    pictures->addWidget(drift_, 1);
    pictures->addWidget(findings_);
    middle->addLayout(pictures, 1);
    auto* right = new QVBoxLayout;
    auto* time = new QHBoxLayout;
    auto* timeCaption = new QLabel(tr("&Time"), this);
    timeCaption->setBuddy(minutes_);
    time->addWidget(timeCaption);
    time->addWidget(minutes_, 1);
    right->addLayout(time);
    right->addWidget(advice_);
    right->addWidget(list_, 1);
    right->addWidget(level_);
    middle->addLayout(right);
    column->addLayout(middle, 1);
}

void RecheckPage::connectModels() {
    connect(&model_, &RecheckModel::changed, this, &RecheckPage::showModel);
    connect(&model_.tuning(), &TuningModel::chosen, this, &RecheckPage::showChoirs);
    connect(&live_, &LiveModel::updated, this, &RecheckPage::showLive);
    connect(&player_, &VirtualPlayer::pinTurned, this, &RecheckPage::showPlayer);
    connect(drift_, &DriftView::keyPressed, &player_, &VirtualPlayer::keyDown);
    connect(drift_, &DriftView::keyReleased, &player_, &VirtualPlayer::keyUp);
    connect(choir_, &QComboBox::activated, this, [this](int index) {
        upward_.stop();
        model_.chooseChoir(static_cast<std::size_t>(index));
    });
    connect(tolerance_, &QDoubleSpinBox::valueChanged, this, [this](double cents) {
        model_.setTolerance(Cents(cents));
    });
    connect(minutes_, &QSpinBox::valueChanged, &model_, &RecheckModel::setMinutes);
    connect(again_, &QPushButton::clicked, this, [this] {
        upward_.stop();
        model_.beginAgain();
    });
    connect(play_, &QPushButton::clicked, this, &RecheckPage::playUpwards);
    connect(days_, &QPushButton::clicked, this, [this] {
        upward_.stop();
        Q_EMIT daysWanted(kDaysToPass);
    });
    connect(&upward_, &UpwardPlayer::playingChanged, this, [this](bool playing) {
        play_->setText(playing ? tr("Sto&p") : tr("&Play it for me"));
    });
}

void RecheckPage::playUpwards() {
    if (upward_.playing()) {
        upward_.stop();
        return;
    }
    // What is still to be heard; when all was, those to be played again.
    std::vector<std::size_t> keys = model_.unheardKeys();
    if (keys.empty()) {
        keys = model_.playAgain();
    }
    upward_.play(model_.instrument(), keys);
}

void RecheckPage::showChoirs() {
    const QSignalBlocker quiet(choir_);
    choir_->clear();
    for (const Choir& choir : model_.instrument().choirs) {
        choir_->addItem(choirText(choir));
    }
    choir_->setCurrentIndex(static_cast<int>(model_.choir()));
}

void RecheckPage::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    upward_.stop();
}

void RecheckPage::showModel() {
    if (!model_.entered()) {
        return;
    }
    choir_->setCurrentIndex(static_cast<int>(model_.choir()));
    const DriftWords words = driftWords(model_);
    sayIn(sentence_, words.sentence);
    fitWords();
    findings_->setText(words.findings.join(QLatin1Char('\n')));
    advice_->setText(words.advice);
    std::vector<QStringList> rows;
    rows.reserve(words.list.size());
    for (const ShortLine& line : words.list) {
        rows.push_back({line.string, line.move, line.stands});
    }
    list_->setRows(rows);
    list_->setVisible(!rows.empty());
    showLive();
}

void RecheckPage::showLive() {
    if (!model_.entered()) {
        return;
    }
    const AnalysisSnapshot* snapshot = live_.snapshot().get();
    drift_->show(driftPicture(model_, snapshot));
    level_->show(levelPicture(snapshot));
}

void RecheckPage::showPlayer() {
    play_->setVisible(player_.playing());
    days_->setVisible(player_.playing());
    drift_->setCursor(player_.playing() ? Qt::PointingHandCursor : Qt::ArrowCursor);
}

void RecheckPage::fitWords() {
    sentence_->fit(std::clamp(height() / 25, 15, 40));
}

void RecheckPage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitWords();
    const int side = std::clamp(width() * 2 / 7, 150, kListWidth + 80);
    for (QWidget* one : std::initializer_list<QWidget*>{advice_, list_, level_}) {
        one->setFixedWidth(side);
    }
}

void RecheckPage::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange) {
        showLive();
    }
}

/// Space and Page Down, the pedal, play the key that is asked for on the virtual instrument.
void RecheckPage::keyPressEvent(QKeyEvent* event) {
    const bool pedal = event->key() == Qt::Key_Space || event->key() == Qt::Key_PageDown;
    const auto next = model_.entered() ? model_.nextKey() : std::nullopt;
    if (pedal && next && player_.playing()) {
        upward_.play(model_.instrument(), {*next});
        return;
    }
    QWidget::keyPressEvent(event);
}

} // namespace quillbench

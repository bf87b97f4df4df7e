#include "app/places/instrument/registers_panel.hpp"

#include "app/places/instrument/instrument_tables.hpp"
#include "app/places/temperament/temperament_tables.hpp"
#include "core/instrument/editing.hpp"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

namespace quillbench {

namespace {

constexpr double kPercentOfLength = 100.0;

/// High enough for all its rows, which are few.
void fitRows(QTableWidget& table) {
    int height = table.horizontalHeader()->sizeHint().height() + 2 * table.frameWidth() + 2;
    for (int row = 0; row < table.rowCount(); ++row) {
        height += table.rowHeight(row);
    }
    table.setFixedHeight(height);
}

QPushButton* panelButton(QWidget* parent, const char* name, const QString& text) {
    auto* button = new QPushButton(text, parent);
    button->setObjectName(QString::fromLatin1(name));
    return button;
}

std::size_t rowOf(const QTableWidget& table) {
    return static_cast<std::size_t>(std::max(0, table.currentRow()));
}

void setEntries(CellDelegate& cells, const std::map<int, CellEntry>& entries) {
    for (const auto& [column, entry] : entries) {
        cells.setColumn(column, entry);
    }
}

} // namespace

RegistersPanel::RegistersPanel(InstrumentModel& model, QWidget* parent)
    : QWidget(parent),
      model_(model),
      registerCells_(new CellDelegate(this)),
      choirCells_(new CellDelegate(this)) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(6, 6, 6, 6);
    buildRegisters();
    buildChoirs();
    auto* note = new QLabel(this);
    note->setTextFormat(Qt::PlainText);
    note->setWordWrap(true);
    note->setText(tr("Return or typing changes a cell. At: where it plucks, per cent of the "
                     "speaking length from the nut at c\u2033. Travel: how far the key has gone "
                     "when it plucks; it gives the order of the plucks."));
    column->addWidget(note);
    column->addStretch(1);
}

void RegistersPanel::buildRegisters() {
    registers_ = readingTable(this, "registerTable", tr("Registers"));
    registers_->setSelectionBehavior(QAbstractItemView::SelectItems);
    registers_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    letEnter(*registers_, *registerCells_);
    auto* add = panelButton(this, "addRegister", tr("Add"));
    add->setAccessibleName(tr("Add a register to the choir of the marked one"));
    auto* remove = panelButton(this, "removeRegister", tr("Take away"));
    remove->setAccessibleName(tr("Take the marked register away"));
    auto* row = new QHBoxLayout;
    row->addWidget(new QLabel(tr("Registers (rows of jacks)"), this), 1);
    row->addWidget(add);
    row->addWidget(remove);
    auto* column = static_cast<QVBoxLayout*>(layout());
    column->addLayout(row);
    column->addWidget(registers_);
    connect(add, &QPushButton::clicked, this, [this] {
        const std::size_t choir = model_.instrument().registers[rowOf(*registers_)].choir;
        enter(withRegister(model_.instrument(), choir));
    });
    connect(remove, &QPushButton::clicked, this, [this] {
        enter(withoutRegister(model_.instrument(), rowOf(*registers_)));
    });
    // Queued: the table is filled anew, which an entry that is still open does not outlive.
    connect(registerCells_,
            &CellDelegate::entered,
            this,
            &RegistersPanel::enterRegister,
            Qt::QueuedConnection);
}

void RegistersPanel::buildChoirs() {
    choirs_ = readingTable(this, "choirTable", tr("Choirs"));
    choirs_->setSelectionBehavior(QAbstractItemView::SelectItems);
    letEnter(*choirs_, *choirCells_);
    setEntries(*choirCells_, choirEntries());
    auto* add = panelButton(this, "addChoir", tr("Add"));
    add->setAccessibleName(tr("Add a choir"));
    auto* menu = new QMenu(add);
    for (const auto& [footage, text] : {std::pair{Footage::Eight, tr("&8\u2032")},
                                        std::pair{Footage::Four, tr("&4\u2032")},
                                        std::pair{Footage::Sixteen, tr("&16\u2032")}}) {
        menu->addAction(text, this, [this, footage = footage] {
            enter(withChoir(model_.instrument(), footage));
        });
    }
    add->setMenu(menu);
    auto* remove = panelButton(this, "removeChoir", tr("Take away"));
    remove->setAccessibleName(tr("Take the marked choir and its registers away"));
    auto* row = new QHBoxLayout;
    row->addWidget(new QLabel(tr("Choirs (sets of strings)"), this), 1);
    row->addWidget(add);
    row->addWidget(remove);
    auto* column = static_cast<QVBoxLayout*>(layout());
    column->addLayout(row);
    column->addWidget(choirs_);
    connect(remove, &QPushButton::clicked, this, [this] {
        enter(withoutChoir(model_.instrument(), rowOf(*choirs_)));
    });
    connect(choirCells_,
            &CellDelegate::entered,
            this,
            &RegistersPanel::enterChoir,
            Qt::QueuedConnection);
}

void RegistersPanel::enterRegister(int row, int column, const QVariant& value) {
    const auto index = static_cast<std::size_t>(row);
    if (index >= model_.instrument().registers.size()) {
        return;
    }
    JackRegister wanted = model_.instrument().registers[index];
    switch (column) {
    case register_column::kName:
        wanted.name = value.toString().trimmed().toStdString();
        break;
    case register_column::kChoir:
        wanted.choir = value.toULongLong();
        break;
    case register_column::kManual:
        wanted.manual = value.toULongLong();
        break;
    case register_column::kKind:
        wanted.lute = registerKind(value.toInt()).lute;
        wanted.dogleg = registerKind(value.toInt()).dogleg;
        break;
    case register_column::kAdjusters:
        wanted.adjusters = value.toInt() == 1;
        break;
    case register_column::kPluckPoint:
        wanted.pluckPoint = value.toDouble() / kPercentOfLength;
        break;
    default:
        wanted.stagger = value.toDouble();
    }
    enter(withRegisterAs(model_.instrument(), index, wanted));
}

void RegistersPanel::enterChoir(int row, int column, const QVariant& value) {
    Instrument next = model_.instrument();
    const auto index = static_cast<std::size_t>(row);
    if (index >= next.choirs.size()) {
        return;
    }
    if (column == choir_column::kSilenced) {
        next.choirs[index].silencing = static_cast<Silencing>(value.toInt());
    } else if (value.toInt() == 1) {
        next.buffChoir = index;
    } else {
        next.buffChoir.reset();
    }
    enter(next);
}

void RegistersPanel::enter(const Result<Instrument>& wanted) {
    Q_EMIT entered(model_.change(wanted));
}

void RegistersPanel::showInstrument() {
    const Instrument& shown = model_.instrument();
    setEntries(*registerCells_, registerEntries(shown));
    keepingPlace(*registers_, [&] { fillRegisters(*registers_, shown); });
    keepingPlace(*choirs_, [&] { fillChoirs(*choirs_, shown); });
    registers_->horizontalHeader()->setSectionResizeMode(register_column::kName,
                                                         QHeaderView::Stretch);
    fitRows(*registers_);
    fitRows(*choirs_);
}

} // namespace quillbench

#include "app/views/help_panel.hpp"

#include "app/paint/theme.hpp"

#include <QFile>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QKeySequence>
#include <QLabel>
#include <QRegularExpression>
#include <QTextBrowser>
#include <QToolButton>
#include <QVBoxLayout>

namespace quillbench {

namespace {

constexpr int kHelpPixels = 15;
constexpr int kHelpMargin = 12;

QString helpFile(Place place) {
    switch (place) {
    case Place::Instrument:
        return QStringLiteral("instrument");
    case Place::Temperament:
        return QStringLiteral("temperament");
    case Place::Tune:
        return QStringLiteral("tune");
    case Place::Recheck:
        return QStringLiteral("recheck");
    case Place::Action:
        return QStringLiteral("action");
    case Place::Practise:
        return QStringLiteral("practise");
    case Place::Logbook:
        return QStringLiteral("logbook");
    }
    return {};
}

/// Keys are written as they stand on this computer's keyboard.
QString withNativeKeys(const QString& page) {
    static const QRegularExpression kKey(QStringLiteral("<kbd>([^<]+)</kbd>"));
    QString text;
    qsizetype from = 0;
    for (auto each = kKey.globalMatch(page); each.hasNext();) {
        const QRegularExpressionMatch match = each.next();
        const QString native =
            QKeySequence::fromString(match.captured(1), QKeySequence::PortableText)
                .toString(QKeySequence::NativeText);
        text += page.mid(from, match.capturedStart() - from) +
                QStringLiteral("<b>%1</b>").arg(native.toHtmlEscaped());
        from = match.capturedEnd();
    }
    return text + page.mid(from);
}

QString styleOf(const Theme& theme) {
    return QStringLiteral("body { color: %1; } h2 { color: %2; font-size: 17px; } h1 { font-size: "
                          "24px; } td { padding: 2px 14px 2px 0px; }")
        .arg(theme.ink.name(), theme.target.name());
}

} // namespace

QString helpPage(Place place, const QString& language) {
    for (const QString& one : {language, QStringLiteral("en")}) {
        QFile file(QStringLiteral(":/help/%1/%2.html").arg(one, helpFile(place)));
        if (file.open(QIODevice::ReadOnly)) {
            return QString::fromUtf8(file.readAll());
        }
    }
    return {};
}

HelpPanel::HelpPanel(QWidget* parent)
    : QFrame(parent),
      title_(new QLabel(tr("Help"), this)),
      text_(new QTextBrowser(this)) {
    setObjectName(QStringLiteral("help"));
    setFrameShape(QFrame::StyledPanel);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(kHelpMargin, 4, 4, 4);
    auto* head = new QHBoxLayout;
    auto* close = new QToolButton(this);
    close->setObjectName(QStringLiteral("closeHelp"));
    close->setText(tr("Close (Esc)"));
    close->setAccessibleName(tr("Close help"));
    close->setAutoRaise(true);
    head->addWidget(title_, 1);
    head->addWidget(close);
    column->addLayout(head);
    column->addWidget(text_, 1);
    text_->setObjectName(QStringLiteral("helpText"));
    text_->setFrameShape(QFrame::NoFrame);
    text_->setOpenLinks(false);
    text_->setTextInteractionFlags(Qt::TextBrowserInteraction | Qt::TextSelectableByKeyboard);
    QFont reading = font();
    reading.setPixelSize(kHelpPixels);
    text_->setFont(reading);
    text_->installEventFilter(this);
    connect(close, &QToolButton::clicked, this, &HelpPanel::closed);
}

void HelpPanel::open(Place place) {
    place_ = place;
    //: The language of the help pages: "en" or "de", whose files lie in resources/help.
    const QString page = helpPage(place, tr("en"));
    text_->document()->setDefaultStyleSheet(styleOf(themeOf(palette())));
    text_->setHtml(withNativeKeys(page));
    static const QRegularExpression kTitle(QStringLiteral("<h1>([^<]*)</h1>"));
    text_->setAccessibleName(tr("Help: %1").arg(kTitle.match(page).captured(1)));
}

void HelpPanel::read() {
    text_->setFocus(Qt::OtherFocusReason);
}

bool HelpPanel::isRead() const {
    return text_->hasFocus();
}

/// While it is read its plain keys move the text; the commands of the place that have them rest.
bool HelpPanel::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const bool function = key->key() >= Qt::Key_F1 && key->key() <= Qt::Key_F35;
        const Qt::KeyboardModifiers with = key->modifiers() & ~Qt::KeypadModifier;
        if (!function && (with == Qt::NoModifier || with == Qt::ShiftModifier)) {
            event->accept();
            return true;
        }
    } else if (event->type() == QEvent::KeyPress &&
               static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
        Q_EMIT closed();
        return true;
    }
    return QFrame::eventFilter(watched, event);
}

void HelpPanel::changeEvent(QEvent* event) {
    QFrame::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && isVisible()) {
        open(place_);
    }
}

} // namespace quillbench

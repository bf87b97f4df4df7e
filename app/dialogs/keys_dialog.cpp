#include "app/dialogs/keys_dialog.hpp"

#include <QAction>
#include <QDialogButtonBox>
#include <QMenu>
#include <QMenuBar>
#include <QScreen>
#include <QTextBrowser>
#include <QVBoxLayout>

namespace quillbench {

namespace {

constexpr QSize kKeysSize(620, 640);
constexpr int kScreenEdge = 80; // left free around it

QString plainName(const QString& text) {
    QString name = text;
    return name.remove(QLatin1Char('&')).toHtmlEscaped();
}

QString rowsOf(const QMenu& menu) {
    QString rows;
    for (const QAction* action : menu.actions()) {
        if (action->menu() != nullptr) {
            rows += rowsOf(*action->menu());
        }
        QStringList keys;
        for (const QKeySequence& key : action->shortcuts()) {
            keys << key.toString(QKeySequence::NativeText).toHtmlEscaped();
        }
        if (!keys.isEmpty()) {
            rows += QStringLiteral("<tr><td><b>%1</b>&nbsp;&nbsp;</td><td>%2</td></tr>")
                        .arg(keys.join(KeysDialog::tr(" or ")), plainName(action->text()));
        }
    }
    return rows;
}

} // namespace

KeysDialog::KeysDialog(const QMenuBar& menus, QWidget* parent) : QDialog(parent) {
    setWindowTitle(tr("Keys"));
    auto* text = new QTextBrowser(this);
    text->setObjectName(QStringLiteral("keys"));
    text->setAccessibleName(tr("Keys"));
    QString html;
    for (const QAction* action : menus.actions()) {
        if (action->menu() != nullptr) {
            html += QStringLiteral("<h3>%1</h3><table>%2</table>")
                        .arg(plainName(action->text()), rowsOf(*action->menu()));
        }
    }
    html +=
        QStringLiteral("<h3>%1</h3><p>%2</p>")
            .arg(tr("Keyboard of the computer"),
                 tr("On the virtual instrument the computer's keyboard plays: Z S X D C V G B H "
                    "N J M is the octave that is tuned from its C, Q 2 W 3 E R 5 T 6 Y 7 U I the "
                    "next one. What counts is where a key lies on an English keyboard."));
    text->setHtml(html);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->addWidget(text, 1);
    column->addWidget(buttons);
    const QSize most = screen()->availableSize() - QSize(kScreenEdge, kScreenEdge);
    resize(kKeysSize.boundedTo(most));
}

} // namespace quillbench

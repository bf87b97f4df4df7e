#include "app/views/screen_reader.hpp"

#include <QAbstractButton>
#include <QAccessibleWidget>
#include <QComboBox>
#include <QLabel>
#include <QVariant>
#include <QWidget>

namespace quillbench {

namespace {

constexpr const char* kRoleProperty = "screenReaderRole";

struct RoleOfClass {
    const char* className;
    QAccessible::Role role;
};

/// What the places show and are: pictures and named parts of the window.
constexpr RoleOfClass kRoles[] = {
    {"quillbench::RecheckPage", QAccessible::Grouping},
    {"quillbench::ActionPage", QAccessible::Grouping},
    {"quillbench::PractisePage", QAccessible::Grouping},
    {"quillbench::LogbookPage", QAccessible::Grouping},
    {"QTabWidget", QAccessible::Grouping},
    {"QScrollArea", QAccessible::Grouping},
};

/// A widget with a role of its own; a label's name is what it says, a button is pressed and checked as one.
class Presented : public QAccessibleWidget {
public:
    Presented(QWidget* widget, QAccessible::Role role) : QAccessibleWidget(widget, role) {}

    [[nodiscard]] QString text(QAccessible::Text kind) const override {
        const auto* label = qobject_cast<const QLabel*>(widget());
        return kind == QAccessible::Name && label != nullptr ? label->text()
                                                             : QAccessibleWidget::text(kind);
    }

    [[nodiscard]] QAccessible::State state() const override {
        QAccessible::State state = QAccessibleWidget::state();
        if (widget()->focusProxy() != nullptr) {
            state.focusable = false; // another takes the focus for it
        }
        if (const auto* button = qobject_cast<const QAbstractButton*>(widget())) {
            state.checkable = button->isCheckable();
            state.checked = button->isChecked();
        }
        return state;
    }

    [[nodiscard]] QStringList actionNames() const override {
        const bool button = qobject_cast<const QAbstractButton*>(widget()) != nullptr;
        return button ? QStringList{pressAction(), setFocusAction()}
                      : QAccessibleWidget::actionNames();
    }

    void doAction(const QString& action) override {
        auto* button = qobject_cast<QAbstractButton*>(widget());
        if (button != nullptr && action == pressAction()) {
            button->click();
        } else {
            QAccessibleWidget::doAction(action);
        }
    }
};

/// A list to choose from is told by its caption and by what is chosen; Qt 6.4 tells only the latter.
class PresentedChoice : public QAccessibleWidget {
public:
    explicit PresentedChoice(QComboBox* box) : QAccessibleWidget(box, QAccessible::ComboBox) {}

    [[nodiscard]] QString text(QAccessible::Text kind) const override {
        const auto* box = qobject_cast<const QComboBox*>(widget());
        if (kind == QAccessible::Value) {
            return box->currentText();
        }
        const QString caption = QAccessibleWidget::text(kind);
        return kind != QAccessible::Name      ? caption
               : caption.isEmpty()            ? box->currentText()
               : box->currentText().isEmpty() ? caption
                                              : caption + QStringLiteral(": ") + box->currentText();
    }

    [[nodiscard]] QAccessible::State state() const override {
        QAccessible::State state = QAccessibleWidget::state();
        state.expandable = true;
        state.hasPopup = true;
        return state;
    }

    [[nodiscard]] QStringList actionNames() const override {
        return {showMenuAction(), setFocusAction()};
    }

    void doAction(const QString& action) override {
        if (action == showMenuAction()) {
            qobject_cast<QComboBox*>(widget())->showPopup();
        } else {
            QAccessibleWidget::doAction(action);
        }
    }
};

QAccessibleInterface* presented(const QString& className, QObject* object) {
    auto* widget = qobject_cast<QWidget*>(object);
    if (widget == nullptr) {
        return nullptr;
    }
    if (const QVariant role = widget->property(kRoleProperty); role.isValid()) {
        return new Presented(widget, static_cast<QAccessible::Role>(role.toInt()));
    }
    if (className == QLatin1String("QComboBox")) {
        return new PresentedChoice(static_cast<QComboBox*>(widget));
    }
    for (const RoleOfClass& one : kRoles) {
        if (className == QLatin1String(one.className)) {
            return new Presented(widget, one.role);
        }
    }
    return nullptr;
}

} // namespace

void readyForScreenReaders() {
    QAccessible::installFactory(presented); // once is enough, and Qt sees to that
}

void presentAs(QWidget* widget, QAccessible::Role role) {
    widget->setProperty(kRoleProperty, static_cast<int>(role));
    readyForScreenReaders();
}

void presentAsPicture(QWidget* view, const QString& name) {
    presentAs(view, QAccessible::Graphic);
    view->setAccessibleName(name);
    view->setLayoutDirection(Qt::LeftToRight);
}

void presentAsPlace(QWidget* page, const QString& name) {
    presentAs(page, QAccessible::Grouping);
    page->setAccessibleName(name);
}

void presentAsAnnouncement(QLabel* label) {
    presentAs(label, QAccessible::Notification);
}

void sayIn(QLabel* label, const QString& words, bool urgent) {
    if (words == label->text()) {
        return;
    }
    label->setText(words);
    if (words.isEmpty() || !label->isVisible()) {
        return;
    }
    // Qt 6.4 has no event for announcements: a notification that shows is read out (AT-SPI), and an alert elsewhere.
    QAccessibleEvent shown(label, QAccessible::ObjectShow);
    QAccessible::updateAccessibility(&shown);
    if (urgent) {
        QAccessibleEvent alert(label, QAccessible::Alert);
        QAccessible::updateAccessibility(&alert);
    }
}

} // namespace quillbench

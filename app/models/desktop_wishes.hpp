#pragma once

#include <QDBusVariant>
#include <QObject>
#include <QString>

namespace quillbench {

/// What the desktop says that its person needs: high contrast, less motion. Asked of the desktop's portal over D-Bus and
/// followed when it changes; nobody answers where there is none. **Source** [PortalSettings]. **Thread** GUI.
class DesktopWishes : public QObject {
    Q_OBJECT

public:
    explicit DesktopWishes(QObject* parent = nullptr);

    /// Asks; returns at once, the answers come by changed().
    void ask();

    [[nodiscard]] bool highContrast() const { return highContrast_; }

    [[nodiscard]] bool lessMotion() const { return lessMotion_; }

    /// Takes in one setting: 1 is a wish, all else is none; settings of other names are passed over.
    void take(const QString& group, const QString& name, const QVariant& value);

Q_SIGNALS:
    void changed();

private Q_SLOTS:
    void settingChanged(const QString& group, const QString& name, const QDBusVariant& value);

private:
    bool highContrast_ = false;
    bool lessMotion_ = false;
};

} // namespace quillbench

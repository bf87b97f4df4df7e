#pragma once

#include <QObject>
#include <QStringList>

class QMimeData;
class QWidget;

namespace quillbench {

/// Takes files that are dropped anywhere on a window, also where a field would take text; while they hover a cover says
/// that they are taken. **Thread** GUI.
class FileDrop : public QObject {
    Q_OBJECT

public:
    explicit FileDrop(QWidget& window);

Q_SIGNALS:
    /// Paths of files and folders of this machine, at least one.
    void dropped(const QStringList& files);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void cover(const QStringList& files);

    QWidget& window_;
    QWidget* cover_;
};

} // namespace quillbench

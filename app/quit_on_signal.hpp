#pragma once

#include <QObject>
#include <QSocketNotifier>
#include <memory>

namespace quillbench {

/// Ends the event loop in good order when the system asks for it (SIGTERM, SIGINT, SIGHUP), so that recordings are
/// closed and settings kept. One in a program. **Thread** GUI.
class QuitOnSignal : public QObject {
    Q_OBJECT

public:
    QuitOnSignal();
    ~QuitOnSignal() override;

private:
    std::unique_ptr<QSocketNotifier> notifier_;
};

} // namespace quillbench

#pragma once

#include "core/support/result.hpp"

#include <QByteArray>
#include <QObject>
#include <QString>
#include <QStringList>
#include <memory>

class QLocalServer;
class QLocalSocket;

namespace quillbench {

/// One window for each person and each folder of settings: whoever comes second hands its files to the first.
/// Who is first is told by a lock that the system takes back when its owner dies, however it dies; a socket left
/// behind is then put aside. **Thread** GUI.
class SingleWindow : public QObject {
    Q_OBJECT

public:
    /// `settingsFolder`: as LaunchOptions has it; empty: the platform's.
    explicit SingleWindow(const QString& settingsFolder);
    ~SingleWindow() override;

    /// Whether this process is the first, and from now on is; also where no lock can be had.
    [[nodiscard]] bool claim();

    /// From now on others are answered; called() tells of each. **Range** claim() was true; a QCoreApplication exists.
    void answerCalls();

    /// Gives files to the first and has its window come forward. False: it went away meanwhile, and this process is the
    /// first now. **Errors** Environment: it does not answer within five seconds.
    [[nodiscard]] Result<bool> handOver(const QStringList& files);

Q_SIGNALS:
    /// Somebody started the program again, with these files (absolute paths, perhaps none).
    void called(const QStringList& files);

private:
    void hear(QLocalSocket* caller);
    [[nodiscard]] bool call(const QByteArray& words, int patienceMs) const;

    QString base_; ///< path without its ending; empty where there is no private folder
    int lock_ = -1;
    std::unique_ptr<QLocalServer> server_;
};

} // namespace quillbench

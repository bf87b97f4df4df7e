#include "app/single_window.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <QCoreApplication>
#include <QCryptographicHash>
#include <QDeadlineTimer>
#include <QDir>
#include <QFileInfo>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QLocalServer>
#include <QLocalSocket>
#include <QStandardPaths>
#include <QThread>
#include <cerrno>

namespace quillbench {

namespace {

constexpr int kPatienceMs = 5000;
constexpr int kRetryMs = 20;
constexpr qint64 kLongestCall = qint64{1} << 20U; // bytes
constexpr const char* kHeard = "heard\n";

QString socketOf(const QString& base) {
    return base + QStringLiteral(".socket");
}

/// A folder that nobody else may enter: the session's own, else one of ours among the temporary files. Empty where there
/// is none.
QString privateFolder() {
    QString session = qEnvironmentVariable("XDG_RUNTIME_DIR");
    if (!session.isEmpty() && QFileInfo(session).isDir() && QFileInfo(session).isWritable()) {
        return session;
    }
    const QString folder =
        QDir(QDir::tempPath()).filePath(QStringLiteral("quillbench-%1").arg(getuid()));
    const QByteArray path = folder.toLocal8Bit();

    struct stat status {};

    if (mkdir(path.constData(), S_IRWXU) != 0 && errno != EEXIST) {
        return {};
    }
    const bool ours = lstat(path.constData(), &status) == 0 && S_ISDIR(status.st_mode) &&
                      status.st_uid == getuid() && (status.st_mode & (S_IRWXG | S_IRWXO)) == 0;
    return ours ? folder : QString();
}

/// What tells one set of settings and data from another; short, because the path of a socket has to be.
QString nameFor(const QString& settingsFolder) {
    const QString of =
        settingsFolder.isEmpty()
            ? QStandardPaths::writableLocation(QStandardPaths::GenericConfigLocation) +
                  QLatin1Char('\n') +
                  QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation)
            : QDir(settingsFolder).absolutePath();
    const QByteArray sum = QCryptographicHash::hash(of.toUtf8(), QCryptographicHash::Sha1);
    return QStringLiteral("quillbench-") + QString::fromLatin1(sum.toHex().left(12));
}

} // namespace

SingleWindow::SingleWindow(const QString& settingsFolder) {
    const QString folder = privateFolder();
    if (!folder.isEmpty()) {
        base_ = QDir(folder).filePath(nameFor(settingsFolder));
    }
}

SingleWindow::~SingleWindow() {
    server_.reset();
    if (lock_ >= 0) {
        close(lock_);
    }
}

bool SingleWindow::claim() {
    if (base_.isEmpty() || lock_ >= 0) {
        return true;
    }
    const QByteArray path = (base_ + QStringLiteral(".lock")).toLocal8Bit();
    lock_ = open(path.constData(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, S_IRUSR | S_IWUSR);
    if (lock_ < 0 || flock(lock_, LOCK_EX | LOCK_NB) == 0) {
        return true;
    }
    const bool taken = errno == EWOULDBLOCK;
    close(lock_);
    lock_ = -1;
    return !taken;
}

void SingleWindow::answerCalls() {
    if (lock_ < 0) {
        return;
    }
    server_ = std::make_unique<QLocalServer>();
    server_->setSocketOptions(QLocalServer::UserAccessOption);
    // The lock is ours: whoever left a socket there is gone.
    QLocalServer::removeServer(socketOf(base_));
    connect(server_.get(), &QLocalServer::newConnection, this, [this] {
        while (QLocalSocket* caller = server_->nextPendingConnection()) {
            connect(caller, &QLocalSocket::readyRead, this, [this, caller] { hear(caller); });
            connect(caller, &QLocalSocket::disconnected, caller, &QObject::deleteLater);
            hear(caller);
        }
    });
    server_->listen(socketOf(base_));
    connect(qApp, &QCoreApplication::aboutToQuit, this, [this] { server_.reset(); });
}

void SingleWindow::hear(QLocalSocket* caller) {
    if (!caller->canReadLine()) {
        if (caller->bytesAvailable() > kLongestCall) {
            caller->abort();
        }
        return;
    }
    const QJsonObject call = QJsonDocument::fromJson(caller->readLine(kLongestCall)).object();
    QStringList files;
    for (const auto file : call.value(QLatin1String("files")).toArray()) {
        files << file.toString();
    }
    // It need not wait until they are opened.
    caller->write(kHeard);
    caller->flush();
    Q_EMIT called(files);
}

bool SingleWindow::call(const QByteArray& words, int patienceMs) const {
    const QDeadlineTimer patience(patienceMs);
    const auto left = [&patience] { return static_cast<int>(patience.remainingTime()); };
    QLocalSocket first;
    first.connectToServer(socketOf(base_));
    if (!first.waitForConnected(left())) {
        return false;
    }
    first.write(words);
    while (!first.canReadLine()) {
        if (!first.waitForReadyRead(left())) {
            return false;
        }
    }
    return true;
}

Result<bool> SingleWindow::handOver(const QStringList& files) {
    QJsonArray paths;
    for (const QString& file : files) {
        paths.append(QFileInfo(file).absoluteFilePath());
    }
    const QByteArray words = QJsonDocument(QJsonObject{{QStringLiteral("files"), paths}})
                                 .toJson(QJsonDocument::Compact) +
                             '\n';
    const QDeadlineTimer patience(kPatienceMs);
    while (!patience.hasExpired()) {
        if (call(words, static_cast<int>(patience.remainingTime()))) {
            return true;
        }
        // It may be about to open its window, or to go.
        QThread::msleep(kRetryMs);
        if (claim()) {
            return false;
        }
    }
    return failure(ErrorCode::Environment,
                   "Quillbench is open already, but does not answer; close its window and start "
                   "again");
}

} // namespace quillbench

#include "app/single_window.hpp"

#include <catch2/catch.hpp>

#include <QCoreApplication>
#include <QDir>
#include <QElapsedTimer>
#include <QFile>
#include <QTemporaryDir>
#include <thread>

using namespace quillbench;

namespace {

/// The session's private folder of one test.
class PrivateFolder {
public:
    PrivateFolder() : before_(qgetenv("XDG_RUNTIME_DIR")) {
        qputenv("XDG_RUNTIME_DIR", folder_.path().toLocal8Bit());
    }

    PrivateFolder(const PrivateFolder&) = delete;
    PrivateFolder& operator=(const PrivateFolder&) = delete;

    ~PrivateFolder() {
        before_.isNull() ? qunsetenv("XDG_RUNTIME_DIR") : qputenv("XDG_RUNTIME_DIR", before_);
    }

    [[nodiscard]] const QTemporaryDir& folder() const { return folder_; }

private:
    QByteArray before_;
    QTemporaryDir folder_;
};

} // namespace

TEST_CASE("who comes second hands its files over, also those named from another folder", "[ui]") {
    const PrivateFolder runtime;
    SingleWindow first(QStringLiteral("settings"));
    REQUIRE(first.claim());
    first.answerCalls();
    QStringList got;
    int calls = 0;
    QObject::connect(&first, &SingleWindow::called, [&](const QStringList& files) {
        got = files;
        ++calls;
    });
    bool claimed = true;
    bool handed = false;
    std::thread other([&] {
        SingleWindow second(QStringLiteral("settings"));
        claimed = second.claim();
        const auto done =
            second.handOver({QStringLiteral("a b.wav"), QStringLiteral("/x/c\u266f.json")});
        handed = done && *done;
    });
    QElapsedTimer timer;
    timer.start();
    while (calls == 0 && timer.elapsed() < 20000) {
        QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents, 20);
    }
    other.join();
    CHECK_FALSE(claimed);
    CHECK(handed);
    REQUIRE(got.size() == 2);
    CHECK(got[0] == QDir::current().absoluteFilePath(QStringLiteral("a b.wav")));
    CHECK(got[1] == QStringLiteral("/x/c\u266f.json"));
    CHECK(calls == 1);
}

TEST_CASE("another folder of settings has a window of its own", "[ui]") {
    const PrivateFolder runtime;
    SingleWindow one(QStringLiteral("one"));
    SingleWindow two(QStringLiteral("two"));
    SingleWindow platform({});
    CHECK(one.claim());
    CHECK(two.claim());
    CHECK(platform.claim());
    SingleWindow again(QStringLiteral("two"));
    CHECK_FALSE(again.claim());
}

TEST_CASE("when the first is gone the next is the first; a socket left behind is put aside",
          "[ui]") {
    const PrivateFolder runtime;
    {
        SingleWindow first(QStringLiteral("s"));
        REQUIRE(first.claim());
        first.answerCalls();
    }
    const QStringList left = QDir(runtime.folder().path()).entryList(QDir::Files);
    REQUIRE(left.size() == 1); // the lock's file alone
    QFile stale(runtime.folder().filePath(
        QString(left.front()).replace(QStringLiteral(".lock"), QStringLiteral(".socket"))));
    REQUIRE(stale.open(QIODevice::WriteOnly));
    stale.close();
    SingleWindow next(QStringLiteral("s"));
    REQUIRE(next.claim());
    next.answerCalls();
    bool handed = false;
    std::thread other([&] {
        SingleWindow second(QStringLiteral("s"));
        const auto done = second.handOver({});
        handed = done && *done;
    });
    QElapsedTimer timer;
    timer.start();
    bool called = false;
    QObject::connect(&next, &SingleWindow::called, [&](const QStringList&) { called = true; });
    while (!called && timer.elapsed() < 20000) {
        QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents, 20);
    }
    other.join();
    CHECK(handed);
}

TEST_CASE("who comes second takes over when the first goes instead of answering", "[ui]") {
    const PrivateFolder runtime;
    auto first = std::make_unique<SingleWindow>(QStringLiteral("s"));
    REQUIRE(first->claim()); // and never answers
    SingleWindow second(QStringLiteral("s"));
    REQUIRE_FALSE(second.claim());
    first.reset();
    const auto handed = second.handOver({});
    REQUIRE(handed);
    CHECK_FALSE(*handed);
}

TEST_CASE("without a folder of the session one among the temporary files does, if it is private",
          "[ui]") {
    const PrivateFolder runtime;
    const QTemporaryDir temporary;
    qunsetenv("XDG_RUNTIME_DIR");
    const QByteArray before = qgetenv("TMPDIR");
    qputenv("TMPDIR", temporary.path().toLocal8Bit());
    {
        SingleWindow one({});
        CHECK(one.claim());
        SingleWindow two({});
        CHECK_FALSE(two.claim());
    }
    const QStringList made = QDir(temporary.path()).entryList(QDir::Dirs | QDir::NoDotAndDotDot);
    REQUIRE(made.size() == 1);
    // One that others can enter is not trusted: every start then has a window of its own.
    REQUIRE(QFile::setPermissions(temporary.filePath(made.front()),
                                  QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner |
                                      QFile::WriteOther | QFile::ExeOther));
    SingleWindow one({});
    SingleWindow two({});
    CHECK(one.claim());
    CHECK(two.claim());
    before.isNull() ? qunsetenv("TMPDIR") : qputenv("TMPDIR", before);
}

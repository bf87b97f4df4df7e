#pragma once

#include <QObject>
#include <QTimer>
#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace quillbench {

/// Does work on a thread of its own, one piece after the other, and takes each outcome back on the window's thread, so
/// that nobody waits for a disk. What was begun is done when this ends; outcomes that were not taken back are dropped.
/// **Thread** GUI.
class BackgroundWork : public QObject {
    Q_OBJECT

public:
    /// What is done on the window's thread with what was found.
    using Outcome = std::function<void()>;
    using Work = std::function<Outcome()>;

    explicit BackgroundWork(QObject* parent = nullptr);
    BackgroundWork(const BackgroundWork&) = delete;
    BackgroundWork& operator=(const BackgroundWork&) = delete;
    ~BackgroundWork() override;

    /// Returns at once.
    void begin(Work work);

    [[nodiscard]] bool busy() const { return begun_ != taken_; }

    /// Waits until all that was begun is done and taken back: for tests and for the end of the program.
    void finish();

Q_SIGNALS:
    void busyChanged(bool busy);

private:
    void run(const std::stop_token& stop);
    void takeBack();

    QTimer timer_;
    std::size_t begun_ = 0;
    std::size_t taken_ = 0;
    std::mutex mutex_;
    std::condition_variable_any changed_;
    std::deque<Work> waiting_;
    std::vector<Outcome> outcomes_;
    std::size_t done_ = 0;
    std::jthread thread_;
};

} // namespace quillbench

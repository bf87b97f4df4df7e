#include "app/storage/log_writer.hpp"

#include <utility>

namespace quillbench {

namespace {

constexpr auto kPauseBetweenTries = std::chrono::milliseconds(500);

} // namespace

LogWriter::LogWriter(Logbook logbook, std::chrono::milliseconds patience)
    : patience_(patience),
      logbook_(std::move(logbook)),
      thread_([this](const std::stop_token& stop) { run(stop); }) {
}

LogWriter::~LogWriter() {
    waitUntilKept(patience_);
    thread_.request_stop();
    changed_.notify_all();
}

void LogWriter::post(Change change) {
    const std::lock_guard lock(mutex_);
    waiting_.push_back(std::move(change));
    ++state_.asked;
    changed_.notify_all();
}

LogWriter::State LogWriter::state() const {
    const std::lock_guard lock(mutex_);
    return state_;
}

bool LogWriter::waitUntilKept(std::chrono::milliseconds atMost) {
    std::unique_lock lock(mutex_);
    return changed_.wait_for(lock, atMost, [this] { return nothingLeft(); });
}

void LogWriter::run(const std::stop_token& stop) {
    std::unique_lock lock(mutex_);
    while (changed_.wait(lock, stop, [this] { return !waiting_.empty(); })) {
        const Change change = waiting_.front();
        lock.unlock();
        const Result<void> kept = change(logbook_);
        lock.lock();
        if (!kept && kept.error().code == ErrorCode::Environment) {
            state_.trouble = kept.error();
            if (stop.stop_requested()) {
                return;
            }
            changed_.wait_for(lock, stop, kPauseBetweenTries, [] { return false; });
            continue;
        }
        waiting_.pop_front();
        ++(kept ? state_.kept : state_.refused);
        state_.trouble = kept ? std::nullopt : std::optional(kept.error());
        changed_.notify_all();
    }
}

} // namespace quillbench

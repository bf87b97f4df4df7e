#include "app/models/background_work.hpp"

#include <utility>

namespace quillbench {

namespace {

constexpr int kTakeBackMilliseconds = 30;

} // namespace

BackgroundWork::BackgroundWork(QObject* parent)
    : QObject(parent),
      thread_([this](const std::stop_token& stop) { run(stop); }) {
    timer_.setInterval(kTakeBackMilliseconds);
    connect(&timer_, &QTimer::timeout, this, &BackgroundWork::takeBack);
}

BackgroundWork::~BackgroundWork() {
    thread_.request_stop();
    thread_.join();
}

void BackgroundWork::begin(Work work) {
    {
        const std::lock_guard lock(mutex_);
        waiting_.push_back(std::move(work));
    }
    changed_.notify_all();
    ++begun_;
    timer_.start();
    if (begun_ == taken_ + 1) {
        Q_EMIT busyChanged(true);
    }
}

void BackgroundWork::run(const std::stop_token& stop) {
    std::unique_lock lock(mutex_);
    while (true) {
        changed_.wait(lock, stop, [this] { return !waiting_.empty(); });
        if (waiting_.empty()) {
            return;
        }
        const Work work = std::move(waiting_.front());
        waiting_.pop_front();
        lock.unlock();
        Outcome outcome = work();
        lock.lock();
        outcomes_.push_back(std::move(outcome));
        ++done_;
        changed_.notify_all();
    }
}

void BackgroundWork::takeBack() {
    std::vector<Outcome> outcomes;
    {
        const std::lock_guard lock(mutex_);
        outcomes.swap(outcomes_);
    }
    if (outcomes.empty()) {
        return;
    }
    taken_ += outcomes.size();
    for (const Outcome& outcome : outcomes) {
        if (outcome) {
            outcome();
        }
    }
    if (!busy()) {
        timer_.stop();
        Q_EMIT busyChanged(false);
    }
}

void BackgroundWork::finish() {
    while (busy()) {
        {
            std::unique_lock lock(mutex_);
            changed_.wait(lock, [this] { return waiting_.empty() && done_ == begun_; });
        }
        takeBack();
    }
}

} // namespace quillbench

#pragma once

#include "app/storage/logbook.hpp"

#include <chrono>
#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

namespace quillbench {

/// Writes into a logbook on a thread of its own, in the order asked for, so that nobody waits for a disk. What cannot
/// be kept now (disk full, another program writing) is tried again until it can. The destructor waits until all is
/// kept, or for `patience` at most.
class LogWriter {
public:
    /// One change. It must come to the same when it is made twice.
    using Change = std::function<Result<void>(Logbook&)>;

    /// **Range** logbook.writable().
    explicit LogWriter(Logbook logbook,
                       std::chrono::milliseconds patience = std::chrono::seconds(10));
    LogWriter(const LogWriter&) = delete;
    LogWriter& operator=(const LogWriter&) = delete;
    ~LogWriter();

    /// **Thread** any ordinary thread; returns at once.
    void post(Change change);

    struct State {
        std::size_t asked = 0;   ///< changes posted
        std::size_t kept = 0;    ///< of them, those that will outlive a power cut
        std::size_t refused = 0; ///< of them, those that can never be kept
        std::optional<Error>
            trouble; ///< why the next one is not kept yet, or the last refused one was
    };

    /// **Thread** any ordinary thread.
    [[nodiscard]] State state() const;

    /// Waits until nothing is left to keep, or for so long at most. True: nothing is left. **Thread** any ordinary
    /// thread.
    bool waitUntilKept(std::chrono::milliseconds atMost);

private:
    void run(const std::stop_token& stop);

    [[nodiscard]] bool nothingLeft() const { return state_.kept + state_.refused == state_.asked; }

    std::chrono::milliseconds patience_;
    mutable std::mutex mutex_;
    std::condition_variable_any changed_;
    std::deque<Change> waiting_;
    State state_;
    Logbook logbook_; ///< touched by the thread alone
    std::jthread thread_;
};

} // namespace quillbench

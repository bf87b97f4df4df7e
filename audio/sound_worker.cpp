#include "audio/sound_worker.hpp"

#include "audio/device_stream.hpp"
#include "audio/portaudio_library.hpp"
#include "audio/thread_role.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <deque>
#include <functional>
#include <future>
#include <mutex>
#include <optional>
#include <utility>
#include <vector>

namespace quillbench {
namespace {

using Clock = std::chrono::steady_clock;

constexpr auto kWorkerLooksEvery = std::chrono::milliseconds(100);
constexpr auto kLooksWhereAllIsOpen =
    std::chrono::milliseconds(200); // a loss counts after a second
constexpr auto kTryEvery = std::chrono::seconds(1);
constexpr auto kWaitForClosing = std::chrono::seconds(1);
constexpr auto kWaitForList = std::chrono::seconds(3);
// While another stream runs well, the list is made anew (which interrupts it) only every so many tries.
constexpr int kTriesPerList = 10;

/// Everything that calls PortAudio; lives on the worker's thread.
class Bench {
public:
    void add(std::shared_ptr<DeviceStream> stream) {
        if (std::find(streams_.begin(), streams_.end(), stream) == streams_.end()) {
            streams_.push_back(std::move(stream));
        }
        nextTry_ = Clock::now();
        tries_ = 0;
    }

    void remove(const std::shared_ptr<DeviceStream>& stream) {
        stream->close();
        std::erase(streams_, stream);
        if (streams_.empty()) {
            library_.reset();
        }
    }

    void closeAll() {
        for (const auto& stream : streams_) {
            stream->close();
        }
        streams_.clear();
        library_.reset();
    }

    void setResting(DeviceStream& stream, bool resting) {
        stream.setResting(resting);
        nextTry_ = Clock::now();
    }

    /// How soon to look again: never where every stream rests, seldom where all that do not are open.
    [[nodiscard]] std::optional<std::chrono::milliseconds> looksAgainIn() const {
        const auto rests = [](const auto& stream) { return stream->rests(); };
        if (std::all_of(streams_.begin(), streams_.end(), rests)) {
            return std::nullopt;
        }
        const auto waits = [](const auto& stream) { return stream->waitsToOpen(); };
        return std::any_of(streams_.begin(), streams_.end(), waits) ? kWorkerLooksEvery
                                                                    : kLooksWhereAllIsOpen;
    }

    void look() {
        std::vector<DeviceStream*> lost;
        for (const auto& stream : streams_) {
            if (stream->noticeLoss()) {
                lost.push_back(stream.get());
            }
        }
        for (DeviceStream* stream : lost) { // only after all say so: closing may hang
            stream->close();
        }
        if (!lost.empty()) {
            nextTry_ = Clock::now();
            tries_ = 0;
        }
        const auto waits = [](const auto& stream) { return stream->waitsToOpen(); };
        if (Clock::now() < nextTry_ || std::none_of(streams_.begin(), streams_.end(), waits)) {
            return;
        }
        const auto runs = [](const auto& stream) { return stream->isOpen(); };
        const bool othersRun = std::any_of(streams_.begin(), streams_.end(), runs);
        ++tries_;
        if (!othersRun || tries_ % kTriesPerList == 0) {
            makeListAgain();
        }
        openWaiting();
        nextTry_ = Clock::now() + kTryEvery;
    }

    Result<DeviceList> devices(SoundWorker::ListAge age) {
        const auto runs = [](const auto& stream) { return stream->isOpen(); };
        const bool anyRuns = std::any_of(streams_.begin(), streams_.end(), runs);
        if (library_ && (age == SoundWorker::ListAge::AtHand && anyRuns)) {
            return library_->devices();
        }
        if (auto error = makeListAgain()) {
            return Unexpected<Error>(*error);
        }
        DeviceList list = library_->devices();
        if (streams_.empty()) {
            library_.reset();
        } else {
            openWaiting();
        }
        return list;
    }

private:
    std::optional<Error> makeListAgain() {
        for (const auto& stream : streams_) {
            stream->close();
        }
        library_.reset();
        auto opened = PortAudioLibrary::open();
        if (!opened) {
            for (const auto& stream : streams_) {
                if (stream->waitsToOpen()) {
                    stream->markLost(opened.error());
                }
            }
            return opened.error();
        }
        library_ = std::move(*opened);
        return std::nullopt;
    }

    void openWaiting() {
        if (!library_) {
            return;
        }
        for (const auto& stream : streams_) {
            if (stream->waitsToOpen()) {
                stream->open();
            }
        }
    }

    std::optional<PortAudioLibrary> library_; // open while there are streams
    std::vector<std::shared_ptr<DeviceStream>> streams_;
    Clock::time_point nextTry_;
    int tries_ = 0;
};

} // namespace

struct SoundWorker::Shared {
    std::mutex mutex;
    std::condition_variable wake;
    std::deque<std::function<void(Bench&)>> tasks;
    bool stop = false;
    std::promise<void> ended;
    // Somebody has waited for it in vain and it has not moved since: nobody needs to find that out again.
    std::atomic<bool> hangs{false};

    void run() {
        setThreadRole(ThreadRole::SoundWorker);
        Bench bench;
        for (;;) {
            std::deque<std::function<void(Bench&)>> now;
            {
                std::unique_lock lock(mutex);
                const auto ready = [this] { return stop || !tasks.empty(); };
                if (const auto soon = bench.looksAgainIn()) {
                    wake.wait_for(lock, *soon, ready);
                } else {
                    wake.wait(lock, ready);
                }
                if (stop) {
                    break;
                }
                now.swap(tasks);
            }
            for (const auto& task : now) {
                task(bench);
            }
            bench.look();
            hangs = false;
        }
        bench.closeAll();
        ended.set_value();
    }

    template <typename T>
    bool waitFor(std::future<T>& future, std::chrono::seconds limit) {
        const auto wait = hangs ? std::chrono::seconds(0) : limit;
        if (future.wait_for(wait) == std::future_status::ready) {
            return true;
        }
        hangs = true;
        return false;
    }

    void post(std::function<void(Bench&)> task) {
        {
            const std::lock_guard lock(mutex);
            tasks.push_back(std::move(task));
        }
        wake.notify_one();
    }
};

SoundWorker::SoundWorker() : shared_(std::make_shared<Shared>()) {
    thread_ = std::thread([shared = shared_] { shared->run(); });
}

SoundWorker::~SoundWorker() {
    {
        const std::lock_guard lock(shared_->mutex);
        shared_->stop = true;
    }
    shared_->wake.notify_one();
    auto ended = shared_->ended.get_future();
    if (shared_->waitFor(ended, kWaitForClosing)) {
        thread_.join();
    } else {
        thread_.detach(); // it owns all that it uses
    }
}

Result<DeviceList> SoundWorker::devices(ListAge age) {
    struct Answer {
        std::promise<Result<DeviceList>> promise;
        std::atomic<bool> wanted{true};
    };

    auto answer = std::make_shared<Answer>();
    shared_->post([answer, age](Bench& bench) {
        if (answer->wanted) {
            answer->promise.set_value(bench.devices(age));
        }
    });
    auto future = answer->promise.get_future();
    if (!shared_->waitFor(future, kWaitForList)) {
        answer->wanted = false;
        return failure(ErrorCode::Environment,
                       "the sound system does not say which devices it has: the sound server may "
                       "hang; restart it, or try again");
    }
    return future.get();
}

void SoundWorker::add(std::shared_ptr<DeviceStream> stream) {
    stream->want();
    shared_->post([stream = std::move(stream)](Bench& bench) { bench.add(stream); });
}

void SoundWorker::setResting(const std::shared_ptr<DeviceStream>& stream, bool resting) {
    shared_->post([stream, resting](Bench& bench) { bench.setResting(*stream, resting); });
}

void SoundWorker::remove(const std::shared_ptr<DeviceStream>& stream) {
    stream->unwant();
    auto done = std::make_shared<std::promise<void>>();
    auto future = done->get_future();
    shared_->post([stream, done](Bench& bench) {
        bench.remove(stream);
        done->set_value();
    });
    (void)shared_->waitFor(future, kWaitForClosing);
}

} // namespace quillbench

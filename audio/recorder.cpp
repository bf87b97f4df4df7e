#include "audio/recorder.hpp"

#include "audio/thread_role.hpp"

#include <sndfile.h>

#include <algorithm>
#include <cmath>
#include <condition_variable>
#include <mutex>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

namespace quillbench {
namespace {

constexpr Seconds kMostSilence{10.0};       // kept for one gap
constexpr Seconds kMostBlocksWaiting{60.0}; // a disk that stalls longer stops the recording

struct CloseRecording {
    void operator()(SNDFILE* file) const { sf_close(file); }
};

Error writeError(const std::filesystem::path& path, const std::string& reason) {
    return Error{ErrorCode::Environment,
                 path.string() + ": the recording stopped (" + reason +
                     "); make room on the disk or choose another folder",
                 path.string()};
}

} // namespace

struct Recorder::Body {
    std::filesystem::path path;
    SampleRate rate;
    std::unique_ptr<SNDFILE, CloseRecording> file; // of the writing thread until it is joined

    // Of the thread that pushes.
    bool any = false;
    FrameIndex expected;

    mutable std::mutex mutex;
    std::condition_variable_any wake;
    std::vector<float> waiting;
    std::int64_t written = 0;
    std::optional<Error> trouble;
    bool finished = false;

    std::jthread writer; // last: joined before the rest goes

    void run(const std::stop_token& stop) {
        setThreadRole(ThreadRole::Recorder);
        std::vector<float> part;
        for (;;) {
            {
                std::unique_lock lock(mutex);
                wake.wait(lock, stop, [this] { return !waiting.empty(); });
                part.clear();
                part.swap(waiting);
            }
            if (part.empty()) {
                return; // asked to stop, and all is written
            }
            const auto count = static_cast<sf_count_t>(part.size());
            const sf_count_t done = sf_writef_float(file.get(), part.data(), count);
            const std::lock_guard lock(mutex);
            written += std::max<sf_count_t>(done, 0);
            if (done != count) {
                trouble = writeError(path, sf_strerror(file.get()));
                return;
            }
        }
    }

    void append(std::span<const float> samples, std::int64_t silence) {
        {
            const std::lock_guard lock(mutex);
            if (trouble || finished) {
                return;
            }
            const auto most = static_cast<std::size_t>(rate.frames(kMostBlocksWaiting).value());
            if (waiting.size() > most) {
                trouble = writeError(path, "the disk does not keep up");
                return;
            }
            waiting.insert(waiting.end(), static_cast<std::size_t>(silence), 0.0F);
            waiting.insert(waiting.end(), samples.begin(), samples.end());
        }
        wake.notify_one();
    }
};

Recorder::Recorder(std::unique_ptr<Body> body) : body_(std::move(body)) {
}

Result<std::unique_ptr<Recorder>> Recorder::begin(const std::filesystem::path& path,
                                                  SampleRate rate) {
    std::error_code ignored;
    if (std::filesystem::exists(path, ignored)) {
        return failure(ErrorCode::Environment,
                       path.string() + ": a file of this name is there already: choose another",
                       path.string());
    }
    SF_INFO info{};
    info.samplerate = static_cast<int>(std::lround(rate.hz()));
    info.channels = 1;
    info.format = SF_FORMAT_FLAC | SF_FORMAT_PCM_24;
    auto body = std::make_unique<Body>();
    body->path = path;
    body->rate = rate;
    body->file.reset(sf_open(path.c_str(), SFM_WRITE, &info));
    if (!body->file) {
        return failure(ErrorCode::Environment,
                       path.string() + ": the recording cannot be begun (" + sf_strerror(nullptr) +
                           "): choose a folder that can be written to",
                       path.string());
    }
    sf_command(body->file.get(), SFC_SET_CLIPPING, nullptr, SF_TRUE);
    Body* const shared = body.get();
    body->writer = std::jthread([shared](const std::stop_token& stop) { shared->run(stop); });
    return std::unique_ptr<Recorder>(new Recorder(std::move(body)));
}

Recorder::~Recorder() {
    (void)finish();
}

void Recorder::push(const SoundBlock& block) {
    Body& body = *body_;
    std::int64_t silence = 0;
    if (body.any && block.first > body.expected) {
        silence =
            std::min((block.first - body.expected).value(), body.rate.frames(kMostSilence).value());
    }
    body.any = true;
    body.expected = block.first + FrameCount(static_cast<std::int64_t>(block.samples.size()));
    body.append(block.samples, silence);
}

Result<FrameCount> Recorder::finish() {
    Body& body = *body_;
    {
        const std::lock_guard lock(body.mutex);
        body.finished = true;
    }
    body.writer.request_stop();
    if (body.writer.joinable()) {
        body.writer.join();
    }
    if (body.file) {
        sf_write_sync(body.file.get());
        const int closed = sf_close(body.file.release());
        if (closed != 0 && !body.trouble) {
            body.trouble = writeError(body.path, sf_error_number(closed));
        }
    }
    if (body.trouble) {
        return Unexpected<Error>(*body.trouble);
    }
    return FrameCount(body.written);
}

std::optional<Error> Recorder::trouble() const {
    const std::lock_guard lock(body_->mutex);
    return body_->trouble;
}

} // namespace quillbench

#include "audio/file_source.hpp"

#include <atomic>
#include <chrono>
#include <mutex>
#include <utility>

namespace quillbench {

struct FileSource::Body {
    using Clock = std::chrono::steady_clock;

    SoundFile file;
    Pace pace;
    mutable std::mutex mutex;
    EngineState state;
    Clock::time_point started; // instant of frame `base`
    FrameIndex base;
    FrameIndex next;

    /// By the clock, the next block has been played.
    [[nodiscard]] bool isDue() const {
        if (pace == Pace::AsTaken) {
            return true;
        }
        const FrameCount ahead = next + FrameCount(AudioBlock::kMaxFrames) - base;
        return Clock::now() - started >= file.rate().duration(ahead);
    }
};

FileSource::FileSource(std::unique_ptr<Body> body) : body_(std::move(body)) {
}

FileSource::~FileSource() = default;

Result<std::unique_ptr<FileSource>>
FileSource::open(const std::filesystem::path& path, Pace pace, std::optional<int> channel) {
    auto file = SoundFile::open(path, channel);
    if (!file) {
        return Unexpected<Error>(file.error());
    }
    auto body = std::unique_ptr<Body>(new Body{std::move(*file), pace, {}, {}, {}, {}, {}});
    return std::unique_ptr<FileSource>(new FileSource(std::move(body)));
}

SampleRate FileSource::sampleRate() const {
    return body_->file.rate();
}

Result<void> FileSource::start() {
    const std::lock_guard lock(body_->mutex);
    if (body_->state.phase == EnginePhase::Idle) {
        body_->state.phase = EnginePhase::Running;
        body_->started = Body::Clock::now();
        body_->base = body_->next;
    }
    return {};
}

void FileSource::stop() {
    const std::lock_guard lock(body_->mutex);
    if (body_->state.phase == EnginePhase::Running) {
        body_->state.phase = EnginePhase::Idle;
    }
}

bool FileSource::take(AudioBlock& block) {
    const std::lock_guard lock(body_->mutex);
    if (body_->state.phase != EnginePhase::Running || !body_->isDue()) {
        return false;
    }
    const auto got = body_->file.read(block.samples);
    if (!got) {
        body_->state = EngineState{EnginePhase::Failed, got.error()};
        return false;
    }
    if (*got == 0) {
        body_->state.phase = EnginePhase::Ended;
        return false;
    }
    block.first = body_->next;
    block.count = static_cast<std::uint32_t>(*got);
    block.discontinuity = false;
    body_->next = body_->next + FrameCount(static_cast<std::int64_t>(*got));
    return true;
}

EngineState FileSource::state() const {
    const std::lock_guard lock(body_->mutex);
    return body_->state;
}

} // namespace quillbench

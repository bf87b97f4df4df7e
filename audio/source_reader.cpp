#include "audio/source_reader.hpp"

#include "audio/thread_role.hpp"

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

namespace quillbench {
namespace {

constexpr auto kReadEvery = std::chrono::milliseconds(20);

} // namespace

struct SourceReader::Body {
    std::shared_ptr<AudioSource> source;
    Listener listener;
    std::optional<FrameIndex> expected;
    std::mutex sleepMutex;
    std::condition_variable_any wake;
    std::jthread thread; // last: joined before the rest goes

    void read(const AudioBlock& block) {
        const bool gap = expected && (block.discontinuity || block.first != *expected);
        expected = block.first + FrameCount(static_cast<std::int64_t>(block.count));
        listener.hear(block, gap);
    }

    void run(const std::stop_token& stop) {
        setThreadRole(ThreadRole::Engine);
        while (!stop.stop_requested()) {
            // The state is read first: what came before an end is then still heard.
            const EngineState state = source->state();
            AudioBlock block;
            while (!stop.stop_requested() && source->take(block)) {
                read(block);
            }
            listener.show(state);
            if (state.phase == EnginePhase::Ended || state.phase == EnginePhase::Failed) {
                return;
            }
            std::unique_lock lock(sleepMutex);
            wake.wait_for(lock, stop, kReadEvery, [] { return false; });
        }
    }
};

SourceReader::SourceReader(std::shared_ptr<AudioSource> source, Listener listener)
    : body_(std::make_unique<Body>()) {
    Body& body = *body_;
    body.source = std::move(source);
    body.listener = std::move(listener);
    if (const auto started = body.source->start(); !started) {
        body.listener.show(EngineState{EnginePhase::Failed, started.error()});
        return;
    }
    body.thread = std::jthread([&body](const std::stop_token& stop) { body.run(stop); });
}

SourceReader::~SourceReader() {
    body_->source->stop();
    body_->thread = std::jthread();
}

} // namespace quillbench

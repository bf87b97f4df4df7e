#pragma once

#include "audio/audio_block.hpp"
#include "audio/audio_source.hpp"
#include "audio/engine_state.hpp"

#include <functional>
#include <memory>

namespace quillbench {

/// Reads a source on a thread of its own, block by block, until it ends or fails.
class SourceReader {
public:
    /// What is done on the reader's thread. Neither may outlive what it refers to: the reader goes first.
    struct Listener {
        std::function<void(const AudioBlock&, bool gap)> hear; ///< gap: sound is missing before it
        std::function<void(const EngineState&)> show;          ///< after the blocks that were there
    };

    /// Starts the source; where it does not start, `show` is told here and now.
    SourceReader(std::shared_ptr<AudioSource> source, Listener listener);
    SourceReader(const SourceReader&) = delete;
    SourceReader& operator=(const SourceReader&) = delete;

    /// Stops the source; returns within three seconds.
    ~SourceReader();

private:
    struct Body;
    std::unique_ptr<Body> body_;
};

} // namespace quillbench

#pragma once

namespace quillbench {

/// What a thread is for. Its name shows in debuggers and in `top -H`.
enum class ThreadRole { Unnamed, Window, Engine, SoundWorker, Renderer, Recorder };

/// Names the calling thread.
void setThreadRole(ThreadRole role);

/// Whether the calling thread was named so. For EXPECTS() at the head of what only one thread may do.
[[nodiscard]] bool onThread(ThreadRole role);

} // namespace quillbench

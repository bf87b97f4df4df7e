#include "audio/thread_role.hpp"

#include <pthread.h>

namespace quillbench {
namespace {

thread_local ThreadRole role = ThreadRole::Unnamed;

const char* name(ThreadRole of) {
    switch (of) { // at most 15 letters (pthread_setname_np)
    case ThreadRole::Window:
        return "window";
    case ThreadRole::Engine:
        return "engine";
    case ThreadRole::SoundWorker:
        return "sound-worker";
    case ThreadRole::Renderer:
        return "renderer";
    case ThreadRole::Recorder:
        return "recorder";
    case ThreadRole::Unnamed:
        break;
    }
    return "quillbench";
}

} // namespace

void setThreadRole(ThreadRole newRole) {
    role = newRole;
    // The window's thread gives the process its name: that one stays.
    if (newRole != ThreadRole::Window) {
        pthread_setname_np(pthread_self(), name(newRole));
    }
}

bool onThread(ThreadRole asked) {
    return role == asked;
}

} // namespace quillbench

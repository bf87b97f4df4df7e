#pragma once

#include "audio/device_list.hpp"
#include "core/support/result.hpp"

#include <memory>
#include <thread>

namespace quillbench {

class DeviceStream;

/// The one thread that calls PortAudio: it opens and closes streams, watches them, and brings them back when their
/// device was lost (it closes all, makes PortAudio's device list anew, and tries again every second). When the sound
/// server is frozen this thread hangs in PortAudio; it is then left alone, it keeps what it uses alive, nothing else
/// calls PortAudio meanwhile, and it goes on by itself when the server thaws. One in a program.
/// **Thread** any ordinary thread.
class SoundWorker {
public:
    SoundWorker();
    SoundWorker(const SoundWorker&) = delete;
    SoundWorker& operator=(const SoundWorker&) = delete;

    /// Closes what is open. Waits for the thread for at most a second, then leaves it behind.
    ~SoundWorker();

    enum class ListAge {
        AtHand, ///< as PortAudio knows it; made anew when no stream is open
        MadeAgain, ///< streams are interrupted for a moment (they show a gap), newly plugged devices appear
    };

    /// What the host offers; an empty list is an ordinary answer. **Errors** Environment where the sound system does
    /// not answer within three seconds or cannot be started.
    [[nodiscard]] Result<DeviceList> devices(ListAge age = ListAge::AtHand);

    /// Takes charge of a stream; its state() tells how it fares.
    void add(std::shared_ptr<DeviceStream> stream);

    /// A stream that was added rests (its device stands still), or goes on.
    void setResting(const std::shared_ptr<DeviceStream>& stream, bool resting);

    /// Closes a stream and forgets it; waits for that for at most a second.
    void remove(const std::shared_ptr<DeviceStream>& stream);

private:
    struct Shared;
    std::shared_ptr<Shared> shared_;
    std::thread thread_;
};

} // namespace quillbench

#include "app/models/sound_bench.hpp"

#include "audio/analysis_engine.hpp"
#include "audio/capture_stream.hpp"
#include "audio/file_source.hpp"
#include "audio/playback_stream.hpp"
#include "audio/sound_worker.hpp"
#include "audio/virtual_source.hpp"
#include "core/support/contract.hpp"

#include <utility>

namespace quillbench {

SoundBench::SoundBench() : worker_(std::make_unique<SoundWorker>()) {
}

SoundBench::~SoundBench() {
    stop();
}

Result<void> SoundBench::listenTo(const SourceChoice& choice,
                                  const InputChoice& input,
                                  const ClockCalibration& clock) {
    stop();
    auto sound = open(choice, input, paceOfRecordings_);
    if (!sound) {
        return failure(sound.error().code, sound.error().text, sound.error().context);
    }
    return begin(std::move(*sound), choice.kind == SourceKind::File ? ClockCalibration{} : clock);
}

Result<std::shared_ptr<AudioSource>> SoundBench::soundOf(const SourceChoice& choice,
                                                         const InputChoice& input) {
    return open(choice, input, Pace::AsTaken);
}

Result<std::shared_ptr<AudioSource>>
SoundBench::open(const SourceChoice& choice, const InputChoice& input, Pace pace) {
    EXPECTS(choice.kind != SourceKind::Virtual);
    if (choice.kind == SourceKind::File) {
        auto file = FileSource::open(choice.file.toStdString(), pace);
        if (!file) {
            return failure(file.error().code, file.error().text, file.error().context);
        }
        return std::shared_ptr<AudioSource>(std::move(file.value()));
    }
    const CaptureSettings settings{choice.device.toStdString(), input.channel, input.rate};
    return std::shared_ptr<AudioSource>(std::make_shared<CaptureStream>(*worker_, settings));
}

Result<void> SoundBench::listenTo(const Instrument& instrument, const VirtualSettings& settings) {
    stop();
    PlaybackSettings playback;
    playback.rate = settings.sampleRate;
    playback_ = std::make_shared<PlaybackStream>(*worker_, playback);
    playback_->start();
    virtual_ =
        std::make_shared<VirtualSource>(std::make_unique<VirtualInstrument>(instrument, settings),
                                        settings.sampleRate,
                                        Pace::RealTime,
                                        playback_);
    return begin(virtual_, ClockCalibration{});
}

void SoundBench::stop() {
    if (engine_) {
        engine_->stop();
    }
    engine_.reset();
    virtual_.reset();
    source_.reset();
    if (playback_) {
        playback_->stop();
    }
    playback_.reset();
}

void SoundBench::hush(bool hushed) {
    if (playback_) {
        hushed ? playback_->stop() : playback_->start();
        if (!hushed && virtual_) {
            virtual_->inspect(
                [](VirtualInstrument&) {}); // if it rests, it brings the loudspeaker to rest too
        }
    }
}

SampleRate SoundBench::rate() const {
    return source_ ? source_->sampleRate() : SampleRate();
}

Result<void> SoundBench::begin(std::shared_ptr<AudioSource> source, const ClockCalibration& clock) {
    source_ = std::move(source);
    engine_ = std::make_unique<AnalysisEngine>(source_, clock);
    return engine_->start();
}

} // namespace quillbench

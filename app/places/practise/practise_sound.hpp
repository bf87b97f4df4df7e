#pragma once

#include "audio/audio_source.hpp"
#include "core/practise/practice_output.hpp"
#include "core/practise/practice_pair.hpp"

#include <QObject>
#include <QTimer>
#include <memory>
#include <optional>
#include <vector>

namespace quillbench {

class PlaybackStream;
class SoundWorker;
class VirtualSource;

/// The loudspeaker of practice: two strings of a virtual instrument, quiet at first, never loud, without clicks.
/// **Thread** GUI.
class PractiseSound : public QObject {
    Q_OBJECT

public:
    /// Plays through the default output. `worker` must outlive this object.
    explicit PractiseSound(SoundWorker& worker, QObject* parent = nullptr);

    /// Without a loudspeaker: whoever takes from source() hears it.
    explicit PractiseSound(QObject* parent = nullptr);
    ~PractiseSound() override;

    /// The rate at which new sounds shall be made.
    [[nodiscard]] SampleRate rate() const { return rate_; }

    /// The loudspeaker's own rate is known; what sounds goes on as it is. **Range** held within 44.1 to 96 kHz.
    void setRate(SampleRate rate);

    /// Somebody comes to practise: the loudspeaker is opened.
    void enter();

    /// Lets the strings fade and the loudspeaker go.
    void leave();

    /// Plucks both strings of a pair as for the first time, at once: the samples of soundOf(pair) from 1 ms before the
    /// pluck on, at the level of the output. What sounded before fades; where the pair has another rate than it had, the
    /// loudspeaker is opened anew.
    void play(const PracticePair& pair);

    /// Plucks both strings as they stand now. **Range** after play().
    void pluckAgain();

    void damp();

    /// A sound in the place of the strings, at the level of the output; empty: it fades. **Range** after play(), else
    /// nothing sounds.
    void playInstead(std::vector<float> sound);

    /// Turns the pin of the pair (pinOf); positive sharpens. The hand stays on the hammer.
    void turnPin(double degrees);

    /// The hand lets the hammer go.
    void letGo();

    /// Decibels re the instrument, kQuietestDb … kLoudestDb.
    void setLevel(double decibels);

    /// Only the partials about a frequency; nothing: all.
    void hearOnly(std::optional<Hertz> centre);

    /// Where the string of that pin would rest now, and what a degree of its pin does. **Range** after play().
    [[nodiscard]] Hertz pinRests() const;
    [[nodiscard]] Cents centsPerDegree() const;

    /// From play() until the pluck leaves the loudspeaker, as the device states it.
    [[nodiscard]] Seconds delay() const;

    /// Whether a loudspeaker runs, or what is wrong with it.
    [[nodiscard]] EngineState state() const;

    /// Null before the first play().
    [[nodiscard]] VirtualSource* source() const { return source_.get(); }

private:
    void silence();
    void openAt(SampleRate rate);
    void send(const std::vector<VirtualCommand>& commands);
    void send(VirtualCommand::Kind kind, StringId string, double amount);

    SoundWorker* worker_ = nullptr;
    SampleRate rate_{48000.0};
    SampleRate outputRate_ = rate_; ///< of output_, playback_ and source_
    double level_ = kQuietStartDb;
    std::shared_ptr<PlaybackStream> playback_;
    std::shared_ptr<PracticeOutput> output_; ///< touched by the renderer, and within inspect()
    std::unique_ptr<VirtualSource> source_;
    std::optional<PracticePair> pair_;
    QTimer leaving_;
};

} // namespace quillbench

#pragma once

#include "app/places/practise/practise_model.hpp"
#include "app/places/practise/practise_sound.hpp"

#include <QObject>

namespace quillbench {

class PractisePage;
class SettingsStore;
class SoundBench;
class TuningModel;

/// The place Practise with all it needs: its sound, its model, its page. While the page is seen the loudspeaker is its
/// own, and what the session listens to meanwhile is not the instrument's business. **Thread** GUI.
class PractisePlace : public QObject {
    Q_OBJECT

public:
    /// All must outlive this. The temperament is the session's.
    PractisePlace(SoundBench& bench,
                  SettingsStore& settings,
                  const TuningModel& tuning,
                  QObject* parent = nullptr);

    /// Whoever takes it owns it; it must go before this object does.
    [[nodiscard]] PractisePage* page() const { return page_; }

    /// Practice sounds, or may: what a microphone hears now is not the instrument.
    [[nodiscard]] bool seen() const { return seen_; }

private:
    void followTuning();
    void showLoudspeaker();

    SoundBench& bench_;
    SettingsStore& settings_;
    const TuningModel& tuning_;
    PractiseSound sound_;
    PractiseModel model_;
    PractisePage* page_;
    bool seen_ = false;
};

} // namespace quillbench

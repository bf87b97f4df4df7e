#include "app/views/computer_keys.hpp"

#include "app/models/tuning_model.hpp"
#include "core/instrument/compass.hpp"

#include <Qt>
#include <algorithm>
#include <array>

namespace quillbench {

namespace {

constexpr std::array kLower{Qt::Key_Z,
                            Qt::Key_S,
                            Qt::Key_X,
                            Qt::Key_D,
                            Qt::Key_C,
                            Qt::Key_V,
                            Qt::Key_G,
                            Qt::Key_B,
                            Qt::Key_H,
                            Qt::Key_N,
                            Qt::Key_J,
                            Qt::Key_M};
constexpr std::array kUpper{Qt::Key_Q,
                            Qt::Key_2,
                            Qt::Key_W,
                            Qt::Key_3,
                            Qt::Key_E,
                            Qt::Key_R,
                            Qt::Key_5,
                            Qt::Key_T,
                            Qt::Key_6,
                            Qt::Key_Y,
                            Qt::Key_7,
                            Qt::Key_U,
                            Qt::Key_I,
                            Qt::Key_9,
                            Qt::Key_O,
                            Qt::Key_0,
                            Qt::Key_P};

template <typename Row>
std::optional<int> placeIn(const Row& row, int key) {
    const auto found = std::find(row.begin(), row.end(), key);
    return found == row.end() ? std::nullopt : std::optional(static_cast<int>(found - row.begin()));
}

} // namespace

std::optional<int> noteOfComputerKey(int key) {
    if (const auto lower = placeIn(kLower, key)) {
        return lower;
    }
    if (const auto upper = placeIn(kUpper, key)) {
        return *upper + 12;
    }
    return std::nullopt;
}

Note chromaticAbove(int semitones, const TuningModel& tuning) {
    const Result<Note> lowest = parseNote(tuning.choice().lowest.toStdString());
    const int octaveStart = lowest ? lowest->midiNumber() / 12 * 12 : 48;
    return chromaticNote(std::clamp(octaveStart + semitones, 0, 127));
}

} // namespace quillbench

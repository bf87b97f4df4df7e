#include "app/views/computer_keys.hpp"

#include "app/models/tuning_model.hpp"
#include "core/instrument/compass.hpp"

#include <QGuiApplication>
#include <QKeyEvent>
#include <QTimer>
#include <Qt>
#include <algorithm>
#include <array>

namespace quillbench {

namespace {

/// A key by what an English keyboard has printed on it, and by its place as Linux numbers it (linux/input-event-codes.h;
/// X and Wayland's keymaps add 8).
struct PlayedKey {
    Qt::Key letter;
    quint32 place;
};

constexpr quint32 kKeymapOffset = 8;
constexpr std::array<PlayedKey, 12> kLower{{{Qt::Key_Z, 44},
                                            {Qt::Key_S, 31},
                                            {Qt::Key_X, 45},
                                            {Qt::Key_D, 32},
                                            {Qt::Key_C, 46},
                                            {Qt::Key_V, 47},
                                            {Qt::Key_G, 34},
                                            {Qt::Key_B, 48},
                                            {Qt::Key_H, 35},
                                            {Qt::Key_N, 49},
                                            {Qt::Key_J, 36},
                                            {Qt::Key_M, 50}}};
constexpr std::array<PlayedKey, 17> kUpper{{{Qt::Key_Q, 16},
                                            {Qt::Key_2, 3},
                                            {Qt::Key_W, 17},
                                            {Qt::Key_3, 4},
                                            {Qt::Key_E, 18},
                                            {Qt::Key_R, 19},
                                            {Qt::Key_5, 6},
                                            {Qt::Key_T, 20},
                                            {Qt::Key_6, 7},
                                            {Qt::Key_Y, 21},
                                            {Qt::Key_7, 8},
                                            {Qt::Key_U, 22},
                                            {Qt::Key_I, 23},
                                            {Qt::Key_9, 10},
                                            {Qt::Key_O, 24},
                                            {Qt::Key_0, 11},
                                            {Qt::Key_P, 25}}};

constexpr int kRepeatsWithinMs = 30;

/// Places are only known on X and Wayland.
bool toldByPlace() {
    const QString platform = QGuiApplication::platformName();
    return platform == QLatin1String("xcb") || platform.startsWith(QLatin1String("wayland"));
}

template <typename Row>
std::optional<int> placeIn(const Row& row, const QKeyEvent& event) {
    const bool byPlace = toldByPlace() && event.nativeScanCode() > kKeymapOffset;
    const auto found = std::find_if(row.begin(), row.end(), [&](const PlayedKey& key) {
        return byPlace ? event.nativeScanCode() == key.place + kKeymapOffset
                       : event.key() == key.letter;
    });
    return found == row.end() ? std::nullopt : std::optional(static_cast<int>(found - row.begin()));
}

} // namespace

std::optional<int> noteOfComputerKey(const QKeyEvent& event) {
    if (const auto lower = placeIn(kLower, event)) {
        return lower;
    }
    if (const auto upper = placeIn(kUpper, event)) {
        return *upper + 12;
    }
    return std::nullopt;
}

Note chromaticAbove(int semitones, const TuningModel& tuning) {
    const Result<Note> lowest = parseNote(tuning.choice().lowest.toStdString());
    const int octaveStart = lowest ? lowest->midiNumber() / 12 * 12 : 48;
    return chromaticNote(std::clamp(octaveStart + semitones, 0, 127));
}

HeldKeys::HeldKeys(QObject* parent) : QObject(parent) {
}

void HeldKeys::take(const QKeyEvent& event, int id) {
    QTimer* timer = held_.value(id);
    if (event.type() == QEvent::KeyRelease) {
        if (timer != nullptr && !event.isAutoRepeat()) {
            timer->start();
        }
        return;
    }
    if (timer != nullptr) {
        timer->stop();
        return;
    }
    if (event.isAutoRepeat()) {
        return;
    }
    timer = new QTimer(this);
    timer->setSingleShot(true);
    timer->setInterval(kRepeatsWithinMs);
    connect(timer, &QTimer::timeout, this, [this, timer, id] {
        held_.remove(id);
        timer->deleteLater();
        Q_EMIT released(id);
    });
    held_.insert(id, timer);
    Q_EMIT pressed(id);
}

} // namespace quillbench

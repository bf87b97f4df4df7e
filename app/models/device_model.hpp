#pragma once

#include "audio/device_list.hpp"

#include <QObject>
#include <QStringList>
#include <QTimer>
#include <memory>

namespace quillbench {

class SoundWorker;

/// The host's inputs. Asking may take seconds when the sound system does not answer, so it is done beside
/// the window's thread and looked for by a timer. **Thread** GUI.
class DeviceModel : public QObject {
    Q_OBJECT

public:
    /// `worker` must outlive this.
    explicit DeviceModel(SoundWorker& worker, QObject* parent = nullptr);
    ~DeviceModel() override;

    /// Asks, unless an answer is awaited already.
    void refresh();

    [[nodiscard]] const QStringList& inputs() const { return inputs_; }

    /// All that is known of them; empty before the first answer.
    [[nodiscard]] const DeviceList& list() const { return list_; }

Q_SIGNALS:
    void changed(); ///< other inputs
    void listed();  ///< an answer has come: list()

private:
    void look();

    SoundWorker& worker_;
    struct Answer;
    std::unique_ptr<Answer> answer_; ///< while one is awaited
    QTimer timer_;
    QStringList inputs_;
    DeviceList list_;
};

} // namespace quillbench

#pragma once

#include <QObject>
#include <QStringList>
#include <QTimer>
#include <memory>

namespace quillbench {

class SoundWorker;

/// The names of the host's inputs. Asking may take seconds when the sound system does not answer, so it is done beside
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

Q_SIGNALS:
    void changed();

private:
    void look();

    SoundWorker& worker_;
    struct Answer;
    std::unique_ptr<Answer> answer_; ///< while one is awaited
    QTimer timer_;
    QStringList inputs_;
};

} // namespace quillbench

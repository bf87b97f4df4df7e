#include "app/models/device_model.hpp"

#include "app/text/format.hpp"
#include "audio/sound_worker.hpp"

#include <chrono>
#include <future>
#include <utility>

namespace quillbench {

struct DeviceModel::Answer {
    std::future<Result<DeviceList>> future;
};

DeviceModel::DeviceModel(SoundWorker& worker, QObject* parent) : QObject(parent), worker_(worker) {
    timer_.setInterval(100);
    connect(&timer_, &QTimer::timeout, this, &DeviceModel::look);
}

DeviceModel::~DeviceModel() = default;

void DeviceModel::refresh() {
    if (answer_) {
        return;
    }
    answer_ = std::make_unique<Answer>();
    answer_->future = std::async(std::launch::async, [this] { return worker_.devices(); });
    timer_.start();
}

void DeviceModel::look() {
    if (answer_->future.wait_for(std::chrono::seconds(0)) != std::future_status::ready) {
        return;
    }
    timer_.stop();
    Result<DeviceList> devices = answer_->future.get();
    answer_.reset();
    QStringList inputs;
    if (devices) {
        for (const AudioDevice& device : devices->devices) {
            if (device.inputChannels > 0) {
                inputs << toQString(device.name);
            }
        }
    }
    list_ = devices ? std::move(*devices) : DeviceList{};
    if (inputs != inputs_) {
        inputs_ = inputs;
        Q_EMIT changed();
    }
    Q_EMIT listed();
}

} // namespace quillbench

#include "app/places/action/press_listener.hpp"

#include "app/places/action/ready_ones.hpp"

#include <utility>

namespace quillbench {

namespace {

DecidedPress decide(const PressAsked& asked, const KeptSound& sound) {
    const StaggerReading reading = listenToStagger(sound.samples, sound.rate, asked.question);
    const std::size_t rows = asked.rows.size();
    DecidedPress decided{asked.on, rows, asked.solos.size() == rows, {}};
    decided.press.key = asked.key;
    decided.press.sure = reading.countConfidence;
    decided.press.plucks.reserve(reading.plucks.size());
    for (const ChoirPluck& pluck : reading.plucks) {
        decided.press.plucks.push_back(
            {asked.rows[pluck.choir].reg, pluck.at.count(), pluck.confidence});
    }
    return decided;
}

} // namespace

void PressListener::listen(PressAsked asked, KeptSound sound) {
    deciding_.push_back(
        std::async(std::launch::async, [asked = std::move(asked), sound = std::move(sound)] {
            return decide(asked, sound);
        }));
}

std::vector<DecidedPress> PressListener::take() {
    return takeReady(deciding_);
}

void PressListener::forget() {
    deciding_.clear();
}

void PressListener::finish() const {
    for (const std::future<DecidedPress>& one : deciding_) {
        one.wait();
    }
}

} // namespace quillbench

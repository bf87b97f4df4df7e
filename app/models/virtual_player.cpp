#include "app/models/virtual_player.hpp"

#include "audio/virtual_source.hpp"
#include "core/support/contract.hpp"
#include "core/support/random.hpp"

#include <algorithm>

namespace quillbench {

namespace {

constexpr double kUnknownCentsPerDegree = 10.0;
/// A quiet living room, heard by a microphone near the strings. Common practice, no source.
constexpr double kRoomNoiseDb = -75.0;

} // namespace

VirtualSettings
mistuned(const TuningModel& model, SampleRate rate, std::uint64_t seed, Cents spread) {
    EXPECTS(model.ready());
    EXPECTS(spread <= Cents(45.0));
    const Instrument& instrument = model.instrument();
    Random random(seed);
    VirtualSettings settings;
    settings.sampleRate = rate;
    settings.seed = seed;
    settings.room.noise = Decibel::fromAmplitude(std::pow(10.0, kRoomNoiseDb / 20.0));
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        std::vector<Hertz> pitches;
        for (std::size_t course = 0; course < instrument.choirs[choir].strings.size(); ++course) {
            pitches.push_back(transpose(model.targetOf(StringId{choir, course}),
                                        Cents(random.uniform(-spread.value(), spread.value()))));
        }
        settings.pitches.push_back(std::move(pitches));
    }
    return settings;
}

VirtualPlayer::VirtualPlayer(const TuningModel& model, QObject* parent)
    : QObject(parent),
      model_(model) {
    connect(&model_, &TuningModel::sessionChanged, this, &VirtualPlayer::followChoice);
    connect(&model_, &TuningModel::chosen, this, [this] { atHand_.reset(); });
    connect(&model_, &TuningModel::registrationChanged, this, &VirtualPlayer::drawRegisters);
}

/// Felt lies where the step that is asked for wants it: nobody weaves it through a picture.
void VirtualPlayer::layFelt() {
    const auto asked =
        source_ != nullptr && model_.ready() ? model_.session().asked() : std::nullopt;
    if (!asked || model_.session().drawingOf(*asked).felt == felt_) {
        return;
    }
    felt_ = model_.session().drawingOf(*asked).felt;
    for (std::size_t choir = 0; choir < model_.instrument().choirs.size(); ++choir) {
        const bool lies = std::find(felt_.begin(), felt_.end(), choir) != felt_.end();
        VirtualCommand command;
        command.kind = lies ? VirtualCommand::Kind::LayFelt : VirtualCommand::Kind::TakeFelt;
        command.string.choir = choir;
        send(command);
    }
}

void VirtualPlayer::followChoice() {
    layFelt();
    if (model_.session().chosenByHand && atHand_ != model_.session().step().string) {
        atHand_ = model_.session().step().string;
        Q_EMIT pinTurned();
    }
}

StringId VirtualPlayer::atHand() const {
    return atHand_.value_or(model_.session().step().string);
}

void VirtualPlayer::setInstrument(VirtualSource* source) {
    source_ = source;
    down_.clear();
    shifted_.clear();
    waiting_.clear();
    degrees_.clear();
    atHand_.reset();
    felt_.clear();
    drawRegisters();
    layFelt();
    Q_EMIT pinTurned();
}

void VirtualPlayer::drawRegisters() {
    if (source_ == nullptr || !model_.ready()) {
        return;
    }
    VirtualCommand command;
    for (std::size_t reg = 0; reg < model_.instrument().registers.size(); ++reg) {
        command.kind = model_.registration().on[reg] ? VirtualCommand::Kind::RegisterOn
                                                     : VirtualCommand::Kind::RegisterOff;
        command.reg = reg;
        send(command);
    }
    command.kind = model_.registration().coupled ? VirtualCommand::Kind::Couple
                                                 : VirtualCommand::Kind::Uncouple;
    send(command);
}

/// Of a step that wants the keyboard slid elsewhere: what a key reaches there. The virtual one stays where it is, and its
/// strings are plucked by hand.
std::vector<StringId> VirtualPlayer::shiftedStrings(std::size_t key) const {
    std::vector<StringId> strings;
    const auto asked = model_.session().asked();
    if (!asked) {
        return strings;
    }
    const Drawing& drawing = model_.session().drawingOf(*asked);
    const int position = drawing.registration.position;
    if (position == model_.position()) {
        return strings;
    }
    for (const std::size_t choir : drawing.choirs) {
        const StringId string{choir, courseOf(model_.instrument(), key, position)};
        if (string.course < model_.instrument().choirs[choir].strings.size()) {
            strings.push_back(string);
        }
    }
    return strings;
}

void VirtualPlayer::keyDown(std::size_t key) {
    if (source_ == nullptr || !model_.ready()) {
        return;
    }
    keyUp(key);
    if (std::vector<StringId> strings = shiftedStrings(key); !strings.empty()) {
        for (const StringId string : strings) {
            sendString(VirtualCommand::Kind::PluckString, string);
        }
        const StringId step = model_.session().step().string;
        const bool ofStep = std::find(strings.begin(), strings.end(), step) != strings.end();
        atHand_ = ofStep ? step : strings.back();
        shifted_[key] = std::move(strings);
        Q_EMIT pinTurned();
        return;
    }
    down_.insert(key);
    sendKey(VirtualCommand::Kind::KeyDown, key);
    const std::vector<StringId> strings = model_.stringsOf(key);
    if (!strings.empty()) {
        // Of two strings on one key that of the step is brought to the other, else the one of the later choir.
        const StringId asked = model_.session().step().string;
        const bool whole = model_.choice().extent == Extent::Whole;
        atHand_ = whole && std::find(strings.begin(), strings.end(), asked) != strings.end()
                      ? asked
                      : *std::max_element(strings.begin(), strings.end());
        Q_EMIT pinTurned();
    }
}

void VirtualPlayer::changePin() {
    if (source_ == nullptr || !model_.ready()) {
        return;
    }
    const StringId now = atHand();
    const auto key = keyAt(model_.instrument(), now.course, model_.position());
    const std::vector<StringId> strings = key ? model_.stringsOf(*key) : std::vector<StringId>();
    const auto here = std::find(strings.begin(), strings.end(), now);
    if (here != strings.end()) {
        atHand_ = here + 1 == strings.end() ? strings.front() : *(here + 1);
        Q_EMIT pinTurned();
    }
}

void VirtualPlayer::keyUp(std::size_t key) {
    if (down_.erase(key) > 0) {
        sendKey(VirtualCommand::Kind::KeyUp, key);
    }
    if (const auto held = shifted_.find(key); held != shifted_.end()) {
        for (const StringId string : held->second) {
            sendString(VirtualCommand::Kind::DampString, string);
        }
        shifted_.erase(held);
    }
}

void VirtualPlayer::sendString(VirtualCommand::Kind kind, StringId string) {
    VirtualCommand command;
    command.kind = kind;
    command.string = string;
    send(command);
}

void VirtualPlayer::sendKey(VirtualCommand::Kind kind, std::size_t key) {
    if (source_ == nullptr || !model_.ready()) {
        return;
    }
    VirtualCommand command;
    command.kind = kind;
    command.manual = model_.manual();
    command.key = key;
    command.amount = kind == VirtualCommand::Kind::KeyDown ? keySpeed_ : 0.0;
    send(command);
}

void VirtualPlayer::turnPin(double degrees) {
    if (source_ == nullptr || !model_.ready()) {
        return;
    }
    VirtualCommand command;
    command.kind = VirtualCommand::Kind::TurnPin;
    command.string = atHand();
    command.amount = degrees;
    degrees_[{command.string.choir, command.string.course}] += degrees;
    send(command);
    Q_EMIT pinTurned();
}

void VirtualPlayer::turnPinBy(Cents cents) {
    turnPin(cents.value() / centsPerDegree());
}

void VirtualPlayer::driftBy(StringId string, Cents cents) {
    VirtualCommand command;
    command.kind = VirtualCommand::Kind::TurnPin;
    command.string = string;
    command.amount =
        cents.value() / model_.factsOf(string).centsPerDegree.value_or(kUnknownCentsPerDegree);
    send(command);
}

void VirtualPlayer::stepPin(PinStep step, int direction) {
    turnPinBy(sizeOf(step) * (direction < 0 ? -1.0 : 1.0));
}

void VirtualPlayer::letGo() {
    if (source_ == nullptr || !model_.ready()) {
        return;
    }
    VirtualCommand command;
    command.kind = VirtualCommand::Kind::TurnPin;
    command.string = atHand();
    command.amount = 0.0;
    send(command);
}

double VirtualPlayer::centsPerDegree() const {
    return model_.ready() ? model_.factsOf(atHand()).centsPerDegree.value_or(kUnknownCentsPerDegree)
                          : kUnknownCentsPerDegree;
}

double VirtualPlayer::turned() const {
    if (!model_.ready()) {
        return 0.0;
    }
    const auto found = degrees_.find({atHand().choir, atHand().course});
    return found == degrees_.end() ? 0.0 : found->second;
}

void VirtualPlayer::send(const VirtualCommand& command) {
    if (source_ == nullptr) {
        return;
    }
    waiting_.push_back(command);
    while (!waiting_.empty() && source_->send(waiting_.front())) {
        waiting_.pop_front();
    }
}

} // namespace quillbench

#include "app/places/temperament/temperament_model.hpp"

#include "app/formats/temperament_file.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "core/support/contract.hpp"
#include "core/temperament/catalogue.hpp"

#include <QFileInfo>
#include <algorithm>
#include <cmath>
#include <utility>

namespace quillbench {

namespace {

constexpr double kCircleClosedWithin = 1e-6; // cents, as Temperament::fromFifths
constexpr std::size_t kMostUndone = 200;

Tempering whatIsLeft(std::vector<Tempering> fifths, std::size_t fifth) {
    Tempering left;
    left.pythagorean = Fraction(-1);
    for (std::size_t i = 0; i < fifths.size(); ++i) {
        if (i != fifth) {
            left = left + -fifths[i];
        }
    }
    return left;
}

} // namespace

Tempering twelfthOfComma(int steps) {
    Tempering step;
    step.pythagorean = Fraction(steps, 12);
    return step;
}

Tempering tenthOfCent(int steps) {
    Tempering step;
    step.plain = Cents(steps / 10.0);
    return step;
}

TemperamentModel::TemperamentModel(const TuningModel& tuning, QObject* parent)
    : QObject(parent),
      tuning_(tuning),
      now_(stateOf(catalogue().front())),
      shown_(catalogue().front()) {
}

TemperamentModel::State TemperamentModel::stateOf(const Temperament& temperament) {
    State state;
    state.description = temperament.description();
    state.first = temperament.notes().front();
    state.fifths.assign(temperament.fifths().begin(), temperament.fifths().end());
    state.openChain = !temperament.isCircle();
    return state;
}

Result<Temperament> TemperamentModel::made(const State& state) {
    std::vector<Tempering> fifths = state.fifths;
    if (!state.openChain && std::abs(quillbench::openBy(fifths).value()) > kCircleClosedWithin) {
        fifths.pop_back();
    }
    return Temperament::fromFifths(
        state.description, state.first, std::move(fifths), state.openChain);
}

Cents TemperamentModel::openBy() const {
    const Cents open = now_.openChain ? Cents() : quillbench::openBy(now_.fifths);
    return std::abs(open.value()) > kCircleClosedWithin ? open : Cents();
}

TunedScale TemperamentModel::scale() const {
    return {shown_, ReferencePitch{Hertz(a4Hz_), {{Letter::A, 0}, 4}}};
}

void TemperamentModel::setA4(double hz) {
    const double held = std::clamp(hz, kLowestStandardHz, kHighestStandardHz);
    if (std::abs(held - a4Hz_) > 1e-9) {
        a4Hz_ = held;
        Q_EMIT changed();
    }
}

Result<QString> TemperamentModel::choiceId() const {
    if (abs(openBy()) > Cents()) {
        return failure(ErrorCode::BadArgument,
                       "the circle is open by " + signedCents(openBy()).toStdString() +
                           " cents; let one fifth take what is left");
    }
    if (now_.unsaved) {
        return failure(ErrorCode::BadArgument, "save it first: it is tuned from its file");
    }
    return now_.file.isEmpty() ? toQString(now_.description.id) : now_.file;
}

Result<void> TemperamentModel::choose(const QString& idOrFile) {
    State next;
    if (const Temperament* known = findTemperament(idOrFile.toStdString())) {
        next = stateOf(*known);
    } else {
        const Result<TemperamentFile> read = readTemperamentFile(idOrFile.toStdString());
        if (!read) {
            return Unexpected<Error>(read.error());
        }
        next = stateOf(read->temperament);
        next.file = QFileInfo(idOrFile).absoluteFilePath();
        next.original = read->original;
    }
    return become(std::move(next));
}

void TemperamentModel::follow(const TuningChoice& choice) {
    if (now_.unsaved) {
        return;
    }
    if (choose(choice.temperament)) {
        past_.clear();
        future_.clear();
    }
    setA4(choice.a4Hz);
    Q_EMIT changed();
}

void TemperamentModel::compareWith(const QString& id) {
    compared_ = findTemperament(id.toStdString());
    Q_EMIT changed();
}

Result<void> TemperamentModel::become(State next, bool goesOn) {
    Result<Temperament> temperament = made(next);
    if (!temperament) {
        return Unexpected<Error>(temperament.error());
    }
    if (!goesOn) {
        past_.push_back(now_);
    }
    now_ = std::move(next);
    if (past_.size() > kMostUndone) {
        past_.erase(past_.begin());
    }
    future_.clear();
    shown_ = std::move(*temperament);
    Q_EMIT changed();
    return {};
}

void TemperamentModel::goTo(const State& state) {
    now_ = state;
    shown_ = std::move(made(now_).value()); // it was shown before
    Q_EMIT changed();
}

Result<void>
TemperamentModel::setFifth(std::size_t fifth, const Tempering& tempering, bool goesOn) {
    EXPECTS(canChange() && fifth < now_.fifths.size());
    if (now_.fifths[fifth] == tempering) {
        return {};
    }
    State next = now_;
    next.fifths[fifth] = tempering;
    next.unsaved = true;
    if (next.description.status != DefinitionStatus::Own) {
        // What is said of a published temperament no longer holds of this one.
        next.description = TemperamentDescription{};
        next.description.id = "own";
        next.description.name = tr("After %1").arg(coreText(now_.description.name)).toStdString();
        next.description.source =
            tr("made from %1").arg(coreText(now_.description.name)).toStdString();
    }
    spellByWolf(next);
    return become(std::move(next), goesOn);
}

/// While the circle is open its wolf may only be what is left over.
void TemperamentModel::spellByWolf(State& state) {
    if (std::abs(quillbench::openBy(state.fifths).value()) > kCircleClosedWithin) {
        return;
    }
    if (const Result<Temperament> temperament = made(state)) {
        const Temperament spelled = spelledByWolf(*temperament);
        state.first = spelled.notes().front();
        state.fifths.assign(spelled.fifths().begin(), spelled.fifths().end());
    }
}

Result<void> TemperamentModel::closeAt(std::size_t fifth) {
    EXPECTS(canChange() && fifth < now_.fifths.size());
    return setFifth(fifth, whatIsLeft(now_.fifths, fifth));
}

void TemperamentModel::rename(const QString& name) {
    const std::string wanted = name.trimmed().toStdString();
    if (wanted.empty() || wanted == now_.description.name) {
        return;
    }
    State next = now_;
    next.description.name = wanted;
    next.unsaved = true;
    if (next.description.status != DefinitionStatus::Own) {
        next.description.status = DefinitionStatus::Own;
        next.description.id = "own";
    }
    // The sizes are those shown now, so that this cannot fail.
    static_cast<void>(become(std::move(next)));
}

void TemperamentModel::undo() {
    if (canUndo()) {
        future_.push_back(now_);
        const State state = std::move(past_.back());
        past_.pop_back();
        goTo(state);
    }
}

void TemperamentModel::redo() {
    if (canRedo()) {
        past_.push_back(now_);
        const State state = std::move(future_.back());
        future_.pop_back();
        goTo(state);
    }
}

Result<void> TemperamentModel::save(const QString& file) {
    if (abs(openBy()) > Cents()) {
        return failure(ErrorCode::BadArgument,
                       "the circle is open by " + signedCents(openBy()).toStdString() +
                           " cents; let one fifth take what is left");
    }
    Result<void> written =
        writeTemperamentFile(file.toStdString(), TemperamentFile{shown_, now_.original});
    if (written) {
        now_.file = QFileInfo(file).absoluteFilePath();
        now_.unsaved = false;
        Q_EMIT changed();
    }
    return written;
}

void TemperamentModel::setLeft(StringHistory left) {
    left_ = std::move(left);
    leftIn_.reset();
    if (left_.leftIn) {
        if (Result<Temperament> read = loadTemperament(left_.leftIn->temperament)) {
            leftIn_ = std::move(*read);
        }
    }
    Q_EMIT leftChanged();
    Q_EMIT changed();
}

std::optional<TunedScale> TemperamentModel::leftIn(int position) const {
    if (!leftIn_) {
        return std::nullopt;
    }
    const int slid = position - left_.leftIn->position;
    const double a4Hz =
        slid == 0 ? left_.leftIn->a4Hz : standardAfterSliding(left_.leftIn->a4Hz, slid);
    return TunedScale{*leftIn_, ReferencePitch{Hertz(a4Hz), {{Letter::A, 0}, 4}}};
}

std::vector<HeardNote> TemperamentModel::heard() const {
    std::vector<HeardNote> notes;
    if (!tuning_.ready()) {
        return notes;
    }
    for (const auto& [string, mark] : tuning_.session().known) {
        if (string.choir == tuning_.choir()) {
            notes.push_back({soundingNote(tuning_.instrument(), string, tuning_.position()),
                             transpose(tuning_.targetOf(string), mark.deviation),
                             mark.uncertainty});
        }
    }
    return notes;
}

Result<Recognition> TemperamentModel::recognise() const {
    return recogniseTemperament(heard(), catalogue());
}

} // namespace quillbench

#include "app/places/instrument/instrument_model.hpp"

#include "app/formats/instrument_file.hpp"
#include "app/formats/string_list.hpp"
#include "app/formats/temperament_file.hpp"
#include "app/formats/text_file.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"

#include <QFileInfo>
#include <algorithm>

namespace quillbench {

namespace {

constexpr const char* kLaidOutIn = "equal"; // what nominalPitch takes

ReferencePitch atA4(double hz) {
    return ReferencePitch{Hertz(hz), {{Letter::A, 0}, 4}};
}

} // namespace

InstrumentModel::InstrumentModel(const TuningModel& tuning, QObject* parent)
    : QObject(parent),
      tuning_(tuning),
      instrument_(exampleInstruments().front()) {
}

Result<QString> InstrumentModel::choiceId() const {
    if (unsaved_) {
        return failure(ErrorCode::BadArgument, "save it first: it is tuned from its file");
    }
    return file_.isEmpty() ? toQString(instrument_.id) : file_;
}

void InstrumentModel::become(const Instrument& instrument,
                             const QString& file,
                             const std::string& original) {
    instrument_ = instrument;
    file_ = file;
    original_ = original;
    unsaved_ = false;
    thenHz_ = 0.0;
    thenTemperament_.clear();
    Q_EMIT changed();
    Q_EMIT thoughtChanged();
}

Result<void> InstrumentModel::choose(const QString& idOrFile) {
    if (const Instrument* example = findExample(idOrFile.toStdString())) {
        become(*example, {}, {});
        return {};
    }
    const Result<InstrumentFile> read = readInstrumentFile(idOrFile.toStdString());
    if (!read) {
        return Unexpected<Error>(read.error());
    }
    become(read->instrument, QFileInfo(idOrFile).absoluteFilePath(), read->original);
    return {};
}

void InstrumentModel::follow(const TuningChoice& choice) {
    const Result<QString> here = choiceId();
    if (unsaved_ || (here && *here == choice.instrument)) {
        Q_EMIT thoughtChanged(); // Tune may stand at another pitch
        return;
    }
    // An instrument that Tune has read can be read again; where it no longer can, the one here stays.
    static_cast<void>(choose(choice.instrument));
}

void InstrumentModel::rename(const QString& name) {
    const std::string wanted = name.trimmed().toStdString();
    if (wanted.empty() || wanted == instrument_.name) {
        return;
    }
    instrument_.name = wanted;
    unsaved_ = true;
    Q_EMIT changed();
}

Result<QString> InstrumentModel::importStrings(const QString& file) {
    const Result<std::string> text = readTextFile(file.toStdString());
    if (!text) {
        return Unexpected<Error>(text.error());
    }
    const auto rows = parseStringList(*text);
    if (!rows) {
        return failure(rows.error().code,
                       QFileInfo(file).fileName().toStdString() + ": " + rows.error().text);
    }
    Result<AppliedStringList> applied = applyStringList(instrument_, *rows);
    if (!applied) {
        return failure(applied.error().code,
                       QFileInfo(file).fileName().toStdString() + ": " + applied.error().text);
    }
    instrument_ = std::move(applied->instrument);
    if (instrument_.example) {
        // These strings are no invention any more.
        instrument_.example = false;
        instrument_.id = "own";
        instrument_.name = tr("Own strings on: %1").arg(coreText(instrument_.name)).toStdString();
        file_.clear();
    }
    unsaved_ = true;
    Q_EMIT changed();
    Q_EMIT thoughtChanged();
    return tr("%1: %2 rows read, %3 strings filled in from their neighbours.")
        .arg(QFileInfo(file).fileName())
        .arg(rows->size())
        .arg(applied->filled.size());
}

Result<void> InstrumentModel::exportStrings(const QString& file) const {
    return writeTextFile(file.toStdString(), formatStringList(instrument_));
}

Result<void> InstrumentModel::save(const QString& file) {
    Result<void> written =
        writeInstrumentFile(file.toStdString(), InstrumentFile{instrument_, original_});
    if (written) {
        file_ = QFileInfo(file).absoluteFilePath();
        unsaved_ = false;
        Q_EMIT changed();
    }
    return written;
}

std::vector<StringState> InstrumentModel::strings(std::size_t choir) const {
    std::vector<StringState> states;
    const std::vector<StringMake>& makes = instrument_.choirs[choir].strings;
    states.reserve(makes.size());
    for (std::size_t course = 0; course < makes.size(); ++course) {
        states.push_back(stringState(makes[course], nominalPitch(instrument_, {choir, course})));
    }
    return states;
}

bool InstrumentModel::isTuned() const {
    const Result<QString> here = choiceId();
    return tuning_.ready() && here && *here == tuning_.choice().instrument;
}

TunedScale InstrumentModel::scaleNow() const {
    if (isTuned()) {
        const TuningChoice& choice = tuning_.choice();
        if (const auto temperament = loadTemperament(choice.temperament.toStdString())) {
            return {*temperament, atA4(choice.a4Hz)};
        }
    }
    return {*findTemperament(kLaidOutIn), atA4(instrument_.pitchStandardHz)};
}

void InstrumentModel::think(double a4Hz, const QString& temperament) {
    thenHz_ = a4Hz;
    thenTemperament_ = temperament;
    Q_EMIT thoughtChanged();
}

TunedScale InstrumentModel::scaleThen() const {
    TunedScale scale = scaleNow();
    if (thenHz_ > 0.0) {
        scale.reference = atA4(thenHz_);
    }
    if (const Temperament* other = findTemperament(thenTemperament_.toStdString())) {
        scale.temperament = *other;
    }
    return scale;
}

int InstrumentModel::position() const {
    const std::vector<int>& all = instrument_.positions;
    return all.empty() || std::find(all.begin(), all.end(), 0) != all.end() ? 0 : all.front();
}

LoadChange InstrumentModel::change() const {
    return loadChange(instrument_, scaleNow(), scaleThen(), position());
}

} // namespace quillbench

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
#include <QRegularExpression>
#include <algorithm>

namespace quillbench {

namespace {

constexpr double kSureStiffness = 0.15; // relative: what is less sure speaks for the prior as well

constexpr const char* kLaidOutIn = "equal"; // what nominalPitch takes
constexpr const char* kOwnId = "own";       // until it is saved
constexpr std::size_t kMostChangesUndone = 200;

ReferencePitch atA4(double hz) {
    return ReferencePitch{Hertz(hz), {{Letter::A, 0}, 4}};
}

/// The logbook tells instruments apart by this: small letters, figures and hyphens.
std::string idFrom(const QString& words) {
    static const QRegularExpression kOther(QStringLiteral("[^a-z0-9]+"));
    static const QRegularExpression kAny(QStringLiteral("[a-z0-9]"));
    QString id = words.toLower().normalized(QString::NormalizationForm_KD);
    id.replace(kOther, QStringLiteral("-"));
    const std::string made = id.contains(kAny) ? id.toStdString() : "mine";
    return findExample(made) == nullptr ? made : "own-" + made;
}

} // namespace

InstrumentModel::InstrumentModel(const TuningModel& tuning, QObject* parent)
    : QObject(parent),
      tuning_(tuning),
      instrument_(exampleInstruments().front()),
      kept_(instrument_) {
}

Result<QString> InstrumentModel::choiceId() const {
    if (unsaved()) {
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
    kept_ = instrument_;
    heard_.clear();
    newStrings_.clear();
    past_.clear();
    future_.clear();
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
    if (unsaved() || (here && *here == choice.instrument)) {
        Q_EMIT thoughtChanged(); // Tune may stand at another pitch
        return;
    }
    // An instrument that Tune has read can be read again; where it no longer can, the one here stays.
    static_cast<void>(choose(choice.instrument));
}

Result<void> InstrumentModel::change(const Result<Instrument>& wanted) {
    if (!wanted) {
        return Unexpected<Error>(wanted.error());
    }
    if (*wanted == instrument_) {
        return {};
    }
    Instrument next = *wanted;
    if (next.example) {
        // What is changed is no invention of ours any more.
        next.example = false;
        next.id = kOwnId;
        if (next.name == instrument_.name) {
            next.name = tr("My own, after: %1").arg(coreText(instrument_.name)).toStdString();
        }
        next.maker = next.maker == instrument_.maker ? std::string() : next.maker;
        next.place = next.place == instrument_.place ? std::string() : next.place;
    }
    past_.push_back(instrument_);
    if (past_.size() > kMostChangesUndone) {
        past_.erase(past_.begin());
    }
    future_.clear();
    instrument_ = std::move(next);
    Q_EMIT changed();
    Q_EMIT thoughtChanged();
    return {};
}

void InstrumentModel::goTo(std::vector<Instrument>& from, std::vector<Instrument>& to) {
    if (from.empty()) {
        return;
    }
    to.push_back(std::move(instrument_));
    instrument_ = std::move(from.back());
    from.pop_back();
    Q_EMIT changed();
    Q_EMIT thoughtChanged();
}

void InstrumentModel::undo() {
    goTo(past_, future_);
}

void InstrumentModel::redo() {
    goTo(future_, past_);
}

void InstrumentModel::rename(const QString& name) {
    Instrument next = instrument_;
    next.name = name.trimmed().toStdString();
    if (!next.name.empty()) {
        static_cast<void>(change(next)); // a name is never refused
    }
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
    const Result<AppliedStringList> applied = applyStringList(instrument_, *rows);
    if (!applied) {
        return failure(applied.error().code,
                       QFileInfo(file).fileName().toStdString() + ": " + applied.error().text);
    }
    if (Result<void> done = change(applied->instrument); !done) {
        return Unexpected<Error>(done.error());
    }
    return tr("%1: %2 rows read, %3 strings filled in from their neighbours.")
        .arg(QFileInfo(file).fileName())
        .arg(rows->size())
        .arg(applied->filled.size());
}

Result<void> InstrumentModel::exportStrings(const QString& file) const {
    return writeTextFile(file.toStdString(), formatStringList(instrument_));
}

Result<void> InstrumentModel::save(const QString& file) {
    Instrument named = instrument_;
    if (named.id == kOwnId) {
        named.id = idFrom(QFileInfo(file).completeBaseName());
    }
    Result<void> written =
        writeInstrumentFile(file.toStdString(), InstrumentFile{named, original_});
    if (written) {
        instrument_ = named;
        kept_ = named;
        file_ = QFileInfo(file).absoluteFilePath();
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

void InstrumentModel::hear(const StringReading& reading) {
    const double unsure = reading.inharmonicityUncertainty;
    if (reading.standing != Standing::Ok || !isTuned() || !(reading.inharmonicity > 0.0) ||
        unsure > kSureStiffness * reading.inharmonicity) {
        return;
    }
    const std::pair place{reading.string.choir, reading.string.course};
    const auto known = heard_.find(place);
    if (known == heard_.end() || known->second.uncertainty > unsure) {
        heard_[place] = {reading.pitch, reading.inharmonicity, unsure};
        Q_EMIT stringHeard();
    }
}

std::optional<HeardStiffness> InstrumentModel::heard(StringId string) const {
    const auto found = heard_.find({string.choir, string.course});
    return found == heard_.end() ? std::nullopt : std::optional(found->second);
}

void InstrumentModel::setNewStrings(std::vector<NewString> strings) {
    newStrings_ = std::move(strings);
    Q_EMIT newStringsChanged();
}

Hertz InstrumentModel::pitchNow(StringId string) const {
    const TunedScale scale = scaleNow();
    return targetPitch(
        instrument_,
        string,
        [&scale](const Note& note) { return scale.pitchOf(note); },
        position());
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

LoadChange InstrumentModel::loadOfThought() const {
    return loadChange(instrument_, scaleNow(), scaleThen(), position());
}

} // namespace quillbench

#include "app/places/recheck/drift_pictures.hpp"

#include "app/places/recheck/drift_text.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "core/logbook/instant.hpp"

#include <QCoreApplication>
#include <algorithm>

namespace quillbench {

namespace {

struct DriftPictureText {
    Q_DECLARE_TR_FUNCTIONS(DriftPictureText)
};

std::vector<KeyShown> keysOf(const Instrument& instrument) {
    std::vector<KeyShown> keys;
    keys.reserve(instrument.compass.keys.size());
    for (const Key& key : instrument.compass.keys) {
        keys.push_back({noteText(key.note),
                        key.column,
                        key.shape.rfind("sharp", 0) == 0,
                        key.shape == "sharp-back",
                        key.shape == "sharp-front"});
    }
    return keys;
}

std::optional<std::size_t> keyOfString(const RecheckModel& model, StringId string) {
    return string.choir == model.choir()
               ? keyAt(model.instrument(), string.course, model.tuning().position())
               : std::nullopt;
}

bool isListed(const RecheckModel& model, StringId string) {
    const auto isIt = [string](const auto& one) { return one.string == string; };
    if (model.bestUse()) {
        return std::any_of(model.bestUse()->strings.begin(), model.bestUse()->strings.end(), isIt);
    }
    if (!model.advice()) {
        return false;
    }
    const ShortList& list = model.advice()->moved.value_or(model.advice()->here);
    return std::any_of(list.strings.begin(), list.strings.end(), isIt);
}

DriftSign signOf(StringDrift drift) {
    return drift == StringDrift::Moved       ? DriftSign::Moved
           : drift == StringDrift::PlayAgain ? DriftSign::PlayAgain
                                             : DriftSign::AsTheRest;
}

/// The newest earlier recheck in which strings of this choir were heard.
void addGhost(DriftPicture& picture, const RecheckModel& model) {
    const auto& looks = model.history().looks;
    for (auto past = looks.rbegin(); past != looks.rend() && picture.ghost.empty(); ++past) {
        if (past->uid == model.keptUid()) {
            continue;
        }
        for (const Movement& one : past->look.movements) {
            if (const auto key = keyOfString(model, one.string)) {
                picture.ghost.push_back({*key, one.moved});
            }
        }
        picture.ghostName = DriftPictureText::tr("faint: the recheck of %1")
                                .arg(toQString(wallClockText(past->at)));
    }
    if (picture.ghost.empty()) {
        picture.ghostName.clear();
    }
}

void addMarks(DriftPicture& picture, const RecheckModel& model) {
    std::map<StringId, DriftSign> signs;
    for (std::size_t i = 0; model.fit() && i < model.fit()->strings.size(); ++i) {
        const StringVerdict& verdict = model.fit()->strings[i];
        signs[verdict.string] = signOf(verdict.drift);
        if (const auto key = keyOfString(model, verdict.string)) {
            picture.expected.push_back({*key, verdict.expected});
        }
    }
    for (const auto& [string, heard] : model.recheck().heard()) {
        const auto key = keyOfString(model, string);
        if (!key) {
            continue;
        }
        const auto sign = signs.find(string);
        const bool settled = model.recheck().references().at(string).settled;
        picture.marks.push_back({*key,
                                 heard.moved,
                                 heard.uncertainty,
                                 !settled              ? DriftSign::NeverSettled
                                 : sign != signs.end() ? sign->second
                                                       : DriftSign::AsTheRest,
                                 isListed(model, string)});
    }
}

} // namespace

DriftPicture driftPicture(const RecheckModel& model, const AnalysisSnapshot* snapshot) {
    DriftPicture picture;
    picture.keys = keysOf(model.instrument());
    addMarks(picture, model);
    addGhost(picture, model);
    picture.asked = model.nextKey();
    if (snapshot != nullptr && snapshot->sounding && snapshot->reading &&
        snapshot->reading->standing != Standing::Nothing) {
        picture.heard = keyOfString(model, snapshot->reading->string);
    }
    picture.description = describeDrift(model);
    return picture;
}

DriftWords driftWords(const RecheckModel& model) {
    DriftWords words;
    words.sentence = recheckSentence(model);
    words.findings = driftFindings(model);
    words.advice = adviceText(model);
    if (model.bestUse()) {
        for (const RankedString& one : model.bestUse()->strings) {
            words.list.push_back(
                {stringText(model.instrument(), one.string, model.tuning().position()),
                 signedCents(-one.move),
                 signedCents(one.move)});
        }
        return words;
    }
    if (!model.advice()) {
        return words;
    }
    const ShortList& list = model.advice()->moved.value_or(model.advice()->here);
    for (const ShortListed& one : list.strings) {
        words.list.push_back({stringText(model.instrument(), one.string, model.tuning().position()),
                              signedCents(list.shift - one.move),
                              signedCents(one.move)});
    }
    return words;
}

} // namespace quillbench

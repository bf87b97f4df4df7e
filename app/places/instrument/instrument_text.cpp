#include "app/places/instrument/instrument_text.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "core/instrument/string_estimate.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct InstrumentText {
    Q_DECLARE_TR_FUNCTIONS(InstrumentText)
};

constexpr double kPercent = 100.0;
constexpr QChar kMinusOfMargin(0x2212);

QString signedNumber(double value, int decimals) {
    const QString size = QLocale().toString(std::abs(value), 'f', decimals);
    const bool nothing = size == QLocale().toString(0.0, 'f', decimals);
    return nothing ? size : (value < 0.0 ? QString(kMinusOfMargin) : QStringLiteral("+")) + size;
}

/// What the stiffness that was heard says of length, gauge and material, each as if the other two were right.
QString heardWords(const StringMake& make, const HeardStiffness& heard) {
    const EstimatedMeasure length = lengthFromStiffness(materialOf(make), make.diameter, heard);
    const EstimatedMeasure gauge = diameterFromStiffness(materialOf(make), make.length, heard);
    const auto materials = materialFromStiffness(make.length, make.diameter, heard);
    constexpr double kWorthNaming = 0.1;
    QStringList named;
    for (const MaterialChance& one : materials) {
        if (one.chance >= kWorthNaming) {
            named << InstrumentText::tr("%1 (%2 %)")
                         .arg(coreText(one.material->name),
                              QLocale().toString(kPercent * one.chance, 'f', 0));
        }
    }
    return InstrumentText::tr("By the inharmonicity heard it would be %1 mm (± %2) long; if the "
                              "length is right, %3 mm (± %4) thick; if both are, of %5.")
        .arg(QLocale().toString(length.value.value(), 'f', 0),
             QLocale().toString(length.uncertainty.value(), 'f', 0),
             QLocale().toString(gauge.value.value(), 'f', 3),
             QLocale().toString(gauge.uncertainty.value(), 'f', 3),
             named.join(InstrumentText::tr(" or ")));
}

/// A star where a value of the material was written down from memory.
QString memoryMark(const Material& material) {
    for (const ValueSource* source : {&material.densitySource,
                                      &material.modulusSource,
                                      &material.expansionSource,
                                      &material.strengthSource}) {
        if (source->evidence == Evidence::Memory) {
            return QStringLiteral("*");
        }
    }
    return {};
}

QString stringWords(const InstrumentModel& model, std::size_t choir, std::size_t course) {
    const Instrument& instrument = model.instrument();
    const StringId string{choir, course};
    const StringMake& make = instrument.choirs[choir].strings[course];
    const StringState state = stringState(make, nominalPitch(instrument, string));
    const QString words =
        InstrumentText::tr("%1: %2 mm of %3 mm %4, %5 N, breaks %6 semitones above.")
            .arg(stringText(instrument, string, model.position()),
                 QLocale().toString(make.length.value(), 'f', 0),
                 QLocale().toString(make.diameter.value(), 'f', 3),
                 coreText(materialOf(make).name) + memoryMark(materialOf(make)),
                 QLocale().toString(state.tension.value(), 'f', 1),
                 marginText(state.margin));
    const auto heard = model.heard(string);
    return heard ? words + QLatin1Char(' ') + heardWords(make, *heard) : words;
}

enum class Plotted { Length, Tension, Share, Margin };

CompassPoint
pointOf(Plotted quantity, std::size_t course, const StringMake& make, const StringState& state) {
    CompassPoint point;
    point.course = static_cast<double>(course);
    switch (quantity) {
    case Plotted::Length:
        point.low = point.high = make.length.value();
        break;
    case Plotted::Tension:
        point.low = point.high = state.tension.value();
        break;
    case Plotted::Share:
        point.low = kPercent * (state.stress / state.strength.high);
        point.high = kPercent * (state.stress / state.strength.low) / (1.0 - kLoopAllowance);
        break;
    case Plotted::Margin:
        point.low = state.margin.lowSemitones;
        point.high = state.margin.highSemitones;
        break;
    }
    return point;
}

CompassPanel panelOf(const InstrumentModel& model,
                     const std::vector<std::vector<StringState>>& states,
                     std::size_t chosen,
                     Plotted quantity,
                     const QString& title) {
    CompassPanel panel;
    panel.title = title;
    panel.logarithmic = quantity == Plotted::Length;
    const Instrument& instrument = model.instrument();
    for (std::size_t i = 1; i <= instrument.choirs.size(); ++i) {
        // The chosen one last, so that it lies on top.
        const std::size_t choir = (chosen + i) % instrument.choirs.size();
        CompassLine line;
        line.name = choirText(instrument.choirs[choir]);
        line.chosen = choir == chosen;
        line.points.reserve(states[choir].size());
        for (std::size_t course = 0; course < states[choir].size(); ++course) {
            line.points.push_back(pointOf(
                quantity, course, instrument.choirs[choir].strings[course], states[choir][course]));
        }
        panel.lines.push_back(std::move(line));
    }
    return panel;
}

} // namespace

QString couplerText(Coupler coupler) {
    switch (coupler) {
    case Coupler::None:
        return InstrumentText::tr("no coupler");
    case Coupler::Shove:
        return InstrumentText::tr("shove coupler");
    case Coupler::Lever:
        return InstrumentText::tr("coupler by a lever");
    case Coupler::Dogleg:
        return InstrumentText::tr("dogleg jacks couple the manuals");
    }
    return {};
}

QString silencingText(Silencing silencing) {
    switch (silencing) {
    case Silencing::Lever:
        return InstrumentText::tr("by a lever");
    case Silencing::Knee:
        return InstrumentText::tr("by the knee");
    case Silencing::Foot:
        return InstrumentText::tr("by the foot");
    case Silencing::HandAtTheRegister:
        return InstrumentText::tr("by hand at the register");
    case Silencing::FeltStrip:
        return InstrumentText::tr("with a strip of felt");
    case Silencing::NotAtAll:
        return InstrumentText::tr("not at all");
    }
    return {};
}

QString materialText(const StringMake& make) {
    const QString name = coreText(materialOf(make).name);
    return name.left(name.indexOf(QStringLiteral(" ("))) + memoryMark(materialOf(make));
}

QString wholeMaterialText(const StringMake& make) {
    return coreText(materialOf(make).name) + memoryMark(materialOf(make));
}

QString memoryNote() {
    return InstrumentText::tr("*: density, modulus, expansion or strength of this material is a "
                              "value from memory; the tip over its name gives each source.");
}

QString marginText(const BreakingMargin& margin) {
    return InstrumentText::tr("%1 to %2")
        .arg(signedNumber(margin.lowSemitones, 1), signedNumber(margin.highSemitones, 1));
}

CompassPicture compassPicture(const InstrumentModel& model, std::size_t choir) {
    const Instrument& instrument = model.instrument();
    std::vector<std::vector<StringState>> states;
    states.reserve(instrument.choirs.size());
    std::size_t courses = 0;
    for (std::size_t i = 0; i < instrument.choirs.size(); ++i) {
        states.push_back(model.strings(i));
        courses = std::max(courses, states.back().size());
    }
    CompassPicture picture;
    picture.courses = static_cast<double>(courses);
    const auto add = [&](Plotted quantity, const QString& title) {
        picture.panels.push_back(panelOf(model, states, choir, quantity, title));
        return &picture.panels.back();
    };
    add(Plotted::Length,
        InstrumentText::tr("Speaking length, mm (blue: %1; grey: the other choirs)")
            .arg(choirText(instrument.choirs[choir])));
    add(Plotted::Tension, InstrumentText::tr("Tension, N"));
    add(Plotted::Share,
        InstrumentText::tr("Stress, % of what such wire bears (strongest to weakest)"))
        ->dangerAbove = kPercent;
    add(Plotted::Margin, InstrumentText::tr("Semitones up to breaking (weakest to strongest wire)"))
        ->dangerBelow = 0.0;
    for (std::size_t course = 0; course < states[choir].size(); ++course) {
        const Note note = keyNote(instrument, {choir, course}, model.position());
        if (note.pitchClass == PitchClass{Letter::C, 0}) {
            picture.ticks.push_back({static_cast<double>(course), noteText(note)});
        }
        picture.wordsOfCourse.push_back(stringWords(model, choir, course));
    }
    picture.description =
        InstrumentText::tr("Length, tension, stress and margin to breaking of the %1.")
            .arg(choirText(instrument.choirs[choir]));
    return picture;
}

QStringList changeText(const InstrumentModel& model, const LoadChange& change) {
    const auto loadLine = [](const QString& name, Newton now, Newton then) {
        return InstrumentText::tr("%1: %2 N now, %3 N then, %4 N (%5 %)")
            .arg(name,
                 QLocale().toString(now.value(), 'f', 0),
                 QLocale().toString(then.value(), 'f', 0),
                 signedNumber(then.value() - now.value(), 0),
                 signedNumber(kPercent * (then / now - 1.0), 1));
    };
    QStringList text;
    text << loadLine(InstrumentText::tr("All strings together"), change.now, change.then);
    for (const ChoirLoad& choir : change.choirs) {
        text << loadLine(choirText(model.instrument().choirs[choir.choir]), choir.now, choir.then);
    }
    const auto [down, up] = std::minmax_element(
        change.strings.begin(),
        change.strings.end(),
        [](const StringChange& a, const StringChange& b) { return a.move < b.move; });
    text << InstrumentText::tr("Strings move by %1 to %2 cents.")
                .arg(signedCents(down->move), signedCents(up->move));
    return text;
}

QString breakingCaution() {
    return InstrumentText::tr("A margin is a range, not a promise: wire of one name differs, and "
                              "loops, kinks, rust and age weaken "
                              "it. Before the pitch of an old instrument is raised ask its maker "
                              "or a conservator; the case bears "
                              "the load too. Keep your eyes away from strings under tension.");
}

} // namespace quillbench

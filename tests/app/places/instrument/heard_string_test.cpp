#include "app/places/instrument/instrument_model.hpp"
#include "app/places/instrument/instrument_text.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <QLocale>

using namespace quillbench;
using namespace quillbench::test;

namespace {

StringReading stiffString(const TuningModel& tuning, double relativeUncertainty) {
    StringReading reading = readingOf(tuning, 0, 0.0);
    const StringMake& make =
        tuning.instrument().choirs[reading.string.choir].strings[reading.string.course];
    reading.inharmonicity = inharmonicity(make, reading.pitch);
    reading.inharmonicityUncertainty = relativeUncertainty * reading.inharmonicity;
    return reading;
}

} // namespace

TEST_CASE("what a string's stiffness says of its length stands beside its list", "[ui]") {
    TuningModel tuning;
    InstrumentModel model(tuning);
    chooseFirstOctave(tuning);
    model.follow(tuning.choice());
    REQUIRE(model.isTuned());
    const StringReading reading = stiffString(tuning, 0.1);
    const auto words = [&] {
        return compassPicture(model, reading.string.choir).wordsOfCourse[reading.string.course];
    };
    CHECK_FALSE(words().contains(QStringLiteral("inharmonicity")));
    model.hear(stiffString(tuning, 0.5)); // little more than what was expected anyway
    CHECK_FALSE(model.heard(reading.string));
    model.hear(reading);
    REQUIRE(model.heard(reading.string));
    const double length = model.instrument()
                              .choirs[reading.string.choir]
                              .strings[reading.string.course]
                              .length.value();
    INFO(words().toStdString());
    CHECK(
        words().contains(QStringLiteral("would be %1 mm").arg(QLocale().toString(length, 'f', 0))));
    model.hear(stiffString(tuning, 0.12)); // less sure than what is known
    CHECK(model.heard(reading.string)->uncertainty == reading.inharmonicityUncertainty);
    REQUIRE(model.choose(QStringLiteral("spinet")));
    CHECK_FALSE(model.heard(reading.string));
}

#pragma once

#include "app/formats/instrument_file.hpp"
#include "app/formats/session_events.hpp"
#include "app/storage/logbook.hpp"
#include "core/instrument/examples.hpp"

#include <catch2/catch.hpp>

#include <QDir>
#include <QTemporaryDir>

namespace quillbench::test {

inline std::filesystem::path logbookIn(const QTemporaryDir& folder) {
    return QDir(folder.path()).filePath(QStringLiteral("logbook.sqlite")).toStdString();
}

inline InstrumentState exampleState() {
    const Instrument& instrument = *findExample("double-8-8-4");
    return {instrument.id, instrument.name, formatInstrument({instrument, ""})};
}

/// A session in which A3 of the first choir was found 12.5 cents flat and settled. Invented.
inline void keepSession(Logbook& logbook, const std::string& uid, std::int64_t milliseconds) {
    const Instrument& instrument = *findExample("double-8-8-4");
    const StringId string = stringOf(instrument, 0, *parseNote("A3")).value();
    SessionRecord session;
    session.uid = uid;
    session.kind = "first-octave";
    session.method = "meter";
    session.inputs = R"({"choir":"8","temperament":"vallotti","a4_hz":415,"virtual":false})";
    session.at = {milliseconds, 60};
    REQUIRE(logbook.begin(exampleState(), session));
    StringReading heard;
    heard.standing = Standing::Ok;
    heard.string = string;
    heard.target = heard.pitch = heard.fundamental = Hertz(207.5);
    heard.deviation = Cents(-12.5);
    SessionEntry entry;
    entry.event.schema = kSessionEventSchema;
    entry.event.content = formatSessionEvent(Heard{heard, Cents(0.1), Seconds(1)});
    entry.event.at = session.at;
    ReachedStep reached;
    reached.step.state = "settled";
    reached.string = StringName{"8", static_cast<int>(string.course), "A3"};
    reached.reading = KeptReading{*reached.string, {}};
    ReadingRecord& reading = reached.reading->reading;
    reading.note = "A3";
    reading.plucks = 3;
    reading.usedS = 2.4;
    reading.targetHz = 207.5;
    reading.pitchHz = 207.512;
    reading.deviationCents = 0.1;
    reading.deviationCentsU = 0.06;
    reading.source = "USB microphone (invented)";
    reading.at = session.at;
    entry.steps.push_back(reached);
    REQUIRE(logbook.keep(uid, entry));
    REQUIRE(logbook.end(uid, "done", session.at));
}

/// Two such sessions, a week apart.
inline void keepTwoSessions(const std::filesystem::path& file) {
    Result<Logbook> logbook = Logbook::open({file, true, {}});
    if (!logbook) {
        FAIL(logbook.error().text);
    }
    keepSession(*logbook, std::string(32, 'a'), 1790000000000);
    keepSession(*logbook, std::string(32, 'b'), 1790604800000);
}

} // namespace quillbench::test

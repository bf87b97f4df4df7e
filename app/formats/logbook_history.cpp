#include "app/formats/logbook_history.hpp"

#include "app/formats/json_fields.hpp"
#include "app/formats/session_events.hpp"
#include "core/logbook/summary.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace quillbench {

namespace {

constexpr std::size_t kLongestInputs = std::size_t{1} << 20U; // bytes
constexpr double kMillisecondsADay = 86400000.0;
/// From string to string: quicker was an octave of a sweep or a script, slower a pause. Common practice, no source.
constexpr Seconds kQuickestString{5.0};
constexpr Seconds kSlowestString{300.0};

/// A number, text or truth of a JSON object that need not be there.
template <typename T>
T fieldOr(const Json& json, const char* name, T otherwise) {
    const auto found = json.find(name);
    if (found == json.end()) {
        return otherwise;
    }
    if constexpr (std::is_same_v<T, std::string>) {
        return found->is_string() ? found->template get<std::string>() : otherwise;
    } else if constexpr (std::is_same_v<T, bool>) {
        return found->is_boolean() ? found->template get<bool>() : otherwise;
    } else {
        return found->is_number() ? found->template get<T>() : otherwise;
    }
}

std::optional<Json> objectIn(const std::string& text) {
    const Result<Json> json = parseJson(text, kLongestInputs);
    return json && json->is_object() ? std::optional<Json>(*json) : std::nullopt;
}

/// Sessions at the real or the virtual strings.
std::map<RowNumber, const SessionRecord*> sessionsAt(const LogbookContents& contents,
                                                     bool virtualInstrument) {
    std::map<RowNumber, const SessionRecord*> sessions;
    for (const SessionRecord& session : contents.sessions) {
        if (sessionInputs(session.inputs).virtualInstrument == virtualInstrument) {
            sessions[session.seq] = &session;
        }
    }
    return sessions;
}

class HistoryReader {
public:
    HistoryReader(const LogbookContents& contents,
                  const Instrument& instrument,
                  bool virtualInstrument)
        : contents_(contents),
          instrument_(instrument),
          strings_(loggedStrings(contents, instrument)),
          sessions_(sessionsAt(contents, virtualInstrument)) {}

    StringHistory read() {
        for (const ReadingRecord& reading : contents_.readings) {
            readings_[reading.seq] = &reading;
        }
        readSettled();
        readLooks();
        readLeftIn();
        return std::move(history_);
    }

private:
    [[nodiscard]] const SessionRecord* sessionOf(RowNumber seq) const {
        const auto found = sessions_.find(seq);
        return found == sessions_.end() ? nullptr : found->second;
    }

    void readSettled() {
        for (const StepRecord& step : contents_.steps) {
            const SessionRecord* session = sessionOf(step.session);
            const auto string = step.string ? strings_.find(*step.string) : strings_.end();
            if (session == nullptr || session->kind == kRecheckKind || string == strings_.end()) {
                continue;
            }
            const auto reading = step.reading ? readings_.find(*step.reading) : readings_.end();
            if (reading != readings_.end()) {
                const ReadingRecord& one = *reading->second;
                history_.settled[string->second] = {
                    Hertz(one.pitchHz), Cents(one.deviationCentsU), one.at};
                settledIn_[string->second] = step.session;
            } else if (step.state == "working") {
                history_.settled.erase(string->second); // its pin may have been turned
            }
        }
        for (const StringChangeRecord& change : contents_.stringChanges) {
            const auto string = strings_.find(change.string);
            const auto settled = string == strings_.end() ? history_.settled.end()
                                                          : history_.settled.find(string->second);
            if (settled != history_.settled.end() &&
                settled->second.at.milliseconds < change.at.milliseconds) {
                history_.settled.erase(settled);
            }
        }
    }

    void readLeftIn() {
        std::map<RowNumber, std::size_t> strings; // settled in each session, oldest first
        for (const auto& [string, settled] : history_.settled) {
            ++strings[settledIn_.at(string)];
        }
        std::vector<std::pair<LeftIn, std::size_t>> counts;
        for (const auto& [session, count] : strings) {
            const SessionInputs inputs = sessionInputs(sessions_.at(session)->inputs);
            const LeftIn in{inputs.temperament, inputs.a4Hz, inputs.position};
            if (in.temperament.empty() || !(in.a4Hz > 0.0)) {
                continue;
            }
            auto same = std::find_if(
                counts.begin(), counts.end(), [&in](const auto& one) { return one.first == in; });
            const std::size_t before = same == counts.end() ? 0 : same->second;
            if (same != counts.end()) {
                counts.erase(same);
            }
            counts.emplace_back(in, before + count); // the newest last
        }
        std::size_t most = 0;
        for (const auto& [in, count] : counts) {
            if (count >= most) {
                most = count;
                history_.leftIn = in;
            }
        }
    }

    /// The newest reading of each string of each recheck.
    void readLooks() {
        std::map<RowNumber, std::map<StringId, const ReadingRecord*>> newest;
        for (const ReadingRecord& reading : contents_.readings) {
            const SessionRecord* session = sessionOf(reading.session);
            const auto string = strings_.find(reading.string);
            if (session != nullptr && session->kind == kRecheckKind && string != strings_.end()) {
                newest[reading.session][string->second] = &reading;
            }
        }
        for (const auto& [session, strings] : newest) {
            DriftLook look;
            for (const auto& [string, reading] : strings) {
                const auto with = parseCompared(reading->settings);
                if (!with) {
                    continue;
                }
                look.movements.push_back(movementOf(instrument_,
                                                    string,
                                                    Cents(reading->deviationCents),
                                                    Cents(reading->deviationCentsU),
                                                    with->plucks));
                const auto settledOn =
                    static_cast<double>(with->settledAt.milliseconds) / kMillisecondsADay;
                look.settledOn.push_back(settledOn);
                look.days.push_back(
                    static_cast<double>(reading->at.milliseconds) / kMillisecondsADay - settledOn);
            }
            if (!look.movements.empty()) {
                const SessionRecord& record = *sessions_.at(session);
                history_.looks.push_back({record.uid, record.at, std::move(look)});
            }
        }
    }

    const LogbookContents& contents_;
    const Instrument& instrument_;
    std::map<RowNumber, StringId> strings_;
    std::map<RowNumber, const SessionRecord*> sessions_;
    std::map<RowNumber, const ReadingRecord*> readings_;
    std::map<StringId, RowNumber> settledIn_;
    StringHistory history_;
};

} // namespace

SessionInputs sessionInputs(const std::string& inputs) {
    SessionInputs read;
    if (const auto json = objectIn(inputs)) {
        read.choir = fieldOr(*json, "choir", std::string());
        read.temperament = fieldOr(*json, "temperament", std::string());
        read.a4Hz = fieldOr(*json, "a4_hz", 0.0);
        read.virtualInstrument = fieldOr(*json, "virtual", false);
        read.position = fieldOr(*json, "position", 0);
    }
    return read;
}

std::string formatRecheckInputs(const SessionInputs& inputs) {
    return Json{{"choir", inputs.choir},
                {"temperament", inputs.temperament},
                {"a4_hz", inputs.a4Hz},
                {"virtual", inputs.virtualInstrument}}
        .dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string formatCompared(const std::optional<ComparedWith>& with) {
    if (!with) {
        return R"({"against":"temperament"})";
    }
    return Json{{"against", "settled"},
                {"settled_ms", with->settledAt.milliseconds},
                {"settled_offset_min", with->settledAt.offsetMinutes},
                {"settled_cents_u", with->uncertainty.value()},
                {"plucks", with->plucks}}
        .dump();
}

std::optional<ComparedWith> parseCompared(const std::string& settings) {
    const auto json = objectIn(settings);
    if (!json || fieldOr(*json, "against", std::string()) != "settled") {
        return std::nullopt;
    }
    ComparedWith with;
    with.settledAt = {fieldOr(*json, "settled_ms", std::int64_t{0}),
                      fieldOr(*json, "settled_offset_min", 0)};
    with.uncertainty = Cents(fieldOr(*json, "settled_cents_u", 0.0));
    with.plucks = std::max(1, fieldOr(*json, "plucks", 1));
    return with;
}

std::string formatLeftByEar(Cents tolerance, const LeftByEar& left) {
    return Json{{"tolerance_cents", tolerance.value()},
                {"by", "ear"},
                {"interval", left.interval},
                {"left_cents", left.left.value()}}
        .dump();
}

bool keptByEar(const ReadingRecord& reading) {
    // Of hundreds of readings few are by ear.
    const auto json = reading.settings.find("\"ear\"") == std::string::npos
                          ? std::nullopt
                          : objectIn(reading.settings);
    return json && fieldOr(*json, "by", std::string()) == "ear";
}

std::vector<LeftByEar> leftByEar(const LogbookContents& contents) {
    std::vector<LeftByEar> all;
    for (const SessionRecord& session : contents.sessions) {
        for (const HoldingReading& one : holdingReadings(contents, session.seq)) {
            const auto json =
                keptByEar(one.reading) ? objectIn(one.reading.settings) : std::nullopt;
            if (json && json->contains("left_cents")) {
                all.push_back({fieldOr(*json, "interval", std::string()),
                               session.seq,
                               Cents(fieldOr(*json, "left_cents", 0.0)),
                               Cents(one.reading.deviationCentsU)});
            }
        }
    }
    return all;
}

std::map<RowNumber, StringId> loggedStrings(const LogbookContents& contents,
                                            const Instrument& instrument) {
    std::map<RowNumber, StringId> strings;
    for (const InstrumentRecord& one : contents.instruments) {
        if (one.key != instrument.id) {
            continue;
        }
        for (const StringRecord& row : contents.strings) {
            const auto choir = choirOf(instrument, row.choir);
            const auto course = static_cast<std::size_t>(std::max(row.course, 0));
            if (row.instrument == one.seq && choir && row.course >= 0 &&
                course < instrument.choirs[*choir].strings.size()) {
                strings[row.seq] = StringId{*choir, course};
            }
        }
    }
    return strings;
}

StringHistory
historyOf(const LogbookContents& contents, const Instrument& instrument, bool virtualInstrument) {
    return HistoryReader(contents, instrument, virtualInstrument).read();
}

std::map<StringId, Cents> firstHeard(const std::vector<EventRecord>& events) {
    std::map<StringId, Cents> first;
    for (const EventRecord& record : events) {
        const Result<SessionEvent> event = parseSessionEvent(record.schema, record.content);
        const auto* heard = event ? std::get_if<Heard>(&event->what) : nullptr;
        if (heard != nullptr && heard->reading.standing == Standing::Ok) {
            first.emplace(heard->reading.string, heard->reading.deviation);
        }
    }
    return first;
}

std::map<StringId, Hertz> lastPitches(const StringHistory& history) {
    std::map<StringId, Hertz> pitches;
    for (const auto& [string, settled] : history.settled) {
        pitches.emplace(string, settled.pitch);
    }
    for (const PastLook& past : history.looks) {
        for (std::size_t i = 0; i < past.look.movements.size(); ++i) {
            const Movement& movement = past.look.movements[i];
            const auto settled = history.settled.find(movement.string);
            // What was compared with a setting that no longer holds tells nothing.
            const bool holds = settled != history.settled.end() &&
                               std::abs(past.look.settledOn[i] -
                                        static_cast<double>(settled->second.at.milliseconds) /
                                            kMillisecondsADay) < 1e-6;
            if (holds) {
                pitches[movement.string] = transpose(settled->second.pitch, movement.moved);
            }
        }
    }
    return pitches;
}

std::vector<Seconds> timesPerString(const std::map<StringId, SettledString>& settled) {
    std::vector<std::int64_t> instants;
    instants.reserve(settled.size());
    for (const auto& [string, one] : settled) {
        instants.push_back(one.at.milliseconds);
    }
    std::sort(instants.begin(), instants.end());
    std::vector<Seconds> times;
    for (std::size_t i = 1; i < instants.size(); ++i) {
        const Seconds took(static_cast<double>(instants[i] - instants[i - 1]) / 1000.0);
        if (took >= kQuickestString && took <= kSlowestString) {
            times.push_back(took);
        }
    }
    return times;
}

} // namespace quillbench

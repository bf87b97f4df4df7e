#include "app/formats/logbook_settling.hpp"

#include "app/formats/logbook_history.hpp"
#include "app/formats/session_events.hpp"
#include "core/drift/drift_fit.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace quillbench {

namespace {

constexpr double kMillisecondsInADay = 86400000.0;
constexpr double kNewForDays = 120.0; // not taken for one of the rest
constexpr double kLookedAtForDays = 365.0;
constexpr double kShortestLook = 0.003; // days: five minutes
constexpr std::size_t kFewestOthers = 5;
constexpr double kWeatherCents = 2.0; // what an instrument may do that nobody heard
constexpr double kSameSetting = 1e-6; // days
constexpr double kLeastUncertainty = 0.05;

double dayOf(const Instant& at) {
    return static_cast<double>(at.milliseconds) / kMillisecondsInADay;
}

/// A string that was heard again after it was settled.
struct HeardSince {
    Movement movement;
    double setOn = 0.0; ///< day
    double heardOn = 0.0;
};

using Look = std::vector<HeardSince>;

class SettlingReader {
public:
    SettlingReader(const LogbookContents& contents,
                   const Instrument& instrument,
                   bool virtualInstrument,
                   std::span<const EventRecord> events)
        : contents_(contents),
          instrument_(instrument),
          virtual_(virtualInstrument),
          strings_(loggedStrings(contents, instrument)) {
        for (const EventRecord& event : events) {
            events_[event.session].push_back(event);
        }
        for (const ReadingRecord& reading : contents.readings) {
            readings_[reading.seq] = &reading;
            readingsOf_[reading.session].push_back(&reading);
        }
        for (const StepRecord& step : contents.steps) {
            stepsOf_[step.session].push_back(&step);
        }
    }

    std::vector<NewString> read() {
        for (const StringChangeRecord& change : contents_.stringChanges) {
            const auto string = strings_.find(change.string);
            if (string != strings_.end()) {
                made_.push_back({string->second, change.at, std::nullopt, {}});
            }
        }
        std::stable_sort(made_.begin(), made_.end(), [](const NewString& a, const NewString& b) {
            return a.putOn.milliseconds < b.putOn.milliseconds;
        });
        if (made_.empty()) {
            return {};
        }
        for (const SessionRecord& session : contents_.sessions) {
            if (sessionInputs(session.inputs).virtualInstrument != virtual_) {
                continue;
            }
            if (session.kind == kRecheckKind) {
                take(recheckLook(session));
            } else {
                take(firstLook(session));
                settle(session);
            }
        }
        return std::move(made_);
    }

private:
    /// The newest reading of each string.
    [[nodiscard]] Look recheckLook(const SessionRecord& session) const {
        std::map<StringId, HeardSince> newest;
        const auto readings = readingsOf_.find(session.seq);
        if (readings == readingsOf_.end()) {
            return {};
        }
        for (const ReadingRecord* reading : readings->second) {
            const auto string = strings_.find(reading->string);
            const auto with = parseCompared(reading->settings);
            if (string != strings_.end() && with) {
                newest[string->second] = {movementOf(instrument_,
                                                     string->second,
                                                     Cents(reading->deviationCents),
                                                     Cents(reading->deviationCentsU),
                                                     with->plucks),
                                          dayOf(with->settledAt),
                                          dayOf(reading->at)};
            }
        }
        Look look;
        look.reserve(newest.size());
        for (const auto& [string, heard] : newest) {
            look.push_back(heard);
        }
        return look;
    }

    /// What a tuning session heard first of each string that had been settled before.
    [[nodiscard]] Look firstLook(const SessionRecord& session) const {
        Look look;
        std::set<StringId> heard;
        const auto events = events_.find(session.seq);
        if (events == events_.end()) {
            return look;
        }
        for (const EventRecord& record : events->second) {
            const Result<SessionEvent> event = parseSessionEvent(record.schema, record.content);
            const auto* one = event ? std::get_if<Heard>(&event->what) : nullptr;
            if (one == nullptr || one->reading.standing != Standing::Ok ||
                !heard.insert(one->reading.string).second) {
                continue;
            }
            const auto before = settled_.find(one->reading.string);
            if (before == settled_.end() || !(one->reading.pitch.value() > 0.0)) {
                continue;
            }
            look.push_back({movementOf(instrument_,
                                       one->reading.string,
                                       interval(before->second.pitch, one->reading.pitch),
                                       Cents(std::hypot(one->reading.deviationUncertainty.value(),
                                                        before->second.uncertainty.value()))),
                            dayOf(before->second.at),
                            dayOf(record.at)});
        }
        return look;
    }

    void settle(const SessionRecord& session) {
        const auto steps = stepsOf_.find(session.seq);
        if (steps == stepsOf_.end()) {
            return;
        }
        for (const StepRecord* step : steps->second) {
            const auto string = step->string ? strings_.find(*step->string) : strings_.end();
            if (string == strings_.end()) {
                continue;
            }
            const auto reading = step->reading ? readings_.find(*step->reading) : readings_.end();
            if (reading != readings_.end()) {
                const ReadingRecord& one = *reading->second;
                settled_[string->second] = {Hertz(one.pitchHz), Cents(one.deviationCentsU), one.at};
                if (NewString* made = madeBefore(string->second, dayOf(one.at))) {
                    made->lastSet = dayOf(one.at) - dayOf(made->putOn);
                }
            } else if (step->state == "working") {
                settled_.erase(string->second); // its pin may have been turned
            }
        }
    }

    /// The new string that was on at a day; null where it is the old one.
    [[nodiscard]] NewString* madeBefore(StringId string, double day) {
        NewString* found = nullptr;
        for (NewString& one : made_) {
            if (one.string == string && dayOf(one.putOn) <= day) {
                found = &one;
            }
        }
        return found;
    }

    void take(const Look& look) {
        if (look.empty()) {
            return;
        }
        std::vector<Movement> movements;
        movements.reserve(look.size());
        std::size_t others = 0;
        for (const HeardSince& one : look) {
            movements.push_back(one.movement);
            const NewString* made = madeBefore(one.movement.string, one.heardOn);
            others += made == nullptr || one.heardOn - dayOf(made->putOn) > kNewForDays ? 1U : 0U;
        }
        const bool known = others >= kFewestOthers;
        const DriftFit fit = fitDrift(instrument_, movements);
        for (std::size_t i = 0; i < look.size(); ++i) {
            const Cents own = known ? fit.strings[i].own : movements[i].moved;
            const double also = known ? fit.scatter.value() : kWeatherCents;
            see(look[i], own, std::hypot(movements[i].uncertainty.value(), also));
        }
    }

    void see(const HeardSince& heard, Cents own, double uncertainty) {
        NewString* made = madeBefore(heard.movement.string, heard.heardOn);
        if (made == nullptr || heard.setOn < dayOf(made->putOn)) {
            return; // it was compared with the old string
        }
        const double putOn = dayOf(made->putOn);
        SettlingSighting one{heard.setOn - putOn, heard.heardOn - putOn, own, Cents(uncertainty)};
        // A later look at a string that was not set again tells what it did since the last.
        LastLook& last = lastLooks_[made - made_.data()];
        const bool same = last.seen && std::abs(last.setOn - one.from) < kSameSetting;
        const LastLook now{true, one.from, one.to, own, uncertainty};
        if (same) {
            one.from = last.heardOn;
            one.moved = own - last.moved;
            one.uncertainty = Cents(std::hypot(uncertainty, last.uncertainty));
        }
        if (one.to - one.from < kShortestLook || one.to > kLookedAtForDays) {
            return;
        }
        last = now;
        one.uncertainty = std::max(one.uncertainty, Cents(kLeastUncertainty));
        made->seen.push_back(one);
    }

    /// Where a new string stood at the last look.
    struct LastLook {
        bool seen = false;
        double setOn = 0.0; ///< its age in days
        double heardOn = 0.0;
        Cents moved;
        double uncertainty = 0.0;
    };

    const LogbookContents& contents_;
    const Instrument& instrument_;
    bool virtual_;
    std::map<RowNumber, StringId> strings_;
    std::map<RowNumber, std::vector<EventRecord>> events_;
    std::map<RowNumber, const ReadingRecord*> readings_;
    std::map<RowNumber, std::vector<const ReadingRecord*>> readingsOf_;
    std::map<RowNumber, std::vector<const StepRecord*>> stepsOf_;
    std::map<StringId, SettledString> settled_;
    std::vector<NewString> made_;
    std::map<std::ptrdiff_t, LastLook> lastLooks_; ///< by place among the new strings
};

} // namespace

std::vector<RowNumber> sessionsAfterNewStrings(const LogbookContents& contents,
                                               const Instrument& instrument,
                                               bool virtualInstrument) {
    const std::map<RowNumber, StringId> strings = loggedStrings(contents, instrument);
    std::vector<double> changed;
    for (const StringChangeRecord& change : contents.stringChanges) {
        if (strings.contains(change.string)) {
            changed.push_back(dayOf(change.at));
        }
    }
    std::set<RowNumber> ofInstrument;
    for (const ReadingRecord& reading : contents.readings) {
        if (strings.contains(reading.string)) {
            ofInstrument.insert(reading.session);
        }
    }
    std::vector<RowNumber> sessions;
    for (const SessionRecord& session : contents.sessions) {
        const bool after = std::any_of(changed.begin(), changed.end(), [&](double day) {
            const double later = dayOf(session.at) - day;
            return later > 0.0 && later < kLookedAtForDays;
        });
        if (after && session.kind != kRecheckKind && ofInstrument.contains(session.seq) &&
            sessionInputs(session.inputs).virtualInstrument == virtualInstrument) {
            sessions.push_back(session.seq);
        }
    }
    return sessions;
}

std::vector<NewString> newStringsOf(const LogbookContents& contents,
                                    const Instrument& instrument,
                                    bool virtualInstrument,
                                    std::span<const EventRecord> events) {
    return SettlingReader(contents, instrument, virtualInstrument, events).read();
}

SettlingLaw settlingLaw(std::span<const NewString> strings, std::optional<std::size_t> but) {
    std::vector<SettlingHistory> histories;
    histories.reserve(strings.size());
    for (std::size_t i = 0; i < strings.size(); ++i) {
        if (i != but) {
            histories.push_back(strings[i].seen);
        }
    }
    return SettlingLaw::learned(histories);
}

} // namespace quillbench

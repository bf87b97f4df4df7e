#include "app/places/logbook/logbook_reader.hpp"

#include "app/formats/instrument_file.hpp"
#include "app/formats/logbook_history.hpp"
#include "app/places/logbook/logbook_text.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "core/drift/drift_history.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <system_error>

namespace quillbench {

namespace {

struct ReaderText {
    Q_DECLARE_TR_FUNCTIONS(ReaderText)
};

/// Where a retune is said to be due: a share of the strings further off than this.
constexpr Cents kRetuneTolerance(2.0);

template <typename Record>
const Record* rowNumbered(const std::vector<Record>& table, RowNumber number) {
    const auto found = std::find_if(
        table.begin(), table.end(), [number](const Record& row) { return row.seq == number; });
    return found == table.end() ? nullptr : &*found;
}

/// What each session was heard through.
std::map<RowNumber, std::string> sourcesOf(const LogbookContents& contents) {
    std::map<RowNumber, std::string> sources;
    for (const ReadingRecord& reading : contents.readings) {
        sources.try_emplace(reading.session, reading.source);
    }
    return sources;
}

std::map<RowNumber, std::size_t> heardIn(const LogbookContents& contents) {
    std::map<RowNumber, std::size_t> heard;
    for (const StepRecord& step : contents.steps) {
        heard[step.session] += step.state == "heard" ? 1U : 0U;
    }
    return heard;
}

/// The newest description of an instrument.
const DescriptionRecord* newestOf(const LogbookContents& contents, RowNumber instrument) {
    const DescriptionRecord* newest = nullptr;
    for (const DescriptionRecord& one : contents.descriptions) {
        if (one.instrument == instrument) {
            newest = &one;
        }
    }
    return newest;
}

RowNumber instrumentOf(const LogbookContents& contents, const SessionRecord& session) {
    const DescriptionRecord* description = rowNumbered(contents.descriptions, session.description);
    return description == nullptr ? 0 : description->instrument;
}

std::optional<Instrument> describedBy(const DescriptionRecord* description) {
    if (description == nullptr) {
        return std::nullopt;
    }
    const Result<InstrumentFile> file = parseInstrument(description->content);
    return file ? std::optional<Instrument>(file->instrument) : std::nullopt;
}

/// What the strings of a session did by the newest recheck before each was tuned again.
struct MovedSince {
    std::map<RowNumber, const ReadingRecord*> heard; ///< by string
    const SessionRecord* newest = nullptr;
};

MovedSince movedSince(const LogbookContents& contents, const SessionRecord& session) {
    std::map<RowNumber, const SessionRecord*> later;
    for (const SessionRecord& one : contents.sessions) {
        if (one.seq != session.seq && one.at.milliseconds >= session.at.milliseconds) {
            later[one.seq] = &one;
        }
    }
    std::vector<const ReadingRecord*> readings;
    for (const ReadingRecord& one : contents.readings) {
        if (later.contains(one.session)) {
            readings.push_back(&one);
        }
    }
    std::stable_sort(readings.begin(), readings.end(), [](const auto* a, const auto* b) {
        return a->at.milliseconds < b->at.milliseconds;
    });
    MovedSince moved;
    std::set<RowNumber> tunedAgain;
    for (const ReadingRecord* one : readings) {
        const SessionRecord* in = later[one->session];
        if (in->kind != kRecheckKind) {
            tunedAgain.insert(one->string);
        } else if (!tunedAgain.contains(one->string)) {
            moved.heard[one->string] = one;
            moved.newest = in;
        }
    }
    return moved;
}

QString sinceText(const ReadingRecord& then, const ReadingRecord& now) {
    if (!(then.pitchHz > 0.0) || !(now.pitchHz > 0.0)) {
        return {};
    }
    return ReaderText::tr("%1 %2").arg(
        signedCents(interval(Hertz(then.pitchHz), Hertz(now.pitchHz))),
        plusMinus(Cents(std::hypot(then.deviationCentsU, now.deviationCentsU))));
}

std::vector<ReadingLine> readingLines(const LogbookContents& contents,
                                      RowNumber session,
                                      const std::optional<Instrument>& instrument,
                                      const std::map<StringId, Cents>& first,
                                      const MovedSince& moved) {
    std::vector<ReadingLine> lines;
    for (const HoldingReading& one : holdingReadings(contents, session)) {
        ReadingLine line = readingLine(one);
        const auto since = moved.heard.find(one.string.seq);
        if (since != moved.heard.end()) {
            line.since = sinceText(one.reading, *since->second);
        }
        const auto choir = instrument ? choirOf(*instrument, one.string.choir) : std::nullopt;
        if (choir) {
            line.choir = choirText(instrument->choirs[*choir]);
            const auto before =
                first.find(StringId{*choir, static_cast<std::size_t>(one.string.course)});
            line.before = before == first.end() ? QString() : signedCents(before->second);
        }
        lines.push_back(std::move(line));
    }
    return lines;
}

/// All that was written down of an instrument, and the clocks, oldest first.
std::vector<DiaryLine> diaryOf(const LogbookContents& contents, RowNumber instrument) {
    std::vector<std::pair<std::int64_t, DiaryLine>> dated;
    const auto string = [&](const std::optional<RowNumber>& number) {
        const StringRecord* row = number ? rowNumbered(contents.strings, *number) : nullptr;
        return row == nullptr ? QString() : toQString(row->choir + ":" + row->note);
    };
    for (const RemarkRecord& one : contents.remarks) {
        if (one.instrument == instrument) {
            dated.emplace_back(one.at.milliseconds, remarkLine(one, string(one.string)));
        }
    }
    for (const ClimateRecord& one : contents.climates) {
        if (one.instrument == instrument) {
            dated.emplace_back(one.at.milliseconds, climateLine(one));
        }
    }
    for (const StringChangeRecord& one : contents.stringChanges) {
        const StringRecord* row = rowNumbered(contents.strings, one.string);
        if (row != nullptr && row->instrument == instrument) {
            dated.emplace_back(one.at.milliseconds, changeLine(one, string(one.string)));
        }
    }
    for (const CalibrationRecord& one : contents.calibrations) {
        dated.emplace_back(one.at.milliseconds, calibrationLine(one));
    }
    std::stable_sort(
        dated.begin(), dated.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<DiaryLine> lines;
    lines.reserve(dated.size());
    for (auto& [at, line] : dated) {
        lines.push_back(std::move(line));
    }
    return lines;
}

TendencyPicture pictureOf(const Instrument& instrument, const Tendencies& tendencies) {
    TendencyPicture picture;
    picture.sentence = dueText(tendencies);
    if (tendencies.looks == 0) {
        return picture;
    }
    for (std::size_t choir = 0; choir < tendencies.choirs.size(); ++choir) {
        picture.choirs << choirDriftText(instrument.choirs[choir], tendencies.choirs[choir]);
    }
    for (const StringTendency& one : tendencies.strings) {
        picture.strings.push_back(tendencyLine(instrument, one));
    }
    std::stable_sort(picture.strings.begin(),
                     picture.strings.end(),
                     [](const TendencyLine& a, const TendencyLine& b) { return a.size > b.size; });
    return picture;
}

} // namespace

LogbookPicture LogbookReader::read() {
    LogbookPicture picture;
    picture.file = toQString(file_.string());
    contents_.reset();
    summaries_.clear();
    std::error_code code;
    if (!std::filesystem::exists(file_, code)) {
        picture.trouble = ReaderText::tr("Nothing has been kept yet.");
        return picture;
    }
    const Result<Logbook*> opened = logbook();
    if (!opened) {
        picture.trouble = errorText(opened.error());
        return picture;
    }
    Result<LogbookContents> contents = (*opened)->contentsWithoutEvents();
    if (!contents) {
        picture.trouble = errorText(contents.error());
        return picture;
    }
    contents_ = std::make_shared<const LogbookContents>(std::move(contents).value());
    summaries_ = summarise(*contents_);
    picture.readable = true;
    picture.writable = (*opened)->writable();
    picture.trouble = coreText((*opened)->trouble());
    const std::map<RowNumber, std::string> sources = sourcesOf(*contents_);
    const std::map<RowNumber, std::size_t> heard = heardIn(*contents_);
    for (auto one = summaries_.rbegin(); one != summaries_.rend(); ++one) {
        const auto source = sources.find(one->session.seq);
        const auto listened = heard.find(one->session.seq);
        picture.sessions.push_back(
            sessionLine(*one,
                        sessionInputs(one->session.inputs),
                        source == sources.end() ? std::string() : source->second,
                        listened == heard.end() ? 0 : listened->second));
    }
    return picture;
}

const SessionSummary* LogbookReader::summaryOf(RowNumber session) const {
    const auto found =
        std::find_if(summaries_.begin(), summaries_.end(), [session](const SessionSummary& one) {
            return one.session.seq == session;
        });
    return found == summaries_.end() ? nullptr : &*found;
}

std::optional<OpenedSession> LogbookReader::open(RowNumber session) const {
    const SessionSummary* summary = summaryOf(session);
    if (summary == nullptr || !contents_ || !logbook_) {
        return std::nullopt;
    }
    OpenedSession opened;
    opened.session = session;
    opened.uid = summary->session.uid;
    opened.title = ReaderText::tr("%1, %2, %3")
                       .arg(toQString(wallClockText(summary->session.at)),
                            kindText(summary->session.kind),
                            coreText(summary->name));
    const RowNumber instrument = instrumentOf(*contents_, summary->session);
    opened.instrument =
        describedBy(rowNumbered(contents_->descriptions, summary->session.description));
    const Result<std::vector<EventRecord>> events = logbook_->eventsOf(session);
    const bool tuned = summary->session.kind != kRecheckKind;
    const MovedSince moved = tuned ? movedSince(*contents_, summary->session) : MovedSince();
    if (moved.newest != nullptr) {
        opened.rechecked = toQString(wallClockText(moved.newest->at));
    }
    opened.readings =
        readingLines(*contents_,
                     session,
                     opened.instrument,
                     events && tuned ? firstHeard(*events) : std::map<StringId, Cents>(),
                     moved);
    opened.diary = diaryOf(*contents_, instrument);
    if (const DescriptionRecord* newest = newestOf(*contents_, instrument)) {
        opened.state = {summary->instrument, newest->name, newest->content};
    }
    return opened;
}

TendencyPicture LogbookReader::tendencies(RowNumber session) const {
    TendencyPicture picture;
    const SessionSummary* summary = summaryOf(session);
    if (summary == nullptr || !contents_) {
        return picture;
    }
    const auto instrument =
        describedBy(newestOf(*contents_, instrumentOf(*contents_, summary->session)));
    if (!instrument) {
        picture.sentence = ReaderText::tr("The description of this instrument cannot be read.");
        return picture;
    }
    const bool virtualStrings = sessionInputs(summary->session.inputs).virtualInstrument;
    const StringHistory history = historyOf(*contents_, *instrument, virtualStrings);
    std::vector<DriftLook> looks;
    looks.reserve(history.looks.size());
    for (const PastLook& past : history.looks) {
        looks.push_back(past.look);
    }
    picture = pictureOf(*instrument, tendenciesOf(*instrument, looks, kRetuneTolerance));
    picture.newStrings = newStringsText(
        *instrument, newStrings(*instrument, virtualStrings), dayNumberOf(instantNow()));
    return picture;
}

std::vector<NewString> LogbookReader::newStrings(const Instrument& instrument,
                                                 bool virtualStrings) const {
    if (!contents_ || !logbook_) {
        return {};
    }
    std::vector<EventRecord> events;
    for (const RowNumber session :
         sessionsAfterNewStrings(*contents_, instrument, virtualStrings)) {
        if (auto own = logbook_->eventsOf(session)) {
            events.insert(events.end(), own->begin(), own->end());
        }
    }
    return newStringsOf(*contents_, instrument, virtualStrings, events);
}

Result<Logbook*> LogbookReader::logbook() {
    if (!logbook_) {
        std::error_code code;
        if (!std::filesystem::exists(file_, code)) {
            return failure(ErrorCode::UnreadableInput,
                           file_.string() + ": there is no logbook yet");
        }
        Result<Logbook> opened = Logbook::open({file_, true, {}});
        if (!opened) {
            return Unexpected<Error>(opened.error());
        }
        logbook_.emplace(std::move(opened).value());
    }
    return &*logbook_;
}

Result<Logbook*> LogbookReader::toWrite() {
    Result<Logbook*> opened = logbook();
    if (opened && !(*opened)->writable()) {
        return failure(ErrorCode::Environment, (*opened)->trouble());
    }
    return opened;
}

void LogbookReader::letGo() {
    logbook_.reset();
    contents_.reset();
    summaries_.clear();
}

} // namespace quillbench

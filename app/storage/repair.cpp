#include "app/storage/logbook.hpp"
#include "app/storage/salvage.hpp"

#include <algorithm>
#include <system_error>

namespace quillbench {

namespace {

namespace fs = std::filesystem;

/// "logbook damaged 2026-11-26 02.25.51.123.sqlite"
fs::path namedAside(const fs::path& file, const std::string& why, const Instant& now) {
    std::string stamp = toText(now);
    stamp.pop_back();
    std::replace(stamp.begin(), stamp.end(), ':', '.');
    std::replace(stamp.begin(), stamp.end(), 'T', ' ');
    fs::path name = file;
    name.replace_filename(file.stem().string() + " " + why + " " + stamp +
                          file.extension().string());
    return name;
}

/// Puts `file` and what SQLite keeps beside it under another name, then `fresh` in its place. The log goes first: a
/// log beside a file that it does not belong to would spoil it.
Result<void> swap(const fs::path& file, const fs::path& fresh, const fs::path& aside) {
    std::error_code code;
    if (fs::exists(file.string() + "-wal", code)) {
        fs::rename(file.string() + "-wal", aside.string() + "-wal", code);
    }
    if (!code) {
        fs::remove(file.string() + "-shm", code);
    }
    if (!code && fs::exists(file, code)) {
        fs::rename(file, aside, code);
    }
    if (!code) {
        fs::rename(fresh, file, code);
    }
    if (code) {
        return failure(ErrorCode::Environment,
                       file.string() + ": cannot be replaced (" + code.message() +
                           "); put the new file in its place yourself, it is " + fresh.string(),
                       file.string());
    }
    return {};
}

Result<void> writeAnew(const fs::path& file, const LogbookContents& contents) {
    std::error_code code;
    fs::remove(file, code);
    Result<Logbook> fresh = Logbook::open({file, true, {}});
    if (!fresh) {
        return Unexpected<Error>(fresh.error());
    }
    const Result<MergeReport> merged = fresh->merge(contents);
    return merged ? Result<void>() : Unexpected<Error>(merged.error());
}

} // namespace

Result<RepairReport> repairLogbook(const fs::path& file, const Instant& now) {
    std::error_code code;
    if (!fs::exists(file, code)) {
        return failure(ErrorCode::UnreadableInput,
                       file.string() + ": there is no such logbook; look at its path");
    }
    if (const Result<Logbook> sound = Logbook::open({file, false, {}});
        sound && sound->damages().empty()) {
        return RepairReport{};
    } else if (!sound && !saysDamaged(sound.error())) {
        return Unexpected<Error>(sound.error());
    }
    Result<LogbookContents> saved = salvage(file);
    if (!saved) {
        return Unexpected<Error>(saved.error());
    }
    RepairReport report;
    report.readings = saved->readings.size();
    LogbookContents::tables(*saved, [&](const auto& table) { report.rows += table.size(); });
    if (report.rows == 0) {
        return failure(ErrorCode::UnreadableInput,
                       file.string() +
                           ": nothing of it can be read; 'quillbench-cli log restore BACKUP' "
                           "puts a backup in its place",
                       file.string());
    }
    fillGaps(*saved);
    const fs::path fresh = file.string() + ".part";
    if (const Result<void> written = writeAnew(fresh, *saved); !written) {
        return Unexpected<Error>(written.error());
    }
    report.damaged = namedAside(file, "damaged", now);
    if (const Result<void> swapped = swap(file, fresh, report.damaged); !swapped) {
        return Unexpected<Error>(swapped.error());
    }
    return report;
}

Result<fs::path> restoreLogbook(const fs::path& file, const fs::path& backup, const Instant& now) {
    const Result<Logbook> sound = Logbook::open({backup, false, {}});
    if (!sound) {
        return Unexpected<Error>(sound.error());
    }
    if (!sound->damages().empty()) {
        return failure(ErrorCode::UnreadableInput, sound->trouble(), backup.string());
    }
    std::error_code code;
    fs::create_directories(fs::absolute(file).parent_path(), code);
    const fs::path fresh = file.string() + ".part";
    fs::remove(fresh, code);
    if (const Result<void> copied = sound->backUp(fresh); !copied) {
        return Unexpected<Error>(copied.error());
    }
    const fs::path aside =
        fs::exists(file, code) ? namedAside(file, "before restoring", now) : fs::path();
    if (const Result<void> swapped = swap(file, fresh, aside); !swapped) {
        return Unexpected<Error>(swapped.error());
    }
    return aside;
}

} // namespace quillbench

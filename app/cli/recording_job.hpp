#pragma once

#include "app/cli/command.hpp"
#include "app/formats/batch_file.hpp"
#include "core/support/excerpt.hpp"
#include "core/support/result.hpp"

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

/// The loop that every subcommand with recordings runs, over one file or over a batch. A job has
///
///     static constexpr const char* kName;                 the subcommand
///     using Question = …; using Line = …;                 what is asked; one answer, printed as one line
///     std::vector<std::string> unknownFields(const BatchRow&) const;
///     Result<Question> questionOf(const BatchRow&) const;
///     Result<std::vector<Line>> answer(const Question&, id, folder) const;   files are relative to `folder`
///     void print(id, const Question&, const Line&) const;
///     bool holdsSomething(const Line&) const;              false: status "nothing"
///     void printProblem(id, const Question&, window, text) const;            the line of a row that cannot be read
///
/// where id is `const std::optional<std::string>&` and window is `std::optional<double>`.
namespace quillbench::cli {

inline int exitCodeOf(const Error& error) {
    switch (error.code) {
    case ErrorCode::BadArgument:
        return kWrongCommandLine;
    case ErrorCode::NothingFound:
        return kNothingToMeasure;
    case ErrorCode::UnreadableInput:
    case ErrorCode::Environment:
        break;
    }
    return kUnreadableInput;
}

/// One line on standard error.
inline void complain(const char* subcommand, const std::string& text) {
    std::fprintf(stderr, "quillbench-cli %s: %s\n", subcommand, text.c_str());
}

/// Whether a row could be read, and whether it gave anything.
struct RowOutcome {
    bool readable = true;
    bool any = false;
};

/// The windows that a question asks for; none where it knows no windows.
template <typename Question>
std::vector<double> windowsOf(const Question& question) {
    if constexpr (requires { question.windows; }) {
        return {question.windows.begin(), question.windows.end()};
    } else {
        return {};
    }
}

template <typename Job>
RowOutcome runRow(const Job& job, const BatchRow& row, const std::filesystem::path& folder) {
    for (const std::string& field : job.unknownFields(row)) {
        complain(Job::kName,
                 row.place() + ": the field '" + excerpt(field) +
                     "' is not known and was left out");
    }
    const auto question = job.questionOf(row);
    const typename Job::Question asked = question ? *question : typename Job::Question{};
    Result<std::vector<typename Job::Line>> lines =
        question ? job.answer(asked, row.id(), folder)
                 : Result<std::vector<typename Job::Line>>(Unexpected<Error>(question.error()));
    if (!lines) {
        // What is wrong with a field names its row already.
        complain(Job::kName,
                 question ? row.place() + ": " + lines.error().text : lines.error().text);
        const std::vector<double> windows = windowsOf(asked);
        for (std::size_t i = 0; i < std::max<std::size_t>(1, windows.size()); ++i) {
            const auto window =
                i < windows.size() ? std::optional<double>(windows[i]) : std::nullopt;
            job.printProblem(row.id(), asked, window, lines.error().text);
        }
        return {false, false};
    }
    RowOutcome outcome;
    for (const typename Job::Line& line : *lines) {
        job.print(row.id(), asked, line);
        outcome.any = outcome.any || job.holdsSomething(line);
    }
    return outcome;
}

/// **Errors** as exit codes: 3 where a row cannot be read, 4 where none gave anything.
template <typename Job>
int runBatch(const Job& job, const std::filesystem::path& list) {
    const auto rows = readBatch(list);
    if (!rows) {
        complain(Job::kName, rows.error().text);
        return kUnreadableInput;
    }
    bool readable = true;
    bool any = rows->empty();
    for (const BatchRow& row : *rows) {
        const RowOutcome outcome = runRow(job, row, list.parent_path());
        readable = readable && outcome.readable;
        any = any || outcome.any;
    }
    if (!readable) {
        return kUnreadableInput;
    }
    return any ? kDone : kNothingToMeasure;
}

/// One question from the command line, or a batch; exactly one of `question.file` and `batch` is to be given.
template <typename Job>
int run(const Job& job, const typename Job::Question& question, const std::string& batch) {
    if (batch.empty() == question.file.empty()) {
        complain(Job::kName, "give one FILE, or --batch LIST.json");
        return kWrongCommandLine;
    }
    if (!batch.empty()) {
        return runBatch(job, batch);
    }
    const auto lines = job.answer(question, std::nullopt, {});
    if (!lines) {
        complain(Job::kName, lines.error().text);
        return exitCodeOf(lines.error());
    }
    bool any = false;
    for (const typename Job::Line& line : *lines) {
        job.print(std::nullopt, question, line);
        any = any || job.holdsSomething(line);
    }
    return any ? kDone : kNothingToMeasure;
}

/// Where a row's file lies.
inline std::filesystem::path placeOf(const std::string& file, const std::filesystem::path& folder) {
    const std::filesystem::path path(file);
    return path.is_absolute() ? path : folder / path;
}

} // namespace quillbench::cli

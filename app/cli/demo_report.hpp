#pragma once

#include "core/instrument/instrument.hpp"
#include "core/virtual/scripted_session.hpp"

#include <vector>

namespace quillbench::cli {

/// How a scripted session came out, for people and as JSON.
class DemoReport {
public:
    /// Judges the strings: plucks each once more. `kept`: events that lay in the logbook at the kill.
    DemoReport(ScriptedSession& scripted, const Instrument& instrument, bool done, int kept);

    /// One line a string.
    void printTable() const;

    /// One line a phase, then what went wrong on purpose.
    void printSummary() const;

    void printJson() const;

private:
    void printPhases() const;
    void printStrayed() const;
    void printCourse() const;
    [[nodiscard]] bool falseBeat(const JudgedString& one) const;

    const ScriptedSession& scripted_;
    const Instrument& instrument_;
    bool done_;
    int kept_;
    std::vector<JudgedString> strings_;
};

} // namespace quillbench::cli

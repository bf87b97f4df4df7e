#pragma once

#include "core/instrument/instrument.hpp"
#include "core/support/result.hpp"
#include "core/workflow/session.hpp"

#include <sys/types.h>

#include <filesystem>
#include <memory>
#include <vector>

namespace quillbench::cli {

/// Keeps the events of a scripted session in a logbook of its own: a child process writes them, so that it can be
/// killed in the middle. **Thread** one at a time; made while the program has one thread.
class DemoKeeper {
public:
    /// Begins a logbook in the folder for temporary files. **Errors** one line: it cannot be written.
    [[nodiscard]] static Result<std::unique_ptr<DemoKeeper>> start(const Instrument& instrument);

    /// Kills what is left of the child, removes the logbook.
    ~DemoKeeper();
    DemoKeeper(const DemoKeeper&) = delete;
    DemoKeeper& operator=(const DemoKeeper&) = delete;
    DemoKeeper(DemoKeeper&&) = delete;
    DemoKeeper& operator=(DemoKeeper&&) = delete;

    /// Returns when the event lies in the logbook; after kill() nothing happens.
    void keep(const SessionEvent& event);

    /// SIGKILL; then what the logbook holds of the session. Empty where it cannot be read, trouble() says why.
    [[nodiscard]] std::vector<SessionEvent> killAndRead();

    /// How many events were kept, and acknowledged.
    [[nodiscard]] int kept() const { return kept_; }

    /// Empty: none.
    [[nodiscard]] const std::string& trouble() const { return trouble_; }

private:
    DemoKeeper(std::filesystem::path file, pid_t child, int toChild, int fromChild);
    void kill();

    std::filesystem::path file_;
    pid_t child_;
    int toChild_;
    int fromChild_;
    int kept_ = 0;
    std::string trouble_;
};

} // namespace quillbench::cli

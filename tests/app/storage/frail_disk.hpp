#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

namespace quillbench::test {

/// A disk under SQLite that forgets and that can be full: it hands everything on to the system's files, and remembers
/// what was written since the last sync. One at a time. **Source** SQLite, "The OS Backend (VFS) To SQLite" (read).
class FrailDisk {
public:
    FrailDisk();
    FrailDisk(const FrailDisk&) = delete;
    FrailDisk& operator=(const FrailDisk&) = delete;
    ~FrailDisk();

    /// For LogbookOpening::vfs.
    [[nodiscard]] static std::string name();

    /// After so many more bytes written the disk is full; < 0: never.
    void setRoom(std::int64_t bytes);

    /// After so many more writes the power goes: from then on every call fails; < 0: never.
    void cutPowerAfter(std::int64_t writes);

    /// Whether the power has gone.
    [[nodiscard]] bool dead() const;

    /// After everything was closed: of each sector (512 bytes) that was written and not synced it is decided by `seed`
    /// whether it reached the disk. Then the power is back.
    void settle(std::uint64_t seed);

    /// Writes and truncations that settle() undid, wholly or in part.
    [[nodiscard]] std::size_t undone() const;
};

} // namespace quillbench::test

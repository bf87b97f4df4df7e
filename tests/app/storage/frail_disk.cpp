#include "tests/app/storage/frail_disk.hpp"

#include "core/support/random.hpp"

#include <fcntl.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <map>
#include <new>
#include <vector>

namespace quillbench::test {

namespace {

constexpr const char* kName = "frail-disk";
constexpr sqlite3_int64 kSector = 512;

/// What stood at a place before it was written, and how long the file was.
struct Change {
    sqlite3_int64 at = 0;
    std::vector<char> before;
    sqlite3_int64 sizeBefore = 0;
    std::size_t written = 0; ///< 0: a truncation
};

struct Disk {
    sqlite3_vfs* real = nullptr;
    std::map<std::string, std::vector<Change>> unsynced; ///< by path, oldest first
    std::int64_t room = -1;
    std::int64_t writesLeft = -1;
    bool dead = false;
    std::size_t undone = 0;
};

/// SQLite calls plain functions: what they reach is static.
Disk& disk() {
    static Disk kDisk;
    return kDisk;
}

struct File {
    sqlite3_file base;
    std::string* path;
    sqlite3_file* real; ///< its memory follows
};

File* fileOf(sqlite3_file* file) {
    return reinterpret_cast<File*>(file);
}

sqlite3_file* realOf(sqlite3_file* file) {
    return fileOf(file)->real;
}

bool powerGoes() {
    Disk& d = disk();
    if (!d.dead && d.writesLeft >= 0 && d.writesLeft-- == 0) {
        d.dead = true;
    }
    return d.dead;
}

void remember(sqlite3_file* file, sqlite3_int64 at, sqlite3_int64 end, std::size_t written) {
    sqlite3_file* real = realOf(file);
    Change change;
    change.at = at;
    change.written = written;
    real->pMethods->xFileSize(real, &change.sizeBefore);
    const sqlite3_int64 from = std::min(at, change.sizeBefore);
    const sqlite3_int64 to = std::min(end, change.sizeBefore);
    change.before.resize(static_cast<std::size_t>(std::max<sqlite3_int64>(0, to - from)));
    if (!change.before.empty()) {
        real->pMethods->xRead(
            real, change.before.data(), static_cast<int>(change.before.size()), at);
    }
    disk().unsynced[*fileOf(file)->path].push_back(std::move(change));
}

int closeFile(sqlite3_file* file) {
    const int code = realOf(file)->pMethods->xClose(realOf(file));
    delete fileOf(file)->path;
    return code;
}

int readFile(sqlite3_file* file, void* to, int size, sqlite3_int64 at) {
    return disk().dead ? SQLITE_IOERR_READ
                       : realOf(file)->pMethods->xRead(realOf(file), to, size, at);
}

int writeFile(sqlite3_file* file, const void* from, int size, sqlite3_int64 at) {
    if (powerGoes()) {
        return SQLITE_IOERR_WRITE;
    }
    Disk& d = disk();
    if (d.room >= 0) {
        if (d.room < size) {
            return SQLITE_FULL;
        }
        d.room -= size;
    }
    remember(file, at, at + size, static_cast<std::size_t>(size));
    return realOf(file)->pMethods->xWrite(realOf(file), from, size, at);
}

int truncateFile(sqlite3_file* file, sqlite3_int64 size) {
    if (powerGoes()) {
        return SQLITE_IOERR_TRUNCATE;
    }
    sqlite3_int64 now = 0;
    realOf(file)->pMethods->xFileSize(realOf(file), &now);
    remember(file, size, now, 0);
    return realOf(file)->pMethods->xTruncate(realOf(file), size);
}

int syncFile(sqlite3_file* file, int /*flags*/) {
    if (powerGoes()) {
        return SQLITE_IOERR_FSYNC;
    }
    disk().unsynced.erase(*fileOf(file)->path);
    return SQLITE_OK; // the shim's memory is what counts here; the real disk need not be waited for
}

int sizeOfFile(sqlite3_file* file, sqlite3_int64* size) {
    return realOf(file)->pMethods->xFileSize(realOf(file), size);
}

int lockFile(sqlite3_file* file, int level) {
    return realOf(file)->pMethods->xLock(realOf(file), level);
}

int unlockFile(sqlite3_file* file, int level) {
    return realOf(file)->pMethods->xUnlock(realOf(file), level);
}

int checkLock(sqlite3_file* file, int* held) {
    return realOf(file)->pMethods->xCheckReservedLock(realOf(file), held);
}

int controlFile(sqlite3_file* file, int what, void* argument) {
    return realOf(file)->pMethods->xFileControl(realOf(file), what, argument);
}

int sectorSize(sqlite3_file* /*file*/) {
    return static_cast<int>(kSector);
}

int deviceFacts(sqlite3_file* /*file*/) {
    return 0; // nothing is promised: neither order nor whole sectors
}

int mapShared(sqlite3_file* file, int region, int size, int extend, volatile void** memory) {
    return realOf(file)->pMethods->xShmMap(realOf(file), region, size, extend, memory);
}

int lockShared(sqlite3_file* file, int offset, int count, int flags) {
    return realOf(file)->pMethods->xShmLock(realOf(file), offset, count, flags);
}

void barrier(sqlite3_file* file) {
    realOf(file)->pMethods->xShmBarrier(realOf(file));
}

int unmapShared(sqlite3_file* file, int remove) {
    return realOf(file)->pMethods->xShmUnmap(realOf(file), remove);
}

const sqlite3_io_methods kMethods = {2,
                                     closeFile,
                                     readFile,
                                     writeFile,
                                     truncateFile,
                                     syncFile,
                                     sizeOfFile,
                                     lockFile,
                                     unlockFile,
                                     checkLock,
                                     controlFile,
                                     sectorSize,
                                     deviceFacts,
                                     mapShared,
                                     lockShared,
                                     barrier,
                                     unmapShared,
                                     nullptr,
                                     nullptr};

int openFile(sqlite3_vfs* /*vfs*/, const char* name, sqlite3_file* file, int flags, int* outFlags) {
    File* ours = fileOf(file);
    ours->base.pMethods = nullptr;
    if (disk().dead) {
        return SQLITE_CANTOPEN;
    }
    ours->real = reinterpret_cast<sqlite3_file*>(ours + 1);
    const int code = disk().real->xOpen(disk().real, name, ours->real, flags, outFlags);
    if (code == SQLITE_OK) {
        ours->path = new std::string(name == nullptr ? "" : name);
        ours->base.pMethods = &kMethods;
    }
    return code;
}

int removeFile(sqlite3_vfs* /*vfs*/, const char* name, int syncFolder) {
    if (powerGoes()) {
        return SQLITE_IOERR_DELETE;
    }
    disk().unsynced.erase(name);
    return disk().real->xDelete(disk().real, name, syncFolder);
}

void undo(int file, const Change& change, Random& random) {
    if (change.written == 0) {
        // A truncation either happened or did not.
        if (random.uniform() < 0.5) {
            static_cast<void>(
                ::pwrite(file, change.before.data(), change.before.size(), change.at));
        }
        return;
    }
    const sqlite3_int64 end = change.at + static_cast<sqlite3_int64>(change.written);
    for (sqlite3_int64 at = change.at; at < end;) {
        const sqlite3_int64 next = std::min(end, (at / kSector + 1) * kSector);
        const sqlite3_int64 known = std::clamp<sqlite3_int64>(change.sizeBefore - at, 0, next - at);
        if (random.uniform() < 0.5) {
            std::vector<char> old(static_cast<std::size_t>(next - at), '\0');
            std::copy_n(change.before.begin() + (at - change.at), known, old.begin());
            static_cast<void>(::pwrite(file, old.data(), old.size(), at));
        }
        at = next;
    }
}

} // namespace

FrailDisk::FrailDisk() {
    disk() = Disk{};
    disk().real = sqlite3_vfs_find(nullptr);
    static sqlite3_vfs kVfs;
    kVfs = *disk().real;
    kVfs.szOsFile = static_cast<int>(sizeof(File)) + disk().real->szOsFile;
    kVfs.zName = kName;
    kVfs.xOpen = openFile;
    kVfs.xDelete = removeFile;
    sqlite3_vfs_register(&kVfs, 0);
}

FrailDisk::~FrailDisk() {
    sqlite3_vfs_unregister(sqlite3_vfs_find(kName));
}

std::string FrailDisk::name() {
    return kName;
}

void FrailDisk::setRoom(std::int64_t bytes) {
    disk().room = bytes;
}

void FrailDisk::cutPowerAfter(std::int64_t writes) {
    disk().writesLeft = writes;
}

bool FrailDisk::dead() const {
    return disk().dead;
}

void FrailDisk::settle(std::uint64_t seed) {
    Random random(seed);
    for (const auto& [path, changes] : disk().unsynced) {
        const int file = ::open(path.c_str(), O_RDWR | O_CLOEXEC);
        if (file < 0) {
            continue;
        }
        for (auto change = changes.rbegin(); change != changes.rend(); ++change) {
            undo(file, *change, random);
            ++disk().undone;
        }
        ::close(file);
    }
    disk().unsynced.clear();
    disk().writesLeft = -1;
    disk().dead = false;
}

std::size_t FrailDisk::undone() const {
    return disk().undone;
}

} // namespace quillbench::test

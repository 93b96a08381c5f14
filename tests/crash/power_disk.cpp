#include "crash/power_disk.hpp"

#include <algorithm>
#include <cstring>
#include <new>

namespace holdpin {
namespace {

using Stored = PowerDisk::Stored;
using Pending = PowerDisk::Pending;

// SQLite calls back without an object, so what it needs to know stands here.
struct State {
    PowerDisk::Files files;
    int calls = 0;
    int at = 0;  // the call that meets the fault; 0: none
    DiskFault fault = DiskFault::power_cut;
    std::uint64_t seed = 0;
    bool failed = false;
    bool dead = false;  // without power
};
State state;

struct File {
    sqlite3_file head;
    std::shared_ptr<Stored>* stored;
    std::string* gone_on_close;  // the name of a file that nobody else has; null: it stays
};

Stored& stored_of(sqlite3_file* file) { return **reinterpret_cast<File*>(file)->stored; }

void write_into(std::string& bytes, const Pending& change) {
    if (change.cut) {
        bytes.resize(change.at);
        return;
    }
    if (bytes.size() < change.at + change.bytes.size()) {
        bytes.resize(change.at + change.bytes.size());
    }
    std::copy(change.bytes.begin(), change.bytes.end(),
              bytes.begin() + static_cast<std::ptrdiff_t>(change.at));
}

// Of every file only what was synced is left; of a torn disk, some of the rest, in any choice.
void lose_power(bool some_stays) {
    SeededRandom random(state.seed);
    for (auto& [name, file] : state.files) {
        for (const Pending& change : file->pending) {
            if (some_stays && random.below(2) == 0) write_into(file->durable, change);
        }
        file->pending.clear();
        file->present = file->durable;
    }
    state.dead = true;
}

// What the call comes to: ok, or the code it fails with. `change` is what it was to write.
int meet(Stored& file, const Pending* change) {
    if (state.dead) return SQLITE_IOERR;
    ++state.calls;
    const bool grows = change != nullptr && !change->cut &&
                       change->at + change->bytes.size() > file.present.size();
    if (state.failed && state.fault == DiskFault::full && grows) return SQLITE_FULL;
    if (state.calls != state.at) return SQLITE_OK;
    state.failed = true;
    switch (state.fault) {
        case DiskFault::io_error:
            return change == nullptr ? SQLITE_IOERR_FSYNC : SQLITE_IOERR_WRITE;
        case DiskFault::full: return grows ? SQLITE_FULL : SQLITE_OK;
        case DiskFault::power_cut: lose_power(false); return SQLITE_IOERR;
        case DiskFault::torn: break;
    }
    if (change != nullptr && !change->cut) {
        Pending half = *change;
        half.bytes.resize(half.bytes.size() / 2);
        file.pending.push_back(half);
        lose_power(true);
        write_into(file.durable, half);
        file.present = file.durable;
    } else {
        lose_power(true);
    }
    return SQLITE_IOERR;
}

int change_file(sqlite3_file* file, Pending change) {
    Stored& stored = stored_of(file);
    if (const int code = meet(stored, &change); code != SQLITE_OK) return code;
    write_into(stored.present, change);
    stored.pending.push_back(std::move(change));
    return SQLITE_OK;
}

int write(sqlite3_file* file, const void* bytes, int size, sqlite3_int64 at) {
    const auto* from = static_cast<const char*>(bytes);
    return change_file(file, {static_cast<std::uint64_t>(at), {from, from + size}, false});
}
int truncate(sqlite3_file* file, sqlite3_int64 size) {
    return change_file(file, {static_cast<std::uint64_t>(size), "", true});
}
int sync(sqlite3_file* file, int) {
    Stored& stored = stored_of(file);
    if (const int code = meet(stored, nullptr); code != SQLITE_OK) return code;
    for (const Pending& change : stored.pending) write_into(stored.durable, change);
    stored.pending.clear();
    return SQLITE_OK;
}
int read(sqlite3_file* file, void* bytes, int size, sqlite3_int64 at) {
    const std::string& present = stored_of(file).present;
    const auto wanted = static_cast<std::size_t>(size);
    const auto from = std::min(static_cast<std::size_t>(at), present.size());
    const auto got = std::min(wanted, present.size() - from);
    std::memcpy(bytes, present.data() + from, got);
    if (got == wanted) return SQLITE_OK;
    std::memset(static_cast<char*>(bytes) + got, 0, wanted - got);
    return SQLITE_IOERR_SHORT_READ;
}
int close(sqlite3_file* file) {
    auto* ours = reinterpret_cast<File*>(file);
    if (ours->gone_on_close != nullptr) state.files.erase(*ours->gone_on_close);
    delete ours->gone_on_close;
    delete ours->stored;
    return SQLITE_OK;
}
int file_size(sqlite3_file* file, sqlite3_int64* size) {
    *size = static_cast<sqlite3_int64>(stored_of(file).present.size());
    return SQLITE_OK;
}
int lock(sqlite3_file*, int) { return SQLITE_OK; }
int check_reserved_lock(sqlite3_file*, int* held) {
    *held = 0;
    return SQLITE_OK;
}
int file_control(sqlite3_file*, int, void*) { return SQLITE_NOTFOUND; }
int sector_size(sqlite3_file*) { return 512; }
int device_characteristics(sqlite3_file*) { return 0; }

// Version 1: no shared memory, which exclusive locking does without, and no memory mapping.
constexpr sqlite3_io_methods kMethods{1,       close,   read,    write,
                                      truncate, sync,   file_size, lock,
                                      lock,    check_reserved_lock, file_control, sector_size,
                                      device_characteristics, nullptr, nullptr, nullptr,
                                      nullptr, nullptr, nullptr};

int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out_flags) {
    static int nameless = 0;
    const bool passing = name == nullptr;
    const std::string key = passing ? "nameless-" + std::to_string(++nameless) : name;
    auto* ours = new (file) File{{nullptr}, nullptr, nullptr};
    auto found = state.files.find(key);
    if (found == state.files.end()) {
        if ((flags & SQLITE_OPEN_CREATE) == 0) return SQLITE_CANTOPEN;
        found = state.files.emplace(key, std::make_shared<Stored>()).first;
    }
    const bool goes = passing || (flags & SQLITE_OPEN_DELETEONCLOSE) != 0;
    ours->stored = new std::shared_ptr<Stored>(found->second);
    ours->gone_on_close = goes ? new std::string(key) : nullptr;
    ours->head.pMethods = &kMethods;
    if (out_flags != nullptr) *out_flags = flags;
    return SQLITE_OK;
}
int remove(sqlite3_vfs*, const char* name, int) {
    if (state.dead) return SQLITE_IOERR;
    return state.files.erase(name) > 0 ? SQLITE_OK : SQLITE_IOERR_DELETE_NOENT;
}
int access(sqlite3_vfs*, const char* name, int, int* out) {
    *out = state.files.contains(name) ? 1 : 0;
    return SQLITE_OK;
}
int full_path(sqlite3_vfs*, const char* name, int size, char* out) {
    sqlite3_snprintf(size, out, "%s", name);
    return SQLITE_OK;
}

sqlite3_vfs power;

}  // namespace

PowerDisk::PowerDisk() {
    // The rest (random, sleep, time) is taken over as it is; it needs nothing of the object.
    power = *sqlite3_vfs_find(nullptr);
    power.szOsFile = static_cast<int>(sizeof(File));
    power.zName = "power-disk";
    power.pNext = nullptr;
    power.xOpen = open;
    power.xDelete = remove;
    power.xAccess = access;
    power.xFullPathname = full_path;
    state = {};
    sqlite3_vfs_register(&power, 0);
}

PowerDisk::~PowerDisk() {
    sqlite3_vfs_unregister(&power);
    state = {};
}

void PowerDisk::fail_at(int nth, DiskFault fault, std::uint64_t seed) {
    mend();
    state.at = nth;
    state.fault = fault;
    state.seed = seed;
}

bool PowerDisk::has_failed() const { return state.failed; }
int PowerDisk::calls() const { return state.calls; }

void PowerDisk::mend() {
    state.calls = 0;
    state.at = 0;
    state.failed = false;
    state.dead = false;
}

std::map<std::string, std::string> PowerDisk::image() const {
    std::map<std::string, std::string> all;
    for (const auto& [name, file] : state.files) all[name] = file->present;
    return all;
}

void PowerDisk::put(const std::map<std::string, std::string>& image) {
    state.files.clear();
    for (const auto& [name, bytes] : image) {
        state.files[name] = std::make_shared<Stored>(Stored{bytes, bytes, {}});
    }
    mend();
}

}  // namespace holdpin

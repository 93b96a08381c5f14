#include "store/failing_disk.hpp"

#include <cstring>
#include <new>

namespace holdpin {
namespace {

// SQLite calls back without an object, so what it needs to know stands here.
struct State {
    int calls_left = -1;  // -1: nothing fails
    int code = SQLITE_OK;
    bool failed = false;
};
State state;

int next_call() {
    if (state.calls_left < 0) return SQLITE_OK;
    if (state.calls_left > 0) --state.calls_left;
    if (state.calls_left > 0) return SQLITE_OK;
    state.failed = true;
    return state.code;
}

// SQLite gives room for this head and, behind it, for the file of the real VFS.
struct File {
    sqlite3_file head;
    sqlite3_file* real;
};

sqlite3_file* real_of(sqlite3_file* file) { return reinterpret_cast<File*>(file)->real; }

int write(sqlite3_file* file, const void* bytes, int size, sqlite3_int64 at) {
    if (const int code = next_call(); code != SQLITE_OK) return code;
    return real_of(file)->pMethods->xWrite(real_of(file), bytes, size, at);
}
int truncate(sqlite3_file* file, sqlite3_int64 size) {
    if (const int code = next_call(); code != SQLITE_OK) return code;
    return real_of(file)->pMethods->xTruncate(real_of(file), size);
}
int sync(sqlite3_file* file, int flags) {
    if (const int code = next_call(); code != SQLITE_OK) return code;
    return real_of(file)->pMethods->xSync(real_of(file), flags);
}
int close(sqlite3_file* file) { return real_of(file)->pMethods->xClose(real_of(file)); }
int read(sqlite3_file* file, void* bytes, int size, sqlite3_int64 at) {
    return real_of(file)->pMethods->xRead(real_of(file), bytes, size, at);
}
int file_size(sqlite3_file* file, sqlite3_int64* size) {
    return real_of(file)->pMethods->xFileSize(real_of(file), size);
}
int lock(sqlite3_file* file, int level) {
    return real_of(file)->pMethods->xLock(real_of(file), level);
}
int unlock(sqlite3_file* file, int level) {
    return real_of(file)->pMethods->xUnlock(real_of(file), level);
}
int check_reserved_lock(sqlite3_file* file, int* held) {
    return real_of(file)->pMethods->xCheckReservedLock(real_of(file), held);
}
int file_control(sqlite3_file* file, int what, void* argument) {
    return real_of(file)->pMethods->xFileControl(real_of(file), what, argument);
}
int sector_size(sqlite3_file* file) { return real_of(file)->pMethods->xSectorSize(real_of(file)); }
int device_characteristics(sqlite3_file* file) {
    return real_of(file)->pMethods->xDeviceCharacteristics(real_of(file));
}

// Version 1: no shared memory, which exclusive locking does without, and no memory mapping.
constexpr sqlite3_io_methods kMethods{1,
                                      close,
                                      read,
                                      write,
                                      truncate,
                                      sync,
                                      file_size,
                                      lock,
                                      unlock,
                                      check_reserved_lock,
                                      file_control,
                                      sector_size,
                                      device_characteristics,
                                      nullptr,
                                      nullptr,
                                      nullptr,
                                      nullptr,
                                      nullptr,
                                      nullptr};

sqlite3_vfs failing;

sqlite3_vfs* real_vfs() { return static_cast<sqlite3_vfs*>(failing.pAppData); }

int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out_flags) {
    auto* ours = new (file) File{{nullptr}, nullptr};
    ours->real = reinterpret_cast<sqlite3_file*>(ours + 1);
    const int code = real_vfs()->xOpen(real_vfs(), name, ours->real, flags, out_flags);
    if (code == SQLITE_OK) ours->head.pMethods = &kMethods;
    return code;
}
int remove(sqlite3_vfs*, const char* name, int sync_folder) {
    return real_vfs()->xDelete(real_vfs(), name, sync_folder);
}
int access(sqlite3_vfs*, const char* name, int flags, int* out) {
    return real_vfs()->xAccess(real_vfs(), name, flags, out);
}
int full_path(sqlite3_vfs*, const char* name, int size, char* out) {
    return real_vfs()->xFullPathname(real_vfs(), name, size, out);
}

}  // namespace

FailingDisk::FailingDisk() {
    sqlite3_vfs* real = sqlite3_vfs_find(nullptr);
    // The rest (random, sleep, time) is taken over as it is; it needs nothing of the object.
    failing = *real;
    failing.pAppData = real;
    failing.szOsFile = static_cast<int>(sizeof(File)) + real->szOsFile;
    failing.zName = "failing-disk";
    failing.pNext = nullptr;
    failing.xOpen = open;
    failing.xDelete = remove;
    failing.xAccess = access;
    failing.xFullPathname = full_path;
    mend();
    sqlite3_vfs_register(&failing, 0);
}

FailingDisk::~FailingDisk() { sqlite3_vfs_unregister(&failing); }

void FailingDisk::fail_from(int nth, int code) { state = {nth, code, false}; }

void FailingDisk::mend() { state = {}; }

bool FailingDisk::has_failed() const { return state.failed; }

}  // namespace holdpin

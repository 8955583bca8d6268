#include "tests/fault/failing_vfs.h"

#include <cstring>
#include <new>

namespace squeezeout::test {
namespace {

sqlite3_vfs* g_real = nullptr;
int g_left = 0;  // operations until it fails; 0: never
bool g_failed = false;
FailingVfs::How g_how = FailingVfs::How::clean;

// True: this operation fails.
bool fails() {
  if (g_failed) return true;
  if (g_left == 0 || --g_left > 0) return false;
  return g_failed = true;
}

struct File {
  sqlite3_file base;
  sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};
File* file(sqlite3_file* f) { return reinterpret_cast<File*>(f); }
const sqlite3_io_methods* methods(sqlite3_file* f) { return file(f)->real()->pMethods; }

int close(sqlite3_file* f) { return methods(f)->xClose(file(f)->real()); }
int read(sqlite3_file* f, void* to, int n, sqlite3_int64 at) {
  return methods(f)->xRead(file(f)->real(), to, n, at);
}
int write(sqlite3_file* f, const void* from, int n, sqlite3_int64 at) {
  const bool was_well = !g_failed;
  if (!fails()) return methods(f)->xWrite(file(f)->real(), from, n, at);
  if (was_well && g_how == FailingVfs::How::torn)
    methods(f)->xWrite(file(f)->real(), from, n / 2, at);
  return SQLITE_IOERR_WRITE;
}
int truncate(sqlite3_file* f, sqlite3_int64 n) {
  return fails() ? SQLITE_IOERR_TRUNCATE : methods(f)->xTruncate(file(f)->real(), n);
}
int sync(sqlite3_file*, int) { return fails() ? SQLITE_IOERR_FSYNC : SQLITE_OK; }
int size(sqlite3_file* f, sqlite3_int64* n) { return methods(f)->xFileSize(file(f)->real(), n); }
int lock(sqlite3_file* f, int how) { return methods(f)->xLock(file(f)->real(), how); }
int unlock(sqlite3_file* f, int how) { return methods(f)->xUnlock(file(f)->real(), how); }
int reserved(sqlite3_file* f, int* out) {
  return methods(f)->xCheckReservedLock(file(f)->real(), out);
}
int control(sqlite3_file* f, int op, void* arg) {
  return methods(f)->xFileControl(file(f)->real(), op, arg);
}
int sector(sqlite3_file* f) { return methods(f)->xSectorSize(file(f)->real()); }
int traits(sqlite3_file* f) { return methods(f)->xDeviceCharacteristics(file(f)->real()); }

// Version 1: no shared memory and no mapping. The store must not want any.
const sqlite3_io_methods kMethods{1,       close,   read,     write,   truncate, sync,   size,
                                  lock,    unlock,  reserved, control, sector,   traits, nullptr,
                                  nullptr, nullptr, nullptr,  nullptr, nullptr};

int open(sqlite3_vfs*, const char* name, sqlite3_file* f, int flags, int* out) {
  auto* opened = new (f) File{};
  const int code = g_real->xOpen(g_real, name, opened->real(), flags, out);
  opened->base.pMethods = code == SQLITE_OK ? &kMethods : nullptr;
  return code;
}

}  // namespace

FailingVfs::FailingVfs() {
  g_real = sqlite3_vfs_find(nullptr);
  vfs_ = *g_real;
  vfs_.zName = "failing";
  vfs_.szOsFile = static_cast<int>(sizeof(File)) + g_real->szOsFile;
  vfs_.xOpen = open;
  sqlite3_vfs_register(&vfs_, 1);
  heal();
}

FailingVfs::~FailingVfs() {
  sqlite3_vfs_unregister(&vfs_);
  sqlite3_vfs_register(g_real, 1);
}

void FailingVfs::fail_at(int operation, How how) {
  g_left = operation;
  g_how = how;
  g_failed = false;
}
bool FailingVfs::failed() const { return g_failed; }
void FailingVfs::heal() {
  g_left = 0;
  g_failed = false;
}

}  // namespace squeezeout::test

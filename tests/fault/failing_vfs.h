#pragma once
// A file system for SQLite that fails on purpose: the k-th write, sync or truncation, and all after it, as when a disk dies under
// the program. Syncs do nothing else: the tests that use it kill no machine.
//   Shape   at most one at a time; it is SQLite's default file system while it lives

#include <sqlite3.h>

namespace squeezeout::test {

class FailingVfs {
 public:
  enum class How {
    clean,  // nothing of the write is done
    torn,   // its first half is
  };
  FailingVfs();
  ~FailingVfs();
  FailingVfs(const FailingVfs&) = delete;
  FailingVfs& operator=(const FailingVfs&) = delete;

  void fail_at(int operation, How how);  // counted from now, from 1
  bool failed() const;                   // it came to that
  void heal();                           // the disk works again

 private:
  sqlite3_vfs vfs_;
};

}  // namespace squeezeout::test

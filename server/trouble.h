#pragma once
// Trouble: the world failed (disk, socket, a file of the wrong kind). Never a bug, never the floor's refusal.
//   Shape   a code to act on, and three sentences for a person: what, why, what next. Nobody parses them.

#include <string>

namespace squeezeout {

struct Trouble {
  enum class Code {
    full,       // no room; nothing was written, later it may be
    locked,     // another server holds the store
    newer,      // made by a newer program
    foreign,    // not a store of ours
    read_only,  // the folder or the file cannot be written
    damaged,    // what is on disk contradicts itself
    broken,     // the disk failed; what it holds now is unknown until it is opened again
    port_in_use,
    network,
    bad_input,  // a file or an argument that a person gave
  };
  Code code = Code::broken;
  std::string what, why, next;
};

inline std::string to_text(const Trouble& t) {
  return "error: " + t.what + "\n  why:  " + t.why + "\n  next: " + t.next + "\n";
}

struct Done {};  // a Result without a value

}  // namespace squeezeout

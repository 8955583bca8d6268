#pragma once
// The loudspeaker, by OpenAL. Silent where there is none: never an error of the program.
//   Shape   a thread of its own opens the device for a sound and gives it back soon after the last one, so that an idle
//           screen costs nothing and nobody waits for a sound system
//   Leaving waits kLeave at most: where a sound system opens or closes its device for longer, the thread is left to it, with
//           all that it uses

#include <chrono>
#include <memory>
#include <thread>

#include "client/platform/tones.h"

namespace squeezeout::platform {

class Speaker {
 public:
  enum class State { not_tried, there, none };

  Speaker();
  ~Speaker();  // stops what is playing
  Speaker(const Speaker&) = delete;
  Speaker& operator=(const Speaker&) = delete;

  // Returns at once. What is playing still is cut short.
  void play(Samples samples);
  // Whether there is a device to play on: looked for once at the beginning and again at each sound.
  State state() const;
  // Until all that was asked for has been played, at most so long: for tests and for leaving. True: it has.
  bool wait_until_quiet(std::chrono::milliseconds at_most);

  static constexpr std::chrono::milliseconds kLeave{1000};

 private:
  struct Shared;
  static void run(Shared& shared);
  std::shared_ptr<Shared> shared_;
  std::thread thread_;
};

}  // namespace squeezeout::platform

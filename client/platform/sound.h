#pragma once
// The loudspeaker, by OpenAL. Silent where there is none: never an error of the program.
//   Shape   a thread of its own opens the device for a sound and gives it back soon after the last one, so that an idle
//           screen costs nothing and nobody waits for a sound system

#include <condition_variable>
#include <mutex>
#include <optional>
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

 private:
  void run();
  mutable std::mutex mutex_;
  std::condition_variable changed_;
  std::optional<Samples> next_;
  State state_ = State::not_tried;
  bool busy_ = false, leaving_ = false;
  std::thread thread_;  // last: it uses the others
};

}  // namespace squeezeout::platform

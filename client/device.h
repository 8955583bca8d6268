#pragma once
// Device: what all ways to run share: the mirror of the floor, who looks at it, and how long letters are.

#include <chrono>
#include <functional>
#include <optional>
#include <string>

#include "client/look/frame.h"
#include "client/options.h"
#include "client/outlets.h"
#include "client/platform/fonts.h"
#include "client/session.h"
#include "client/settings/store.h"
#include "client/sync/connection.h"
#include "client/view/quotes.h"

namespace squeezeout {

inline Steady steady_now() { return std::chrono::steady_clock::now(); }
inline constexpr std::chrono::seconds kPatience{10};

// Sizes for a screen of so many pixels, as this device is set; the monitor's own millimetres where it is not.
[[nodiscard]] look::Scale scale_of(const Prefs& prefs, float monitor_mm_per_px, int width,
                                   int height);

class Device {
 public:
  // `settings` were read from `store`; what the command line says beats them.
  Device(const Options& options, platform::FontFiles fonts, settings::Store store,
         const settings::Settings& settings, const std::function<void()>& wake);

  // Takes what came in, and keeps what was changed of this device's settings and of its draft. A message when the shop does not know this device's bench or builder.
  std::optional<std::string> exchange();
  // Waits for a live floor: the exit code, or nullopt when it is there.
  std::optional<int> wait_for_floor();
  // For a picture: what the view shows of the planner is asked for and waited for.
  void work_out(const View& view);
  // A card, a reserve screen and figures that nobody came to by a press need something to show.
  [[nodiscard]] View with_subject(View view) const;

  void press(const Intent& intent);
  // Plays and switches what the alarms of the last frame ask for. Pictures leave it out.
  void sound_alarms();

  look::Frame lay_out(const View& view, const look::Scale& scale, const look::Letters& letters,
                      float width, float height);
  [[nodiscard]] std::string dump(const look::Frame& frame, const View& view,
                                 const look::Scale& scale) const;

  Session& session() { return session_; }
  const Replica& replica() const { return replica_; }
  const platform::FontFiles& fonts() const { return fonts_; }

 private:
  void keep();
  [[nodiscard]] Identity who() const;
  [[nodiscard]] settings::Settings settings_now() const;
  const Options& options_;
  settings::Store store_;
  settings::Settings kept_;  // as in the file
  settings::Settings seen_;  // as they were at the last look: what differs from it was pressed
  platform::FontFiles fonts_;
  Replica replica_;
  Connection connection_;
  plan_ahead::Desk desk_;
  Session session_;
  Quotes quotes_;
  alarm::Alarms alarms_;
  alarm::Told alarmed_;
  Outlets outlets_{label_folder()};
  bool identified_ = false;
};

}  // namespace squeezeout

#pragma once
// Outlets: what leaves this device beside its screen: the sound of an alarm, the lamp, the label.
//   Lamp    Prefs::lamp is run with SQUEEZEOUT_ALARM=P1 and SQUEEZEOUT_GLUE_UP=its title when a joint comes at risk, and with
//           SQUEEZEOUT_ALARM=off when none is any more, or the program ends; one that fails is told once
//   Label   as PDF and PNG in a folder of the person's cache, kept for a week; Prefs::printer is run with the PDF's name as its
//           last argument
//   Waits   for nothing: sounds have a thread, commands are processes

#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "client/alarm/alarm.h"
#include "client/platform/commands.h"
#include "client/platform/sound.h"
#include "client/view/scene.h"

namespace squeezeout {

class Outlets {
 public:
  // Where labels are kept, and what plays; none: the loudspeaker, from the first look on.
  explicit Outlets(std::string folder, std::function<void(platform::Samples)> play = {});
  ~Outlets();
  Outlets(const Outlets&) = delete;
  Outlets& operator=(const Outlets&) = delete;

  // As often as the screen is drawn: plays, switches the lamp, and tells what failed.
  std::optional<Message> look(const alarm::Told& told, const words::Context& c, const Prefs& prefs);
  void try_sound();
  // What became of it; a printer that fails later is told by look().
  Message print(const words::Context& c, GlueUpId glue_up, const Prefs& prefs);
  Loudspeaker loudspeaker() const;

 private:
  void lamp(const alarm::Told& told, const words::Context& c, const std::string& command);

  std::string folder_;
  std::function<void(platform::Samples)> play_;
  std::unique_ptr<platform::Speaker> speaker_;
  platform::Commands lamps_, printers_;
  std::string lit_;      // the lamp's command, while it is on
  std::string refused_;  // a lamp's command that failed
  std::string to_write_;
};

// $XDG_CACHE_HOME/squeezeout/labels, or what stands for it.
[[nodiscard]] std::string label_folder();

}  // namespace squeezeout

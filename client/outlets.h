#pragma once
// Outlets: what leaves this device beside its screen: the sound of an alarm, the lamp, the label.
//   Lamp    Prefs::lamp is run with SQUEEZEOUT_ALARM=P1 and SQUEEZEOUT_GLUE_UP=its title when a joint comes at risk, and with
//           SQUEEZEOUT_ALARM=off when none is any more, or the program ends, for which a lamp's command that still runs is killed;
//           one that fails is told once
//   Label   as PDF and PNG in a folder of the person's cache, kept for a week; Prefs::printer is run with the PDF's name as its
//           last argument
//   Typed   a command counts from leaving its field: half of one is never run
//   Waits   for nothing: sounds have a thread, commands are processes

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

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
  // `typing` is the field that is typed into (View::typing).
  std::optional<Message> look(const alarm::Told& told, const words::Context& c, const Prefs& prefs,
                              std::string_view typing = {});
  void try_sound();
  // What became of it; a printer that fails later is told by look().
  Message print(const words::Context& c, GlueUpId glue_up, const Prefs& prefs,
                std::string_view typing = {});
  Loudspeaker loudspeaker() const;

 private:
  void take(const Prefs& prefs, std::string_view typing);
  void switch_lamp(const alarm::Told& told, const words::Context& c);

  std::string folder_;
  std::function<void(platform::Samples)> play_;
  std::unique_ptr<platform::Speaker> speaker_;
  platform::Commands lamps_, printers_;
  std::string lamp_, printer_;        // commands as they were when nobody typed them
  std::string lit_;                   // the lamp's command, while it is on
  std::vector<std::string> perhaps_;  // commands of lamps that are not known to be off
  std::string refused_;               // a lamp's command that failed
};

// $XDG_CACHE_HOME/squeezeout/labels, or what stands for it.
[[nodiscard]] std::string label_folder();

}  // namespace squeezeout

#pragma once
// Session: a person at this device. Presses become commands or another view; answers become the line at the foot.
//   Shape   no window and no ImGui; the replica is the only way to the floor, the desk the only way to the planner

#include <functional>
#include <map>
#include <optional>
#include <string>

#include "client/plan_ahead/desk.h"
#include "client/sync/replica.h"
#include "client/view/view.h"
#include "client/words/words.h"

namespace squeezeout {

class Session {
 public:
  // New ids for commands come from outside (the Ids seam).
  Session(Replica& replica, plan_ahead::Desk& desk, View view, std::function<CommandId()> ids)
      : replica_(replica), desk_(desk), view_(std::move(view)), ids_(std::move(ids)) {}

  const View& view() const { return view_; }
  void look_at(View view) { view_ = std::move(view); }
  void tell(Message message) { view_.message = std::move(message); }
  void press(Intent intent, Steady now);  // by value: it may be the message's own fix
  void take_answers(Steady now);          // what the replica has answered since the last call

 private:
  void answered(const Reply& reply, Instant now);
  void plan_ahead(const Intent& intent, Instant now);
  void begin(plan_ahead::Task task, Instant now);
  void tell_weather(Instant now);
  void leave_other_time();
  void correct_off(const Reply& reply, Steady now);
  void tell_return(const std::vector<Reply>& replies, Steady now);
  Replica& replica_;
  plan_ahead::Desk& desk_;
  View view_;
  std::function<CommandId()> ids_;
  std::optional<ReallyOff> correction_;  // waits for its Undo
  // What the weather did to the glue-ups of this bench and builder, as far as it has been told here.
  std::optional<std::map<GlueUpId, WeatherNote>> told_;
  std::uint64_t looked_at_ = 0;  // the mirror's revision
  // Since the server was lost: presses that it has answered again, and those of them that were not done.
  struct Away {
    int sent = 0, needs_you = 0;
  };
  std::optional<Away> away_;
};

// One press that mends a refusal: take the next time, do it knowingly, or plan again what was planned. nullopt: there is none.
struct Fix {
  std::string label;
  Intent intent;
};
[[nodiscard]] std::optional<Fix> fix_of(const words::Context& c, plan_ahead::Task plan,
                                        const Body& asked, const Refusal& refusal);

// Who stands at this device. Names are keys, names or, for a bench, its number; empty: the first that fits.
struct Identity {
  std::string bench, builder;
};
// Refuses a name that the shop does not know, in words.
[[nodiscard]] Result<View, std::string> identify(View view, const Identity& who,
                                                 const Floor& floor);

}  // namespace squeezeout

#include "client/plan_ahead/desk.h"

namespace squeezeout::plan_ahead {

Questions of_the_floor() { return {repair, replan, what_if, usual_hypotheses}; }

}  // namespace squeezeout::plan_ahead

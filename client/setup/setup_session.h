#pragma once
// What presses on the set-up screen do beside the view: they begin a draft, try it, ask the server to open it, take files in; and what
// the server's answer makes of it.

#include <optional>

#include "client/sync/replica.h"
#include "client/view/view.h"

namespace squeezeout::setup {

// Before the view changes: a first edit begins the draft, from the shop that runs.
void begin_draft(View& view, const Intent& intent, const Floor& floor);
// After it has changed: the message that the press deserves, and the command that the server is asked.
[[nodiscard]] std::optional<Body> follow(View& view, const Intent& intent, const Floor& floor,
                                         Instant now);
// The server has answered; other commands than LoadShop change nothing here.
void answered(View& view, const Reply& reply);
// A server without a shop is shown the pages that make one. A draft that did not know what runs learns it; one that nobody touched is
// dropped when a shop is there.
void meet(View& view, const Floor& floor);

}  // namespace squeezeout::setup

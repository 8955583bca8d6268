#pragma once
// A shop file for tests, one field a line so that a test can replace a line and name it.

#include <string>

namespace squeezeout::testing {

inline const std::string kShopText = R"(name: "Test loft"
zone: "Europe/Dublin"
hours {
  days: "mon-fri"
  from: "08:00"
  to: "17:30"
}
exception {
  date: "2026-12-24"
  hours {
    from: "09:00"
    to: "12:00"
  }
}
climate_celsius: 20
bench {
  key: "b1"
  name: "Bench 1"
}
builder {
  key: "ada"
  name: "Ada"
  bench: "b1"
}
gear {
  key: "deep"
  name: "Deep clamp"
  class: GEAR_CLASS_CLAMP
  count: 6
  throat_mm: 220
}
gear {
  key: "short"
  name: "Short clamp"
  class: GEAR_CLASS_CLAMP
  count: 4
  throat_mm: 50
}
gear {
  key: "deck"
  name: "Go-bar deck"
  class: GEAR_CLASS_DECK
  unit: "A"
  unit: "B"
}
adhesive {
  key: "resin"
  name: "Resin"
  chemistry: CHEMISTRY_ALIPHATIC
  open_minutes: 5
  dwell {
    celsius: 10
    minutes: 60
  }
  dwell {
    celsius: 20
    minutes: 45
  }
  wait_hours: 4
  floor_celsius: 10
}
recipe {
  key: "bridge"
  name: "Bridge"
  glue: "resin"
  stage_minutes: 10
  assembly_minutes: 4
  release_minutes: 5
  need {
    class: GEAR_CLASS_CLAMP
    count: 3
    throat_mm: 200
  }
  need {
    class: GEAR_CLASS_DECK
    count: 1
  }
}
recipe {
  key: "bend"
  name: "Bend"
  stage_minutes: 10
  assembly_minutes: 20
  release_minutes: 5
  dwell_minutes: 60
}
build {
  key: "14"
  name: "No. 14"
  builder: "ada"
  step: "bend"
  step: "bridge"
  done_before: 1
  due: "2026-12-18"
}
)";

}  // namespace squeezeout::testing

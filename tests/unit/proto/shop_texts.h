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

// One with what the craft works out, and the air of the shop.
inline const std::string kCraftText = R"(name: "Craft loft"
zone: "Europe/Dublin"
hours {
  days: "mon-fri"
  from: "08:00"
  to: "17:30"
}
gear {
  key: "cam"
  name: "Cam clamp"
  class: GEAR_CLASS_CLAMP
  count: 40
  screw: "Tr12x3"
  pad_mm: 25
  torque_newton_metre: 6
}
gear {
  key: "bar"
  name: "Go-bar"
  class: GEAR_CLASS_GO_BAR
  count: 30
  length_mm: 700
  rod {
    width_mm: 12
    thickness_mm: 5
    stiffness_gpa: 13.5
    strength_mpa: 100
  }
}
gear {
  key: "deck"
  name: "Go-bar deck"
  class: GEAR_CLASS_DECK
  unit: "A"
  opening_mm: 665
}
gear {
  key: "form"
  name: "Form"
  class: GEAR_CLASS_FORM
  unit: "om"
  outline: "om"
  hot: true
}
adhesive {
  key: "resin"
  name: "Resin"
  chemistry: CHEMISTRY_ALIPHATIC
  open_minutes: 10
  dwell {
    celsius: 10
    minutes: 60
  }
  floor_celsius: 10
  closed_minutes: 4
  shelf_days: 365
}
adhesive {
  key: "epoxy"
  name: "Epoxy"
  chemistry: CHEMISTRY_EPOXY_SLOW
  open_minutes: 60
  dwell {
    celsius: 20
    minutes: 720
  }
  floor_celsius: 10
  working_life_minutes: 120
  activation_kj_per_mol: 55
  full_cure_hours: 72
}
adhesive {
  key: "cement"
  name: "Cement"
  chemistry: CHEMISTRY_SOLVENT_CEMENT
  open_minutes: 2
  dwell {
    celsius: 10
    minutes: 720
  }
  floor_celsius: 10
  solvent {
    name: "butanone"
    grams_per_use: 6
  }
}
recipe {
  key: "brace"
  name: "Brace"
  glue: "resin"
  stage_minutes: 10
  assembly_minutes: 4
  release_minutes: 5
  need {
    class: GEAR_CLASS_GO_BAR
  }
  need {
    class: GEAR_CLASS_DECK
    count: 1
  }
  joint {
    length_mm: 300
    width_mm: 7
    a {
      part: "top"
      material: "sitka-spruce"
    }
    b {
      material: "red-spruce"
    }
    thickness_mm: 2.5
    under_mm: 10
    gap_mm: 0.1
    plate_mm: 400
    least_pressure_mpa: 0.1
    spread_g_per_m2: 120
    trait: TRAIT_BRACING
    trait: TRAIT_PALE
  }
}
recipe {
  key: "bend"
  name: "Bend"
  stage_minutes: 10
  assembly_minutes: 20
  release_minutes: 5
  need {
    class: GEAR_CLASS_FORM
    count: 1
    outline: "om"
  }
  joint {
    length_mm: 800
    width_mm: 100
    a {
      part: "sides"
      material: "rosewood"
    }
    b {
      part: "sides"
      material: "rosewood"
    }
    thickness_mm: 2.2
    radius_mm: 60
  }
  heat {
    hold_minutes: 15
    cool_minutes: 45
    form_celsius: 150
  }
}
build {
  key: "15"
  name: "No. 15"
  step: "bend"
  step: "brace"
  wood {
    part: "top"
    material: "western-redcedar"
  }
  wood {
    part: "sides"
    material: "koa"
  }
}
daily {
  at: "06:30"
  celsius: 14
  humidity_percent: 50
}
daily {
  at: "18:00"
  celsius: 20
  humidity_percent: 45
}
service {
  celsius: 21
  humidity_percent: 40
}
room {
  volume_m3: 180
  air_m3_per_minute: 6
  limits: LIMITS_OSHA
}
display {
  clock: CLOCK_12_HOURS
  lengths: LENGTHS_INCH
  degrees: DEGREES_FAHRENHEIT
}
)";

}  // namespace squeezeout::testing

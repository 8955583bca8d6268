#include "tests/bench/server/load.h"

#include <stdexcept>

namespace squeezeout::bench {

std::string shop_text(int benches) {
  std::string text =
      "name: \"Bench shop\"\nzone: \"UTC\"\nhours { days: \"mon-sun\" from: \"00:00\" to: "
      "\"24:00\" }\n"
      "gear { key: \"bar\" name: \"Bar clamp\" class: GEAR_CLASS_CLAMP count: 1000 style: \"bar\" "
      "}\n"
      "gear { key: \"caul\" name: \"Flat caul\" class: GEAR_CLASS_CAUL count: 500 style: \"flat\" "
      "}\n"
      "adhesive { key: \"fish\" name: \"Fish glue\" chemistry: CHEMISTRY_FISH open_minutes: 10 "
      "dwell { celsius: 10 minutes: 60 } wait_hours: 4 floor_celsius: 10 source: \"common "
      "practice\" }\n"
      "recipe { key: \"joint\" name: \"Plate joint\" glue: \"fish\" stage_minutes: 5 "
      "assembly_minutes: 5 release_minutes: 5 "
      "need { class: GEAR_CLASS_CLAMP count: 4 style: \"bar\" } need { class: GEAR_CLASS_CAUL "
      "count: 2 style: \"flat\" } }\n";
  for (int i = 1; i <= benches; ++i) {
    const std::string n = std::to_string(i);
    text += "bench { key: \"b" + n + "\" name: \"Bench " + n + "\" }\n";
    text += "builder { key: \"w" + n + "\" name: \"Builder " + n + "\" bench: \"b" + n + "\" }\n";
  }
  return text;
}

Presser::Presser(std::uint16_t port, std::uint32_t bench) : client_(port), bench_(bench) {
  const Welcome welcome = client_.hello(test::test_device(bench));
  (void)client_.receive_until<Snapshot>();
  const Instant now{
      std::chrono::duration_cast<Seconds>(std::chrono::milliseconds{welcome.server_time_ms})};
  next_ = now + std::chrono::hours{1};
}

void Presser::press() {
  Body body;
  if (mine_) {
    body = Cancel{mine_};
  } else {
    Reserve reserve;
    reserve.recipe = RecipeId{1};
    reserve.builder = BuilderId{bench_};
    reserve.bench = BenchId{bench_};
    reserve.start = next_;
    next_ += Minutes{10};
    body = reserve;
  }
  client_.send(Asked{test::command_id(++pressed_ * 0x9E3779B97F4A7C15U, bench_), std::move(body)});
}

bool Presser::answered() {
  bool got = false;
  client_.each_waiting([&](std::string_view frame) {
    deltas_ += is_delta(frame) ? 1 : 0;
    if (!is_answer(frame)) return;
    const auto decoded = decode_server_frame(frame);
    const auto& answer = std::get<Answer>(decoded.value());
    if (answer.refusal) throw std::runtime_error("the load was refused");
    mine_ = mine_ ? GlueUpId{} : answer.glue_up;
    got = true;
  });
  return got;
}

std::vector<std::size_t> readable(std::vector<pollfd>& sockets) {
  std::vector<std::size_t> ready;
  if (::poll(sockets.data(), sockets.size(), 10'000) <= 0)
    throw std::runtime_error("nothing came for 10 s");
  for (std::size_t i = 0; i < sockets.size(); ++i) {
    if (sockets[i].revents != 0) ready.push_back(i);
  }
  return ready;
}

}  // namespace squeezeout::bench

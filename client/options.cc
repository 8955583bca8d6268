#include "client/options.h"

#include <CLI/CLI.hpp>
#include <cstdlib>
#include <map>

namespace squeezeout {
namespace {

template <class T>
CLI::Option* choice(CLI::App& app, const std::string& name, T& value,
                    std::map<std::string, T> words, const std::string& help) {
  std::vector<std::string> known;
  for (const auto& [word, meaning] : words) known.push_back(word);
  return app
      .add_option_function<std::string>(
          name, [&value, words](const std::string& word) { value = words.at(word); }, help)
      ->check(CLI::IsMember(known));
}

}  // namespace

Result<Options, Leave> parse_options(int argc, const char* const* argv) {
  Options o;
  CLI::App app{"The screens of a glue-up shop: a bench, its board, or the wall."};
  app.name("squeezeout-bench");

  std::string server = "127.0.0.1:7733", size, dump;
  app.add_option("--server", server, "HOST:PORT of the server (default 127.0.0.1:7733)")
      ->envname("SQUEEZEOUT_SERVER");
  app.add_option("--bench", o.who.bench, "this device's bench: its key, name or number");
  app.add_option("--builder", o.who.builder, "who stands here: key or name");
  bool wall = false, fullscreen = false;
  app.add_flag("--wall", wall,
               "the wall: no input, read at 5 m; covers the screen unless --size is given");
  std::map<std::string, Screen> screens;
  for (int i = 0; i < kScreens; ++i) {
    const auto screen = static_cast<Screen>(i);
    screens.emplace(to_string(screen), screen);
  }
  choice(app, "--screen", o.screen, screens, "the screen to begin with");
  look::Theme theme{};
  CLI::Option* theme_option = choice<look::Theme>(
      app, "--theme", theme, {{"dark", look::Theme::dark}, {"light", look::Theme::light}},
      "dark or light (default: as this device is set; dark at first)");
  choice<Lanes>(app, "--lanes", o.lanes,
                {{"gear", Lanes::gear}, {"bench", Lanes::bench}, {"builder", Lanes::builder}},
                "lanes of the board (default gear)");
  choice<int>(app, "--zoom", o.zoom,
              {{"30min", 0}, {"2h", 1}, {"8h", 2}, {"2days", 3}, {"1week", 4}},
              "width of the board (default 8h)");
  bool chain = false;
  app.add_flag("--chain", chain, "the critical chain on the board");
  choice<plan_ahead::Task>(
      app, "--plan", o.plan,
      {{"repair", plan_ahead::Task::repair}, {"replan", plan_ahead::Task::replan}},
      "what the plan screen works out (default replan)");
  app.add_option("--glue-up", o.glue_up,
                 "number of the glue-up on the card, or picked on the board");
  app.add_option("--recipe", o.recipe, "key of the recipe on the reserve screen");
  app.add_option("--glue", o.glue, "key of its glue");
  app.add_option("--size", size, "WIDTHxHEIGHT in pixels (default 1600x900)");
  app.add_option("--mm-per-px", o.mm_per_px, "calibration: millimetres a pixel of this screen")
      ->check(CLI::Range(0.05, 2.0));
  app.add_option("--text", o.text, "how large letters are, 1 to 2 (default: as this device is set)")
      ->check(CLI::Range(1.0, 2.0));
  choice<words::Language>(
      app, "--language", o.language,
      {{"english", words::Language::english}, {"pseudo", words::Language::pseudo}},
      "pseudo: a language that nobody speaks, 40 % longer, to see what has no room");
  app.add_flag("--fullscreen", fullscreen, "cover the screen");
  app.add_option("--shot", o.shot, "draw one PNG, with no display needed, and leave");
  app.add_option("--shots", o.shots, "draw every screen, both themes, two sizes, into this folder");
  CLI::Option* dump_option =
      app.add_option("--ui-dump", dump,
                     "write the widgets as JSON to this file (none: standard "
                     "output) and leave")
          ->expected(0, 1);
  app.add_option("--dump-every-change", o.dump_every_change,
                 "keep the widgets of what is drawn in this file");
  app.add_option("--settings", o.settings,
                 "this device's settings file (default: squeezeout/bench.conf in the person's "
                 "configuration folder)");
  app.add_option("--record", o.record, "append one JSON line a press to this file");
  app.add_option("--replay", o.replay,
                 "carry out the presses of this file, with no display needed, and leave");
  app.add_option("--replay-into", o.replay_into, "the folder of its pictures (default: this one)");
  app.footer(
      "Keys: Space or Enter is the Next key, Esc goes back, 1 to 8 choose a screen, J and K pick "
      "a bar on the board; the "
      "others stand on their buttons.\nExit codes: 0 done, 2 a mistake in the options, 3 no "
      "server within 10 s, 4 no window or picture.");
  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    return Unexpected(Leave{0, app.help()});
  } catch (const CLI::ParseError& e) {
    return Unexpected(Leave{2, std::string(e.what()) + "\nNext: squeezeout-bench --help\n"});
  }
  const auto address = parse_address(server);
  if (!address)
    return Unexpected(
        Leave{2, "\"" + server + "\" is no address. Next: say HOST:PORT, as in 127.0.0.1:7733.\n"});
  o.server = *address;
  if (theme_option->count() > 0) o.theme = theme;
  if (wall) o.screen = Screen::wall;
  if (wall && size.empty()) o.cover = Options::Cover::fullscreen;
  if (chain) o.chain = Chain::shown;
  if (fullscreen) o.cover = Options::Cover::fullscreen;
  if (dump_option->count() > 0) o.dump = dump;
  if (!size.empty()) {
    char x = 0, extra = 0;
    if (std::sscanf(size.c_str(), "%d%c%d%c", &o.width, &x, &o.height, &extra) != 3 || x != 'x' ||
        o.width < 640 || o.height < 400 || o.width > 8192 || o.height > 8192)
      return Unexpected(Leave{2, "\"" + size +
                                     "\" is no size. Next: say WIDTHxHEIGHT, from 640x400 to "
                                     "8192x8192, as in 1920x1080.\n"});
  }
  return o;
}

}  // namespace squeezeout

// Completion for bash. The script is made from the arguments as they are; names of the shop are asked of the server.

#include <fmt/format.h>

#include "common/trade/material.h"
#include "tools/cli/verbs.h"

namespace squeezeout::cli {
namespace {

template <class Things>
std::string keys(const Things& things) {
  std::string out;
  for (const auto& t : things) out += fmt::format("{}\n", t.key);
  return out;
}

void say_names(Tool& tool, const std::string& of) {
  const Shop& shop = tool.session().shop();
  std::string out;
  if (of == "recipe") out = keys(shop.recipes);
  if (of == "build") out = keys(shop.builds);
  if (of == "builder") out = keys(shop.builders);
  if (of == "bench") out = keys(shop.benches);
  if (of == "glue") out = keys(shop.sheets);
  if (of == "kind") out = keys(shop.gear);
  if (of == "wood") out = keys(materials());
  if (of == "lot")
    for (const auto& [id, lot] : tool.session().floor().lots)
      if (!lot.used_up) out += fmt::format("{}\n", id.value);
  if (of == "glue-up")
    for (const auto& [id, g] : tool.session().floor().glue_ups)
      if (live(g)) out += fmt::format("{}\n", id.value);
  tool.print(out, {{"names", out}});
}

// "--json --at ..." and the verbs below.
std::string words_of(const CLI::App& app) {
  std::string out;
  for (const CLI::App* sub : app.get_subcommands({})) out += sub->get_name() + " ";
  for (const CLI::Option* o : app.get_options({}))
    for (const std::string& name : o->get_lnames()) out += "--" + name + " ";
  return out;
}

// What the first plain argument of the verb names: "recipe", "kind", "glue-up", or a file.
std::string argument_of(const CLI::App& app) {
  for (const CLI::Option* o : app.get_options({}))
    if (o->get_positional()) return o->get_name();
  return "";
}

void add_case(std::string& to, const std::string& path, const CLI::App& app) {
  to +=
      fmt::format("    '{}') words='{}' argument='{}' ;;\n", path, words_of(app), argument_of(app));
  for (const CLI::App* sub : app.get_subcommands({}))
    add_case(to, path.empty() ? sub->get_name() : path + " " + sub->get_name(), *sub);
}

std::string bash_script(const CLI::App& app) {
  std::string cases;
  add_case(cases, "", app);
  return R"bash(# Completion of squeezeout for bash. Use: source <(squeezeout completion bash)
_squeezeout() {
  local current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}
  local path='' words='' argument='' i word server=()
  for ((i = 1; i < COMP_CWORD; i++)); do
    word=${COMP_WORDS[i]}
    if [[ $word == --server ]]; then  # bash parts HOST:PORT at the colon
      server=(--server "${COMP_WORDS[i + 1]}")
      i=$((i + 1))
      [[ ${COMP_WORDS[i + 1]} == : ]] && server[1]+=":${COMP_WORDS[i + 2]}" && i=$((i + 2))
    elif [[ $word == --wait ]]; then
      i=$((i + 1))
    elif [[ $word == [a-z]* ]]; then
      case $path in
        '') path=$word ;;
        climate | completion | gear | lot) path+=" $word" ;;
      esac
    fi
  done
  case "$path" in
)bash" + cases +
         R"bash(  esac
  names() { "${COMP_WORDS[0]}" "${server[@]}" --wait 1 completion names "$1" 2>/dev/null; }
  case "$before" in
    --build | --builder | --bench | --glue | --lot) words=$(names "${before#--}") ;;
    --wood-a | --wood-b) words=$(names wood) ;;
    --by) [[ $path == board ]] && words='gear bench builder' ;;
    --more) words=$(names kind) ;;
    --away) words=$(names builder) ;;
    --open-on) words='monday tuesday wednesday thursday friday saturday sunday' ;;
    --date) words='today yesterday tomorrow' ;;
    --table) words='glue-ups gear' ;;
    *)
      if [[ $argument == file && $current != -* ]]; then
        mapfile -t COMPREPLY < <(compgen -f -- "$current")
        return
      fi
      [[ $argument && $current != -* ]] && words+=" $(names "$argument")"
      ;;
  esac
  mapfile -t COMPREPLY < <(compgen -W "$words" -- "$current")
}
complete -F _squeezeout squeezeout
)bash";
}

}  // namespace

void add_completion_verb(CLI::App& app, Tool& tool) {
  CLI::App& completion = add_verb(app, tool, "completion", "Completion for a shell",
                                  "source <(squeezeout completion bash)", [](Tool&) {});
  completion.require_subcommand(1);
  add_verb(completion, tool, "bash", "Write the script for bash",
           "source <(squeezeout completion bash)", [&app](Tool& t) {
             const std::string script = bash_script(app);
             t.print(script, {{"script", script}});
           });
  const auto of = std::make_shared<std::string>();
  add_verb(completion, tool, "names", "Names of the shop, one a line",
           "squeezeout completion names recipe", [of](Tool& t) { say_names(t, *of); })
      .add_option("of", *of, "recipe, build, builder, bench, glue, lot, wood, kind or glue-up")
      ->required()
      ->check(CLI::IsMember(
          {"recipe", "build", "builder", "bench", "glue", "lot", "wood", "kind", "glue-up"}));
}

}  // namespace squeezeout::cli

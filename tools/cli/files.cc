#include "tools/cli/files.h"

#include <fmt/format.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <sstream>

#include "tools/cli/stop.h"

namespace squeezeout::cli {

std::string read_file(const std::string& file) {
  errno = 0;
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  if (in.peek() != std::ifstream::traits_type::eof()) text << in.rdbuf();
  if (!in.is_open() || in.bad() || errno != 0)
    wrong_use(fmt::format("{} cannot be read.", file), std::string(std::strerror(errno)) + ".",
              "Look at its name and its rights.");
  return text.str();
}

void stop_for(const std::vector<FileMistake>& mistakes) {
  std::string all;
  nlohmann::ordered_json list = nlohmann::ordered_json::array();
  for (const FileMistake& m : mistakes) {
    all += "\n" + to_text(m);
    list.push_back({{"file", m.file},
                    {"line", m.line},
                    {"column", m.column},
                    {"field", m.field},
                    {"what", m.what},
                    {"mend", m.mend}});
  }
  const std::string count = words::number(static_cast<int>(mistakes.size()), "mistake");
  throw Stop{Exit::wrong_use,
             {"Nothing was loaded: " + count + ".", all + "\n", "Mend the file and try again."},
             {{"kind", "bad_file"}, {"mistakes", list}}};
}

}  // namespace squeezeout::cli

#include <cstdio>

#include "client/app.h"

int main(int argc, char** argv) {
  const auto options = squeezeout::parse_options(argc, argv);
  if (!options) {
    std::fputs(options.error().text.c_str(), options.error().code == 0 ? stdout : stderr);
    return options.error().code;
  }
  return squeezeout::run(*options);
}

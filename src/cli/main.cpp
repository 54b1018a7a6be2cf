#include "cli/arguments.h"
#include "cli/commands.h"

#include <cstdio>
#include <string>

using namespace pritchel;

namespace {

int exit_code(Trouble trouble) {
  return trouble == Trouble::outside ? 1 : 2;
}

} // namespace

int main(int count, char** words) {
  const auto parsed = cli::parse(count, words);
  if (const int* code = std::get_if<int>(&parsed))
    return *code;
  const auto& line = std::get<cli::CommandLine>(parsed);
  const auto places = cli::places(line.templates);
  const auto done = std::visit([&](const auto& arguments) { return cli::run(arguments, places); },
                               line.arguments);
  if (done)
    return 0;
  std::fprintf(stderr, "pritchel: %s\n", done.error().sentence().c_str());
  return exit_code(done.error().trouble);
}

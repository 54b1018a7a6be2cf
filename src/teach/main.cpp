/// pritchel-teach: draws films of digital feet, learns the model of a foot from them, and judges
/// the suggestions on films that it wasn't taught.
#include <CLI/CLI.hpp>

#include <fstream>
#include <iostream>
#include <map>

#include "teach/cache.h"
#include "teach/judge.h"
#include "teach/learn.h"

namespace {

using pritchel::phantom::View;
using pritchel::teach::Kind;

struct Wish {
  std::string folder;
  View view = View::lateromedial;
  Kind kind = Kind::taught;
  std::uint64_t first = 0;
  std::uint64_t count = 1;
  std::string out;
};

int draw_films(const Wish& wish) {
  for (auto n = wish.first; n < wish.first + wish.count; ++n)
    pritchel::teach::kept_film(wish.folder, wish.kind, wish.view, n);
  return 0;
}

int learn(const Wish& wish) {
  const auto model = pritchel::teach::learned_model(
      {.view = wish.view, .count = wish.count, .film = [&](std::uint64_t number) {
         return pritchel::teach::kept_film(wish.folder, Kind::taught, wish.view, number);
       }});
  const auto bytes = pritchel::suggest::written(model);
  std::ofstream file(wish.out, std::ios::binary);
  file.write(reinterpret_cast<const char*>(bytes.data()), // NOLINT: bytes
             static_cast<std::streamsize>(bytes.size()));
  return file.flush() ? 0 : 2;
}

int judge(const Wish& wish) {
  const auto verdict =
      pritchel::teach::judged(wish.view, wish.first, wish.count, [&](std::uint64_t number) {
        return pritchel::teach::kept_film(wish.folder, wish.kind, wish.view, number);
      });
  std::cout << pritchel::teach::table(verdict);
  std::cerr << "a film takes " << verdict.mean_s << " s, at most " << verdict.longest_s << " s\n";
  return 0;
}

template <class T> CLI::CheckedTransformer words(std::map<std::string, T> of) {
  return CLI::CheckedTransformer(std::move(of));
}

void add_common(CLI::App& command, Wish& wish) {
  command.add_option("--films", wish.folder, "folder that keeps the films")->required();
  command.add_option("--view", wish.view, "lm or dp")
      ->transform(words<View>({{"lm", View::lateromedial}, {"dp", View::dorsopalmar}}));
  command.add_option("--kind", wish.kind, "taught or unseen")
      ->transform(words<Kind>({{"taught", Kind::taught}, {"unseen", Kind::unseen}}));
  command.add_option("--first", wish.first, "number of the first film");
  command.add_option("--count", wish.count, "how many films");
}

} // namespace

int main(int argc, char** argv) {
  CLI::App app{"Teaches and judges the suggestions on digital feet"};
  app.require_subcommand(1);
  Wish wish;
  CLI::App& films = *app.add_subcommand("films", "draw films into the folder");
  add_common(films, wish);
  CLI::App& learning = *app.add_subcommand("learn", "learn a model from the first films taught");
  add_common(learning, wish);
  learning.add_option("--out", wish.out, "the model's file")->required();
  CLI::App& judging = *app.add_subcommand("judge", "a table of how the suggestions do on films");
  add_common(judging, wish);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    return app.exit(e) == 0 ? 0 : 2;
  }
  if (films.parsed())
    return draw_films(wish);
  return learning.parsed() ? learn(wish) : judge(wish);
}

#include "base/digest.h"
#include "record/store.h"

#include <catch2/catch.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <random>
#include <thread>

#include "folder.h"
#include "samples.h"

using namespace pritchel;
using namespace pritchel::record;

namespace {

constexpr int rounds = 25;
constexpr unsigned seed = 20260302;
const Stamp stamp{.who = "Ada", .when = "2026-03-02T10:00:00Z"};

std::string picture_number(int number) {
  return std::string(50'000, static_cast<char>('a' + number % 26)) + std::to_string(number);
}

/// Saves readings and pictures until it is killed; writes each acknowledged revision to the pipe.
[[noreturn]] void save_for_ever(const std::filesystem::path& folder, int acknowledge) {
  auto store = open_store(folder, Opening::existing);
  if (!store)
    ::_exit(3);
  const auto digest = test::sample_picture().digest;
  auto reading = (*store)->reading_by("old-tom", digest, "Ada");
  if (!reading)
    ::_exit(4);
  while (true) {
    reading->landmarks = {{.id = "p3-tip", .at = {static_cast<double>(reading->revision + 1), 7}}};
    const auto picture = picture_number(reading->revision + 1);
    const auto kept = (*store)->add_picture({picture.data(), picture.size()});
    reading = (*store)->save_reading("old-tom", *reading, stamp);
    if (!kept || !reading)
      ::_exit(5);
    static_cast<void>(::write(acknowledge, &reading->revision, sizeof reading->revision));
  }
}

/// Lets a child save for a while, kills it, and returns the last revision it acknowledged.
int killed_after(const std::filesystem::path& folder, std::chrono::microseconds time) {
  int ends[2] = {};
  REQUIRE(::pipe(ends) == 0);
  const pid_t child = ::fork();
  if (child == 0) {
    ::close(ends[0]);
    save_for_ever(folder, ends[1]);
  }
  ::close(ends[1]);
  std::this_thread::sleep_for(time);
  ::kill(child, SIGKILL);
  int status = 0;
  ::waitpid(child, &status, 0);
  REQUIRE(WIFSIGNALED(status)); // it must have died of the kill, not of an error of its own
  int last = 0;
  for (int revision = 0; ::read(ends[0], &revision, sizeof revision) == sizeof revision;)
    last = revision;
  ::close(ends[0]);
  return last;
}

} // namespace

TEST_CASE("killed in the middle of saves, the store keeps every acknowledged one",
          "[record][store]") {
  const test::Folder folder;
  {
    auto store = open_store(folder.path(), Opening::create);
    REQUIRE(store);
    REQUIRE((*store)->add_case(test::sample_case(), stamp));
  }
  std::mt19937 random(seed);
  std::uniform_int_distribution<int> microseconds(2'000, 120'000);
  const auto digest = test::sample_picture().digest;
  int acknowledged = 0;
  for (int round = 0; round < rounds; ++round) {
    const std::chrono::microseconds time(microseconds(random));
    INFO("seed " << seed << ", round " << round << ", " << time.count() << " us");
    acknowledged = std::max(acknowledged, killed_after(folder.path(), time));
    auto store = open_store(folder.path(), Opening::existing);
    REQUIRE(store);
    const auto all = (*store)->revisions_of("old-tom", digest, "Ada");
    REQUIRE(all);
    const int found = static_cast<int>(all->size());
    REQUIRE(found >= acknowledged);
    REQUIRE(found <= acknowledged + 1); // the one that was being saved may have made it
    for (int i = 0; i < found; ++i) {
      REQUIRE(all->at(static_cast<std::size_t>(i)).revision == i + 1);
      REQUIRE(all->at(static_cast<std::size_t>(i)).landmarks.at(0).at.x == i + 1);
    }
    const auto picture = picture_number(found);
    if (found > 0)
      REQUIRE((*store)->picture_bytes(sha256_hex({picture.data(), picture.size()})));
    acknowledged = found;
  }
  REQUIRE(acknowledged > 20); // the test must have caught it at work
}

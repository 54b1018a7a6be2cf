/// Waiting for what somebody else saves.
#include "record/store.h"
#include "serve/answer.h"

#include <algorithm>
#include <chrono>
#include <future>
#include <memory>
#include <vector>

#include "running.h"

using namespace pritchel::serve::test;
using Clock = std::chrono::steady_clock;
using std::chrono::milliseconds;

namespace {

/// Well before the 20 s after which a wait ends by itself: it was the save that ended it. How fast
/// is measured elsewhere, not tested by a clock.
constexpr milliseconds soon(10'000);

json waited_for(int port, const std::string& path) {
  httplib::Client client("127.0.0.1", port);
  client.set_read_timeout(60);
  const auto answer = client.Get(path);
  return answer && answer->status == 200 ? json::parse(answer->body) : json();
}

/// Somebody who waits on another thread.
struct Waiting {
  std::future<json> answer;

  Waiting(const Running& running, const std::string& path)
      : answer(std::async(std::launch::async, waited_for, running.port(), path)) {}
  bool is_answered_within(milliseconds time) {
    return answer.wait_for(time) == std::future_status::ready;
  }
};

/// Many who wait at once.
class Crowd {
public:
  Crowd(const Running& running, const std::string& path, int many) {
    for (int i = 0; i < many; ++i)
      crowd_.push_back(std::make_unique<Waiting>(running, path));
  }
  [[nodiscard]] std::ptrdiff_t still_waiting_after(milliseconds time) {
    const auto until = Clock::now() + time;
    return std::count_if(crowd_.begin(), crowd_.end(), [&](const auto& each) {
      return each->answer.wait_until(until) != std::future_status::ready;
    });
  }

private:
  std::vector<std::unique_ptr<Waiting>> crowd_;
};

struct Watched {
  Running& running;
  Prepared job;
  std::string changes;

  explicit Watched(Running& with)
      : running(with),
        job(with),
        changes(job.case_path + "/changes") {}
  std::int64_t number(const std::string& reader = {}) {
    return running.get(changes + "?since=0&reader=" + reader).at("change");
  }
  std::string since_now(const std::string& reader = {}) {
    return changes + "?since=" + std::to_string(number(reader)) + "&reader=" + reader;
  }
  void save(const std::string& reader, const json& landmarks) {
    const auto path = job.case_path + "/readings/" + job.digest + "?reader=" + reader;
    const auto revision = running.get(path).at("reading").at("revision");
    running.put(path, {{"revision", revision}, {"landmarks", landmarks}});
  }
};

} // namespace

TEST_CASE("whoever waits hears of a save at once, and not before there is one",
          "[serve][changes]") {
  Running running;
  Watched watched(running);
  const auto before = watched.number();
  Waiting waiting(running, watched.since_now());
  CHECK_FALSE(waiting.is_answered_within(milliseconds(300)));
  watched.save("Ada", side_landmarks());
  REQUIRE(waiting.is_answered_within(soon));
  CHECK(waiting.answer.get().at("change") == before + 1);
  CHECK(watched.number() == before + 1);
}

TEST_CASE("a save by another process is heard of too", "[serve][changes]") {
  Running running;
  Watched watched(running);
  Waiting waiting(running, watched.since_now());
  const auto other =
      pritchel::record::open_store(running.folder() / "store", pritchel::record::Opening::existing);
  REQUIRE(other);
  const auto id = watched.job.case_path.substr(std::string("/api/cases/").size());
  CHECK_FALSE(waiting.is_answered_within(milliseconds(200)));
  REQUIRE((*other)->change_case(
      id,
      "changed the yard",
      [](pritchel::record::Case value) -> pritchel::Result<pritchel::record::Case> {
        value.yard = "Lower Mill";
        return value;
      },
      {.who = "Fred", .when = "2026-03-02T10:00:00Z"}));
  CHECK(waiting.is_answered_within(soon));
}

TEST_CASE("the saves of a blind reading wake nobody but its reader", "[serve][changes][blind]") {
  Running running;
  Watched watched(running);
  const auto readings = watched.job.case_path + "/readings/" + watched.job.digest;
  running.post(readings + "/turn?reader=Ada", {{"sight", "blind"}});
  const auto number = watched.number("Ben");
  Waiting others(running, watched.since_now("Ben"));
  Waiting hers(running, watched.since_now("Ada"));
  watched.save("Ada", side_landmarks());
  CHECK(hers.is_answered_within(soon));
  CHECK_FALSE(others.is_answered_within(milliseconds(300)));
  CHECK(watched.number("Ben") == number);
  CHECK(watched.number() == number);
  // Truth: he may know that she is done, and so is told; not how often she saved.
  running.post(readings + "/done?reader=Ada", json::object());
  REQUIRE(others.is_answered_within(soon));
  CHECK(others.answer.get().at("change") == number + 1);
}

TEST_CASE("those who wait hold nobody else up, be they ever so many", "[serve][changes]") {
  Running running;
  Watched watched(running);
  Crowd crowd(running, watched.since_now(), GENERATE(40, 150));
  CHECK(crowd.still_waiting_after(milliseconds(500)) > 0);
  const auto begun = Clock::now();
  for (int i = 0; i < 20; ++i)
    running.get(watched.job.case_path);
  CHECK(Clock::now() - begun < soon);
  watched.save("Ada", side_landmarks());
  CHECK(crowd.still_waiting_after(soon) == 0);
}

TEST_CASE("who finds no place left to wait in is answered at once, and finds one later",
          "[serve][changes]") {
  Running running;
  Watched watched(running);
  const int threads = pritchel::serve::request_threads;
  Crowd crowd(running, watched.since_now(), threads);
  const auto waiting = crowd.still_waiting_after(milliseconds(1000));
  CHECK(waiting > threads / 2);
  CHECK(waiting < threads);
  watched.save("Ada", side_landmarks());
  CHECK(crowd.still_waiting_after(soon) == 0);
  Waiting later(running, watched.since_now());
  CHECK_FALSE(later.is_answered_within(milliseconds(300)));
}

TEST_CASE("who went away keeps no place", "[serve][changes]") {
  Running running;
  Watched watched(running);
  const auto path = watched.since_now();
  // More than the program has threads: were they kept for twenty seconds each, the rest would wait.
  for (int i = 0; i < 150; ++i) {
    httplib::Client client("127.0.0.1", running.port());
    client.set_read_timeout(0, 20'000);
    static_cast<void>(client.Get(path));
  }
  const auto begun = Clock::now();
  running.get(watched.job.case_path);
  CHECK(Clock::now() - begun < soon);
}

TEST_CASE("the program ends promptly while somebody waits, and goes on counting after it",
          "[serve][changes]") {
  Running running;
  Watched watched(running);
  const auto number = watched.number();
  Waiting waiting(running, watched.since_now());
  CHECK_FALSE(waiting.is_answered_within(milliseconds(200)));
  const auto begun = Clock::now();
  running.restart();
  CHECK(Clock::now() - begun < soon); // a wait is held for twenty seconds
  CHECK(waiting.is_answered_within(soon));
  CHECK(watched.number() == number);
}

TEST_CASE("a wait that makes no sense is refused with one sentence", "[serve][changes]") {
  Running running;
  Watched watched(running);
  for (const std::string since : {"soon", "-1", "1e3", "99999999999999999999"})
    running.get(watched.changes + "?since=" + since, 400);
  running.get("/api/cases/nobody/changes?since=0", 404);
  // Truth: a number that was never reached is not this store's; the answer is the one that is.
  CHECK(running.get(watched.changes + "?since=100000").at("change") == watched.number());
}

TEST_CASE("two people who fill in different fields of a case don't undo each other",
          "[serve][changes]") {
  Running running;
  Watched watched(running);
  running.put(watched.job.case_path, {{"horse", {{"weight_kg", 540}}}});
  running.put(watched.job.case_path, {{"history", {{"complaint", "Short on the left fore"}}}});
  const auto kept = running.put(watched.job.case_path, {{"horse", {{"age_years", 9}}}});
  CHECK(kept.at("horse").at("weight_kg") == 540);
  CHECK(kept.at("horse").at("name") == "Old Tom");
  CHECK(kept.at("history").at("complaint") == "Short on the left fore");
  const auto unknown = running.put(watched.job.case_path, {{"horse", {{"weight_kg", nullptr}}}});
  CHECK(unknown.at("horse").at("weight_kg").is_null());
}

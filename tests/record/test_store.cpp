#include "base/digest.h"
#include "record/json.h"
#include "record/store.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <unistd.h>

#include <thread>

#include "stores.h"

using namespace pritchel;
using namespace pritchel::record;

namespace {

using test::now, test::opened, test::tamper, test::with_case;
const SignOff sign_off{.name = "Vera", .registration = "V-0000", .date = "2026-03-03"};

Plan decided_plan() {
  auto plan = test::sample_plan();
  plan.sign_off.reset();
  plan.lines.front().decision = Decision::accept;
  return plan;
}

/// Root may write everywhere; while this lives we are somebody who may not.
class AsNobody {
public:
  AsNobody()
      : was_(::geteuid()) {
    if (was_ == 0)
      REQUIRE(::seteuid(nobody) == 0);
  }
  AsNobody(const AsNobody&) = delete;
  AsNobody& operator=(const AsNobody&) = delete;
  ~AsNobody() { static_cast<void>(::seteuid(was_)); }

private:
  static constexpr uid_t nobody = 65534;
  uid_t was_;
};

std::span<const char> bytes_of(const std::string& text) {
  return {text.data(), text.size()};
}

} // namespace

TEST_CASE("a kept case is the case after reopening", "[record][store]") {
  const test::Folder folder;
  with_case(folder).reset();
  const auto store = opened(folder);
  const auto loaded = store->load_case("old-tom");
  REQUIRE(loaded);
  CHECK(to_json(*loaded) == to_json(test::sample_case()));
  const auto lines = store->list_cases();
  REQUIRE(lines);
  REQUIRE(lines->size() == 1);
  CHECK(lines->front().newest_visit == "2026-03-02");
  CHECK(lines->front().yard == "Lower Example Farm");
}

TEST_CASE("new cases get ids of their own from the horse's name", "[record][store]") {
  const test::Folder folder;
  const auto store = opened(folder);
  const auto id = [&](const std::string& name) {
    Case value;
    value.horse.name = name;
    return store->add_case(value, now)->id;
  };
  CHECK(id("Old Tom!") == "old-tom");
  CHECK(id("Old  Tom") == "old-tom-2");
  CHECK(id("\u00c9toile") == "toile");
  CHECK(id("../../etc") == "etc");
  CHECK(id("") == "case");
  CHECK(id(std::string(500, 'x')).size() == 40);
  const auto again = store->add_case(test::sample_case(), now);
  REQUIRE_FALSE(again);
  CHECK(again.error().trouble == Trouble::conflict);
}

TEST_CASE("a failed change leaves the case as it was", "[record][store]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  const auto failed = store->change_case(
      "old-tom",
      "tried",
      [](Case value) -> Result<Case> {
        value.yard = "elsewhere";
        return fail("It", "went wrong");
      },
      now);
  CHECK_FALSE(failed);
  CHECK(store->load_case("old-tom")->yard == "Lower Example Farm");
  const auto unknown = store->load_case("nobody");
  REQUIRE_FALSE(unknown);
  CHECK(unknown.error().trouble == Trouble::not_found);
}

TEST_CASE("a save that has not seen the newest revision is a conflict and changes nothing",
          "[record][store]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  auto reading = test::sample_reading();
  reading.revision = 0;
  const auto first = store->save_reading("old-tom", reading, now);
  REQUIRE(first);
  CHECK(first->revision == 1);
  CHECK(first->saved == now.when);
  reading.landmarks.clear();
  const auto late = store->save_reading("old-tom", reading, now);
  REQUIRE_FALSE(late);
  CHECK(late.error().trouble == Trouble::conflict);
  CHECK(store->reading_by("old-tom", reading.picture, "Ada")->landmarks.size() == 2);
  reading.revision = 1;
  REQUIRE(store->save_reading("old-tom", reading, now)->revision == 2);
  const auto all = store->revisions_of("old-tom", reading.picture, "Ada");
  REQUIRE(all->size() == 2);
  CHECK(all->at(0).landmarks.size() == 2);
  CHECK(all->at(1).landmarks.empty());
}

TEST_CASE("two readers do not disturb each other", "[record][store]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  auto reading = test::sample_reading();
  reading.revision = 0;
  REQUIRE(store->save_reading("old-tom", reading, now));
  reading.reader = "Ben";
  REQUIRE(store->save_reading("old-tom", reading, {.who = "Ben", .when = "2026-03-02T11:00:00Z"}));
  const auto both = store->readings_of("old-tom", reading.picture);
  REQUIRE(both->size() == 2);
  CHECK(both->at(0).reader == "Ben");
  CHECK(both->at(1).reader == "Ada");
  CHECK(store->reading_by("old-tom", reading.picture, "Cora")->revision == 0);
  CHECK_FALSE(store->save_reading("nobody", reading, now));
}

TEST_CASE("saves from many threads all count", "[record][store]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  std::vector<std::thread> threads;
  for (int t = 0; t < 4; ++t)
    threads.emplace_back([&] {
      for (int i = 0; i < 10; ++i)
        static_cast<void>(store->change_case(
            "old-tom",
            "counted",
            [](Case value) -> Result<Case> {
              value.horse.age_years = *value.horse.age_years + 1;
              return value;
            },
            now));
    });
  for (auto& each : threads)
    each.join();
  CHECK(store->load_case("old-tom")->horse.age_years == 54.5);
}

TEST_CASE("a signed plan is frozen and a later change is a new version", "[record][store]") {
  const test::Folder folder;
  auto store = with_case(folder);
  const auto made = store->add_plan("old-tom", decided_plan(), now);
  REQUIRE(made);
  CHECK(made->version == 1);
  const auto signed_plan = store->sign_plan("old-tom", "visit-1", {1, 1}, sign_off, now);
  REQUIRE(signed_plan);
  auto later = *signed_plan;
  later.lines.front().note = "something else";
  const auto refused = store->save_plan("old-tom", later, now);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().trouble == Trouble::conflict);
  const auto twice = store->sign_plan("old-tom", "visit-1", {1, 1}, sign_off, now);
  REQUIRE_FALSE(twice);
  CHECK(twice.error().trouble == Trouble::conflict);
  const auto next = store->add_plan("old-tom", later, now);
  REQUIRE(next);
  CHECK(next->version == 2);
  CHECK_FALSE(next->sign_off);
  store.reset();
  const auto plans = opened(folder)->plans_of("old-tom", "visit-1");
  REQUIRE(plans->size() == 2);
  CHECK(plans->at(0).sign_off->name == "Vera");
  CHECK(plans->at(0).lines.front().note == decided_plan().lines.front().note);
}

TEST_CASE("an undecided plan and an incomplete sign-off cannot be signed", "[record][store]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  auto plan = decided_plan();
  plan.lines.front().decision = Decision::open;
  REQUIRE(store->add_plan("old-tom", plan, now));
  CHECK_FALSE(store->sign_plan("old-tom", "visit-1", {1, 1}, sign_off, now));
  plan.version = 1;
  plan.revision = 1;
  plan.lines.front() = {.decision = Decision::amend};
  REQUIRE(store->save_plan("old-tom", plan, now));
  CHECK_FALSE(store->sign_plan("old-tom", "visit-1", {1, 2}, sign_off, now));
  plan.revision = 2;
  plan.lines.front().note = "less";
  REQUIRE(store->save_plan("old-tom", plan, now));
  CHECK_FALSE(store->sign_plan("old-tom", "visit-1", {1, 3}, {.name = "Vera"}, now));
  CHECK_FALSE(store->plans_of("old-tom", "visit-1")->front().sign_off);
  CHECK(store->sign_plan("old-tom", "visit-1", {1, 3}, sign_off, now));
  CHECK_FALSE(store->sign_plan("old-tom", "visit-1", {9, 1}, sign_off, now));
}

TEST_CASE("nobody changes a signed plan behind the store's back unnoticed", "[record][store]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  REQUIRE(store->add_plan("old-tom", decided_plan(), now));
  REQUIRE(store->sign_plan("old-tom", "visit-1", {1, 1}, sign_off, now));
  CHECK_FALSE(tamper(folder, "UPDATE plans SET document = '{}'"));
  CHECK_FALSE(tamper(folder, "DELETE FROM plans"));
  CHECK_FALSE(tamper(folder, "DELETE FROM audit"));
  REQUIRE(tamper(folder,
                 "DROP TRIGGER plan_frozen; UPDATE plans SET document = replace(document, '4 mm', "
                 "'9 mm')"));
  const auto plans = store->plans_of("old-tom", "visit-1");
  REQUIRE_FALSE(plans);
  CHECK(plans.error().sentence().find("changed after it was signed") != std::string::npos);
}

TEST_CASE("every change leaves a line in the audit trail", "[record][store]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  auto reading = test::sample_reading();
  reading.revision = 0;
  REQUIRE(store->save_reading("old-tom", reading, {.who = "Ada", .when = "2026-03-02T12:00:00Z"}));
  const auto trail = store->audit_of("old-tom");
  REQUIRE(trail->size() == 2);
  CHECK(trail->at(0).who == "Fred");
  CHECK(trail->at(1).who == "Ada");
  CHECK(trail->at(1).when == "2026-03-02T12:00:00Z");
  CHECK(trail->at(1).what.find("revision 1") != std::string::npos);
}

// Truth: FIPS 180-2, appendix B.1, SHA-256 of "abc"
TEST_CASE("a picture is kept under its SHA-256, once, as it came", "[record][store]") {
  const test::Folder folder;
  const auto store = opened(folder);
  const std::string abc = "abc";
  const auto digest = store->add_picture(bytes_of(abc));
  REQUIRE(digest);
  CHECK(*digest == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(*store->add_picture(bytes_of(abc)) == *digest);
  const auto bytes = store->picture_bytes(*digest);
  REQUIRE(bytes);
  CHECK(std::string(bytes->begin(), bytes->end()) == abc);
  const std::filesystem::directory_iterator files(folder.path() / "pictures");
  CHECK(std::distance(begin(files), end(files)) == 1);
}

TEST_CASE("a damaged picture is refused and mended by the original", "[record][store]") {
  const test::Folder folder;
  const auto store = opened(folder);
  const std::string abc = "abc";
  const auto digest = *store->add_picture(bytes_of(abc));
  std::ofstream(folder.path() / "pictures" / digest) << "abd";
  const auto damaged = store->picture_bytes(digest);
  REQUIRE_FALSE(damaged);
  CHECK(damaged.error().trouble == Trouble::outside);
  REQUIRE(store->add_picture(bytes_of(abc)));
  CHECK(store->picture_bytes(digest));
}

TEST_CASE("only digests name pictures", "[record][store]") {
  const test::Folder folder;
  const auto store = opened(folder);
  for (const auto* name : {"../pritchel.sqlite", "", "/etc/passwd", "abc"}) {
    const auto bytes = store->picture_bytes(name);
    REQUIRE_FALSE(bytes);
    CHECK(bytes.error().trouble == Trouble::not_found);
  }
}

TEST_CASE("a missing, foreign, newer, damaged or locked-up store gives one sentence",
          "[record][store]") {
  const test::Folder folder;
  const auto sentence = [](const std::filesystem::path& path, Opening opening) {
    const auto store = open_store(path, opening);
    return store ? std::string("opened") : store.error().sentence();
  };
  CHECK(sentence(folder.path() / "none", Opening::existing).find("holds no case store") !=
        std::string::npos);
  CHECK(sentence(folder.write("file", ""), Opening::create).find("cannot be made") !=
        std::string::npos);

  const test::Folder foreign;
  REQUIRE(tamper(foreign, "CREATE TABLE other (x)"));
  CHECK(sentence(foreign.path(), Opening::create).find("belongs to another program") !=
        std::string::npos);

  const test::Folder newer;
  opened(newer).reset();
  REQUIRE(tamper(newer, "PRAGMA user_version = 999"));
  CHECK(sentence(newer.path(), Opening::existing).find("newer than this program knows") !=
        std::string::npos);

  const test::Folder text;
  text.write("pritchel.sqlite", std::string(5000, 'x'));
  CHECK(sentence(text.path(), Opening::existing) ==
        "The case store is not a database; restore it from a copy.");

  const test::Folder torn;
  with_case(torn).reset();
  std::filesystem::resize_file(torn.path() / "pritchel.sqlite", 9000);
  CHECK(sentence(torn.path(), Opening::existing) ==
        "The case store is damaged; restore it from a copy.");
}

TEST_CASE("a folder that cannot be written gives one sentence", "[record][store]") {
  using std::filesystem::perms;
  constexpr auto read_only = perms::owner_read | perms::owner_exec | perms::group_read |
                             perms::group_exec | perms::others_read | perms::others_exec;
  const test::Folder empty;
  const test::Folder used;
  with_case(used).reset();
  std::filesystem::permissions(empty.path(), read_only);
  std::filesystem::permissions(used.path(), read_only);
  const AsNobody nobody;
  for (const auto* folder : {&empty, &used}) {
    const auto store = open_store(folder->path(), Opening::create);
    REQUIRE_FALSE(store);
    CHECK(store.error().trouble == Trouble::outside);
    INFO(store.error().sentence());
    CHECK_FALSE(store.error().way_out.empty());
  }
}

#include "record/json.h"
#include "serve/answer.h"
#include "serve/office.h"
#include "serve/routes/routes.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

#include <atomic>
#include <chrono>
#include <memory>
#include <utility>

namespace pritchel::serve {
namespace {

using httplib::Request;
using nlohmann::json;
using Clock = std::chrono::steady_clock;

/// Less than what browsers and whatever stands in between take for a dead connection.
constexpr auto longest_wait = std::chrono::seconds(20);

/// Each takes a thread of the server: the rest of them (answer.h) is for everything else.
constexpr int most_waiting = request_threads * 2 / 3;

using Waiting = std::atomic<int>;

/// One of those who wait, until it is let go.
class Place {
public:
  explicit Place(std::shared_ptr<Waiting> waiting)
      : waiting_(std::move(waiting)),
        nth_(++*waiting_) {}
  Place(const Place&) = delete;
  Place& operator=(const Place&) = delete;
  Place(Place&&) = delete;
  Place& operator=(Place&&) = delete;
  ~Place() { --*waiting_; }

  [[nodiscard]] bool is_free() const { return nth_ <= most_waiting; }

private:
  std::shared_ptr<Waiting> waiting_;
  int nth_;
};

Result<GiveLater>
wait_for_change(Office& office, const std::shared_ptr<Waiting>& waiting, const Request& request) {
  const auto id = part(request, 1);
  const auto reader = asked(request, "reader");
  PRITCHEL_TRY(since, record::change_from(asked(request, "since")));
  PRITCHEL_CHECK(office.store().change_of(id, reader));
  const auto place = std::make_shared<const Place>(waiting);
  const auto until = place->is_free() ? Clock::now() + longest_wait : Clock::now();
  return GiveLater([&office, id, reader, since, until, place]() -> Result<std::optional<json>> {
    PRITCHEL_TRY(change, office.store().change_of(id, reader));
    // Less than `since`: the store was put back from a copy, and everything may be another.
    if (change == since && Clock::now() < until)
      return std::optional<json>{};
    return std::optional<json>{{{"change", change}}};
  });
}

} // namespace

void add_change_routes(Routes& routes, Office& office) {
  routes.get_later(a_case + "/changes",
                   [&office, waiting = std::make_shared<Waiting>(0)](const Request& request) {
                     return wait_for_change(office, waiting, request);
                   });
}

} // namespace pritchel::serve

#include "serve/answer.h"

#include "record/json.h"
#include "serve/guard.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

#include <chrono>
#include <thread>
#include <utility>

namespace pritchel::serve {
namespace {

using httplib::Request;
using httplib::Response;

void answer_error(Response& response, const Error& error, int status) {
  response.status = status;
  response.set_content(error_body(error.sentence()), json_type);
}

void answer_json(const Guard& guard,
                 const GiveJson& give,
                 const Request& request,
                 Response& response) {
  if (const auto checked = guard.check(request); !checked)
    return answer_error(response, checked.error(), 403);
  const auto given = give(request);
  if (!given)
    return answer_error(response, given.error(), status_of(given.error().trouble));
  response.set_header("Cache-Control", "no-store");
  response.set_content(record::text_of(*given), json_type);
}

void add_headers(const Bytes& bytes, Response& response) {
  response.set_header("Cache-Control",
                      bytes.keeping == Keeping::for_ever ? "private, max-age=31536000, immutable"
                                                         : "no-cache");
  if (!bytes.file_name.empty())
    response.set_header("Content-Disposition", "inline; filename=\"" + bytes.file_name + "\"");
  if (!bytes.policy.empty())
    response.set_header("Content-Security-Policy", bytes.policy);
}

/// By a provider: the bytes are not copied, and not packed either (on loopback packing only costs).
void send(Bytes bytes, Response& response) {
  add_headers(bytes, response);
  const auto size = bytes.bytes.size();
  const auto type = bytes.type;
  if (size == 0)
    return response.set_content("", type);
  response.set_content_provider(
      size,
      type,
      [kept = std::move(bytes)](std::size_t offset, std::size_t length, httplib::DataSink& sink) {
        return sink.write(kept.bytes.data() + offset, length);
      });
}

void answer_bytes(const Guard& guard,
                  const GiveBytes& give,
                  const Request& request,
                  Response& response) {
  if (const auto checked = guard.check(request); !checked)
    return answer_error(response, checked.error(), 403);
  auto given = give(request);
  if (!given)
    return answer_error(response, given.error(), status_of(given.error().trouble));
  send(std::move(*given), response);
}

/// How long somebody waits, at the most, for what has happened; half of it on average.
constexpr auto look_again = std::chrono::milliseconds(40);

/// Called over and over by the library, which stops when the server does.
bool give_or_wait(const GiveLater& give, httplib::DataSink& sink) {
  if (!sink.is_writable())
    return false;
  const auto given = give();
  if (!given)
    return false;
  if (!*given) {
    std::this_thread::sleep_for(look_again);
    return true;
  }
  const auto text = record::text_of(**given);
  sink.write(text.data(), text.size());
  sink.done();
  return true;
}

void answer_later(const Guard& guard,
                  const BeginWaiting& begin,
                  const Request& request,
                  Response& response) {
  if (const auto checked = guard.check(request); !checked)
    return answer_error(response, checked.error(), 403);
  const auto begun = begin(request);
  if (!begun)
    return answer_error(response, begun.error(), status_of(begun.error().trouble));
  response.set_header("Cache-Control", "no-store");
  response.set_chunked_content_provider(
      json_type,
      [give = *begun](std::size_t, httplib::DataSink& sink) { return give_or_wait(give, sink); });
}

httplib::Server::Handler handler(const Guard& guard, GiveJson give) {
  return [&guard, give = std::move(give)](const Request& request, Response& response) {
    answer_json(guard, give, request, response);
  };
}

} // namespace

void Routes::get(const std::string& pattern, GiveJson give) {
  server_.Get(pattern, handler(guard_, std::move(give)));
}

void Routes::put(const std::string& pattern, GiveJson give) {
  server_.Put(pattern, handler(guard_, std::move(give)));
}

void Routes::post(const std::string& pattern, GiveJson give) {
  server_.Post(pattern, handler(guard_, std::move(give)));
}

void Routes::remove(const std::string& pattern, GiveJson give) {
  server_.Delete(pattern, handler(guard_, std::move(give)));
}

void Routes::get_bytes(const std::string& pattern, GiveBytes give) {
  server_.Get(
      pattern,
      [&guard = guard_, give = std::move(give)](const Request& request, Response& response) {
        answer_bytes(guard, give, request, response);
      });
}

void Routes::get_later(const std::string& pattern, BeginWaiting begin) {
  server_.Get(
      pattern,
      [&guard = guard_, begin = std::move(begin)](const Request& request, Response& response) {
        answer_later(guard, begin, request, response);
      });
}

std::string part(const Request& request, std::size_t n) {
  return request.matches[n].str();
}

std::string asked(const Request& request, const std::string& name) {
  return request.has_param(name) ? request.get_param_value(name) : std::string{};
}

Result<nlohmann::json> body_of(const Request& request) {
  return record::parse_json(request.body, "The request");
}

std::string error_body(const std::string& sentence) {
  return record::text_of({{"error", sentence}});
}

int status_of(Trouble trouble) {
  switch (trouble) {
  case Trouble::bad_input:
    return 400;
  case Trouble::not_found:
    return 404;
  case Trouble::conflict:
    return 409;
  case Trouble::too_large:
    return 413;
  case Trouble::outside:
    break;
  }
  return 500;
}

} // namespace pritchel::serve

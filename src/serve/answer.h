/// From a route's Result to an HTTP answer. Every route goes through here, so every request is
/// checked by the guard and every error is one sentence in JSON with its status.
#pragma once

#include "base/result.h"

#include <nlohmann/json_fwd.hpp>

#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>

namespace httplib {
class Server;
struct Request;
} // namespace httplib

namespace pritchel::serve {

class Guard;

/// How many requests are worked on at once. One is taken by each that waits for a change (one a
/// page) and by each connection that a browser holds open for a few seconds (up to six).
inline constexpr int request_threads = 96;

enum class Keeping {
  ask_again, ///< may change: no copy is used without asking
  for_ever   ///< named by its digest: never changes
};

/// Bytes to be sent, and what keeps them alive until they are.
struct Bytes {
  std::shared_ptr<const void> owner;
  std::span<const char> bytes;
  std::string type;
  Keeping keeping = Keeping::ask_again;
  std::string file_name = {}; ///< what a browser calls it when it saves it; may be empty
  std::string policy = {};    ///< Content Security Policy instead of the page's
};

using GiveJson = std::function<Result<nlohmann::json>(const httplib::Request&)>;
/// Asked again and again: nothing means not yet.
using GiveLater = std::function<Result<std::optional<nlohmann::json>>()>;
using BeginWaiting = std::function<Result<GiveLater>(const httplib::Request&)>;
using GiveBytes = std::function<Result<Bytes>(const httplib::Request&)>;

/// Adds routes to a server. Patterns are regular expressions for the whole path; parts in brackets
/// are read by part().
class Routes {
public:
  Routes(httplib::Server& server, const Guard& guard)
      : server_(server),
        guard_(guard) {}

  void get(const std::string& pattern, GiveJson give);
  void put(const std::string& pattern, GiveJson give);
  void post(const std::string& pattern, GiveJson give);
  void remove(const std::string& pattern, GiveJson give);
  void get_bytes(const std::string& pattern, GiveBytes give);
  /// An answer that is waited for, until it is there, whoever asked is gone or the server stops.
  /// What `begin` refuses is an error as elsewhere; afterwards the status has been sent and trouble
  /// closes the connection.
  void get_later(const std::string& pattern, BeginWaiting begin);

private:
  httplib::Server& server_;
  const Guard& guard_;
};

/// Patterns of the parts that paths are made of.
inline const std::string a_case = "/api/cases/([a-z0-9-]{1,80})";
inline const std::string a_visit = a_case + "/visits/([a-z0-9-]{1,80})";
inline const std::string a_digest = "/([0-9a-f]{64})";

/// The n-th bracketed part of the path, from 1.
[[nodiscard]] std::string part(const httplib::Request& request, std::size_t n);
/// A value behind the question mark; empty when it isn't there.
[[nodiscard]] std::string asked(const httplib::Request& request, const std::string& name);
/// The body as JSON, within limits::json_file_bytes.
[[nodiscard]] Result<nlohmann::json> body_of(const httplib::Request& request);

/// The sentence as the body of an error: {"error": "..."}
[[nodiscard]] std::string error_body(const std::string& sentence);

/// 400, 404, 409, 413 or 500
[[nodiscard]] int status_of(Trouble trouble);

inline constexpr const char* json_type = "application/json; charset=utf-8";

} // namespace pritchel::serve

/// Who may ask: the page that this program served, and nobody who only made a browser come here.
/// A foreign site could reach a server on loopback through the browser: by a host name that it
/// points at 127.0.0.1, or by a plain cross-site request. The first shows in Host, the second in
/// Origin.
#pragma once

#include "base/result.h"

#include <string>

namespace httplib {
struct Request;
struct Response;
} // namespace httplib

namespace pritchel::serve {

class Guard {
public:
  /// `host` is what the server listens on.
  explicit Guard(std::string host)
      : host_(std::move(host)) {}

  /// One sentence for a request that must not be answered. Judges after the body was read: what
  /// would be left of it in the connection could be taken for a request of its own.
  [[nodiscard]] Result<void> check(const httplib::Request& request) const;

private:
  std::string host_;

  [[nodiscard]] bool may_be_called(const std::string& name) const;
};

/// Content Security Policy and its kin, where a route has not set its own.
void add_safe_headers(httplib::Response& response);

/// Policy of a drawing that is opened by itself: nothing runs, nothing is fetched.
inline constexpr const char* drawing_policy = "default-src 'none'; style-src 'unsafe-inline'";

} // namespace pritchel::serve

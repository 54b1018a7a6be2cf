#include "serve/guard.h"

#include <httplib.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace pritchel::serve {
namespace {

constexpr const char* page_policy =
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
    "connect-src 'self'; font-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'";

constexpr std::array<std::string_view, 3> loopback_names{"127.0.0.1", "localhost", "[::1]"};

bool is_loopback(std::string_view name) {
  return std::find(loopback_names.begin(), loopback_names.end(), name) != loopback_names.end() ||
         name == "::1";
}

/// "127.0.0.1:7480" -> "127.0.0.1"
std::string_view without_port(std::string_view host) {
  if (host.starts_with('['))
    return host.substr(0, host.find(']') + 1);
  return host.substr(0, host.find(':'));
}

/// A number, not a name: names can be pointed anywhere.
bool is_address(std::string_view name) {
  return name.starts_with('[') ||
         (!name.empty() && name.find_first_not_of("0123456789.") == std::string_view::npos);
}

tl::unexpected<Error> refused() {
  return fail("The request", "comes from another site", "open the address that pritchel printed");
}

} // namespace

bool Guard::may_be_called(const std::string& name) const {
  return is_loopback(name) || (!is_loopback(host_) && (is_address(name) || name == host_));
}

Result<void> Guard::check(const httplib::Request& request) const {
  const auto host = request.get_header_value("Host");
  if (request.get_header_value_count("Host") != 1 ||
      !may_be_called(std::string(without_port(host))))
    return refused();
  if (request.has_header("Origin") && request.get_header_value("Origin") != "http://" + host)
    return refused();
  if (request.has_header("Content-Encoding"))
    return fail("The request", "is packed", "send it as it is");
  return {};
}

void add_safe_headers(httplib::Response& response) {
  if (!response.has_header("Content-Security-Policy"))
    response.set_header("Content-Security-Policy", page_policy);
  response.set_header("X-Content-Type-Options", "nosniff");
  response.set_header("Referrer-Policy", "no-referrer");
  response.set_header("Cross-Origin-Resource-Policy", "same-origin");
  response.set_header("Cross-Origin-Opener-Policy", "same-origin");
}

} // namespace pritchel::serve

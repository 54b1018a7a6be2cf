#include "serve/server.h"

#include "base/limits.h"
#include "serve/answer.h"
#include "serve/guard.h"
#include "serve/office.h"
#include "serve/routes/routes.h"

#include <fmt/format.h>
#include <httplib.h>
#include <nlohmann/json.hpp>

#include <atomic>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <memory>
#include <system_error>
#include <thread>
#include <utility>

namespace pritchel::serve {

struct Server::Parts {
  Parts(std::unique_ptr<Office> opened, const std::string& host)
      : office(std::move(opened)),
        guard(host) {}

  std::unique_ptr<Office> office;
  Guard guard;
  httplib::Server http;
  int port = 0;
  std::atomic<bool> answers = false;
  std::atomic<bool> told_to_stop = false;
};

namespace {

constexpr int greatest_port = 65'535;

/// Without the library's own choice: it lets two programs share one port.
void one_program_a_port(int socket) {
  const int yes = 1;
  ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
}

/// What the library answers by itself: no such path, too large, no HTTP.
std::string own_sentence(int status) {
  switch (status) {
  case 404:
    return "There is nothing at this address.";
  case 413:
    return fmt::format("The file is too large; {} MB are the limit.",
                       limits::picture_file_bytes / 1024 / 1024);
  default:
    return "The request cannot be understood.";
  }
}

void set_up(httplib::Server& http) {
  http.set_payload_max_length(limits::picture_file_bytes);
  http.set_tcp_nodelay(true);
  http.new_task_queue = [] { return new httplib::ThreadPool(request_threads); };
  http.set_post_routing_handler(
      [](const httplib::Request&, httplib::Response& response) { add_safe_headers(response); });
  http.set_error_handler([](const httplib::Request&, httplib::Response& response) {
    if (response.body.empty())
      response.set_content(error_body(own_sentence(response.status)), json_type);
  });
  http.set_exception_handler(
      [](const httplib::Request&, httplib::Response& response, const std::exception_ptr&) {
        response.status = 500;
        response.set_content(
            error_body("The program failed at this request; what was saved before is safe."),
            json_type);
      });
}

void add_routes(Routes routes, Office& office) {
  add_practice_routes(routes, office);
  add_case_routes(routes, office);
  add_change_routes(routes, office);
  add_visit_routes(routes, office);
  add_visit_picture_routes(routes, office);
  add_picture_routes(routes, office);
  add_reading_routes(routes, office);
  add_agreement_routes(routes, office);
  add_measure_routes(routes, office);
  add_find_routes(routes, office);
  add_plan_routes(routes, office);
  add_fit_routes(routes, office);
  add_paper_routes(routes, office);
  add_page_routes(routes, office);
}

/// The port, or -1.
int bound(httplib::Server& http, const ServeOptions& options) {
  const auto listening = std::make_shared<int>(-1);
  http.set_socket_options([listening](int socket) {
    one_program_a_port(socket);
    *listening = socket;
  });
  const int port = options.port == 0 ? http.bind_to_any_port(options.host)
                   : http.bind_to_port(options.host, options.port) ? options.port
                                                                   : -1;
  // The library lets five connections queue to be accepted; of a sixth the first packet is dropped,
  // and it comes again a second later, then three.
  constexpr int may_queue = 128;
  if (port > 0)
    ::listen(*listening, may_queue);
  return port;
}

Result<void> check(const ServeOptions& options) {
  std::error_code error;
  if (options.port < 0 || options.port > greatest_port)
    return fail(fmt::format("The port {}", options.port), "is no port", "choose 1024 to 65535");
  if (!options.page.empty() &&
      !std::filesystem::is_regular_file(options.page / "index.html", error))
    return fail("The folder " + options.page.string(), "holds no page", "it needs an index.html");
  return {};
}

/// Interrupt and terminate, kept from every thread and waited for by one.
sigset_t ending_signals() {
  sigset_t set;
  sigemptyset(&set);
  sigaddset(&set, SIGINT);
  sigaddset(&set, SIGTERM);
  return set;
}

} // namespace

Server::Server(std::unique_ptr<Parts> parts)
    : parts_(std::move(parts)) {}
Server::Server(Server&&) noexcept = default;
Server& Server::operator=(Server&&) noexcept = default;
Server::~Server() = default;

Result<Server> Server::open(const ServeOptions& options) {
  PRITCHEL_CHECK(check(options));
  PRITCHEL_TRY(office, Office::open(options));
  auto parts = std::make_unique<Parts>(std::move(office), options.host);
  set_up(parts->http);
  add_routes(Routes(parts->http, parts->guard), *parts->office);
  parts->port = bound(parts->http, options);
  if (parts->port <= 0)
    return fail(fmt::format("The port {} of {}", options.port, options.host),
                "cannot be listened on",
                "another program may have it: choose another with --port",
                Trouble::outside);
  return {Server(std::move(parts))};
}

int Server::port() const {
  return parts_->port;
}

std::string Server::address() const {
  return fmt::format("http://{}:{}/", parts_->office->options().host, parts_->port);
}

void Server::run() {
  parts_->answers = true;
  if (!parts_->told_to_stop)
    parts_->http.listen_after_bind();
  parts_->answers = false;
}

void Server::stop() {
  parts_->told_to_stop = true;
  // The library forgets a stop that comes before it listens.
  while (parts_->answers && !parts_->http.is_running())
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  parts_->http.stop();
}

Result<void> serve(const ServeOptions& options) {
  const auto signals = ending_signals();
  // Before any thread begins, so that all of them inherit it.
  pthread_sigmask(SIG_BLOCK, &signals, nullptr);
  PRITCHEL_TRY(server, Server::open(options));
  std::thread answering([&] { server.run(); });
  fmt::print("Open {} in a browser. End with Ctrl-C.\n", server.address());
  static_cast<void>(std::fflush(stdout));
  int received = 0;
  sigwait(&signals, &received);
  server.stop();
  answering.join();
  return {};
}

} // namespace pritchel::serve

/// The page and its requests over HTTP (docs/formats/http.md). Thin: parse, call, answer.
#pragma once

#include "base/result.h"

#include <filesystem>
#include <memory>
#include <string>

namespace pritchel::serve {

struct ServeOptions {
  std::filesystem::path store; ///< made when it isn't there
  std::filesystem::path templates;
  std::filesystem::path samples = {}; ///< the sample horse, for whoever asks; empty: none
  std::string host = "127.0.0.1";     ///< address to listen on
  int port = 7480;                    ///< 0 takes a free one
  std::filesystem::path page;         ///< read from here; empty: the page inside the program
};

/// An open store with a bound port. Requests are answered while run() runs.
class Server {
public:
  /// Fails with one sentence when store, templates or page cannot be opened or the port is taken.
  [[nodiscard]] static Result<Server> open(const ServeOptions& options);
  Server(Server&&) noexcept;
  Server& operator=(Server&&) noexcept;
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;
  ~Server();

  [[nodiscard]] int port() const;
  /// What a person opens: "http://127.0.0.1:7480/".
  [[nodiscard]] std::string address() const;
  /// Answers requests until stop(). From any thread, once.
  void run();
  /// From any thread. Requests under way are finished.
  void stop();

private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
  explicit Server(std::unique_ptr<Parts> parts);
};

/// Opens, prints the address on standard output and answers until the program is told to end
/// (interrupt or terminate signal).
[[nodiscard]] Result<void> serve(const ServeOptions& options);

} // namespace pritchel::serve

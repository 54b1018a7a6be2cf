/// A real server on a free port over a store of its own, and somebody who asks it.
#pragma once

#include "serve/server.h"

#include <catch2/catch.hpp>
#include <httplib.h>
#include <nlohmann/json.hpp>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <optional>
#include <string>
#include <thread>

#include "film.h"

namespace pritchel::serve::test {

using nlohmann::json;

class Running {
public:
  explicit Running(const std::filesystem::path& page = {}) {
    auto name = (std::filesystem::temp_directory_path() / "pritchel-serve-XXXXXX").string();
    folder_ = ::mkdtemp(name.data());
    begin(page);
  }
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;
  ~Running() {
    end();
    std::filesystem::remove_all(folder_);
  }

  void restart() {
    end();
    begin({});
  }

  [[nodiscard]] httplib::Client& client() { return *client_; }
  [[nodiscard]] int port() const { return server_->port(); }
  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }

  /// The answer's JSON; the status must be as expected.
  json get(const std::string& path, int status = 200) { return read(client_->Get(path), status); }
  json put(const std::string& path, const json& body, int status = 200) {
    return read(client_->Put(path, body.dump(), "application/json"), status);
  }
  json post(const std::string& path, const json& body, int status = 200) {
    return read(client_->Post(path, body.dump(), "application/json"), status);
  }
  json upload(const std::string& path, const std::string& bytes, int status = 200) {
    return read(client_->Post(path, bytes, "application/octet-stream"), status);
  }
  json remove(const std::string& path, int status = 200) {
    return read(client_->Delete(path), status);
  }

private:
  std::filesystem::path folder_;
  std::optional<Server> server_;
  std::thread thread_;
  std::unique_ptr<httplib::Client> client_;

  void begin(const std::filesystem::path& page) {
    auto opened =
        Server::open({.store = folder_ / "store",
                      .templates = std::filesystem::path(PRITCHEL_SOURCE_DIR) / "templates",
                      .samples = std::filesystem::path(PRITCHEL_SOURCE_DIR) / "sample-images",
                      .port = 0,
                      .page = page});
    INFO((opened ? std::string() : opened.error().sentence()));
    REQUIRE(opened);
    server_.emplace(std::move(*opened));
    thread_ = std::thread([this] { server_->run(); });
    client_ = std::make_unique<httplib::Client>("127.0.0.1", server_->port());
    client_->set_keep_alive(true);
    client_->set_tcp_nodelay(true);
    client_->set_read_timeout(120);
  }

  void end() {
    client_.reset();
    server_->stop();
    thread_.join();
    server_.reset();
  }

  static json read(const httplib::Result& answer, int status) {
    REQUIRE(answer);
    INFO(answer->body.substr(0, 500));
    REQUIRE(answer->status == status);
    return json::parse(answer->body);
  }
};

/// The lateromedial landmarks of docs/formats/examples/reading.json.
inline json side_landmarks() {
  std::ifstream file(std::filesystem::path(PRITCHEL_SOURCE_DIR) /
                     "docs/formats/examples/reading.json");
  const auto document = json::parse(file);
  json objects = json::object();
  for (const auto& [id, at] : document.at("landmarks").items())
    objects[id] = {{"x", at.at(0)}, {"y", at.at(1)}, {"how", "by-hand"}};
  return objects;
}

/// A case with one visit and one film of 1600 by 1300 pixels of 0.15 mm.
struct Prepared {
  std::string case_path;
  std::string visit_path;
  std::string digest;

  explicit Prepared(Running& running, const FilmSettings& film = {}) {
    const auto value = running.post("/api/cases", {{"horse", {{"name", "Old Tom"}}}});
    case_path = "/api/cases/" + value.at("id").get<std::string>();
    const auto with_visit =
        running.post(case_path + "/visits", {{"date", "2026-03-02"}, {"last_trim", "2026-01-12"}});
    visit_path = case_path + "/visits/" + with_visit.at("visits").at(0).at("id").get<std::string>();
    const auto answer =
        running.upload(visit_path + "/pictures?name=left%20fore.dcm", Film::bytes(film));
    digest = answer.at("picture").at("digest");
  }

  [[nodiscard]] std::string picture_path() const { return visit_path + "/pictures/" + digest; }
  [[nodiscard]] std::string reading_path() const {
    return case_path + "/readings/" + digest + "?reader=Ada";
  }
  [[nodiscard]] std::string measure_path() const { return case_path + "/measure/" + digest; }
};

/// The measurement with this id; null when there is none.
inline json measurement(const json& result, const std::string& id) {
  for (const auto& each : result.at("measurements"))
    if (each.at("id") == id)
      return each;
  return nullptr;
}

} // namespace pritchel::serve::test

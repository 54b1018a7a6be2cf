/// What the routes work with: one open store, the decoded pictures, the practice, the clock.
#pragma once

#include "base/result.h"
#include "practice/practice.h"
#include "record/store.h"
#include "serve/server.h"

#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "job/visit.h"

namespace pritchel::serve {

using Jpeg = std::shared_ptr<const std::vector<std::uint8_t>>;

class Office {
public:
  [[nodiscard]] static Result<std::unique_ptr<Office>> open(const ServeOptions& options);

  [[nodiscard]] record::Store& store() { return *store_; }
  [[nodiscard]] const practice::Practice& practice() const { return practice_; }
  [[nodiscard]] const ServeOptions& options() const { return options_; }
  [[nodiscard]] job::Desk desk() { return {*store_, shelf_, practice_}; }
  [[nodiscard]] Result<std::shared_ptr<const imaging::Picture>> picture(const std::string& digest);
  /// Made once and kept: a case's list of pictures must not decode every film anew.
  [[nodiscard]] Result<Jpeg> thumbnail(const std::string& digest);

private:
  std::unique_ptr<record::Store> store_;
  practice::Practice practice_;
  ServeOptions options_;
  job::PictureShelf shelf_;
  std::mutex thumbnails_mutex_;
  std::map<std::string, Jpeg> thumbnails_;
};

/// Somebody at the page, or by name, now.
[[nodiscard]] record::Stamp stamp_of(const std::string& who);

} // namespace pritchel::serve

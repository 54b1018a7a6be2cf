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

#include "job/repeats_of.h"
#include "job/visit.h"

namespace pritchel::serve {

using Jpeg = std::shared_ptr<const std::vector<std::uint8_t>>;

class Office {
public:
  [[nodiscard]] static Result<std::unique_ptr<Office>> open(const ServeOptions& options);

  [[nodiscard]] record::Store& store() { return *store_; }
  /// With the practice's own spreads in it as far as they are known; another one may take its place
  /// at any time, so keep what you were given.
  [[nodiscard]] std::shared_ptr<const practice::Practice> practice() const;
  /// As its files have it.
  [[nodiscard]] const practice::Practice& templates() const { return templates_; }
  [[nodiscard]] const ServeOptions& options() const { return options_; }
  [[nodiscard]] job::Desk desk();
  /// Of a case, or of the whole store when it is empty.
  [[nodiscard]] Result<std::vector<job::RepeatedPicture>>
  repeated_pictures(const std::string& case_id);
  /// Works out anew which spreads are the practice's own; after every reading that is done. What
  /// can't be read leaves them as they were.
  void learn_spreads();
  [[nodiscard]] Result<std::shared_ptr<const imaging::Picture>> picture(const std::string& digest);
  /// Made once and kept: a case's list of pictures must not decode every film anew.
  [[nodiscard]] Result<Jpeg> thumbnail(const std::string& digest);

private:
  std::unique_ptr<record::Store> store_;
  practice::Practice templates_;
  mutable std::mutex practice_mutex_;
  std::shared_ptr<const practice::Practice> practice_;
  job::RepeatBook repeats_;
  ServeOptions options_;
  job::PictureShelf shelf_;
  std::mutex thumbnails_mutex_;
  std::map<std::string, Jpeg> thumbnails_;
};

/// Somebody at the page, or by name, now.
[[nodiscard]] record::Stamp stamp_of(const std::string& who);

} // namespace pritchel::serve

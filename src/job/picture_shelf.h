/// Decoded pictures, kept while they are worked on: a film takes up to a second to decode and is
/// asked for with every moved point. May be called from several threads.
#pragma once

#include "base/result.h"
#include "imaging/picture.h"
#include "record/store.h"

#include <list>
#include <memory>
#include <mutex>
#include <string>

namespace pritchel::job {

class PictureShelf {
public:
  /// The picture with this digest, decoded now or earlier. The last `places` asked for are kept.
  [[nodiscard]] Result<std::shared_ptr<const imaging::Picture>> picture(record::Store& store,
                                                                        const std::string& digest);
  /// Puts a picture there that was decoded elsewhere.
  void keep(const std::string& digest, std::shared_ptr<const imaging::Picture> picture);

private:
  struct Kept {
    std::string digest;
    std::shared_ptr<const imaging::Picture> picture;
  };
  static constexpr std::size_t places_ = 6; ///< about 100 MB of 16-bit films

  std::mutex mutex_;
  std::list<Kept> kept_; ///< last used first

  [[nodiscard]] std::shared_ptr<const imaging::Picture> taken_out(const std::string& digest);
};

} // namespace pritchel::job

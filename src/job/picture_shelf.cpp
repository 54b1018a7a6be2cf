#include "job/picture_shelf.h"

#include "imaging/load.h"

#include <algorithm>

namespace pritchel::job {

std::shared_ptr<const imaging::Picture> PictureShelf::taken_out(const std::string& digest) {
  const std::lock_guard lock(mutex_);
  const auto at = std::find_if(
      kept_.begin(), kept_.end(), [&](const Kept& each) { return each.digest == digest; });
  if (at == kept_.end())
    return nullptr;
  kept_.splice(kept_.begin(), kept_, at);
  return kept_.front().picture;
}

Result<std::shared_ptr<const imaging::Picture>> PictureShelf::picture(record::Store& store,
                                                                      const std::string& digest) {
  if (auto known = taken_out(digest))
    return known;
  // Decoded outside the lock: two threads may decode the same film once each, nobody waits.
  PRITCHEL_TRY(bytes, store.picture_bytes(digest));
  PRITCHEL_TRY(loaded, imaging::load_picture(bytes, "picture " + digest.substr(0, 8)));
  auto picture = std::make_shared<const imaging::Picture>(std::move(loaded));
  keep(digest, picture);
  return picture;
}

void PictureShelf::keep(const std::string& digest,
                        std::shared_ptr<const imaging::Picture> picture) {
  const std::lock_guard lock(mutex_);
  kept_.remove_if([&](const Kept& each) { return each.digest == digest; });
  kept_.push_front({digest, std::move(picture)});
  if (kept_.size() > places_)
    kept_.pop_back();
}

} // namespace pritchel::job

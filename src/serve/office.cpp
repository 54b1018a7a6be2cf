#include "serve/office.h"

#include "base/clock.h"
#include "imaging/encode.h"

namespace pritchel::serve {
namespace {

constexpr int thumbnail_side_px = 360;
/// About 20 kB each.
constexpr std::size_t most_thumbnails = 1000;

} // namespace

Result<std::unique_ptr<Office>> Office::open(const ServeOptions& options) {
  PRITCHEL_TRY(practice, practice::load_practice(options.templates));
  PRITCHEL_TRY(store, record::open_store(options.store, record::Opening::create));
  auto office = std::make_unique<Office>();
  office->templates_ = std::move(practice);
  office->practice_ = std::make_shared<const practice::Practice>(office->templates_);
  office->store_ = std::move(store);
  office->options_ = options;
  office->learn_spreads();
  return {std::move(office)};
}

std::shared_ptr<const practice::Practice> Office::practice() const {
  const std::lock_guard lock(practice_mutex_);
  return practice_;
}

job::Desk Office::desk() {
  const auto now = practice();
  return {.store = *store_, .shelf = shelf_, .practice = *now, .kept = now};
}

Result<std::vector<job::RepeatedPicture>> Office::repeated_pictures(const std::string& case_id) {
  return repeats_.pictures(*store_, shelf_, templates_, case_id);
}

void Office::learn_spreads() {
  const auto pictures = repeated_pictures({});
  if (!pictures)
    return;
  auto learnt =
      std::make_shared<const practice::Practice>(job::with_own_spreads(templates_, *pictures));
  const std::lock_guard lock(practice_mutex_);
  practice_ = std::move(learnt);
}

Result<std::shared_ptr<const imaging::Picture>> Office::picture(const std::string& digest) {
  return shelf_.picture(*store_, digest);
}

Result<Jpeg> Office::thumbnail(const std::string& digest) {
  {
    const std::lock_guard lock(thumbnails_mutex_);
    if (const auto known = thumbnails_.find(digest); known != thumbnails_.end())
      return known->second;
  }
  PRITCHEL_TRY(decoded, picture(digest));
  PRITCHEL_TRY(bytes, imaging::thumbnail_jpeg(*decoded, thumbnail_side_px));
  const auto made = std::make_shared<const std::vector<std::uint8_t>>(std::move(bytes));
  const std::lock_guard lock(thumbnails_mutex_);
  if (thumbnails_.size() >= most_thumbnails)
    thumbnails_.clear();
  thumbnails_[digest] = made;
  return made;
}

record::Stamp stamp_of(const std::string& who) {
  return {.who = who.empty() ? "somebody at the page" : who, .when = utc_now()};
}

} // namespace pritchel::serve

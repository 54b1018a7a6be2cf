#include "job/intake.h"

#include "imaging/load.h"
#include "record/edit.h"
#include "record/from_header.h"

namespace pritchel::job {

Result<record::PictureEntry> take_in_picture(const Desk& desk,
                                             const std::string& case_id,
                                             const std::string& visit,
                                             const std::string& file_name,
                                             std::span<const char> bytes,
                                             const record::Stamp& stamp) {
  PRITCHEL_TRY(value, desk.store.load_case(case_id));
  PRITCHEL_CHECK(record::visit_in(value, visit));
  PRITCHEL_TRY(loaded, imaging::load_picture(bytes, file_name));
  PRITCHEL_TRY(digest, desk.store.add_picture(bytes));
  const auto picture = std::make_shared<const imaging::Picture>(std::move(loaded));
  const auto entry = record::entry_from_header(*picture, file_name, digest);
  PRITCHEL_TRY(changed,
               desk.store.change_case(
                   case_id,
                   "added picture " + file_name + " to " + visit,
                   [&](record::Case known) {
                     return record::with_new_picture(std::move(known), visit, entry);
                   },
                   stamp));
  desk.shelf.keep(digest, picture);
  return record::picture_in(changed, visit, digest);
}

} // namespace pritchel::job

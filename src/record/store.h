/// Where cases are kept. Knows values and time as text only; decides nothing.
/// Every call is a whole: it has happened, safely on disk, or it has not and the Error says why.
/// May be called from several threads.
#pragma once

#include "base/result.h"
#include "record/case.h"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace pritchel::record {

/// Who does something and when; goes into the audit trail.
struct Stamp {
  std::string who;
  std::string when; ///< UTC, YYYY-MM-DDThh:mm:ssZ
};

struct CaseLine {
  std::string id;
  std::string horse;
  std::string yard;
  std::string newest_visit; ///< date, or empty
};

struct AuditLine {
  std::string when;
  std::string who;
  std::string what; ///< "saved reading of 3f2a... by Ada, revision 4"
};

/// A state of a plan that somebody has seen.
struct SeenPlan {
  int version = 1;
  int revision = 0;
};

class Store {
public:
  Store() = default;
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;
  Store(Store&&) = delete;
  Store& operator=(Store&&) = delete;
  virtual ~Store() = default;

  /// Newest visit first.
  [[nodiscard]] virtual Result<std::vector<CaseLine>> list_cases() = 0;
  [[nodiscard]] virtual Result<Case> load_case(const std::string& id) = 0;
  /// A new case; its id is made from the horse's name when it is empty. A taken id is a conflict.
  [[nodiscard]] virtual Result<Case> add_case(Case value, const Stamp& stamp) = 0;
  /// The new case in place of the known one with its id.
  [[nodiscard]] virtual Result<void> save_case(const Case& value, const Stamp& stamp) = 0;
  /// Loads, changes and saves with nobody in between. `what` goes into the audit trail. When
  /// `change` fails nothing is saved.
  [[nodiscard]] virtual Result<Case> change_case(const std::string& id,
                                                 const std::string& what,
                                                 const std::function<Result<Case>(Case)>& change,
                                                 const Stamp& stamp) = 0;

  /// Keeps the bytes and returns their digest. The same bytes twice are kept once.
  [[nodiscard]] virtual Result<std::string> add_picture(std::span<const char> bytes) = 0;
  /// The very bytes that came in, checked against the digest.
  [[nodiscard]] virtual Result<std::vector<char>> picture_bytes(const std::string& digest) = 0;

  /// `reading.revision` is the last one seen (0: none). The saved one, with its new revision and
  /// time; a conflict when somebody saved meanwhile. Older revisions are kept. Turn 1 need not have
  /// been begun; a begun one keeps its sight. A blind reading that is done is a conflict; an open
  /// one that is saved again is no longer done.
  [[nodiscard]] virtual Result<ReadingEntry>
  save_reading(const std::string& case_id, const ReadingEntry& reading, const Stamp& stamp) = 0;
  /// This reader's newest turn; revision 0 without landmarks when there is none.
  [[nodiscard]] virtual Result<ReadingEntry>
  reading_by(const std::string& case_id, const std::string& picture, const std::string& reader) = 0;
  /// The newest revision of each turn of each reader, the last saved first. Nothing is hidden here:
  /// who may see what is told by record/sight.h.
  [[nodiscard]] virtual Result<std::vector<ReadingEntry>>
  readings_of(const std::string& case_id, const std::string& picture) = 0;
  /// An empty reading: the reader's next turn, whose predecessor is done with that. While the
  /// newest turn is still empty it is that one, with this sight.
  [[nodiscard]] virtual Result<ReadingEntry> begin_turn(const std::string& case_id,
                                                        const std::string& picture,
                                                        const std::string& reader,
                                                        Sight sight,
                                                        const Stamp& stamp) = 0;
  /// The reader says that the newest turn is done. A conflict while it has no landmarks.
  [[nodiscard]] virtual Result<ReadingEntry> finish_reading(const std::string& case_id,
                                                            const std::string& picture,
                                                            const std::string& reader,
                                                            const Stamp& stamp) = 0;
  /// Makes a blind reading the picture's working one. A conflict while it is hidden.
  [[nodiscard]] virtual Result<ReadingEntry> pick_reading(const std::string& case_id,
                                                          const std::string& picture,
                                                          const std::string& reader,
                                                          int turn,
                                                          const Stamp& stamp) = 0;
  /// All revisions of one reader, turn by turn, oldest first.
  [[nodiscard]] virtual Result<std::vector<ReadingEntry>> revisions_of(
      const std::string& case_id, const std::string& picture, const std::string& reader) = 0;

  /// Keeps the plan as the visit's next version; its own version number is not looked at.
  [[nodiscard]] virtual Result<Plan>
  add_plan(const std::string& case_id, const Plan& plan, const Stamp& stamp) = 0;
  /// In place of the same version. `plan.revision` is the last one seen; the saved one has its new
  /// revision. A conflict when somebody saved meanwhile, when the version is signed, or when a
  /// newer one has followed it.
  [[nodiscard]] virtual Result<Plan>
  save_plan(const std::string& case_id, const Plan& plan, const Stamp& stamp) = 0;
  /// Freezes a version with the sign-off. An error while it isn't ready: see ready_to_sign. A
  /// conflict when it is no longer as it was seen: nobody signs what another one has just changed.
  [[nodiscard]] virtual Result<Plan> sign_plan(const std::string& case_id,
                                               const std::string& visit,
                                               SeenPlan seen,
                                               const SignOff& sign_off,
                                               const Stamp& stamp) = 0;
  [[nodiscard]] virtual Result<Plan>
  plan_of(const std::string& case_id, const std::string& visit, int version) = 0;
  /// All versions, oldest first.
  [[nodiscard]] virtual Result<std::vector<Plan>> plans_of(const std::string& case_id,
                                                           const std::string& visit) = 0;

  /// Oldest first.
  [[nodiscard]] virtual Result<std::vector<AuditLine>> audit_of(const std::string& case_id) = 0;

  /// Grows with every save of anything in the case, by whichever process, that `reader` may know
  /// of: all but the saves of other readers' blind readings. From 1.
  [[nodiscard]] virtual Result<std::int64_t> change_of(const std::string& case_id,
                                                       const std::string& reader) = 0;
};

enum class Opening {
  existing, ///< an error when there is no store in the folder
  create    ///< makes folder and store when they aren't there
};

/// A folder with pritchel.sqlite and pictures/. Older schema versions are brought up to date; a
/// newer one, a damaged file, a folder that cannot be written: one sentence.
[[nodiscard]] Result<std::unique_ptr<Store>> open_store(const std::filesystem::path& folder,
                                                        Opening opening);

} // namespace pritchel::record

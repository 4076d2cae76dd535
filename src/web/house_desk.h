#pragma once
// The one house that all devices share: the open file, the tracing session, the outage board, and who is where. Every answer that is
// given is on disk before it is acknowledged; what another program changes is noticed and gone on from.

#include <filesystem>
#include <memory>
#include <mutex>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <string>

#include "ask/local_time.h"
#include "ask/names.h"
#include "ask/record.h"
#include "backup/outage_board.h"
#include "db/keeper.h"
#include "json/session_options.h"
#include "json/survey_desk.h"
#include "json/trace_desk.h"
#include "trace/session.h"
#include "web/changes.h"
#include "web/people.h"

namespace ohmstead::web {

/// The house at one revision with what follows from it. Unchanging.
struct Shown {
  Record record;
  Names names;  ///< of record.house
  std::int64_t revision = 0;
  std::string changed_at;
  Shown(House house, std::int64_t at_revision, std::string at) : record(make_record(std::move(house))), names(record.house), revision(at_revision), changed_at(std::move(at)) {}
};

/// From several threads at once. What is refused is an Error, and nothing was changed.
class HouseDesk {
 public:
  using Json = nlohmann::ordered_json;

  /// Opens the file for changing. Keep the counter alive. Throws as HouseFile::open.
  HouseDesk(const std::filesystem::path& path, NowFn now, LocalTime local, ChangeCounter& changes);
  ~HouseDesk();

  [[nodiscard]] std::shared_ptr<const Shown> shown();
  /// The house view of the page, as text.
  [[nodiscard]] std::shared_ptr<const std::string> view();
  [[nodiscard]] std::int64_t revision() const;
  /// JPEG of the photo with this id. Throws Error{not_found} where there is none, or its picture is not here.
  [[nodiscard]] std::string photo(const std::string& id);
  /// Changes of other programs, and time that is over: to be called once a second or so. A fault of the file is left for the next request.
  void look_around();

  [[nodiscard]] Json trace(const Device& device);
  Json trace(const Device& device, const Json& request);
  Json stand(const Device& device, const Json& request);
  void leave(std::uint64_t device);
  [[nodiscard]] Standpoint place_of(std::uint64_t device) const;

  [[nodiscard]] Json survey();
  Json survey(const Device& device, const Json& request);

  /// `source`: id of the source that is to carry the house; may be empty where there is one, or an outage is under way.
  [[nodiscard]] Json outage(const std::string& source);
  Json outage(const Device& device, const Json& request);
  [[nodiscard]] Json may_i(const std::string& words, const std::string& at);

 private:
  struct Tracing;  ///< a session with its desk

  // All but the last two are called with desk_ held.
  void take_in_others();
  void keep(const std::string& what, const House& next, const std::string& key);
  void start_again();
  void publish();
  [[nodiscard]] Tracing& tracing();
  [[nodiscard]] OutageBoard& board(const std::string& source);
  [[nodiscard]] Json outage_now(OutageBoard& board);
  [[nodiscard]] bool taken(const std::string& key) const;
  void work_with_helper(bool helper);
  [[nodiscard]] Json trace_shown(const Device& device) const;
  [[nodiscard]] std::shared_ptr<const Shown> shown_already() const;

  const NowFn now_;
  const LocalTime local_;
  ChangeCounter& changes_;

  std::mutex desk_;  ///< the file, the sessions, and everything down to keys_
  HouseFile file_;
  Keeper keeper_;
  std::unique_ptr<Tracing> tracing_;
  std::shared_ptr<const Shown> board_of_;  ///< what the board was made of
  std::optional<OutageBoard> board_;
  SurveyDesk survey_;
  std::set<std::string> keys_;  ///< of this run, of requests that changed nothing in the file

  mutable std::mutex show_;  ///< what can be read while the desk is busy: everything below
  std::shared_ptr<const House> house_shown_;
  std::int64_t revision_shown_ = 0;
  std::string changed_at_;
  std::shared_ptr<const Shown> shown_;
  std::shared_ptr<const std::string> view_;  ///< of view_of_
  std::shared_ptr<const Shown> view_of_;
  std::shared_ptr<const Json> step_shown_, manner_shown_;
  People people_;

  std::mutex make_;  ///< one makes what is shown, the others wait for it
};

}  // namespace ohmstead::web

#include "web/house_desk.h"

#include "house/error.h"
#include "house/index.h"
#include "web/house_desk_parts.h"
#include "web/house_view.h"

namespace ohmstead::web {

namespace {

constexpr std::size_t kKeysOfARun = 20'000;
constexpr int kHeldKib = 256;  // half of a traced house; the rest is read from the system's own memory

}  // namespace

HouseDesk::HouseDesk(const std::filesystem::path& path, NowFn now, LocalTime local, ChangeCounter& changes)
    : now_(std::move(now)), local_(std::move(local)), changes_(changes), file_(HouseFile::open(path, Access::change)), keeper_(file_) {
  file_.hold_at_most(kHeldKib);
  publish();
}

HouseDesk::~HouseDesk() = default;

std::shared_ptr<const Shown> HouseDesk::shown_already() const {
  const std::lock_guard held(show_);
  return shown_ != nullptr && shown_->revision == revision_shown_ ? shown_ : nullptr;
}

std::shared_ptr<const Shown> HouseDesk::shown() {
  if (auto already = shown_already()) return already;
  const std::lock_guard making(make_);
  if (auto already = shown_already()) return already;
  std::shared_ptr<const House> house;
  std::int64_t revision = 0;
  std::string at;
  {
    const std::lock_guard held(show_);
    house = house_shown_, revision = revision_shown_, at = changed_at_;
  }
  auto made = std::make_shared<const Shown>(*house, revision, at);
  const std::lock_guard held(show_);
  return shown_ = made;
}

std::shared_ptr<const std::string> HouseDesk::view() {
  const auto now = shown();
  const std::lock_guard making(make_);
  {
    const std::lock_guard held(show_);
    if (view_of_ == now) return view_;
  }
  auto made = std::make_shared<const std::string>(house_view_text(now->record, now->names, {.revision = now->revision, .changed_at = now->changed_at}));
  const std::lock_guard held(show_);
  view_of_ = now;
  return view_ = made;
}

std::int64_t HouseDesk::revision() const {
  const std::lock_guard held(show_);
  return revision_shown_;
}

std::string HouseDesk::photo(const std::string& id) {
  const auto given = parse_id(id);
  const auto now = shown();
  const Photo* photo = given ? find_row(now->record.house, Id<Photo>{*given}) : nullptr;
  if (photo == nullptr) throw Error(ErrorKind::not_found, "The photo that is asked for is not in this house; load the page again.");
  const std::lock_guard held(desk_);
  auto picture = file_.picture(photo->picture);
  if (!picture) throw Error(ErrorKind::not_found, "The picture of this photo is not here: the record came without it.");
  return std::move(*picture);
}

void HouseDesk::publish() {
  std::shared_ptr<const House> house;
  std::shared_ptr<const Json> step, manner;
  if (house_shown_ == nullptr || revision_shown_ != keeper_.revision()) house = keeper_.shared();
  if (tracing_ != nullptr) {
    step = std::make_shared<const Json>(tracing_->desk.step());
    manner = std::make_shared<const Json>(*tracing_->desk.told({{"do", "manner"}}));
  }
  const std::string at = house != nullptr ? file_.changed_at() : "";
  const std::lock_guard held(show_);
  if (house != nullptr) house_shown_ = house, revision_shown_ = keeper_.revision(), changed_at_ = at;
  step_shown_ = step, manner_shown_ = manner;
}

void HouseDesk::take_in_others() {
  if (!keeper_.changed_by_others()) return;
  if (tracing_ != nullptr) tracing_->session.adopt(keeper_.house()), tracing_->desk.next();
  board_.reset();
  publish();
  changes_.step();
}

void HouseDesk::keep(const std::string& what, const House& next, const std::string& key) {
  const std::int64_t before = keeper_.revision();
  try {
    keeper_(what, next, key);
  } catch (...) {
    start_again();
    throw;
  }
  if (key.empty() || keeper_.revision() != before) return;  // the file knows it
  if (keys_.size() >= kKeysOfARun) keys_.clear();
  keys_.insert(key);
}

/// What is in the sessions is not on disk: they go on from what is.
void HouseDesk::start_again() {
  board_.reset();
  try {
    (void)keeper_.changed_by_others();
  } catch (const Error&) {  // the fault before it is told
  }
  if (tracing_ != nullptr) tracing_ = std::make_unique<Tracing>(keeper_.house(), now_, changes_.step());
  publish();
  changes_.step();
}

bool HouseDesk::taken(const std::string& key) const { return !key.empty() && (keys_.contains(key) || file_.taken(key)); }

void HouseDesk::look_around() {
  const std::lock_guard held(desk_);
  try {
    take_in_others();
    if (tracing_ == nullptr) return;
    const Step before = tracing_->session.step();
    tracing_->session.now_is(now_());
    if (tracing_->session.step() == before) return;
    tracing_->desk.next();
    publish();
    changes_.step();
  } catch (const Error&) {  // whoever asks next is told
  }
}

HouseDesk::Json HouseDesk::survey() {
  const std::lock_guard held(desk_);
  take_in_others();
  Json json = survey_.now(keeper_.house());
  json["revision"] = keeper_.revision(), json["change"] = changes_.now();
  return json;
}

HouseDesk::Json HouseDesk::survey(const Device&, const Json& request) {
  const std::lock_guard held(desk_);
  take_in_others();
  const std::string key = request_key(request);
  Json said = Json::array();
  if (!taken(key)) {
    const House before = keeper_.house();
    const SurveyDesk::Change change = survey_.change(before, request);
    keep(change.what, change.result.house, key);
    survey_.kept(before, change);
    if (tracing_ != nullptr) tracing_->session.adopt(keeper_.house()), tracing_->desk.next();
    board_.reset();
    publish();
    changes_.step();
    for (const std::string& line : change.result.said) said.push_back(line);
  }
  Json json = survey_.now(keeper_.house());
  json["said"] = said, json["revision"] = keeper_.revision(), json["change"] = changes_.now();
  return json;
}

}  // namespace ohmstead::web

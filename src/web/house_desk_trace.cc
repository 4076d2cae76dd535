#include "house/error.h"
#include "json/json_line.h"
#include "trace/manner.h"
#include "web/house_desk_parts.h"

namespace ohmstead::web {

HouseDesk::Tracing& HouseDesk::tracing() {
  if (tracing_ == nullptr) tracing_ = std::make_unique<Tracing>(keeper_.house(), now_, changes_.now());
  return *tracing_;
}

HouseDesk::Json HouseDesk::trace_shown(const Device& device) const {
  const std::lock_guard held(show_);
  return {{"change", changes_.now()}, {"step", *step_shown_}, {"people", people_.list(device.number)}, {"manner", *manner_shown_}, {"revision", revision_shown_}};
}

HouseDesk::Json HouseDesk::trace(const Device& device) {
  bool ready = false;
  {
    const std::lock_guard held(show_);
    ready = step_shown_ != nullptr;
  }
  if (!ready) {
    const std::lock_guard held(desk_);
    take_in_others();
    (void)tracing();
    publish();
  }
  return trace_shown(device);
}

HouseDesk::Json HouseDesk::trace(const Device& device, const Json& request) {
  const std::lock_guard held(desk_);
  take_in_others();
  const std::string key = request_key(request);
  Tracing& now = tracing();
  now.options.who = device.name;
  Json answer;
  if (taken(key)) {
    answer = now.desk.step();
  } else if (auto told = now.desk.told(request)) {
    answer = std::move(*told);
  } else {
    const StepKind was = now.session.step().kind;
    const std::string what = now.desk.change(request);
    keep(what, now.session.house(), key);
    now.desk.next();
    board_.reset();
    if (was == StepKind::open || was == StepKind::close) {
      const std::lock_guard shown(show_);
      people_.handle_moved();
    }
    publish();
    changes_.step();
    answer = now.desk.step();
  }
  return {{"answer", std::move(answer)}, {"change", changes_.now()}};
}

/// With somebody at the panel and another in the rooms there is a helper; else there is none.
void HouseDesk::work_with_helper(bool helper) {
  Tracing& now = tracing();
  Manner manner = manner_of(keeper_.house());
  if (manner.helper == helper) return;
  manner.helper = helper;
  now.session.work_as(manner);
  keep(helper ? "Somebody stays at the panel" : "Nobody stays at the panel", now.session.house(), "");
  now.desk.next();
  board_.reset();
  publish();
}

HouseDesk::Json HouseDesk::stand(const Device& device, const Json& request) {
  const auto place = word_field<Standpoint>(request, "place");
  if (!place) throw refused_line("The field 'place' must be one of: " + word_list<Standpoint>() + ".");
  const bool ready = has_field(request, "ready") && flag_field(request, "ready");
  const std::lock_guard held(desk_);
  take_in_others();
  People next = people_;  // nobody else changes them while the desk is held
  const bool news = next.stand(device, *place, ready);
  if (news) work_with_helper(next.helper_at_panel());
  {
    const std::lock_guard shown(show_);
    people_ = next;
  }
  if (news) changes_.step();
  return {{"people", next.list(device.number)}, {"change", changes_.now()}};
}

void HouseDesk::leave(std::uint64_t device) {
  const std::lock_guard held(desk_);
  bool helper = false;
  {
    const std::lock_guard shown(show_);
    if (!people_.leave(device)) return;
    helper = people_.helper_at_panel();
  }
  try {
    take_in_others();
    work_with_helper(helper);
  } catch (const Error&) {  // the place is free all the same
  }
  changes_.step();
}

Standpoint HouseDesk::place_of(std::uint64_t device) const {
  const std::lock_guard held(show_);
  return people_.place_of(device);
}

}  // namespace ohmstead::web

#include "trace/diagnosis.h"

#include <algorithm>

#include "house/index.h"
#include "house/invariants.h"
#include "trace/diagnosis_board.h"

namespace ohmstead {

using trace_detail::DiagnosisBoard, trace_detail::DiagnosisGround, trace_detail::Judged;

namespace {

/// Does it trip by itself, so that its trips are kept?
bool can_trip(const House& house, const HandleRef& handle) {
  if (handle.kind == HandleKind::breaker || handle.kind == HandleKind::main || handle.kind == HandleKind::position_breaker) return true;
  const Handle* row_of = handle.kind == HandleKind::device ? find_row(house, Id<Handle>{handle.id}) : nullptr;
  const Device* device = row_of == nullptr ? nullptr : find_row(house, row_of->device);
  return device != nullptr && device->kind == DeviceKind::gfci_receptacle;
}

const char* words_of_before(Before before) {
  switch (before) {
    case Before::storm: return "after a storm";
    case Before::appliance_started: return "something was switched on";
    case Before::work_done: return "after work";
    case Before::to_backup: return "after the change to the backup source";
    case Before::not_known: break;
  }
  return "";
}

}  // namespace

House begin_diagnosis(House house, Diagnosis diagnosis, const DiagnosisStart& start) {
  if (start.dead.empty()) throw Error(ErrorKind::invalid_input, "Name what is dead; nothing was recorded.");
  for (Diagnosis& other : house.diagnoses) other.finished = true;
  if (!diagnosis.id) diagnosis.id = Id<Diagnosis>::fresh();
  house.diagnoses.push_back(diagnosis);
  const auto add = [&](LookAt what, LookSaw saw, Id<Point> point, const HandleRef& handle) {
    house.diagnosis_looks.push_back({Id<DiagnosisLook>::fresh(), diagnosis.id, what, point, handle, {}, saw, 0, diagnosis.at});
  };
  std::size_t complaints = 0;
  for (const Id<Point> point : start.dead) add(++complaints <= kMostComplaints ? LookAt::complaint : LookAt::point, LookSaw::dead, row(house, point).id, {});
  for (const Id<Point> point : start.live) add(LookAt::point, LookSaw::live, row(house, point).id, {});
  for (const HandleRef& handle : start.off) add(LookAt::handle, LookSaw::off, {}, handle);
  for (const HandleRef& handle : start.tripped) add(LookAt::handle, LookSaw::tripped, {}, handle);
  return house;
}

Id<Diagnosis> open_diagnosis(const House& house) {
  const auto found = std::ranges::find(house.diagnoses, false, &Diagnosis::finished);
  return found == house.diagnoses.end() ? Id<Diagnosis>{} : found->id;
}

struct DiagnosisSession::State {
  State(House start, Id<Diagnosis> which) : house(std::move(start)), id(which), ground(trace_detail::read_ground(house)) {
    (void)row(house, id);
    refresh();
  }

  House house;
  Id<Diagnosis> id;
  DiagnosisGround ground;
  Judged judged;
  std::vector<RankedCause> causes, singles;

  void refresh() {
    judged = trace_detail::judge(trace_detail::read_diagnosis_board(ground, house, id));
    causes.clear(), singles.clear();
    for (const std::size_t c : judged.ranked) causes.push_back({judged.causes.causes[c], judged.beliefs[c]});
    for (std::size_t c = 0; c < judged.causes.causes.size(); ++c) singles.push_back({judged.causes.causes[c], judged.beliefs[c]});
    Diagnosis& diagnosis = row(house, id);
    const bool over = judged.step.kind == DiagnosisStepKind::done;
    if (over && !diagnosis.finished) keep_trip(diagnosis);
    diagnosis.finished = over;
    diagnosis.came_to = over && !causes.empty() && judged.step.end != DiagnosisEnd::not_found ? cause_key(house, causes[0].cause) : "";
  }

  /// The handle that was found tripped, or that came back when it was reset without having been seen off.
  void keep_trip(const Diagnosis& diagnosis) {
    HandleRef tripped;
    std::string at = diagnosis.at;
    for (const DiagnosisLook& look : house.diagnosis_looks) {
      if (look.diagnosis != id || look.withdrawn || !can_trip(house, look.handle)) continue;
      if (look.what == LookAt::handle && look.saw == LookSaw::tripped) tripped = look.handle, at = look.at;
      if (look.what == LookAt::handle && look.saw == LookSaw::off && look.handle == tripped) tripped = {};
      if (look.what == LookAt::cure && look.saw == LookSaw::trips_again) tripped = look.handle, at = look.at;
      if (look.what == LookAt::cure && look.saw == LookSaw::works && !seen_off(look.handle)) tripped = look.handle, at = look.at;
    }
    const bool is_it = tripped && !causes.empty() && (causes[0].cause.handle == tripped || causes[0].cause.kind == CauseKind::two_faults);
    if (is_it) house.trips.push_back({Id<Trip>::fresh(), tripped, at, diagnosis.who, words_of_before(diagnosis.before), {}});
  }

  [[nodiscard]] bool seen_off(const HandleRef& handle) const {
    return std::ranges::any_of(house.diagnosis_looks, [&](const DiagnosisLook& look) {
      return look.diagnosis == id && !look.withdrawn && look.what == LookAt::handle && look.handle == handle && look.saw == LookSaw::off;
    });
  }

  /// Withdraws the trip that was kept when this diagnosis ended.
  void take_back_trip(const Diagnosis& diagnosis) {
    if (!diagnosis.finished) return;
    for (Trip& trip : house.trips) {
      const bool of_this = std::ranges::any_of(house.diagnosis_looks, [&](const DiagnosisLook& look) {
        return look.diagnosis == id && look.handle == trip.handle && look.at == trip.at;
      });
      if (of_this && !trip.round) trip.withdrawn = true;
    }
  }
};

DiagnosisSession::DiagnosisSession(House house, Id<Diagnosis> diagnosis) : state_(std::make_unique<State>(std::move(house), diagnosis)) {}
DiagnosisSession::~DiagnosisSession() = default;
DiagnosisSession::DiagnosisSession(DiagnosisSession&&) noexcept = default;
DiagnosisSession& DiagnosisSession::operator=(DiagnosisSession&&) noexcept = default;

const House& DiagnosisSession::house() const { return state_->house; }
const DiagnosisStep& DiagnosisSession::step() const { return state_->judged.step; }
const std::vector<RankedCause>& DiagnosisSession::causes() const { return state_->causes; }
const std::vector<RankedCause>& DiagnosisSession::singles() const { return state_->singles; }

std::vector<RankedCause> DiagnosisSession::settled() const {
  std::vector<RankedCause> first;
  for (const RankedCause& cause : state_->causes)
    if (cause.belief >= state_->causes[0].belief / 4) first.push_back(cause);
  return first;
}

std::size_t DiagnosisSession::looks() const {
  const DiagnosisBoard board = trace_detail::read_diagnosis_board(state_->ground, state_->house, state_->id);
  return board.clues.size() - board.complaints.size();
}

void DiagnosisSession::answer(const DiagnosisAnswer& answer) {
  const DiagnosisStep& step = state_->judged.step;
  LookSaw saw = answer.saw;
  const bool by_meter = answer.volts > 0 && step.kind == DiagnosisStepKind::look && step.meter;
  if (by_meter) saw = meaning_of_volts(answer.volts, volts_to_neutral(state_->house.dwelling.system));
  const std::vector<LookSaw> may = answers_of(step);
  if (std::ranges::find(may, saw) == may.end() || (answer.volts != 0 && !by_meter))
    throw Error(ErrorKind::invalid_input, "The step '" + std::string(text_of(step.kind)) + "' cannot be answered with '" + std::string(text_of(saw)) +
                                              "'" + (answer.volts != 0 ? " and volts" : "") + "; nothing was recorded.");
  if (answer.at.size() > kLongestName || answer.who.size() > kLongestName || answer.volts > 1000)
    throw Error(ErrorKind::invalid_input, "The time, the name or the volts given with this answer are too long; nothing was recorded.");
  DiagnosisLook look{Id<DiagnosisLook>::fresh(), state_->id, step.what, step.point, step.handle, step.source, saw, by_meter ? answer.volts : 0, answer.at};
  state_->house.diagnosis_looks.push_back(look);
  state_->refresh();
}

bool DiagnosisSession::undo() {
  auto& looks = state_->house.diagnosis_looks;
  const auto last = std::find_if(looks.rbegin(), looks.rend(), [&](const DiagnosisLook& look) {
    return look.diagnosis == state_->id && !look.withdrawn && look.what != LookAt::complaint;
  });
  if (last == looks.rend()) return false;
  state_->take_back_trip(row(state_->house, state_->id));
  last->withdrawn = true;
  row(state_->house, state_->id).finished = false;
  state_->refresh();
  return true;
}

}  // namespace ohmstead

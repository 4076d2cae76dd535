#include "trace/diagnosis_board.h"

#include <algorithm>

#include "house/index.h"
#include "house/walking.h"
#include "trace/behind.h"
#include "trace/behind_found.h"
#include "trace/conclude.h"

namespace ohmstead::trace_detail {

namespace {

template <class Row>
std::size_t place(const std::vector<Row>& table, Id<Row> id) {
  return static_cast<std::size_t>(std::ranges::find(table, id, &Row::id) - table.begin());
}

bool tells(LookSaw saw) { return saw != LookSaw::not_sure && saw != LookSaw::skip && saw != LookSaw::done; }

std::size_t room_of_point(const House& house, std::size_t point) {
  const std::size_t room = place(house.rooms, house.points[point].room);
  return room < house.rooms.size() ? room : 0;
}

/// Seconds for the look itself (common practice, no source).
double seconds_at(const DiagnosisBoard& board, const LookQuestion& question) {
  const House& house = board.ground.house;
  switch (question.what) {
    case LookAt::complaint:
    case LookAt::point:
      if (question.meter) return 25;
      return house.points[question.point].kind == PointKind::light ? 5 : house.points[question.point].kind == PointKind::receptacle ? 30 : 15;
    case LookAt::other_lamp: return house.points[question.point].kind == PointKind::light ? 120 : 40;
    case LookAt::handle: return board.ground.graph.handles[question.handle].ref.kind == HandleKind::device ? 5 : 20;
    case LookAt::neighbors: return 25;
    case LookAt::source: return 30;
    case LookAt::caution:
    case LookAt::cure: break;
  }
  return 30;
}

/// Where it is looked at; here for what is seen from anywhere.
std::size_t room_of(const DiagnosisBoard& board, const LookQuestion& question) {
  switch (question.what) {
    case LookAt::complaint:
    case LookAt::point:
    case LookAt::other_lamp: return room_of_point(board.ground.house, question.point);
    case LookAt::handle:
    case LookAt::cure: return room_of_handle(board.ground.house, board.ground.graph.handles[question.handle].ref);
    default: break;
  }
  return board.here;
}

/// Handles whose stand can be seen: a group of wall switches cannot, neither of its throws is 'off'.
bool can_be_read(const House& house, const HandleRef& ref) {
  if (ref.kind != HandleKind::device) return true;
  const Handle* handle = find_row(house, Id<Handle>{ref.id});
  return handle != nullptr && std::ranges::count(house.handles, handle->device, &Handle::device) == 1;
}

}  // namespace

DiagnosisGround read_ground(const House& house) {
  DiagnosisGround ground{house_as_found(house).house, {}, {}, walking_seconds(house)};
  ground.feeds = conclude(ground.house);
  ground.graph = build_graph(ground.house, ground.feeds);
  return ground;
}

LookQuestion DiagnosisBoard::at_handle(LookAt what, std::uint32_t handle) const {
  return {.what = what, .handle = handle, .usual = stand_of(ground.graph.handles[handle], base.throws[handle])};
}

LookQuestion DiagnosisBoard::question_of(const DiagnosisLook& look) const {
  LookQuestion question{look.what, 0, 0, 0, look.volts > 0};
  if (look.point) question.point = place(ground.house.points, look.point);
  if (look.handle && (look.what == LookAt::handle || look.what == LookAt::cure)) question = at_handle(look.what, ground.graph.handle_of(look.handle));
  if (look.source) question.source = static_cast<int>(place(ground.house.sources, look.source)) + 1;
  return question;
}

int DiagnosisBoard::asked(const LookQuestion& question) const {
  int times = 0;
  for (const DiagnosisLook& look : looks) {
    LookQuestion other = question_of(look);
    other.meter = question.meter;
    if (other == question) times += tells(look.saw) ? 1 : 2;
  }
  return times;
}

DiagnosisBoard read_diagnosis_board(const DiagnosisGround& ground, const House& house, Id<Diagnosis> id) {
  DiagnosisBoard board{ground, row(house, id), usual_state(ground.graph), 0, {}, {}, {}, 0};
  if (board.diagnosis.source) {
    const std::size_t source = place(ground.house.sources, board.diagnosis.source);
    board.base = backup_state(ground.house, ground.graph, source);
    board.source = static_cast<int>(source) + 1;
  }
  for (const DiagnosisLook& look : house.diagnosis_looks) {
    if (look.diagnosis != id || look.withdrawn) continue;
    board.looks.push_back(look);
    const LookQuestion question = board.question_of(look);
    if (look.what == LookAt::complaint) board.complaints.push_back(question.point);
    if (look.what != LookAt::caution && tells(look.saw)) board.clues.push_back({question, look.saw});
    if (look.what != LookAt::caution && (look.what != LookAt::complaint || board.complaints.size() == 1)) board.here = room_of(board, question);
  }
  return board;
}

double seconds_for(const DiagnosisBoard& board, const LookQuestion& question) {
  const std::size_t there = room_of(board, question);
  const bool known = board.here < board.ground.walk.size() && there < board.ground.walk.size();
  return kAskSeconds + seconds_at(board, question) + (known ? board.ground.walk[board.here][there] : 0);
}

std::vector<LookQuestion> questions_of(const DiagnosisBoard& board, const Causes& causes) {
  constexpr int kMostTimes = 2;  // one look can be false
  const House& house = board.ground.house;
  const Graph& graph = board.ground.graph;
  std::vector<LookQuestion> questions;
  const auto add = [&](const LookQuestion& question) {
    if (board.asked(question) < kMostTimes) questions.push_back(question);
  };
  for (std::size_t p = 0; p < house.points.size(); ++p) {
    const bool complaint = std::ranges::find(board.complaints, p) != board.complaints.end();
    const bool plugged = house.points[p].kind == PointKind::light || house.points[p].kind == PointKind::receptacle;
    if (complaint && plugged && house.points[p].hots == 1 && causes.base[p] == WouldBe::live) add({.what = LookAt::other_lamp, .point = p});
    if (complaint || causes.base[p] == WouldBe::unknown) continue;
    add({.what = LookAt::point, .point = p, .meter = board.diagnosis.meter && house.points[p].kind == PointKind::receptacle && house.points[p].hots == 1});
  }
  std::vector<std::uint32_t> handles;
  for (const Scenario& scenario : causes.scenarios)
    for (const HandleStand& stand : scenario.handles) handles.push_back(stand.group);
  std::ranges::sort(handles);
  handles.erase(std::ranges::unique(handles).begin(), handles.end());
  for (const std::uint32_t group : handles) {
    const auto first = std::ranges::find(graph.handles, group, &GraphHandle::group);
    if (can_be_read(house, first->ref)) add(board.at_handle(LookAt::handle, static_cast<std::uint32_t>(first - graph.handles.begin())));
  }
  if (board.base.live_legs[0] != 0) add({.what = LookAt::neighbors});
  if (board.source > 0) add({.what = LookAt::source, .source = board.source});
  return questions;
}

}  // namespace ohmstead::trace_detail

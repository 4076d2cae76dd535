#include "outage_story.h"

#include <algorithm>
#include <stdexcept>

#include "survey/entry.h"

namespace ohmstead {

namespace {

House entered(const std::string& text) {
  House house;
  house.dwelling.id = Id<Dwelling>::fresh();
  house = enter_text(house, text).house;
  for (Load& load : house.loads) {
    if (load.name == "kettle") load.use = LoadUse::on_demand;
    if (load.name == "television" || load.name == "heater") load.use = LoadUse::together;
  }
  return house;
}

std::string with_space(const std::string& text) { return text.empty() ? "" : " " + text; }

}  // namespace

OutageStory::OutageStory(const std::string& text) : OutageStory(entered(text)) {}

OutageStory::OutageStory(House house) {
  feeds_ = declared_feeds(house);
  board_.emplace(std::move(house), feeds_, 0);
}

std::string OutageStory::name_of(const HandleRef& handle) const {
  if (handle.kind == HandleKind::main) return "main";
  if (handle.kind == HandleKind::position)
    for (const Position& position : house().positions)
      if (position.id.value == handle.id) return "T" + std::to_string(position.number);
  for (const Breaker& breaker : house().breakers)
    if (breaker.id.value == handle.id) return std::to_string(breaker.space);
  return "?";
}

HandleRef OutageStory::handle(const std::string& name) const {
  for (const GraphHandle& one : board_->gear().graph.handles)
    if (one.ref && one.ref.kind != HandleKind::position_breaker && name_of(one.ref) == name) return one.ref;
  throw std::runtime_error("no handle " + name);
}

Id<Load> OutageStory::load(const std::string& name) const {
  const auto found = std::ranges::find(house().loads, name, &Load::name);
  if (found == house().loads.end()) throw std::runtime_error("no load " + name);
  return found->id;
}

std::size_t OutageStory::point(const std::string& name) const {
  for (std::size_t p = 0; p < house().points.size(); ++p)
    for (const Room& room : house().rooms)
      if (room.id == house().points[p].room && room.name + " " + house().points[p].name == name) return p;
  throw std::runtime_error("no point " + name);
}

std::string OutageStory::time() {
  const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  ++minute_;
  return "2026-11-27T" + two(18 + minute_ / 60) + ":" + two(minute_ % 60) + ":00Z";
}

std::string OutageStory::step() const {
  const OutageStep& step = board_->step();
  std::string text(text_of(step.kind));
  if (step.kind == OutageStepKind::move) {
    std::string handles;
    for (const HandleRef& one : step.handles) handles += (handles.empty() ? "" : "+") + name_of(one);
    const bool position = step.handles.front().kind == HandleKind::position;
    text = handles + (step.to == 0 ? " off" : step.to == 2 ? " backup" : position ? " utility" : " on");
  }
  std::string things;
  for (const Id<Load> load : step.loads)
    for (const Load& row : house().loads)
      if (row.id == load) things += (things.empty() ? "" : ", ") + row.name;
  for (const std::string& guest : step.guests) things += (things.empty() ? "" : ", ") + guest;
  return text + (things.empty() ? "" : ":") + with_space(things);
}

std::string OutageStory::done() {
  board_->answer({OutageAnswerKind::done, time()});
  return step();
}

std::string OutageStory::no(const std::string& which) {
  OutageAnswer answer{OutageAnswerKind::no, time()};
  if (!which.empty()) answer.handle = handle(which);
  board_->answer(answer);
  return step();
}

std::string OutageStory::tell(OutageEvent event) {
  event.at = time();
  board_->tell(std::move(event));
  return step();
}

std::string OutageStory::moved(const std::string& name, int to) { return tell({.kind = OutageEventKind::moved, .handle = handle(name), .stands = to}); }
std::string OutageStory::on(const std::string& name) { return tell({.kind = OutageEventKind::load_on, .load = load(name)}); }
std::string OutageStory::off(const std::string& name) { return tell({.kind = OutageEventKind::load_off, .load = load(name)}); }
std::string OutageStory::guest(const std::string& name, const std::string& where, int watts) {
  return tell({.kind = OutageEventKind::load_on, .point = house().points[point(where)].id, .running_watts = watts, .text = name});
}

std::string OutageStory::follow() {
  std::string steps;
  while (!is_settled(board_->step().kind)) {
    steps += step() + "\n";
    done();
  }
  return steps;
}

}  // namespace ohmstead

#include "db/json_reader.h"

#include <algorithm>
#include <set>

#include "house/error.h"

namespace ohmstead {

using nlohmann::json;

namespace {

[[noreturn]] void refuse(const std::string& sentence) { throw Error(ErrorKind::invalid_input, sentence); }

/// Follows the parser and knows where it is.
class Limits {
 public:
  explicit Limits(int deepest) : deepest_(deepest) {}

  bool operator()(int, json::parse_event_t event, const json& parsed) {
    switch (event) {
      case json::parse_event_t::object_start: open(false); break;
      case json::parse_event_t::array_start: open(true); break;
      case json::parse_event_t::object_end:
      case json::parse_event_t::array_end: open_.pop_back(); [[fallthrough]];
      case json::parse_event_t::value:
        if (!open_.empty() && open_.back().is_array) ++open_.back().index;
        break;
      case json::parse_event_t::key: key(parsed.get_ref<const std::string&>()); break;
    }
    return true;
  }

 private:
  struct Frame {
    bool is_array;
    std::size_t index = 0;
    std::string key = {};
    std::set<std::string> keys = {};
  };
  void open(bool is_array) {
    if (static_cast<int>(open_.size()) >= deepest_)
      refuse("The document is nested more than " + std::to_string(deepest_) + " deep at " + path() + ".");
    open_.push_back({is_array});
  }
  void key(const std::string& name) {
    Frame& frame = open_.back();
    if (!frame.keys.insert(name).second) {
      frame.key.clear();
      refuse("The key '" + for_message(name) + "' is given twice in " + path() + ".");
    }
    frame.key = name;
  }
  [[nodiscard]] std::string path() const {
    std::string text;
    for (const Frame& frame : open_) {
      if (frame.is_array) text += "[" + std::to_string(frame.index) + "]";
      else if (!frame.key.empty()) text += (text.empty() ? "" : ".") + for_message(frame.key);
    }
    return text.empty() ? "the document" : text.substr(0, 300);
  }

  int deepest_;
  std::vector<Frame> open_;
};

}  // namespace

std::string for_message(std::string_view text) {
  std::string shown(text.substr(0, 60));
  for (char& c : shown)
    if (static_cast<unsigned char>(c) < 0x20 || static_cast<unsigned char>(c) >= 0x7f) c = '?';
  return text.size() > 60 ? shown + "..." : shown;
}

json parse_json(std::string_view text, int deepest) {
  try {
    Limits limits(deepest);
    return json::parse(text.begin(), text.end(), std::ref(limits));
  } catch (const json::parse_error& e) {
    const std::string_view before = text.substr(0, std::min(text.size(), e.byte == 0 ? 0 : e.byte - 1));
    const auto line = std::ranges::count(before, '\n') + 1;
    const auto start = before.rfind('\n');
    const std::size_t column = before.size() - (start == std::string_view::npos ? 0 : start + 1) + 1;
    refuse("The document is not JSON: something is wrong in line " + std::to_string(line) + ", column " +
           std::to_string(column) + ".");
  } catch (const json::exception&) {
    refuse("The document holds a number that is too large.");
  }
}

}  // namespace ohmstead

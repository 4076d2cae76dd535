#pragma once
// What was put on paper, so that it can be said later whether a sheet or label is still true.

#include <string>

#include "house/id.h"

namespace ohmstead {

/// One sheet or label that was printed.
struct Printed {
  static constexpr const char* kTable = "printed";
  Id<Printed> id;
  std::string item;   ///< which one, the same at each printing: "directory:PANEL", "plate:POINT"
  std::string name;   ///< as people call it: "directory of Main"
  std::string words;  ///< the command that printed it, as a JSON list of its words without the file and the date
  std::string at;     ///< UTC
  int revision = 0;   ///< of the record then
  std::string code;   ///< six signs that stand on it; another text has another code (print/check_code.h)
  bool operator==(const Printed&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("item", s.item), f("name", s.name), f("words", s.words), f("at", s.at), f("revision", s.revision), f("code", s.code);
  }
};

}  // namespace ohmstead

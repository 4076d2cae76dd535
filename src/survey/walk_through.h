#pragma once
// The interactive survey: walks the house, room by room, then the panels. A state machine with no
// input or output: it says what to ask, takes an answer, and has the next house. Terminal, page
// and tests drive this one machine.

#include <string>
#include <string_view>
#include <vector>

#include "survey/entry.h"

namespace ohmstead {

/// What is asked now.
struct WalkQuestion {
  std::string ask;    ///< "What is in Kitchen?"
  std::string help;   ///< a few words on how to answer, with an example
  std::string empty;  ///< what an empty answer means: "4 receptacles, 1 light", "no more rooms"
};

class WalkThrough {
 public:
  /// Starts at the rooms. A house that is written down in part is walked for what is missing:
  /// only rooms without points are asked for. Precondition: the house is sound.
  explicit WalkThrough(House house);

  [[nodiscard]] const House& house() const { return now_.house; }
  [[nodiscard]] bool done() const { return now_.stage == Stage::done; }
  /// Precondition: not done.
  [[nodiscard]] WalkQuestion question() const;

  /// Takes one answer, in the words of docs/quick-entry.md, and goes on to the next question. Says
  /// what was understood. Throws Error{invalid_input}; the question then stands as before.
  std::vector<std::string> answer(std::string_view words);
  /// Leaves this part (the rooms, a room, a column, the panels) as it is and goes on.
  void skip();
  /// Takes the last answer back. False when there is none.
  bool undo();

 private:
  enum class Stage { rooms, contents, panels, left_column, right_column, done };

  struct Moment {
    House house;
    Stage stage = Stage::rooms;
    std::string building_line, floor_line;  ///< of the rooms being written
    std::vector<Id<Room>> left;             ///< rooms still to be asked for, the next one last
    Id<Panel> panel;
  };

  static void enter(Moment& next, EntryResult result, std::vector<std::string>& said);
  void answer_rooms(Moment& next, std::string_view words, std::vector<std::string>& said) const;
  void answer_contents(Moment& next, const std::string& words, std::vector<std::string>& said) const;
  void answer_panel(Moment& next, const std::string& words, std::vector<std::string>& said) const;
  void answer_column(Moment& next, const std::string& words, std::vector<std::string>& said) const;
  static void go_on(Moment& next);
  [[nodiscard]] WalkQuestion ask_contents() const;
  [[nodiscard]] WalkQuestion ask_column() const;

  Moment now_;
  std::vector<Moment> before_;  ///< for undo, the oldest forgotten after kMostUndo
};

}  // namespace ohmstead

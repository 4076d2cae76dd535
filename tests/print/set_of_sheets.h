#pragma once
// Every sheet that `ohmstead print --to` makes for a house, with the codes that can be asked for, too: as it is drawn and as a PDF, with the texts of its codes.

#include <memory>
#include <string>
#include <vector>

#include "ask/location.h"
#include "ask/record.h"
#include "print/recording_canvas.h"

namespace ohmstead::test {

struct SheetOfSet {
  std::string name;  ///< "directory", "plates", "wall"
  std::string pdf;
  std::vector<std::string> code_texts;
  RecordingCanvas canvas;
};
using SetOfSheets = std::vector<std::unique_ptr<SheetOfSet>>;

/// The sample house as traced, with the best plan kept. Made once.
[[nodiscard]] const Record& planned_sample();

/// What hangs on walls, doors and plates, all of it with codes for this place: directories, plates, plan and wall sheet.
[[nodiscard]] SetOfSheets sheets_for(const Record& record, Location location);

/// Directories, by room, labels, papers, copy: on letter paper, with check codes in their places.
[[nodiscard]] SetOfSheets set_of_sheets(const Record& record);
/// Those of any house: without the papers of a plan and without the copy.
[[nodiscard]] SetOfSheets sheets_without_plan(const Record& record);

}  // namespace ohmstead::test

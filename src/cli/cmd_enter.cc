#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "survey/entry.h"

namespace ohmstead {

int run_enter(Session& session, const Arguments& arguments) {
  constexpr std::size_t kMostBytes = 1'000'000;
  std::string text;
  for (const std::string& line : arguments.texts("--line")) text += line + "\n";
  if (text.empty()) text = read_all(session, arguments.text("FILE", "-"), kMostBytes);
  EntryResult result;
  HouseFile file = open_house(session, Access::change);
  const auto revision = file.change("entered", [&](House& house) {
    result = enter_text(house, text);
    house = result.house;
  });
  for (const std::string& said : result.said) session.out << terminal::printable(said) << '\n';
  if (revision == file.revision() && result.said.empty()) session.out << "Nothing was entered.\n";
  else session.out << "Saved as revision " << revision << ".\n";
  return kDone;
}

}  // namespace ohmstead

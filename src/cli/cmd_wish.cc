#include <ostream>

#include "ask/wish.h"
#include "cli/exit_code.h"
#include "json/json_backup.h"
#include "cli/open_house.h"
#include "cli/run.h"

namespace ohmstead {

int run_wish(Session& session, const Arguments& arguments) {
  const std::string text = phrase(arguments.texts("WISH"));
  if (text.empty()) {
    const House house = open_house(session, Access::read).load();
    const Names names(house);
    if (session.json) session.out << json_of_wishes(house, names);
    else show(session, words_of_wishes(house, names));
    return kDone;
  }
  HouseFile file = open_house(session, Access::change);
  Wished wished;
  House before;
  const auto revision = file.change("wishes for an outage", [&](House& house) {
    wished = with_wishes(house, Names(house), text);
    before = house;
    house = wished.house;
  });
  const Names names(wished.house);
  if (session.json) {
    session.out << json_of_wishes(wished.house, names);
    return kDone;
  }
  show(session, words_of_life_safety_given_up(before, wished));
  show(session, words_of_wishes(wished.house, names, wished.loads));
  session.out << "Saved as revision " << revision << ".\n";
  return kDone;
}

}  // namespace ohmstead

#include <ostream>

#include "ask/wish.h"
#include "cli/exit_code.h"
#include "cli/json_backup.h"
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
  const auto revision = file.change("wishes for an outage", [&](House& house) {
    wished = with_wishes(house, Names(house), text);
    house = wished.house;
  });
  show(session, words_of_wishes(wished.house, Names(wished.house), wished.loads));
  session.out << "Saved as revision " << revision << ".\n";
  return kDone;
}

}  // namespace ohmstead

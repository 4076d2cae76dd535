#include "cli/keeper.h"

#include "house/error.h"

namespace ohmstead {

void Keeper::operator()(const std::string& what, const House& next) {
  file_.change(what, [&](House& house) {
    if (house != kept_)
      throw Error(ErrorKind::conflict, "Another program changed this house meanwhile, so the last answer was not saved. Start again: everything saved before is there.");
    house = next;
  });
  kept_ = next;
}

}  // namespace ohmstead

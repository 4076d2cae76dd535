#include "cli/keeper.h"

#include <utility>

#include "house/error.h"

namespace ohmstead {

bool Keeper::changed_by_others() {
  const std::int64_t revision = file_.revision();
  House now = file_.load();
  revision_ = revision;
  if (now == kept_) return false;
  kept_ = std::move(now);
  return true;
}

void Keeper::operator()(const std::string& what, const House& next) {
  revision_ = file_.change(what, [&](House& house) {
    if (house != kept_)
      throw Error(ErrorKind::conflict, "Another program changed this house meanwhile, so the last answer was not saved. Start again: everything saved before is there.");
    house = next;
  });
  kept_ = next;
}

}  // namespace ohmstead

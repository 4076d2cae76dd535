#pragma once
// Which answers of a diagnosis can be: a bulb is not found tripped. Answers that were imported are held to it, too.

#include "house/trouble.h"

namespace ohmstead {

/// Can this be seen where it was looked at?
constexpr bool can_be_seen(LookAt what, LookSaw saw) {
  const auto between = [&](LookSaw first, LookSaw last) { return saw >= first && saw <= last; };
  if (what == LookAt::complaint) return saw == LookSaw::dead;
  if (saw == LookSaw::not_sure || saw == LookSaw::skip) return true;
  switch (what) {
    case LookAt::handle: return between(LookSaw::off, LookSaw::backup);
    case LookAt::neighbors:
    case LookAt::source: return between(LookSaw::yes, LookSaw::no);
    case LookAt::caution: return saw == LookSaw::done;
    case LookAt::cure: return between(LookSaw::works, LookSaw::trips_again);
    default: break;
  }
  return between(LookSaw::dead, LookSaw::bright);
}

}  // namespace ohmstead

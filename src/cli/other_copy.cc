#include "cli/other_copy.h"

#include "cli/open_house.h"
#include "db/interchange.h"
#include "db/merge_base.h"
#include "db/record_in_page.h"

namespace ohmstead {

OtherCopy read_other_copy(Session& session, const std::string& path) {
  if (path.size() > 6 && path.ends_with(".house")) return read_stranger_copy(path);
  const std::string text = read_all(session, path, kLongestDocument);
  Pictures pictures;
  OtherCopy copy = copy_of_document(is_page(text) ? house_from_page(text) : house_from_json(text, &pictures));
  copy.pictures = std::move(pictures);
  return copy;
}

}  // namespace ohmstead

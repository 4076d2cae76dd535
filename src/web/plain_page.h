#pragma once
// Internal to hand_over: the page that is read without scripts, made from the house view.

#include <nlohmann/json.hpp>
#include <string>

#include "house/house.h"

namespace ohmstead::web::plain_page {

using Json = nlohmann::ordered_json;

struct PlainInput {
  const Json& view;   ///< made for a file
  const House& house; ///< for its notes
  std::string date;
  std::string digest; ///< of the record
  Json findings;      ///< lines: what the rules of the trade find in the record
  const Pictures& pictures; ///< smaller ones are shown, as far as there is room
};

/// Everything inside `<div id="paper">`.
[[nodiscard]] std::string plain_page(const PlainInput& in);
[[nodiscard]] std::string title_of(const Json& view);
/// Its style, for screens, for the dark and for paper.
[[nodiscard]] std::string_view plain_style();

// The parts, each a section with a head (plain_outage.cc, plain_panels.cc, plain_rooms.cc, plain_handles.cc).
[[nodiscard]] std::string outage_part(const Json& view);
[[nodiscard]] std::string plan_part(const Json& view);
[[nodiscard]] std::string panels_part(const Json& view);
[[nodiscard]] std::string rooms_part(const Json& view);
[[nodiscard]] std::string handles_part(const Json& view);
[[nodiscard]] std::string notes_part(const PlainInput& in);
[[nodiscard]] std::string photos_part(const PlainInput& in);

/// `<section id="at-ID"><h2>TITLE</h2>INNER</section>`
[[nodiscard]] std::string section(const std::string& id, const std::string& title, const std::string& inner);
/// Lines of an answer; what a line introduces as a list, of `list` ("ul", "ol").
[[nodiscard]] std::string lines_html(const Json& lines, const char* list = "ul");
/// `<th scope="col">`
[[nodiscard]] std::string column_head(const std::string& text);
/// "breaker:123" as the id of an element: "at-breaker-123".
[[nodiscard]] std::string handle_anchor(const Json& handle);
/// A link to a handle by its place in the view's handles; the text alone for null.
[[nodiscard]] std::string handle_link(const Json& view, const Json& handle, const std::string& text);

}  // namespace ohmstead::web::plain_page

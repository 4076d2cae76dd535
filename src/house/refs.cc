#include "house/refs.h"

#include "house/id.h"

namespace ohmstead {

namespace {

/// Kind and id of a text `kind:id`.
template <class Ref, class Kind>
std::optional<Ref> parse_ref(std::string_view text) {
  const auto colon = text.find(':');
  if (colon == std::string_view::npos) return std::nullopt;
  const auto kind = parse_enum<Kind>(text.substr(0, colon));
  const auto id = parse_id(text.substr(colon + 1));
  if (!kind || !id || *kind == Kind{}) return std::nullopt;
  return Ref{*kind, *id};
}

}  // namespace

std::string text_of_ref(const HandleRef& ref) {
  return ref ? std::string(text_of(ref.kind)) + ":" + id_text(ref.id) : std::string();
}

std::string text_of_ref(const ThingRef& ref) {
  return ref.kind == ThingKind::house ? "house" : std::string(text_of(ref.kind)) + ":" + id_text(ref.id);
}

std::optional<HandleRef> parse_handle_ref(std::string_view text) {
  return text.empty() ? HandleRef{} : parse_ref<HandleRef, HandleKind>(text);
}

std::optional<ThingRef> parse_thing_ref(std::string_view text) {
  return text == "house" ? ThingRef{} : parse_ref<ThingRef, ThingKind>(text);
}

}  // namespace ohmstead

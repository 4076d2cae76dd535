#include "house/refs.h"

#include <gtest/gtest.h>

#include <string>

namespace ohmstead {
namespace {

TEST(HandleRef, every_kind_survives_its_text) {
  for (std::size_t kind = 1; kind < words_of(HandleKind{}).size(); ++kind) {
    const HandleRef ref{static_cast<HandleKind>(kind), 77};
    EXPECT_EQ(parse_handle_ref(text_of_ref(ref)), ref) << text_of_ref(ref);
  }
  EXPECT_EQ(text_of_ref(HandleRef{HandleKind::position_breaker, 1}), "position_breaker:000000000001");
  EXPECT_EQ(text_of_ref(HandleRef{}), "");
  EXPECT_EQ(parse_handle_ref(""), HandleRef{});
}

TEST(ThingRef, every_kind_survives_its_text) {
  for (std::size_t kind = 1; kind < words_of(ThingKind{}).size(); ++kind) {
    const ThingRef ref{static_cast<ThingKind>(kind), 77};
    EXPECT_EQ(parse_thing_ref(text_of_ref(ref)), ref) << text_of_ref(ref);
  }
  EXPECT_EQ(text_of_ref(ThingRef{}), "house");
  EXPECT_EQ(parse_thing_ref("house"), ThingRef{});
}

TEST(Refs, refuse_texts_that_are_not_one) {
  for (const char* text : {"breaker", "breaker:", ":000000000001", "breaker:1", "breaker:000000000000", "none:000000000001",
                           "Breaker:000000000001", "breaker:000000000001 ", "room:000000000001", "breaker::00000000001"})
    EXPECT_EQ(parse_handle_ref(text), std::nullopt) << text;
  for (const char* text : {"", "house:000000000001", "main:000000000001", "room:", "room", "room:00000000000i"})
    EXPECT_EQ(parse_thing_ref(text), std::nullopt) << text;
}

}  // namespace
}  // namespace ohmstead

#include "ask/saw_clauses.h"

#include <gtest/gtest.h>

#include <random>

namespace ohmstead {
namespace {

/// "off 12+14 | dead hall | ? whatever": kinds and names, then what was not understood.
std::string cut(std::string_view text) {
  const char* words[] = {"handle", "off", "dead", "live"};
  std::string out;
  const SawClauses clauses = saw_clauses(text);
  for (const SawClause& clause : clauses.understood) {
    out += (out.empty() ? "" : " | ") + std::string(words[static_cast<std::size_t>(clause.kind)]) + " ";
    for (const std::string& name : clause.names) out += (&name == &clause.names.front() ? "" : "+") + name;
  }
  for (const std::string& bad : clauses.not_understood) out += (out.empty() ? "? " : " | ? ") + bad;
  return out;
}

struct Case {
  const char* said;
  const char* read;
};

TEST(SawClauses, what_is_understood) {
  const Case cases[] = {
      {"12 tripped, and the hall went dark; kitchen still on", "handle 12 | dead hall | live kitchen"},
      {"Breaker 12 has tripped and the Hall lights went out.", "handle breaker 12 | off hall lights"},
      {"12 and 14 tripped, hall dead", "handle 12+14 | dead hall"},
      {"12, 14 & 16 off: hall dark", "off 12+14+16 | dead hall"},
      {"with 12 off the freezer still works", "live 12 off the freezer"},  // no cut: refused by its name later
      {"with 12 off, the freezer still works", "off 12 | live freezer"},
      {"when 12 tripped the whole hall lost power", "dead 12 tripped the whole hall"},
      {"12 was turned off, all of the hall is without power", "handle 12 | dead hall"},
      {"hall and kitchen are dark but bath is on", "dead hall+kitchen | live bath"},
      {"the dishwasher stopped working, the freezer is not working", "dead dishwasher | dead freezer"},
      {"dishwasher doesn't work again", "dead dishwasher"},
      {"kitchen has no power, hall has power", "dead kitchen | live hall"},
      {"Main 12 out\nhall dark", "off main 12 | dead hall"},
      {"table saw dead", "dead table saw"},
  };
  for (const Case& one : cases) EXPECT_EQ(cut(one.said), one.read) << one.said;
}

TEST(SawClauses, what_is_never_guessed_at) {
  const Case cases[] = {
      {"hall did not go dark", "? hall did not go dark"},
      {"the hall is not dead", "? the hall is not dead"},
      {"hall isn't on", "? hall isn't on"},
      {"hall no longer works", "? hall no longer works"},
      {"hall will not work", "? hall will not work"},
      {"neither hall and kitchen dark", "? neither hall, kitchen dark"},
      {"hall or kitchen dark", "? hall or kitchen dark"},
      {"maybe 12 tripped, hall dark", "dead hall | ? maybe 12 tripped"},
      {"everything except the hall went dark", "? everything except the hall went dark"},
      {"hall dark, then it came back on", "dead hall | ? then it came back on"},
      {"the hall", "? the hall"},
      {"dark", "? dark"},
      {"everything went dark", "? everything went dark"},
      {"off and on", "? off | ? on"},
      {"is the hall dark?", "? is the hall dark?"},
  };
  for (const Case& one : cases) EXPECT_EQ(cut(one.said), one.read) << one.said;
  EXPECT_EQ(cut(""), "");
  EXPECT_EQ(cut(" ,;, and . "), "");
}

TEST(SawClauses, went_off_is_marked_because_an_alarm_sounds_when_it_goes_off) {
  EXPECT_TRUE(saw_clauses("smoke alarm went off").understood.at(0).went_off);
  EXPECT_FALSE(saw_clauses("smoke alarm is off").understood.at(0).went_off);
}

TEST(SawClauses, one_clause_takes_a_name_as_it_stands) {
  EXPECT_EQ(one_saw_clause("the Sewing and guest room is dark")->names.at(0), "sewing and guest room");
  EXPECT_FALSE(one_saw_clause("hall not dark"));
  EXPECT_FALSE(one_saw_clause("hall"));
}

TEST(SawClauses, every_word_ends_in_one_clause_or_in_what_was_not_understood) {
  const char* words[] = {"12", "hall", "and", ",", ";", "dark", "on", "off", "tripped", "not", "the", "went", "kitchen", "still", "\x1b", "\xff", "but", "works", "."};
  std::mt19937 random(3);
  for (int round = 0; round < 3000; ++round) {
    std::string text;
    int halls = 0, seen = 0;
    for (auto i = random() % 12; i > 0; --i) {
      const std::string word = words[random() % std::size(words)];
      text += word + " ";
      halls += word == "hall";
    }
    const auto count = [&](const std::string& part) {
      for (std::size_t at = part.find("hall"); at != std::string::npos; at = part.find("hall", at + 1)) ++seen;
    };
    const SawClauses clauses = saw_clauses(text);
    for (const SawClause& clause : clauses.understood) {
      EXPECT_FALSE(clause.names.empty());
      for (const std::string& name : clause.names) {
        count(name);
        EXPECT_EQ(name.find("not"), std::string::npos) << text;
      }
    }
    for (const std::string& bad : clauses.not_understood) count(bad);
    EXPECT_EQ(seen, halls) << text;
  }
}

}  // namespace
}  // namespace ohmstead

#include "ask/proving_words.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "survey/entry.h"

namespace ohmstead {
namespace {

using ::testing::AllOf;
using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

class ProvingWords : public ::testing::Test {
 protected:
  ProvingWords() {
    house.dwelling.id = Id<Dwelling>::fresh();
    house = enter_text(house, "Kitchen: 2r, 1l\nBedroom: oxygen concentrator 350 W !! hurt\nHall: 1l, 1r\nYard: well pump 240 V\n"
                              "Panel Main in Hall, 20 spaces, 100 A main: 1 20; 3 15; 5 15; 2+4 20; 6 15; 8 15\n"
                              "Generator G 3500/4500 W 120/240\n"
                              "Transfer T in Hall, 6 positions, from G: 1 15 L1 <- Main 3; 2 15 L2 <- Main 1; 3+4 20 <- Main 2+4; 5 15 L1 <- Main 5\n"
                              "Kitchen receptacle 1 <- Main 1 by J.\nKitchen light <- Main 3 by J.\nBedroom oxygen concentrator <- Main 5 by J.\n"
                              "Yard well pump <- Main 2+4 by J.\nHall light <- Main 6 by J.\nHall receptacle 1 <- Main 8 by J.\n").house;
  }
  ProvingSession session() const { return {house, declared_feeds(house), house.sources[0].id}; }
  Id<Breaker> breaker(int space) const { return std::ranges::find(house.breakers, space, &Breaker::space)->id; }
  /// Units 0 to 3 are positions 1, 2, 3+4 and 5.
  ProofReport report() const { return proof_report_of(session()); }
  static ProofReport proof_report_of(const ProvingSession& of) { return proof_report(read_proof_board(of.house(), of.wiring())); }
  std::string fault(std::size_t unit, ProofFault what, std::vector<Id<Breaker>> carries = {}) const {
    ProofReport with = report();
    with.units[unit].result = ProofResult::wrong, with.units[unit].fault = what, with.units[unit].breakers = std::move(carries);
    return fault_words(house, with, unit);
  }
  House house;
};

TEST_F(ProvingWords, every_fault_is_one_sentence_that_names_position_and_breaker) {
  ProofReport exchanged = report();
  exchanged.units[0].fault = exchanged.units[3].fault = ProofFault::exchanged;
  exchanged.units[0].other = 3, exchanged.units[3].other = 0;
  exchanged.units[0].breakers = {breaker(5)}, exchanged.units[3].breakers = {breaker(3)};
  EXPECT_EQ(fault_words(house, exchanged, 0), "1 and 5 are exchanged: position 1 carries breaker 5 instead of 3.");
  EXPECT_EQ(fault_words(house, exchanged, 3), "1 and 5 are exchanged: position 5 carries breaker 3 instead of 5.");
  EXPECT_EQ(fault(1, ProofFault::other_circuit, {breaker(6)}), "Position 2 carries breaker 6 instead of 1.");
  EXPECT_EQ(fault(1, ProofFault::also_other_circuit, {breaker(6)}), "Position 2 carries breaker 6 besides its own, 1.");
  EXPECT_THAT(fault(3, ProofFault::carries_nothing), StartsWith("Position 5 carries nothing"));
  EXPECT_EQ(fault(0, ProofFault::fed_another_way), "Breaker 3 is still live with position 1 off: it is fed another way too.");
  EXPECT_THAT(fault(0, ProofFault::utility_side_only), StartsWith("Position 1 is fed on the utility side only"));
  EXPECT_THAT(fault(0, ProofFault::backup_side_only), StartsWith("Position 1 is fed on the backup side only"));
  EXPECT_THAT(fault(2, ProofFault::one_leg), StartsWith("The two halves of 3+4 are on one leg"));
  EXPECT_THAT(fault(0, ProofFault::turned_round), AllOf(HasSubstr("position 1 are exchanged"), HasSubstr("feeds the panel")));
  for (std::size_t f = 1; f < words_of(ProofFault{}).size(); ++f)
    if (static_cast<ProofFault>(f) != ProofFault::exchanged) {
      EXPECT_THAT(fault(2, static_cast<ProofFault>(f), {breaker(6)}), AllOf(HasSubstr("3+4"), EndsWith(".")));
    }
  EXPECT_EQ(fault(0, ProofFault::none), "");
}

TEST_F(ProvingWords, the_report_puts_dangers_first_and_says_what_is_missing) {
  ProofReport with = report();
  with.panel_live = {0};
  with.units[1].result = ProofResult::wrong, with.units[1].fault = ProofFault::utility_side_only;
  const Lines lines = words_of_proof(house, with);
  EXPECT_EQ(lines[0].kind, LineKind::danger);
  EXPECT_THAT(lines[0].text, HasSubstr("Do not use the transfer device"));
  EXPECT_EQ(lines[1].kind, LineKind::danger);
  EXPECT_THAT(lines[2].text, AllOf(StartsWith("Position 1 (breaker 3): not yet: "), HasSubstr("not yet seen live from the source")));
}

/// Texts of all steps of a session in a house that is wired right.
std::vector<std::string> texts_of(ProvingSession session) {
  std::vector<std::string> texts;
  for (int i = 0; i < 200 && session.step().kind != ProofStepKind::done; ++i) {
    texts.push_back(proof_step_text(session));
    const ProofStep& step = session.step();
    ProofAnswer answer{ProofAnswerKind::done, Method::look, "2026-03-01T08:00:00Z"};
    if (step.kind == ProofStepKind::look) {
      const auto point = static_cast<std::size_t>(std::ranges::find(session.house().points, step.point, &Point::id) - session.house().points.begin());
      const auto line = std::ranges::find_if(session.wiring().lines, [&](const ProofLine& l) { return std::ranges::find(l.points, point) != l.points.end(); });
      const ProofState now = session.now();
      const Throw stands = line->unit < 0 ? kUtilitySide : now.units[static_cast<std::size_t>(line->unit)];
      answer.kind = (stands == kUtilitySide && now.utility) || (stands == kBackupSide && now.running) ? ProofAnswerKind::live : ProofAnswerKind::dead;
    }
    session.answer(answer);
  }
  return texts;
}

TEST_F(ProvingWords, each_caution_is_said_once_before_the_hand_moves) {
  const auto texts = texts_of(session());
  const auto count = [&](const char* words) { return std::ranges::count_if(texts, [&](const std::string& text) { return text.find(words) != std::string::npos; }); };
  const auto first = [&](const char* words) { return std::ranges::find_if(texts, [&](const std::string& text) { return text.find(words) != std::string::npos; }) - texts.begin(); };
  for (const char* words : {"line side of the main stays live", "test the tester on something live, test the point", "at least 20 ft (6 m)", "Local code and a licensed electrician decide"})
    EXPECT_EQ(count(words), 1) << words;
  EXPECT_LT(first("at least 20 ft"), first("Start G"));
  EXPECT_LT(first("Before the main goes off"), first("Turn the main breaker of Main OFF"));
  EXPECT_LT(first("Before the next position goes off"), first("position 5 to OFF"));
  EXPECT_EQ(count("never join it while the main is on"), 1);
  EXPECT_EQ(count("never turn the main on while it is joined"), 1);
}

TEST_F(ProvingWords, tied_positions_are_one_move_and_looks_say_where_everything_stands) {
  const auto texts = texts_of(session());
  const auto has = [&](const char* words) { return std::ranges::any_of(texts, [&](const std::string& text) { return text.find(words) != std::string::npos; }); };
  EXPECT_TRUE(has("position 3+4 to BACKUP"));
  EXPECT_TRUE(has("(Everything is as on an ordinary day.)"));
  EXPECT_TRUE(has("(The main is off, and G runs and is joined.)"));
  EXPECT_TRUE(has("are on backup.)"));
  EXPECT_TRUE(has("See that G still runs"));
}

}  // namespace
}  // namespace ohmstead

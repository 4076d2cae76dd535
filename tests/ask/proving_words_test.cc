#include "ask/proving_words.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "house/error.h"
#include "survey/entry.h"
#include "tests/support/proving_played.h"

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
  EXPECT_THAT(lines[2].text, AllOf(StartsWith("Positions 1 (breaker 3), 3+4 (breaker "), HasSubstr("): not yet: "), HasSubstr("not yet seen live from the source"))) << "those that stand alike in one line";
  with.units[3].result = ProofResult::proved, with.units[3].last_seen = "2026-11-27T18:00:00Z";
  std::string all;
  for (const Line& line : words_of_proof(house, with)) all += line.text + "\n";
  EXPECT_THAT(all, AllOf(HasSubstr("Position 5 (breaker "), HasSubstr("): proved on 2026-11-27.")));
}

/// Texts of all steps of a session in a house that is wired right.
std::vector<std::string> texts_of(ProvingSession session) {
  std::vector<std::string> texts;
  play_proving(session, false, [&](const ProvingSession& now) { texts.push_back(proof_step_text(now)); });
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

/// The last step that says this.
std::string last_with(const std::vector<std::string>& texts, const char* words) {
  std::string found;
  for (const std::string& text : texts)
    if (text.find(words) != std::string::npos) found = text;
  return found;
}

TEST_F(ProvingWords, what_loses_its_power_with_a_move_is_said_in_that_step_before_the_handles) {
  const std::string back = last_with(texts_of(session()), "position 5 to UTILITY");
  EXPECT_THAT(back, StartsWith("Have a battery, a cylinder or another supply at hand"));
  EXPECT_LT(back.find("oxygen concentrator"), back.find("position 5 to UTILITY")) << back;
  EXPECT_THAT(back, HasSubstr("back when the main is on again"));
  EXPECT_THAT(last_with(texts_of(session()), "to BACKUP"), Not(HasSubstr("lose their power")));  // there they get it
  EXPECT_THAT(last_with(texts_of(session()), "position 1 to OFF"), Not(HasSubstr("lose their power")));  // nobody depends on it
}

TEST_F(ProvingWords, to_backup_what_keeps_somebody_alive_goes_first_and_large_starts_before_small_and_back_the_other_way_round) {
  const auto texts = texts_of(session());
  const auto order = [](const std::string& text, std::vector<std::string> moves) {
    std::ranges::sort(moves, {}, [&](const std::string& move) { return text.find(move); });
    return moves;
  };
  const std::string there = last_with(texts, "position 5 to BACKUP"), back = last_with(texts, "position 5 to UTILITY");
  const auto to = order(there, {"position 1 to BACKUP", "position 2 to BACKUP", "position 3+4 to BACKUP", "position 5 to BACKUP"});
  EXPECT_EQ(to[0], "position 5 to BACKUP") << there;
  EXPECT_EQ(to[1], "position 3+4 to BACKUP") << there;
  EXPECT_EQ(order(back, {"position 1 to UTILITY", "position 2 to UTILITY", "position 3+4 to UTILITY", "position 5 to UTILITY"}).back(), "position 5 to UTILITY") << back;
}

TEST_F(ProvingWords, the_cord_goes_in_while_the_generator_stands_still_and_comes_out_when_it_was_stopped) {
  const auto texts = texts_of(session());
  const std::string start = last_with(texts, "then start it");
  EXPECT_LT(start.find("itself is OFF"), start.find("put its cord into the inlet"));
  EXPECT_LT(start.find("put its cord into the inlet"), start.find("then start it"));
  EXPECT_THAT(last_with(texts, "Then join G"), AllOf(HasSubstr("turn its own breaker ON"), Not(HasSubstr("cord"))));
  EXPECT_THAT(last_with(texts, "Part G"), AllOf(HasSubstr("turn its own breaker OFF"), Not(HasSubstr("cord"))));
  EXPECT_THAT(last_with(texts, "without load"), HasSubstr("then stop it, and take its cord out"));
}

TEST_F(ProvingWords, a_pump_and_a_furnace_are_made_to_run_by_what_makes_them_run) {
  EXPECT_THAT(last_with(texts_of(session()), "well pump"), HasSubstr("Open a tap until it runs."));
  house.points[static_cast<std::size_t>(std::ranges::find(house.points, "well pump", &Point::name) - house.points.begin())].name = "furnace";
  for (Load& load : house.loads)
    if (load.name == "well pump") load.name = "furnace";
  EXPECT_THAT(last_with(texts_of(session()), "furnace"), HasSubstr("Turn the thermostat up until it runs."));
}

TEST_F(ProvingWords, a_shared_neutral_never_goes_on_backup_from_one_leg_or_a_bridged_output) {
  std::erase_if(house.circuits, [&](const Circuit& circuit) { return circuit.breaker == breaker(1) || circuit.breaker == breaker(3); });
  const Id<Circuit> first = Id<Circuit>::fresh();
  house.circuits.push_back({.id = first, .breaker = breaker(1), .multiwire = first});
  house.circuits.push_back({.id = Id<Circuit>::fresh(), .breaker = breaker(3), .multiwire = first});
  EXPECT_THAT(last_with(texts_of(session()), "to BACKUP"), AllOf(HasSubstr("position 1 to BACKUP"), HasSubstr("position 2 to BACKUP")));
  for (const SourceOutput output : {SourceOutput::one_120_both_legs, SourceOutput::one_leg}) {
    house.sources[0].output = output;
    const auto texts = texts_of(session());
    for (const std::string& text : texts) EXPECT_THAT(text, AllOf(Not(HasSubstr("position 1 to BACKUP")), Not(HasSubstr("position 2 to BACKUP"))));
    EXPECT_THAT(texts[0], AllOf(HasSubstr("Position 1 never goes on backup with this source"), HasSubstr("Position 2 never"), Not(HasSubstr("Position 5 never"))));
    EXPECT_THAT(words_of_proof(house, report())[0].text, AllOf(StartsWith("Positions 1 (breaker 3) and 2 (breaker 1): not yet: "), HasSubstr("it is not put on backup: it shares a neutral")));
  }
}

TEST_F(ProvingWords, a_device_that_moves_the_whole_house_by_itself_is_not_to_be_connected_first) {
  house.transfer_devices[0].kind = TransferKind::whole_house, house.transfer_devices[0].automatic = true;
  try {
    (void)session();
    FAIL();
  } catch (const Error& error) {
    EXPECT_THAT(error.what(), AllOf(HasSubstr("moves by itself"), HasSubstr("maker's directions"), HasSubstr("all else stays dead"), Not(HasSubstr("worksheet"))));
  }
}

TEST_F(ProvingWords, a_session_that_was_left_in_the_middle_says_how_everything_stands_until_it_is_put_back) {
  ProvingSession now = session();
  EXPECT_EQ(proving_left_text(house, house.sources[0].id), "");
  for (int i = 0; i < 200 && now.step().kind != ProofStepKind::move; ++i)
    now.answer({now.step().kind == ProofStepKind::look ? ProofAnswerKind::live : ProofAnswerKind::done, Method::look, "2026-03-01T08:00:00Z"});
  ASSERT_EQ(now.step().kind, ProofStepKind::move);
  now.answer({ProofAnswerKind::done, Method::look, "2026-03-01T08:00:00Z"});
  EXPECT_THAT(proving_left_text(now.house(), house.sources[0].id), AllOf(StartsWith("Proving was left in the middle."), HasSubstr("is off"), HasSubstr("`ohmstead prove`")));
  ASSERT_TRUE(now.undo());
  EXPECT_EQ(proving_left_text(now.house(), house.sources[0].id), "");
  house.transfer_devices[0].kind = TransferKind::whole_house;
  EXPECT_EQ(proving_left_text(house, house.sources[0].id), "");
}

/// Plays a session of a panel in a house that is wired right; `interlock` false: it does not block.
std::vector<std::string> panel_texts(ProvingSession& session, bool interlock = true) {
  std::vector<std::string> texts;
  for (int i = 0; i < 200 && session.step().kind != ProofStepKind::done; ++i) {
    texts.push_back(proof_step_text(session));
    const ProofState now = session.now();
    ProofAnswer answer{ProofAnswerKind::done, Method::look, "2026-03-01T08:00:00Z"};
    if (session.step().kind == ProofStepKind::try_interlock) answer.kind = interlock ? ProofAnswerKind::blocked : ProofAnswerKind::not_blocked;
    if (session.step().kind == ProofStepKind::look) {
      const auto& points = session.house().points;
      const auto point = static_cast<std::size_t>(std::ranges::find(points, session.step().point, &Point::id) - points.begin());
      const auto& lines = session.wiring().lines;
      const auto line = std::ranges::find_if(lines, [&](const ProofLine& l) { return std::ranges::find(l.points, point) != l.points.end(); });
      const bool on = std::ranges::find(now.off, line->breaker) == now.off.end();
      answer.kind = on && (now.utility || now.running) ? ProofAnswerKind::live : ProofAnswerKind::dead;
    }
    session.answer(answer);
  }
  return texts;
}

/// A backfed breaker with an interlock, or (`whole`) a whole-house switch.
House panel_house(bool whole) {
  House house;
  house.dwelling.id = Id<Dwelling>::fresh();
  return enter_text(house, std::string("Cellar: freezer 100/400 W !\nKitchen: 1r, 1l\nHall: 1l\nGenerator G 3600/4500 W 120/240\n") +
                               (whole ? "Transfer T in Cellar, whole house, from G\nPanel Main in Cellar, 20 spaces, from T: 1 15; 3 15; 6 15; 8 15\n"
                                      : "Panel Main in Cellar, 20 spaces, 100 A main: 1 15; 3 15; 6 15; 8 15; 2+4 30 backfed from G, interlocked\n") +
                               "By J.\nCellar freezer <- Main 1\nKitchen receptacle 1 <- Main 3\nKitchen light <- Main 6\nHall light <- Main 8\n").house;
}

TEST(ProvingPanelWords, an_interlock_is_tried_both_ways_and_each_step_says_which_handle_and_in_which_order) {
  const House house = panel_house(false);
  ProvingSession session(house, declared_feeds(house), house.sources[0].id);
  const auto texts = panel_texts(session);
  std::string all;
  for (const std::string& text : texts) all += text + "\n";
  EXPECT_THAT(all, HasSubstr("with the main breaker of Main ON, try to turn breaker 2-4 in Main ON")) << all;
  EXPECT_THAT(all, HasSubstr("with breaker 2-4 in Main ON, try to turn the main breaker of Main ON"));
  EXPECT_THAT(all, HasSubstr("turn it OFF again at once"));
  EXPECT_THAT(all, HasSubstr("Turn every breaker in Main OFF but breaker 2-4 in Main. Then turn breaker 2-4 in Main ON"));
  EXPECT_THAT(all, HasSubstr("Turn G's own breaker ON. Then turn these ON, one after the other, a few seconds apart:\n- breaker 1 in Main"));
  EXPECT_THAT(all, HasSubstr("at least 20 ft (6 m)")) << "CPSC, found";
  EXPECT_THAT(all, HasSubstr("- turn breaker 2-4 in Main OFF\n- turn the main breaker of Main ON\n- turn every breaker ON"));
  const Lines lines = words_of_proof(house, proof_report(read_proof_board(session.house(), session.wiring())));
  EXPECT_THAT(lines[0].text, HasSubstr("The interlock blocks"));
  EXPECT_THAT(lines[1].text, StartsWith("Breaker 1 stays on, and proved"));
  EXPECT_THAT(lines[2].text, StartsWith("Breakers 3, 6 and 8 are off by the plan"));
  EXPECT_THAT(lines[3].text, StartsWith("All is proved"));
}

TEST(ProvingPanelWords, a_feeder_of_what_stays_on_is_not_turned_off_with_the_others) {
  House house;
  house.dwelling.id = Id<Dwelling>::fresh();
  house = enter_text(house, "Cellar: freezer 100/400 W !\nShed: 1l\nShop: pump 500/900 W !\nGenerator G 3600/4500 W 120/240\n"
                            "Panel Main in Cellar, 20 spaces, 100 A main: 1 15; 2+4 30 backfed from G, interlocked; 6+8 60; 10+12 60\n"
                            "Panel Shop in Shop, 8 spaces, from Main 6+8: 1 15\nPanel Shed in Shed, 8 spaces, from Main 10+12: 1 15\n"
                            "By J.\nCellar freezer <- Main 1\nShop pump <- Shop 1\nShed light <- Shed 1\n").house;
  ProvingSession session(house, declared_feeds(house), house.sources[0].id);
  std::string all;
  for (const std::string& text : panel_texts(session)) all += text + "\n";
  EXPECT_THAT(all, HasSubstr("Turn every breaker in Main and Shop OFF but breaker 2-4 in Main and breaker 6-8 in Main. Then turn breaker 2-4 in Main ON")) << all;
  EXPECT_EQ(proof_report(read_proof_board(session.house(), session.wiring())).panel->result, ProofResult::proved);
}

TEST(ProvingPanelWords, an_interlock_that_does_not_block_is_a_danger_and_the_source_is_never_started) {
  const House house = panel_house(false);
  ProvingSession session(house, declared_feeds(house), house.sources[0].id);
  for (const std::string& text : panel_texts(session, false)) EXPECT_THAT(text, Not(HasSubstr("start it, outdoors")));
  const Lines lines = words_of_proof(house, proof_report(read_proof_board(session.house(), session.wiring())));
  EXPECT_EQ(lines[0].kind, LineKind::danger);
  EXPECT_THAT(lines[0].text, HasSubstr("The interlock does not block: with the main breaker of Main on, breaker 2-4 in Main went on too"));
}

TEST(ProvingPanelWords, with_a_whole_house_switch_the_street_is_shut_off_ahead_of_it_before_the_source_is_joined) {
  const House house = panel_house(true);
  ProvingSession session(house, declared_feeds(house), house.sources[0].id);
  std::string all;
  for (const std::string& text : panel_texts(session)) all += text + "\n";
  EXPECT_THAT(all, HasSubstr("Move the transfer switch T to BACKUP")) << all;
  EXPECT_THAT(all, HasSubstr("Turn the service disconnect, ahead of the switch, OFF"));
  EXPECT_THAT(all, HasSubstr("- move the transfer switch T to UTILITY\n- turn the service disconnect ON"));
  EXPECT_EQ(proof_report(read_proof_board(session.house(), session.wiring())).panel->result, ProofResult::proved);
}

TEST(ProvingPanelWords, every_fault_has_its_sentence) {
  const House house = panel_house(false);
  const ProvingSession session(house, declared_feeds(house), house.sources[0].id);
  PanelProof proof = *proof_report(read_proof_board(session.house(), session.wiring())).panel;
  proof.circuits[0].result = ProofResult::wrong;
  for (std::size_t f = 1; f < words_of(CircuitFault{}).size(); ++f) {
    proof.circuits[0].fault = static_cast<CircuitFault>(f);
    const Lines lines = words_of_proof(house, {.units = {}, .panel = proof, .backfed = {}, .panel_live = {}});
    if (proof.circuits[0].fault == CircuitFault::leg_dead) continue;  // the leg says it
    EXPECT_THAT(lines[0].text, AllOf(HasSubstr("reaker 1"), EndsWith("."))) << text_of(proof.circuits[0].fault);
    EXPECT_EQ(lines[0].kind, LineKind::danger);
  }
  proof.circuits[0].fault = CircuitFault::leg_dead, proof.fault = PanelFault::one_leg_dead, proof.which = {proof.circuits[0].breaker};
  EXPECT_THAT(words_of_proof(house, {.units = {}, .panel = proof, .backfed = {}, .panel_live = {}})[0].text, StartsWith("120 V only reaches one leg: breaker 1 is on and dead from the source."));
}

}  // namespace
}  // namespace ohmstead

// What is said when somebody may be about to be hurt. None of these ever says yes.

#include "ask/ask_parts.h"
#include "ask/sentence.h"

namespace ohmstead::ask_detail {

using sentence::say;

namespace {

constexpr const char* kNobodyKnows =
    "No record can tell that a wire is dead: it knows what was written down, not what is live now. Take every wire as live until it is opened, "
    "locked and tested.";
constexpr const char* kHowToTest =
    "Open what feeds it, lock or tape the handle, test the tester on something live, test every conductor, test the tester again. The line side of a "
    "main stays live. Local code and a licensed electrician decide.";

// What utilities and fire services tell their customers (common practice, no source for the wording).
constexpr const char* kGas =
    "Leave the house now, and take everybody with you. Touch no switch, no plug and no breaker, light nothing, and do not use a phone indoors. From "
    "outside call 911 and the gas utility.";
constexpr const char* kBurning =
    "If there is fire or smoke: everybody out, and call 911 from outside; never put water on it. If there is none and you can reach the main without "
    "danger, switch the main off now. Then call an electrician; nothing is switched on again before somebody has found it.";
constexpr const char* kShock =
    "Touch it no more, and keep others away. If somebody is still in contact, do not touch that person: switch the main off, then call 911. Whoever "
    "got a shock should see a doctor. Leave its breaker off until an electrician has found the fault.";
constexpr const char* kBright =
    "Some lights much brighter or dimmer than usual can mean a lost neutral, and 120 V things then get far too much: switch the main off now, if you "
    "can reach it without danger. Then call the utility and an electrician.";
constexpr const char* kWater =
    "Do not touch it, and do not step into water that may reach a receptacle or the panel. If the main cannot be reached on dry ground, have the "
    "utility cut the power from outside. What was wet is not switched on again before an electrician has looked at it.";
constexpr const char* kIndoors =
    "Never. An engine runs outdoors only, 20 ft (6 m) or more from windows, doors and vents: its exhaust kills within minutes, in a garage with an "
    "open door, too. Have carbon monoxide alarms that work.";
constexpr const char* kBackfeed =
    "Never. A source goes into the house through its inlet and a transfer device or an interlock only. Plugged into a receptacle it makes the bare "
    "blades of the plug and the wires in the street live, and can kill who works there.";
constexpr const char* kLarger =
    "No. A breaker is as large as its wire allows, and no larger; what trips has a reason. Leave it off, unplug what is on it, and let a licensed "
    "electrician look. `ohmstead findings` shows where a breaker is too large for its wire.";
constexpr const char* kChild =
    "No. Nobody but a grown-up who knows how touches a panel, a wire or an open box; a child tells somebody and stays away.";
constexpr const char* kPanel =
    "Not without an electrician: behind the cover parts stay live even with the main off, and nothing in the house can switch them off. Handles are "
    "moved with the cover on.";

const char* text_for(Danger danger) {
  switch (danger) {
    case Danger::touch:
      break;
    case Danger::open_panel:
      return kPanel;
    case Danger::gas:
      return kGas;
    case Danger::burning:
      return kBurning;
    case Danger::shock:
      return kShock;
    case Danger::bright_lights:
      return kBright;
    case Danger::water:
      return kWater;
    case Danger::indoors:
      return kIndoors;
    case Danger::backfeed:
      return kBackfeed;
    case Danger::larger_breaker:
      return kLarger;
    case Danger::child:
      return kChild;
  }
  return kNobodyKnows;
}

}  // namespace

Lines danger_lines(Danger danger, const Lines& open, bool not_known) {
  Lines lines;
  say(lines, LineKind::danger, text_for(danger));
  const bool urgent = danger == Danger::gas || danger == Danger::burning || danger == Danger::bright_lights || danger == Danger::indoors ||
                      danger == Danger::backfeed || danger == Danger::water;
  if (urgent) return lines;
  if (!not_known)
    lines.insert(lines.end(), open.begin(), open.end());
  else
    say(lines, LineKind::caution, kHowToTest);
  if (not_known && danger == Danger::touch) say(lines, LineKind::detail, "Name the thing, such as 'kitchen light', and it is told what to open.");
  return lines;
}

}  // namespace ohmstead::ask_detail

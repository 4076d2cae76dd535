// One row a command, in the order in which a person needs them.

#include "cli/command.h"
#include "cli/run.h"

namespace ohmstead {

namespace {

const Option kJson{"--json", OptionKind::flag, "Answer as JSON (docs/json-answers.md)"};
const Option kOnBackup{"--on-backup", OptionKind::flag, "While the backup source carries the house"};
const Option kSource{"--source", OptionKind::value, "The same, and which source, where there are several", false, "NAME"};

const Option kAsOf{"--as-of", OptionKind::value, "As the record stood then: a revision, or a date (UTC)", false, "REVISION|DATE"};
const Option kWho{"--who", OptionKind::value, "Who does it, kept in the history", false, "NAME"};

const std::vector<Command>& table() {
  static const std::vector<Command> rows{
      {"new", "Start a house file",
       "Example: ohmstead new home.house --name 'Hill house'",
       {{"FILE", OptionKind::argument, "The file to make, NAME.house", true},
        {"--name", OptionKind::value, "Name of the house, printed on the directory", false, "NAME"},
        {"--voltage", OptionKind::value, "120/240 (the usual), 120/208, 120/208-3 or 230", false, "SYSTEM"}},
       run_new},
      {"enter", "Write down rooms, points, panels and breakers, one line each",
       "Example: ohmstead enter --line 'Kitchen: 4 receptacles, 2 lights, dishwasher, refrigerator 180 W'\n"
       "         ohmstead enter --line 'Panel Main 12 spaces: 1 20 kitchen; 3 15 hall; 2+4 30 dryer'\n"
       "All lines: docs/quick-entry.md.",
       {{"FILE", OptionKind::argument, "Text to read; '-' or nothing: standard input"},
        {"--line", OptionKind::values, "One line; may be given several times", false, "TEXT"}, kWho},
       run_enter},
      {"survey", "Walk through the house and be asked what is there",
       "Room by room, then the panel. Every answer is saved before the next question.",
       {kWho}, run_survey},
      {"trace", "Find out which breaker feeds what, step by step",
       "Every answer is saved before the next step is shown. Stop at any time and go on later.\n"
       "How you work is kept for the next time: ohmstead trace --at-once 4 --helper --room 'Upper floor'\n"
       "Example: ohmstead trace --behind 'upper bath GFCI'      ohmstead trace --behind T3",
       {{"--at-once", OptionKind::value, "Breakers that may be off at one time: 1 (the usual) or more, or any", false, "N|any"},
        {"--helper", OptionKind::flag, "Somebody stays at the panel and moves the handles when called"},
        {"--alone", OptionKind::flag, "Nobody does (the usual)"},
        {"--lamps", OptionKind::value, "Plug-in lamps at hand, to leave in receptacles and see from the door (0)", false, "N"},
        {"--with", OptionKind::value, "How to look: tester, sound (a tester heard from afar), lamp, non-contact, eye", false, "WAY"},
        {"--room", OptionKind::values, "Only this room or floor; may be given several times; all: the whole house again", false, "NAME"},
        {"--only-plan", OptionKind::flag, "Only what matters in an outage or is hurt by one"},
        {"--everything", OptionKind::flag, "Not only that (the usual)"},
        {"--again", OptionKind::values, "Trace this thing, room or floor anew; may be given several times", false, "NAME"},
        {"--retry-skipped", OptionKind::flag, "Breakers that were skipped, or that would not go on and do now, may be proposed again"},
        {"--json-lines", OptionKind::flag, "Driven by a program: one JSON document a line in and out (docs/json-lines.md)"},
        {"--who", OptionKind::value, "Who is looking, kept with the observations", false, "NAME"},
        {"--behind", OptionKind::value, "Find what this GFCI, switch, disconnect, breaker or position takes down; 'nothing': breakers again", false, "HANDLE"}},
       run_trace},
      {"saw", "Tell what was seen in daily life, such as after a breaker tripped",
       "Example: ohmstead saw hall light dead --off 12      ohmstead saw freezer live --off 12 --off 14\n"
       "         ohmstead saw --line '12 tripped, and the hall went dark; kitchen still on' --who Ana\n"
       "A room that was dark or on stands for its lights; one that was dead, live or lost power for everything in it.\n"
       "It counts like a look of a tracing session. What tripped is kept, and why with --cause: ohmstead saw 12 tripped --cause 'hair dryer'",
       {{"THING", OptionKind::arguments, "A thing, several or a room, then 'dead' or 'live'"},
        {"--line", OptionKind::values, "The same in free words; may be given several times", false, "TEXT"},
        {"--off", OptionKind::values, "A handle that was off then; may be given several times", false, "HANDLE"},
        {"--nothing-off", OptionKind::flag, "Every breaker was on: it is dead for another reason"},
        {"--cause", OptionKind::value, "Why it tripped, as far as it is known", false, "WORDS"},
        {"--when", OptionKind::value, "When it was, in UTC (now)", false, "YYYY-MM-DD HH:MM"},
        {"--who", OptionKind::value, "Who saw it, kept with the observations", false, "NAME"},
        {"--take-back", OptionKind::flag, "Take back what was told last"}},
       run_saw},
      {"off", "What goes off if these handles move",
       "Example: ohmstead off 12 14        ohmstead off 12 --on-backup        ohmstead off T3=backup main=off",
       {{"HANDLE", OptionKind::arguments, "Breaker number, main, position (T3), switch; =on, =off, =utility, =backup", true}, kOnBackup, kSource, kJson, kAsOf},
       run_off},
      {"where", "Where a thing is and what feeds it, also in an outage",
       "Example: ohmstead where dishwasher",
       {{"THING", OptionKind::arguments, "A thing in your own words", true}, kJson, kAsOf}, run_where},
      {"carries", "Everything one breaker, position or switch carries",
       "Example: ohmstead carries 12",
       {{"HANDLE", OptionKind::arguments, "A breaker, position, switch or GFCI", true}, kJson, kAsOf}, run_carries},
      {"isolate", "What to open before working in a box",
       "Example: ohmstead isolate kitchen ceiling light",
       {{"THING", OptionKind::arguments, "A box, or anything in it", true}, kJson, kAsOf}, run_isolate},
      {"restore", "What to turn on to bring a thing back",
       "Example: ohmstead restore freezer --off 12      ohmstead restore freezer --on-backup",
       {{"THING", OptionKind::arguments, "A thing in your own words", true},
        {"--off", OptionKind::values, "A handle that stands off now; may be given several times", false, "HANDLE"}, kOnBackup, kSource, kJson, kAsOf},
       run_restore},
      {"ask", "Ask in your own words; without words a line at a time",
       "Example: ohmstead ask 'which breaker for the aquarium'      ohmstead ask what goes off with 12\n"
       "         ohmstead ask 'where is the gas shut-off'           ohmstead ask\n"
       "In one sitting 'what else is on that circuit' means the thing of the question before. What fits several things is asked back;\n"
       "whether a wire is safe is never answered with yes (docs/ask.md).",
       {{"WORDS", OptionKind::arguments, "The question; nothing: lines from the terminal or standard input"}, kJson}, run_ask},
      {"note", "Keep what the household should know: shut-offs, where a thing is kept, phone numbers",
       "Example: ohmstead note add 'Gas shut-off: east wall of the garage'      ohmstead note add --about freezer 'gasket is new'\n"
       "         ohmstead note list      ohmstead note edit 2 'Gas shut-off: by the back door'      ohmstead note remove 2\n"
       "Words before the first colon of a note about the house are its topic. Private notes are left out of `hand-over --without-private`.",
       {{"WHAT", OptionKind::argument, "add, list, edit or remove", true},
        {"WORDS", OptionKind::arguments, "add: the text. list: a thing, or nothing. edit: number of the note, then its text. remove: its number"},
        {"--about", OptionKind::value, "The thing it is about (the house)", false, "THING"},
        {"--private", OptionKind::flag, "Leave it out of what is handed over"},
        {"--not-private", OptionKind::flag, "edit: it is private no more"},
        {"--who", OptionKind::value, "Who notes it, kept with it", false, "NAME"}, kJson},
       run_note},
      {"find", "Look for words in all that is written down: notes, points, rooms, labels, loads, papers",
       "Example: ohmstead find gas      ohmstead find fridge kitchen\n"
       "Beginnings of words are found, accents and capitals do not count, and other words for the same thing are looked for as well.",
       {{"WORDS", OptionKind::arguments, "Words; all of them must fit, or the nearest is shown", true},
        {"--most", OptionKind::value, "How many are shown (20)", false, "N"}, kJson},
       run_find},
      {"diagnose", "Why is it dead? Asks for the look that tells most, until it is plain, and says what to do",
       "Example: ohmstead diagnose kitchen light      ohmstead diagnose 'kitchen dark, hall on' --before storm\n"
       "         ohmstead diagnose freezer --on-backup      ohmstead diagnose freezer --json\n"
       "Without a thing it goes on where it was left. Nobody is sent into a panel; a meter is used at receptacles only (docs/diagnosis.md).",
       {{"THING", OptionKind::arguments, "What is dead, in your own words; also what is live, and which breaker tripped, as for `saw`"},
        {"--live", OptionKind::values, "Something that works; may be given several times", false, "THING"},
        {"--before", OptionKind::value, "What happened before: storm, appliance (was switched on), work (was done), backup (was switched to)", false, "WHAT"},
        {"--meter", OptionKind::flag, "Somebody is there who owns a meter and knows how to use it at a receptacle"}, kOnBackup, kSource,
        {"--who", OptionKind::value, "Who is looking, kept with the answers", false, "NAME"},
        {"--json-lines", OptionKind::flag, "Driven by a program: one JSON document a line in and out"}, kJson},
       run_diagnose},
      {"findings", "What stands against the rules of the trade in this record, with why it matters and how sure it is",
       "Wires, shared neutrals, loads, words of the directory, alarms, and more; each with its rule (docs/findings.md).\n"
       "Looks at the record, opens nothing. Local code and a licensed electrician decide.",
       {kJson, kAsOf}, run_findings},
      {"calculate", "Load of the dwelling, voltage drop, ampacity of a wire, or whether a load may be added; every step shown",
       "Example: ohmstead calculate drop --wire 12 --feet 100 --amps 16      ohmstead calculate neutral --load 1:15 --load 2:10\n"
       "         ohmstead calculate ampacity --wire 8 --nm-cable --ambient-c 45\n"
       "         ohmstead calculate load --area 1500 --item 'range 12 kW' --item 'dryer 5.5 kW' --method optional\n"
       "         ohmstead calculate load --record -o load.pdf      ohmstead calculate add 'car charger 40 A'\n"
       "Methods and sources: docs/calculations.md. Local code and a licensed electrician decide.",
       {{"WHAT", OptionKind::argument, "load, drop, ampacity, neutral or add", true},
        {"THING", OptionKind::arguments, "add: what is to be added, such as 'car charger 40 A'"},
        {"--area", OptionKind::value, "Floor area in square feet, outside dimensions", false, "FT2"},
        {"--item", OptionKind::values, "load: a load, such as '2 x oven 4 kW', 'dishwasher 1200 W 120 V'; several times", false, "LOAD"},
        {"--record", OptionKind::flag, "load: with what the house file has"},
        {"--method", OptionKind::value, "load: standard (the usual), optional (220.82) or existing (220.83)", false, "METHOD"},
        {"--small-appliance", OptionKind::value, "Small-appliance circuits of 20 A (2)", false, "N"},
        {"--laundry", OptionKind::value, "Laundry circuits (1)", false, "N"},
        {"--service", OptionKind::value, "add: rating of the service, if not as recorded", false, "A"},
        {"--edition", OptionKind::value, "Edition of NFPA 70: 2005, 2008, 2011, 2014, 2017, 2020 or 2023 (2023)", false, "YEAR"},
        {"--circuit", OptionKind::value, "drop: with wire, length and breaker as recorded for this circuit", false, "THING"},
        {"--wire", OptionKind::value, "Size, such as 12, 2/0 or 250", false, "SIZE"},
        {"--metal", OptionKind::value, "copper (the usual), aluminum or copper-clad", false, "METAL"},
        {"--feet", OptionKind::value, "drop: length one way", false, "FT"},
        {"--meters", OptionKind::value, "drop: the same in meters", false, "M"},
        {"--amps", OptionKind::value, "drop: current of the load", false, "A"},
        {"--volts", OptionKind::value, "drop: 120 (the usual), 240, ...", false, "V"},
        {"--phases", OptionKind::value, "drop: 1 (the usual) or 3", false, "N"},
        {"--conductor-c", OptionKind::value, "drop: temperature of the wire under load (75)", false, "C"},
        {"--stranded", OptionKind::flag, "drop: stranded, also of sizes that are usually solid"},
        {"--conduit", OptionKind::value, "drop: pvc, aluminum or steel: by the impedance table", false, "KIND"},
        {"--pf", OptionKind::value, "drop: power factor, with --conduit (1)", false, "PF"},
        {"--insulation", OptionKind::value, "ampacity: 60, 75 (the usual) or 90 C", false, "C"},
        {"--terminals", OptionKind::value, "ampacity: 60 or 75 C as marked (by 110.14(C))", false, "C"},
        {"--ambient-c", OptionKind::value, "ampacity: air around the wire (30)", false, "C"},
        {"--conductors", OptionKind::value, "ampacity: conductors together that carry current (3)", false, "N"},
        {"--nm-cable", OptionKind::flag, "ampacity: nonmetallic-sheathed cable"},
        {"--receptacles", OptionKind::flag, "ampacity: a circuit with several receptacles"},
        {"--motor", OptionKind::flag, "ampacity: a circuit of one motor or compressor"},
        {"--load", OptionKind::values, "neutral: leg, amperes and, if below 1, power factor: 1:15, 2:10:0.8; several times", false, "L:A[:PF]"},
        {"--system", OptionKind::value, "neutral: 120/240 (the usual), 120/208, 120/208-3", false, "SYSTEM"},
        {"--output,-o", OptionKind::value, "The worksheet as a PDF instead", false, "FILE"},
        {"--sheet", OptionKind::value, "of the PDF: letter (the usual) or a4", false, "PAPER"},
        {"--date", OptionKind::value, "of the PDF (today)", false, "YYYY-MM-DD"}, kJson},
       run_calculate},
      {"wish", "What must run in an outage, and what may be switched on now and then",
       "Example: ohmstead wish freezer 100/400 W nameplate      ohmstead wish 'microwave 1100 W, on demand'\n"
       "         ohmstead wish 'hair dryer at upper hall receptacle, on demand'      ohmstead wish not range\n"
       "Without words it shows the list. Also: life safety, important, low; measured; duty 33 %; off at most 8 h; continuous;\n"
       "starts itself; 1/2 hp; code L; 6.5 A; pf 0.8. What is not said is taken from a table of typical loads.",
       {{"WISH", OptionKind::arguments, "A thing and what is to be said of it; several are parted by ';'"}, kWho, kJson}, run_wish},
      {"plan", "Which circuits a generator or battery carries, on which position; proven best",
       "Example: ohmstead plan      ohmstead plan --pin 'freezer on 3' --never range      ohmstead plan --why-not dryer\n"
       "Pins are kept until they are taken away. What is wished for: ohmstead wish.",
       {{"--keep", OptionKind::flag, "Keep this plan; the worksheet, the proof and the outage board go by it"},
        {"--kept", OptionKind::flag, "Show the plan that is kept instead of the best one"},
        {"--pin", OptionKind::values, "'THING on POSITION': its circuit must be on this one", false, "WORDS"},
        {"--must", OptionKind::values, "The circuit of this thing must get a place", false, "THING"},
        {"--never", OptionKind::values, "It gets none", false, "THING"},
        {"--unpin", OptionKind::values, "Take a pin away; all: every pin", false, "THING"},
        {"--why-not", OptionKind::values, "Why it has no place, and what would have to give", false, "THING"},
        {"--others", OptionKind::flag, "The few best plans that serve something else"},
        {"--sizes", OptionKind::value, "What sources of these running watts would serve", false, "W,W,..."},
        {"--smallest", OptionKind::flag, "The smallest source that serves every wish"},
        {"--in-turn", OptionKind::flag, "A timetable for when not everything fits at once, and the fuel for it"},
        {"--source", OptionKind::value, "Which source, where there are several", false, "NAME"}, kWho, kJson},
       run_plan},
      {"status", "What is recorded and what is still open", "", {kJson, kAsOf}, run_status},
      {"worksheet", "The steps of connecting the kept plan, ticked off one by one",
       "For whoever is qualified to do the wiring: before, position by position, after; with the cautions where they matter.\n"
       "Example: ohmstead worksheet --done next --who Ana      ohmstead worksheet --undo 8\n"
       "         ohmstead worksheet --connected     (all wires are where the plan has them)",
       {{"--done", OptionKind::value, "Tick this step: its number, or 'next' for the first open one", false, "STEP"},
        {"--undo", OptionKind::value, "Take the tick of this step back", false, "STEP"},
        {"--connected", OptionKind::flag, "Record the plan as the wiring that stands now; says what is missing if a step of the wiring is open"},
        {"--who", OptionKind::value, "Who did it, kept with the tick", false, "NAME"}, kJson},
       run_worksheet},
      {"prove", "Prove what the transfer device or interlock really does, with a few moves and looks",
       "Every answer is saved before the next step is shown. Stop at any time and go on later.\n"
       "Example: ohmstead prove --who Ana      ohmstead prove --status",
       {{"--status", OptionKind::flag, "Only show what is proved, what is not yet, and what is wrong"},
        kJson,
        {"--again", OptionKind::flag, "Prove everything anew, such as after work on the wiring"},
        {"--retry-skipped", OptionKind::flag, "Ask again for what could not be moved, or was not to be started"},
        {"--record-as-found", OptionKind::flag, "Write down that the positions carry what was found on them"},
        {"--source", OptionKind::value, "Whose transfer device, where there are several sources", false, "NAME"},
        {"--who", OptionKind::value, "Who is looking, kept with the observations", false, "NAME"},
        {"--json-lines", OptionKind::flag, "Driven by a program: one JSON document a line in and out (docs/json-lines.md)"}},
       run_prove},
      {"outage", "What to do in a power outage, step by step, and what may be switched on",
       "Every answer is on disk before the next step is shown; stop at any time and go on later.\n"
       "Example: ohmstead outage      ohmstead outage --may 'hair dryer' --at 'upper hall receptacle'\n"
       "         ohmstead outage --on 'hair dryer' --at 'upper hall receptacle'      ohmstead outage --moved 'T3 backup'",
       {{"--may", OptionKind::value, "May this be switched on? A thing of the house, or any thing with --at; 'kettle 1500 W'", false, "THING"},
        {"--at", OptionKind::value, "Where it is plugged in: a receptacle, or a room", false, "PLACE"},
        {"--status", OptionKind::flag, "What is on, what is left, what comes next"},
        {"--log", OptionKind::flag, "All that was done, with local times (--json: UTC)"},
        {"--on", OptionKind::value, "This was switched on", false, "THING"},
        {"--off", OptionKind::value, "This was switched off", false, "THING"},
        {"--moved", OptionKind::value, "A handle was moved: 'T3 backup', '12 off', 'main on'", false, "HANDLE TO"},
        {"--gone", OptionKind::flag, "The power from the street is gone: an outage begins"},
        {"--back", OptionKind::flag, "The power from the street is back"},
        {"--gave-up", OptionKind::flag, "Overload: the source, or its breaker, gave up"},
        {"--stopped", OptionKind::flag, "The source stopped for another reason"},
        {"--gives", OptionKind::value, "The source gives no more than this now", false, "WATTS"},
        {"--refuel", OptionKind::flag, "The tank is to be filled now: the steps for it come next"},
        {"--refuelled", OptionKind::flag, "The tank, or the battery, is full again"},
        {"--note", OptionKind::value, "A line for the log", false, "TEXT"},
        {"--answer", OptionKind::value, "Answer a step without a session: done, no or no_effect; goes with --after", false, "WORD"},
        {"--after", OptionKind::value, "Number of the step that was read (revision of --json): nothing is recorded if anybody went on since", false, "NUMBER"},
        {"--undo", OptionKind::flag, "Take back the last line"},
        {"--look-every", OptionKind::value, "How often the board looks what others did, while no key is pressed (20)", false, "SECONDS"},
        {"--who", OptionKind::value, "Who does or sees it, kept in the log", false, "NAME"},
        {"--source", OptionKind::value, "Which source carries the house, where there are several", false, "NAME"}, kJson},
       run_outage},
      {"directory", "Print the panel's directory as a PDF card for its door pocket",
       "Example: ohmstead directory -o directory.pdf --width-mm 152 --height-mm 254",
       {{"--output,-o", OptionKind::value, "PDF to write (directory.pdf)", false, "FILE"},
        {"--panel", OptionKind::value, "Which panel, where there are several (the main one)", false, "NAME"},
        {"--width-mm", OptionKind::value, "Width of the pocket (152)", false, "MM"},
        {"--height-mm", OptionKind::value, "Height of the pocket (254)", false, "MM"},
        {"--sheet", OptionKind::value, "On letter or a4 paper, with lines to cut along", false, "PAPER"},
        {"--large", OptionKind::flag, "Larger type"},
        {"--place", OptionKind::value, "Where it hangs, for its codes: dry, damp or wet (as the name of the panel's room tells)", false, "PLACE"},
        {"--by-room", OptionKind::flag, "The reverse: room by room what feeds each point, and its place on backup"},
        {"--date", OptionKind::value, "Date to print (today)", false, "YYYY-MM-DD"},
        {"--png", OptionKind::value, "Also a picture of each page: FILE, FILE-2", false, "FILE"},
        {"--dpi", OptionKind::value, "Dots per inch of these pictures (150)", false, "DPI"},
        {"--svg", OptionKind::value, "Also each page as lines that fit any size: FILE, FILE-2, ...", false, "FILE"},
        {"--codes-text", OptionKind::flag, "Also show the text that the codes hold"}},
       run_directory},
      {"photo", "Keep photos of anything: a panel before it was opened, a nameplate, a page of a manual",
       "Example: ohmstead photo add panel.jpg --about 'main panel' --caption 'before it was opened'\n"
       "         ohmstead photo list      ohmstead photo list main panel      ohmstead photo save 4k2m -o panel.jpg\n"
       "add: a JPEG or PNG; it is kept smaller, and without place, time and camera (docs/photos.md).\n"
       "remove: out of the record. forget: drops the pictures that no photo shows any more, for good.",
       {{"WHAT", OptionKind::argument, "add, list, save, remove or forget", true},
        {"THING", OptionKind::arguments, "add: the file; list: a thing; save and remove: the photo, by its 12 signs or the end of them"},
        {"--about", OptionKind::value, "add: what it shows (the house)", false, "THING"},
        {"--caption", OptionKind::value, "add: a few words", false, "TEXT"},
        {"--private", OptionKind::flag, "add: leave it out of the packet, and of hand-overs --without-private"},
        {"--who", OptionKind::value, "add: who took it", false, "NAME"},
        {"--output,-o", OptionKind::value, "save: file to write (photo-ID.jpg; '-': standard output)", false, "FILE"}, kJson},
       run_photo},
      {"paper", "Print a paper of the kept plan or of the house, or a copy of the record on paper",
       "plan: what rides where, the legs as a picture, the numbers. worksheet: the steps of connecting it, with boxes to tick.\n"
       "wall: for the family in the dark; what to do when the power fails, step by step, in large print.\n"
       "These three first need: ohmstead plan --keep. The others need no plan:\n"
       "packet: for an electrician; one-line diagram, panel schedules, evidence, findings. floor-plan: rooms and points with circuit numbers.\n"
       "signs: those that the code asks for at the service and the source, as far as this house needs them.\n"
       "notes: what the household should know, such as shut-offs and whom to call (`ohmstead note`).\n"
       "copy: the whole record as codes; most of them, scanned, bring it back with `ohmstead from-paper` (docs/paper-copy.md).\n"
       "Example: ohmstead paper wall -o wall.pdf --sheet a4       ohmstead paper packet      ohmstead paper copy -o copy.pdf",
       {{"WHICH", OptionKind::argument, "plan, worksheet, wall, packet, floor-plan, signs, notes or copy", true},
        {"--output,-o", OptionKind::value, "PDF to write (WHICH.pdf)", false, "FILE"},
        {"--sheet", OptionKind::value, "letter (the usual) or a4", false, "PAPER"},
        {"--source", OptionKind::value, "Which source, where there are several", false, "NAME"},
        {"--codes", OptionKind::flag, "signs: a code on each, too"},
        {"--fine", OptionKind::flag, "copy: smaller codes on fewer pages, for a flatbed scanner"},
        {"--place", OptionKind::value, "Where it hangs, for its codes: dry, damp or wet (dry; signs: wet)", false, "PLACE"},
        {"--date", OptionKind::value, "Date to print (today)", false, "YYYY-MM-DD"},
        {"--png", OptionKind::value, "Also a picture of each page: FILE, FILE-2, ...", false, "FILE"},
        {"--dpi", OptionKind::value, "Dots per inch of these pictures (150)", false, "DPI"},
        {"--svg", OptionKind::value, "Also each page as lines that fit any size: FILE, FILE-2, ...", false, "FILE"},
        {"--codes-text", OptionKind::flag, "Also show the text that the codes hold"}},
       run_paper},
      {"labels", "Print labels: plates, number dots, strips beside breakers and positions, panel names",
       "plates: for each point its breaker, panel, place on backup, what else goes off. dots: breaker numbers; of points with --of or --room.\n"
       "strip: beside the breakers of a panel. transfer: above the positions of the transfer device. panels: name and supply of each panel.\n"
       "On plain letter paper to be cut, on any sheet of labels given by its measures, or on tape. All measures are millimeters.\n"
       "Examples: ohmstead labels plates -o plates.pdf\n"
       "          ohmstead labels plates --room kitchen --label 66x25.4 --grid 3x10 --margin 5x12.7 --pitch 70x25.4 --start 7\n"
       "          ohmstead labels dots --tape 12 --dpi 180 -o dot.png",
       {{"WHAT", OptionKind::argument, "plates, dots, strip, transfer or panels", true},
        {"--output,-o", OptionKind::value, "FILE.pdf, or .svg or .png: one file a page (WHAT.pdf)", false, "FILE"},
        {"--of", OptionKind::values, "Only these points: a name, or 'kitchen lights'", false, "NAME"},
        {"--room", OptionKind::values, "Only the points of this room", false, "NAME"},
        {"--panel", OptionKind::value, "Only this panel's", false, "NAME"},
        {"--planned", OptionKind::flag, "transfer: by the kept plan, wired or not"},
        {"--sheet", OptionKind::value, "letter (the usual), a4, or its size", false, "PAPER|WxH"},
        {"--label", OptionKind::value, "Size of a label", false, "WxH"},
        {"--grid", OptionKind::value, "Labels across and down; without it: plain paper with cut lines", false, "CxR"},
        {"--margin", OptionKind::value, "Left and top, from the page's edge to the first label", false, "LxT"},
        {"--pitch", OptionKind::value, "From one label's edge to the next one's", false, "XxY"},
        {"--corner", OptionKind::value, "Radius of the labels' corners; half their size: round", false, "R"},
        {"--start", OptionKind::value, "First label to use of a sheet that is used in part", false, "N"},
        {"--shift", OptionKind::value, "Print everything so much to the right and down", false, "X,Y"},
        {"--printer-margin", OptionKind::value, "What the printer leaves blank at the page's edge (3)", false, "MM"},
        {"--tape", OptionKind::value, "On tape of this height", false, "MM"},
        {"--printable", OptionKind::value, "What of the tape the printer reaches (2 less)", false, "MM"},
        {"--no-cut", OptionKind::flag, "The tape printer does not cut: one long strip with cut lines"},
        {"--dpi", OptionKind::value, "Dots per inch of the printer (300)", false, "DPI"},
        {"--strip", OptionKind::value, "Pitch and height of a strip (25.4x60; transfer 25.4x38)", false, "PxH"},
        {"--no-codes", OptionKind::flag, "No codes to scan"},
        {"--codes", OptionKind::flag, "strip, transfer: a code in each cell, too, where the pitch leaves room"},
        {"--place", OptionKind::value, "Where it hangs, for its codes: dry, damp or wet (as the name of each room tells)", false, "PLACE"},
        {"--test-page", OptionKind::flag, "Print outlines, crosses and rulers instead, to see whether the printer hits the labels"},
        {"--date", OptionKind::value, "Date to print (today)", false, "YYYY-MM-DD"},
        {"--codes-text", OptionKind::flag, "Also show the text that the codes hold"}},
       run_labels},
      {"from-paper", "Start a house file from the codes of a paper copy, scanned in any order",
       "Give pictures of the pages (PNG, JPEG, PGM; 300 dots per inch) or the text that a scanner read from the codes.\n"
       "Repeats and damaged codes do no harm; if there are too few, it says how many more of any are needed.\n"
       "Example: ohmstead from-paper page1.png page2.png --to new.house      ohmstead from-paper codes.txt --to new.house",
       {{"FILE", OptionKind::arguments, "A picture or a text; '-': standard input", true},
        {"--to", OptionKind::value, "The house file to make, NAME.house", true, "NEW.house"},
        {"--set", OptionKind::value, "Which set, where pieces of several are among them: its eight signs", false, "SET"}},
       run_from_paper},
      {"print", "Print every sheet and label into a folder, or only those that are no longer true",
       "Example: ohmstead print --to prints      ohmstead print --stale      ohmstead print --stale --to prints\n"
       "         ohmstead print --list           ohmstead print --look paper-wall --to looks\n"
       "What is printed is written down with its date, revision and check code.",
       {{"--to", OptionKind::value, "Folder for the PDFs; it is made if it is not there", false, "FOLDER"},
        {"--stale", OptionKind::flag, "Say what was printed and is no longer true; with --to print just that again"},
        {"--list", OptionKind::flag, "Say what there is to print, and whether its last print is still true"},
        {"--look", OptionKind::value, "Draw one of the list, as PDF and pictures, to be looked at: not written down as printed", false, "NAME"},
        {"--printed", OptionKind::value, "Write down that one of the list was printed by other means, such as from the page", false, "NAME"},
        {"--revision", OptionKind::value, "With --printed: of the record when it was drawn (now)", false, "N"},
        {"--sheet", OptionKind::value, "letter (the usual) or a4", false, "PAPER"},
        {"--date", OptionKind::value, "Date to print (today)", false, "YYYY-MM-DD"}, kJson},
       run_print},
      {"is-it-current", "Whether a sheet or label is still true, by the check code on it",
       "Example: ohmstead is-it-current 7Q2-K9D",
       {{"CODE", OptionKind::arguments, "The six signs after 'check', in any case", true}, kJson}, run_is_it_current},
      {"serve", "Serve the page for a browser on this computer, or with --lan for phones at home",
       "Shows a code; a device that gives it back is let in, to look, to trace or to change. Stop it with Ctrl-C.\n"
       "Example: ohmstead serve      ohmstead serve --lan      ohmstead serve --lan --role look\n"
       "What is safe about it and what is not: docs/page.md.",
       {{"--lan", OptionKind::flag, "Let phones on the home network reach it; else only this computer can"},
        {"--address", OptionKind::value, "The same, at this address of this computer, where it has several", false, "ADDRESS"},
        {"--role", OptionKind::value, "What the first code allows: look, trace (the usual with --lan) or change (without)", false, "ROLE"},
        {"--port", OptionKind::value, "Port (8642); 0: any free one", false, "N"},
        {"--hours", OptionKind::value, "Stop when nobody used it for so long (4)", false, "N"},
        {"--json", OptionKind::flag, "Say what happens as JSON, one line each (docs/page.md)"}},
       run_serve},
      {"hand-over", "Write the house as one HTML file: for a phone in an outage, an electrician, a buyer",
       "The file needs no network and no program: it reads without scripts, answers what-if with them, prints well, and holds the record.\n"
       "Example: ohmstead hand-over -o house.html      ohmstead hand-over --without-private -o buyer.html\n"
       "`ohmstead import house.html new.house` starts a house file from it (docs/hand-over.md).",
       {{"--output,-o", OptionKind::value, "File to write (NAME.html; '-': standard output)", false, "FILE"},
        {"--without-private", OptionKind::flag, "Leave out private notes, names of people, the outage log, settings"}},
       run_hand_over},
      {"export", "Write the record as JSON (docs/interchange.md)", "",
       {{"--output,-o", OptionKind::value, "File to write ('-', standard output)", false, "FILE"}, kAsOf}, run_export},
      {"import", "Start a house file from a JSON record, a file of `hand-over`, or somebody else's house file",
       "Example: ohmstead import record.json home.house      ohmstead import house.html home.house",
       {{"FROM", OptionKind::argument, "The JSON document, the HTML file, or a file NAME.house that is not trusted", true},
        {"FILE", OptionKind::argument, "The house file to make", true}},
       run_import},
      {"copy", "Make a safe copy of the house file", "Never copy a house file that is in use with other means.",
       {{"FILE", OptionKind::argument, "The copy to make", true}}, run_copy},
      {"history", "What was changed in the house, or of one thing, when and by whom",
       "Newest first. Example: ohmstead history      ohmstead history dishwasher      ohmstead history breaker 12 --last all",
       {{"THING", OptionKind::arguments, "A thing in your own words; nothing: the house"},
        {"--last", OptionKind::value, "How many of the newest changes, or all (30; with --json all)", false, "N"}, kJson},
       run_history},
      {"undo", "Take back the last change, or the last N",
       "Also what was changed days ago; it is a change itself and can be made again with `ohmstead redo`.\n"
       "What was changed since, or the house could not be without, is not taken back. Example: ohmstead undo      ohmstead undo --revision 17",
       {{"N", OptionKind::argument, "How many changes (1)"},
        {"--revision", OptionKind::value, "This one change, though others came after it", false, "N"}, kWho},
       run_undo},
      {"redo", "Make again what was taken back last, or the last N",
       "Example: ohmstead redo", {{"N", OptionKind::argument, "How many changes (1)"}, kWho}, run_redo},
      {"merge", "Bring in what another copy of this house has",
       "From a house file, a JSON record or a file of `hand-over`. What one side changed holds, looks and notes of both are kept; where both\n"
       "changed the same thing you are asked, one by one. The other file is only read; nothing is written before all is decided.\n"
       "Example: ohmstead merge phone.house      ohmstead merge electrician.json --mine      ohmstead merge laptop.house --show",
       {{"OTHER", OptionKind::argument, "The other copy: NAME.house, JSON or HTML", true},
        {"--mine", OptionKind::flag, "Where both changed something, this file's holds"},
        {"--theirs", OptionKind::flag, "The other copy's holds"},
        {"--show", OptionKind::flag, "Only show what would come in and what would be asked; exit code 1 if anything would"},
        {"--json-lines", OptionKind::flag, "Driven by a program: one JSON document a line in and out (docs/history.md)"}, kWho},
       run_merge},
      {"check", "Look for damage and contradictions in the house file", "", {}, run_check},
      {"keystrokes", "Count the keystrokes of an entry text",
       "", {{"FILE", OptionKind::argument, "Text as for `enter`", true}}, run_keystrokes},
  };
  return rows;
}

}  // namespace

std::span<const Command> commands() { return table(); }

}  // namespace ohmstead

#include "ask/question_cues.h"

#include <algorithm>
#include <unordered_set>

namespace ohmstead::ask_detail {

namespace {

using enum QuestionKind;

constexpr Cue kCues[] = {
    // What can hurt comes first.
    {danger, "smell gas|smells like gas|smelling gas|gas leak|smell of gas|gas smell|gas is leaking|smells of gas", "", Danger::gas},
    {danger, "burning|burnt|smokes|smoking|sparks|sparking|spark|sparked|on fire|melting|melted|buzzing|buzzes|sizzling|smell smoke|"
         "smells like smoke|see smoke|smells funny|smells weird|arcing|crackling|scorched|"
         "breaker is hot|breaker is warm|outlet is hot|outlet is warm|plug is hot|wire is hot|panel is hot|panel is warm|feels hot|"
         "feels warm|gets hot|getting hot|humming|hums", "bulb|hot water", Danger::burning},
    {danger, "shock|shocked|shocks|zapped|zap|zaps|tingle|tingles|tingling|electrocuted|electrocute", "", Danger::shock},
    {danger, "too bright|very bright|extra bright|so bright|brighter|brighten|bright and dim|some dim|dim and some|flickering everywhere|"
         "lights are dim|lights go dim", "", Danger::bright_lights},
    {danger, "flood|flooded|flooding|under water|water in the panel|wet panel|panel is wet|outlet is wet|standing in water|wet hands|"
         "water is dripping|water dripping|water dripped|got wet", "", Danger::water},
    {danger, "water|puddle|leak; panel|breaker box|fuse box|outlet|outlets|breakers", "heater|pump|where|shut|valve|which|what|main panel feed|"
         "fed|hot", Danger::water},
    {danger, "generator|genset; indoors|inside|in the garage|in the house|in the basement|in the shed|on the porch|in the carport|in the workshop|"
         "in the utility room|by the window|near the window|under the window|in the kitchen|in the hall",
     "where|cord|phone|who", Danger::indoors},
    {danger, "backfeed|back feed|suicide cord|male to male|double male|two male", "", Danger::backfeed},
    {danger, "generator|genset|inverter; plug|plugged|hook|connect|feed; dryer outlet|dryer plug|dryer socket|wall outlet|wall socket|"
         "wall plug|an outlet|a outlet|the outlet|range outlet|range plug|stove outlet|receptacle|socket|into the dryer|into the wall",
         "", Danger::backfeed},
    {danger, "amp breaker|amp fuse|amps breaker|bigger breaker|larger breaker|bigger fuse|larger fuse|stronger breaker|stronger fuse|"
         "bigger one; put|use|swap|replace|change|install|can i|may i|should i|upgrade|ok", "", Danger::larger_breaker},
    {danger, "bypass|tape the breaker|hold the breaker|cut the ground|remove the ground|cut off the ground|penny in|nail in|foil in|"
         "cheater|jumper|keep it from tripping|stop it from tripping|take out the gfci|remove the gfci", "", Danger::larger_breaker},
    {danger, "kid|kids|child|children|baby|toddler|little brother|little sister; touch|safe|play|stick|reach", "", Danger::child},
    {danger, "open the panel|open up the panel|take the cover off|remove the cover|panel cover|cover off|dead front|open the breaker box|"
         "open the fuse box|inside the panel|in the panel with|look inside the panel|unscrew the panel", "", Danger::open_panel},
    {danger, "safe|safely|touch|touching|dangerous|danger|bare wire|bare wires|live wire|live wires|hot wire|hot wires|energized|deenergized|"
         "de energized|kill me|kills me|hurt me|get hurt|stick a|stick my|put my hand|put my finger|with my hand|with bare hands|without turning"},
    {danger, "^is|^are|^will|^would; dead|still live|live|still hot|de energised|really off|off now", "why|still dead|off with"},
    {danger, "replace|change|swap|fix|repair|install|wire|rewire|do; myself|on my own|by myself|alone", "^who"},
    {danger, "how do i know|how can i know|how do i tell|how can i tell|how can i be sure|how do i make sure|how do we know|make sure|"
         "how to tell|how to check|how to be sure; dead|safe|off|not live|no power in"},
    {danger, "^is|^are|^was; off$", "what|which"},
    {danger, "dead if|dead when|dead with|dead once|dead now; wire|wires|it|box|cable|conductor|conductors", "why"},
    {danger, "^can|^may|^could|^should|^ok to|is it ok|is it okay|is it alright|is it all right; work on|work in|do the wiring|wire it|"
         "rewire|cut the|cut this|cut it|open the box|unscrew|take apart|do it live|strip", ""},
    // Notes and what a household should know.
    {note, "what was written|is written|anything written|was noted|note|notes|noted|remark|remarks|memo|written down about|wrote about|"
         "write about|wrote down"},
    {note, "phone|telephone|phone number|who do i call|whom do i call|who should i call|who can i call|who do we call|who should we call|"
         "who to call|whom to call|call the|call for|to call|number of the power company|number for the power company|i call|do i ring|"
         "reach the|who i call"},
    {note, "is number|his number|her number|their number|my number", "breaker|circuit|fuse|what number"},
    {note, "number; electrician|plumber|neighbor|neighbour|utility|power company|electric company|supplier|landlord|doctor", "breaker|"
         "circuit|fuse"},
    {note, "water; shut|shutoff|valve|main|turn off the water|turn the water off|stop the water|water off|cut the water|switch off the water|"
         "close the water", "heater|hot|pump|washer|dishwasher|panel|breaker|fuse"},
    {note, "gas; valve|shut|shutoff|turn off the gas|turn the gas off|gas off|close|main", "long|fuel"},
    {note, "start|starting|going|crank|fire up|turn on|started|start up|run; generator|genset; how do|how to|how can|how does|how should|"
         "show me how|tell me how|instructions|steps", "how long|how much|how many"},
    // What does not work.
    {dead, "why|how come", "who"},
    // Before work on it: comes before what goes off.
    {isolate, "what|which|where|do i|need to|want to|going to|gonna|about to|have to|must|should|before|let me|am; change|changing|changed|"
         "replace|replacing|replaced|swap|swapping|fix|fixing|fixed|repair|repairing|repaired|work on|working on|install|installing|"
         "remove|removing|rewire|rewiring|wire|take down|hang a|hang the|put in|put up|do work"},
    // What goes off.
    {circuit, "what else|anything else|what other|which other|who else|same breaker|same circuit|same fuse|shares|share|sharing|one circuit|"
         "one breaker|together with|else is on|else goes off|everything else|rest of that circuit|rest of the circuit|others on|along with",
         ""},
    {off, "what|which|everything|whatever|who|stuff|things|anything; goes off|go off|goes out|go out|goes dark|go dark|going off|going out|"
         "goes down|go down|goes dead|go dead|shuts down|shut down|shuts off|lose|loses|lost|dies|die|stops working|stop working|stops|"
         "quits|gets dark|will be off|is off if|are off if|be off|is dead if|are dead if|turns off if|turn off if|be dead|dark if|dark when",
         "work on|working on|to work|before i|swap|replace|change|fix|repair|install|rewire|remove|need to|have to"},
    {off, "what; trips if|trips when|trip if"},
    {off, "what happens|what would happen|what will happen|what happen|tell me what happens; off|flip|trip|trips|pull|open|out|kill|"
         "down|throw", "power goes out|power is out|outage|work on|working on|to work|before i|swap|replace|change|fix|repair|install|"
         "rewire|remove|need to|have to"},
    {off, "what does|what do|what will|what would|what all does|what all will; turn off|turns off|shut off|shuts off|switch off|switches off|"
         "kill|kills|cut|cuts|knock out|take out|takes out|take down|takes down", "turn off before|to change|to work|to fix|to replace|"
         "need to|have to|do i turn off|do i shut off|do i switch off|should i|do we turn off|do i kill|do i cut"},
    {off, "if i turn off|if i flip|if i switch off|if i shut off|if we turn off|if you turn off|when i turn off|when i flip|if i pull|"
         "if i trip; what|which|anything", ""},
    {off, "^does|^do|^will|^would; go off with|go out with|go dark with|go off if|go off when|go out if|go out when|go dark if|go dark when"},
    // Proof and progress.
    {traced, "who did the tracing|who did the testing|who traced|who found|who looked|who said|who says|says who|who tested|who checked|"
         "who declared|who told|who wired|who figured|who knows|how do you know|how do we know|how can you tell|how come you know|are you sure|"
         "you sure|quite sure|are you certain|you certain|how sure|is that sure|is that certain|how certain|is it proved|is it proven|"
         "proof|proved|proven|evidence|traced it|traced that|traced this|is that right|really sure|do you know for sure|for sure"},
    {traced, "when; traced|checked|tested|looked at|last looked|last seen|trace|test|check|verified"},
    {open, "untraced|not traced|not been traced|still open|not yet|still missing|is missing|left to trace|left to do|how far|unknown|"
         "not known|do not know|do we not know|progress|done so far|still to trace|to be traced|needs tracing|need tracing|not you know yet|"
         "you do not know|feed nothing|feeds nothing|with nothing on|have nothing on|not found|how much is traced|how many are traced|"
         "finished tracing|done tracing|are we done|what do we still|still have to trace|need to trace|still need|have not traced|have we not|"
         "not done|remains to be|not labeled|have not been traced|spare"},
    // The generator.
    {outage, "what do i do|what do we do|what should i do|what should we do|what to do|what now|help; power|outage|blackout|lights|dark|"
         "electricity", "water|gas"},
    {outage, "^power is out$|^the power is out$|^the power is gone$|^the power went out$|^the lights went out$|^lights went out$|^no power$|"
         "^blackout$|^everything is dark$|^the power just went out$|^there is no power$"},
    {left, "how much is left|how much is still left|fuel left|gas left|gasoline left|fuel last|how much fuel|how much gas|how much gasoline|"
         "how many watts|watts left|watts can|power left|how much more|more can i plug|more can we plug|capacity left|room left|room is left|"
         "room on the generator|how much power is left|how many hours|refuel|refill|fill the tank|tank|until it is empty|overloading|"
         "overload|how full", "water tank|hot water|fish tank|tank heater"},
    {left, "how long; fuel|gas last|gasoline|generator run|generator last|run the generator|battery|can it run|will it run|keep running|"
         "generator keep", ""},
    {backup, "on the generator|on generator|on backup|on the backup|on the genset|by the generator|generator run|generator runs|generator carry|"
         "generator carries|generator power|generator powers|generator feed|generator feeds|generator keep|generator keeps|generator do|"
         "generator handle|generator take|generator support|in an outage|during an outage|in a blackout|during a blackout|"
         "on the battery|on the inverter|emergency power|backup power|backed up|back up power|which position|what position|when the power is out|"
         "when power is out|when the power goes out|when power goes out|when the power fails|when the power is off|when there is no power|"
         "when we have no power|if the power is out|if the power goes out|if the power fails|when the electricity is out|when the electricity goes out|"
         "when the lights go out|outage|blackout|power cut|power failure|backup|genset", "work on"},
    // Before work.
    {isolate, "isolate|lock out|lockout|de energize|deenergize|make; safe to work|dead|to work|to change|isolate|lock out|lockout|de energize|"
         "deenergize|before i work|before working|off"},
    {isolate, "isolate|must be off before|must be off to|has to be off|have to be off|need to be off|off before|before i touch|before i work|"
         "before working|lock out"},
    {isolate, "how do i|how can i|how to|how do we|how do you|what do i|what should i|where do i|how would i; turn off|shut off|switch off|"
         "kill|cut power|cut the power|disconnect", "back on"},
    {isolate, "how do i|how can i|how to|how do we|how do you|how would i; turn|shut|switch; off$", "back on"},
    // Back on.
    {restore, "back on|bring back|brings back|restore|reset|power back|get power to", "why|turn off"},
    {restore, "bring|brings|get|gets|make|turn|have|push|flip|so; back|goes again|go again|works again|going again|working again|work again|"
         "to work again|running again", "why|turn off"},
    // May it be switched on.
    {may, "may i|can i|could i|ok to|okay to|alright to|all right to|allowed to|should i|can we|may we|ok if i|okay if i|could we|should we|"
         "am i able|can you; start|run|use|turn on|switch on|plug in|put on|put|cook|turn|switch|charge|do laundry|make|dry|wash|vacuum|"
         "bake|watch|heat", "off|what|which|how|where|when the power"},
    // What does not work, said without asking.
    {dead, "what is wrong|is wrong with|stopped working|stopped|not working|does not work|do not work|does not go|does not come|did not come|"
         "no power|has no|without power|quit|quits|is dead|are dead|went dead|died|went out|went off|will not turn on|will not start|"
         "will not come on|will not go on|is out|are out|is broken|broken|no electricity|no juice|tripped|trips|keeps tripping|not turning on|"
         "not coming on|no light|is not on|are not on|does nothing|is gone|not cold|not hot|lost power|off why|turn on anymore|work anymore|"
         "working anymore|keeps going off|keeps turning off|acting up", "^which|^what goes|^what does|^if"},
    // What feeds, what it carries, where.
    {carries, "what is on|what all is on|what is connected to|what is hooked to|what hangs on|hangs on|everything on|all on|what runs on|"
         "which things are on|what things are on|what are on|what stuff is on|what is running on|what is plugged", "the power|what is on fire"},
    {carries, "what does|what do|what will|what is|what all does|what all is|what rooms does|which rooms does|what rooms are|tell me what;"
         " feed|feeds|control|controls|do|does|carry|carries|run|runs|power|powers|supply|supplies|for|go to|serve|serves|handle", "get its|"
         "what is the"},
    {feeds, "which breaker|what breaker|which fuse|what fuse|which circuit|what circuit|which switch|what switch|which one|what feeds|"
         "who feeds|breaker for|fuse for|circuit for|switch for|what number|which number|breaker number|fed by|fed from|hooked up to|"
         "hooked to|connected to|power from|what powers|which powers|get its power|gets its power|get power|gets power|get its electricity|"
         "runs on|runs off|which breakers|what breakers|which fuses|which circuits|what runs|what controls|what makes|what turns on|"
         "what turns off|which turns off|wired to|what supplies|which panel|what panel|comes from|come from|plugged into what|which handle|"
         "what handle|which button|what button|which lever|which thing"},
    {place, "where is|where are|where can i find|where do i find|where to find|which room|what room|find the|location of|how do i find|"
         "where would i find|where did|where do we keep|where do i keep|where"},
    {feeds, "breaker|fuse|circuit|what is; on|on what", "^is|^are"},
    {feeds, "breaker|fuse|brkr|cb"},
    {backup, "generator|genset", "where|cord|start|who|how|when"},
    {isolate, "^turn off|^lock out|^shut off|^kill"},
};

constexpr std::string_view kPhrases[] = {
    "i would like to know", "can you tell me", "could you tell me", "do you happen to know", "i want to know", "i need to know", "please tell me",
         "tell me", "show me", "do you know",
    "the number on the", "the same breaker as", "the same circuit as", "on the same breaker", "on the same circuit", "the same breaker",
         "the same circuit", "same breaker as", "same circuit as", "same breaker", "same circuit", "same fuse",
    "when the power is out", "when the power goes out", "when the power fails", "when power is out", "when power goes out", "when the power is off",
         "if the power goes out", "if the power is out", "if the power fails", "when there is no power", "when we have no power",
    "when the electricity is out", "when the electricity goes out", "when the lights go out", "in an outage", "during an outage", "in a blackout",
         "during a blackout", "in a power cut", "in a power failure", "while the power is out",
    "on the generator", "by the generator", "on the backup", "on the genset", "on the battery", "on the inverter", "from the generator",
         "by the backup", "off the generator",
    "in the fuse box", "in the breaker box", "in the panel", "on the panel", "in the box", "in the breaker panel", "at the panel", "in the electrical panel",
    "hooked up to", "hooked up", "hooked to", "connected to", "plugged in", "plug in", "plugged into", "get its power", "gets its power",
         "get its electricity", "power from", "no power", "has no power", "power to", "get power", "power back",
    "turned off", "turn off", "turns off", "turning off", "shut off", "shuts off", "switch off", "switches off", "switched off", "turn on",
         "turns on", "switch on", "back on", "turned on", "cut power to", "cut the power to", "cut power", "cut off", "knock out",
    "what else", "anything else", "everything else", "who else", "stopped working", "not working", "stops working", "stop working", "work on",
         "working on", "safe to", "the bare wires", "bare wires", "bare wire", "live wires", "hot wires",
    "get hurt", "to the electrician", "any more", "in this house", "in our house", "in the house", "for sure", "right now", "as well",
         "these days", "at the moment", "all the", "all of the", "one of the", "the one for", "the one",
    "which breaker", "what breaker", "which fuse", "what fuse", "which circuit", "what circuit", "which switch", "what switch", "which panel",
         "what panel", "which position", "what position", "which breakers", "what breakers", "which circuits",
    "disconnect the", "lock out", "read me", "on one circuit", "on one breaker", "same fuse", "a lot", "written down",
    "how do i", "how can i", "how do we", "how do you", "what do i", "which one", "what number", "breaker number", "keeps tripping",
         "going to", "want to", "need to", "have to", "about to", "able to",
};

const std::unordered_set<std::string_view>& asking_words() {
  static const std::unordered_set<std::string_view> kWords{
         "a", "an", "the", "this", "that", "these", "those", "it", "its", "there", "here", "i", "we", "you", "he", "she", "they", "me",
         "us", "my", "our", "your", "his", "her", "their", "mommy", "mom", "dad", "daddy", "grandma", "honey", "dear",
         "what", "which", "who", "whom", "whose", "where", "when", "why", "how", "is", "are", "was", "were", "be", "been", "being", "am",
         "do", "does", "did", "done", "doing", "has", "have", "had", "can", "could", "may", "might", "shall", "should", "will", "would",
         "must", "gonna", "wanna", "gotta",
         "to", "for", "of", "from", "by", "with", "at", "in", "if", "then", "so", "than", "as", "but", "or", "not", "no", "nor", "also",
         "too", "just", "only", "still", "yet", "please", "hi", "hello", "hey", "ok", "okay", "oh", "um", "uh", "well,", "now", "again",
         "ever", "already", "really", "actually", "exactly", "maybe", "today", "tonight", "anymore", "about", "into", "onto", "through",
         "before", "after", "during", "while", "until", "because", "once", "onwards",
         "go", "goes", "going", "gone", "went", "get", "gets", "getting", "got", "turn", "turns", "turned", "turning", "flip", "flips",
         "flipped", "flipping", "pull", "pulled", "throw", "kill", "kills", "cut", "cuts", "trip", "trips", "tripped", "tripping",
         "put", "take", "takes", "make", "makes", "made", "let", "lose", "loses", "lost", "die", "dies", "died", "stop", "stops",
         "stopped", "quit", "quits", "open", "opens", "opened", "shut", "shuts", "close", "start", "starts", "started", "starting",
         "run", "runs", "running", "use", "uses", "using", "used", "work", "works", "working", "know", "find", "found", "look", "looked",
         "looks", "say", "says", "said", "told", "tell", "tells", "ask", "see", "seen", "check", "checked", "test", "tested", "trace",
         "traced", "think", "mean", "bring", "brings", "restore", "reset", "replace", "replacing", "change", "changing", "swap", "swapping",
         "fix", "fixing", "repair", "repairing", "install", "installing", "remove", "removing", "rewire", "rewiring", "isolate", "happen",
         "happens", "want", "wants", "need", "needs", "belong", "belongs", "keep", "keeps", "kept", "live", "call", "called", "named",
         "labeled", "marked", "touch", "touching", "feel", "hang", "hangs", "hanging", "come", "comes", "came", "coming", "like",
         "help", "give", "gives", "try",
         "feed", "feeds", "fed", "feeding", "power", "powers", "powered", "powering", "supply", "supplies", "supplied", "control", "controls",
         "controlled", "controlling", "carry", "carries", "carried", "connect", "connected", "hooked", "wired", "plugged", "electricity",
         "juice", "electric", "electrical",
         "off", "on", "out", "up", "down", "dark", "dead", "hot", "safe", "dangerous", "danger", "ok?", "wrong", "broken", "sure", "certain",
         "ready", "new", "old", "last", "same", "other", "others", "else", "everything", "anything", "something", "nothing", "thing",
         "things", "stuff", "all", "any", "every", "each", "some", "both", "own", "right?", "missing", "untraced", "half", "whole",
         "entire",
         "one", "kid", "kids", "children", "grandson", "granddaughter", "unplug", "unplugging", "show", "noted", "yo", "hey", "push", "pushing",
         "watch", "bake", "listen", "stay", "stays", "written", "wrote", "quite", "proved", "proven", "verified", "location", "shall",
         "read", "changed", "replaced", "fixed", "repaired", "tracing", "tripping", "thank", "thanks", "cook", "listen", "note", "notes",
         "number", "numbers", "phone", "telephone", "outage", "blackout", "backup", "share", "shares", "sharing", "together", "kind",
         "need", "position?", "wire", "wires", "wiring", "plain", "hand", "hands", "cook", "anybody", "somebody", "someone", "people",
         "part", "parts", "blew", "blow", "blown", "popped", "pop",
  };
  return kWords;
}

}  // namespace

std::span<const Cue> cues() { return kCues; }
std::span<const std::string_view> asking_phrases() { return kPhrases; }
bool is_asking_word(std::string_view folded_word) { return asking_words().contains(folded_word); }

}  // namespace ohmstead::ask_detail

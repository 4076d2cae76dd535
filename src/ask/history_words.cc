#include "ask/history_words.h"

#include "ask/printable.h"
#include "ask/sentence.h"

namespace ohmstead {

namespace {

constexpr std::size_t kMostItems = 12, kMostFields = 8, kLongestValue = 80;

std::string short_value(const std::string& value) {
  if (value.size() <= kLongestValue) return value;
  std::size_t end = kLongestValue;
  while (end > 0 && (static_cast<unsigned char>(value[end]) & 0xC0U) == 0x80U) --end;
  return value.substr(0, end) + "...";
}

/// "amps 20"; "panel Main" and not "panel panel Main".
std::string field_words(const HistoryItem& item, const HistoryField& field) {
  if (item.kind == HistoryItemKind::changed) return field.name + " " + short_value(field.from) + " -> " + short_value(field.to);
  const std::string value = short_value(item.kind == HistoryItemKind::added ? field.to : field.from);
  return value.starts_with(field.name + " ") ? value : field.name + " " + value;
}

/// "amps 15 -> 20, old label kitchen -> bath". A name that the thing is called by is not said twice.
std::string fields_words(const HistoryItem& item) {
  std::string words;
  std::size_t said = 0;
  for (std::size_t i = 0; i < item.fields.size(); ++i) {
    const HistoryField& field = item.fields[i];
    if (item.kind != HistoryItemKind::changed && field.name == "name") continue;
    if (said++ == kMostFields) return words + ", and " + std::to_string(item.fields.size() - i) + " more";
    words += (words.empty() ? "" : ", ") + field_words(item, field);
  }
  return words;
}

std::string item_words(const HistoryItem& item) {
  const std::string fields = fields_words(item);
  if (item.kind == HistoryItemKind::reordered) return "the order of " + item.thing;
  const std::string verb = item.kind == HistoryItemKind::changed ? "" : item.kind == HistoryItemKind::added ? " added" : " removed";
  return sentence::capital(item.thing) + verb + (fields.empty() ? "" : ": " + fields);
}

Line entry_line(const HistoryEntry& entry) {
  const std::string when = entry.at.size() < 16 ? entry.at : entry.at.substr(0, 10) + " " + entry.at.substr(11, 5) + " UTC";
  std::string text = "Revision " + std::to_string(entry.revision) + ", " + when + (entry.who.empty() ? "" : ", " + entry.who) + ": " + entry.what;
  if (entry.taken_back) text += " (taken back)";
  if (!entry.kept) text += entry.revision == 1 ? "" : " (what it did is not kept)";
  Line line{LineKind::answer, terminal::printable(text), {}};
  for (std::size_t i = 0; i < entry.items.size(); ++i) {
    if (i == kMostItems) {
      line.items.push_back("and " + std::to_string(entry.items.size() - i) + " more");
      break;
    }
    line.items.push_back(terminal::printable(item_words(entry.items[i])));
  }
  return line;
}

}  // namespace

Lines words_of_history(const HistoryAnswer& answer) {
  Lines lines;
  if (answer.entries.empty())
    sentence::say(lines, LineKind::answer, terminal::printable("Nothing is recorded of when " + (answer.thing.empty() ? std::string("the house") : answer.thing) + " changed: it is as it was when history began."));
  for (const HistoryEntry& entry : answer.entries) lines.push_back(entry_line(entry));
  if (answer.older > 0) sentence::say(lines, LineKind::detail, "There are " + sentence::counted(answer.older, "older change", "older changes") + ": --last all shows them.");
  return lines;
}

}  // namespace ohmstead

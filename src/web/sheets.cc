#include "web/sheets.h"

#include <algorithm>
#include <fstream>
#include <iterator>

#include "house/error.h"

namespace ohmstead::web {

namespace {

using Json = nlohmann::ordered_json;
namespace fs = std::filesystem;

constexpr std::size_t kMostPages = 400, kMostSaid = 64, kAnswersOfARun = 20'000;
constexpr int kRefusedCode = 4;  // of the printing program: a name or a revision that is not there (cli/exit_code.h)

Response answered(const Json& json) { return {.body = json.dump(-1, ' ', false, Json::error_handler_t::replace)}; }
Response not_there(const char* message) { return refusal(400, "not_found", message); }

/// Why a process gave nothing, for a person.
Response not_drawn(ChildEnd end) {
  const char* why = "The printing program could not draw this; `ohmstead print` on the house computer says why.";
  if (end == ChildEnd::too_late) why = "Drawing this took too long and was given up; try again, or use `ohmstead print` on the house computer.";
  if (end == ChildEnd::not_started) why = "The printing program is not installed beside the server, so no sheet can be shown; install or build `ohmstead-print`.";
  if (end == ChildEnd::stopped) why = "The server is stopping.";
  return refusal(503, "not_drawn", why);
}
Response too_large() { return refusal(503, "not_drawn", "This is too large to be shown here; use `ohmstead print` on the house computer."); }

/// Bytes of a file of at most so many; nothing: it is not there, or larger.
std::optional<std::string> bytes_of(const fs::path& path, std::size_t most) {
  std::error_code fault;
  const auto size = fs::file_size(path, fault);
  if (fault || size > most) return std::nullopt;
  std::ifstream file(path, std::ios::binary);
  std::string bytes(std::istreambuf_iterator<char>(file), {});
  return bytes.size() == size ? std::optional(std::move(bytes)) : std::nullopt;
}

/// Width and height of a PNG in px: big-endian in its first chunk (ISO/IEC 15948, IHDR; from memory).
Json size_of(const std::string& png) {
  const auto number = [&](std::size_t at) {
    unsigned value = 0;
    for (std::size_t i = at; i < at + 4 && i < png.size(); ++i) value = value << 8U | static_cast<unsigned char>(png[i]);
    return value;
  };
  return {{"width", number(16)}, {"height", number(20)}};
}

/// Page 1 is page.png, page 2 page-2.png, ...
fs::path page_file_in(const fs::path& folder, std::size_t page) { return folder / (page == 1 ? "page.png" : "page-" + std::to_string(page) + ".png"); }

const Json* row_of(const Json& list, const std::string& item) {
  const auto row = std::ranges::find_if(list["sheets"], [&](const Json& one) { return one["item"] == item; });
  return row == list["sheets"].end() ? nullptr : &*row;
}

/// The list as the page gets it; nothing: the program's answer is not one.
std::optional<Json> read_list(const std::string& text) {
  const Json said = Json::parse(text, nullptr, false);
  if (!said.is_object() || !said.contains("revision") || !said.contains("sheets") || !said["sheets"].is_array() || !said.contains("gone")) return std::nullopt;
  for (const Json& row : said["sheets"])
    for (const char* field : {"item", "title", "state", "words"})
      if (!row.is_object() || !row.contains(field) || !row[field].is_string()) return std::nullopt;
  return Json{{"revision", said["revision"]}, {"sheets", said["sheets"]}, {"gone", said["gone"]}};
}

}  // namespace

Sheets::Sheets(SheetsOptions options, std::function<void()> drawn) : options_(std::move(options)), drawn_(std::move(drawn)), worker_([this] { work(); }) {}

Sheets::~Sheets() {
  {
    const std::lock_guard held(mutex_);
    stopping_ = true;
    wanted_changed_.notify_all();
  }
  worker_.join();
}

std::string Sheets::state_now(bool of_file) const {
  std::string state = std::to_string(options_.revision()) + " " + options_.date();
  if (!of_file) return state;
  std::error_code ignored;  // that something was printed is written into the file and is no new revision
  return state + " " + std::to_string(fs::last_write_time(options_.house, ignored).time_since_epoch().count());
}

std::optional<Sheets::Made> Sheets::made(const std::string& item, const std::string& state) {
  const std::lock_guard held(mutex_);
  const auto found = made_.find(item);
  if (found != made_.end()) {
    const bool tried_again = found->second.refused && options_.clock() >= found->second.at + options_.failure_kept;
    if (found->second.state.starts_with(state) && !tried_again) {
      found->second.used = ++uses_;
      return found->second;
    }
  }
  if (std::ranges::find(wanted_, item) == wanted_.end()) wanted_.push_back(item), wanted_changed_.notify_all();
  return std::nullopt;
}

std::optional<Response> Sheets::list() {
  const auto now = made("", state_now(true));
  if (!now) return std::nullopt;
  return now->refused ? *now->refused : answered(*now->list);
}

std::optional<Response> Sheets::shown(const std::string& item, bool of_file, const Show& show) {
  const auto all = made("", state_now(of_file));
  if (!all) return std::nullopt;
  if (all->refused) return all->refused;
  const Json* row = row_of(*all->list, item);
  if (row == nullptr || item.empty()) return not_there("There is no such sheet; look at the list of sheets again.");
  if ((*row)["state"] == "refused" || (*row)["state"] == "empty") return refusal(400, "cannot_be_printed", (*row)["words"].get<std::string>());
  const auto now = made(item, state_now(false));
  if (!now) return std::nullopt;
  return now->refused ? *now->refused : show(*now->sheet, *row);
}

std::optional<Response> Sheets::about(const std::string& item) {
  return shown(item, true, [](const DrawnSheet& sheet, const Json& row) {
    Json about = row;
    about.update(sheet.about);
    return answered(about);
  });
}

std::optional<Response> Sheets::picture(const std::string& item, const std::string& page) {
  return shown(item, false, [&](const DrawnSheet& sheet, const Json&) {
    for (std::size_t i = 0; i < sheet.pages.size(); ++i)
      if (page == std::to_string(i + 1)) return Response{.type = "image/png", .body = sheet.pages[i]};
    return not_there("This sheet has no such page; look at it again.");
  });
}

std::optional<Response> Sheets::pdf(const std::string& item) {
  return shown(item, false, [](const DrawnSheet& sheet, const Json&) { return Response{.type = "application/pdf", .body = sheet.pdf}; });
}

std::size_t Sheets::kept_bytes() const {
  const std::lock_guard held(mutex_);
  std::size_t bytes = 0;
  for (const auto& [item, one] : made_) bytes += one.bytes;
  return bytes;
}

void Sheets::work() {
  for (;;) {
    std::unique_lock held(mutex_);
    wanted_changed_.wait(held, [&] { return stopping_ || !wanted_.empty() || !said_.empty(); });
    if (stopping_) return;
    if (said_.empty()) draw_first(held);
    else keep_first(held);
    held.unlock();
    drawn_();
  }
}

void Sheets::draw_first(std::unique_lock<std::mutex>& held) {
  const std::string item = wanted_.front();
  held.unlock();
  Made one;
  one.state = state_now(true);
  make(item, one);
  one.at = options_.clock();
  held.lock();
  wanted_.pop_front();
  one.used = ++uses_;
  made_[item] = std::move(one);
  trim();
}

std::optional<Response> Sheets::keep(const SaidPrinted& said) {
  const std::lock_guard held(mutex_);
  const auto found = answers_.find(said.key);
  if (found != answers_.end()) {
    std::optional<Response> answer = found->second;
    if (answer && answer->status == 503) answers_.erase(found);  // whoever sends it again has it tried again
    return answer;
  }
  if (said_.size() >= kMostSaid) return refusal(503, "too_many", "Many prints are being written down already; send it again in a few seconds.");
  if (answers_.size() >= kAnswersOfARun) std::erase_if(answers_, [](const auto& one) { return one.second.has_value(); });
  answers_[said.key] = std::nullopt;
  said_.push_back(said);
  wanted_changed_.notify_all();
  return std::nullopt;
}

void Sheets::keep_first(std::unique_lock<std::mutex>& held) {
  const SaidPrinted said = said_.front();
  held.unlock();
  Response answer = write_down(said);
  held.lock();
  said_.pop_front();
  answers_[said.key] = std::move(answer);
}

Response Sheets::write_down(const SaidPrinted& said) const try {
  const ChildResult kept = printed({"--printed=" + said.item, "--revision=" + std::to_string(said.revision)});
  const Json told = kept.end == ChildEnd::done ? Json::parse(kept.out, nullptr, false) : Json();
  if (told.is_object() && told.contains("labels")) return answered({{"item", said.item}, {"revision", said.revision}, {"labels", told["labels"]}});
  if (kept.end == ChildEnd::failed && kept.code == kRefusedCode)
    return not_there("This sheet was not there to be printed then, or what the record said then is not kept any more: look at the list again, print it anew, and say so then.");
  if (kept.end == ChildEnd::not_started) return not_drawn(kept.end);
  return refusal(503, "storage", "It could not be written down that this was printed; it is tried again.");
} catch (const std::exception&) {
  return refusal(503, "storage", "It could not be written down that this was printed; it is tried again.");
}

void Sheets::make(const std::string& item, Made& made) const try {
  if (item.empty()) make_list(made);
  else make_sheet(item, made);
} catch (const Error& error) {
  made.refused = refusal(503, "not_drawn", error.what());
} catch (const std::exception&) {
  made.refused = not_drawn(ChildEnd::failed);
}

ChildResult Sheets::printed(std::vector<std::string> words) const {
  if (options_.program.empty()) return {};
  words.insert(words.begin(), {options_.program.string(), "--house=" + options_.house.string(), "print"});
  words.insert(words.end(), {"--date=" + options_.date(), "--json"});
  return run_child(words, options_.child, stopping_);
}

void Sheets::make_list(Made& made) const {
  const ChildResult said = printed({"--list"});
  auto list = said.end == ChildEnd::done ? read_list(said.out) : std::nullopt;
  if (!list) {
    made.refused = not_drawn(said.end);
    return;
  }
  made.bytes = said.out.size();
  made.list = std::make_shared<const Json>(std::move(*list));
}

void Sheets::make_sheet(const std::string& item, Made& made) const {
  const PrivateFolder folder;
  const ChildResult said = printed({"--look=" + item, "--to=" + folder.path().string()});
  const Json told = said.end == ChildEnd::done ? Json::parse(said.out, nullptr, false) : Json();
  if (!told.is_object() || !told.contains("notes") || !told.contains("revision")) {
    made.refused = not_drawn(said.end == ChildEnd::done ? ChildEnd::failed : said.end);
    return;
  }
  DrawnSheet sheet;
  std::size_t left = options_.most_bytes / 2;
  const auto take = [&](const fs::path& path) {
    auto bytes = bytes_of(path, left);
    if (bytes) left -= bytes->size();
    return bytes;
  };
  auto pdf = take(folder.path() / "sheet.pdf");
  for (std::size_t page = 1; pdf && fs::exists(page_file_in(folder.path(), page)); ++page) {
    auto png = take(page_file_in(folder.path(), page));
    if (!png || page > kMostPages) pdf.reset();
    else sheet.pages.push_back(std::move(*png));
  }
  if (!pdf || sheet.pages.empty()) {
    made.refused = too_large();
    return;
  }
  sheet.pdf = std::move(*pdf);
  sheet.about = {{"revision", told["revision"]}, {"notes", told["notes"]}, {"pages", Json::array()}};
  for (const std::string& png : sheet.pages) sheet.about["pages"].push_back(size_of(png));
  made.bytes = options_.most_bytes / 2 - left;
  made.sheet = std::make_shared<const DrawnSheet>(std::move(sheet));
}

void Sheets::trim() {
  for (;;) {
    std::size_t bytes = 0;
    auto oldest = made_.end();
    for (auto one = made_.begin(); one != made_.end(); ++one) {
      bytes += one->second.bytes;
      if (!one->first.empty() && one->second.bytes > 0 && (oldest == made_.end() || one->second.used < oldest->second.used)) oldest = one;
    }
    if (bytes <= options_.most_bytes || oldest == made_.end()) return;
    made_.erase(oldest);
  }
}

}  // namespace ohmstead::web

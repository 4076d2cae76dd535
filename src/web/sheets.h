#pragma once
// Every sheet and label of the house as the page shows it before it is printed: the list, pictures of the pages, the PDF. They are drawn
// by the printing program in a process of its own, one at a time, because its libraries are slow to load and not for several threads.
// Looking writes nothing; who says that a sheet was printed has that written down, by the same program. No lock of the house is held meanwhile.

#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "web/child.h"
#include "web/message.h"

namespace ohmstead::web {

struct SheetsOptions {
  std::filesystem::path program;            ///< `ohmstead-print`; empty: it is not there
  std::filesystem::path house;              ///< the house file
  std::function<std::int64_t()> revision;   ///< of the house, now; from any thread
  std::function<std::string()> date;        ///< "2026-11-27", printed on every sheet
  ChildLimits child;
  std::size_t most_bytes = 24U * 1024 * 1024;     ///< kept of what was drawn; the least lately asked for goes first. One sheet has half of it at most
  std::chrono::milliseconds failure_kept{3'000};  ///< what could not be drawn is not tried again before that
  Clock clock = [] { return std::chrono::steady_clock::now(); };
};

/// One sheet, drawn.
struct DrawnSheet {
  nlohmann::ordered_json about;    ///< "revision", "notes": what was warned of, and "pages": [{"width","height"}] in px
  std::vector<std::string> pages;  ///< PNG
  std::string pdf;
};

/// What somebody says: this was printed, as it was drawn when the record was at that revision.
struct SaidPrinted {
  std::string item;
  int revision = 0;
  std::string key;  ///< drawn for this saying; one that was taken is not done again
};

/// From any thread. What is asked for returns at once: nothing means that it is being drawn and will be told of. What is refused is answered
/// so: 400 for a name or a page that is not there, or for what the record cannot print; 503 for what could not be drawn.
class Sheets {
 public:
  /// `drawn` is called, in a thread of its own, when something that was asked for may be there.
  Sheets(SheetsOptions options, std::function<void()> drawn);
  /// Ends what is being drawn.
  ~Sheets();
  Sheets(const Sheets&) = delete;
  Sheets& operator=(const Sheets&) = delete;

  /// `{"revision","sheets":[...],"gone":[...]}` of `ohmstead print --list --json`, with whether each is still true as of the file now.
  [[nodiscard]] std::optional<Response> list();
  /// Its row of the list and what DrawnSheet has about it. `item`: a name of the list, nothing else; it is compared with the list before it goes anywhere.
  [[nodiscard]] std::optional<Response> about(const std::string& item);
  /// `page` from 1, in digits.
  [[nodiscard]] std::optional<Response> picture(const std::string& item, const std::string& page);
  [[nodiscard]] std::optional<Response> pdf(const std::string& item);

  /// Writes it down as the printing command would: `{"item","revision","labels"}`. 400 for what was not in the list then. Nothing means that it is being done:
  /// ask again with the same key.
  [[nodiscard]] std::optional<Response> keep(const SaidPrinted& said);

  /// What is kept, in bytes.
  [[nodiscard]] std::size_t kept_bytes() const;

 private:
  /// What a process of the printing program gave, or why it gave nothing.
  struct Made {
    std::string state;  ///< of the house it was made of
    std::shared_ptr<const nlohmann::ordered_json> list;
    std::shared_ptr<const DrawnSheet> sheet;
    std::optional<Response> refused;
    Moment at;
    std::size_t bytes = 0;
    std::uint64_t used = 0;
  };
  using Show = std::function<Response(const DrawnSheet& sheet, const nlohmann::ordered_json& row)>;

  [[nodiscard]] std::string state_now(bool of_file) const;
  [[nodiscard]] std::optional<Made> made(const std::string& item, const std::string& state);
  [[nodiscard]] std::optional<Response> shown(const std::string& item, bool of_file, const Show& show);
  void work();
  void draw_first(std::unique_lock<std::mutex>& held);
  void keep_first(std::unique_lock<std::mutex>& held);
  [[nodiscard]] Response write_down(const SaidPrinted& said) const;
  void make(const std::string& item, Made& made) const;
  void make_list(Made& made) const;
  void make_sheet(const std::string& item, Made& made) const;
  [[nodiscard]] ChildResult printed(std::vector<std::string> words) const;
  void trim();

  const SheetsOptions options_;
  const std::function<void()> drawn_;
  std::atomic<bool> stopping_{false};
  mutable std::mutex mutex_;  ///< everything down to uses_
  std::condition_variable wanted_changed_;
  std::deque<std::string> wanted_;  ///< items, the first one is being made; "": the list
  std::map<std::string, Made> made_;
  std::deque<SaidPrinted> said_;  ///< before any drawing; the first one is being written down
  std::map<std::string, std::optional<Response>> answers_;  ///< to what was said, by its key; nothing yet while it is in said_
  std::uint64_t uses_ = 0;
  std::thread worker_;
};

}  // namespace ohmstead::web

// The way back: columns from strangers to the document. Nothing here trusts a number.

#include <set>
#include <nlohmann/json.hpp>

#include "db/columns.h"
#include "db/json_reader.h"
#include "house/error.h"
#include "house/id.h"
#include "house/moment.h"

namespace ohmstead {

using nlohmann::json;
using nlohmann::ordered_json;

namespace {

constexpr std::int64_t kLatestMoment = 253'402'300'799;  // the end of the year 9999

[[noreturn]] void refuse(const std::string& where) {
  throw Error(ErrorKind::invalid_input, "The pieces fit together, but what they hold is no record that this program can read (" + where + ").");
}

/// Makes the document, and stops when it becomes too long.
class DocumentMaker {
 public:
  explicit DocumentMaker(const Columns& columns) : ids_(columns.ids) {}

  ordered_json make(const json& text) {
    require(text.is_object() && text.value("format", json()) == "ohmstead columns" && text.value("version", json()) == 1, "format");
    const json head = text.value("document", json()), tables = text.value("tables", json());
    require(head.is_array() && head.size() == 2 && tables.is_array(), "document");
    ordered_json document = {{"format", ordered_json(head[0])}, {"version", ordered_json(head[1])}};
    for (const json& table : tables) {
      require(table.is_array() && table.size() >= 2 && table[0].is_string(), "tables");
      where_ = for_message(table[0].get<std::string>());
      require(!document.contains(table[0].get<std::string>()), "twice the same table");
      document[table[0].get<std::string>()] = rows_of(table);
    }
    require(next_id_ == ids_.size(), "number of ids");
    return document;
  }

 private:
  void require(bool holds, const char* what) const {
    if (!holds) refuse(where_.empty() ? std::string(what) : where_ + ": " + what);
  }
  void count(std::size_t bytes) {
    made_ += bytes;
    require(made_ <= kLongestFromColumns, "it would be too long");
  }

  ordered_json rows_of(const json& table) {
    const bool single = table[1].is_null();
    require(single || table[1].is_number_unsigned(), "number of rows");
    const std::size_t rows = single ? 1 : table[1].get<std::size_t>();
    require(rows <= ids_.size() - next_id_, "number of rows");
    require(rows == 0 || table.size() > 2, "number of columns");
    std::vector<ordered_json> made(rows, ordered_json::object());
    std::set<std::string> names;
    for (std::size_t c = 2; c < table.size(); ++c) {
      const json& column = table[c];
      require(column.is_array() && column.size() >= 2 && column[0].is_string() && column[1].is_string(), "column");
      const auto name = column[0].get<std::string>();
      require(names.insert(name).second, "twice the same column");
      fill(made, name, column);
    }
    require(rows == 0 || names.contains("id"), "column id");
    return single ? made[0] : ordered_json(std::move(made));
  }

  void fill(std::vector<ordered_json>& rows, const std::string& name, const json& column) {
    const auto how = column[1].get<std::string>();
    const auto put = [&](std::size_t row, ordered_json value) {
      count(name.size() + 10 + (value.is_string() ? value.get_ref<const std::string&>().size() : 8));
      rows[row].push_back({name, std::move(value)});
    };
    const auto part = [&](std::size_t place) -> const json& { return require(column.size() > place, "column"), column[place]; };
    const std::size_t n = rows.size();
    for (std::size_t i = 0; how == "id" && i < n; ++i) put(i, id_text(ids_[next_id_++]));
    if (how == "id") return;
    if (how == "=") return each(n, [&](std::size_t i) { put(i, scalar(part(2))); });
    if (how == "l") return each(n, [&](std::size_t i) { put(i, scalar(element(part(2), i, n))); });
    if (how == "k" || how == "k+") {
      const auto kinds = numbers(part(3), n, false), places = numbers(part(4), n, how == "k+");
      return each(n, [&](std::size_t i) { put(i, kind_and_id(word(part(2), kinds[i]), places[i])); });
    }
    if (how == "w" || how == "w+") {
      const auto at = numbers(part(3), n, how == "w+");
      return each(n, [&](std::size_t i) { put(i, scalar(word(part(2), at[i]))); });
    }
    const auto values = numbers(part(2), n, how.ends_with('+'));
    if (how == "n" || how == "n+") return each(n, [&](std::size_t i) { put(i, values[i]); });
    if (how == "t" || how == "t+") return each(n, [&](std::size_t i) { put(i, moment(values[i])); });
    if (how == "r" || how == "r+") return each(n, [&](std::size_t i) { put(i, values[i] == 0 ? ordered_json() : ordered_json(id_at(values[i]))); });
    require(false, "unknown kind of column");
  }

  template <class F>
  static void each(std::size_t n, F&& f) {
    for (std::size_t i = 0; i < n; ++i) f(i);
  }

  [[nodiscard]] ordered_json scalar(const json& value) const {
    require(value.is_primitive() && !value.is_number_float(), "single values");
    return value;
  }
  [[nodiscard]] const json& element(const json& list, std::size_t i, std::size_t n) const {
    require(list.is_array() && list.size() == n, "length of a list");
    return list[i];
  }
  [[nodiscard]] const json& word(const json& words, std::int64_t at) const {
    require(words.is_array() && at >= 0 && at < static_cast<std::int64_t>(words.size()), "number of a word");
    return words[static_cast<std::size_t>(at)];
  }
  [[nodiscard]] std::vector<std::int64_t> numbers(const json& list, std::size_t n, bool differences) const {
    std::vector<std::int64_t> values;
    std::int64_t before = 0;
    for (std::size_t i = 0; i < n; ++i) {
      const json& value = element(list, i, n);
      require(value.is_number_integer() && !(value.is_number_unsigned() && value.get<std::uint64_t>() > kLatestMoment), "whole numbers");
      const auto number = value.get<std::int64_t>();
      require(number >= -kLatestMoment && number <= kLatestMoment, "whole numbers");
      values.push_back(differences ? before + number : number);
      before = values.back();
      require(before >= -kLatestMoment && before <= kLatestMoment, "whole numbers");
    }
    return values;
  }
  [[nodiscard]] std::string id_at(std::int64_t row) const {
    require(row >= 1 && row <= static_cast<std::int64_t>(ids_.size()), "number of a row");
    return id_text(ids_[static_cast<std::size_t>(row - 1)]);
  }
  [[nodiscard]] std::string kind_and_id(const json& kind, std::int64_t row) const {
    require(kind.is_string(), "kinds");
    return row == 0 ? kind.get<std::string>() : kind.get<std::string>() + ":" + id_at(row);
  }
  [[nodiscard]] std::string moment(std::int64_t seconds) const {
    require(seconds >= 0, "moments");
    return seconds == 0 ? "" : moment_at(static_cast<long>(seconds));
  }

  const std::vector<std::uint64_t>& ids_;
  std::size_t next_id_ = 0, made_ = 0;
  std::string where_;
};

}  // namespace

std::string document_of_columns(const Columns& columns) {
  if (columns.text.size() > kLongestColumns) refuse("columns of more than 2 MB");
  const json text = parse_json(columns.text, 8);
  return DocumentMaker(columns).make(text).dump(2) + "\n";
}

}  // namespace ohmstead

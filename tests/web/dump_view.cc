// Prints the house view of a record: `dump_view RECORD.json` as served, `dump_view --file RECORD.json` as in the file.

#include <fstream>
#include <iostream>
#include <sstream>

#include "db/interchange.h"
#include "web/house_view.h"

int main(int count, char** words) {
  using namespace ohmstead;
  const bool for_file = count > 2 && std::string(words[1]) == "--file";
  std::ifstream in(words[count - 1], std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  const Record record = make_record(house_from_json(text.str()));
  const Names names(record.house);
  std::cout << web::house_view_text(record, names, {7, "2026-11-25T09:30:00Z", true, for_file}) << '\n';
}

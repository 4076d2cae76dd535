// The parts of a load calculation.

#include <algorithm>

#include "house/error.h"
#include "rules/cooking.h"
#include "rules/load_worker.h"

namespace ohmstead::load_detail {

namespace {

constexpr double kCircuitVa = 1500, kVaFoot = 3, kWhole = 3000, kMiddleEnd = 120'000;

std::string joined_items(const DwellingCase& given, auto&& wanted) {
  std::string text;
  for (const DwellingItem& item : given.items)
    if (wanted(item)) text += (text.empty() ? "" : ", ") + item_text(item);
  return text;
}

}  // namespace

double general_va(const DwellingCase& given) { return given.floor_ft2 * kVaFoot + (given.small_appliance + given.laundry) * kCircuitVa; }

double demand_va(double general) {
  return std::min(general, kWhole) + std::clamp(general - kWhole, 0.0, kMiddleEnd - kWhole) * 35 / 100 + std::max(general - kMiddleEnd, 0.0) * 25 / 100;
}

double total_va(const DwellingCase& given, LoadClass kind) {
  double va = 0;
  for (const DwellingItem& item : given.items) va += item.kind == kind ? item.va * item.count : 0;
  return va;
}

std::string item_text(const DwellingItem& item) {
  return item.name + (item.count > 1 ? " " + std::to_string(item.count) + " x " : " ") + va_text(item.va);
}

bool counts_for_75(const DwellingItem& item, int edition) { return item.kind == LoadClass::fastened && (edition < 2020 || item.va >= 500); }

bool has_75(const DwellingCase& given) {
  int count = 0;
  for (const DwellingItem& item : given.items) count += counts_for_75(item, given.edition) ? item.count : 0;
  return count >= 4;
}

double table_cooking(const DwellingCase& given, std::string& how) {
  std::vector<double> ratings;
  double small = 0;
  for (const DwellingItem& item : given.items) {
    if (item.kind != LoadClass::cooking) continue;
    if (item.va <= 1750) small += item.va * item.count;
    else ratings.insert(ratings.end(), static_cast<std::size_t>(item.count), item.va);
  }
  how.clear();
  if (ratings.empty() && small == 0) return 0;
  const CookingDemand demand = ratings.empty() ? CookingDemand{} : cooking_demand(ratings);
  how = demand.how + (small == 0 ? "" : (demand.how.empty() ? "" : "; ") + va_text(small) + " of appliances up to 1.75 kW at nameplate");
  return demand.va + small;
}

double table_dryers(const DwellingCase& given, std::string& how) {
  constexpr int kPercent[] = {100, 100, 100, 100, 85, 75, 65, 60, 55, 50, 47};
  double va = 0;
  int count = 0;
  for (const DwellingItem& item : given.items)
    if (item.kind == LoadClass::dryer) va += std::max(item.va, 5000.0) * item.count, count += item.count;
  how.clear();
  if (count == 0) return 0;
  if (count > 11) throw Error(ErrorKind::invalid_input, "The table of dryers is used here for one to eleven of them.");
  const int percent = kPercent[count - 1];
  how = std::to_string(count) + " at nameplate, 5,000 VA at least: " + va_text(va) + (percent == 100 ? "" : " x " + std::to_string(percent) + " %");
  return va * percent / 100;
}

double Worker::general() {
  step("General lighting and receptacles", plain_number(given.floor_ft2) + " ft2 x 3 VA", given.floor_ft2 * kVaFoot, LoadTopic::area);
  step("Small-appliance circuits", std::to_string(given.small_appliance) + " x 1,500 VA", given.small_appliance * kCircuitVa, LoadTopic::small_appliance);
  step(given.laundry == 1 ? "Laundry circuit" : "Laundry circuits", std::to_string(given.laundry) + " x 1,500 VA", given.laundry * kCircuitVa, LoadTopic::small_appliance);
  return general_va(given);
}

double Worker::after_demand(double va) {
  const double middle = std::clamp(va - kWhole, 0.0, kMiddleEnd - kWhole), rest = std::max(va - kMiddleEnd, 0.0);
  step("First 3,000 VA", "at 100 %", std::min(va, kWhole), LoadTopic::lighting_demand);
  if (middle > 0) step("From there to 120,000 VA", va_text(middle) + " at 35 %", middle * 35 / 100, LoadTopic::lighting_demand);
  if (rest > 0) step("Above 120,000 VA", va_text(rest) + " at 25 % (from memory)", rest * 25 / 100, LoadTopic::lighting_demand);
  sum("General load after demand", "", demand_va(va));
  return demand_va(va);
}

double Worker::nameplates(LoadClass kind, LoadTopic topic) {
  for (const DwellingItem& item : given.items)
    if (item.kind == kind) step(item.name, item.count > 1 ? std::to_string(item.count) + " x " + va_text(item.va) : "", item.va * item.count, topic);
  return total_va(given, kind);
}

double Worker::cooking() {
  std::string how;
  const double va = table_cooking(given, how);
  if (va > 0) step("Cooking", how, va, LoadTopic::cooking);
  return va;
}

double Worker::dryers() {
  std::string how;
  const double va = table_dryers(given, how);
  if (va > 0) step("Clothes dryer", how, va, LoadTopic::dryer);
  return va;
}

double Worker::fastened() {
  const bool reduced = has_75(given);
  double counted = 0, whole = 0;
  for (const DwellingItem& item : given.items) {
    if (item.kind != LoadClass::fastened) continue;
    (reduced && counts_for_75(item, given.edition) ? counted : whole) += item.va * item.count;
  }
  const auto names = [&](bool in) { return joined_items(given, [&](const DwellingItem& i) { return i.kind == LoadClass::fastened && (reduced && counts_for_75(i, given.edition)) == in; }); };
  if (counted > 0) step("Appliances fastened in place, four or more", names(true) + ": " + va_text(counted) + " x 75 %", counted * 75 / 100, LoadTopic::fastened);
  if (whole > 0) step(reduced ? "Appliances below 500 W" : "Appliances fastened in place, fewer than four", names(false), whole, LoadTopic::fastened);
  return counted * 75 / 100 + whole;
}

double Worker::vehicles() {
  double va = 0;
  for (const DwellingItem& item : given.items) {
    if (item.kind != LoadClass::vehicle) continue;
    const double each = given.edition >= 2023 ? std::max(item.va, 7200.0) : item.va;
    step(item.name, (item.count > 1 ? std::to_string(item.count) + " x " : std::string()) + va_text(each) + (given.edition >= 2023 ? ": nameplate, 7,200 VA at least" : ": nameplate"), each * item.count, LoadTopic::vehicle);
    va += each * item.count;
  }
  return va;
}

}  // namespace ohmstead::load_detail

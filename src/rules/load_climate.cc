// Heating, cooling, motors and the neutral of a load calculation.

#include <algorithm>

#include "rules/load_worker.h"

namespace ohmstead::load_detail {

namespace {

std::vector<const DwellingItem*> of_kinds(const DwellingCase& given, std::initializer_list<LoadClass> kinds) {
  std::vector<const DwellingItem*> items;
  for (const DwellingItem& item : given.items)
    if (std::ranges::find(kinds, item.kind) != kinds.end()) items.push_back(&item);
  return items;
}

double sum_of(const std::vector<const DwellingItem*>& items) {
  double va = 0;
  for (const DwellingItem* item : items) va += item->va * item->count;
  return va;
}

std::string list_of(const std::vector<const DwellingItem*>& items) {
  std::string text;
  for (const DwellingItem* item : items) text += (text.empty() ? "" : ", ") + item_text(*item);
  return text;
}

}  // namespace

double Worker::heat_or_cool(std::vector<const DwellingItem*>& chosen) {
  const auto heat = of_kinds(given, {LoadClass::heating, LoadClass::heat_pump, LoadClass::supplementary_heat});
  const auto cool = of_kinds(given, {LoadClass::air_conditioning, LoadClass::heat_pump});
  const double heat_va = sum_of(heat), cool_va = sum_of(cool);
  chosen = heat_va >= cool_va ? heat : cool;
  if (chosen.empty()) return 0;
  const double left_out = std::min(heat_va, cool_va);
  step(heat_va >= cool_va ? "Heating" : "Air conditioning", list_of(chosen) + (left_out > 0 ? "; larger than the other, " + va_text(left_out) + ", which does not run with it" : ""), std::max(heat_va, cool_va),
       left_out > 0 ? LoadTopic::non_coincident : LoadTopic::heat);
  return std::max(heat_va, cool_va);
}

double Worker::largest_motor(const std::vector<const DwellingItem*>& climate) {
  const DwellingItem* largest = nullptr;
  for (const DwellingItem& item : given.items) {
    const bool is_climate = item.kind == LoadClass::air_conditioning || item.kind == LoadClass::heat_pump || item.kind == LoadClass::heating || item.kind == LoadClass::supplementary_heat;
    if (!item.motor || (is_climate && std::ranges::find(climate, &item) == climate.end())) continue;
    if (largest == nullptr || item.va > largest->va) largest = &item;
  }
  if (largest == nullptr) return 0;
  step("A quarter of the largest motor", largest->name + " " + va_text(largest->va) + " x 25 %", largest->va / 4, LoadTopic::motor);
  return largest->va / 4;
}

double Worker::optional_climate(std::vector<const DwellingItem*>& chosen) {
  struct Way {
    std::vector<const DwellingItem*> items;
    std::string what, how;
    double va;
  };
  std::vector<Way> ways;
  const double cool = total_va(given, LoadClass::air_conditioning), pump = total_va(given, LoadClass::heat_pump);
  const double extra = total_va(given, LoadClass::supplementary_heat), heat = total_va(given, LoadClass::heating);
  int units = 0;
  for (const DwellingItem& item : given.items) units += item.kind == LoadClass::heating ? item.count : 0;
  const auto add = [&](std::initializer_list<LoadClass> kinds, const char* what, const std::string& how, double va) { ways.push_back({of_kinds(given, kinds), what, how, va}); };
  if (cool > 0) add({LoadClass::air_conditioning}, "Air conditioning", va_text(cool) + " at 100 %", cool);
  if (pump > 0) add({LoadClass::heat_pump, LoadClass::supplementary_heat}, "Heat pump", va_text(pump) + " at 100 %" + (extra > 0 ? ", and supplementary heat " + va_text(extra) + " at 65 %" : ""), pump + extra * 65 / 100);
  if (pump == 0 && extra > 0) add({LoadClass::supplementary_heat}, "Central electric heat", va_text(extra) + " at 65 %", extra * 65 / 100);
  if (heat > 0) add({LoadClass::heating}, "Electric heat", std::to_string(units) + " separately controlled, " + (units < 4 ? "fewer than four: " : "four or more: ") + va_text(heat) + (units < 4 ? " at 65 %" : " at 40 %"), heat * (units < 4 ? 65 : 40) / 100);
  if (ways.empty()) return 0;
  const auto largest = std::ranges::max_element(ways, {}, &Way::va);
  for (const Way& way : ways)
    if (&way != &*largest) made.notes.push_back(way.what + " (" + way.how + ": " + va_text(way.va) + ") is smaller than what counts and was left out.");
  step(largest->what, largest->how + (ways.size() > 1 ? "; the largest counts" : ""), largest->va, LoadTopic::optional);
  chosen = largest->items;
  return largest->va;
}

double Worker::neutral(const std::vector<const DwellingItem*>& climate) {
  double va = demand_va(general_va(given));
  step("Neutral: general load", va_text(general_va(given)) + " after demand", va, LoadTopic::neutral);
  std::string how;
  if (const double cook = table_cooking(given, how); cook > 0) step("Neutral: cooking", va_text(cook) + " (" + how + ") x 70 %", cook * 70 / 100, LoadTopic::neutral), va += cook * 70 / 100;
  if (const double dry = table_dryers(given, how); dry > 0) step("Neutral: dryer", va_text(dry) + " x 70 %", dry * 70 / 100, LoadTopic::neutral), va += dry * 70 / 100;
  for (const DwellingItem& item : given.items) {
    const bool climate_item = std::ranges::find(climate, &item) != climate.end();
    if (!item.neutral || (item.kind != LoadClass::fastened && item.kind != LoadClass::other && !climate_item)) continue;
    const double share = has_75(given) && counts_for_75(item, given.edition) ? 0.75 : 1;
    step("Neutral: " + item.name, "120 V" + (share < 1 ? ": " + va_text(item.va * item.count) + " x 75 %" : std::string()), item.va * item.count * share, LoadTopic::neutral);
    va += item.va * item.count * share;
  }
  sum("Neutral", "", va);
  return va;
}

}  // namespace ohmstead::load_detail

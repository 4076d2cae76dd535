#pragma once
// Internal to load calculation: the parts that the methods share. Each writes its steps and returns VA.

#include "rules/load_calculation.h"

namespace ohmstead::load_detail {

struct Worker {
  const DwellingCase& given;
  Calculation& made;

  void step(const std::string& what, const std::string& how, double va, LoadTopic topic) { made.steps.push_back({what, how, va, "VA", 0, load_rule(topic, given.edition)}); }
  void sum(const std::string& what, const std::string& how, double va) { made.steps.push_back({what, how, va, "VA", 0, ""}); }

  /// 3 VA a square foot, small appliance and laundry circuits.
  double general();
  /// 3,000 whole, to 120,000 35 %, the rest 25 %.
  double after_demand(double va);
  /// Nameplates of one kind, one step for each item.
  double nameplates(LoadClass kind, LoadTopic topic);
  double cooking();
  double dryers();
  double fastened();
  double vehicles();
  /// The larger of heating and cooling at 100 %; `chosen` gets what counts.
  double heat_or_cool(std::vector<const DwellingItem*>& chosen);
  double largest_motor(const std::vector<const DwellingItem*>& climate);
  /// Largest of what 220.82(C) lists (thermal storage aside); `chosen` gets what counts.
  double optional_climate(std::vector<const DwellingItem*>& chosen);
  double neutral(const std::vector<const DwellingItem*>& climate);
};

/// General load before and after the demand of table 220.42 (220.45 from 2023 on).
[[nodiscard]] double general_va(const DwellingCase& given);
[[nodiscard]] double demand_va(double general);
[[nodiscard]] double total_va(const DwellingCase& given, LoadClass kind);
[[nodiscard]] std::string item_text(const DwellingItem& item);
[[nodiscard]] inline std::string va_text(double va) { return number_text(va) + " VA"; }
/// Does 220.53 count this appliance, and are there the four that make it 75 %?
[[nodiscard]] bool counts_for_75(const DwellingItem& item, int edition);
[[nodiscard]] bool has_75(const DwellingCase& given);
[[nodiscard]] double table_cooking(const DwellingCase& given, std::string& how);
[[nodiscard]] double table_dryers(const DwellingCase& given, std::string& how);

}  // namespace ohmstead::load_detail

// Where each edition has the rules of load calculation.

#include "rules/load_calculation.h"

namespace ohmstead {

namespace {

std::string number_of(LoadTopic topic, int edition) {
  switch (topic) {
    case LoadTopic::area: return edition >= 2023 ? "220.41" : edition >= 2020 ? "220.14(J)" : "table 220.12";
    case LoadTopic::small_appliance: return "220.52";
    case LoadTopic::lighting_demand: return edition >= 2023 ? "table 220.45" : "table 220.42";
    case LoadTopic::specific: return "220.14(A)";
    case LoadTopic::fastened: return "220.53";
    case LoadTopic::dryer: return "220.54";
    case LoadTopic::cooking: return "220.55";
    case LoadTopic::vehicle: return edition >= 2023 ? "220.57" : "article 625";
    case LoadTopic::motor: return "220.50";
    case LoadTopic::heat: return "220.51";
    case LoadTopic::non_coincident: return "220.60";
    case LoadTopic::neutral: return "220.61";
    case LoadTopic::optional: return "220.82";
    case LoadTopic::existing: return "220.83";
    case LoadTopic::service: return "230.79(C) and 240.6(A)";
  }
  return "";
}

/// The factors were read in the examples of 2005 or in notes on the code; numbering of 2017 and 2020 and a few factors were not.
const char* status_of(LoadTopic topic, int edition) {
  switch (topic) {
    case LoadTopic::specific:
    case LoadTopic::heat:
    case LoadTopic::non_coincident:
    case LoadTopic::service: return "from memory";
    case LoadTopic::area:
    case LoadTopic::lighting_demand: return edition == 2005 ? "text" : edition >= 2023 ? "secondary" : "text; numbering of this edition from memory";
    case LoadTopic::small_appliance:
    case LoadTopic::dryer:
    case LoadTopic::motor:
    case LoadTopic::neutral:
    case LoadTopic::optional: return "text";
    case LoadTopic::vehicle:
    case LoadTopic::fastened:
    case LoadTopic::cooking:
    case LoadTopic::existing: return "secondary";
  }
  return "";
}

}  // namespace

std::string load_rule(LoadTopic topic, int edition) {
  return "NFPA 70 " + number_of(topic, edition) + ", " + status_of(topic, edition);
}

}  // namespace ohmstead

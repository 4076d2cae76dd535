#include <ostream>

#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "json/json_findings.h"

namespace ohmstead {

int run_findings(Session& session, const Arguments&) {
  const HouseFile file = open_house(session, Access::read);
  const Record record = make_record(file.load());
  const Findings findings = house_findings(record, contradictions_of(record.house, conclude_units(record.house)), file.revision());
  if (session.json) session.out << json_of_findings(Names(record.house), findings);
  else show(session, words_of_findings(findings));
  return findings.found.empty() ? kDone : kDoneButNo;
}

}  // namespace ohmstead

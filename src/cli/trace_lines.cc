#include "cli/trace_lines.h"

#include <istream>
#include <ostream>

#include "json/json_line.h"
#include "json/trace_desk.h"

namespace ohmstead {

namespace {

class LineSession {
 public:
  LineSession(TraceSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options)
      : session_(session), desk_(session, options), lines_(in, out), keep_(keep) {}

  TraceEnd run() {
    lines_.write(desk_.step());
    while (const auto request = lines_.next())
      if (!serve(*request)) return TraceEnd::paused;
    return session_.step().kind == StepKind::done ? TraceEnd::done : TraceEnd::input_ended;
  }

 private:
  /// Serves one request; false when it was `pause`. What is wrong with the request is answered; what
  /// goes wrong with keeping is not caught here.
  bool serve(const TraceDesk::Json& request) {
    std::string kept;
    try {
      if (text_field(request, "do") == "pause") return lines_.write({{"type", "paused"}, {"off", desk_.standing_off()}}), false;
      if (const auto answer = desk_.told(request)) return lines_.write(*answer), true;
      kept = desk_.change(request);
    } catch (const Error& error) {
      return lines_.write_error(error), true;
    }
    keep_(kept, session_.house());
    desk_.next();
    lines_.number = desk_.number;
    lines_.write(desk_.step());
    return true;
  }

  TraceSession& session_;
  TraceDesk desk_;
  JsonLines lines_;
  const KeepFn& keep_;
};

}  // namespace

TraceEnd run_trace_lines(TraceSession& session, std::istream& in, std::ostream& out, const KeepFn& keep,
                         const TraceOptions& options) {
  return LineSession(session, in, out, keep, options).run();
}

}  // namespace ohmstead

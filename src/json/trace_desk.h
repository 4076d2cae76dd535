#pragma once
// A tracing session as a program or a page drives it: one JSON object asks, another answers. The objects are described in
// docs/json-lines.md. No input or output of its own.

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "json/session_options.h"
#include "trace/session.h"

namespace ohmstead {

class TraceDesk {
 public:
  using Json = nlohmann::ordered_json;

  /// Tells the session the time: a breaker may have been off through a pause. Keep the session and the options alive.
  TraceDesk(TraceSession& session, const TraceOptions& options);

  /// The step that waits for an answer, as a document.
  [[nodiscard]] Json step() const;
  /// What is standing off, as a list of handles.
  [[nodiscard]] Json standing_off() const;

  /// Answers a request that changes nothing; nothing where it is not one. Throws Error{invalid_input}.
  [[nodiscard]] std::optional<Json> told(const Json& request);
  /// Serves a request that changes the session and says what for the history; the caller keeps session.house(), then calls
  /// `next`. Throws Error and changes nothing where it makes no sense, or is for another step than the one now.
  [[nodiscard]] std::string change(const Json& request);
  /// The session was changed and kept: the step has another number now.
  void next() { ++number; }

  int number = 1;  ///< of the step now; errors and answers name it

 private:
  [[nodiscard]] std::string answer(const Json& request);
  [[nodiscard]] Json handle(const HandleRef& ref) const;
  [[nodiscard]] Json handles(const std::vector<HandleRef>& refs) const;
  [[nodiscard]] Json progress() const;
  [[nodiscard]] Json behind() const;
  [[nodiscard]] Json feeds() const;
  [[nodiscard]] Json looks() const;
  [[nodiscard]] Json manner() const;

  TraceSession& session_;
  const TraceOptions& options_;
};

}  // namespace ohmstead

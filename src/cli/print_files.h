#pragma once
// What the commands that print share.

#include <functional>
#include <optional>
#include <string>

#include "cli/command.h"
#include "print/directory.h"
#include "print/page_picture.h"

namespace ohmstead {

/// The paper that --sheet names; `usual` where it is not given. Throws Error{invalid_input}.
[[nodiscard]] Sheet sheet_named(const Arguments& arguments, Sheet usual = Sheet::letter);

/// What --place says; none: nothing. Throws Error{invalid_input}.
[[nodiscard]] std::optional<Location> place_named(const Arguments& arguments);

/// FILE for the first page, FILE-2, FILE-3 for the others.
[[nodiscard]] std::string page_path(const std::string& path, int page);

/// Writes the pictures of pages that --png (with --dpi) and --svg ask for.
void write_pictures(const Arguments& arguments, int pages, const std::function<std::string(const PictureForm& form, int page)>& picture);

/// Where a page was printed and what of it could not be: one "Note: ..." a warning.
void show_warnings(Session& session, const std::vector<std::string>& warnings);

/// "with 2 codes", "with 1 code"; "without codes".
[[nodiscard]] std::string with_codes(std::size_t codes);

/// The text of each code, if it was asked for.
void show_code_texts(Session& session, const Arguments& arguments, const std::vector<std::string>& texts);

}  // namespace ohmstead

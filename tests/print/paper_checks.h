#pragma once
// What must hold of every paper as it is drawn: nothing over anything else, nothing cut in silence, all within the margins.

#include <string>

#include "print/papers.h"
#include "print/recording_canvas.h"

namespace ohmstead::test {

struct Drawn {
  RecordingCanvas canvas;
  PrintedPaper paper;
};

void draw(const Record& record, const PaperOptions& options, Drawn& drawn);
void check_layout(const Drawn& drawn);
/// Date and revision 12, page number and who decides stand on every page.
void check_every_page(const Drawn& drawn);

/// All words of a page range in drawing order, no-break spaces as spaces, pieces joined by a space.
[[nodiscard]] std::string words_of(const RecordingCanvas& canvas, int page = -1);
/// A text as it is printed, with plain spaces.
[[nodiscard]] std::string plain(const std::string& words);

}  // namespace ohmstead::test

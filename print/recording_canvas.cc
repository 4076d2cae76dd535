#include "print/recording_canvas.h"

namespace ohmstead {

void RecordingCanvas::begin_page(double width_mm, double height_mm) { pages.push_back({0, 0, width_mm, height_mm}); }

void RecordingCanvas::text(const Area& area, const TextStyle& style, const std::string& words) {
  texts.push_back({page(), area, style, words, measure_text(words, style, area.width)});
}

void RecordingCanvas::line(const Segment& segment, double width_mm, bool dashed) {
  lines.push_back({page(), segment.x1, segment.y1, segment.x2, segment.y2, width_mm, dashed});
}

void RecordingCanvas::frame(const Area& area, double width_mm) { frames.push_back({page(), area, width_mm}); }

void RecordingCanvas::code(const Area& area, const QrCode& code) { codes.push_back({page(), area, code}); }

void RecordingCanvas::tint(const Area& area, Tint tint) { tints.push_back({page(), area, tint}); }

void RecordingCanvas::picture(const Area& area, const std::string& jpeg) { pictures.push_back({page(), area, jpeg}); }

}  // namespace ohmstead

// Photos at the end of the packet: two beside each other, each with what it shows.

#include <algorithm>

#include "ask/packet.h"
#include "print/fit_text.h"
#include "print/house_papers.h"

namespace ohmstead {

namespace {

constexpr double kGapMm = 6, kHighestMm = 92;
const TextStyle kAbout{Face::bold, 10.5}, kCaption{Face::normal, 10}, kDate{Face::normal, 9};

constexpr double kMissingMm = 12;  ///< height of the frame where the picture is not here

/// The picture as large as its half of the page lets it be, and its words under it; a frame where the picture is not here.
PaperBlock photo_block(const Paper& paper, const PacketPhoto& photo, const Pictures& pictures, double width) {
  PaperBlock block;
  const double scale = std::min(width / std::max(1, photo.width), kHighestMm / std::max(1, photo.height));
  Area area{0, 0, photo.width * scale, photo.height * scale};
  if (const auto found = pictures.find(photo.picture); found != pictures.end()) {
    block.pictures.push_back({area, std::make_shared<const std::string>(found->second)});
  } else {
    area = {0, 0, width, kMissingMm};
    block.texts.push_back({area, {Face::normal, 10, Align::center, 1}, "picture not here"});
  }
  block.frames.push_back({area, 0.2});
  double y = area.height + 1.2;
  const auto put = [&](const std::string& words, const TextStyle& style) {
    if (words.empty()) return;
    const PaperBlock part = stacked(paper.paragraph(words, style, 0, width));
    put_into(block, part, 0, y);
    y += part.height_mm + 0.3;
  };
  put(photo.about, kAbout), put(photo.caption, kCaption), put(photo.date + ", photo " + photo.id, kDate);
  block.height_mm = y;
  return block;
}

}  // namespace

void add_photos(Paper& paper, const Packet& packet, const Pictures& pictures) {
  if (packet.photos.empty()) return;
  paper.new_page();
  paper.heading("8. Photos", 15);
  const double width = (paper.width_mm() - kGapMm) / 2;
  for (std::size_t i = 0; i < packet.photos.size(); i += 2) {
    PaperBlock row;
    for (std::size_t n = 0; n < 2 && i + n < packet.photos.size(); ++n)
      put_into(row, photo_block(paper, packet.photos[i + n], pictures, width), static_cast<double>(n) * (width + kGapMm), 0);
    row.above_mm = 4;
    paper.add(std::move(row));
  }
  std::string words = "As the household took them; what they show may have been changed since.";
  if (packet.private_photos > 0) words += " Private ones were left out: " + std::to_string(packet.private_photos) + ".";
  paper.add_whole(paper.paragraph(words, {Face::normal, 9.5}), 2);
}

}  // namespace ohmstead

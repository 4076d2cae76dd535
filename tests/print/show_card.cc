// Writes the example card to files, to be looked at: show_card FOLDER [WIDTH HEIGHT [large | workshop]]
#include <chrono>
#include <ctime>
#include <cstdlib>
#include <fstream>
#include <iostream>

#include "house/invariants.h"
#include "print/directory.h"
#include "tests/print/example_house.h"

int main(int argc, char** argv) try {
  using namespace ohmstead;
  if (argc < 2) return 2;
  const test::ExampleHouse example = test::example_house();
  require_sound(example.house);
  DirectoryOptions options;
  options.panel = example.main;
  options.date = "2026-11-25";
  options.revision = 12;
  if (argc > 3) options.pocket_width_mm = std::atof(argv[2]), options.pocket_height_mm = std::atof(argv[3]);
  const std::string more = argc > 4 ? argv[4] : "";
  options.large = more == "large";
  if (more == "workshop") options.panel = example.workshop;
  const std::string folder = argv[1];
  for (int run = 0; run < 3; ++run) {
    const auto start = std::chrono::steady_clock::now();
    const std::clock_t cpu_start = std::clock();
    const PrintedDirectory printed = print_directory(example.house, example.feeds, options);
    const auto end = std::chrono::steady_clock::now();
    std::cout << "run " << run + 1 << ": " << std::chrono::duration<double, std::milli>(end - start).count() << " ms, of which "
              << 1000.0 * static_cast<double>(std::clock() - cpu_start) / CLOCKS_PER_SEC << " ms of processor, "
              << printed.pdf.size() << " bytes, " << printed.code_texts.size() << " codes"
              << (printed.codes_on_back ? " on the back" : " on the front") << "\n";
    std::ofstream(folder + "/card.pdf", std::ios::binary) << printed.pdf;
    if (run > 0) continue;
    for (const std::string& warning : printed.warnings) std::cout << warning << "\n";
    for (const std::string& text : printed.code_texts) std::cout << "--\n" << text << "\n";
  }
  std::ofstream(folder + "/card.png", std::ios::binary) << directory_picture(example.house, example.feeds, options, {.dpi = 110});
  return 0;
} catch (const std::exception& problem) {
  std::cerr << problem.what() << "\n";
  return 1;
}

#include <analyzer/alignment.hpp>
#include <analyzer/analysis.hpp>
#include <io/read_solo.hpp>
#include <iostream>

int main(int, char** argv) {
  const auto read = insideline::io::read_solo(argv[1]);
  const auto analysis = insideline::analyze(read.solo, insideline::lay_out(read.changes.value(), read.solo));
  std::cout << analysis.summary.chord_tones << " of " << analysis.summary.notes << " notes are chord tones\n";
}

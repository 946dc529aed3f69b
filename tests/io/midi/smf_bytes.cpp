#include "tests/io/midi/smf_bytes.hpp"
#include "tests/support/folders.hpp"

#include <fstream>
#include <sstream>
#include <stdexcept>

namespace insideline::tests {
namespace {

std::string in_hexadecimal(std::size_t value, int bytes) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  std::string text;
  for (int i = 2 * bytes - 1; i >= 0; --i) text += digits[(value >> (4U * static_cast<unsigned>(i))) & 0xFU];
  return text;
}

}  // namespace

std::string bytes_from(std::string_view hexadecimal) {
  std::string bytes;
  std::istringstream words{std::string(hexadecimal)};
  for (std::string word; words >> word;) {
    const bool repeats = word.starts_with('[');
    const std::string digits = repeats ? word.substr(1) : word;
    std::size_t count = 1;
    if (repeats) {
      words >> word;
      count = std::stoul(word.substr(1));
    }
    for (std::size_t i = 0; i + 1 < digits.size() || i == 0; i += 2)
      bytes.append(count, static_cast<char>(std::stoi(digits.substr(i, 2), nullptr, 16)));
  }
  return bytes;
}

std::string smf_with(const std::vector<std::string>& tracks, std::string_view format_and_count) {
  const std::string head = format_and_count.empty()
                               ? (tracks.size() == 1 ? "0000" : "0001") + in_hexadecimal(tracks.size(), 2)
                               : std::string(format_and_count);
  std::string file = bytes_from("4D546864 00000006 " + head + " 0060");
  for (const std::string& track : tracks) {
    const std::string events = bytes_from(track);
    file += bytes_from("4D54726B " + in_hexadecimal(events.size(), 4)) + events;
  }
  return file;
}

std::vector<Probe> smf_probes() {
  std::ifstream file(INSIDELINE_TESTS "/io/data/smf_probes.tsv");
  std::vector<Probe> probes;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.starts_with('#')) continue;
    std::istringstream columns(line);
    Probe probe;
    std::string hexadecimal;
    std::getline(columns, probe.name, '\t');
    std::getline(columns, probe.what, '\t');
    std::getline(columns, probe.strict, '\t');
    std::getline(columns, probe.salvaged, '\t');
    std::getline(columns, hexadecimal, '\t');
    probe.bytes = bytes_from(hexadecimal);
    probes.push_back(std::move(probe));
  }
  if (probes.empty()) throw std::runtime_error("the probe files are missing");
  return probes;
}

}  // namespace insideline::tests

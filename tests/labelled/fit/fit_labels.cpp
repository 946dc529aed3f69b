// Fits the values of the score table to labelled lines and writes them as a source file.
//   fit_labels [--strength S] [--temperature T] [--groups N] [--list] [--alone FILE]... [--write FILE] FILE[*WEIGHT]...
// FILEs are label files (tests/support/label_file.hpp), or a teacher's solo.hearing with the solo and its changes
// beside it (heard_solo.hpp); with *3 every label in one counts three times. A Gaussian prior of standard deviation
// 1/sqrt(S) holds each value near the one set by hand; T multiplies the fitted values. --groups N: fit N times, each
// time without an Nth of the passages, and measure on those. --alone FILE: lines that are only measured, by the fit to
// all others. --list: each note measured so that differs in its role. --write: the source file to write.
#include "tests/labelled/fit/calibration.hpp"
#include "tests/labelled/fit/chain_likelihood.hpp"
#include "tests/labelled/fit/heard_solo.hpp"
#include "tests/labelled/fit/minimise.hpp"
#include "tests/support/label_file.hpp"

#include <cmath>
#include <cstdio>
#include <exception>
#include <fstream>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include <fmt/format.h>

namespace {

using insideline::Row;
using insideline::tests::Claim;
using insideline::tests::LabelledChain;
using insideline::tests::LabelledExample;
using insideline::tests::RowValues;

struct Passage {
  std::string file;
  LabelledExample example;
  std::vector<LabelledChain> chains;
};

struct Options {
  double strength = 1.0;
  double temperature = 1.0;
  std::size_t groups = 0;
  std::string write;
  bool list = false;
  std::vector<std::string> alone;
  std::vector<std::string> files;
};

/// The lines of a label file, or a solo as a teacher hears it.
std::vector<LabelledExample> read_lines(const std::string& file) {
  if (file.ends_with(".hearing")) return {insideline::tests::heard_solo(file)};
  return insideline::tests::read_label_file(file);
}

std::vector<Passage> read_passages(const std::vector<std::string>& files) {
  std::vector<Passage> passages;
  for (const std::string& name : files) {
    const auto times = name.rfind('*');
    const std::string file = name.substr(0, times);
    const double weight = times == std::string::npos ? 1.0 : std::stod(name.substr(times + 1));
    for (LabelledExample& example : read_lines(file)) {
      auto chains = labelled_chains(example);
      for (LabelledChain& chain : chains) chain.weight = weight;
      passages.push_back({file.substr(file.rfind('/') + 1), std::move(example), std::move(chains)});
    }
  }
  return passages;
}

RowValues values_by_hand() {
  RowValues values(static_cast<Eigen::Index>(Row::count));
  for (Eigen::Index i = 0; i < values.size(); ++i) values(i) = score_row(static_cast<Row>(i)).by_hand;
  return values;
}

RowValues fitted(const std::vector<const Passage*>& passages, const Options& options) {
  const double strength = options.strength;
  const RowValues hand = values_by_hand();
  const auto cost = [&](const RowValues& values, RowValues& gradient) {
    gradient = -strength * (values - hand);
    double score = -strength * (values - hand).squaredNorm() / 2.0;
    for (const Passage* passage : passages)
      for (const LabelledChain& chain : passage->chains) score += add_log_likelihood(chain, values, gradient);
    gradient = -gradient;
    return -score;
  };
  return options.temperature * insideline::tests::least(cost, hand);
}

struct Measured {
  int notes = 0;
  std::vector<int> roles = {0, 0};  ///< right with each reader's first reading
  std::vector<int> labels = {0, 0};
  int accepted = 0;
  std::vector<Claim> label_claims;  ///< without plain chord tones
  std::vector<Claim> role_claims;
  double log_loss = 0.0;
};

/// Measures one note: `readings` with their probabilities, as the program would show it.
class NoteMeasure {
 public:
  NoteMeasure(const insideline::WeighedReadings& weighed, const insideline::NoteContext& context,
              const LabelledExample& example, std::size_t note)
      : weighed_(weighed), context_(context), example_(example), note_(note) {}

  void add_to(Measured& sums) const {
    if (example_.readers.front().notes[note_].acceptable.empty()) return;
    const auto& shown = weighed_.readings[weighed_.best];
    ++sums.notes;
    double role_truth = 0.0;
    double label_truth = 0.0;
    bool accepted = false;
    bool plain = shown.motive == insideline::Motive::chord_tone && shown.against == insideline::Against::sounding;
    const auto readers = static_cast<double>(example_.readers.size());
    for (std::size_t r = 0; r < example_.readers.size(); ++r) {
      const auto& acceptable = example_.readers[r].notes[note_].acceptable;
      const bool role = role_of(shown) == acceptable.front().role;
      const bool label = agrees(shown, context_, acceptable.front());
      if (role) ++sums.roles[r];
      if (label) ++sums.labels[r];
      role_truth += role ? 1.0 / readers : 0.0;
      label_truth += label ? 1.0 / readers : 0.0;
      plain = plain && acceptable.front().role == insideline::Role::chord_tone && label;
      for (const auto& expected : acceptable) accepted = accepted || agrees(shown, context_, expected);
      sums.log_loss -= std::log(std::max(1e-6, probability_of(acceptable.front()))) / readers;
    }
    if (accepted) ++sums.accepted;
    if (plain) return;
    sums.label_claims.push_back({weighed_.label_probability, label_truth});
    sums.role_claims.push_back({weighed_.role_probability, role_truth});
  }

 private:
  [[nodiscard]] double probability_of(const insideline::tests::ExpectedLabel& expected) const {
    double sum = 0.0;
    for (std::size_t k = 0; k < weighed_.readings.size(); ++k)
      if (agrees(weighed_.readings[k], context_, expected)) sum += weighed_.probabilities[k];
    return sum;
  }

  const insideline::WeighedReadings& weighed_;
  const insideline::NoteContext& context_;
  const LabelledExample& example_;
  std::size_t note_;
};

void measure(const Passage& passage, const RowValues& values, Measured& sums, bool list) {
  for (const LabelledChain& chain : passage.chains) {
    const insideline::WeighedChain weighed{chain.lattice, probabilities(chain, values)};
    for (std::size_t i = 0; i < chain.lattice.size(); ++i) {
      const auto note = weighed[i];
      const auto before = sums;
      NoteMeasure(note, chain.contexts[i], passage.example, chain.notes[i]).add_to(sums);
      if (!list || sums.notes == before.notes || sums.roles[0] + sums.roles[1] == before.roles[0] + before.roles[1] + 2)
        continue;
      const auto& readers = passage.example.readers;
      fmt::print("  {} note {} {} motive {} ({:.2f}) readers", passage.example.id, chain.notes[i] + 1,
                 to_string(passage.example.solo.notes[chain.notes[i]].pitch),
                 static_cast<int>(note.readings[note.best].motive), note.label_probability);
      for (const auto& reader : readers) fmt::print(" {}", reader.codes[chain.notes[i]]);
      fmt::print("\n");
    }
  }
}

void print(const std::string& title, const Measured& sums) {
  if (sums.notes == 0) return;
  const auto share = [&](int count) { return static_cast<double>(count) / sums.notes; };
  fmt::print("{:<24} {:5} notes  role {:.3f} {:.3f}  label {:.3f} {:.3f}  accepted {:.3f}  log loss {:.3f}\n", title,
             sums.notes, share(sums.roles[0]), share(sums.roles[1]), share(sums.labels[0]), share(sums.labels[1]),
             share(sums.accepted), sums.log_loss / sums.notes);
  const auto claims = [](const char* what, const std::vector<Claim>& all) {
    fmt::print(
        "    {} of {} notes, no plain chord tones: claims {:.3f}, true {:.3f}, ECE {:.3f}, Brier {:.3f} (mean "
        "{:.3f})\n",
        what, all.size(), mean_claim(all), mean_truth(all), calibration_error(all), brier_score(all),
        brier_score_of_the_mean(all));
  };
  claims("label", sums.label_claims);
  claims("role", sums.role_claims);
}

using ByFile = std::map<std::string, Measured>;

void print(const std::string& title, const ByFile& by_file) {
  for (const auto& [file, sums] : by_file) print(title + file, sums);
}

/// Each passage measured by a fit that never saw it.
void leave_out_in_groups(const std::vector<Passage>& passages, const Options& options) {
  ByFile sums;
  for (std::size_t group = 0; group < options.groups; ++group) {
    std::vector<const Passage*> kept;
    for (std::size_t i = 0; i < passages.size(); ++i)
      if (i % options.groups != group) kept.push_back(&passages[i]);
    const RowValues values = fitted(kept, options);
    for (std::size_t i = group; i < passages.size(); i += options.groups)
      measure(passages[i], values, sums[passages[i].file], options.list);
  }
  print("left out: ", sums);
}

void write_source(const std::string& path, const RowValues& values, const Options& options, std::size_t notes) {
  std::ofstream out(path);
  if (!out) throw std::runtime_error("cannot write " + path);
  std::string files;
  for (const std::string& file : options.files) files += ' ' + file.substr(file.rfind('/') + 1);
  out << "// Written by fit_labels --strength "
      << fmt::format("{} --temperature {}", options.strength, options.temperature) << " from" << files << ":\n// "
      << notes << " labelled notes. Do not edit: set values by hand in score_table.cpp and fit again.\n"
      << "#include \"analyzer/labels/fitted_values.hpp\"\n\nnamespace insideline {\nnamespace {\n\n"
      << "constexpr std::array values_by_row = {\n";
  for (Eigen::Index i = 0; i < values.size(); ++i)
    out << "    " << std::lround(values(i) * insideline::per_log_unit) << ",  // "
        << score_row(static_cast<Row>(i)).name << '\n';
  out << "};\nstatic_assert(values_by_row.size() == static_cast<std::size_t>(Row::count),\n"
      << "              \"each row has a value: write 0 at its place and fit again\");\n\n}  // namespace\n\n"
      << "const std::array<int, static_cast<std::size_t>(Row::count)> fitted_values = values_by_row;\n\n"
      << "}  // namespace insideline\n";
}

Options read_options(const std::vector<std::string>& arguments) {
  Options options;
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    const auto value = [&] {
      if (++i == arguments.size()) throw std::invalid_argument(arguments.back() + " wants a value");
      return arguments[i];
    };
    if (arguments[i] == "--strength")
      options.strength = std::stod(value());
    else if (arguments[i] == "--temperature")
      options.temperature = std::stod(value());
    else if (arguments[i] == "--groups")
      options.groups = std::stoul(value());
    else if (arguments[i] == "--write")
      options.write = value();
    else if (arguments[i] == "--alone")
      options.alone.push_back(value());
    else if (arguments[i] == "--list")
      options.list = true;
    else
      options.files.push_back(arguments[i]);
  }
  if (options.files.empty()) throw std::invalid_argument("no label files to fit to");
  return options;
}

void run(const Options& options) {
  const std::vector<Passage> passages = read_passages(options.files);
  if (options.groups > 0) leave_out_in_groups(passages, options);
  std::vector<const Passage*> all;
  std::size_t notes = 0;
  for (const Passage& passage : passages) {
    all.push_back(&passage);
    notes += passage.example.solo.notes.size();
  }
  ByFile by_hand;
  for (const Passage& passage : passages) measure(passage, values_by_hand(), by_hand[passage.file], false);
  print("by hand: ", by_hand);
  const RowValues values = fitted(all, options);
  ByFile sums;
  for (const Passage& passage : passages) measure(passage, values, sums[passage.file], false);
  print("fitted: ", sums);
  ByFile others;
  for (const Passage& passage : read_passages(options.alone))
    measure(passage, values, others[passage.file], options.list);
  print("alone: ", others);
  if (!options.write.empty()) write_source(options.write, values, options, notes);
}

}  // namespace

int main(int argc, char** argv) {
  try {
    run(read_options({argv + 1, argv + argc}));
    return 0;
  } catch (const std::exception& error) {
    fmt::print(stderr, "fit_labels: error: {}\n", error.what());
    return 1;
  }
}

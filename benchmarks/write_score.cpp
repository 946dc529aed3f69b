// write_score BARS NOTES: a generated score on standard output, for timing whole programs.
#include <cstdio>
#include <exception>
#include <stdexcept>
#include <string>

#include "benchmarks/generated_score.hpp"

int main(int count, char** arguments) {
  try {
    if (count != 3) throw std::invalid_argument("usage: write_score BARS NOTES");
    const std::string score =
        insideline::benchmarks::generated_score({std::stoi(arguments[1]), std::stoi(arguments[2])});
    std::fwrite(score.data(), 1, score.size(), stdout);
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "write_score: %s\n", error.what());
    return 1;
  }
}

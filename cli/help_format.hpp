// The help text, on lines of at most 80 columns. An option shows what stands in its
// `option_text`; what else is known of it is in its description.
#pragma once

#include <CLI/CLI.hpp>

#include <string>

namespace insideline::cli {

class HelpFormat : public CLI::Formatter {
 public:
  HelpFormat();
  std::string make_option_opts(const CLI::Option* option) const override;
  std::string make_option_desc(const CLI::Option* option) const override;
  std::string make_subcommand(const CLI::App* command) const override;
};

}  // namespace insideline::cli

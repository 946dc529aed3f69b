// A solo with a teacher's hearing file beside it, as a labelled line: what the teacher corrected can be learned from.
#pragma once

#include "tests/support/label_file.hpp"

#include <string>

namespace insideline::tests {

/// The solo beside `hearing_file` (solo.hearing: solo.musicxml, .xml, .mxl, .abc or .mid) over the changes in it, or in
/// solo.changes. Every note that the file speaks of has its label, as the program reads the line under it; nobody was
/// asked about the others. Throws std::invalid_argument where there is no such solo and io::ReadError where one of the
/// files cannot be used.
LabelledExample heard_solo(const std::string& hearing_file);

}  // namespace insideline::tests

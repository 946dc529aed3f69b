// A collection of three solos by two players, made by hand.
#pragma once

#include "reports/survey/survey_report.hpp"

namespace insideline::tests {

reports::CollectionReport sample_collection();

}  // namespace insideline::tests

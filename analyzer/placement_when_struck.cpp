#include "analyzer/placement_when_struck.hpp"

namespace insideline {

Placement placement_when_struck(const NoteLabel& label) {
  if (!label.governor) return label.placement;
  const bool is_pickup = !label.chord && *label.governor == 0;
  return is_pickup || label.chord == label.governor ? Placement::in_place : label.placement;
}

}  // namespace insideline

#include "analyzer/analysis.hpp"

namespace insideline {

std::string to_string(Role role) {
  switch (role) {
    case Role::chord_tone: return "chord tone";
    case Role::tension: return "tension";
    case Role::non_chord_tone: return "non-chord tone";
    case Role::outside: return "outside";
    case Role::no_chord: return "no chord";
  }
  return {};
}

std::string to_string(Figure figure) {
  switch (figure) {
    case Figure::root: return "root";
    case Figure::second: return "second";
    case Figure::third: return "third";
    case Figure::fourth: return "fourth";
    case Figure::fifth: return "fifth";
    case Figure::sixth: return "sixth";
    case Figure::seventh: return "seventh";
    case Figure::ninth: return "ninth";
    case Figure::eleventh: return "eleventh";
    case Figure::thirteenth: return "thirteenth";
    case Figure::passing_tone: return "passing tone";
    case Figure::neighbour_tone: return "neighbour tone";
    case Figure::double_neighbour: return "double neighbour";
    case Figure::approach_tone: return "approach tone";
    case Figure::enclosure: return "enclosure";
    case Figure::appoggiatura: return "appoggiatura";
    case Figure::escape_tone: return "escape tone";
    case Figure::pedal: return "pedal";
    case Figure::unexplained: return "unexplained";
    case Figure::none: return "none";
  }
  return {};
}

std::string to_string(Placement placement) {
  switch (placement) {
    case Placement::in_place: return "in place";
    case Placement::anticipation: return "anticipation";
    case Placement::suspension: return "suspension";
    case Placement::retardation: return "retardation";
  }
  return {};
}

std::string to_string(Direction direction) {
  switch (direction) {
    case Direction::ascending: return "ascending";
    case Direction::descending: return "descending";
    case Direction::mixed: return "mixed";
  }
  return {};
}

std::string to_string(Inversion inversion) {
  switch (inversion) {
    case Inversion::root_position: return "root position";
    case Inversion::first: return "first inversion";
    case Inversion::second: return "second inversion";
    case Inversion::third: return "third inversion";
    case Inversion::none: return "upper structure";
  }
  return {};
}

std::string to_string(ConnectionKind kind) {
  switch (kind) {
    case ConnectionKind::common_tone: return "common tone";
    case ConnectionKind::half_step: return "half step";
    case ConnectionKind::whole_step: return "whole step";
    case ConnectionKind::third: return "third";
    case ConnectionKind::leap: return "leap";
    case ConnectionKind::none: return "none";
  }
  return {};
}

}  // namespace insideline

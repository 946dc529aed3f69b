#include "analyzer/harmony/chord_recipe.hpp"

#include <algorithm>

namespace insideline {
namespace {

bool alters(const ChordRecipe& recipe, int number) {
  return std::ranges::any_of(recipe.alterations, [&](const Degree& degree) { return degree.number == number; });
}

bool leaves_out_third(const ChordRecipe& recipe) {
  if (recipe.stack == 5 || !recipe.suspensions.empty() || alters(recipe, 3)) return true;
  return recipe.stack == 11 && recipe.third_alter == 0 && !alters(recipe, 11);
}

}  // namespace

std::vector<Degree> tones_of(const ChordRecipe& recipe) {
  std::vector<Degree> tones = {{1, 0}};
  if (recipe.altered_dominant) return {{1, 0}, {3, 0}, {7, -1}};
  if (!leaves_out_third(recipe)) tones.push_back({3, recipe.third_alter});
  if (!alters(recipe, 5)) tones.push_back({5, recipe.fifth_alter});
  if (recipe.stack == 6 && !alters(recipe, 6)) tones.push_back({6, 0});
  if (recipe.stack >= 7 && !alters(recipe, 7)) tones.push_back({7, recipe.seventh_alter});
  if (recipe.stack >= 9 && !alters(recipe, 9)) tones.push_back({9, 0});
  if (recipe.stack == 11 && !alters(recipe, 11)) tones.push_back({11, 0});
  if (recipe.stack == 13 && !alters(recipe, 13)) tones.push_back({13, 0});
  for (const Degree& degree : recipe.stacked)
    if (!alters(recipe, degree.number)) tones.push_back(degree);
  tones.insert(tones.end(), recipe.suspensions.begin(), recipe.suspensions.end());
  tones.insert(tones.end(), recipe.alterations.begin(), recipe.alterations.end());
  std::erase_if(tones, [&](const Degree& degree) {
    return degree.number != 1 && std::ranges::find(recipe.omissions, degree.number) != recipe.omissions.end();
  });
  tones.insert(tones.end(), recipe.additions.begin(), recipe.additions.end());
  return tones;
}

}  // namespace insideline

#include "tests/labelled/fit/minimise.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <vector>

namespace insideline::tests {
namespace {

constexpr int most_steps = 300;
constexpr std::size_t remembered = 12;
constexpr double flat = 1e-4;
constexpr double enough_descent = 1e-4;
constexpr double shortest_step = 1e-10;

struct Step {
  Eigen::VectorXd move;
  Eigen::VectorXd turn;  // of the gradient
};

/// The way down as the remembered steps bend it: the two loops of L-BFGS.
Eigen::VectorXd way_down(const Eigen::VectorXd& gradient, const std::deque<Step>& steps) {
  Eigen::VectorXd way = gradient;
  std::vector<double> alphas;
  for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
    alphas.push_back(step->move.dot(way) / step->move.dot(step->turn));
    way -= alphas.back() * step->turn;
  }
  if (!steps.empty()) way *= steps.back().move.dot(steps.back().turn) / steps.back().turn.squaredNorm();
  for (const Step& step : steps) {
    const double beta = step.turn.dot(way) / step.move.dot(step.turn);
    way += (alphas.back() - beta) * step.move;
    alphas.pop_back();
  }
  return -way;
}

}  // namespace

Eigen::VectorXd least(const Smooth& function, Eigen::VectorXd point) {
  std::deque<Step> steps;
  Eigen::VectorXd gradient(point.size());
  double value = function(point, gradient);
  for (int count = 0; count < most_steps && gradient.lpNorm<Eigen::Infinity>() > flat; ++count) {
    const Eigen::VectorXd way = way_down(gradient, steps);
    const double slope = way.dot(gradient);
    double length = steps.empty() ? 1.0 / std::max(1.0, gradient.norm()) : 1.0;
    Eigen::VectorXd next_gradient(point.size());
    Eigen::VectorXd next = point + length * way;
    double next_value = function(next, next_gradient);
    while (!(next_value <= value + enough_descent * length * slope) && length > shortest_step) {
      length /= 2.0;
      next = point + length * way;
      next_value = function(next, next_gradient);
    }
    if (!(next_value < value)) break;
    const Step step{next - point, next_gradient - gradient};
    if (step.move.dot(step.turn) > 0.0) steps.push_back(step);
    if (steps.size() > remembered) steps.pop_front();
    point = next;
    gradient = next_gradient;
    value = next_value;
  }
  return point;
}

}  // namespace insideline::tests

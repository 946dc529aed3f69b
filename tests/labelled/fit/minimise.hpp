// The least value of a smooth function: L-BFGS with a backtracking line search (Nocedal & Wright, Numerical
// Optimization, 2006, algorithms 7.4, 7.5 and 3.1).
#pragma once

#include <functional>

#include <Eigen/Core>

namespace insideline::tests {

/// Gives the value at `point` and writes its gradient.
using Smooth = std::function<double(const Eigen::VectorXd& point, Eigen::VectorXd& gradient)>;

/// Goes down from `start` until the gradient is next to nothing or the value no longer falls.
Eigen::VectorXd least(const Smooth& function, Eigen::VectorXd start);

}  // namespace insideline::tests

#include "teach/ridge.h"

#include <Eigen/Cholesky>

#include <array>
#include <limits>

namespace pritchel::teach {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::MatrixXf;

/// Shares of the inputs' mean square.
constexpr std::array<double, 4> penalties{0.03, 0.3, 3, 30};

std::vector<Index> rows_where(const std::vector<int>& fold, int group, bool in_it) {
  std::vector<Index> rows;
  for (std::size_t i = 0; i < fold.size(); ++i)
    if ((fold[i] == group) == in_it)
      rows.push_back(static_cast<Index>(i));
  return rows;
}

MatrixXd solved(MatrixXd square, double penalty, const MatrixXd& right) {
  square.diagonal().array() += penalty;
  return square.llt().solve(right);
}

/// Through products of samples with each other: for more inputs than samples.
class BySamples {
public:
  BySamples(const MatrixXf& x, const MatrixXf& y, const std::vector<int>& fold)
      : x_(x),
        y_(y.cast<double>()),
        fold_(fold),
        products_((x * x.transpose()).cast<double>()) {}
  [[nodiscard]] double scale() const { return products_.diagonal().mean(); }
  [[nodiscard]] MatrixXd
  elsewhere(int group, const std::vector<Index>& asked, double penalty) const {
    const auto taught = rows_where(fold_, group, false);
    return products_(asked, taught) *
           solved(products_(taught, taught), penalty, y_(taught, Eigen::all));
  }
  [[nodiscard]] MatrixXf weights(double penalty) const {
    return x_.transpose() * solved(products_, penalty, y_).cast<float>();
  }

private:
  const MatrixXf& x_;
  MatrixXd y_;
  const std::vector<int>& fold_;
  MatrixXd products_;
};

/// Through products of inputs with each other, kept by group.
class ByInputs {
public:
  ByInputs(const MatrixXf& x, const MatrixXf& y, const std::vector<int>& fold)
      : x_(x) {
    for (int group = 0; group < fold_count; ++group) {
      const auto rows = rows_where(fold, group, true);
      const MatrixXf some = x(rows, Eigen::all);
      products_.push_back((some.transpose() * some).cast<double>());
      right_.push_back((some.transpose() * y(rows, Eigen::all)).cast<double>());
    }
  }
  [[nodiscard]] double scale() const {
    return static_cast<double>(x_.squaredNorm()) / static_cast<double>(x_.rows());
  }
  [[nodiscard]] MatrixXd
  elsewhere(int group, const std::vector<Index>& asked, double penalty) const {
    return (x_(asked, Eigen::all) * from(group, penalty)).cast<double>();
  }
  [[nodiscard]] MatrixXf weights(double penalty) const { return from(fold_count, penalty); }

private:
  [[nodiscard]] MatrixXf from(int all_but, double penalty) const {
    MatrixXd products = MatrixXd::Zero(products_[0].rows(), products_[0].cols());
    MatrixXd right = MatrixXd::Zero(right_[0].rows(), right_[0].cols());
    for (int group = 0; group < fold_count; ++group)
      if (group != all_but) {
        products += products_[static_cast<std::size_t>(group)];
        right += right_[static_cast<std::size_t>(group)];
      }
    return solved(std::move(products), penalty, right).cast<float>();
  }
  const MatrixXf& x_;
  std::vector<MatrixXd> products_;
  std::vector<MatrixXd> right_;
};

template <class Way> MatrixXd all_elsewhere(const Way& way, const Lesson& lesson, double penalty) {
  MatrixXd out(lesson.outputs.rows(), lesson.outputs.cols());
  for (int group = 0; group < fold_count; ++group) {
    const auto asked = rows_where(lesson.fold, group, true);
    out(asked, Eigen::all) = way.elsewhere(group, asked, penalty);
  }
  return out;
}

template <class Way> std::pair<MatrixXf, Learned> solved_by(const Way& way, const Lesson& centred) {
  Learned best;
  double least = std::numeric_limits<double>::max();
  for (const double share : penalties) {
    const double penalty = share * way.scale();
    const MatrixXd out = all_elsewhere(way, centred, penalty);
    const double error = (out - centred.outputs.cast<double>()).squaredNorm();
    if (error >= least)
      continue;
    least = error;
    best.penalty = penalty;
    best.elsewhere = out.cast<float>();
  }
  MatrixXf weights = way.weights(best.penalty);
  return {std::move(weights), std::move(best)};
}

suggest::Linear linear_of(const MatrixXf& weights,
                          const Eigen::RowVectorXf& mean_in,
                          const Eigen::RowVectorXf& mean_out) {
  suggest::Linear map{.inputs = static_cast<int>(weights.rows()),
                      .outputs = static_cast<int>(weights.cols())};
  const Eigen::RowVectorXf offsets = mean_out - mean_in * weights;
  for (Index out = 0; out < weights.cols(); ++out) {
    map.offsets.push_back(offsets[out]);
    map.weights.insert(map.weights.end(), weights.col(out).begin(), weights.col(out).end());
  }
  return map;
}

} // namespace

Learned learned(const Lesson& lesson) {
  const Eigen::RowVectorXf mean_in = lesson.inputs.colwise().mean();
  const Eigen::RowVectorXf mean_out = lesson.outputs.colwise().mean();
  const Lesson centred{.inputs = lesson.inputs.rowwise() - mean_in,
                       .outputs = lesson.outputs.rowwise() - mean_out,
                       .fold = lesson.fold};
  auto [weights, result] =
      centred.inputs.cols() > centred.inputs.rows()
          ? solved_by(BySamples(centred.inputs, centred.outputs, centred.fold), centred)
          : solved_by(ByInputs(centred.inputs, centred.outputs, centred.fold), centred);
  result.map = linear_of(weights, mean_in, mean_out);
  result.elsewhere.rowwise() += mean_out;
  return std::move(result);
}

} // namespace pritchel::teach

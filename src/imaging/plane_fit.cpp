#include "imaging/plane_fit.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace pritchel::imaging {
namespace {

constexpr int unknowns = 9; ///< eight of the homography in units of its own, then k1
using Parameters = Eigen::Matrix<double, unknowns, 1>;
using Normal = Eigen::Matrix<double, unknowns, unknowns>;

/// A pair in units that keep the equations even: the plane about its middle, the picture about the
/// lens's centre over the focal length.
struct EvenPair {
  Eigen::Vector2d in_plane;
  Eigen::Vector2d seen;
};

struct Units {
  Eigen::Vector2d middle;
  double spread_mm = 1;
  CameraView camera;

  [[nodiscard]] Eigen::Vector2d picture(const ImagePoint& p) const {
    return Eigen::Vector2d(p.x - camera.centre.x, p.y - camera.centre.y) / camera.focal_px;
  }
};

Units units_of(std::span<const PlanePair> pairs, const CameraView& camera) {
  Units units{.middle = Eigen::Vector2d::Zero(), .camera = camera};
  for (const auto& each : pairs)
    units.middle += Eigen::Vector2d(each.in_plane.x, each.in_plane.y);
  units.middle /= static_cast<double>(pairs.size());
  double square = 0;
  for (const auto& each : pairs)
    square += (Eigen::Vector2d(each.in_plane.x, each.in_plane.y) - units.middle).squaredNorm();
  units.spread_mm = std::sqrt(square / static_cast<double>(pairs.size()));
  return units;
}

std::vector<EvenPair> even_pairs(std::span<const PlanePair> pairs, const Units& units) {
  std::vector<EvenPair> even;
  for (const auto& each : pairs)
    even.push_back(
        {(Eigen::Vector2d(each.in_plane.x, each.in_plane.y) - units.middle) / units.spread_mm,
         units.picture(each.seen)});
  return even;
}

Homography in_pixels(const Parameters& p, const Units& units) {
  Eigen::Matrix3d h, to_even, to_pixels;
  h << p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7], 1;
  const double s = units.spread_mm, f = units.camera.focal_px;
  to_even << 1 / s, 0, -units.middle.x() / s, 0, 1 / s, -units.middle.y() / s, 0, 0, 1;
  to_pixels << f, 0, units.camera.centre.x, 0, f, units.camera.centre.y, 0, 0, 1;
  const Eigen::Matrix<double, 3, 3, Eigen::RowMajor> all = to_pixels * h * to_even;
  Homography out{};
  std::copy_n(all.data(), out.size(), out.begin());
  return out;
}

/// Hartley and Zisserman, algorithm 4.1: the smallest singular vector.
std::optional<Parameters> direct_solution(const std::vector<EvenPair>& pairs) {
  Eigen::MatrixXd rows = Eigen::MatrixXd::Zero(2 * static_cast<long>(pairs.size()), unknowns);
  long at = 0;
  for (const auto& each : pairs) {
    const double x = each.in_plane.x(), y = each.in_plane.y();
    const double u = each.seen.x(), v = each.seen.y();
    rows.row(at++) << x, y, 1, 0, 0, 0, -u * x, -u * y, -u;
    rows.row(at++) << 0, 0, 0, x, y, 1, -v * x, -v * y, -v;
  }
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(rows, Eigen::ComputeFullV);
  const auto values = svd.singularValues();
  // The second smallest near zero: more than one map fits, the points lie on a line.
  if (values.size() < unknowns - 1 || values[unknowns - 2] < 1e-9 * values[0])
    return std::nullopt;
  const Eigen::VectorXd h = svd.matrixV().col(unknowns - 1);
  if (std::abs(h[8]) < 1e-12)
    return std::nullopt;
  Parameters p = Parameters::Zero();
  p.head<8>() = h.head<8>() / h[8];
  return p;
}

struct Look {
  Eigen::Vector2d miss;
  Eigen::Matrix<double, 2, unknowns> slope;
};

/// Where the model sees the point, less where it was seen, pixels, and the slopes of that.
Look look(const EvenPair& pair, const Parameters& p, double focal_px) {
  const double x = pair.in_plane.x(), y = pair.in_plane.y();
  const double w = p[6] * x + p[7] * y + 1;
  const Eigen::Vector2d u((p[0] * x + p[1] * y + p[2]) / w, (p[3] * x + p[4] * y + p[5]) / w);
  Eigen::Matrix<double, 2, 8> straight;
  straight << x / w, y / w, 1 / w, 0, 0, 0, -u.x() * x / w, -u.x() * y / w, 0, 0, 0, x / w, y / w,
      1 / w, -u.y() * x / w, -u.y() * y / w;
  const double r2 = u.squaredNorm(), k1 = p[8];
  const Eigen::Matrix2d bend =
      (1 + k1 * r2) * Eigen::Matrix2d::Identity() + 2 * k1 * u * u.transpose();
  Look out;
  out.miss = focal_px * (u * (1 + k1 * r2) - pair.seen);
  out.slope.leftCols<8>() = focal_px * bend * straight;
  out.slope.col(8) = focal_px * r2 * u;
  return out;
}

struct System {
  Normal normal = Normal::Zero();
  Parameters gradient = Parameters::Zero();
  double squares = 0; ///< of the pairs alone
};

/// `stiffness` is the weight of k1 = 0: 0 lets it free, infinity would hold it.
System system_at(const std::vector<EvenPair>& pairs,
                 const Parameters& p,
                 double focal_px,
                 double stiffness) {
  System out;
  for (const auto& each : pairs) {
    const auto seen = look(each, p, focal_px);
    out.normal += seen.slope.transpose() * seen.slope;
    out.gradient += seen.slope.transpose() * seen.miss;
    out.squares += seen.miss.squaredNorm();
  }
  out.normal(8, 8) += stiffness;
  out.gradient[8] += stiffness * p[8];
  return out;
}

struct Solution {
  Parameters at = Parameters::Zero();
  System system;
};

/// Levenberg and Marquardt's descent; Marquardt's scaling.
std::optional<Solution> descend(const std::vector<EvenPair>& pairs,
                                const Parameters& start,
                                double focal_px,
                                double stiffness) {
  constexpr int most_steps = 60;
  const auto cost = [&](const Parameters& p, const System& s) {
    return s.squares + stiffness * p[8] * p[8];
  };
  Solution best{start, system_at(pairs, start, focal_px, stiffness)};
  double damping = 1e-6;
  for (int i = 0; i < most_steps; ++i) {
    Normal damped = best.system.normal;
    damped.diagonal() *= 1 + damping;
    const Parameters step = damped.ldlt().solve(best.system.gradient);
    const Parameters next = best.at - step;
    const auto there = system_at(pairs, next, focal_px, stiffness);
    if (!std::isfinite(there.squares))
      return std::nullopt;
    const double gain = cost(best.at, best.system) - cost(next, there);
    if (gain >= 0)
      best = {next, there};
    damping = gain >= 0 ? damping / 10 : damping * 10;
    if (step.norm() < 1e-13 * (1 + best.at.norm()) || damping > 1e12)
      return best;
  }
  return best;
}

/// A weight that holds k1 at 0.
double held(const std::vector<EvenPair>& pairs, double focal_px) {
  return 1e12 * focal_px * focal_px * static_cast<double>(pairs.size());
}

double noise_of(double squares, std::size_t pairs, int fitted) {
  const double freedom = 2.0 * static_cast<double>(pairs) - fitted;
  return std::sqrt(squares / std::max(freedom, 1.0));
}

/// One term more makes the squares so much smaller that chance hardly does it (F of 1 and about 20
/// degrees of freedom at 0.1 % is 14.8), and its size is one that a lens has.
bool shows_lens(double without, const Solution& with, std::size_t pairs, const CameraView& camera) {
  constexpr double least_f = 15;
  constexpr double greatest_share = 0.25; ///< of the radius at the picture's corner
  const double noise = std::max(noise_of(with.system.squares, pairs, unknowns), least_noise_px);
  return (without - with.system.squares) / (noise * noise) > least_f &&
         std::abs(with.at[8]) * camera.corner_r * camera.corner_r < greatest_share;
}

/// One term stands for a whole lens: a tenth of what it does stays unsure away from the pairs (own
/// estimate).
constexpr double fitted_lens_share = 0.1;

std::vector<PlaneFit::Moved>
moved_fits(const Solution& solution, double noise_px, double k1_extra, const Units& units) {
  const Normal covariance = noise_px * noise_px * solution.system.normal.inverse();
  const Eigen::SelfAdjointEigenSolver<Normal> parts(covariance);
  std::vector<PlaneFit::Moved> moved;
  const auto add = [&](const Parameters& shift) {
    const Parameters p = solution.at + shift;
    moved.push_back({in_pixels(p, units), p[8]});
  };
  for (int i = 0; i < unknowns; ++i)
    add(std::sqrt(std::max(parts.eigenvalues()[i], 0.0)) * parts.eigenvectors().col(i));
  if (k1_extra > 0) // the map follows the lens as the pairs demand
    add(covariance.col(8) / covariance(8, 8) * k1_extra);
  return moved;
}

} // namespace

std::optional<PlaneFit> fit_plane(std::span<const PlanePair> pairs, const CameraView& camera) {
  constexpr std::size_t least_pairs = 6;
  if (pairs.size() < least_pairs)
    return std::nullopt;
  const auto units = units_of(pairs, camera);
  const auto even = even_pairs(pairs, units);
  const auto start = direct_solution(even);
  if (!start)
    return std::nullopt;
  const double focal = camera.focal_px;
  const auto flat = descend(even, *start, focal, held(even, focal));
  auto free = flat ? descend(even, flat->at, focal, 0) : std::nullopt;
  if (!free)
    return std::nullopt;
  const bool fitted = shows_lens(flat->system.squares, *free, pairs.size(), camera);
  const double first_noise =
      std::max(noise_of(free->system.squares, pairs.size(), unknowns), least_noise_px);
  const double stiffness =
      camera.k1_unsure > 0 ? std::pow(first_noise / camera.k1_unsure, 2) : held(even, focal);
  const auto chosen = fitted ? free : descend(even, flat->at, focal, stiffness);
  if (!chosen)
    return std::nullopt;
  const double squares = chosen->system.squares;
  const double noise =
      std::max(noise_of(squares, pairs.size(), fitted ? unknowns : unknowns - 1), least_noise_px);
  return PlaneFit{
      .to_picture = in_pixels(chosen->at, units),
      .k1 = chosen->at[8],
      .distortion = fitted ? PlaneFit::Distortion::fitted : PlaneFit::Distortion::unknown,
      .rms_px = std::sqrt(squares / static_cast<double>(pairs.size())),
      .noise_px = noise,
      .one_sigma = moved_fits(
          *chosen, noise, fitted ? fitted_lens_share * std::abs(chosen->at[8]) : 0, units)};
}

} // namespace pritchel::imaging

/// Where the tube stood, from the outlines that part in a lateromedial picture, and what that may
/// do to the palmar angle and the depth of the sole.
///
/// A point source at (ahead, height) beside the foot's mid-plane, D away, shifts a feature that
/// lies z nearer to it by z/D times its place as seen from the source. Two twins w apart therefore
/// part by w/D times that: yaw, roll and divergence are one and the same thing, the direction of
/// the ray that passes the feature. Frame here: mm along the ground (towards the toe) and above it.
/// Source: geometry; docs/accuracy.md.
#pragma once

#include "geometry/frames.h"

#include <optional>
#include <span>
#include <vector>

namespace pritchel::measure {

/// Own estimates and common practice where nothing of the kind is stated: source to detector
/// (600-750 mm), the foot's middle plane in front of it (60-80 mm), and the block.
inline constexpr double usual_source_to_detector_mm = 700;
inline constexpr double usual_plane_to_detector_mm = 70;
inline constexpr double usual_block_width_mm = 150;
inline constexpr double usual_block_length_mm = 190;
/// The block's size is somebody's own block, not ours: standard uncertainty as a share.
inline constexpr double block_size_unsure = 0.05;
/// Standard uncertainty of the distance from source to foot, as a share: known and unknown.
inline constexpr double stated_distance_unsure = 0.01;
inline constexpr double usual_distance_unsure = 0.06;

/// Height of the central ray above the block's top from the gap of its edges: + when the near edge
/// shows lower. Gap in true mm, width along the beam.
[[nodiscard]] double beam_height_mm(double edge_gap, double width, double source_to_foot);

/// Gap that divergence alone makes between two features `width` apart along the beam, `off` away
/// from the central ray.
[[nodiscard]] double divergence_gap_mm(double off, double width, double source_to_foot);

/// Angle of obliquity that a gap between twins `width` apart stands for, degrees; nothing when the
/// gap is wider than the twins are.
[[nodiscard]] std::optional<double> obliquity_deg(double gap, double width);

struct Estimate {
  double value = 0;
  double uncertainty = 0; ///< standard
};

enum class Bone { coffin, short_pastern };

/// Twins of one bone as read: their middle, the first less the second, and how surely. Which of the
/// two is the nearer is not known. A direction in which they are no sharp point is left out.
struct Parting {
  Bone bone = Bone::coffin;
  PlanePoint middle;
  double width = 0; ///< between the twins, along the beam
  std::optional<Estimate> ahead;
  std::optional<Estimate> up;
};

/// Where the source stands: a place along the ground and above it.
struct Source {
  Estimate ahead;
  Estimate height;
  Estimate lean; ///< of the coffin bone over the ground, radians, + nearer side higher
  double chi_squared = 0;
};

/// Every place of the source that the partings allow, best first: least squares over all of them at
/// once for each choice of which twin is the nearer, kept while within three standard deviations
/// of the best. The bones' own sideways lean over the block is estimated with it. `by_edges`: the
/// height from the block's edges; without it the lean and the height can't be told apart and the
/// height's uncertainty says so. Without a parting along the ground nothing is known. `middle`:
/// where along the ground a square beam passes, which people miss by some degrees.
[[nodiscard]] std::vector<Source> source_places(std::span<const Parting> partings,
                                                const std::optional<Estimate>& by_edges,
                                                double source_to_foot,
                                                double middle);

/// What the view's error depends on, as read.
struct SideOn {
  PlanePoint tip;
  PlanePoint process;
  double depth = 0;            ///< of the sole under the tip, square to the sole
  Estimate sole_slope;         ///< of the outer sole against the ground, radians, + toe end higher
  Estimate middle;             ///< along the ground, where the beam passes when it is square
  Estimate process_half_width; ///< from the mid-plane to either process
  Estimate sole_half_width;    ///< the same of the sole, level with the tip
  Estimate source_to_foot;
};

struct ViewError {
  double palmar_angle_deg = 0;
  double sole_depth_mm = 0;
};

/// The worst that a reader may be off who follows the mean, the near or the far outline, against
/// the same outline seen squarely from afar, with the source at this place and a coffin bone that
/// leans so.
[[nodiscard]] ViewError view_error(const SideOn& foot, double ahead, double height, double lean);

/// The likely error at the best of the places, and the one that is passed with a chance of one in
/// fifty (depth: in a hundred) over all that is uncertain of foot and source.
struct ViewVerdict {
  ViewError likely;
  ViewError bound;
};

/// `sources` as of source_places(), not empty: each counts by its likelihood.
[[nodiscard]] ViewVerdict view_verdict(const SideOn& foot, std::span<const Source> sources);

} // namespace pritchel::measure

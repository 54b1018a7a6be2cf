/// All limits on what the program accepts, each with what it protects against.
/// Trade limits (how much horn, how many degrees) are not here: templates/rules, plan/limits.h.
#pragma once

#include <cstddef>
#include <cstdint>

namespace pritchel::limits {

/// Largest picture file read: a 16-bit 4000x5000 film is 40 MB; beyond this memory is at risk.
inline constexpr std::uintmax_t picture_file_bytes = 256ULL * 1024 * 1024;
/// Largest side of a picture, pixels: phone cameras reach 12,000.
inline constexpr int picture_side_px = 16384;
/// Most pixels in a picture, against header bombs.
inline constexpr std::int64_t picture_pixels = 120'000'000;
/// Largest JSON document read (a reading is about 5 kB).
inline constexpr std::uintmax_t json_file_bytes = 8ULL * 1024 * 1024;
/// Landmarks in one reading: as many as a measurement's derivatives are kept for.
inline constexpr std::size_t landmarks_in_reading = 74;
/// Longest free text field, bytes: a long history fits, a pasted book does not.
inline constexpr std::size_t text_bytes = 20'000;
/// Spacing accepted at a radiographic detector, mm per pixel: mammography 0.05, coarse CR 0.4.
/// Outside it the header is wrong by a unit or a typing error.
inline constexpr double least_spacing_mm = 0.01;
inline constexpr double greatest_spacing_mm = 2.0;
/// Magnification of a foot against a plate; below 1 is impossible, above 2 is no foot film.
inline constexpr double least_magnification = 1.0;
inline constexpr double greatest_magnification = 2.0;
/// Size of a calibration marker, mm.
inline constexpr double least_marker_mm = 2.0;
inline constexpr double greatest_marker_mm = 500.0;
/// Two landmarks that carry a line must be at least this far apart (relative to the placement
/// uncertainty the direction is meaningless below it), mm.
inline constexpr double shortest_baseline_mm = 3.0;
/// The same for the ground line, whose ends lie before and behind a foot of 120 mm.
inline constexpr double shortest_ground_mm = 60.0;
/// The same for the axis of P1, mm: a quarter and three quarters of the smallest adult's bone; less
/// is a cropped picture with both points in the distal flare.
inline constexpr double shortest_long_pastern_mm = 30.0;

} // namespace pritchel::limits

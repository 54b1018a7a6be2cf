#include "phantom/write_dicom.h"

#include "phantom/random.h"

#include <dcmtk/config/osconfig.h>
#include <dcmtk/dcmdata/dctk.h>
#include <dcmtk/dcmjpeg/djencode.h>
#include <dcmtk/dcmjpeg/djrplol.h>
#include <fmt/format.h>

#include <cmath>
#include <cstdio>

namespace pritchel::phantom {

namespace {

struct Code {
  const char* value;
  const char* scheme;
  const char* meaning;
};

OFString decimal(double value) {
  return fmt::format("{:.6g}", value);
}

OFString pair_of(const std::string& first, const std::string& second) {
  return first + "\\" + second;
}

class Writer {
public:
  Writer(DcmDataset& data, const Film& film, const Foot& foot, const Shot& shot)
      : data_(data),
        film_(film),
        foot_(foot),
        shot_(shot) {}

  void patient(const Horse& horse) {
    put(DCM_SpecificCharacterSet, "ISO_IR 100");
    put(DCM_PatientName, horse.name + "^");
    put(DCM_PatientID, horse.number);
    put(DCM_PatientBirthDate, horse.birth_date);
    put(DCM_PatientSex, "M");
    put(DCM_PatientSexNeutered, "ALTERED");
    put(DCM_PatientSpeciesDescription, "Equus caballus");
    code(DCM_PatientSpeciesCodeSequence, {"35354009", "SCT", "Equus caballus"});
    put(DCM_PatientBreedDescription, horse.breed);
    empty_sequence(DCM_PatientBreedCodeSequence);
    empty_sequence(DCM_BreedRegistrationSequence);
    put(DCM_ResponsiblePerson, horse.owner);
    put(DCM_ResponsiblePersonRole, "OWNER");
    put(DCM_ResponsibleOrganization, "");
    put(DCM_InstitutionName, horse.practice);
  }

  void study(const Occasion& occasion) {
    const auto& o = occasion;
    put(DCM_StudyInstanceUID, identifier(o.study, "study"));
    put(DCM_SeriesInstanceUID,
        identifier(o.study, fmt::format("series {} {}", side(), view_position())));
    put(DCM_SOPInstanceUID,
        identifier(o.study ^ (shot_.seed << 20),
                   fmt::format("picture {} {}", side(), view_position())));
    put(DCM_SOPClassUID, UID_DigitalXRayImageStorageForPresentation);
    for (const DcmTagKey& tag :
         {DCM_StudyDate, DCM_SeriesDate, DCM_ContentDate, DCM_AcquisitionDate})
      put(tag, o.date);
    for (const DcmTagKey& tag :
         {DCM_StudyTime, DCM_SeriesTime, DCM_ContentTime, DCM_AcquisitionTime})
      put(tag, o.time);
    put(DCM_AccessionNumber, "");
    put(DCM_ReferringPhysicianName, "");
    put(DCM_StudyID, "1");
    put(DCM_StudyDescription, o.study_name);
    put(DCM_SeriesNumber, fmt::format("{}", o.number));
    put(DCM_SeriesDescription, fmt::format("{} {}, {}", word_side(), word_limb(), word_view()));
    put(DCM_InstanceNumber, fmt::format("{}", o.number));
    put(DCM_Modality, "DX");
    put(DCM_PresentationIntentType, "FOR PRESENTATION");
    put(DCM_Manufacturer, "Pritchel digital foot");
    put(DCM_ManufacturerModelName, "invented");
    put(DCM_DeviceSerialNumber, "0");
    put(DCM_SoftwareVersions, "0.1");
    empty_sequence(DCM_AcquisitionContextSequence);
  }

  void view() {
    put(DCM_BodyPartExamined, "EXTREMITY");
    put(DCM_ViewPosition, view_position());
    put(DCM_ImageLaterality, side());
    put(DCM_AnatomicalOrientationType, "QUADRUPED");
    put(DCM_PatientOrientation, patient_orientation());
    const bool hind = foot_.parameters.limb == Limb::hind;
    code(DCM_AnatomicRegionSequence,
         hind ? Code{"416804009", "SCT", "Hindfoot"} : Code{"419176008", "SCT", "Forefoot"});
    if (shot_.view == View::lateromedial)
      code(DCM_ViewCodeSequence, {"399352003", "SCT", "Lateromedial"});
    else if (hind)
      code(DCM_ViewCodeSequence, {"399335002", "SCT", "Dorsoplantar"});
    else
      code(DCM_ViewCodeSequence, {"441505008", "SCT", "Dorsopalmar"});
    empty_modifier(DCM_ViewCodeSequence, DCM_ViewModifierCodeSequence);
  }

  void pixels() {
    put(DCM_ImageType, "ORIGINAL\\PRIMARY\\");
    data_.putAndInsertUint16(DCM_SamplesPerPixel, 1);
    put(DCM_PhotometricInterpretation, inverse() ? "MONOCHROME1" : "MONOCHROME2");
    data_.putAndInsertUint16(DCM_Rows, static_cast<Uint16>(film_.rows));
    data_.putAndInsertUint16(DCM_Columns, static_cast<Uint16>(film_.columns));
    data_.putAndInsertUint16(DCM_BitsAllocated, 16);
    data_.putAndInsertUint16(DCM_BitsStored, stored_bits);
    data_.putAndInsertUint16(DCM_HighBit, stored_bits - 1);
    data_.putAndInsertUint16(DCM_PixelRepresentation, 0);
    constexpr int top = (1 << stored_bits) - 1;
    std::vector<Uint16> values(film_.values.begin(), film_.values.end());
    if (inverse())
      for (Uint16& v : values)
        v = static_cast<Uint16>(top - v);
    data_.putAndInsertUint16Array(DCM_PixelData, values.data(), values.size());
    put(DCM_WindowCenter, decimal(inverse() ? top - film_.window_centre : film_.window_centre));
    put(DCM_WindowWidth, decimal(film_.window_width));
    put(DCM_RescaleIntercept, "0");
    put(DCM_RescaleSlope, "1");
    put(DCM_RescaleType, "US");
    put(DCM_PresentationLUTShape, inverse() ? "INVERSE" : "IDENTITY");
    put(DCM_PixelIntensityRelationship, "LOG");
    data_.putAndInsertSint16(DCM_PixelIntensityRelationshipSign,
                             static_cast<Sint16>(inverse() ? 1 : -1));
    put(DCM_BurnedInAnnotation, "NO");
    put(DCM_LossyImageCompression, "00");
  }

  void detector() {
    put(DCM_DetectorType, "SCINTILLATOR");
    put(DCM_DetectorConfiguration, "AREA");
    put(DCM_DetectorID, "INVENTED-1");
    put(DCM_PositionerType, "NONE");
    put(DCM_KVP, "68");
    put(DCM_FocalSpots, decimal(shot_.focal_spot_mm));
    put(DCM_ExposureTime, "40");
    put(DCM_Exposure, "2");
  }

  void spacing(SpacingNote note) {
    const double magnification = Camera(shot_).magnification();
    const auto both = [&](double divisor) {
      return pair_of(fmt::format("{:.8g}", shot_.spacing_y_mm / divisor),
                     fmt::format("{:.8g}", shot_.spacing_x_mm / divisor));
    };
    if (note != SpacingNote::none)
      put(DCM_ImagerPixelSpacing, both(1));
    if (note == SpacingNote::equal_pixel)
      put(DCM_PixelSpacing, both(1));
    if (note == SpacingNote::fiducial || note == SpacingNote::geometry ||
        note == SpacingNote::untyped)
      put(DCM_PixelSpacing, both(magnification));
    if (note == SpacingNote::fiducial) {
      put(DCM_PixelSpacingCalibrationType, "FIDUCIAL");
      put(DCM_PixelSpacingCalibrationDescription, "25 mm ball in the plane of interest");
    }
    if (note == SpacingNote::geometry) {
      put(DCM_PixelSpacingCalibrationType, "GEOMETRY");
      put(DCM_PixelSpacingCalibrationDescription, "from source and object distances");
    }
  }

  void distances(DistanceNote note) {
    if (note == DistanceNote::none)
      return;
    put(DCM_DistanceSourceToDetector, decimal(shot_.source_to_detector_mm));
    if (note != DistanceNote::both)
      return;
    put(DCM_DistanceSourceToPatient,
        decimal(shot_.source_to_detector_mm - shot_.plane_to_detector_mm));
    put(DCM_EstimatedRadiographicMagnificationFactor, decimal(Camera(shot_).magnification()));
  }

private:
  void put(const DcmTagKey& tag, const OFString& value) {
    data_.putAndInsertOFStringArray(tag, value);
  }

  void code(const DcmTagKey& sequence, const Code& c) {
    DcmItem* item = nullptr;
    if (data_.findOrCreateSequenceItem(sequence, item, -2).bad())
      return;
    item->putAndInsertString(DCM_CodeValue, c.value);
    item->putAndInsertString(DCM_CodingSchemeDesignator, c.scheme);
    item->putAndInsertString(DCM_CodeMeaning, c.meaning);
  }

  void empty_sequence(const DcmTagKey& tag) { data_.insertEmptyElement(tag); }

  void empty_modifier(const DcmTagKey& sequence, const DcmTagKey& modifier) {
    DcmItem* item = nullptr;
    if (data_.findAndGetSequenceItem(sequence, item).good())
      item->insertEmptyElement(modifier);
  }

  [[nodiscard]] bool inverse() const { return shot_.polarity == Polarity::monochrome1; }
  [[nodiscard]] const char* side() const { return foot_.parameters.side == Side::left ? "L" : "R"; }
  [[nodiscard]] const char* word_side() const {
    return foot_.parameters.side == Side::left ? "Left" : "Right";
  }
  [[nodiscard]] const char* word_limb() const {
    return foot_.parameters.limb == Limb::fore ? "fore" : "hind";
  }
  [[nodiscard]] const char* view_position() const {
    return shot_.view == View::lateromedial ? "LM" : "DP";
  }
  [[nodiscard]] const char* word_view() const {
    if (shot_.view == View::lateromedial)
      return "lateromedial";
    return foot_.parameters.limb == Limb::fore ? "dorsopalmar" : "dorsoplantar";
  }

  /// Letters of the direction of rows to the right, then of columns downwards (quadruped).
  [[nodiscard]] const char* patient_orientation() const {
    const bool right = shot_.facing == Facing::right;
    if (shot_.view == View::dorsopalmar)
      return right ? "L\\DI" : "M\\DI";
    if (right)
      return "D\\DI";
    return foot_.parameters.limb == Limb::fore ? "PA\\DI" : "PL\\DI";
  }

  DcmDataset& data_;
  const Film& film_;
  const Foot& foot_;
  const Shot& shot_;
};

struct JpegRegistered {
  JpegRegistered() { DJEncoderRegistration::registerCodecs(); }
  ~JpegRegistered() { DJEncoderRegistration::cleanup(); }
  JpegRegistered(const JpegRegistered&) = delete;
  JpegRegistered(JpegRegistered&&) = delete;
  JpegRegistered& operator=(const JpegRegistered&) = delete;
  JpegRegistered& operator=(JpegRegistered&&) = delete;
};

Result<void> save(DcmFileFormat& file, const std::filesystem::path& path, Packing packing) {
  E_TransferSyntax syntax = EXS_LittleEndianExplicit;
  const JpegRegistered registered;
  if (packing == Packing::lossless) {
    syntax = EXS_JPEGProcess14SV1;
    const DJ_RPLossless parameters;
    if (file.getDataset()->chooseRepresentation(syntax, &parameters).bad())
      return fail(path.string(), "could not be packed", "write it raw", Trouble::outside);
  }
  const OFCondition saved = file.saveFile(path.c_str(), syntax);
  if (saved.bad())
    return fail(path.string(),
                std::string("could not be written: ") + saved.text(),
                "check the folder and the disk",
                Trouble::outside);
  return {};
}

} // namespace

std::string identifier(std::uint64_t seed, const std::string& purpose) {
  std::uint64_t high = seed;
  for (const char c : purpose)
    high = mixed(high, static_cast<unsigned char>(c));
  const std::uint64_t low = mixed(high, 77);
  // Form of a random UUID (version 4), as an identifier under 2.25 has to be.
  high = (high & ~0xF000ULL) | 0x4000ULL;
  const std::uint64_t variant = (low & ~(3ULL << 62)) | (2ULL << 62);
  std::string digits;
  std::uint64_t words[4] = {high >> 32, high & 0xFFFFFFFFU, variant >> 32, variant & 0xFFFFFFFFU};
  while ((words[0] | words[1] | words[2] | words[3]) != 0) {
    std::uint64_t rest = 0;
    for (std::uint64_t& w : words) {
      const std::uint64_t value = (rest << 32) | w;
      w = value / 10;
      rest = value % 10;
    }
    digits.insert(digits.begin(), static_cast<char>('0' + rest));
  }
  return "2.25." + digits;
}

Result<void> write_dicom(const std::filesystem::path& path,
                         const Film& film,
                         const Foot& foot,
                         const Shot& shot,
                         const Horse& horse,
                         const Occasion& occasion,
                         const DicomOptions& options) {
  DcmFileFormat file;
  Writer writer{*file.getDataset(), film, foot, shot};
  writer.patient(horse);
  writer.study(occasion);
  writer.view();
  writer.pixels();
  writer.detector();
  writer.spacing(options.spacing);
  writer.distances(options.distances);
  return save(file, path, options.packing);
}

} // namespace pritchel::phantom

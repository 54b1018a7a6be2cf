#include "imaging/character_sets.h"
#include "imaging/load.h"

#include <catch2/catch.hpp>

#include "manifest.h"

using namespace pritchel;
using namespace pritchel::imaging;

// Truth: DICOM PS3.5 annexes H.3.1, H.3.2, I.2, J.3 (bytes and characters printed there)
TEST_CASE("names of the standard's own examples read right", "[imaging]") {
  CHECK(to_utf8(
            "Yamada^Tarou=\x1B$B;3ED\x1B(B^\x1B$BB@O:\x1B(B=\x1B$B$d$^$@\x1B(B^\x1B$B$?$m$&\x1B(B",
            "\\ISO 2022 IR 87") == "Yamada^Tarou=山田^太郎=やまだ^たろう");
  CHECK(to_utf8("\xD4\xCF\xC0\xDE^\xC0\xDB\xB3=\x1B$B;3ED\x1B(J^\x1B$BB@O:\x1B(J="
                "\x1B$B$d$^$@\x1B(J^\x1B$B$?$m$&\x1B(J",
                "ISO 2022 IR 13\\ISO 2022 IR 87") == "ﾔﾏﾀﾞ^ﾀﾛｳ=山田^太郎=やまだ^たろう");
  CHECK(to_utf8("Hong^Gildong=\x1B$)C\xFB\xF3^\x1B$)C\xD1\xCE\xD4\xD7=\x1B$)C\xC8\xAB^\x1B$)"
                "C\xB1\xE6\xB5\xBF",
                "\\ISO 2022 IR 149") == "Hong^Gildong=洪^吉洞=홍^길동");
  CHECK(to_utf8("Wang^XiaoDong=\xCD\xF5^\xD0\xA1\xB6\xAB=", "GB18030") == "Wang^XiaoDong=王^小东=");
  CHECK(to_utf8("Buc^J\xE9r\xF4me", "ISO_IR 100") == "Buc^Jérôme");
}

// Truth: ISO/IEC 8859-5, 8859-7 code tables
TEST_CASE("single-byte sets and UTF-8 read right", "[imaging]") {
  CHECK(to_utf8("\xBB\xDE\xE8\xD0\xD4\xEC", "ISO_IR 144") == "Лошадь");
  CHECK(to_utf8("\xD7\xF0\xF0\xEF\xF2", "ISO_IR 126") == "Χππος");
  CHECK(to_utf8("Schl\xC3\xB6sser", "ISO_IR 192") == "Schlösser");
}

// Truth: law: whatever comes in, valid UTF-8 without control characters comes out
TEST_CASE("unreadable bytes become the replacement character, controls vanish", "[imaging]") {
  CHECK(to_utf8("a\xFF"
                "b",
                "ISO_IR 192") == "a\uFFFDb");
  CHECK(to_utf8("a\xE9", "") == "a\uFFFD");
  CHECK(to_utf8("two\r\nlines\x07", "ISO_IR 100") == "twolines");
  CHECK(to_utf8("\x1B", "\\ISO 2022 IR 87").empty());
  CHECK(to_utf8("x", "NO SUCH SET") == "x");
}

// Truth: dcmdump (DCMTK) on the same file
TEST_CASE("facts of a header are found", "[imaging]") {
  const auto picture = load_picture_file(truth::kept_files().folder / "MR_small.dcm");
  REQUIRE(picture);
  CHECK(picture->facts.modality == "MR");
  CHECK(picture->facts.patient_name == "CompressedSamples^MR1");
  CHECK(picture->facts.patient_id == "4MR1");
  CHECK(picture->facts.study_date == "2004-08-26");
  CHECK_FALSE(picture->facts.laterality);
  CHECK_FALSE(picture->facts.lossy);
}

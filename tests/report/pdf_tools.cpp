#include "pdf_tools.h"

#define POINTERHOLDER_TRANSITION 4

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFAcroFormDocumentHelper.hh>
#include <qpdf/QPDFFormFieldObjectHelper.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <qpdf/QPDFWriter.hh>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>

namespace pdf_tools {
namespace {

/// ISO 32000-1, 8.3.4 and 8.5.2: current matrix and path operators, as far as straight lines need.
class Segments : public QPDFObjectHandle::ParserCallbacks {
public:
  explicit Segments(double height_pt)
      : height_pt_(height_pt) {}

  void handleObject(QPDFObjectHandle object) override {
    if (!object.isOperator()) {
      operands_.push_back(object.isNumber() ? object.getNumericValue() : 0.0);
      return;
    }
    apply(object.getOperatorValue());
    operands_.clear();
  }
  void handleEOF() override {}

  std::vector<Segment> found;

private:
  using Matrix = std::array<double, 6>;
  struct Place {
    double x = 0, y = 0;
  };
  double height_pt_;
  std::vector<double> operands_;
  std::vector<Matrix> kept_;
  Matrix now_{1, 0, 0, 1, 0, 0};
  std::vector<Segment> path_;
  Place start_, last_;

  [[nodiscard]] Place on_page(double x, double y) const {
    constexpr double mm = 25.4 / 72;
    return {(now_[0] * x + now_[2] * y + now_[4]) * mm,
            (height_pt_ - (now_[1] * x + now_[3] * y + now_[5])) * mm};
  }

  void line_to(Place to) {
    path_.push_back({last_.x, last_.y, to.x, to.y});
    last_ = to;
  }

  void apply(const std::string& op) {
    const auto& v = operands_;
    if (op == "q") {
      kept_.push_back(now_);
    } else if (op == "Q") {
      now_ = kept_.back();
      kept_.pop_back();
    } else if (op == "cm") {
      const Matrix a = now_;
      now_ = {a[0] * v[0] + a[2] * v[1],
              a[1] * v[0] + a[3] * v[1],
              a[0] * v[2] + a[2] * v[3],
              a[1] * v[2] + a[3] * v[3],
              a[0] * v[4] + a[2] * v[5] + a[4],
              a[1] * v[4] + a[3] * v[5] + a[5]};
    } else if (op == "m") {
      start_ = last_ = on_page(v[0], v[1]);
    } else if (op == "l") {
      line_to(on_page(v[0], v[1]));
    } else if (op == "c") {
      last_ = on_page(v[4], v[5]);
    } else if (op == "h") {
      line_to(start_);
    } else if (op == "S" || op == "s") {
      if (op == "s")
        line_to(start_);
      found.insert(found.end(), path_.begin(), path_.end());
      path_.clear();
    } else if (op == "n" || op == "f" || op == "f*" || op == "B") {
      path_.clear();
    }
  }
};

} // namespace

File::File(const std::vector<char>& bytes) {
  static int count = 0;
  path_ = (std::filesystem::temp_directory_path() /
           ("pritchel-paper-" + std::to_string(getpid()) + "-" + std::to_string(++count) + ".pdf"))
              .string();
  std::ofstream(path_, std::ios::binary)
      .write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

File::~File() {
  std::error_code ignored;
  std::filesystem::remove(path_, ignored);
}

Answer run(const std::string& command) {
  Answer answer;
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  std::array<char, 4096> buffer{};
  for (std::size_t got = 0; (got = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;)
    answer.text.append(buffer.data(), got);
  answer.exit_code = WEXITSTATUS(pclose(pipe));
  return answer;
}

std::vector<std::string> pages(const std::vector<char>& pdf) {
  const File file(pdf);
  std::vector<std::string> found;
  std::stringstream all(run("pdftotext -layout -enc UTF-8 " + file.path() + " -").text);
  for (std::string page; std::getline(all, page, '\f');)
    found.push_back(page);
  return found;
}

std::vector<Word> words(const std::vector<char>& pdf) {
  const File file(pdf);
  std::stringstream all(run("pdftotext -bbox -enc UTF-8 " + file.path() + " -").text);
  const std::regex page_line("<page width=\"([0-9.]+)\" height=\"([0-9.]+)\">");
  const std::regex word_line("<word xMin=\"(-?[0-9.]+)\" yMin=\"(-?[0-9.]+)\" xMax=\"(-?[0-9.]+)\" "
                             "yMax=\"(-?[0-9.]+)\">(.*)</word>");
  std::vector<Word> found;
  Word word;
  std::smatch match;
  for (std::string line; std::getline(all, line);) {
    if (std::regex_search(line, match, page_line)) {
      ++word.page;
      word.page_width = std::stod(match[1]);
      word.page_height = std::stod(match[2]);
    } else if (std::regex_search(line, match, word_line)) {
      word.left = std::stod(match[1]);
      word.top = std::stod(match[2]);
      word.right = std::stod(match[3]);
      word.bottom = std::stod(match[4]);
      word.text = match[5];
      found.push_back(word);
    }
  }
  return found;
}

std::vector<Segment> segments(const std::vector<char>& pdf, int page) {
  QPDF document;
  document.processMemoryFile("paper", pdf.data(), pdf.size());
  auto helper =
      QPDFPageDocumentHelper(document).getAllPages().at(static_cast<std::size_t>(page - 1));
  Segments reader(helper.getMediaBox().getArrayItem(3).getNumericValue());
  helper.parseContents(&reader);
  return std::move(reader.found);
}

std::string viewer_preference(const std::vector<char>& pdf, const std::string& key) {
  QPDF document;
  document.processMemoryFile("paper", pdf.data(), pdf.size());
  auto preferences = document.getRoot().getKey("/ViewerPreferences");
  return preferences.isDictionary() && preferences.hasKey(key) ? preferences.getKey(key).unparse()
                                                               : std::string();
}

Grey rastered(const std::vector<char>& pdf, int page, int dots_per_inch) {
  if (run("pdftoppm -v").exit_code != 0)
    return {};
  const File file(pdf);
  const auto stem = file.path() + "-page";
  const auto number = std::to_string(page);
  (void)run("pdftoppm -gray -singlefile -r " + std::to_string(dots_per_inch) + " -f " + number +
            " -l " + number + " " + file.path() + " " + stem);
  Grey grey;
  std::ifstream in(stem + ".pgm", std::ios::binary);
  std::string kind;
  int most = 0;
  in >> kind >> grey.columns >> grey.rows >> most;
  in.get();
  grey.pixels.resize(static_cast<std::size_t>(grey.columns) * static_cast<std::size_t>(grey.rows));
  in.read(reinterpret_cast<char*>(grey.pixels.data()),
          static_cast<std::streamsize>(grey.pixels.size()));
  std::error_code ignored;
  std::filesystem::remove(stem + ".pgm", ignored);
  return grey;
}

std::vector<char> filled(const std::vector<char>& pdf,
                         const std::map<std::string, std::string>& values) {
  QPDF document;
  document.processMemoryFile("paper", pdf.data(), pdf.size());
  for (auto& field : QPDFAcroFormDocumentHelper(document).getFormFields()) {
    const auto value = values.find(field.getFullyQualifiedName());
    if (value == values.end())
      continue;
    if (field.isRadioButton())
      field.setV(QPDFObjectHandle::newName("/" + value->second));
    else
      field.setV(value->second);
  }
  QPDFWriter writer(document);
  writer.setOutputMemory();
  writer.write();
  const auto buffer = writer.getBufferSharedPointer();
  const auto* data = reinterpret_cast<const char*>(buffer->getBuffer());
  return {data, data + buffer->getSize()};
}

} // namespace pdf_tools

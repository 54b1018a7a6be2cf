/// Other programs that read the paper: pdftotext, pdffonts (Poppler) and qpdf.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace pdf_tools {

/// A PDF on disk for as long as this lives.
class File {
public:
  explicit File(const std::vector<char>& bytes);
  ~File();
  File(const File&) = delete;
  File& operator=(const File&) = delete;
  File(File&&) = delete;
  File& operator=(File&&) = delete;
  [[nodiscard]] const std::string& path() const { return path_; }

private:
  std::string path_;
};

struct Answer {
  int exit_code = 0;
  std::string text; ///< standard output and error
};
[[nodiscard]] Answer run(const std::string& command);

/// Text of each page.
[[nodiscard]] std::vector<std::string> pages(const std::vector<char>& pdf);

struct Word {
  int page = 0;
  double left = 0, top = 0, right = 0, bottom = 0; ///< points from the top left corner
  double page_width = 0, page_height = 0;
  std::string text;
};
[[nodiscard]] std::vector<Word> words(const std::vector<char>& pdf);

/// A straight piece of a stroked path, in mm from the page's top left corner.
struct Segment {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
};
/// All of a page's own content (from page 1), by QPDF's parser; curves are left out.
[[nodiscard]] std::vector<Segment> segments(const std::vector<char>& pdf, int page);

/// An entry of the document's ViewerPreferences, "" without one.
[[nodiscard]] std::string viewer_preference(const std::vector<char>& pdf, const std::string& key);

/// A page as grey pixels, by pdftoppm; empty when that program isn't there.
struct Grey {
  int columns = 0;
  int rows = 0;
  std::vector<unsigned char> pixels;
  [[nodiscard]] int at(int x, int y) const {
    return pixels[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns) +
                  static_cast<std::size_t>(x)];
  }
};
[[nodiscard]] Grey rastered(const std::vector<char>& pdf, int page, int dots_per_inch);

/// The PDF with its fields filled in and its radio buttons pressed, by QPDF.
[[nodiscard]] std::vector<char> filled(const std::vector<char>& pdf,
                                       const std::map<std::string, std::string>& values);

} // namespace pdf_tools

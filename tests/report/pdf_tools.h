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

/// The PDF with its fields filled in and its radio buttons pressed, by QPDF.
[[nodiscard]] std::vector<char> filled(const std::vector<char>& pdf,
                                       const std::map<std::string, std::string>& values);

} // namespace pdf_tools

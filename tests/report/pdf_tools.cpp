#include "pdf_tools.h"

#define POINTERHOLDER_TRANSITION 4

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFAcroFormDocumentHelper.hh>
#include <qpdf/QPDFFormFieldObjectHelper.hh>
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

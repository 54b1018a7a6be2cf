/// What a test looks for in a finished paper. Header only.
#pragma once

#include "report/report.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "pdf_tools.h"

namespace paper_text {

inline std::vector<char> paper_of(const pritchel::report::ReportInput& input) {
  const auto made = pritchel::report::make_report(input);
  INFO((made ? std::string() : made.error().sentence()));
  REQUIRE(made);
  return *made;
}

inline bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

inline std::string all_text(const std::vector<char>& pdf) {
  std::string text;
  for (const auto& page : pdf_tools::pages(pdf))
    text += page;
  return text;
}

/// With every run of spaces and line breaks as one space: what a sentence is looked for in.
inline std::string running_text(const std::vector<char>& pdf) {
  std::string text;
  for (const char c : all_text(pdf)) {
    const bool space = c == ' ' || c == '\n' || c == '\f';
    if (!space)
      text += c;
    else if (!text.empty() && text.back() != ' ')
      text += ' ';
  }
  return text;
}

/// A page's words with one space between: sentences that stand beside a drawing, too.
inline std::string sentences_of(const std::vector<pdf_tools::Word>& words, int page) {
  std::string text;
  for (const auto& word : words)
    if (word.page == page)
      text += (text.empty() ? "" : " ") + word.text;
  return text;
}

inline void check_margins(const std::vector<pdf_tools::Word>& words) {
  constexpr double margin = 15 * 72 / 25.4, rounding = 0.5; // points
  for (const auto& word : words) {
    INFO(word.page << " " << word.text);
    CHECK(word.left >= margin - rounding);
    CHECK(word.right <= word.page_width - margin + rounding);
    CHECK(word.top >= margin - 2); // a line's ascent reaches above its letters
    CHECK(word.bottom <= word.page_height - margin + rounding);
  }
}

inline void check_no_word_over_another(const std::vector<pdf_tools::Word>& words) {
  constexpr double slack = 1.0; // points: boxes are as high as the line, letters are not
  for (std::size_t i = 0; i < words.size(); ++i)
    for (std::size_t j = i + 1; j < words.size() && words[j].page == words[i].page; ++j) {
      const double across =
          std::min(words[i].right, words[j].right) - std::max(words[i].left, words[j].left);
      const double middle_i = (words[i].top + words[i].bottom) / 2;
      const double middle_j = (words[j].top + words[j].bottom) / 2;
      const double half =
          std::min(words[i].bottom - words[i].top, words[j].bottom - words[j].top) / 2;
      if (across > slack && std::abs(middle_i - middle_j) < half) {
        INFO("page " << words[i].page << ": " << words[i].text << " / " << words[j].text);
        CHECK(false);
      }
    }
}

} // namespace paper_text

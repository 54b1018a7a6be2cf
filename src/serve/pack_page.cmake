# cmake -DFOLDER=... -DOUT=... -P pack_page.cmake: writes a C++ source that holds every file of the page.
file(GLOB_RECURSE files RELATIVE ${FOLDER} ${FOLDER}/*.html ${FOLDER}/*.css ${FOLDER}/*.js ${FOLDER}/*.svg)
list(SORT files)
set(arrays "")
set(rows "")
set(number 0)
foreach(file IN LISTS files)
  file(READ ${FOLDER}/${file} hex HEX)
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "'\\\\x\\1'," bytes "${hex}")
  # The closing zero keeps an empty file's array from being empty.
  string(APPEND arrays "constexpr char file_${number}[] = {${bytes}'\\0'};\n")
  string(APPEND rows "    {\"${file}\", {file_${number}, sizeof file_${number} - 1}},\n")
  math(EXPR number "${number} + 1")
endforeach()
file(WRITE ${OUT} "// Written by serve/pack_page.cmake.
#include \"serve/page_files.h\"

namespace pritchel::serve {
namespace {
${arrays}
constexpr PageFile files[] = {
${rows}};
} // namespace

std::span<const PageFile> packed_page() { return files; }

} // namespace pritchel::serve
")

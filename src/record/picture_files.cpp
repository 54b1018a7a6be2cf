#include "record/picture_files.h"

#include "base/digest.h"
#include "base/limits.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <iterator>
#include <system_error>

namespace pritchel::record {
namespace {

/// An open file descriptor that closes itself.
class Descriptor {
public:
  explicit Descriptor(int number)
      : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  Descriptor(Descriptor&&) = delete;
  Descriptor& operator=(Descriptor&&) = delete;
  ~Descriptor() {
    if (number_ >= 0)
      ::close(number_);
  }
  [[nodiscard]] int number() const { return number_; }
  [[nodiscard]] bool is_open() const { return number_ >= 0; }

private:
  int number_;
};

tl::unexpected<Error> cannot_write(const std::filesystem::path& folder) {
  return fail("The picture",
              "cannot be kept in " + folder.string() + ": " + std::strerror(errno),
              "check the folder's rights and the free space",
              Trouble::outside);
}

bool write_all(int descriptor, std::span<const char> bytes) {
  while (!bytes.empty()) {
    const auto written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR)
      continue;
    if (written <= 0)
      return false;
    bytes = bytes.subspan(static_cast<std::size_t>(written));
  }
  return ::fsync(descriptor) == 0;
}

bool sync_folder(const std::filesystem::path& folder) {
  const Descriptor opened(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  return opened.is_open() && ::fsync(opened.number()) == 0;
}

std::filesystem::path temporary_name(const std::filesystem::path& folder,
                                     const std::string& digest) {
  static std::atomic<unsigned> count{0};
  return folder / fmt::format("{}.{}.{}.part", digest, ::getpid(), count++);
}

Result<void> write_file(const std::filesystem::path& folder,
                        const std::string& digest,
                        std::span<const char> bytes) {
  const auto part = temporary_name(folder, digest);
  bool whole = false;
  {
    const Descriptor opened(::open(part.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0644));
    whole = opened.is_open() && write_all(opened.number(), bytes);
  }
  if (whole && ::rename(part.c_str(), (folder / digest).c_str()) == 0 && sync_folder(folder))
    return {};
  auto error = cannot_write(folder);
  ::unlink(part.c_str());
  return error;
}

std::vector<char> bytes_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

} // namespace

Result<std::string> keep_picture(const std::filesystem::path& folder, std::span<const char> bytes) {
  if (bytes.size() > limits::picture_file_bytes)
    return fail("The picture",
                "is too large",
                fmt::format("{} MB are the limit", limits::picture_file_bytes / 1024 / 1024),
                Trouble::too_large);
  const auto digest = sha256_hex(bytes);
  if (sha256_hex(bytes_of(folder / digest)) != digest)
    PRITCHEL_CHECK(write_file(folder, digest, bytes));
  return digest;
}

Result<std::vector<char>> kept_picture(const std::filesystem::path& folder,
                                       const std::string& digest) {
  std::error_code error;
  if (!is_sha256_hex(digest) || !std::filesystem::is_regular_file(folder / digest, error))
    return fail("The picture", "is not in this store", "add it first", Trouble::not_found);
  auto bytes = bytes_of(folder / digest);
  if (sha256_hex(bytes) != digest)
    return fail("The picture " + digest,
                "was changed or damaged after it was kept",
                "add the original again",
                Trouble::outside);
  return bytes;
}

} // namespace pritchel::record

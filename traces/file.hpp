// SPDX-License-Identifier: MIT
// Files appear whole or not at all: written under another name in the same directory, forced to
// the disk, then renamed.
#pragma once
#include <filesystem>
#include <memory>
#include <ostream>
#include <stdexcept>
#include <string>
#include <string_view>

namespace noonbench::traces {

/// The machine refused: which file, which step, and the system's own words.
class FileError : public std::runtime_error {
  public:
    FileError(const std::filesystem::path& file, std::string_view step, int error_number);
};

/// A file in the making. Whatever stood under `target` stays until commit() has succeeded; without
/// a commit the destructor removes the temporary file. Every function but the destructor throws
/// FileError.
class WholeFile {
  public:
    explicit WholeFile(std::filesystem::path target);
    WholeFile(const WholeFile&) = delete;
    WholeFile& operator=(const WholeFile&) = delete;
    ~WholeFile();

    /// Buffered; a refused write shows at commit() at the latest.
    [[nodiscard]] std::ostream& stream();
    /// For libraries that write by path: the empty temporary file, to be overwritten.
    [[nodiscard]] const std::filesystem::path& temporary() const;
    void commit();

  private:
    class Descriptor;
    std::unique_ptr<Descriptor> descriptor_;
    std::filesystem::path target_;
};

/// The whole content at once.
void write_whole(const std::filesystem::path& target, std::string_view content);

}  // namespace noonbench::traces

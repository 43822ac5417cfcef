// SPDX-License-Identifier: MIT
// A folder for what a test writes.
#pragma once
#include <unistd.h>
#include <filesystem>
#include <fstream>
#include <string>
#include <system_error>

namespace noonbench::testing {

/// An empty folder of its own, removed with it. Named after process and count, so that tests side
/// by side never meet.
class ScratchFolder {
  public:
    ScratchFolder() {
        static int count = 0;
        path_ = std::filesystem::temp_directory_path() /
                ("noonbench-" + std::to_string(getpid()) + "-" + std::to_string(++count));
        std::filesystem::remove_all(path_);
        std::filesystem::create_directories(path_);
    }
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;
    ~ScratchFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
        return path_ / name;
    }
    /// Makes the folders on the way.
    std::filesystem::path write(const std::string& name, const std::string& text) const {
        std::filesystem::create_directories((path_ / name).parent_path());
        std::ofstream(path_ / name, std::ios::binary) << text;
        return path_ / name;
    }

  private:
    std::filesystem::path path_;
};

}  // namespace noonbench::testing

// SPDX-License-Identifier: MIT
#include "file.hpp"

#include <fcntl.h>
#include <unistd.h>
#include <array>
#include <cerrno>
#include <streambuf>
#include <system_error>

namespace noonbench::traces {
namespace {

std::string sentence(const std::filesystem::path& file, std::string_view step, int error_number) {
    return file.string() + ": cannot " + std::string(step) + ": " +
           std::generic_category().message(error_number);
}

/// Remembers the first error number of a refused write, which iostreams themselves forget.
class DescriptorBuffer : public std::streambuf {
  public:
    explicit DescriptorBuffer(int descriptor) : descriptor_(descriptor) {
        setp(bytes_.data(), bytes_.data() + bytes_.size());
    }
    [[nodiscard]] int error_number() const { return error_number_; }

  protected:
    int overflow(int c) override {
        if (sync() != 0) return traits_type::eof();
        if (c != traits_type::eof()) sputc(static_cast<char>(c));
        return traits_type::not_eof(c);
    }
    int sync() override {
        const char* from = pbase();
        while (from < pptr() && error_number_ == 0) {
            const ssize_t n = ::write(descriptor_, from, static_cast<std::size_t>(pptr() - from));
            if (n >= 0) {
                from += n;
            } else if (errno != EINTR) {
                error_number_ = errno;
            }
        }
        setp(bytes_.data(), bytes_.data() + bytes_.size());
        return error_number_ == 0 ? 0 : -1;
    }

  private:
    int descriptor_;
    int error_number_ = 0;
    std::array<char, 65536> bytes_{};
};

void sync_directory_of(const std::filesystem::path& target) {
    auto directory = target.parent_path();
    if (directory.empty()) directory = ".";
    const int descriptor = ::open(directory.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (descriptor < 0) return;  // the file itself is safe; some systems refuse this
    ::fsync(descriptor);
    ::close(descriptor);
}

}  // namespace

FileError::FileError(const std::filesystem::path& file, std::string_view step, int error_number)
    : std::runtime_error(sentence(file, step, error_number)) {}

class WholeFile::Descriptor {
  public:
    Descriptor(int number, std::filesystem::path path)
        : number_(number), path_(std::move(path)), buffer_(number), stream_(&buffer_) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() {
        ::close(number_);
        if (!renamed_) ::unlink(path_.c_str());
    }

    std::ostream& stream() { return stream_; }
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

    void commit_to(const std::filesystem::path& target) {
        stream_.flush();
        if (buffer_.error_number() != 0) throw FileError(target, "write", buffer_.error_number());
        if (::fsync(number_) != 0) throw FileError(target, "force to the disk", errno);
        if (::rename(path_.c_str(), target.c_str()) != 0) {
            throw FileError(target, "put in its place", errno);
        }
        renamed_ = true;
        sync_directory_of(target);
    }

  private:
    int number_;
    std::filesystem::path path_;
    DescriptorBuffer buffer_;
    std::ostream stream_;
    bool renamed_ = false;
};

WholeFile::WholeFile(std::filesystem::path target) : target_(std::move(target)) {
    // A new name each time, so that two writers never share one; 0666 leaves the rest to umask.
    for (int attempt = 0; attempt < 1000; ++attempt) {
        auto path = target_;
        path += ".part" + std::to_string(attempt);
        const int number = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (number >= 0) {
            descriptor_ = std::make_unique<Descriptor>(number, std::move(path));
            return;
        }
        if (errno != EEXIST) break;
    }
    throw FileError(target_, "create", errno);
}

WholeFile::~WholeFile() = default;

std::ostream& WholeFile::stream() {
    return descriptor_->stream();
}
const std::filesystem::path& WholeFile::temporary() const {
    return descriptor_->path();
}
void WholeFile::commit() {
    descriptor_->commit_to(target_);
}

void write_whole(const std::filesystem::path& target, std::string_view content) {
    WholeFile file(target);
    file.stream().write(content.data(), static_cast<std::streamsize>(content.size()));
    file.commit();
}

}  // namespace noonbench::traces

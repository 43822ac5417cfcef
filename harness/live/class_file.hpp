// SPDX-License-Identifier: MIT
// A class on the disk: one SQLite file, each decision in it before it is answered. A program that
// was killed finds its class, its seats and their runs again. A file that is not one of these is
// refused and left as it is.
#pragma once
#include "class_keeper.hpp"

#include <filesystem>
#include <memory>

namespace noonbench::harness {

class ClassFile final : public ClassKeeper {
  public:
    /// Nothing is written before there is a class to keep. A file that is there is looked at now:
    /// throws InputRefused if it is no class file, of another layout, damaged, or held by another
    /// program.
    explicit ClassFile(std::filesystem::path file);
    ~ClassFile() override;

    [[nodiscard]] std::optional<KeptAll> all() override;
    void keep(const KeptClass& of_class) override;
    void keep(const std::vector<KeptSeat>& seats) override;
    void forget_seat(const std::string& name) override;
    void forget() override;

  private:
    class Database;
    Database& opened();

    std::filesystem::path file_;
    std::unique_ptr<Database> database_;
};

}  // namespace noonbench::harness

// SPDX-License-Identifier: MIT
// Puts the firmware that it is linked with through every proving file of a folder.
//   find_defect FOLDER                    nothing may be found (the sound firmware)
//   find_defect FOLDER TEST MEASUREMENT   this measurement of this file has to be among what is
//   found
// Exit code 0: as asked for. Prints what was found, one line a measurement.
#include "harness/prove/firmware_device.hpp"
#include "harness/prove/prove.hpp"
#include "harness/prove/read_proving.hpp"

#include <algorithm>
#include <exception>
#include <filesystem>
#include <iostream>
#include <string>
#include <vector>

namespace {

using namespace noonbench::harness;

std::vector<std::filesystem::path> files_in(const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() == ".yaml") files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    return files;
}

struct Found {
    std::string test;
    std::string measurement;
};

std::vector<Found> found_in(const std::vector<std::filesystem::path>& files) {
    std::vector<Found> found;
    for (const auto& file : files) {
        const TestResult result = prove(read_proving(file), make_firmware_device);
        for (const MeasuredLine& line : lines_of(result.measurements)) {
            if (line.standing() == Standing::within) continue;
            const Measurement& m = line.first();
            std::cout << result.test.name << ": " << m.name << ", " << m.where << ": set "
                      << value_text(m, m.set) << ", measured " << line.measured_text() << " ("
                      << words_of(line.standing()) << ")\n";
            found.push_back({result.test.name, m.name});
        }
    }
    return found;
}

int look(int argc, char** argv) {
    if (argc != 2 && argc != 4) {
        std::cerr << "find_defect FOLDER [TEST MEASUREMENT]\n";
        return 2;
    }
    const auto files = files_in(argv[1]);
    if (files.empty()) {
        std::cerr << argv[1] << " holds no proving file\n";
        return 2;
    }
    const std::vector<Found> found = found_in(files);
    std::cout << found.size() << " lines not within, of " << files.size() << " proving files\n";
    if (argc == 2) return found.empty() ? 0 : 1;
    const bool by_this = std::any_of(found.begin(), found.end(), [&](const Found& f) {
        return f.test == argv[2] && f.measurement == argv[3];
    });
    if (!by_this) std::cout << "but not: " << argv[2] << ": " << argv[3] << "\n";
    return by_this ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
    try {
        return look(argc, argv);
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return 3;
    }
}

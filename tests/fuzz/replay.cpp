// Gives every file of a folder to a fuzzing target, once: what was found stays found in the
// ordinary run, which has no libFuzzer. What is wrong aborts, as it does under the fuzzer.
#include <cstdint>
#include <cstdio>
#include <filesystem>

#include "base/text.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

int main(int count, char** words) {
    int given = 0;
    for (const auto& item : std::filesystem::directory_iterator(count == 2 ? words[1] : ".")) {
        const auto bytes = holdpin::read_file(item.path().string());
        if (!bytes) return 1;
        std::printf("%s\n", item.path().filename().c_str());
        std::fflush(stdout);
        const auto* data = reinterpret_cast<const std::uint8_t*>(bytes.value().data());
        LLVMFuzzerTestOneInput(data, bytes.value().size());
        ++given;
    }
    return given > 0 ? 0 : 1;
}

#include "cli/jpeg_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "base/text.hpp"
#include "devices/bounded_run.hpp"
#include "picture/png.hpp"

namespace holdpin {
namespace {

constexpr int kMostDrawnSide = 2000;
constexpr int kEighths = 8;
constexpr const char* kMostScans = "200";  // a file of many thousand scans only takes time

// Markers of a JPEG file (ITU-T T.81 table B.1, from memory).
constexpr int kStartOfImage = 0xD8;
constexpr int kStartOfScan = 0xDA;
constexpr int kEndOfImage = 0xD9;

Error no_jpeg(const char* what) {
    return {ErrorKind::invalid, what, "", "save it again as a JPEG, a PNG or a PDF"};
}

int byte_at(std::string_view bytes, std::size_t at) {
    return at < bytes.size() ? static_cast<unsigned char>(bytes[at]) : 0;
}
int two_bytes(std::string_view bytes, std::size_t at) {
    return byte_at(bytes, at) * 256 + byte_at(bytes, at + 1);
}

// Frames that libjpeg-turbo unpacks: baseline, extended, progressive.
bool is_frame(int marker) { return marker >= 0xC0 && marker <= 0xC2; }
bool stands_alone(int marker) { return marker == 0x01 || (marker >= 0xD0 && marker <= 0xD7); }

Result<JpegSize> size_in_frame(std::string_view frame) {
    constexpr std::size_t kHeight = 3;  // after its length and its precision
    constexpr std::size_t kWidth = 5;
    constexpr std::size_t kComponents = 7;
    const JpegSize size{two_bytes(frame, kWidth), two_bytes(frame, kHeight)};
    const int components = byte_at(frame, kComponents);
    if (components != 1 && components != 3) return no_jpeg("its colours are not for a screen");
    if (size.width < 1 || size.height < 1) return no_jpeg("it does not say its size");
    if (std::max(size.width, size.height) > kMostJpegSide) return no_jpeg("it is too large");
    return size;
}

// The next number of a PNM head; what stands before it is blank.
Result<int> number_in(std::string_view bytes, std::size_t& at) {
    constexpr int kMost = 100'000;
    while (at < bytes.size() && (bytes[at] == ' ' || bytes[at] == '\n')) ++at;
    int number = -1;
    for (; at < bytes.size() && bytes[at] >= '0' && bytes[at] <= '9' && number < kMost; ++at) {
        number = std::max(number, 0) * 10 + (bytes[at] - '0');
    }
    if (number < 1 || number > kMost) return no_jpeg("it was not unpacked as a picture");
    return number;
}

}  // namespace

Result<JpegSize> jpeg_size(std::string_view bytes) {
    if (byte_at(bytes, 0) != 0xFF || byte_at(bytes, 1) != kStartOfImage) {
        return no_jpeg("this is no JPEG");
    }
    for (std::size_t at = 2; at + 3 < bytes.size();) {
        if (byte_at(bytes, at) != 0xFF) return no_jpeg("its parts do not follow each other");
        const int marker = byte_at(bytes, at + 1);
        if (marker == 0xFF) {  // filling
            ++at;
        } else if (stands_alone(marker)) {
            at += 2;
        } else if (is_frame(marker)) {
            return size_in_frame(bytes.substr(at + 2));
        } else if (marker == kStartOfScan || marker == kEndOfImage) {
            break;
        } else {
            at += 2 + static_cast<std::size_t>(std::max(2, two_bytes(bytes, at + 2)));
        }
    }
    return no_jpeg("it does not say its size");
}

int jpeg_eighths(JpegSize size) {
    const int side = std::max(size.width, size.height);
    return std::clamp(kMostDrawnSide * kEighths / std::max(side, 1), 1, kEighths);
}

Result<Raster> raster_of_pnm(std::string_view bytes) {
    const bool colours = bytes.starts_with("P6");
    if (!colours && !bytes.starts_with("P5")) return no_jpeg("it was not unpacked as a picture");
    std::size_t at = 2;
    Raster raster;
    raster.width = TRY(number_in(bytes, at));
    raster.height = TRY(number_in(bytes, at));
    const int steps = TRY(number_in(bytes, at));
    ++at;  // one blank ends the head
    const std::size_t pixels =
        static_cast<std::size_t>(raster.width) * static_cast<std::size_t>(raster.height);
    const std::size_t step = colours ? 3 : 1;
    if (steps != 255 || bytes.size() < at || bytes.size() - at != pixels * step) {
        return no_jpeg("it was not unpacked whole");
    }
    raster.rgba.reserve(pixels * 4);
    for (std::size_t i = 0; i < pixels; ++i, at += step) {
        for (std::size_t colour = 0; colour < 3; ++colour) {
            raster.rgba.push_back(
                static_cast<std::uint8_t>(bytes[at + (colours ? colour : 0)]));
        }
        raster.rgba.push_back(255);
    }
    return raster;
}

Result<DrawnSheet> draw_jpeg(const JpegDrawing& drawing) {
    const JpegSize size = TRY(jpeg_size(TRY(read_file(drawing.path))));
    BoundedRun run;
    run.words = {drawing.program, "-strict", "-maxscans", kMostScans, "-pnm", "-scale",
                 fmt::format("{}/{}", jpeg_eighths(size), kEighths), "-outfile", drawing.beside,
                 drawing.path};
    run.time_ms = drawing.time_ms;
    const auto unpacked = run_bounded(run);
    auto picture = read_file(drawing.beside);
    std::error_code ignored;
    std::filesystem::remove(drawing.beside, ignored);
    TRY(unpacked);
    if (!picture) return picture.error();
    const Raster raster = TRY(raster_of_pnm(picture.value()));
    TRY(write_png(drawing.png, raster));
    return DrawnSheet{drawing.png, raster.width, raster.height, 1, 1};
}

}  // namespace holdpin

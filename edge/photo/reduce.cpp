#include "edge/photo/reduce.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <utility>

namespace hw::photo {

namespace {

constexpr std::size_t channels = 3;
// Fine enough that every 8-bit value comes back as itself: one step is 0.2 of a value where the curve is steepest.
constexpr int steps = 16384;

std::array<float, 256> made_linear() {
    std::array<float, 256> out{};
    for (std::size_t i = 0; i < out.size(); ++i) {
        const double v = static_cast<double>(i) / 255;
        out[i] = static_cast<float>(v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4));
    }
    return out;
}

std::vector<std::uint8_t> made_values() {
    std::vector<std::uint8_t> out(steps);
    for (int i = 0; i < steps; ++i) {
        const double l = static_cast<double>(i) / (steps - 1);
        const double v = l <= 0.0031308 ? 12.92 * l : 1.055 * std::pow(l, 1 / 2.4) - 0.055;
        out[static_cast<std::size_t>(i)] = static_cast<std::uint8_t>(std::lround(255 * v));
    }
    return out;
}

std::size_t index(int i) { return static_cast<std::size_t>(i); }

/// Where the pixel that is (x, y) after turning stood before.
std::pair<int, int> before(int orientation, int x, int y, int w, int h) {
    switch (orientation) {
        case 2: return {w - 1 - x, y};
        case 3: return {w - 1 - x, h - 1 - y};
        case 4: return {x, h - 1 - y};
        case 5: return {y, x};
        case 6: return {y, h - 1 - x};
        case 7: return {w - 1 - y, h - 1 - x};
        case 8: return {w - 1 - y, x};
        default: return {x, y};
    }
}

/// How much of a stretch [a, a + a_size) lies in [b, b + b_size).
std::int64_t overlap(std::int64_t a, std::int64_t a_size, std::int64_t b, std::int64_t b_size) { return std::min(a + a_size, b + b_size) - std::max(a, b); }

}  // namespace

float linear_of(std::uint8_t value) {
    static const auto table = made_linear();
    return table[value];
}

std::uint8_t value_of(float linear) {
    static const auto table = made_values();
    return table[static_cast<std::size_t>(std::clamp(linear, 0.0F, 1.0F) * (steps - 1) + 0.5F)];
}

Sides fitted(int width, int height, int longest) {
    const int side = std::max(width, height);
    if (side <= longest) return {width, height};
    const auto scaled = [&](int n) { return std::max(1, static_cast<int>((2LL * n * longest + side) / (2LL * side))); };
    return {scaled(width), scaled(height)};
}

// With n old pixels for m new ones, an old one is m wide and a new one n wide, both counted in 1/m of an old one: whole
// numbers, so that no share is lost.
AreaMean::AreaMean(Sides from, Sides to) : from_(from) {
    out_.width = to.width;
    out_.height = to.height;
    out_.rgb.assign(index(to.width) * index(to.height) * channels, 0);
    narrow_.resize(index(to.width) * channels);
    for (int x = 0; x < to.width; ++x) {
        const std::int64_t begin = std::int64_t{x} * from.width, end = begin + from.width;
        const int first = static_cast<int>(begin / to.width), last = static_cast<int>((end - 1) / to.width);
        first_.push_back(first);
        count_.push_back(last - first + 1);
        for (int i = first; i <= last; ++i)
            weight_.push_back(static_cast<float>(overlap(std::int64_t{i} * to.width, to.width, begin, from.width)) / static_cast<float>(from.width));
    }
}

void AreaMean::narrow(const float* rgb) {
    const float* weight = weight_.data();
    for (std::size_t x = 0; x < first_.size(); ++x) {
        float sum[channels] = {0, 0, 0};
        const float* pixel = rgb + index(first_[x]) * channels;
        for (int i = 0; i < count_[x]; ++i, ++weight, pixel += channels)
            for (std::size_t c = 0; c < channels; ++c) sum[c] += *weight * pixel[c];
        std::copy(sum, sum + channels, narrow_.begin() + static_cast<std::ptrdiff_t>(x * channels));
    }
}

void AreaMean::row(const float* rgb) {
    narrow(rgb);
    const std::int64_t begin = std::int64_t{y_++} * out_.height, end = begin + out_.height;
    for (std::int64_t j = begin / from_.height; j * from_.height < end && j < out_.height; ++j) {
        const float weight = static_cast<float>(overlap(begin, out_.height, j * from_.height, from_.height)) / static_cast<float>(from_.height);
        float* to = out_.rgb.data() + static_cast<std::size_t>(j) * narrow_.size();
        for (std::size_t i = 0; i < narrow_.size(); ++i) to[i] += weight * narrow_[i];
    }
}

LinearPicture reduced(const LinearPicture& picture, int longest) {
    AreaMean mean({picture.width, picture.height}, fitted(picture.width, picture.height, longest));
    for (int y = 0; y < picture.height; ++y) mean.row(picture.rgb.data() + index(y) * index(picture.width) * channels);
    return mean.take();
}

LinearPicture upright(const LinearPicture& picture, int orientation) {
    LinearPicture out;
    const bool lying = orientation >= 5;
    out.width = lying ? picture.height : picture.width;
    out.height = lying ? picture.width : picture.height;
    out.rgb.resize(picture.rgb.size());
    float* to = out.rgb.data();
    for (int y = 0; y < out.height; ++y)
        for (int x = 0; x < out.width; ++x, to += channels) {
            const auto [from_x, from_y] = before(orientation, x, y, picture.width, picture.height);
            const float* from = picture.rgb.data() + (index(from_y) * index(picture.width) + index(from_x)) * channels;
            std::copy(from, from + channels, to);
        }
    return out;
}

std::vector<std::uint8_t> bytes_of(const LinearPicture& picture) {
    std::vector<std::uint8_t> out(picture.rgb.size());
    std::transform(picture.rgb.begin(), picture.rgb.end(), out.begin(), value_of);
    return out;
}

}  // namespace hw::photo

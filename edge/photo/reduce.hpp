// A smaller copy of a picture: the mean over each pixel's area, taken in linear light, then turned upright.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace hw::photo {

/// Red, green, blue in linear light from 0 to 1, row by row.
struct LinearPicture {
    int width = 0, height = 0;
    std::vector<float> rgb;
};

/// Linear light of an 8-bit value, and back, by the transfer function of sRGB (IEC 61966-2-1).
float linear_of(std::uint8_t value);
std::uint8_t value_of(float linear);

/// Width and height with the longest side at most `longest`, in the same proportion; never larger, never below 1.
struct Sides {
    int width = 0, height = 0;
};
Sides fitted(int width, int height, int longest);

/// Takes the rows of a picture one after the other and holds only the smaller one.
class AreaMean {
public:
    /// @param to  at most as large as `from`
    AreaMean(Sides from, Sides to);
    /// The next row: `from.width` times red, green, blue.
    void row(const float* rgb);
    [[nodiscard]] LinearPicture take() { return std::move(out_); }

private:
    void narrow(const float* rgb);

    Sides from_;
    LinearPicture out_;
    std::vector<int> first_, count_;  // of the columns that each new column covers
    std::vector<float> weight_, narrow_;
    int y_ = 0;
};

LinearPicture reduced(const LinearPicture& picture, int longest);

/// Turns and mirrors by EXIF orientation 1 to 8, so that the first row is the visual top.
LinearPicture upright(const LinearPicture& picture, int orientation);

/// As bytes red, green, blue.
std::vector<std::uint8_t> bytes_of(const LinearPicture& picture);

}  // namespace hw::photo

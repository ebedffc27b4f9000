// A piece as solids with panels, before it is drawn; and the families that build it.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/piece/piece.hpp"
#include "core/piece/solid.hpp"

namespace hw::piece {

/// From where a piece is seen, degrees. Azimuth 0 is straight in front, above 0 from its right; elevation 0 is level.
struct Camera {
    double azimuth_deg = 0, elevation_deg = 0;
};

struct Look {
    std::string key, name;
    Camera camera;
    bool without_loose = false;    ///< loose cushions lifted out
};

struct Model {
    std::vector<Panel> panels;
    std::vector<Solid> solids;
    std::vector<Look> looks;
    bool in_order = false;         ///< the solids stand in the order to paint

    /// The panel of a code, made if there is none.
    int panel(const std::string& code, const std::string& name, const std::string& part);
    Solid& add(Solid solid);
};

/// Every dimension and option of a family with its value.
class Values {
public:
    explicit Values(std::vector<std::pair<std::string_view, double>> all) : all_(std::move(all)) {}
    double operator[](std::string_view key) const;
    [[nodiscard]] int whole(std::string_view key) const;

private:
    std::vector<std::pair<std::string_view, double>> all_;
};

/// Two measures that must stand apart: `larger` at least `gap` above `smaller`, or the field named is refused.
struct Relation {
    std::string field;
    double larger = 0, smaller = 0, gap = 0;
    std::string sentence;
};
std::vector<Relation> relations(std::string_view family, const Values& values);

/// The solids of a family. @param facets  facets of a quarter turn
Model model_of(std::string_view family, const Values& values, int facets = facets_default);

Model upholstered(std::string_view family, const Values& v, int facets);
Model corner_sofa(const Values& v);
Model dining_chair(const Values& v);
Model office_chair(const Values& v, int facets);
Model ottoman(const Values& v);
Model headboard(const Values& v, int facets);
Model stool(const Values& v, int facets);
Model front_seat(const Values& v);
Model rear_bench(const Values& v);
Model steering_wheel(const Values& v, int facets);
Model door_panel(const Values& v);

/// Order in which to paint the solids seen from a camera, back to front.
/// @error NotConverged  each of some solids would have to stand behind another of them
Result<std::vector<std::size_t>> paint_order(const std::vector<Solid>& solids, Camera camera);

/// Shapes of the solids in the order to paint, fitted into width and height.
Result<View> view_of(const Model& model, const Look& look);

/// Loose cushions turned over: reverse side with the borders folded out, two to a row. No shapes: there are none.
View cushions_turned(const Model& model);

/// Moves the shapes to the corner of the paper with a margin and sets width and height.
void fit(View& view);

/// Whether a closed line neither crosses nor touches itself.
bool is_simple(const std::vector<Point2>& outline);
/// Area of a closed line, cm²; above 0 when it runs counter-clockwise with y up.
double signed_area(const std::vector<Point2>& outline);

}  // namespace hw::piece

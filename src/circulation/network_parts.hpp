#pragma once
/// What the network's solver is made of: the law of each link, and the rings.

#include "padwalk/circulation/network.hpp"

namespace padwalk::circulation
{

/// d loss / d ln Q of a pipe, m: the flow times the slope of its loss. It only steers a search; what the pipe takes
/// comes from pipe_loss.
[[nodiscard]] double slope_over_flow(Pipe const& pipe, PipeLoss const& loss);

/// SI: m, and m per m3/s.
struct Drop
{
    double head;
    double slope;
};

/// Head that one link takes, rising with flow over all flows from far below zero to far beyond a pump's curve, so that
/// a search may pass anywhere. What lies off a curve is refused in the end by require_on_curve.
class LinkLaw
{
public:
    LinkLaw(NetworkLink const& link, FrictionFormula formula, units::KinematicViscosity viscosity);

    [[nodiscard]] Drop at(double flow) const;
    /// Throws figures::NotComputed naming the link where the flow is none that its law holds for.
    void require_valid(double flow) const;
    [[nodiscard]] bool is_pump() const { return std::holds_alternative<PumpCurve>(link_->element); }

private:
    [[nodiscard]] Drop forward(double flow) const; ///< flow above zero, no pump
    [[nodiscard]] Drop pipe(Pipe const& pipe, double flow) const;
    [[nodiscard]] Drop pump(PumpCurve const& curve, double flow) const;

    NetworkLink const* link_;
    FrictionFormula formula_;
    units::KinematicViscosity viscosity_;
    double least_ = 0;       ///< below this flow the law is a straight line, or before this a pump's curve is
    double least_slope_ = 0; ///< of that line
    double greatest_ = 0;    ///< where a pump's curve ends
    double end_slope_ = 0;   ///< of the line beyond
};

/// The open links as a spanning tree of the places that they tie to water surfaces, and the rings that the other open
/// links close through it (and through the water).
class Rings
{
public:
    Rings(Network const& network, std::vector<bool> const& open);

    [[nodiscard]] std::size_t size() const { return closing_.size(); }
    [[nodiscard]] std::size_t closing(std::size_t ring) const { return closing_[ring]; }
    [[nodiscard]] bool reached(std::size_t node) const { return reached_[node]; }

    /// Flow of every link that balances every junction, from the flows round the rings.
    void flows(std::vector<double> const& round, std::vector<double>& flow) const;
    /// Head of every node along the tree, from the drop of every link.
    void heads(std::vector<Drop> const& drops, std::vector<double>& head) const;
    /// Error of closure of every ring: the gradient of the content.
    void errors(std::vector<Drop> const& drops, std::vector<double> const& head, std::vector<double>& error) const;
    /// Second derivatives of the content, row by row.
    void curvature(std::vector<Drop> const& drops, std::vector<double>& matrix) const;

    struct Passage
    {
        std::size_t ring;
        double sign;
    };
    [[nodiscard]] std::vector<Passage> const& passages(std::size_t link) const { return passages_[link]; }

private:
    static constexpr std::size_t none = static_cast<std::size_t>(-1);
    struct Branch
    {
        std::size_t link = none; ///< from the parent; none for a water surface
        std::size_t parent = none;
        double sign = 0; ///< 1 where the link runs from the parent to the node
    };

    void grow_tree(std::vector<bool> const& open);
    void find_passages();

    Network const* network_;
    std::vector<Branch> branch_;
    std::vector<std::size_t> order_; ///< nodes reached, parents before children
    std::vector<bool> reached_;
    std::vector<std::size_t> closing_;
    std::vector<std::vector<Passage>> passages_;
};

/// Solves the positive definite system in place. False where it is not one.
[[nodiscard]] bool solve_definite(std::vector<double>& matrix, std::vector<double>& right);

} // namespace padwalk::circulation

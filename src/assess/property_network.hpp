#pragma once
#include "property.hpp"

#include "padwalk/diagnosis/inference.hpp"
#include "padwalk/diagnosis/knowledge.hpp"

#include <map>
#include <memory>

namespace padwalk::assess
{

/// A cause of the knowledge at one item of the property.
struct CauseAt
{
    std::string const* id;
    diagnosis::CauseEntry const* entry;
    std::size_t item;
    double prior; ///< base rate, its odds raised by what holds here
};

/// The knowledge laid out over a property: each item has its own copy of the causes and findings of its kind, and
/// a cause shows at its own item and at the items related to it.
class PropertyNetwork
{
public:
    PropertyNetwork(Property const& property, diagnosis::Knowledge const& knowledge);

    [[nodiscard]] std::vector<CauseAt> const& causes() const { return causes_; }
    [[nodiscard]] diagnosis::Network const& network() const { return network_; }
    /// The place of a finding at an item in the network; made when first asked for.
    std::size_t finding(std::string const& id, std::size_t item);
    /// A finding of this property alone, with the weights given; each call makes one.
    std::size_t own_finding(diagnosis::Finding finding);
    /// The weight with which a cause shows a finding at an item; 0 where it does not reach there.
    [[nodiscard]] double weight(std::size_t cause, std::string const& id, std::size_t item) const;

    /// Whether it is the cause, at some item, that the knowledge does not hold.
    [[nodiscard]] bool unknown(std::size_t cause) const { return causes_[cause].entry == something_else_.get(); }

private:
    std::shared_ptr<diagnosis::CauseEntry const> something_else_; ///< that the knowledge does not hold, at each item
    Property const& property_;
    diagnosis::Knowledge const& knowledge_;
    std::vector<CauseAt> causes_;
    diagnosis::Network network_;
    std::map<std::pair<std::string, std::size_t>, std::size_t> places_;
};

} // namespace padwalk::assess

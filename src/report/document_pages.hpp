#pragma once
/// The pages of the documents, before they are laid out.

#include "page.hpp"

#include "padwalk/report/documents.hpp"

namespace padwalk::report
{

[[nodiscard]] Page client_page(assess::WaterReport const& report, Layout const& layout, DocumentOptions const& options);
[[nodiscard]] Page referral_page(assess::Assessment const& a, std::size_t referral, Layout const& layout,
                                 DocumentOptions const& options);

} // namespace padwalk::report

#include "padwalk/report/documents.hpp"

#include "document_pages.hpp"

namespace padwalk::report
{

std::vector<Document> documents(assess::WaterReport const& report, Layout const& layout, DocumentOptions const& options)
{
    assess::Assessment const& a = report.assessment;
    std::vector<Document> out;
    auto keep = [&](std::string name, Page const& page) {
        out.push_back({std::move(name), page.title, html_of(page, layout)});
    };
    keep("client", client_page(report, layout, options));
    for (std::size_t i = 0; i < a.referrals.size(); ++i)
        keep("refer-" + a.referrals[i].trade, referral_page(a, i, layout, options));
    if (!report.waters.empty())
        keep("owner", water_page(report, options.system));
    keep("record", page_of(a, options.system));
    return out;
}

} // namespace padwalk::report

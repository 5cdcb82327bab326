#pragma once
/// The documents of one assessment, for those who act on it: the client, each licensed trade, the owner. Each is one
/// HTML file that stands alone, or text for a terminal.

#include "padwalk/assess/assessment.hpp"
#include "padwalk/assess/water_sheet.hpp"
#include "padwalk/report/layout.hpp"
#include "padwalk/report/photos.hpp"
#include "padwalk/report/text.hpp"

namespace padwalk::report
{

struct DocumentOptions
{
    units::System system = units::System::us;
    Language language = Language::english; ///< a referral is in it whole; the client's page has its cautions in it too
    Photos const* photos = nullptr;        ///< none: photos are named, not shown
};

/// For the client: what is unsafe now, how each item stands, whom to call and how soon, each item with its pictures,
/// its figures in plain words and its photos, and the words of the trade explained.
[[nodiscard]] std::string client_html(assess::WaterReport const& report, Layout const& layout,
                                      DocumentOptions const& options);
[[nodiscard]] std::string client_text(assess::WaterReport const& report, Layout const& layout,
                                      DocumentOptions const& options, TextOptions const& text);

/// For one trade: what is asked of it, where, what was read with which instrument, what is likely and why, what was
/// not done, what to bring, and room to write what was found. `referral` is a place in Assessment::referrals.
[[nodiscard]] std::string referral_html(assess::Assessment const& a, std::size_t referral, Layout const& layout,
                                        DocumentOptions const& options);
[[nodiscard]] std::string referral_text(assess::Assessment const& a, std::size_t referral, Layout const& layout,
                                        DocumentOptions const& options, TextOptions const& text);

struct Document
{
    std::string name; ///< of a file, without ending: 'client', 'refer-electrician', 'owner', 'record'
    std::string title;
    std::string html;
};

/// All of them: the client's page, one for each trade that must come, the owner's where there is a water, and the
/// record of all that was read, computed and assumed.
[[nodiscard]] std::vector<Document> documents(assess::WaterReport const& report, Layout const& layout,
                                              DocumentOptions const& options);

} // namespace padwalk::report

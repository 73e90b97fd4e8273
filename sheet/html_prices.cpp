#include <fmt/format.h>

#include "sheet/html_pieces.hpp"
#include "sheet/order.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

// Seen and good until, a line each.
std::string days_words(const PriceLine& line) {
  if (!line.seen) return {};
  std::string out = fmt::format("<time datetime=\"{0}\">{0}</time>, {1} before",
                                to_string(*line.seen), counted(line.age_days, "day"));
  if (line.good_until)
    out += fmt::format("<br>good until <time datetime=\"{0}\">{0}</time>",
                       to_string(*line.good_until));
  return out;
}

std::string item_of(const HtmlPage& page, const PriceLine& line) {
  const auto item = page.items.find(line.part_id);
  return item == page.items.end() ? std::string{}
                                  : fmt::format("<a href=\"#item-{0}\">{0}</a>", item->second);
}

void put_line(HtmlPage& page, const PriceLine& line) {
  page.out += fmt::format(
      "<tr role=\"row\"><td role=\"cell\" class=\"one\">{}</td><th scope=\"row\" "
      "role=\"rowheader\">{}</th>",
      item_of(page, line), isolated(line.part_name));
  page.out += fmt::format(
      "<td role=\"cell\" class=\"num one\">{}</td><td role=\"cell\" class=\"num one\">{}</td>",
      line.count, to_string(line.each));
  const std::string times = line.count > 1
                                ? fmt::format("<span class=\"away\">{} at {} each</span>",
                                              line.count, to_string(line.each))
                                : std::string{};
  page.out += fmt::format("<td role=\"cell\" class=\"num\">{}{}</td>", to_string(line.line), times);
  std::string seller = line.seller.empty() ? "none" : isolated(line.seller);
  if (line.commission) seller += " <span class=\"origin\">commission</span>";
  page.out += fmt::format(
      "<td role=\"cell\" class=\"wide\">{}</td><td role=\"cell\" class=\"wide lone\">{}</td><td "
      "role=\"cell\" class=\"wide lone\">{}</td><td role=\"cell\" class=\"wide\">{}</td></tr>\n",
      seller, isolated(offer_words(line)), days_words(line), isolated(line.tax_note));
}

void put_sum(std::string& out, std::string_view name, const std::string& money) {
  out += fmt::format(
      "<tr role=\"row\"><td role=\"cell\" class=\"one\"></td><th scope=\"row\" "
      "role=\"rowheader\">{}</th><td role=\"cell\" class=\"one\"></td><td role=\"cell\" "
      "class=\"one\"></td>"
      "<td role=\"cell\" class=\"num\">{}</td><td role=\"cell\" colspan=\"4\" "
      "class=\"one\"></td></tr>\n",
      name, money);
}

void put_market(HtmlPage& page, const MarketPrices& market, const Sheet& sheet, int number) {
  std::string& out = page.out;
  out += fmt::format(
      "<div class=\"market\"><h3 id=\"market-{0}\">{1}</h3>\n<table class=\"prices\" "
      "role=\"table\" "
      "aria-labelledby=\"market-{0}\">\n",
      number, isolated(market.market));
  out += "<thead role=\"rowgroup\"><tr role=\"row\">";
  const auto head = [&](std::string_view name, std::string_view kind) {
    out += fmt::format("<th scope=\"col\" role=\"columnheader\"{}>{}</th>", kind, name);
  };
  head("Item", ""), head("Part", ""), head("Count", " class=\"num\""),
      head("Each", " class=\"num\""), head("Line", " class=\"num\"");
  head("Seller", ""), head("Offer", ""), head("Seen", ""), head("Tax", "");
  out += "</tr></thead>\n<tbody role=\"rowgroup\">\n";
  for (const PriceLine& line : prices_in_order(market, sheet.build.parts)) put_line(page, line);
  out += "</tbody>\n<tfoot role=\"rowgroup\">\n";
  put_sum(out, "Total", to_string(market.total));
  put_sum(out, "Budget", to_string(market.budget));
  const bool over = market.left.minor < 0;
  put_sum(out, over ? "Over the budget" : "Left",
          to_string(Money{market.left.currency, over ? -market.left.minor : market.left.minor}));
  put_sum(out, "Delivery, at most", to_string(market.shipping_upper));
  out += "</tfoot></table>\n";
  out += fmt::format("<p class=\"small\">{} Days are counted back from {}.</p></div>\n",
                     isolated(market.note), to_string(sheet.as_of));
}

bool earns(const Sheet& sheet) {
  for (const MarketPrices& market : sheet.markets)
    for (const PriceLine& line : market.lines)
      if (line.commission) return true;
  return false;
}

}  // namespace

void put_prices(HtmlPage& page, const Sheet& sheet) {
  begin_section(page, "prices", "Prices, by market",
                "what a private buyer pays, on the dates shown");
  int number = 0;
  for (const MarketPrices& market : sheet.markets) put_market(page, market, sheet, ++number);
  if (sheet.markets.empty()) page.out += "<p>No prices are part of this sheet.</p>\n";
  page.out += earns(sheet) ? "<p><span class=\"origin\">commission</span> The publisher earns "
                             "money when somebody buys through the link to this offer. "
                             "The choice of parts takes no account of it.</p>\n"
                           : "<p>No link on this sheet earns the publisher money.</p>\n";
  end_section(page);
}

}  // namespace rigproof::sheet

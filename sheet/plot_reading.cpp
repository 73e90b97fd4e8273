// Expressions are slow to compile, so they stand here once for all tests of plots.
#include "sheet/plot_reading.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <regex>
#include <sstream>

#include "sheet/html_check.hpp"

namespace rigproof::sheet {
namespace {

double number(std::string text) {
  if (text.starts_with("\xE2\x88\x92")) text.replace(0, 3, "-");
  return std::stod(text);
}

ReadPlot::Line line(const std::map<double, double>& ticks) {
  ReadPlot::Line out;
  EXPECT_GE(ticks.size(), 2U);
  if (ticks.size() < 2) return out;
  const auto first = *ticks.begin(), last = *ticks.rbegin();
  out.per_unit = (last.second - first.second) / (last.first - first.first);
  out.at_zero = first.second - out.per_unit * first.first;
  for (const auto& [value, px] : ticks) out.ticks.push_back(value);
  return out;
}

}  // namespace

ReadPlot::ReadPlot(const std::string& svg) {
  std::smatch head;
  EXPECT_TRUE(std::regex_search(svg, head, std::regex("viewBox=\"0 0 ([0-9.]+) ([0-9.]+)\"")));
  width = std::stod(head[1]), height = std::stod(head[2]);
  EXPECT_TRUE(std::regex_search(svg, head, std::regex(" font-size=\"([0-9.]+)\"")));
  em = std::stod(head[1]);
  read_paths(svg);
  read_words(svg);
}

std::vector<ReadPath> ReadPlot::of(const std::string& kind) const {
  std::vector<ReadPath> out;
  for (const ReadPath& path : paths)
    if (path.kind == kind) out.push_back(path);
  return out;
}

const ReadWords* ReadPlot::says(const std::string& start) const {
  for (const ReadWords& each : words)
    if (each.text.starts_with(start)) return &each;
  return nullptr;
}

double ReadPlot::wide(const ReadWords& each) const {
  const std::string letters =
      std::regex_replace(std::regex_replace(each.text, std::regex("&[a-z#0-9]+;"), "_"),
                         std::regex("[\x80-\xBF]"), "");
  return 0.4 * em * static_cast<double>(letters.size());
}

double ReadPlot::left(const ReadWords& each) const {
  if (each.anchor == "end") return each.at.x - wide(each);
  return each.anchor == "middle" ? each.at.x - wide(each) / 2 : each.at.x;
}

ReadPlot::Line ReadPlot::y_axis(double top, double bottom) const {
  std::map<double, double> ticks;
  for (const ReadWords& each : words)
    if (each.anchor == "end" && each.kind.empty() && each.at.y > top && each.at.y < bottom)
      ticks[number(each.text)] = each.at.y - 0.35 * em;
  return line(ticks);
}

ReadPlot::Line ReadPlot::x_axis() const {
  double lowest = 0.0;
  for (const ReadWords& each : words)
    if (each.anchor == "middle" && each.kind.empty()) lowest = std::max(lowest, each.at.y);
  std::map<double, double> ticks;
  for (const ReadWords& each : words)
    if (each.anchor == "middle" && each.kind.empty() && each.at.y == lowest)
      ticks[number(each.text)] = each.at.x;
  return line(ticks);
}

// By hand: an expression over the many numbers of a path runs out of stack.
void ReadPlot::read_paths(const std::string& svg) {
  const std::string begin = "<path class=\"", data = "\" d=\"";
  for (std::size_t at = svg.find(begin); at != std::string::npos; at = svg.find(begin, at + 1)) {
    const std::size_t kind = at + begin.size(), end = svg.find(data, kind);
    const std::size_t from = end + data.size(), to = svg.find('"', from);
    ReadPath path{svg.substr(kind, end - kind), {}};
    std::string numbers = svg.substr(from, to - from);
    for (char& c : numbers) {
      EXPECT_NE(std::string("0123456789.- MLCZ").find(c), std::string::npos) << c;
      if (std::string("MLCZ").find(c) != std::string::npos) c = ' ';
    }
    std::istringstream in(numbers);
    for (ReadPoint p; in >> p.x >> p.y;) path.points.push_back(p);
    paths.push_back(path);
  }
}

void ReadPlot::read_words(const std::string& svg) {
  const std::regex looks(
      "<text(?: class=\"([a-z]+)\")? x=\"([-0-9.]+)\" y=\"([-0-9.]+)\"(?: "
      "text-anchor=\"([a-z]+)\")?( transform=[^>]*)?>([^<]*)</text>");
  for (std::sregex_iterator it(svg.begin(), svg.end(), looks), end; it != end; ++it)
    words.push_back({(*it)[6],
                     (*it)[1],
                     {std::stod((*it)[2]), std::stod((*it)[3])},
                     (*it)[4],
                     (*it)[5].matched});
}

void expect_sound(const std::string& svg, const std::string& what) {
  const HtmlCheck check = HtmlReader(svg).read();
  EXPECT_TRUE(check.faults.empty()) << what << ": " << check.faults.front();
  const ReadPlot plot(svg);
  std::size_t texts = 0;
  for (std::size_t at = svg.find("<text"); at != std::string::npos; at = svg.find("<text", at + 1))
    ++texts;
  EXPECT_EQ(plot.words.size(), texts) << what;
  EXPECT_TRUE(std::isfinite(plot.width) && std::isfinite(plot.height)) << what;
  for (const ReadPath& path : plot.paths) {
    EXPECT_FALSE(path.points.empty()) << what << ": " << path.kind;
    for (const ReadPoint& p : path.points) {
      EXPECT_TRUE(p.x >= -0.01 && p.x <= plot.width + 0.01) << what << ": " << path.kind << p.x;
      EXPECT_TRUE(p.y >= -0.01 && p.y <= plot.height + 0.01) << what << ": " << path.kind << p.y;
    }
  }
  for (const ReadWords& each : plot.words) {
    if (each.upright) continue;
    const double wide = plot.wide(each), left = plot.left(each);
    EXPECT_TRUE(left >= -0.5 && left + wide <= plot.width + 0.5) << what << ": " << each.text;
    EXPECT_TRUE(each.at.y - 0.7 * plot.em >= -0.5 && each.at.y <= plot.height) << what << each.text;
  }
}

void expect_texts_apart(const std::string& svg, const std::string& what) {
  const ReadPlot plot(svg);
  struct Room {
    double left, right, top, bottom;
  };
  std::vector<Room> rooms;
  for (const ReadWords& each : plot.words) {
    const double wide = plot.wide(each), left = plot.left(each);
    rooms.push_back({left, left + wide, each.at.y - 0.7 * plot.em, each.at.y});
    if (each.upright) continue;
    for (std::size_t k = 0; k + 1 < rooms.size(); ++k) {
      const Room &a = rooms.back(), &b = rooms[k];
      if (plot.words[k].upright) continue;
      EXPECT_FALSE(a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
          << what << ": " << each.text << " / " << plot.words[k].text;
    }
  }
}

}  // namespace rigproof::sheet

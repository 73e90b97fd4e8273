// For tests: a strict reader of the HTML we write, far stricter than a browser. Every tag is closed
// in order, every attribute is double-quoted, every `&` begins an entity we use, no raw `<` stands
// in text.
#pragma once

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace rigproof::sheet {

struct HtmlCheck {
  std::vector<std::string> faults;
  std::set<std::string> tags;
  std::vector<std::string> headings;                   ///< in order: h1, h2...
  std::multimap<std::string, std::string> attributes;  ///< name, value
  std::string text;                                    ///< all text, entities as they are
};

class HtmlReader {
 public:
  explicit HtmlReader(std::string_view html) : rest_(html) {}

  HtmlCheck read() {
    while (!rest_.empty()) rest_.front() == '<' ? tag() : words();
    for (const std::string& open : open_) fault("never closed: " + open);
    return std::move(out_);
  }

 private:
  void fault(const std::string& what) { out_.faults.push_back(what); }

  std::string_view cut(std::size_t count) {
    const std::string_view piece = rest_.substr(0, count);
    rest_.remove_prefix(piece.size());
    return piece;
  }

  void words() {
    const std::string_view piece = cut(rest_.find('<'));
    entities(piece);
    out_.text += piece;
    out_.text += '\n';
  }

  void entities(std::string_view piece) {
    for (std::size_t at = piece.find('&'); at != std::string_view::npos;
         at = piece.find('&', at + 1)) {
      const auto known = {"&amp;", "&lt;", "&gt;", "&quot;", "&#39;"};
      if (std::ranges::none_of(
              known, [&](const char* entity) { return piece.substr(at).starts_with(entity); }))
        fault("unknown entity: " + std::string(piece.substr(at, 12)));
    }
    for (const char c : piece)
      if (static_cast<unsigned char>(c) < 0x20 && c != '\n') fault("control character in text");
  }

  void tag() {
    if (rest_.starts_with("<!DOCTYPE html>")) return void(cut(15));
    const std::string_view whole = cut(rest_.find('>') + 1);
    const bool closing = whole.starts_with("</");
    std::string_view inner = whole.substr(closing ? 2 : 1, whole.size() - (closing ? 3 : 2));
    const std::size_t end = inner.find_first_of(" /\n");
    const std::string name{inner.substr(0, end)};
    if (name.empty() ||
        name.find_first_not_of("abcdefghijklmnopqrstuvwxyz123456") != std::string::npos)
      return fault("no tag: " + std::string(whole.substr(0, 30)));
    if (closing) return close(name);
    out_.tags.insert(name);
    if (name.size() == 2 && name[0] == 'h' && name[1] >= '1' && name[1] <= '6')
      out_.headings.push_back(name);
    const bool ends_itself = inner.ends_with('/');
    if (end != std::string_view::npos)
      attributes(inner.substr(end, inner.size() - end - (ends_itself ? 1 : 0)));
    const bool is_void = name == "meta" || name == "br";
    if (!ends_itself && !is_void) open_.push_back(name);
    if (name == "style") rest_.remove_prefix(rest_.find("</style>"));
  }

  void close(const std::string& name) {
    if (open_.empty() || open_.back() != name)
      return fault("closes " + name + " inside " + (open_.empty() ? "nothing" : open_.back()));
    open_.pop_back();
  }

  void attributes(std::string_view text) {
    while (true) {
      const std::size_t start = text.find_first_not_of(" \n");
      if (start == std::string_view::npos) return;
      text.remove_prefix(start);
      const std::size_t equals = text.find("=\"");
      const std::size_t end =
          equals == std::string_view::npos ? equals : text.find('"', equals + 2);
      if (end == std::string_view::npos)
        return fault("attribute without quotes: " + std::string(text.substr(0, 30)));
      const std::string value{text.substr(equals + 2, end - equals - 2)};
      if (value.find('<') != std::string::npos) fault("< in an attribute");
      entities(value);
      out_.attributes.emplace(std::string(text.substr(0, equals)), value);
      text.remove_prefix(end + 1);
    }
  }

  std::string_view rest_;
  std::vector<std::string> open_;
  HtmlCheck out_;
};

}  // namespace rigproof::sheet

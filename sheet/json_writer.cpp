#include "sheet/json_writer.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/contract.hpp"
#include "base/text.hpp"
#include "sheet/utf8.hpp"

namespace rigproof::sheet {

void JsonWriter::before_value() {
  if (after_key_) {
    after_key_ = false;
    return;
  }
  if (levels_.empty()) return;
  if (!levels_.back().empty) out_ += ',';
  levels_.back().empty = false;
  out_ += '\n';
  out_.append(2 * levels_.size(), ' ');
}

void JsonWriter::open(char bracket) {
  before_value();
  out_ += bracket;
  levels_.emplace_back();
}

void JsonWriter::close(char bracket) {
  RP_EXPECT(!levels_.empty() && !after_key_);
  const bool empty = levels_.back().empty;
  levels_.pop_back();
  if (!empty) {
    out_ += '\n';
    out_.append(2 * levels_.size(), ' ');
  }
  out_ += bracket;
}

void JsonWriter::key(std::string_view name) {
  RP_EXPECT(!levels_.empty() && !after_key_);
  before_value();
  quote(name);
  out_ += ": ";
  after_key_ = true;
}

void JsonWriter::text(std::string_view value) {
  before_value();
  quote(value);
}

void JsonWriter::number(double value) {
  RP_EXPECT(std::isfinite(value));
  before_value();
  out_ += shortest(value);
}

void JsonWriter::integer(std::int64_t value) {
  before_value();
  out_ += std::to_string(value);
}

void JsonWriter::boolean(bool value) {
  before_value();
  out_ += value ? "true" : "false";
}

void JsonWriter::quote(std::string_view value) {
  out_ += '"';
  while (!value.empty()) {
    const CodePoint point = next_code_point(value);
    value.remove_prefix(point.bytes);
    const char32_t c = point.value;
    if (c == '"' || c == '\\') {
      out_ += '\\';
      out_ += static_cast<char>(c);
    } else if (c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x2028 || c == 0x2029) {
      out_ += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
    } else {
      append_code_point(out_, c);
    }
  }
  out_ += '"';
}

std::string JsonWriter::take() {
  RP_EXPECT(levels_.empty());
  out_ += '\n';
  return std::move(out_);
}

}  // namespace rigproof::sheet

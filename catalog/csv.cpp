#include "catalog/csv.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace rigproof {
namespace {

constexpr std::string_view utf8_mark = "\xEF\xBB\xBF";

std::size_t index(char c) { return static_cast<unsigned char>(c); }

/// Code points that begin in the text; a stray continuation byte counts with its forerunner.
std::size_t characters(std::string_view text) {
  std::size_t count = 0;
  for (const char c : text) count += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1U : 0U;
  return count;
}

}  // namespace

CsvReader::CsvReader(std::string_view bytes, std::string file, Complaints& complaints,
                     std::optional<char> separator)
    : bytes_(bytes), file_(std::move(file)), complaints_(&complaints) {
  begin();
  if (separator)
    separator_ = *separator;
  else
    choose_dialect();
  for (std::size_t b = 0; b < 256; ++b) {
    const bool control = b < 0x20 && b != '\t';
    plain_[b] = !control && (b != '"' || separator_ == '\t') && b != index(separator_);
    inside_[b] = (!control || b == '\r') && b != '"';
  }
}

// The mark at the front, and what is no text at all.
void CsvReader::begin() {
  if (bytes_.starts_with("\xFF\xFE") || bytes_.starts_with("\xFE\xFF")) {
    complaints_->add({.file = file_,
                      .line = 1,
                      .column = 1,
                      .what = "the text is UTF-16",
                      .expected = "UTF-8; save the table in that encoding",
                      .text = {}});
    at_ = bytes_.size();
    return;
  }
  const std::size_t nul = bytes_.find('\0');
  if (nul != std::string_view::npos) {
    const std::string_view before = bytes_.substr(0, nul);
    const auto line = 1 + static_cast<std::size_t>(std::ranges::count(before, '\n'));
    const std::size_t start = before.rfind('\n') + 1;  // npos + 1 is 0
    complaints_->add({.file = file_,
                      .line = line,
                      .column = characters(before.substr(start)) + 1,
                      .what = "not a text file: there is a NUL byte",
                      .expected = "a CSV table in UTF-8",
                      .text = {}});
    at_ = bytes_.size();
    return;
  }
  if (bytes_.starts_with(utf8_mark)) at_ = utf8_mark.size();
}

void CsvReader::choose_dialect() {
  while (at_ < bytes_.size() && skip_blank_line()) {
  }
  std::size_t commas = 0;
  std::size_t semicolons = 0;
  bool inside = false;
  const std::size_t limit = std::min(bytes_.size(), at_ + max_line_bytes);
  for (std::size_t i = at_; i < limit && bytes_[i] != '\n'; ++i) {
    if (bytes_[i] == '"') inside = !inside;
    if (inside) continue;
    if (bytes_[i] == ',') ++commas;
    if (bytes_[i] == ';') ++semicolons;
  }
  if (semicolons > commas) separator_ = ';';
}

// Passes over one line of nothing but blanks; false when the line has something.
bool CsvReader::skip_blank_line() {
  std::size_t i = at_;
  while (i < bytes_.size() && (bytes_[i] == ' ' || bytes_[i] == '\t')) ++i;
  if (i + 1 < bytes_.size() && bytes_[i] == '\r' && bytes_[i + 1] == '\n') ++i;
  if (i < bytes_.size() && bytes_[i] != '\n') return false;
  if (i < bytes_.size()) ++next_line_;
  at_ = std::min(i + 1, bytes_.size());
  return true;
}

bool CsvReader::next(std::vector<CsvCell>& cells) {
  while (at_ < bytes_.size()) {
    if (skip_blank_line()) continue;
    if (record(cells)) return true;
  }
  cells.clear();
  return false;
}

bool CsvReader::record(std::vector<CsvCell>& cells) {
  cells.clear();
  places_.clear();
  buffer_used_ = 0;
  spanning_ = 0;
  record_line_ = next_line_;
  const std::size_t from = at_;
  const std::size_t limit = std::min(bytes_.size(), from + max_line_bytes);
  Place place{from, next_line_, from};
  for (;;) {
    places_.push_back(place);
    cells.push_back({.text = {},
                     .line = static_cast<std::uint32_t>(place.line),
                     .column = static_cast<std::uint32_t>(place.offset - place.line_start + 1)});
    const bool quote = place.offset < limit && bytes_[place.offset] == '"';
    const Step step =
        quote ? quoted(place, limit, cells.back()) : unquoted(place, limit, cells.back());
    if (step == Step::fault) return false;
    if (step == Step::end_of_record) break;
  }
  at_ = place.offset;
  next_line_ = place.line;
  return is_ascii(from, at_) || finish_non_ascii(cells, from, at_);
}

CsvReader::Step CsvReader::unquoted(Place& place, std::size_t limit, CsvCell& cell) {
  const Place start = place;
  std::size_t i = place.offset;
  while (i < limit && plain_[index(bytes_[i])]) ++i;
  place.offset = i;
  cell.text = bytes_.substr(start.offset, i - start.offset);
  return end_cell(place, start, limit, false);
}

CsvReader::Step CsvReader::quoted(Place& place, std::size_t limit, CsvCell& cell) {
  const Place start = place;
  bool doubled = false;
  ++place.offset;
  for (;;) {
    std::size_t& i = place.offset;
    while (i < limit && inside_[index(bytes_[i])]) ++i;
    if (i == limit)
      return fault_in_long(place, start,
                           "the quote that opens here is not closed within the limits of a row",
                           "a closing quote; a cell has at most 64 KiB, a row 1 MiB");
    const char c = bytes_[i];
    if (c == '"') {
      if (i + 1 >= limit || bytes_[i + 1] != '"') break;
      doubled = true;
      i += 2;
    } else if (c == '\n') {
      if (spanning_ == 0) spanning_ = places_.size();
      ++i;
      ++place.line;
      place.line_start = i;
    } else {
      return wrong_byte(place, start);
    }
  }
  const std::string_view raw = bytes_.substr(start.offset + 1, place.offset - start.offset - 1);
  ++place.offset;
  cell.text = doubled ? undouble(raw) : raw;
  return end_cell(place, start, limit, true);
}

// What follows a cell: a separator, a line end, the end; anything else breaks the grammar.
CsvReader::Step CsvReader::end_cell(Place& place, const Place& start, std::size_t limit,
                                    bool after_quote) {
  const std::size_t i = place.offset;
  const auto at = [&](std::size_t k) { return k < bytes_.size() ? bytes_[k] : '\0'; };
  const bool line_end = at(i) == '\n' || (at(i) == '\r' && at(i + 1) == '\n');
  if (i >= limit && limit < bytes_.size() && !line_end) {
    const Place whole{places_.front().offset, places_.front().line, places_.front().offset};
    return fault_in_long(place, whole, "the row is longer than 1 MiB", "at most 1048576 bytes");
  }
  if (i - start.offset > max_cell_bytes + (after_quote ? 2U : 0U))
    return fault_in_long(place, start, "the cell is longer than 64 KiB", "at most 65536 bytes");
  if (i == bytes_.size()) return Step::end_of_record;
  if (bytes_[i] == separator_) {
    ++place.offset;
    return Step::next_cell;
  }
  if (line_end) {
    place = {i + (bytes_[i] == '\n' ? 1U : 2U), place.line + 1, 0};
    return Step::end_of_record;
  }
  if (!after_quote) return wrong_byte(place, start);
  return fault_in_long(
      place, place, "there is text after a closing quote",
      "a separator or the end of the line; a quote inside a cell is written twice");
}

// A fault that an unclosed quote may have caused: the lines after it deserve a reading of their
// own. Still linear: a line is read a second time only if, read alone, its quotes are closed at its
// end.
CsvReader::Step CsvReader::fault_in_long(const Place& place, const Place& report, const char* what,
                                         const char* expected) {
  fault(report, places_.back(), what, expected);
  resume_after_line(spanning_ > 0 ? places_[spanning_ - 1] : place);
  return Step::fault;
}

CsvReader::Step CsvReader::wrong_byte(const Place& place, const Place& start) {
  const char c = bytes_[place.offset];
  if (c == '"')
    return fault(place, start, "there is a quote inside a cell that is not quoted",
                 "the whole cell in quotes, and the inner quote written twice");
  if (c == '\r')
    return fault(place, start, "there is a carriage return without a line feed",
                 "lines that end in LF or CRLF");
  return fault(place, start, "there is a control character", "text");
}

CsvReader::Step CsvReader::fault(const Place& place, const Place& cell, const char* what,
                                 const char* expected) {
  complaints_->add_made([&] {
    const std::string_view line = bytes_.substr(place.line_start, place.offset - place.line_start);
    return Complaint{.file = file_,
                     .line = place.line,
                     .column = characters(line) + 1,
                     .what = what,
                     .expected = expected,
                     .text = excerpt(bytes_.substr(cell.offset, 200))};
  });
  resume_after_line(place);
  return Step::fault;
}

void CsvReader::resume_after_line(const Place& place) {
  const std::size_t end = bytes_.find('\n', place.offset);
  at_ = end == std::string_view::npos ? bytes_.size() : end + 1;
  next_line_ = place.line + 1;
}

bool CsvReader::is_ascii(std::size_t from, std::size_t end) const {
  unsigned char all = 0;
  for (std::size_t i = from; i < end; ++i) all |= static_cast<unsigned char>(bytes_[i]);
  return all < 0x80;
}

// Checks the encoding of a whole record and turns byte columns into character columns.
bool CsvReader::finish_non_ascii(std::vector<CsvCell>& cells, std::size_t from, std::size_t end) {
  const auto bad = first_bad_utf8(bytes_.substr(from, end - from));
  if (bad) {
    const std::size_t offset = from + *bad;
    const auto holder = std::ranges::upper_bound(places_, offset, {}, &Place::offset) - 1;
    Place place = *holder;
    for (std::size_t i = place.offset; i < offset; ++i) {
      if (bytes_[i] != '\n') continue;
      ++place.line;
      place.line_start = i + 1;
    }
    place.offset = offset;
    const std::size_t resume = at_;
    const std::size_t resume_line = next_line_;
    fault(place, *holder, "the text is not UTF-8", "UTF-8; save the table in that encoding");
    at_ = resume;
    next_line_ = resume_line;
    return false;
  }
  std::size_t line_start = from;
  std::size_t counted_to = from;
  std::size_t column = 1;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (places_[i].line_start != line_start) {
      line_start = counted_to = places_[i].line_start;
      column = 1;
    }
    column += characters(bytes_.substr(counted_to, places_[i].offset - counted_to));
    counted_to = places_[i].offset;
    cells[i].column = static_cast<std::uint32_t>(column);
  }
  return true;
}

std::string_view CsvReader::undouble(std::string_view raw) {
  if (!buffer_) buffer_ = std::make_unique<char[]>(max_line_bytes);
  char* const begin = buffer_.get() + buffer_used_;
  char* out = begin;
  for (std::size_t i = 0; i < raw.size(); ++i) {
    *out++ = raw[i];
    if (raw[i] == '"') ++i;
  }
  const auto size = static_cast<std::size_t>(out - begin);
  buffer_used_ += size;
  return {begin, size};
}

std::string csv_cell(std::string_view text) {
  if (text.find_first_of(",;\"\r\n") == std::string_view::npos) return std::string(text);
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  out += '"';
  return out;
}

}  // namespace rigproof

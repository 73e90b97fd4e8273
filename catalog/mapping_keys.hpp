// Every key that a mapping (how a pasted table feeds a table of the catalog) may have: one declared
// table, from which the reader's checks, the hints and docs/mapping.md are derived.
#pragma once

#include "catalog/brief_keys.hpp"

namespace rigproof::keys {

inline constexpr std::array mapping_sections = {
    SectionSpec{"mapping", "[mapping]",
                "Which table is fed, and how the pasted one is written. Must be there."},
    SectionSpec{
        "match", "[match]",
        "How a pasted row finds the part it speaks of. Absent: by the id in `[columns.id]`."},
    SectionSpec{
        "provenance", "[provenance]",
        "Where the values come from; written into provenance.csv beside them. Must be there."},
    SectionSpec{"columns", "[columns]",
                "What is read. Columns of the pasted table that no one names are passed over."},
    SectionSpec{
        "columns.*", "[columns.COLUMN]",
        "One column of the catalog's table: the header it comes from, or one text for all rows."},
    SectionSpec{"columns.*.words", "words = { \"Yes\" = \"yes\" }",
                "What a cell says and what the catalog says instead, whole cells only. What is not "
                "listed stays as it is."},
    SectionSpec{"aliases", "[aliases]",
                "Names confirmed by you: `\"as the pasted table writes it\" = \"part-id\"`. Looked "
                "at before anything else."},
};

inline constexpr std::array mapping_keys = {
    KeySpec{.section = "mapping",
            .name = "table",
            .type = KeyType::text,
            .meaning = "table of the catalog, such as gpu or offers",
            .required = true},
    KeySpec{.section = "mapping",
            .name = "separator",
            .type = KeyType::choice,
            .meaning = "what stands between the cells of the pasted table",
            .choices = "comma|semicolon|tab",
            .if_absent = "found out from its first line: tabs win, then the more frequent"},
    KeySpec{.section = "mapping",
            .name = "decimal",
            .type = KeyType::choice,
            .meaning = "its decimal sign",
            .choices = "point|comma",
            .if_absent = "point"},
    KeySpec{.section = "mapping",
            .name = "thousands",
            .type = KeyType::choice,
            .meaning = "what groups its thousands; then 1.234 may be read as 1234",
            .choices = "comma|point|space|apostrophe",
            .if_absent = "nothing does; a grouped number is an error"},
    KeySpec{.section = "mapping",
            .name = "dates",
            .type = KeyType::choice,
            .meaning = "order of its dates: year-month-day and so on, with any of - . / between",
            .choices = "ymd|dmy|mdy",
            .if_absent = "ymd"},
    KeySpec{.section = "mapping",
            .name = "unknown",
            .type = KeyType::text,
            .meaning =
                "cells that say nothing, with an upright bar between two, such as n/a and - and ?",
            .if_absent = "only empty cells say nothing"},
    KeySpec{.section = "mapping",
            .name = "unmatched",
            .type = KeyType::choice,
            .meaning = "what becomes of a row whose part is not in the catalog: an error, left out "
                       "and counted, or a new part",
            .choices = "refuse|skip|new",
            .if_absent = "new for tables of parts, titles and sellers, refuse for others"},
    KeySpec{.section = "match",
            .name = "by",
            .type = KeyType::choice,
            .meaning = "what the header below holds; aliases are tried first in any case",
            .required = true,
            .choices = "id|maker_code|alias"},
    KeySpec{.section = "match",
            .name = "from",
            .type = KeyType::text,
            .meaning = "header of the pasted table",
            .required = true},
    KeySpec{.section = "provenance",
            .name = "source",
            .type = KeyType::text,
            .meaning = "where the table comes from, in words",
            .required = true},
    KeySpec{.section = "provenance",
            .name = "seen",
            .type = KeyType::date,
            .meaning = "the day it was read",
            .required = true},
    KeySpec{.section = "provenance",
            .name = "method",
            .type = KeyType::choice,
            .meaning = "how its values were found",
            .choices = "stated|measured|estimated|invented",
            .if_absent = "stated"},
    KeySpec{.section = "columns.*",
            .name = "from",
            .type = KeyType::text,
            .meaning = "header of the pasted table; this or `constant`"},
    KeySpec{.section = "columns.*",
            .name = "constant",
            .type = KeyType::text,
            .meaning = "the same text for every row, as the catalog writes it"},
    KeySpec{.section = "columns.*",
            .name = "unit",
            .type = KeyType::text,
            .meaning = "unit of the pasted numbers, such as cm, kW, TB, CFM; may also stand behind "
                       "each number",
            .if_absent = "the unit of the column's name"},
    KeySpec{.section = "columns.*",
            .name = "remove",
            .type = KeyType::text,
            .meaning = "text to take out of every cell before it is read, such as EUR"},
    KeySpec{.section = "columns.*",
            .name = "between",
            .type = KeyType::text,
            .meaning = "columns of several words: what stands between them in the pasted table",
            .if_absent = "an upright bar"},
    KeySpec{.section = "columns.*",
            .name = "make",
            .type = KeyType::choice,
            .meaning = "make an id of the text: small letters and digits, hyphens for all else",
            .choices = "slug"},
};

}  // namespace rigproof::keys

namespace rigproof {

/// The page docs/mapping.md, whole.
[[nodiscard]] std::string mapping_page();
/// The examples that stand in the page: a pasted table of cards, its mapping, and prices.
[[nodiscard]] std::string_view mapping_example();
[[nodiscard]] std::string_view offers_mapping_example();

}  // namespace rigproof

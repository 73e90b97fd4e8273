// Records of the rules about headers: fans, the cooler's fans, lights, USB. Not for other engines:
// they use power_rules.hpp.
#pragma once

#include "claims/rule.hpp"

namespace rigproof::power {

// fan_header_rules.cpp
extern const Rule fan_header_rule, cpu_fan_header_rule;
// light_header_rule.cpp
extern const Rule light_header_rule;
// usb_header_rule.cpp
extern const Rule usb_header_rule;

}  // namespace rigproof::power

// SPDX-License-Identifier: MIT
#include "refused.hpp"

#include <boost/json.hpp>

namespace noonbench::harness {

std::string error_message(std::string_view of, std::string_view what) {
    return boost::json::serialize(boost::json::object{{"is", "error"}, {"of", of}, {"what", what}});
}

}  // namespace noonbench::harness

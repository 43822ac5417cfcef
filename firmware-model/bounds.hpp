// SPDX-License-Identifier: MIT
// The lesser, the greater and the bounded value: <algorithm> is no part of a freestanding library.
#pragma once

namespace noonbench::firmware {

template <class Value>
constexpr Value lesser(Value a, Value b) {
    return b < a ? b : a;
}

template <class Value>
constexpr Value greater(Value a, Value b) {
    return a < b ? b : a;
}

/// `value`, or the end of [least, most] that it lies beyond. least <= most.
template <class Value>
constexpr Value held_within(Value value, Value least, Value most) {
    return lesser(greater(value, least), most);
}

}  // namespace noonbench::firmware

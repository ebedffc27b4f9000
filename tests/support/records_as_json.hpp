// The store's records as the codec writes them, joined as main joins them.
#pragma once

#include <string_view>

#include "edge/codec/codec.hpp"
#include "edge/store/sqlite_store.hpp"

namespace hw::test {

inline store::Serialiser records_as_json() {
    store::Serialiser s;
    s.liquid = [](const desk::Liquid& v) { return codec::written(v); };
    s.leather = [](const desk::Leather& v) { return codec::written(v); };
    s.request = [](const desk::JudgeRequest& v) { return codec::written(v); };
    s.answer = [](const desk::JudgeAnswer& v) { return codec::written(v); };
    s.to_liquid = codec::parse_liquid;
    s.to_leather = codec::parse_leather;
    s.to_request = codec::parse_kept_request;
    s.to_answer = codec::parse_judge_answer;
    s.entry = [](const desk::Entry& v) { return codec::written(v); };
    s.instrument = [](const desk::Instrument& v) { return codec::written(v); };
    s.calibration = [](const desk::Calibration& v) { return codec::written(v); };
    s.to_entry = codec::parse_entry;
    s.to_instrument = codec::parse_instrument;
    s.to_calibration = codec::parse_calibration;
    s.shop_test = [](const desk::ShopTest& v) { return codec::written(v); };
    s.to_shop_test = codec::parse_shop_test;
    s.own_limit = [](const desk::OwnLimit& v) { return codec::written(v); };
    s.to_own_limit = codec::parse_own_limit;
    return s;
}

}  // namespace hw::test

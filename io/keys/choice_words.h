// The words of the frame file for values that have names in the code, each beside its value: one
// table for the keys, the reader and the report.
#pragma once

#include <algorithm>
#include <array>
#include <cassert>
#include <string>
#include <string_view>
#include <vector>

#include "cases/frame/frame.h"

namespace tubewright {

template <typename Value>
struct ChoiceWord {
  const char* word;
  Value value;
};

template <typename Value, std::size_t n>
using ChoiceWords = std::array<ChoiceWord<Value>, n>;

constexpr ChoiceWords<Metal, 4> metal_words = {{{"steel", Metal::steel},
                                                {"stainless", Metal::stainless},
                                                {"aluminium", Metal::aluminium},
                                                {"other", Metal::other}}};

constexpr ChoiceWords<Shape, 6> shape_words = {{{"square_tube", Shape::square_tube},
                                                {"rectangular_tube", Shape::rectangular_tube},
                                                {"round_tube", Shape::round_tube},
                                                {"round_bar", Shape::round_bar},
                                                {"flat_bar", Shape::flat_bar},
                                                {"properties", Shape::properties}}};

constexpr ChoiceWords<Corners, 3> corner_words = {{{"cold_formed", Corners::cold_formed},
                                                   {"hot_finished", Corners::hot_finished},
                                                   {"sharp", Corners::sharp}}};

constexpr ChoiceWords<MemberKind, 4> member_kind_words = {{{"beam", MemberKind::beam},
                                                           {"link", MemberKind::link},
                                                           {"cable", MemberKind::cable},
                                                           {"spring", MemberKind::spring}}};

constexpr ChoiceWords<AttachmentKind, 8> attachment_kind_words = {
    {{"tab", AttachmentKind::tab},
     {"cross_tab", AttachmentKind::cross_tab},
     {"pair", AttachmentKind::pair},
     {"saddle", AttachmentKind::saddle},
     {"through_plate", AttachmentKind::through_plate},
     {"nut", AttachmentKind::nut},
     {"sleeve", AttachmentKind::sleeve},
     {"bolt", AttachmentKind::bolt}}};

constexpr ChoiceWords<Face, 6> face_words = {{{face_names[0], Face::top},
                                              {face_names[1], Face::bottom},
                                              {face_names[2], Face::left},
                                              {face_names[3], Face::right},
                                              {face_names[4], Face::front},
                                              {face_names[5], Face::rear}}};

constexpr ChoiceWords<SheetEdge, 2> sheet_edge_words = {
    {{"simply_supported", SheetEdge::simply_supported}, {"clamped", SheetEdge::clamped}}};

constexpr ChoiceWords<SheetSide, 3> sheet_side_words = {
    {{"corners", SheetSide::by_corners}, {"top", SheetSide::top}, {"bottom", SheetSide::bottom}}};

constexpr ChoiceWords<WheelHold, 2> wheel_hold_words = {
    {{"rigid", WheelHold::rigid_upright}, {"spread", WheelHold::spread}}};

constexpr ChoiceWords<WheelBrake, 3> wheel_brake_words = {{{"outboard", WheelBrake::outboard},
                                                           {"inboard", WheelBrake::inboard},
                                                           {"none", WheelBrake::none}}};

constexpr ChoiceWords<Axle, 2> axle_words = {{{"front", Axle::front}, {"rear", Axle::rear}}};

constexpr ChoiceWords<Ground, 4> obstacle_words = {{{"half_sine", Ground::half_sine},
                                                    {"versed_sine", Ground::versed_sine},
                                                    {"pothole", Ground::pothole},
                                                    {"drop", Ground::drop}}};

constexpr ChoiceWords<RideSide, 3> ride_side_words = {
    {{"both", RideSide::both}, {"left", RideSide::left}, {"right", RideSide::right}}};

constexpr ChoiceWords<Follower, 2> follower_words = {
    {{"rigid_circle", Follower::circle}, {"point", Follower::point}}};

template <typename Value, std::size_t n>
std::vector<std::string> words_in(const ChoiceWords<Value, n>& table) {
  std::vector<std::string> words;
  for (const ChoiceWord<Value>& row : table) words.emplace_back(row.word);
  return words;
}

/// Requires (asserted): the table has the value.
template <typename Value, std::size_t n>
const char* word_for(const ChoiceWords<Value, n>& table, Value value) {
  const auto row = std::find_if(table.begin(), table.end(),
                                [&](const ChoiceWord<Value>& r) { return r.value == value; });
  assert(row != table.end());
  return row->word;
}

/// The first value if the table does not have the word, as when it could not be read.
template <typename Value, std::size_t n>
Value value_for(const ChoiceWords<Value, n>& table, std::string_view word) {
  const auto row = std::find_if(table.begin(), table.end(),
                                [&](const ChoiceWord<Value>& r) { return r.word == word; });
  return row == table.end() ? table.front().value : row->value;
}

}  // namespace tubewright

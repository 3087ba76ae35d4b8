// Vehicles with tyres, for tests of rides.
#pragma once

#include "tests/cases/small_vehicles.h"

namespace tubewright::testing {

inline RideEntry kerb_ride(double height, double speed, RideSide side = RideSide::both) {
  RideEntry ride;
  ride.name = "kerb";
  ride.height = height;
  ride.speed = speed;
  ride.side = side;
  return ride;
}

/// box_vehicle() on tyres of 90 N/mm and wheels of 0.2 m.
inline Frame rider() {
  Frame f = box_vehicle();
  f.vehicle->tyre_rate = 90e3;
  f.vehicle->roll_stiffness_front_share.reset();
  for (Wheel& w : f.vehicle->wheels) w.radius = 0.2;
  return f;
}

/// Left and right exchanged, names kept.
inline Frame mirrored(Frame f) {
  for (Node& n : f.nodes) n.at.y() *= -1;
  for (CarriedMass& m : f.masses) m.at.y() *= -1;
  for (Wheel& w : f.vehicle->wheels) {
    w.contact.y() *= -1;
    w.centre.y() *= -1;
  }
  return f;
}

/// rider() with the driver on a seat of two tubes that stands on five springs with dampers and a
/// link: six bars for its six motions.
inline Frame sprung_rider() {
  Frame f = rider();
  add_node(f, "seat", -0.7, 0, 0.8);
  add_node(f, "seat_front", -0.4, 0, 0.8);
  add_node(f, "seat_side", -0.7, 0.2, 0.8);
  add_member(f, "seat_1", "seat", "seat_front");
  add_member(f, "seat_2", "seat", "seat_side");
  f.masses.front().on = {"seat", "seat_front", "seat_side"};
  f.masses.front().at = {-0.6, 0.05, 0.8};
  const std::string section = f.members.front().section;
  const auto bar = [&](const std::string& from, const std::string& to, MemberKind kind) {
    Member m;
    m.name = from + "_" + to;
    m.from = from;
    m.to = to;
    m.kind = kind;
    if (kind == MemberKind::spring) {
      m.rate = 30e3;
      m.damping = 600;
    } else {
      m.section = section;
    }
    f.members.push_back(m);
  };
  bar("seat", "rl1", MemberKind::spring);
  bar("seat", "rr1", MemberKind::spring);
  bar("seat_front", "fr1", MemberKind::spring);
  bar("seat_front", "fl1", MemberKind::spring);
  bar("seat_side", "rl1", MemberKind::spring);
  bar("seat_side", "fl1", MemberKind::link);
  return f;
}

}  // namespace tubewright::testing

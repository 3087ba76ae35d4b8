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

/// The same with the driver's mass on springs and dampers above the frame: the mass on a bridge of
/// its own, which six links and springs hold.
inline Frame sprung_rider() {
  Frame f = rider();
  add_node(f, "seat", -0.7, 0, 0.8);
  add_node(f, "seat_front", -0.4, 0, 0.8);
  add_member(f, "bench", "seat", "seat_front");
  f.masses.front().on = {"seat", "seat_front"};
  f.masses.front().at = {-0.6, 0, 0.8};
  const auto bar = [&](const std::string& name, const std::string& from, const std::string& to,
                       bool spring) {
    Member m;
    m.name = name;
    m.from = from;
    m.to = to;
    m.kind = spring ? MemberKind::spring : MemberKind::link;
    if (spring) {
      m.rate = 30e3;
      m.damping = 600;
    } else {
      m.section = f.members.front().section;
    }
    f.members.push_back(m);
  };
  bar("spring_l", "seat", "rl1", true);
  bar("spring_r", "seat", "rr1", true);
  bar("spring_f", "seat_front", "fl1", true);
  bar("spring_g", "seat_front", "fr1", true);
  bar("stay_l", "seat", "fl1", false);
  return f;
}

}  // namespace tubewright::testing

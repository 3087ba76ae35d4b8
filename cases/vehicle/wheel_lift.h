// How little it takes to lift a wheel of a vehicle on four.
#pragma once

namespace tubewright {

/// Greatest couple that the road can put into the frame quasi-statically, N m: with a wheel of the
/// lighter axle just off the ground, min(N_f t_f, N_r t_r)/2. N: load of an axle, t: its track.
double lifting_couple(double front_load, double front_track, double rear_load, double rear_track);

/// Height of a bump under one front wheel that lifts its neighbour, m: frame, front and rear axle
/// are springs in series, z = t_f tan(T (1/K_c + 1/K_f + 1/K_r)). Stiffnesses in N m/rad.
double lifting_bump(double couple, double front_track, double frame_stiffness,
                    double front_roll_stiffness, double rear_roll_stiffness);

/// Roll stiffness of two wheel or tyre rates k at track t: k t^2/2, N m/rad.
double roll_stiffness(double rate, double track);

}  // namespace tubewright

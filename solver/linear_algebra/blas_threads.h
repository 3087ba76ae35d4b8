// How many threads the BLAS may take: the one place where that is decided.
//
// Of a small frame's supernodes the threads of a BLAS make many pieces of a microsecond each and
// then wait for one another, worse if the program's own threads work on several cases at once:
// measured up to seven times as long as with one. Only a single large factorisation gains by them.
#pragma once

namespace tubewright {

/// Multiplications and additions of a factorisation from which on the BLAS's own threads pay
/// (measured with tests/bench on two cores: a quarter of a second's work).
constexpr double work_for_blas_threads = 1e9;

/// While one of these lives the BLAS keeps to the calling thread, or, if it was made for a large
/// work, to as many as it was set to by its user. Any number at a time, in any threads. It does
/// nothing with a BLAS that cannot be asked (OpenBLAS can).
class BlasThreads {
 public:
  explicit BlasThreads(bool large);
  ~BlasThreads();
  BlasThreads(const BlasThreads&) = delete;
  BlasThreads& operator=(const BlasThreads&) = delete;

 private:
  bool large_;
};

}  // namespace tubewright

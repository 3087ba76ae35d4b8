// Another number of processors for in_parallel(), for tests.
#pragma once

#include "cases/analysis/in_parallel.h"

namespace tubewright::testing {

/// `idle` processors beside the caller's own while it lives.
class IdleProcessors {
 public:
  explicit IdleProcessors(int idle) : before_(idle_processors().exchange(idle)) {}
  ~IdleProcessors() { idle_processors() = before_; }
  IdleProcessors(const IdleProcessors&) = delete;
  IdleProcessors& operator=(const IdleProcessors&) = delete;

 private:
  int before_;
};

}  // namespace tubewright::testing

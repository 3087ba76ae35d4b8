// The parts of the table of keys, one a subject.
#pragma once

#include "io/keys/frame_keys.h"

namespace tubewright {

SharedKind materials_kind();
SharedKind sections_kind();
SharedKind members_kind();
SharedKind attachments_kind();
SharedKind gussets_kind();
SharedKind supports_kind();
SharedKind masses_kind();
SharedKind sheets_kind();
SharedKind panels_kind();
SharedKind vehicle_kind();
SharedKind cases_kind();
SharedKind rides_kind();
SharedKind life_kind();
SharedKind stock_kind();
SharedKind bench_test_kind();

/// The keys of a tube's or bar's shape, from `shape` to its last dimension.
std::vector<Key> shape_keys(const std::string& shape);
/// Of `properties` as the stock list has them: only the area is needed.
std::vector<Key> stock_properties_keys();
/// "a square tube".
std::string shape_title(const std::string& shape);

}  // namespace tubewright

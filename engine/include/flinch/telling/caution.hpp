#pragma once

namespace flinch {

/// What stands below everything that names a cause or a measure.
extern char const* const caution;

}  // namespace flinch

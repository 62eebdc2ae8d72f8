// All rooms in one source: no two of them give one name two meanings.
#include <lakebound/bath.hpp>
#include <lakebound/estimate.hpp>
#include <lakebound/material.hpp>
#include <lakebound/page.hpp>
#include <lakebound/paint.hpp>
#include <lakebound/particle.hpp>
#include <lakebound/quantity.hpp>
#include <lakebound/record.hpp>
#include <lakebound/report.hpp>
#include <lakebound/shelf.hpp>
#include <lakebound/version.hpp>

static_assert(LAKEBOUND_VERSION_NUMBER == lakebound::version_major * 10000 + lakebound::version_minor * 100 + lakebound::version_patch);

// Two volumes of which nobody sees which is the pigment: turned round they would make another PVC.
// expect: could not convert|cannot convert|no matching function
#include "lakebound/paint/pvc.hpp"

using namespace lakebound;

PigmentVolumeConcentration pvc(Volume binder, Volume pigment) {
#ifdef LAKEBOUND_BAD
    return pigment_volume_concentration(binder, pigment); // BAD
#else
    return pigment_volume_concentration({.pigment = pigment, .dry_binder = binder});
#endif
}

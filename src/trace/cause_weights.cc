#include "trace/cause_weights.h"

#include <algorithm>

#include "house/index.h"

namespace ohmstead::trace_detail {

const Device* CauseWeights::device_of(const HandleRef& handle) const {
  if (handle.kind != HandleKind::device) return nullptr;
  const Handle* row = find_row(house_, Id<Handle>{handle.id});
  return row == nullptr ? nullptr : find_row(house_, row->device);
}

double CauseWeights::trips(const HandleRef& handle) const {
  const Device* device = device_of(handle);
  double weight = 0;
  if (handle.kind == HandleKind::breaker || handle.kind == HandleKind::position_breaker) weight = 1;
  if (handle.kind == HandleKind::main) weight = 0.1;
  if (device != nullptr && device->kind == DeviceKind::gfci_receptacle) weight = 2.5;
  if (weight == 0) return 0;
  const auto before = std::ranges::count_if(house_.trips, [&](const Trip& trip) { return trip.handle == handle && !trip.withdrawn; });
  return weight * static_cast<double>(1 + std::min<long>(before, 5)) * after(Before::appliance_started, 3) * after(Before::to_backup, 1.5);
}

double CauseWeights::fails(const HandleRef& handle) const {
  const Device* device = device_of(handle);
  const double weight = device == nullptr ? 0.1 : device->kind == DeviceKind::gfci_receptacle ? 0.3 : 0.2;
  return weight * after(Before::work_done, 3);
}

double CauseWeights::left_off(const HandleRef& handle) const {
  const Device* device = device_of(handle);
  if (handle.kind == HandleKind::position) return 0.5 * after(Before::to_backup, 6);
  if (device != nullptr && device->kind == DeviceKind::wall_switch) return 1.5;
  if (device != nullptr && device->kind == DeviceKind::disconnect) return 0.3 * after(Before::work_done, 4);
  if (device != nullptr) return 0.02;  // a GFCI that somebody tested and forgot
  return (handle.kind == HandleKind::main ? 0.05 : 0.15) * after(Before::work_done, 6) * after(Before::to_backup, 2);
}

}  // namespace ohmstead::trace_detail

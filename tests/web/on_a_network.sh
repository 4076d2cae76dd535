#!/bin/sh
# on_a_network.sh PROGRAM...: runs it where this computer has an address of a home network (192.168.77.1) and no other way out: in a network
# of its own, which ends with it. Exit code 77 where that is not possible.
set -eu
if [ "${1:-}" != --inside ]; then
  unshare -rn true 2>/dev/null || { echo "No network of its own can be made here (unshare -rn)."; exit 77; }
  command -v ip >/dev/null || { echo "There is no 'ip' (iproute2) here."; exit 77; }
  exec unshare -rn sh "$0" --inside "$@"
fi
shift
ip link set lo up
ip link add home0 type veth peer name home1 || { echo "No link can be made here."; exit 77; }
ip address add 192.168.77.1/24 dev home0
ip link set home0 up
ip link set home1 up
exec "$@"

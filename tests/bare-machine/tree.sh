# A fresh Debian 12 in a folder, and commands run inside it: sourced by run and by tests/package/run.
# Needs root, debootstrap and the right to chroot and mount; says so (exit 77) where one is missing.

bare_refuse() {
  echo "no bare machine here: $1" >&2
  exit 77
}

# bare_can: ends the script where no bare tree can be made.
bare_can() {
  [ "$(id -u)" = 0 ] || bare_refuse "it takes root"
  local program
  for program in debootstrap unshare chroot; do
    command -v "$program" >/dev/null || bare_refuse "no $program (apt-get install debootstrap util-linux)"
  done
  unshare --mount --pid --fork chroot / true 2>/dev/null || bare_refuse "chroot or mounting is not allowed"
}

# The package sources of this machine that are Debian's own, as lines for the tree.
bare_sources() {
  apt-get indextargets --format '$(ORIGIN) deb $(SITE) $(RELEASE) $(COMPONENT)' |
    awk '$1 == "Debian" && /bookworm/ {print $2, $3, $4, $5}' | sort -u
}

# bare_tree FOLDER: the smallest Debian 12, with this machine's package sources and settings for them.
bare_tree() {
  local tree=$1 mirror
  mirror=$(bare_sources | awk '$3 == "bookworm" {print $2; exit}')
  [ -n "$mirror" ] || bare_refuse "this machine has no package source of Debian 12 (bookworm)"
  rm -rf --one-file-system "$tree"
  mkdir -p "$tree"
  debootstrap --variant=minbase bookworm "$tree" "$mirror" >"$tree.log" 2>&1 || {
    tail -5 "$tree.log" >&2
    return 1
  }
  bare_sources >"$tree/etc/apt/sources.list"
  apt-config dump | grep -iE '^Acquire::https?::(proxy|cainfo)' >"$tree/etc/apt/apt.conf.d/90bare" || true
  # Where this machine's npm trusts a certificate of its own, so must the tree's.
  local trusted
  trusted=$(npm config get cafile 2>/dev/null || true)
  if [ -s "$trusted" ]; then
    cp -L "$trusted" "$tree/root/trusted.crt"
    echo "cafile=/root/trusted.crt" >"$tree/root/.npmrc"
  fi
  cp -L /etc/resolv.conf "$tree/etc/resolv.conf"
  rm -f "$tree"/var/cache/apt/archives/*.deb
}

# bare_in FOLDER COMMAND...: runs it inside, with nothing of this machine's environment but its proxies.
# Mounts and processes are the namespace's own: both are gone when the command ends.
bare_in() {
  local tree=$1
  shift
  unshare --mount --pid --fork --kill-child sh -c '
    tree=$1; shift
    mount -t proc proc "$tree/proc" && mount --rbind /dev "$tree/dev" || exit 77
    exec chroot "$tree" env -i PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin \
      HOME=/root LANG=C.UTF-8 TERM=dumb ${http_proxy:+http_proxy="$http_proxy"} \
      ${https_proxy:+https_proxy="$https_proxy"} "$@"' sh "$tree" "$@"
}

# What apt has fetched in the tree since it was made, and what lies on its disk but for what apt keeps for itself, in MB.
bare_fetched() {
  find "$1/var/cache/apt/archives" -name '*.deb' -printf '%s\n' | awk '{s += $1} END {printf "%.0f\n", s / 1e6}'
}
bare_disk() {
  du -sx --block-size=1MB --exclude="$1/var/cache/apt" --exclude="$1/var/lib/apt" "$1" | cut -f1
}

#include "web/secret.h"

#include <sys/random.h>

#include <nettle/memops.h>
#include <nettle/sha2.h>

#include <cerrno>
#include <vector>

#include "house/error.h"

namespace ohmstead::web {

namespace {

void fill_random(std::uint8_t* into, std::size_t bytes) {
  while (bytes > 0) {
    const ssize_t got = getrandom(into, bytes, 0);
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) throw Error(ErrorKind::output, "This computer gives no random numbers, so no device can be paired; nothing was changed.");
    into += got, bytes -= static_cast<std::size_t>(got);
  }
}

}  // namespace

std::string random_text(std::size_t bytes) {
  constexpr std::string_view kSigns = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  std::vector<std::uint8_t> random(bytes);
  fill_random(random.data(), bytes);
  std::string text;
  unsigned bits = 0, held = 0;
  for (const std::uint8_t byte : random) {
    bits = (bits << 8U | byte) & 0xFFFFU;
    for (held += 8; held >= 6; held -= 6) text += kSigns[bits >> (held - 6) & 63U];
  }
  if (held > 0) text += kSigns[bits << (6 - held) & 63U];
  return text;
}

std::string random_digits(std::size_t count) {
  std::string text;
  while (text.size() < count) {
    std::uint8_t byte = 0;
    fill_random(&byte, 1);
    if (byte < 250) text += static_cast<char>('0' + byte % 10);  // 250..255 would make 0 to 5 likelier
  }
  return text;
}

std::uint64_t random_number() {
  std::uint8_t bytes[8];
  fill_random(bytes, sizeof bytes);
  std::uint64_t number = 0;
  for (const std::uint8_t byte : bytes) number = number << 8U | byte;
  return number;
}

SecretHash hash_of(std::string_view text) {
  sha256_ctx context;
  sha256_init(&context);
  sha256_update(&context, text.size(), reinterpret_cast<const std::uint8_t*>(text.data()));
  SecretHash hash{};
  sha256_digest(&context, hash.size(), hash.data());
  return hash;
}

bool same_secret(std::string_view given, std::string_view right) {
  return given.size() == right.size() && memeql_sec(given.data(), right.data(), right.size()) != 0;
}

}  // namespace ohmstead::web

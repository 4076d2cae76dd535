#include "web/pairing.h"

#include <gtest/gtest.h>

#include <set>

namespace ohmstead::web {
namespace {

using std::chrono::hours, std::chrono::minutes, std::chrono::seconds;

class PairingTest : public testing::Test {
 protected:
  std::optional<PairedDevice> paired(const std::string& code, const std::string& name = "Phone") {
    const auto tried = pairing.pair(code, name, "10.0.0.2");
    if (const auto* device = std::get_if<PairedDevice>(&tried)) return *device;
    return std::nullopt;
  }
  NotPaired why_not(const std::string& code, const std::string& address = "10.0.0.2") { return std::get<NotPaired>(pairing.pair(code, "", address)); }
  static std::string other_digits(const std::string& digits) { return (digits[0] == '9' ? "0" : "9") + digits.substr(1); }

  Moment now{};
  Pairing pairing{[this] { return now; }};
};

TEST_F(PairingTest, nothing_pairs_before_a_code_is_offered) {
  EXPECT_EQ(why_not(""), NotPaired::wrong);
  EXPECT_EQ(why_not("00000000"), NotPaired::wrong);
  EXPECT_EQ(why_not("AAAAAAAAAAAAAAAAAAAAAA"), NotPaired::wrong);
}

TEST_F(PairingTest, a_secret_pairs_one_device_once_with_its_role) {
  const Offer offer = pairing.offer(Role::trace);
  EXPECT_EQ(offer.secret.size(), 22U);
  const auto device = paired(offer.secret, "Ana");
  ASSERT_TRUE(device);
  EXPECT_EQ(device->device.role, Role::trace);
  EXPECT_EQ(device->device.name, "Ana");
  EXPECT_EQ(device->cookie.size(), 43U);
  EXPECT_EQ(why_not(offer.secret), NotPaired::wrong);
  EXPECT_EQ(why_not(offer.digits), NotPaired::wrong) << "the digits are of the same code";
}

TEST_F(PairingTest, digits_pair_with_gaps_in_them) {
  const Offer offer = pairing.offer(Role::look);
  EXPECT_TRUE(paired(offer.digits.substr(0, 4) + " " + offer.digits.substr(4, 2) + "-" + offer.digits.substr(6)));
}

TEST_F(PairingTest, digits_last_three_minutes_and_the_secret_an_hour) {
  const Offer first = pairing.offer(Role::look);
  now += kDigitsLast - seconds(1);
  EXPECT_TRUE(paired(first.digits));
  const Offer offer = pairing.offer(Role::look);
  now += kDigitsLast;
  EXPECT_EQ(why_not(offer.digits), NotPaired::wrong);
  now += kSecretLasts - kDigitsLast - seconds(1);
  EXPECT_TRUE(paired(offer.secret));
  const Offer old = pairing.offer(Role::look);
  now += kSecretLasts;
  EXPECT_EQ(why_not(old.secret), NotPaired::wrong);
}

TEST_F(PairingTest, after_five_wrong_tries_the_right_digits_are_wrong_too_but_not_the_secret) {
  const Offer offer = pairing.offer(Role::look);
  for (int i = 0; i < kMostTries; ++i) {
    EXPECT_EQ(why_not(other_digits(offer.digits)), NotPaired::wrong) << i;
    now += seconds(10);
  }
  EXPECT_EQ(why_not(offer.digits), NotPaired::wrong);
  EXPECT_TRUE(paired(offer.secret));
}

TEST_F(PairingTest, what_cannot_be_the_digits_does_not_use_up_a_try) {
  const Offer offer = pairing.offer(Role::look);
  for (const char* code : {"", "1234567", "123456789", "abcdefgh", "AAAAAAAAAAAAAAAAAAAAAA", "1234567x"}) {
    EXPECT_EQ(why_not(code), NotPaired::wrong) << code;
    now += seconds(10);
  }
  EXPECT_TRUE(paired(offer.digits));
}

TEST_F(PairingTest, digits_are_tried_slowly_from_one_address_and_in_all) {
  const Offer offer = pairing.offer(Role::look);
  const std::string wrong = other_digits(offer.digits);
  for (int i = 0; i < 5; ++i) EXPECT_EQ(why_not(wrong), NotPaired::wrong);
  EXPECT_EQ(why_not(wrong), NotPaired::too_often);
  for (int i = 0; i < 5; ++i) EXPECT_EQ(why_not(wrong, "10.0.1." + std::to_string(i)), NotPaired::wrong);
  EXPECT_EQ(why_not(wrong, "10.0.2.1"), NotPaired::too_often);
  EXPECT_TRUE(paired(offer.secret)) << "who has the secret is not held up by others who guess";
}

TEST_F(PairingTest, a_new_code_makes_the_one_before_void) {
  const Offer first = pairing.offer(Role::change), second = pairing.offer(Role::look);
  EXPECT_EQ(why_not(first.secret), NotPaired::wrong);
  EXPECT_EQ(why_not(first.digits), NotPaired::wrong);
  EXPECT_EQ(paired(second.secret)->device.role, Role::look);
}

TEST_F(PairingTest, a_cookie_is_known_until_its_device_is_taken_off) {
  const auto device = paired(pairing.offer(Role::trace).secret);
  ASSERT_TRUE(device);
  EXPECT_EQ(pairing.device_of(device->cookie)->number, device->device.number);
  for (const std::string& cookie : {std::string(), device->cookie.substr(1), device->cookie + "A"}) EXPECT_FALSE(pairing.device_of(cookie)) << cookie;
  EXPECT_FALSE(pairing.revoke(device->device.number + 1));
  EXPECT_TRUE(pairing.revoke(device->device.number));
  EXPECT_FALSE(pairing.device_of(device->cookie));
  EXPECT_FALSE(pairing.revoke(device->device.number));
}

TEST_F(PairingTest, devices_are_listed_in_the_order_they_came) {
  for (const char* name : {"a", "b", "c"}) EXPECT_TRUE(paired(pairing.offer(Role::look).secret, name));
  const auto rows = pairing.devices();
  ASSERT_EQ(rows.size(), 3U);
  EXPECT_EQ(rows[0].device.name, "a");
  EXPECT_EQ(rows[2].device.name, "c");
  EXPECT_LT(rows[0].device.number, rows[2].device.number);
  EXPECT_EQ(rows[0].address, "10.0.0.2");
}

TEST_F(PairingTest, there_is_a_most_of_devices_and_refusing_one_more_uses_no_code_up) {
  for (std::size_t i = 0; i < kMostDevices; ++i) ASSERT_TRUE(paired(pairing.offer(Role::look).secret));
  const Offer offer = pairing.offer(Role::look);
  EXPECT_EQ(why_not(offer.secret), NotPaired::too_many);
  pairing.revoke(1);
  EXPECT_TRUE(paired(offer.secret));
}

TEST_F(PairingTest, a_long_name_is_cut_between_characters) {
  const std::string name(kLongestDeviceName - 1, 'a');
  EXPECT_EQ(paired(pairing.offer(Role::look).secret, name + "ééé")->device.name, name);
}

TEST_F(PairingTest, asking_for_a_code_pairing_and_doing_something_are_signs_of_a_person_and_a_cookie_alone_is_not) {
  now += hours(1);
  const Offer offer = pairing.offer(Role::look);
  EXPECT_EQ(pairing.last_person(), now);
  now += minutes(1);
  const auto device = paired(offer.secret);
  EXPECT_EQ(pairing.last_person(), now);
  const Moment before = now;
  now += minutes(1);
  EXPECT_TRUE(pairing.device_of(device->cookie));
  EXPECT_EQ(pairing.last_person(), before);
  EXPECT_EQ(pairing.devices()[0].last_seen, now);
  pairing.note_person();
  EXPECT_EQ(pairing.last_person(), now);
}

TEST(Secret, texts_have_the_bits_they_say_and_none_comes_twice) {
  std::set<std::string> seen;
  std::string all;
  for (int i = 0; i < 500; ++i) {
    const std::string text = random_text(16);
    EXPECT_EQ(text.size(), 22U);
    EXPECT_TRUE(seen.insert(text).second);
    all += text;
  }
  EXPECT_EQ(all.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"), std::string::npos);
  EXPECT_EQ(std::set<char>(all.begin(), all.end()).size(), 64U) << "all signs are in use";
  const std::string digits = random_digits(2000);
  EXPECT_EQ(std::set<char>(digits.begin(), digits.end()), std::set<char>({'0', '1', '2', '3', '4', '5', '6', '7', '8', '9'}));
}

TEST(Secret, the_hash_is_sha_256) {
  // FIPS 180-4's example: SHA-256 of "abc" begins BA7816BF (from memory of the published example).
  const SecretHash hash = hash_of("abc");
  EXPECT_EQ(hash[0], 0xBA);
  EXPECT_EQ(hash[1], 0x78);
  EXPECT_EQ(hash[2], 0x16);
  EXPECT_EQ(hash[30], 0x15);
  EXPECT_EQ(hash[31], 0xAD);
}

TEST(Secret, secrets_are_the_same_only_whole) {
  EXPECT_TRUE(same_secret("abc", "abc"));
  for (const char* other : {"", "ab", "abcd", "abC"}) EXPECT_FALSE(same_secret(other, "abc")) << other;
}

}  // namespace
}  // namespace ohmstead::web

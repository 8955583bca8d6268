// Ids that a client makes, and addresses that it is given.

#include "client/sync/ids.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <set>

#include "client/sync/connection.h"

namespace squeezeout {
namespace {

TEST(Ids, AreAllDifferent) {
  std::set<CommandId> ids;
  for (int i = 0; i < 1000; ++i) ids.insert(new_command_id());
  EXPECT_EQ(ids.size(), 1000U);
}

TEST(Ids, OfADeviceIsKeptInItsFile) {
  const auto folder =
      std::filesystem::temp_directory_path() / ("squeezeout-ids-" + std::to_string(getpid()));
  const std::string file = folder / "deep" / "device";
  const DeviceId first = device_id(file);
  EXPECT_EQ(device_id(file), first);
  EXPECT_EQ(std::filesystem::file_size(file), 16U);
  std::filesystem::resize_file(file, 7);  // a damaged file is written anew
  const DeviceId second = device_id(file);
  EXPECT_NE(second, first);
  EXPECT_EQ(device_id(file), second);
  std::filesystem::remove_all(folder);
}

TEST(Ids, OfADeviceThatCannotKeepItIsNewEachTime) {
  EXPECT_NE(device_id("/proc/no-such-place/device"), device_id("/proc/no-such-place/device"));
}

struct AddressCase {
  const char* text;
  const char* host;
  const char* port;
};

TEST(Addresses, AreRead) {
  for (const AddressCase& a : {AddressCase{"shop.local:7800", "shop.local", "7800"},
                               {"192.168.1.5", "192.168.1.5", "7733"},
                               {":7800", "127.0.0.1", "7800"},
                               {"[::1]:7800", "::1", "7800"},
                               {"[::1]", "::1", "7733"},
                               {"", "127.0.0.1", "7733"}}) {
    const auto read = parse_address(a.text);
    ASSERT_TRUE(read.has_value()) << a.text;
    EXPECT_EQ(*read, (Address{a.host, a.port})) << a.text;
  }
}

TEST(Addresses, ThatAreNoneAreRefused) {
  for (const char* text : {"shop:", "shop:port", "shop:123456", "shop:70000", "[::1", "[::1]7800"})
    EXPECT_FALSE(parse_address(text).has_value()) << text;
}

}  // namespace
}  // namespace squeezeout

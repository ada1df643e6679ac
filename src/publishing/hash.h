#pragma once
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

// SHA-256 (FIPS 180-4), computed by OpenSSL's libcrypto, which uses the processor's own instructions where it
// has them.
namespace saggar::publishing {

class Sha256 {
 public:
  Sha256();
  ~Sha256();
  Sha256(Sha256&&) noexcept;
  Sha256& operator=(Sha256&&) noexcept;
  void update(std::string_view bytes);
  std::string hex();  // 64 lower-case digits; call once, at the end

 private:
  struct State;
  std::unique_ptr<State> state_;
};

std::string sha256Of(std::string_view bytes);

// An ordinary file read to its end, never through a link in its last step.
struct FileDigest {
  int error = 0;  // errno; ELOOP for a link, EINVAL for what is no ordinary file
  std::string sha256;
  std::uint64_t bytes = 0;
  std::uint64_t inode = 0;
};
FileDigest digestOfFile(const std::string& path);

}  // namespace saggar::publishing

#include "publishing/hash.h"

#include <fcntl.h>
#include <openssl/evp.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cassert>
#include <cerrno>
#include <vector>

namespace saggar::publishing {

struct Sha256::State {
  EVP_MD_CTX* context = EVP_MD_CTX_new();
  ~State() { EVP_MD_CTX_free(context); }
};

Sha256::Sha256() : state_(std::make_unique<State>()) {
  static const EVP_MD* const kind = EVP_MD_fetch(nullptr, "SHA256", nullptr);
  const int begun = EVP_DigestInit_ex(state_->context, kind, nullptr);
  assert(begun == 1 && "libcrypto has no SHA-256");
  static_cast<void>(begun);
}
Sha256::~Sha256() = default;
Sha256::Sha256(Sha256&&) noexcept = default;
Sha256& Sha256::operator=(Sha256&&) noexcept = default;

void Sha256::update(std::string_view bytes) {
  EVP_DigestUpdate(state_->context, bytes.data(), bytes.size());
}

std::string Sha256::hex() {
  unsigned char digest[EVP_MAX_MD_SIZE];
  unsigned length = 0;
  EVP_DigestFinal_ex(state_->context, digest, &length);
  std::string out;
  out.reserve(length * 2);
  for (unsigned i = 0; i < length; ++i) {
    out += "0123456789abcdef"[digest[i] >> 4];
    out += "0123456789abcdef"[digest[i] & 15];
  }
  return out;
}

std::string sha256Of(std::string_view bytes) {
  Sha256 hash;
  hash.update(bytes);
  return hash.hex();
}

FileDigest digestOfFile(const std::string& path) {
  FileDigest result;
  const int file = open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
  if (file < 0) {
    result.error = errno;
    return result;
  }
  struct stat info;
  if (fstat(file, &info) != 0 || !S_ISREG(info.st_mode)) {
    result.error = EINVAL;
  } else {
    result.inode = info.st_ino;
    Sha256 hash;
    std::vector<char> buffer(info.st_size < (1 << 16) ? 1 << 14 : 1 << 18);
    while (true) {
      const ssize_t got = ::read(file, buffer.data(), buffer.size());
      if (got < 0 && errno == EINTR) continue;
      if (got < 0) result.error = errno;
      if (got <= 0) break;
      hash.update({buffer.data(), static_cast<std::size_t>(got)});
      result.bytes += static_cast<std::uint64_t>(got);
    }
    result.sha256 = hash.hex();
  }
  close(file);
  return result;
}

}  // namespace saggar::publishing

#include "publishing/problem.h"

#include <cerrno>
#include <cstring>

#include "base/text.h"
#include "base/utf8.h"

namespace saggar::publishing {

std::string reasonInWords(int error) {
  switch (error) {
    case ENOSPC: return "the disk is full";
    case EDQUOT: return "your share of the disk is used up";
    case EROFS: return "the disk can only be read";
    case EACCES:
    case EPERM: return "permission denied";
    case ENOENT: return "no such file or folder";
    case ENOTDIR: return "a part of its path is a file, not a folder";
    case EISDIR: return "it is a folder";
    case EEXIST: return "there is something of that name already";
    case ENAMETOOLONG: return "the name is too long";
    case ELOOP: return "its links run in a ring";
    case EFBIG: return "the file is larger than this system allows";
    case EIO: return "the disk reported a fault";
    case EBUSY: return "it is in use";
    case EXDEV: return "it lies on another disk";
    case EMFILE:
    case ENFILE: return "too many files are open";
    case ENOMEM: return "the memory is used up";
    case ENOLCK:
    case ENOSYS:
    case EOPNOTSUPP: return "this kind of disk cannot do it";
    default: {
      std::string text = std::strerror(error);
      if (!text.empty() && base::isUpper(text[0])) text[0] = static_cast<char>(text[0] - 'A' + 'a');
      return text;
    }
  }
}

namespace {

std::string hintFor(int error, const std::string& option) {
  switch (error) {
    case ENOSPC:
    case EDQUOT:
    case EFBIG: return "make room, or choose a folder on another disk with " + option;
    case EROFS: return "choose a folder on a disk that can be written with " + option;
    case EACCES:
    case EPERM:
      return "make the folder and the one around it writable for you, or choose another with " + option;
    case ENAMETOOLONG: return "choose a folder with a shorter path with " + option;
    case EBUSY:
    case EXDEV:
      return "choose a folder that is no disk or share of its own, as one inside it, with " + option;
    case EIO: return "have the disk looked at, or choose a folder on another one with " + option;
    default: return "choose another folder with " + option;
  }
}

}  // namespace

Problem diskProblem(std::string_view what, int error, std::string_view option) {
  return {std::string(what) + ": " + reasonInWords(error), hintFor(error, std::string(option))};
}

std::string shownPath(std::string_view path) {
  std::string out;
  std::size_t at = 0;
  while (at < path.size()) {
    char32_t c = base::nextCodePoint(path, at);
    if (c < 0x20 || (c >= 0x7F && c < 0xA0)) c = 0xFFFD;
    base::appendUtf8(out, c);
  }
  return base::shortened(out, 300);
}

}  // namespace saggar::publishing

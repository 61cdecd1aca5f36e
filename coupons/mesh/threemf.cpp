// 3MF (3MF Consortium, Core Specification 1.x) through lib3mf's C interface.

#include <Model/COM/NMR_DLLInterfaces.h>

#include <cstdint>
#include <memory>
#include <string_view>
#include <vector>

#include "base/file.hpp"
#include "mesh/mesh.hpp"

namespace fitwright {
namespace {

using Handle = NMR::PLib3MFBase*;

struct Release {
  void operator()(Handle handle) const { NMR::lib3mf_release(handle); }
};
using Owned = std::unique_ptr<NMR::PLib3MFBase, Release>;

/// Calls of the library in a row; after the first that fails the others are left out.
class Calls {
 public:
  template <class Function, class... Arguments>
  void call(Function function, Arguments... arguments) {
    if (good_) good_ = function(arguments...) == 0;
  }
  /// As call(), for a function whose last argument gives back a handle.
  template <class Function, class... Arguments>
  Owned make(Function function, Arguments... arguments) {
    Handle handle = nullptr;
    call(function, arguments..., &handle);
    return Owned(handle);
  }
  [[nodiscard]] bool good() const { return good_; }

 private:
  bool good_ = true;
};

std::uint64_t fnv_1a(std::string_view bytes, std::uint64_t hash) {
  constexpr std::uint64_t prime = 0x100000001B3U;  // FNV-1a, 64 bits
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * prime;
  return hash;
}

/// An identifier in the form of RFC 4122 made from the content, so that equal meshes give equal files: the library
/// would draw one at random.
std::string identifier(std::string_view content, std::string_view part) {
  constexpr std::uint64_t basis = 0xCBF29CE484222325U;  // FNV-1a, 64 bits
  constexpr std::string_view digits = "0123456789abcdef";
  const std::uint64_t high = fnv_1a(content, fnv_1a(part, basis)), low = fnv_1a(content, fnv_1a(part, high));
  std::string hex;
  for (const std::uint64_t half : {high, low})
    for (int shift = 60; shift >= 0; shift -= 4) hex.push_back(digits[half >> shift & 0xFU]);
  hex[12] = '5';  // "made from a name"
  hex[16] = digits[8 + (low >> 60 & 3U)];
  std::string out;
  for (std::size_t i = 0; i < hex.size(); ++i) {
    if (i == 8 || i == 12 || i == 16 || i == 20) out.push_back('-');
    out.push_back(hex[i]);
  }
  return out;
}

std::string bytes_of(const Mesh& mesh, const std::string& name, bool& good) {
  std::vector<NMR::MODELMESHVERTEX> vertices;
  vertices.reserve(mesh.vertices.size());
  for (const auto& [x, y, z] : mesh.vertices)
    vertices.push_back({{static_cast<float>(x), static_cast<float>(y), static_cast<float>(z)}});
  std::vector<NMR::MODELMESHTRIANGLE> triangles;
  triangles.reserve(mesh.triangles.size());
  for (const auto& [a, b, c] : mesh.triangles) triangles.push_back({{a, b, c}});

  const std::string content = name + '\0' + to_stl(mesh);
  Calls lib;
  const Owned model = lib.make(NMR::lib3mf_createmodel);
  lib.call(NMR::lib3mf_model_setunit, model.get(), static_cast<DWORD>(NMR::MODELUNIT_MILLIMETER));
  lib.call(NMR::lib3mf_model_setbuilduuidutf8, model.get(), identifier(content, "build").c_str());
  const Owned object = lib.make(NMR::lib3mf_model_addmeshobject, model.get());
  lib.call(NMR::lib3mf_object_setnameutf8, object.get(), name.c_str());
  lib.call(NMR::lib3mf_object_setuuidutf8, object.get(), identifier(content, "object").c_str());
  lib.call(NMR::lib3mf_meshobject_setgeometry, object.get(), vertices.data(), static_cast<DWORD>(vertices.size()),
           triangles.data(), static_cast<DWORD>(triangles.size()));
  const Owned item =
      lib.make(NMR::lib3mf_model_addbuilditem, model.get(), object.get(), static_cast<NMR::MODELTRANSFORM*>(nullptr));
  lib.call(NMR::lib3mf_builditem_setuuidutf8, item.get(), identifier(content, "item").c_str());
  const Owned writer = lib.make(NMR::lib3mf_model_querywriter, model.get(), "3mf");
  ULONG64 size = 0;
  lib.call(NMR::lib3mf_writer_getstreamsize, writer.get(), &size);
  std::string bytes(size, '\0');
  lib.call(NMR::lib3mf_writer_writetobuffer, writer.get(), reinterpret_cast<BYTE*>(bytes.data()), size);
  good = lib.good();
  return bytes;
}

}  // namespace

Result<Done> write_3mf(const Mesh& mesh, const std::string& name, const std::string& path) {
  bool good = false;
  const std::string bytes = bytes_of(mesh, name, good);
  if (!good)
    return Problem{Code::io, {path, 0, 0}, "could not be put into the form of a 3MF file", "write an STL file instead"};
  return write_whole(path, bytes);
}

}  // namespace fitwright

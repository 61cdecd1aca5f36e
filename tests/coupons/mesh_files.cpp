#include <Model/COM/NMR_DLLInterfaces.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <filesystem>
#include <stdexcept>

#include "base/file.hpp"
#include "mesh/mesh.hpp"

using namespace fitwright;
namespace fs = std::filesystem;

namespace {

Solid plate() {
  const Region outline = subtract({rectangle(0, 0, 60, 30)}, {polygon(15, 15, 8, 64)});
  return {"plate",
          {{0, nm(0.2), grow(outline, nm(-0.3))},
           {nm(0.2), nm(4.8), outline},
           {nm(4.8), nm(5.2), subtract(outline, text("Y40a", 25, 12, 4))}}};
}

/// A folder that is gone when the scope ends.
struct Scratch {
  fs::path folder = fs::temp_directory_path() / ("fw_mesh_" + std::to_string(::getpid()));
  Scratch() { fs::create_directory(folder); }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() { fs::remove_all(folder); }
};

struct Read3mf {
  bool good = false;
  DWORD unit = 99;
  std::string name;
  Mesh mesh;
};

/// Reads the first object of a 3MF file with the library, in strict mode.
Read3mf read_3mf(const fs::path& path) {
  Read3mf out;
  NMR::PLib3MFBase *model = nullptr, *reader = nullptr, *objects = nullptr, *object = nullptr;
  BOOL there = 0;
  DWORD vertices = 0, triangles = 0, warnings = 1;
  out.good = NMR::lib3mf_createmodel(&model) == 0 && NMR::lib3mf_model_queryreader(model, "3mf", &reader) == 0 &&
             NMR::lib3mf_reader_setstrictmodeactive(reader, 1) == 0 &&
             NMR::lib3mf_reader_readfromfileutf8(reader, path.c_str()) == 0 &&
             NMR::lib3mf_reader_getwarningcount(reader, &warnings) == 0 && warnings == 0 &&
             NMR::lib3mf_model_getunit(model, &out.unit) == 0 &&
             NMR::lib3mf_model_getmeshobjects(model, &objects) == 0 &&
             NMR::lib3mf_resourceiterator_movenext(objects, &there) == 0 && there != 0 &&
             NMR::lib3mf_resourceiterator_getcurrent(objects, &object) == 0 &&
             NMR::lib3mf_meshobject_getvertexcount(object, &vertices) == 0 &&
             NMR::lib3mf_meshobject_gettrianglecount(object, &triangles) == 0;
  if (out.good) {
    std::array<char, 200> name{};
    ULONG needed = 0;
    NMR::lib3mf_object_getnameutf8(object, name.data(), name.size(), &needed);
    out.name = name.data();
    for (DWORD i = 0; i < vertices; ++i) {
      NMR::MODELMESHVERTEX v{};
      NMR::lib3mf_meshobject_getvertex(object, i, &v);
      out.mesh.vertices.push_back({v.m_fPosition[0], v.m_fPosition[1], v.m_fPosition[2]});
    }
    for (DWORD i = 0; i < triangles; ++i) {
      NMR::MODELMESHTRIANGLE t{};
      NMR::lib3mf_meshobject_gettriangle(object, i, &t);
      out.mesh.triangles.push_back({t.m_nIndices[0], t.m_nIndices[1], t.m_nIndices[2]});
    }
  }
  for (NMR::PLib3MFBase* handle : {object, objects, reader, model})
    if (handle) NMR::lib3mf_release(handle);
  return out;
}

}  // namespace

TEST_CASE("every coordinate of a mesh is exact as a 32-bit float", "[mesh]") {
  for (const auto& v : mesh_of(plate()).vertices)
    for (const double x : v) REQUIRE(static_cast<double>(static_cast<float>(x)) == x);
}

TEST_CASE("a binary STL holds the mesh to the last bit", "[mesh][stl]") {
  const Mesh mesh = mesh_of(plate());
  const std::string stl = to_stl(mesh);
  REQUIRE(stl.size() == 84 + 50 * mesh.triangles.size());
  CHECK(stl.substr(0, 5) != "solid");
  std::uint32_t count = 0;
  std::memcpy(&count, stl.data() + 80, 4);
  CHECK(count == mesh.triangles.size());
  double worst_normal = 0;
  for (std::size_t t = 0; t < count; ++t) {
    std::array<std::array<float, 3>, 4> facet{};
    std::memcpy(facet.data(), stl.data() + 84 + 50 * t, 48);
    for (std::size_t i = 0; i < 3; ++i)
      for (std::size_t k = 0; k < 3; ++k)
        REQUIRE(static_cast<double>(facet[i + 1][k]) == mesh.vertices[mesh.triangles[t][i]][k]);
    const double length = std::hypot(facet[0][0], facet[0][1], facet[0][2]);
    worst_normal = std::max(worst_normal, std::abs(length - 1));
    REQUIRE(stl.substr(84 + 50 * t + 48, 2) == std::string(2, '\0'));
  }
  CHECK(worst_normal < 1e-6);
}

TEST_CASE("a 3MF file reads back as written: millimetres, name, vertices, triangles", "[mesh][3mf]") {
  const Scratch scratch;
  const Mesh mesh = mesh_of(plate());
  const fs::path path = scratch.folder / "plate.3mf";
  REQUIRE(write_3mf(mesh, "frame \xC3\x84 <1> & \"2\"", path.string()).ok());
  const Read3mf back = read_3mf(path);
  REQUIRE(back.good);
  CHECK(back.unit == NMR::MODELUNIT_MILLIMETER);
  CHECK(back.name == "frame \xC3\x84 <1> & \"2\"");
  CHECK(back.mesh.triangles == mesh.triangles);
  REQUIRE(back.mesh.vertices.size() == mesh.vertices.size());
  double worst = 0;
  for (std::size_t i = 0; i < mesh.vertices.size(); ++i)
    for (std::size_t k = 0; k < 3; ++k)
      worst = std::max(worst, std::abs(back.mesh.vertices[i][k] - mesh.vertices[i][k]));
  CHECK(worst <= 0x1p-18);  // the library cuts after six decimals: up to one step of a float, 3.8 nm at 32 to 64 mm
  CHECK(is_closed_and_oriented(back.mesh));
  CHECK(degenerate_triangles(back.mesh) == 0);
}

TEST_CASE("equal input gives equal bytes", "[mesh][stl][3mf]") {
  const Scratch scratch;
  const Mesh first = mesh_of(plate()), second = mesh_of(plate());
  CHECK(first.vertices == second.vertices);
  CHECK(first.triangles == second.triangles);
  CHECK(to_stl(first) == to_stl(second));
  const auto bytes = [&](const Mesh& mesh, const std::string& name, const std::string& file) {
    const std::string path = (scratch.folder / file).string();
    REQUIRE(write_3mf(mesh, name, path).ok());
    return read_whole(path).value();
  };
  const std::string one = bytes(first, "plate", "a.3mf");
  CHECK(one == bytes(second, "plate", "b.3mf"));
  CHECK(one != bytes(second, "other", "c.3mf"));
}

TEST_CASE("a 3MF file that cannot be written leaves what was there", "[mesh][3mf]") {
  const Scratch scratch;
  const Mesh mesh = mesh_of(plate());
  const std::string nowhere = (scratch.folder / "missing" / "plate.3mf").string();
  const Result<Done> lost = write_3mf(mesh, "plate", nowhere);
  REQUIRE_FALSE(lost.ok());
  CHECK(lost.problems().size() == 1);
  CHECK(lost.problems()[0].code == Code::io);
  CHECK(lost.problems()[0].where.file == nowhere);

  const std::string path = (scratch.folder / "kept.3mf").string();
  REQUIRE(write_whole(path, "before").ok());
  const Result<Done> bad = write_3mf({{{0, 0, 0}, {1, 0, 0}}, {{0, 0, 1}}}, "plate", path);
  REQUIRE_FALSE(bad.ok());
  CHECK(bad.problems()[0].code == Code::io);
  CHECK(read_whole(path).value() == "before");
  CHECK_THROWS_AS(write_3mf({{{0, 0, 0}}, {{0, 1, 2}}}, "plate", path), std::logic_error);  // no such vertices
  CHECK(read_whole(path).value() == "before");
  CHECK(std::distance(fs::directory_iterator(scratch.folder), fs::directory_iterator{}) == 1);
}

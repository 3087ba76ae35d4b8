// The index of a set of files, read back by VTK's XML parser, and a directory filled whole.
#include "viz/files/pvd_index.h"

#include <vtkSmartPointer.h>
#include <vtkXMLDataElement.h>
#include <vtkXMLUtilities.h>

#include <stdexcept>

#include "tests/catch.h"
#include "tests/viz/files/scratch.h"

namespace tubewright::pvd_index_test {

namespace fs = std::filesystem;

TEST_CASE("an index is a collection that names every file with its time and part") {
  const std::string text =
      index_file(index_entry("1", 0, "a.vtp") + index_entry("0.125", 2, "loads_b.1.vtu"));
  const auto root = vtkSmartPointer<vtkXMLDataElement>::Take(
      vtkXMLUtilities::ReadElementFromString(text.c_str()));
  REQUIRE(root);
  CHECK(std::string(root->GetName()) == "VTKFile");
  CHECK(std::string(root->GetAttribute("type")) == "Collection");
  vtkXMLDataElement* collection = root->FindNestedElementWithName("Collection");
  REQUIRE(collection);
  REQUIRE(collection->GetNumberOfNestedElements() == 2);
  vtkXMLDataElement *first = collection->GetNestedElement(0),
                    *second = collection->GetNestedElement(1);
  const auto attribute = [](vtkXMLDataElement* e, const char* name) {
    const char* value = e->GetAttribute(name);
    return std::string(value == nullptr ? "none" : value);
  };
  CHECK(std::string(first->GetName()) == "DataSet");
  CHECK(attribute(first, "timestep") == "1");
  CHECK(attribute(first, "part") == "0");
  CHECK(attribute(first, "file") == "a.vtp");
  CHECK(attribute(second, "timestep") == "0.125");
  CHECK(attribute(second, "part") == "2");
  CHECK(attribute(second, "file") == "loads_b.1.vtu");
}

TEST_CASE("an index of nothing is still one that can be read") {
  const auto root = vtkSmartPointer<vtkXMLDataElement>::Take(
      vtkXMLUtilities::ReadElementFromString(index_file("").c_str()));
  REQUIRE(root);
  REQUIRE(root->FindNestedElementWithName("Collection"));
  CHECK(root->FindNestedElementWithName("Collection")->GetNumberOfNestedElements() == 0);
}

TEST_CASE("a file is put with its very bytes, and one that cannot be is named") {
  const Scratch scratch("put_file");
  const std::string bytes("a\0b\r\n", 5);
  CHECK_FALSE(put_file(scratch.path / "plain", bytes));
  CHECK(bytes_of(scratch.path / "plain") == bytes);
  const fs::path missing = scratch.path / "no" / "such" / "file";
  const auto failure = put_file(missing, bytes);
  REQUIRE(failure);
  CHECK(failure->path == missing.string());
  CHECK_FALSE(failure->reason.empty());
}

TEST_CASE("a directory is made and filled, and what its filler says is passed on") {
  const Scratch scratch("fill_directory");
  const std::string inner = (scratch.path / "x" / "y").string();
  CHECK_FALSE(fill_directory(inner, [](const fs::path& at) { return put_file(at / "f", "1"); }));
  CHECK(bytes_of(fs::path(inner) / "f") == "1");
  const auto told = fill_directory(inner, [](const fs::path&) {
    return std::optional<WriteFailure>(WriteFailure{"there", "full"});
  });
  REQUIRE(told);
  CHECK(told->path == "there");
  CHECK(told->reason == "full");
  const auto refused = fill_directory(inner, [](const fs::path&) -> std::optional<WriteFailure> {
    throw std::runtime_error("no");
  });
  REQUIRE(refused);
  CHECK(refused->path == inner);
  CHECK(refused->reason == "no");
}

TEST_CASE("a directory that cannot be made is a failure and nothing is written") {
  const Scratch scratch("no_directory");
  REQUIRE_FALSE(put_file(scratch.path / "plain", ""));
  bool called = false;
  const std::string path = (scratch.path / "plain" / "in").string();
  const auto failure = fill_directory(path, [&](const fs::path&) -> std::optional<WriteFailure> {
    called = true;
    return std::nullopt;
  });
  REQUIRE(failure);
  CHECK(failure->path == path);
  CHECK_FALSE(called);
}

}  // namespace tubewright::pvd_index_test
